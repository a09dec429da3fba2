//! When the next check is due: the unit's rule, sooner by evidence, never later.

use domain::check::facts::{Facts, Found, Marks, Why};
use domain::command::Command;
use domain::contract::Sent;
use domain::ending::due_now;
use domain::flags::Flag;
use domain::handover::known::known;
use domain::profile::Profile;
use domain::say::Say;
use domain::state::bed::{DueNow, Names};
use domain::state::screen::Screen;
use domain::{State, apply, decide};

use crate::made::{
    HOUR, at, bed, fine, marked, open_check, output, record, state_with, whole_check, wire_with, with_capture,
};

/// Hours from the end of the check to the next one, after the checks before it.
fn hours_after(before: &[Facts], facts: Facts) -> i64 {
    let state = state_with(fine());
    let wire = wire_with(&state, 1, before);
    let ended = at(0);
    let record = record(&state, &wire, facts, &Names::default(), ended);
    assert_eq!((record.due_ms - ended.wall_ms) % HOUR, 0);
    (record.due_ms - ended.wall_ms) / HOUR
}

fn set_to(profile: &Profile, mut facts: Facts, printed: &str) -> Facts {
    facts.stand.output = output(profile, printed);
    facts
}

/// ACCCN (read): checks each shift. The twelve hours of it are from memory, in the example rules.
#[test]
fn a_wide_margin_is_checked_each_shift() {
    assert_eq!(hours_after(&[], whole_check(&fine())), 12);
}

/// Eight hours at twice the threshold or less: from memory, in the example rules.
#[test]
fn at_twice_the_threshold_the_next_check_comes_sooner() {
    let p = fine();
    for (set, hours) in [("2.4", 8), ("2.3", 8), ("2.5", 12), ("3.6", 12), ("1.2", 8)] {
        assert_eq!(hours_after(&[], set_to(&p, whole_check(&p), set)), hours, "set {set} on 1.2");
    }
}

/// Own beats among the spikes at every RATE: perhaps no spike makes a beat.
#[test]
fn where_no_rate_paced_over_the_own_beats_the_next_check_is_due_now() {
    assert_eq!(hours_after(&[], marked(&fine(), Marks::NOT_PACED_OVER)), 0);
}

#[test]
fn a_rising_threshold_brings_the_next_check_forward() {
    let p = fine();
    let exact = |printed| with_capture(&p, Found::Exact, printed);
    let wide = |facts| set_to(&p, facts, "6.0");
    assert_eq!(hours_after(&[exact("1.1")], wide(exact("1.2"))), 8);
    assert_eq!(hours_after(&[exact("1.2")], wide(exact("1.2"))), 12);
    assert_eq!(hours_after(&[exact("1.3")], wide(exact("1.2"))), 12);
}

#[test]
fn thresholds_of_two_directions_are_not_compared() {
    let p = fine();
    let down = with_capture(&p, Found::Bracket, "1.0");
    let up = set_to(&p, with_capture(&p, Found::Exact, "1.2"), "6.0");
    assert_eq!(hours_after(&[down], up), 12);
}

/// SHOCK (read): six-fold at three minutes, capture lost in 18 of 36; a check is due now.
#[test]
fn after_a_shock_or_lost_beats_a_check_is_due_now() {
    let p = fine();
    for mark in [Marks::SHOCK, Marks::NO_BEATS, Marks::FOUND_DID_NOT_CAPTURE] {
        assert_eq!(hours_after(&[], marked(&p, mark)), 0, "{mark:?}");
    }
}

/// The reason stands on the bed list. A check broken off before any test has answered nothing: what made it
/// due still does.
#[test]
fn why_a_check_is_due_now_is_kept_until_a_check_has_answered_it() {
    let p = fine();
    let state = state_with(p.clone());
    let wire = wire_with(&state, 1, &[whole_check(&p)]);
    let after = |facts: Facts, before: Option<DueNow>| {
        due_now(&record(&state, &wire, facts, &Names::default(), at(0)), before)
    };
    assert_eq!(after(marked(&p, Marks::SHOCK), None), Some(DueNow::Shock));
    assert_eq!(after(marked(&p, Marks::NO_BEATS), Some(DueNow::Potassium)), Some(DueNow::NoBeats));
    assert_eq!(after(whole_check(&p), Some(DueNow::Potassium)), None, "a check done answers it");
    let mut stopped = whole_check(&p);
    (stopped.sensing, stopped.capture) = (Found::Nothing, Found::Nothing);
    (stopped.why_sensing, stopped.why_capture) = (Why::Stopped, Why::Stopped);
    assert_eq!(after(stopped, Some(DueNow::Potassium)), Some(DueNow::Potassium));
}

#[test]
fn a_stopped_check_is_still_owed_at_its_old_time() {
    let p = fine();
    let mut stopped = whole_check(&p);
    (stopped.sensing, stopped.capture) = (Found::Nothing, Found::Nothing);
    (stopped.why_sensing, stopped.why_capture) = (Why::Stopped, Why::Stopped);
    assert_eq!(hours_after(&[], stopped), 0, "nothing on record: due now");
    assert_eq!(hours_after(&[whole_check(&p)], stopped), 12, "the last check's own time");
    stopped.why_sensing = Why::NoOwnBeats;
    stopped.why_capture = Why::NoOwnBeats;
    assert_eq!(hours_after(&[], stopped), 12, "a test refused for a reason is a check done");
}

/// Each wire of the bed is due, and what rose or doubled since then only may be compared.
#[test]
fn after_the_polarity_was_exchanged_a_check_is_due_and_compares_with_none_before() {
    let p = fine();
    let mut state = state_with(p.clone());
    let low = with_capture(&p, Found::Exact, "0.6");
    state.beds = vec![bed(1, "Bay 4", vec![wire_with(&state, 1, &[low]), wire_with(&state, 2, &[low])])];
    state.screen = Screen::Happened { bed: 1 };
    let command = Command::Happened { bed: 1, why: DueNow::Polarity };
    let sent = Sent { card: state.card, command, values: Default::default(), stood_ms: None };
    let told = decide(&state, &sent, at(10)).unwrap().iter().fold(state.clone(), apply);
    for wire in &told.beds[0].wires {
        assert_eq!(wire.due_now, Some(DueNow::Polarity));
        assert_eq!(wire.alike(), []);
    }
    let thresholds = |state: &State| known(&p, &state.beds[0].wires[0]).thresholds.is_some();
    assert!(thresholds(&state) && !thresholds(&told), "as a transport sets it beside the dials");
    let doubled = |state: &State| {
        let facts = with_capture(&p, Found::Exact, "1.5");
        let made = record(state, &state.beds[0].wires[0], facts, &Names::default(), at(30));
        made.flags.iter().any(|flag| matches!(flag, Flag::Doubled { .. }))
    };
    assert!(doubled(&state) && !doubled(&told));
    let mut open = state;
    open.beds[0].wires[1].check = Some(open_check(whole_check(&p), at(5)));
    let refused = decide(&open, &sent, at(10)).unwrap_err();
    assert_eq!(refused, domain::Refusal::said(Say::EndCheckFirst), "a check has one polarity");
}
