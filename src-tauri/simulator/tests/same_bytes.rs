//! P9 across machines: chance against another implementation, and a fingerprint of a long run.

mod support;

use simulator::{
    AtrialRhythm, Chamber, Escape, Event, ExtraBeats, Heart, Origin, Signal, SpikeOutcome, SplitMix64,
    Suppression, What,
};
use support::{SECOND, dials, ventricular};

/// First four numbers of java.util.SplittableRandom (OpenJDK 17), which is SplitMix64, for three seeds.
#[test]
fn chance_is_that_of_the_published_generator() {
    let expected: [(u64, [u64; 4]); 3] = [
        (0, [0xe220a8397b1dcdaf, 0x6e789e6aa1b965f4, 0x06c45d188009454f, 0xf88bb8a8724c81ec]),
        (1_234_567, [0x599ed017fb08fc85, 0x2c73f08458540fa5, 0x883ebce5a3f27c77, 0x3fbef740e9177b3f]),
        (u64::MAX, [0xe4d971771b652c20, 0xe99ff867dbf682c9, 0x382ff84cb27281e9, 0x6d1db36ccba982d2]),
    ];
    for (seed, numbers) in expected {
        let mut chance = SplitMix64::new(seed);
        assert_eq!(numbers.map(|_| chance.next_u64()), numbers);
    }
}

#[test]
fn bounded_chance_stays_in_its_bounds_and_reaches_both_ends() {
    let mut chance = SplitMix64::new(9);
    let drawn: Vec<u32> = (0..10_000).map(|_| chance.around(1_000, 3)).collect();
    assert_eq!(drawn.iter().min(), Some(&997));
    assert_eq!(drawn.iter().max(), Some(&1_003));
    assert_eq!(chance.below(0), 0);
    assert_eq!(chance.around(5, 0), 5);
}

/// One hour of a heart that uses every kind of chance. A change of this number is a change of every recorded
/// run: it must be meant, and said.
#[test]
fn one_hour_has_the_fingerprint_it_has_on_every_machine() {
    let events = ventricular(restless(), dials(70, 2_000, 5_900)).run(3_600 * SECOND);
    assert_eq!((events.len(), fingerprint(&events)), (FINGERPRINT_EVENTS, FINGERPRINT));
}

const FINGERPRINT_EVENTS: usize = 16_779;
const FINGERPRINT: u64 = 40_663_276_018_107_997;

fn restless() -> Heart {
    let habit = Suppression { longest_us: 4_000_000, builds_over_beats: 30, wakes_over_beats: 5 };
    Heart {
        atrium: AtrialRhythm::Fibrillating { fastest_us: 600_000, slowest_us: 1_600_000, wave_uv: 100 },
        escape: Some(Escape { interval_us: 1_300_000, scatter_us: 60_000, suppression: Some(habit) }),
        extra: Some(ExtraBeats {
            chamber: Chamber::Ventricle,
            one_in: 12,
            coupling_us: 480_000,
            signal_uv: 3_000,
        }),
        signal: Signal { own_uv: 6_000, own_scatter_uv: 400, ..Signal::default() },
        ..Heart::default()
    }
}

/// FNV-1a, 64 bits, over time and kind of each event (Fowler, Noll, Vo).
fn fingerprint(events: &[Event]) -> u64 {
    let bytes = events.iter().flat_map(|event| {
        let at = event.at_us.to_le_bytes();
        at.into_iter().chain([kind(event.what)])
    });
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

fn kind(what: What) -> u8 {
    match what {
        What::Beat { chamber, origin } => {
            let origin = match origin {
                Origin::Own => 0,
                Origin::Extra => 1,
                Origin::Paced => 2,
            };
            origin + if chamber == Chamber::Atrium { 3 } else { 0 }
        }
        What::Spike { outcome, .. } => match outcome {
            SpikeOutcome::Captured => 10,
            SpikeOutcome::BelowThreshold => 11,
            SpikeOutcome::NotExcitable => 12,
            SpikeOutcome::NotDelivered => 13,
        },
        What::Mark(mark) => mark.letters().as_bytes()[1],
        What::Pulse { .. } => 20,
        What::NoPulse => 21,
        What::VentricularFibrillation => 22,
    }
}
