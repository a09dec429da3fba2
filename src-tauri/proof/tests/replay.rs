//! The strip of a run shows what the run met.
#![allow(clippy::unwrap_used, reason = "a failing test stops")]

use proof::{Case, play_telling, replay};
use simulator::Event;

/// Before this the monitor ran without a person.
const PERSON_COMES_US: u64 = 12_000_000;

#[test]
fn a_run_looked_at_again_has_the_same_events() {
    let mut turns = 0;
    for seed in [5, 21, 300, 4_711] {
        let case = Case::drawn(seed).unwrap();
        let mut met: Vec<Event> = Vec::new();
        let played = play_telling(&case, &mut |_, event| met.push(event)).unwrap();
        let mut again: Vec<Event> = Vec::new();
        let mut samples = 0;
        replay(&case, &played, &mut |batch, events| {
            samples += batch.ecg.len();
            again.extend(events);
        })
        .unwrap();
        again.retain(|event| (PERSON_COMES_US + 1..=played.ended_us).contains(&event.at_us));
        assert_eq!(again, met, "seed {seed}");
        assert!(samples as u64 >= played.ended_us / 2_000);
        turns += played.bystander.turns.len();
    }
    assert!(turns > 20, "{turns} turns");
}
