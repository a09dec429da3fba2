//! Each harm is seen when it happens: runs that came to no harm, changed in one thing.

use std::sync::Arc;

use domain::check::facts::Found;
use domain::flags::Flag;
use domain::record::Record;
use proof::{
    Bystander, Case, End, Fibrillation, Gap, Happens, Harm, Mishap, Place, Played, SpikeOnT, Turn, harms,
    play,
};
use simulator::{Chamber, Event, Origin, SpikeOutcome, What};

/// The first plain run with an exact capture and sensing threshold that leaves room above and below.
pub fn exact() -> (Case, Played) {
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

/// A gap at the lowest OUTPUT, in a heart that may fibrillate: that is no excuse.
fn a_gap(case: &Case, played: &Played, us: u64) -> Gap {
    let lowest = case.profile.output_text(0).to_owned();
    let dials = Arc::new(observer::Reading { output: lowest, ..played.stays.clone() });
    let from = Place { at_us: 50_000_000, stage: "StageSensing", asks: "AskSpikes", dials };
    Gap { us, from, unseen_us: 0, then: None, fibrillating: false }
}

fn turned(dial: observer::Dial, from: &Gap, to: observer::Reading) -> Turn {
    Turn { dial, from: from.from.dials.clone(), to: Arc::new(to) }
}

fn with_a_gap(heart: simulator::Heart, change: impl Fn(&Case, &mut Played, &mut Gap)) -> Vec<Harm> {
    with_a_gap_in(heart, |case| case.heart.capture, change)
}

fn with_a_gap_in(
    heart: simulator::Heart,
    capture: impl Fn(&Case) -> simulator::Capture,
    change: impl Fn(&Case, &mut Played, &mut Gap),
) -> Vec<Harm> {
    let (mut case, mut played) = exact();
    assert_eq!(harms(&case, &played), []);
    case.heart.capture = capture(&case);
    // The thresholds that were found are no matter here.
    (played.record, played.end) = (None, End::Left);
    let vulnerable =
        Some(simulator::Vulnerable { from_us: 250_000, until_us: 380_000, one_in: 1, wave_uv: 0 });
    case.heart = simulator::Heart {
        atrium: heart.atrium,
        conduction: heart.conduction,
        escape: heart.escape,
        wire: heart.wire,
        standstill: None,
        vulnerable,
        ..case.heart
    };
    played.bystander.turns.clear();
    let mut gap = a_gap(&case, &played, 30_000_000);
    change(&case, &mut played, &mut gap);
    played.bystander.gaps.push(gap);
    harms(&case, &played)
}

#[test]
fn a_time_without_beats_is_seen_and_what_was_turned_first() {
    use observer::Dial::{Output, Rate};
    let sinus = || simulator::Heart::sinus(60);
    let atrial = simulator::Heart { wire: Chamber::Atrium, ..sinus() };
    for heart in [sinus(), simulator::Heart::escaping(40), atrial] {
        let seen = with_a_gap(heart, |_, _, _| {});
        assert!(matches!(seen.as_slice(), [Harm::WithoutBeats(_)]), "{seen:?}");
    }
    let rate = |_: &Case, played: &mut Played, gap: &mut Gap| {
        gap.then = Some(turned(Rate, gap, played.stays.clone()));
    };
    let seen = with_a_gap(sinus(), rate);
    assert!(matches!(seen.as_slice(), [Harm::WithoutBeats(_), Harm::OutputNotFirst(_)]), "{seen:?}");
    let down = |_: &Case, _: &mut Played, gap: &mut Gap| {
        let stays = gap.from.dials.as_ref().clone();
        gap.then = Some(turned(Output, gap, stays));
    };
    let seen = with_a_gap(sinus(), down);
    assert!(matches!(seen.as_slice(), [Harm::WithoutBeats(_), Harm::OutputNotFirst(_)]), "{seen:?}");
}

/// In a heart that never beats by itself OUTPUT must have gone up within one act, and then it beats.
#[test]
fn a_heart_that_never_beats_by_itself_asks_for_output_up() {
    let silent = simulator::Heart::silent;
    let seen = with_a_gap(silent(), |_, _, _| {});
    assert!(matches!(seen.as_slice(), [Harm::WithoutBeats(_), Harm::NotRestored(_)]), "{seen:?}");
    // Shorter than an act takes.
    assert_eq!(with_a_gap(silent(), |_, _, gap| gap.us = 8_900_000), []);
    let at = |seconds: u64, output: fn(&Case) -> u8| {
        move |case: &Case, played: &mut Played, gap: &mut Gap| {
            let output = case.profile.output_text(output(case)).to_owned();
            let to = observer::Reading { output, ..played.stays.clone() };
            played.bystander.turns = vec![(gap.from.at_us + seconds * 1_000_000, Arc::new(to))];
        }
    };
    let seen = with_a_gap(silent(), at(8, |_| 1));
    assert!(matches!(seen.as_slice(), [Harm::WithoutBeats(_)]), "{seen:?}");
    for not_restored in [at(10, |_| 1), at(8, |_| 0)] {
        let seen = with_a_gap(silent(), not_restored);
        assert!(matches!(seen.as_slice(), [Harm::WithoutBeats(_), Harm::NotRestored(_)]), "{seen:?}");
    }
    // Where no output captures nobody brings beats, but OUTPUT goes up all the same.
    let in_vain = |case: &Case| simulator::Capture {
        going_up_micro: case.profile.output_at(case.profile.output_last()) * 2,
        ..case.heart.capture
    };
    let seen = with_a_gap_in(silent(), in_vain, |_, _, _| {});
    assert!(matches!(seen.as_slice(), [Harm::NotRestored(_)]), "{seen:?}");
    assert_eq!(with_a_gap_in(silent(), in_vain, at(8, |_| 1)), []);
    // Already where NO BEATS asks: nothing is left to turn.
    let stood = |_: &Case, played: &mut Played, gap: &mut Gap| {
        played.bystander.stood = vec![gap.from.at_us + 6_000_000];
    };
    assert_eq!(with_a_gap_in(silent(), in_vain, stood), []);
    let at_maximum = |case: &Case, _: &mut Played, gap: &mut Gap| {
        let output = case.profile.output_text(case.profile.output_last()).to_owned();
        gap.from.dials = Arc::new(observer::Reading { output, ..gap.from.dials.as_ref().clone() });
    };
    assert_eq!(with_a_gap_in(silent(), in_vain, at_maximum), []);
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

/// Fibrillation has no beats, so that help takes over: what led there is counted all the same.
#[test]
fn a_spike_that_makes_the_ventricle_fibrillate_is_seen_though_help_takes_over() {
    let (case, mut played) = exact();
    let output = case.profile.output_text(case.profile.output_last()).to_owned();
    played.record = None;
    played.end = End::HandedOver;
    played.stays = observer::Reading { mv: None, output, ..played.stays };
    assert_eq!(harms(&case, &played), []);
    let found = Arc::new(case.found.clone());
    let mut bystander = Bystander::new(found, case.profile.output_text(0).to_owned());
    bystander.card("StageSensing", "AskEveryBeatMarked", 1_000_000);
    let events = |bystander: &mut Bystander| {
        let own = What::Beat { chamber: Chamber::Ventricle, origin: Origin::Own };
        let captured = What::Spike { outcome: SpikeOutcome::Captured, visible: true };
        for (at_us, what) in
            [(2_000_000, own), (2_300_000, captured), (2_300_000, What::VentricularFibrillation)]
        {
            bystander.see(Event { at_us, what }, Chamber::Ventricle);
        }
    };
    let seen_by = |bystander| harms(&case, &Played { bystander, ..played.clone() });
    // At the number that was found nobody raised anything.
    let mut as_found = bystander.clone();
    events(&mut as_found);
    assert_eq!(seen_by(as_found), []);
    let raised = observer::Reading { mv: None, ..case.found.clone() };
    bystander.turned(observer::Dial::Mv, Arc::new(raised), 1_500_000);
    events(&mut bystander);
    let seen = seen_by(bystander);
    let [Harm::SpikeOnTByCard(_), Harm::FibrillationByCard(Fibrillation { in_first_acts: false, .. })] =
        seen.as_slice()
    else {
        panic!("{seen:?}");
    };
}

#[test]
fn what_the_check_left_blind_or_too_low_is_seen_where_other_things_are_left_to_chance() {
    let (case, played) = exact();
    let case = Case { plain: false, ..case };
    let seen_by = |change: &dyn Fn(&mut Record)| {
        let mut played = played.clone();
        change(played.record.as_mut().unwrap());
        harms(&case, &played)
    };
    let blind = case.profile.mv_last();
    assert_eq!(seen_by(&|record| record.stays_at.mv = blind), [Harm::BlindUnsaid]);
    assert_eq!(seen_by(&|record| record.output_micro /= 3), [Harm::OutputBelowRule]);
    let of_before = |record: &mut Record| {
        record.stays_at.mv = blind;
        record.flags = vec![Flag::FoundAsynchronous, Flag::DidNotSeeAsFound];
    };
    assert_eq!(seen_by(&of_before), [Harm::BlindUnsaid]);
    let of_now = |record: &mut Record| {
        record.stays_at.mv = blind;
        record.flags = vec![Flag::StillBlind];
    };
    assert_eq!(seen_by(&of_now), []);
}

/// An atrial wire that marks each conducted QRS seems to see each P wave.
#[test]
fn an_atrial_wire_that_is_held_by_the_qrs_is_not_called_blind() {
    let run = |seed| {
        let case = Case::drawn(seed).unwrap();
        let played = play(&case).unwrap();
        (case, played)
    };
    let fits = |(case, played): &(Case, Played)| {
        let atrial = case.heart.wire == Chamber::Atrium && case.heart.conduction.is_some();
        let steady = case.has_a_steady_signal() && !case.plain;
        let sensed = |record: &Record| record.sensing == Found::Exact && record.flags.is_empty();
        atrial && steady && played.record.as_ref().is_some_and(sensed)
    };
    let (mut case, mut played) = (1..5_000).map(run).find(fits).unwrap();
    assert_eq!(harms(&case, &played), []);
    let blind = case.profile.mv_last();
    played.record.as_mut().unwrap().stays_at.mv = blind;
    case.heart.signal.far_field_uv = case.profile.mv_at(blind) - 1;
    assert_eq!(harms(&case, &played), [Harm::BlindUnsaid]);
    case.heart.signal.far_field_uv = case.profile.mv_at(blind);
    assert_eq!(harms(&case, &played), []);
}

/// What captured before a shock may not capture after it: the maximum is one act more. OUTPUT up is due no later.
#[test]
fn after_a_shock_the_maximum_is_one_act_more() {
    let (mut case, mut played) = exact();
    case.heart = simulator::Heart { capture: case.heart.capture, ..simulator::Heart::silent() };
    (played.record, played.end) = (None, End::Left);
    let seen_after = |case: &Case, us: u64, up_after_us: u64| {
        let gap = a_gap(case, &played, us);
        let output = case.profile.output_text(1).to_owned();
        let up = Arc::new(observer::Reading { output, ..played.stays.clone() });
        let mut played = played.clone();
        played.bystander.turns = vec![(gap.from.at_us + up_after_us, up)];
        played.bystander.gaps = vec![gap];
        harms(case, &played)
    };
    assert_eq!(seen_after(&case, 8_900_000, 8_000_000), []);
    assert!(matches!(seen_after(&case, 9_100_000, 8_000_000).as_slice(), [Harm::WithoutBeats(_)]));
    case.shift.happens = Some(Happens { at_us: 20_000_000, what: Mishap::Shock });
    assert_eq!(seen_after(&case, 13_900_000, 8_000_000), []);
    assert!(matches!(seen_after(&case, 14_100_000, 8_000_000).as_slice(), [Harm::WithoutBeats(_)]));
    assert!(matches!(seen_after(&case, 13_900_000, 9_500_000).as_slice(), [Harm::NotRestored(_)]));
}
