//! What a shift brings besides the check itself: the next check of the same wire, an order, something that happens.

use domain::check::facts::{Marks, Why};
use domain::flags::Flag;
use proof::{Case, End, Mishap, Played, play, play_shift};
use simulator::SpikeOutcome;

fn cases(seeds: u64, wanted: impl Fn(&Case) -> bool) -> impl Iterator<Item = Case> {
    (1..seeds).map(|seed| Case::drawn(seed).unwrap()).filter(move |case| wanted(case))
}

/// What an earlier check measured is known to the next: another question first, and other ways through sensing.
#[test]
fn the_second_check_of_a_wire_is_led_on_what_the_first_has_left() {
    let (mut seconds, mut changed, mut turned) = (0, 0, 0);
    for case in cases(400, |case| case.shift.later.is_some()) {
        let mut ended: Vec<(Case, Played)> = Vec::new();
        play_shift(&case, &mut |case, played| ended.push((case.clone(), played.clone()))).unwrap();
        let [(_, first), (again, second)] = ended.as_slice() else {
            assert_eq!(ended[0].1.end, End::HandedOver);
            continue;
        };
        seconds += 1;
        let Some(record) = &first.record else { continue };
        assert_eq!(second.answers[0].asks, "AskSamePatient");
        assert_eq!((&again.found.rate, &again.found.mv), (&first.stays.rate, &first.stays.mv));
        turned += u32::from(again.found.output != first.stays.output);
        assert!(second.record.as_ref().is_none_or(|other| other.id != record.id));
        changed += u32::from(again.truth() != case.truth());
    }
    assert!(seconds > 50 && changed > seconds / 3 && turned > 2, "{seconds}, {changed}, {turned}");
}

#[test]
fn asynchronous_that_is_ordered_stays() {
    let ordered = |case: &Case| case.shift.ordered && case.found.mv.is_none() && case.shift.happens.is_none();
    let mut stayed = 0;
    for case in cases(4_000, ordered) {
        let played = play(&case).unwrap();
        let said = |record: &domain::record::Record| record.facts.marks.has(Marks::ASYNCHRONOUS_ORDERED);
        if played.record.as_ref().is_some_and(said) {
            assert_eq!(played.stays.mv, None, "seed {}", case.seed);
            stayed += 1;
        }
    }
    assert!(stayed > 10, "{stayed}");
}

#[test]
fn a_shock_in_mid_check_is_said_and_output_ends_at_its_maximum() {
    let shock = |case: &Case| case.shift.happens.is_some_and(|happens| happens.what == Mishap::Shock);
    let mut met = 0;
    for case in cases(4_000, shock) {
        let Some(record) = play(&case).unwrap().record else { continue };
        if record.flags.contains(&Flag::Shock) {
            assert_eq!(record.stays_at.output, case.profile.output_last(), "seed {}", case.seed);
            assert!(record.facts.why_capture == Why::Shock || record.facts.no_beats, "seed {}", case.seed);
            met += 1;
        }
    }
    assert!(met > 5, "{met}");
}

/// From then on no spike is delivered; the bystander sees to it that OUTPUT is turned up all the same.
#[test]
fn a_lead_lost_in_mid_check_delivers_nothing() {
    let lost = |case: &Case| case.shift.happens.is_some_and(|happens| happens.what == Mishap::LeadLost);
    let mut met = 0;
    for case in cases(1_500, lost) {
        let at_us = case.shift.happens.unwrap().at_us;
        let mut later = Vec::new();
        let mut tell = |_: &observer::Reading, event: simulator::Event| {
            if let simulator::What::Spike { outcome, .. } = event.what
                && event.at_us > at_us + 1_000
            {
                later.push(outcome);
            }
        };
        let played = proof::play_telling(&case, &mut tell).unwrap();
        assert!(later.iter().all(|outcome| *outcome == SpikeOutcome::NotDelivered), "seed {}", case.seed);
        met += u32::from(played.ended_us > at_us && !later.is_empty());
    }
    assert!(met > 3, "{met}");
}
