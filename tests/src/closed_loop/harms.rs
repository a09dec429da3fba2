//! Each harm is seen when it happens: runs that came to no harm, changed in one thing.

use std::sync::Arc;

use domain::check::facts::Found;
use domain::record::Record;
use proof::{Bystander, Case, End, Gap, Harm, Place, Played, SpikeOnT, harms, play};
use simulator::{Chamber, Event, Origin, SpikeOutcome, What};

/// The first plain run with an exact capture and sensing threshold that leaves room above and below.
fn exact() -> (Case, Played) {
    let run = |seed| {
        let case = Case::drawn(seed).unwrap();
        let played = play(&case).unwrap();
        (case, played)
    };
    let fits = |(case, played): &(Case, Played)| {
        let in_the_middle = |record: &Record| {
            let (facts, profile) = (&record.facts, &case.profile);
            record.capture == Found::Exact
                && record.sensing == Found::Exact
                && (1..profile.mv_last()).contains(&facts.sensing_at)
                && facts.found.rate > 0
                && (1..profile.output_last()).contains(&record.stays_at.output)
                && record.flags.is_empty()
        };
        let ventricle = case.heart.wire == Chamber::Ventricle;
        case.plain && ventricle && played.record.as_ref().is_some_and(in_the_middle)
    };
    (1..2_000).map(run).find(fits).unwrap()
}

fn with_record(change: impl Fn(&mut Record)) -> Vec<Harm> {
    let (case, mut played) = exact();
    assert_eq!(harms(&case, &played), []);
    change(played.record.as_mut().unwrap());
    harms(&case, &played)
}

#[test]
fn a_threshold_one_position_off_is_untrue() {
    assert_eq!(with_record(|record| record.facts.capture_at += 1), [Harm::CaptureUntrue]);
    assert_eq!(with_record(|record| record.facts.capture_at -= 1), [Harm::CaptureUntrue]);
    assert_eq!(with_record(|record| record.facts.sensing_at += 1), [Harm::SensingUntrue]);
    assert_eq!(with_record(|record| record.facts.sensing_at -= 1), [Harm::SensingUntrue]);
}

#[test]
fn an_output_below_the_rule_is_seen() {
    assert_eq!(with_record(|record| record.output_micro /= 3), [Harm::OutputBelowRule]);
}

#[test]
fn a_rate_or_a_number_left_wrong_is_seen() {
    assert_eq!(with_record(|record| record.stays_at.rate = 0), [Harm::RateBelowFound]);
    let (case, _) = exact();
    let blind = case.profile.mv_last();
    assert!(case.profile.mv_at(blind) > case.truth().smallest_signal_uv);
    assert_eq!(with_record(|record| record.stays_at.mv = blind), [Harm::BlindUnsaid]);
}

#[test]
fn dials_that_stand_elsewhere_than_recorded_are_seen() {
    let (case, mut played) = exact();
    played.stays.output = case.profile.output_text(0).to_owned();
    assert_eq!(harms(&case, &played), [Harm::StaysElsewhere]);
}

#[test]
fn help_called_with_output_below_maximum_is_seen() {
    let (case, mut played) = exact();
    played.record = None;
    played.end = End::HandedOver;
    assert_eq!(harms(&case, &played), [Harm::EmergencyBelowMaximum]);
}

#[test]
fn a_time_without_beats_is_seen_and_what_was_turned_first() {
    let (mut case, mut played) = exact();
    case.heart = simulator::Heart { vulnerable: None, standstill: None, ..case.heart };
    let dials = Arc::new(played.stays.clone());
    let from = Place { at_us: 50_000_000, stage: "StageSensing", asks: "AskSpikes", dials: dials.clone() };
    let then = Some((observer::Dial::Rate, dials));
    let gap = Gap { us: 30_000_000, from, then, fibrillating: false };
    played.bystander.gaps.push(gap.clone());
    assert_eq!(harms(&case, &played), [Harm::WithoutBeats(gap.clone()), Harm::OutputNotFirst(gap)]);
}

/// Asynchronous, at this OUTPUT or as left.
fn with_a_spike_on_a_t_wave(output: Option<fn(&Case) -> &str>) {
    let (case, mut played) = exact();
    let output = output.map_or(played.stays.output.clone(), |output| output(&case).to_owned());
    let dials = Arc::new(observer::Reading { mv: None, output, ..played.stays.clone() });
    let place = Place { at_us: 50_000_000, stage: "StageSensing", asks: "AskEveryBeatMarked", dials };
    let spike =
        SpikeOnT { after_us: 300_000, behind: Origin::Own, hidden: false, in_first_acts: false, place };
    played.bystander.spikes_on_t.push(spike.clone());
    assert_eq!(harms(&case, &played), [Harm::SpikeOnTByCard(spike)]);
}

#[test]
fn a_spike_on_a_t_wave_at_a_raised_number_is_seen() {
    with_a_spike_on_a_t_wave(None);
}

#[test]
fn a_spike_on_a_t_wave_at_minimum_output_is_no_less_a_harm() {
    with_a_spike_on_a_t_wave(Some(|case| case.profile.output_text(0)));
}

/// From NO BEATS to a few seconds after the first last look: what the first acts cost is counted, and no harm of a
/// card. Afterwards it is one again.
#[test]
fn a_spike_on_a_t_wave_in_the_first_acts_is_counted_beside_the_harms() {
    let (case, played) = exact();
    let dials = Arc::new(observer::Reading { mv: None, ..played.stays.clone() });
    let mut bystander = Bystander::new(dials, "0.1".to_owned());
    let spike_at = |bystander: &mut Bystander, at_us: u64| {
        let own = What::Beat { chamber: Chamber::Ventricle, origin: Origin::Own };
        bystander.see(Event { at_us: at_us - 300_000, what: own }, Chamber::Ventricle);
        let captured = What::Spike { outcome: SpikeOutcome::Captured, visible: true };
        bystander.see(Event { at_us, what: captured }, Chamber::Ventricle);
    };
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
