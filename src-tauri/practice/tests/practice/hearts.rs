//! What an exercise says of its heart is what the heart does.

use std::collections::BTreeSet;

use domain::check::facts::Dial::{self, Mv, Output, Rate};
use practice::{ExerciseId as Id, Run};
use simulator::{Chamber, Event, Origin, What};

use crate::script::exercise;

/// Turned so after two seconds, then lived for so long.
fn lived(id: Id, seed: u64, turns: &[(Dial, u8)], s: u64) -> Vec<Event> {
    let mut run = Run::new(exercise(id), seed).unwrap();
    let mut events = Vec::new();
    while run.now_us() < s * 1_000_000 {
        if run.now_us() == 2_000_000 {
            turns.iter().for_each(|(dial, to)| run.turn(*dial, *to).unwrap());
        }
        run.next_batch().unwrap();
        events.extend_from_slice(run.events());
    }
    events
}

/// RATE below the own beats, a number that sees none of them, OUTPUT as found: spikes fall on T waves.
#[test]
fn a_spike_on_a_t_wave_starts_fibrillation_where_the_heart_is_vulnerable_and_nowhere_else() {
    let blind = [(Rate, 25), (Mv, 30)];
    let fibrillates = |id, seed| {
        lived(id, seed, &blind, 90).iter().any(|event| event.what == What::VentricularFibrillation)
    };
    let seeds = |id| (1..13).filter(|seed| fibrillates(id, *seed)).count();
    assert!(seeds(Id::HighThreshold) > 0);
    assert_eq!(seeds(Id::Quiet), 0);
}

#[test]
fn spikes_below_a_set_output_are_on_no_monitor() {
    let visible = |id| {
        let shown = |event: &Event| match event.what {
            What::Spike { visible, .. } if event.at_us > 3_000_000 => Some(visible),
            What::Spike { .. }
            | What::Beat { .. }
            | What::Mark(_)
            | What::Pulse { .. }
            | What::NoPulse
            | What::VentricularFibrillation => None,
        };
        lived(id, 1, &[(Output, 0), (Rate, 45)], 20).iter().filter_map(shown).collect::<BTreeSet<bool>>()
    };
    assert_eq!(visible(Id::FoundAsynchronous), BTreeSet::from([false]));
    assert_eq!(visible(Id::NoOwnBeats), BTreeSet::from([true]));
}

/// Paced by nothing: RATE stands far below.
#[test]
fn own_beats_scatter_where_the_exercise_says_so() {
    let lengths = |id| {
        let events = lived(id, 1, &[(Rate, 0)], 40);
        let own = events.iter().filter(|event| {
            event.at_us > 10_000_000
                && matches!(event.what, What::Beat { chamber: Chamber::Atrium, origin: Origin::Own })
        });
        let own: Vec<u64> = own.map(|event| event.at_us).collect();
        own.windows(2).map(|pair| pair[1] - pair[0]).collect::<BTreeSet<u64>>()
    };
    assert!(lengths(Id::ExtraBeats).len() > 10);
    assert!(lengths(Id::HighThreshold).len() <= 2, "to the microsecond");
}
