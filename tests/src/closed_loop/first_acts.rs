//! What the first acts for a heart without beats, or after a shock, cost: counted beside the harms, and how long.

use std::sync::Arc;

use proof::{Bystander, Played, harms};
use simulator::{Chamber, Event, Origin, SpikeOutcome, What};

use super::harms::exact;

fn spike_at(bystander: &mut Bystander, at_us: u64) {
    let own = What::Beat { chamber: Chamber::Ventricle, origin: Origin::Own };
    bystander.see(Event { at_us: at_us - 300_000, what: own }, Chamber::Ventricle);
    let captured = What::Spike { outcome: SpikeOutcome::Captured, visible: true };
    bystander.see(Event { at_us, what: captured }, Chamber::Ventricle);
}

/// From NO BEATS to a few seconds after the first last look: what the first acts cost is counted, and no harm of a
/// card. Afterwards it is one again.
#[test]
fn a_spike_on_a_t_wave_in_the_first_acts_is_counted_beside_the_harms() {
    let (case, played) = exact();
    let dials = Arc::new(observer::Reading { mv: None, ..played.stays.clone() });
    let mut bystander = Bystander::new(dials, "0.1".to_owned());
    bystander.card("StageSensing", "AskSpikes", 1_000_000);
    spike_at(&mut bystander, 2_000_000);
    bystander.card("StageTrouble", "EmergencyTitle", 3_000_000);
    spike_at(&mut bystander, 4_000_000);
    bystander.card("StageConfirm", "AskConfirm", 20_000_000);
    spike_at(&mut bystander, 21_000_000);
    bystander.card("StageSet", "AskMarkedOrPaced", 22_000_000);
    spike_at(&mut bystander, 26_000_000);
    spike_at(&mut bystander, 28_000_000);
    let in_first_acts: Vec<_> = bystander.spikes_on_t.iter().map(|spike| spike.in_first_acts).collect();
    assert_eq!(in_first_acts, [false, true, true, true, false]);

    bystander.card("StageTrouble", "AskNoBeats", 40_000_000);
    spike_at(&mut bystander, 129_000_000);
    spike_at(&mut bystander, 131_000_000);
    assert_eq!(
        bystander.spikes_on_t.iter().rev().map(|spike| spike.in_first_acts).take(2).collect::<Vec<_>>(),
        [false, true]
    );
    bystander.gaps.clear();
    let counted = harms(&case, &Played { bystander, ..played });
    assert_eq!(counted.len(), 3, "{counted:?}");
}

/// What is wrong over the last look leaves it unanswered; out of asynchronous each number takes two acts, and all of
/// it is over ninety seconds behind the emergency card.
#[test]
fn the_first_acts_go_on_until_a_number_was_tried() {
    let (_, played) = exact();
    let at = |mv: &str| Arc::new(observer::Reading { mv: Some(mv.to_owned()), ..played.stays.clone() });
    let mut bystander = Bystander::new(at("2.0"), "0.1".to_owned());
    bystander.card("StageTrouble", "EmergencyTitle", 10_000_000);
    bystander.card("StageConfirm", "AskConfirm", 20_000_000);
    bystander.card("StageTrouble", "AskPulse", 21_000_000);
    bystander.card("StageRead", "ReadBackTitle", 22_000_000);
    spike_at(&mut bystander, 35_000_000);
    bystander.card("StageConfirm", "AskConfirm", 40_000_000);
    bystander.card("StageSet", "AskMarkedOrPaced", 42_000_000);
    bystander.turned(observer::Dial::Mv, at("1.0"), 46_000_000);
    spike_at(&mut bystander, 55_000_000);
    spike_at(&mut bystander, 57_000_000);
    bystander.turned(observer::Dial::Mv, at("0.5"), 58_000_000);
    spike_at(&mut bystander, 59_000_000);
    let in_first_acts: Vec<_> = bystander.spikes_on_t.iter().map(|spike| spike.in_first_acts).collect();
    assert_eq!(in_first_acts, [true, true, false, false]);

    let mut slow = Bystander::new(at("2.0"), "0.1".to_owned());
    slow.card("StageTrouble", "EmergencyTitle", 10_000_000);
    slow.card("StageConfirm", "AskConfirm", 92_000_000);
    slow.card("StageSet", "AskMarkedOrPaced", 94_000_000);
    slow.turned(observer::Dial::Mv, at("1.0"), 96_000_000);
    spike_at(&mut slow, 99_000_000);
    spike_at(&mut slow, 101_000_000);
    assert_eq!(slow.spikes_on_t.iter().map(|spike| spike.in_first_acts).collect::<Vec<_>>(), [true, false]);
}

/// A shock in the search: the list asks for OUTPUT first, and the number that the search had raised comes last.
#[test]
fn a_shock_begins_first_acts() {
    let (_, played) = exact();
    let mut bystander = Bystander::new(Arc::new(played.stays), "0.1".to_owned());
    bystander.card("StageTrouble", "AskPulse", 10_000_000);
    spike_at(&mut bystander, 11_000_000);
    bystander.told_of_a_shock(12_000_000);
    bystander.card("StageRestore", "RestoreTitle", 12_000_000);
    spike_at(&mut bystander, 14_000_000);
    bystander.card("StageConfirm", "AskConfirm", 20_000_000);
    bystander.card("StageConfirm", "GuardedTitle", 40_000_000);
    spike_at(&mut bystander, 44_000_000);
    spike_at(&mut bystander, 46_000_000);
    let in_first_acts: Vec<_> = bystander.spikes_on_t.iter().map(|spike| spike.in_first_acts).collect();
    assert_eq!(in_first_acts, [false, true, true, false]);
}
