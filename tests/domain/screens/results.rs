//! The record as numbers and as printed; the result screen says where each dial stays, and why.

use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, FirstLook, Found, Marks, NONE, Own, Why};
use domain::contract::{Outcome, Row, Shape, TickRole};
use domain::record::Record;
use domain::say::{Say, dial_name};
use domain::state::bed::Names;
use domain::state::screen::Screen;
use domain::state::swap::{Outcome as SwapOutcome, SwapRecord};
use domain::swap::facts::Work;
use domain::{State, view};

use uuid::Uuid;

use crate::made::{at, bed, fine, output, record, state_with, whole_check, wire, wire_with, with_capture};

fn made(facts: domain::check::facts::Facts) -> (State, Record) {
    let state = state_with(fine());
    let wire = wire(1, "example-fine-current");
    let record = record(&state, &wire, facts, &Names::default(), at(0));
    (state, record)
}

fn screen_of(mut state: State, record: Record) -> Outcome<Say> {
    let mut one = wire(1, "example-fine-current");
    one.records.push(record);
    state.beds = vec![bed(1, "Bay 2", vec![one])];
    state.screen = Screen::Result { bed: 1, wire: 1, back: 0 };
    let Shape::Result(outcome) = view(&state, at(0)).shape else { panic!("the result") };
    outcome
}

fn row<'r>(outcome: &'r Outcome<Say>, label: &Say) -> &'r Row<Say> {
    outcome.rows.iter().find(|row| row.label == *label).unwrap_or_else(|| panic!("no row {label:?}"))
}

fn stays(dial: Dial) -> Say {
    Say::RowStays { dial: dial_name(dial) }
}

fn ma(figure: &str) -> Say {
    Say::FigureUnit { figure: figure.to_owned(), unit: Box::new(Say::MilliAmp) }
}

#[test]
fn a_record_holds_numbers_and_what_the_dials_print() {
    let (_, record) = made(whole_check(&fine()));
    assert_eq!((record.capture_micro, record.capture_text.as_deref()), (Some(1_200), Some("1.2")));
    assert_eq!((record.sensing_uv, record.sensing_text.as_deref()), (Some(5_000), Some("5.0")));
    assert_eq!((record.output_micro, record.mv_uv), (3_600, Some(2_000)));
    assert_eq!(record.held_down_text.as_deref(), Some("1.1"));
    assert_eq!((record.multiple.as_deref(), record.found_multiple.as_deref()), (Some("3"), Some("5")));
    assert_eq!(record.own, Some((52, 52)));
    assert!(record.read && record.example_rules && !record.practice);
}

/// The example rule: from double (CTS) and 1 mA above (ACCCN) to three times; below half (CTS), not
/// under the lowest number of 1.0 mV (from memory).
#[test]
fn the_bands_of_the_rules_are_positions_of_the_dial() {
    let p = fine();
    let (_, record) = made(whole_check(&p));
    assert_eq!(record.output_band, Some((output(&p, "2.4"), output(&p, "3.6"))));
    let number = |printed| p.read_mv(printed).expect("a number");
    assert_eq!(record.mv_band, Some((number("1.0"), number("2.4"))));
}

#[test]
fn a_multiple_is_rounded_down() {
    let p = fine();
    let mut facts = with_capture(&p, Found::Exact, "1.3");
    facts.stand.output = output(&p, "3.8");
    assert_eq!(made(facts).1.multiple.as_deref(), Some("2.9"), "2.92 times");
}

#[test]
fn a_record_of_no_test_holds_no_threshold() {
    let mut facts = whole_check(&fine());
    (facts.sensing, facts.capture) = (Found::Nothing, Found::Nothing);
    let (_, record) = made(facts);
    assert_eq!((record.sensing_uv, record.capture_micro, record.multiple), (None, None, None));
}

#[test]
fn the_same_check_makes_the_same_record_after_a_round_through_the_journal() {
    let (_, record) = made(whole_check(&fine()));
    let body = serde_json::to_string(&record).expect("a record is JSON");
    assert_eq!(serde_json::from_str::<Record>(&body).expect("it reads back"), record);
}

#[test]
fn the_result_says_where_each_of_the_three_dials_stays() {
    let (state, record) = made(whole_check(&fine()));
    let outcome = screen_of(state, record);
    let set = row(&outcome, &stays(Dial::Output));
    assert_eq!(set.value, ma("3.6"));
    assert_eq!(set.note, Some(Say::FoundAt { figure: Box::new(ma("6.0")) }));
    assert_eq!(row(&outcome, &stays(Dial::Rate)).note, Some(Say::AsFound));
    assert_eq!(row(&outcome, &stays(Dial::Mv)).note, Some(Say::AsFound));
}

#[test]
fn big_is_good_and_small_is_good_stand_beside_their_figures() {
    let (state, record) = made(whole_check(&fine()));
    let outcome = screen_of(state, record);
    assert_eq!(row(&outcome, &Say::RowSensing).note, Some(Say::BigIsGood));
    let note = row(&outcome, &Say::RowCapture).note.clone();
    assert!(matches!(note, Some(Say::BothNotes { first, .. }) if *first == Say::SmallIsGood));
}

/// N13: a refusal or skip always says why, and where each of the three dials stays.
#[test]
fn every_reason_for_no_test_is_said_with_the_three_dials() {
    for &why in Why::ALL.iter().filter(|why| **why != Why::None) {
        let mut facts = whole_check(&fine());
        (facts.sensing, facts.sensing_at, facts.why_sensing) = (Found::Nothing, NONE, why);
        (facts.capture, facts.capture_at, facts.why_capture) = (Found::Nothing, NONE, why);
        facts.held_down = NONE;
        let (state, record) = made(facts);
        let outcome = screen_of(state, record);
        for label in [Say::RowSensing, Say::RowCapture] {
            let row = row(&outcome, &label);
            assert_eq!(row.value, Say::NotTested);
            assert!(row.note.is_some(), "{why:?} is not said beside {label:?}");
        }
        for dial in [Dial::Output, Dial::Rate, Dial::Mv] {
            row(&outcome, &stays(dial));
        }
        assert_eq!(outcome.scales, []);
    }
}

/// A margin check of a patient without own beats, as printed: half of OUTPUT held, and no threshold was sought.
fn half_held() -> Facts {
    let mut facts = whole_check(&fine());
    (facts.capture, facts.capture_at, facts.why_capture) = (Found::Nothing, NONE, Why::NoOwnBeats);
    (facts.held_down, facts.lost) = (output(&fine(), "3.0"), NONE);
    facts
}

fn said_of_capture(facts: Facts) -> Option<Say> {
    let (state, record) = made(facts);
    row(&screen_of(state, record), &Say::RowCapture).note.clone()
}

#[test]
fn what_held_is_said_beside_why_no_threshold_was_found() {
    let said = said_of_capture(half_held());
    assert!(matches!(&said, Some(Say::WhyAndHeld { figure, .. }) if figure == "3.0"), "{said:?}");
}

#[test]
fn what_held_is_not_said_where_a_later_loss_makes_it_doubtful() {
    let mut lost = half_held();
    lost.lost = lost.held_down;
    let said = said_of_capture(lost);
    assert!(matches!(said, Some(Say::WhyNoOwnBeats { .. })), "{said:?}");

    let mut below = half_held();
    below.lost = below.held_down - 1;
    assert!(matches!(said_of_capture(below), Some(Say::WhyAndHeld { .. })), "it was lost below only");

    for mark in [Marks::NO_CAPTURE_AT_MAXIMUM, Marks::LOST_UNSOUGHT, Marks::NO_BEATS, Marks::SHOCK] {
        let mut shaken = half_held();
        shaken.marks = shaken.marks.and(mark);
        let said = said_of_capture(shaken);
        assert!(matches!(said, Some(Say::WhyNoOwnBeats { .. })), "{mark:?}: {said:?}");
    }
}

#[test]
fn no_own_beats_are_said_with_the_limit_and_the_time() {
    let mut facts = whole_check(&fine());
    (facts.own, facts.own_slowest, facts.own_fastest) = (Own::NotSeen, 0, 0);
    let (state, record) = made(facts);
    let said = row(&screen_of(state, record), &Say::RowOwnBeats).value.clone();
    assert_eq!(said, Say::OwnNotSeen { limit: "50".to_owned(), time: "21:40".to_owned() });
}

/// Own beats shown, then NO BEATS or a shock: nobody is to rely on them.
#[test]
fn own_beats_that_were_lost_are_said_with_their_doubt() {
    let mut facts = whole_check(&fine());
    facts.own = Own::Cleared;
    let (state, record) = made(facts);
    let own = Box::new(Say::OwnRate { rate: "52".to_owned() });
    assert_eq!(row(&screen_of(state, record), &Say::RowOwnBeats).value, Say::OwnThenLost { own });
}

#[test]
fn asynchronous_is_said_in_words() {
    let mut facts = whole_check(&fine());
    facts.stand.mv = ASYNCHRONOUS;
    let (state, record) = made(facts);
    assert_eq!(record.mv_uv, None);
    let outcome = screen_of(state, record);
    assert_eq!(row(&outcome, &stays(Dial::Mv)).value, Say::Asynchronous);
    assert_eq!(outcome.scales.len(), 1, "no scale of numbers for a dial off its numbers");
}

#[test]
fn kinds_of_figures_are_told_apart() {
    let p = fine();
    let value = |kind, low: u8| {
        let mut facts = with_capture(&p, kind, "1.2");
        facts.capture_low = low;
        let (state, record) = made(facts);
        row(&screen_of(state, record), &Say::RowCapture).value.clone()
    };
    assert_eq!(value(Found::Exact, NONE), ma("1.2"));
    assert_eq!(value(Found::AtMost, NONE), Say::AtMost { figure: Box::new(ma("1.2")) });
    let between = Say::Between { low: "1.0".to_owned(), high: Box::new(ma("1.2")) };
    assert_eq!(value(Found::Bracket, output(&p, "1.0")), between);
}

/// RULE3 (calculated): ten of ten beats leave up to 25.9 % of misses possible.
#[test]
fn what_ten_beats_leave_open_is_said() {
    let (state, record) = made(whole_check(&fine()));
    let outcome = screen_of(state, record);
    let beats = row(&outcome, &Say::RowBeats);
    assert_eq!(beats.value, Say::BeatsOf { beats: 10 });
    assert_eq!(beats.note, Some(Say::BeatsMissed { percent: "25.9".to_owned() }));
}

#[test]
fn the_scale_marks_threshold_set_and_band_on_the_dial() {
    let (state, record) = made(whole_check(&fine()));
    let outcome = screen_of(state, record);
    let [capture, sensing] = outcome.scales.as_slice() else { panic!("two scales") };
    for scale in [capture, sensing] {
        let place = |role| scale.ticks.iter().find(|t| t.role == role).map(|t| t.at).expect("the tick");
        let (low, high) = scale.band.expect("a band");
        let set = place(TickRole::Set);
        assert!(low <= set && set <= high, "the setting lies in the band");
        assert!(scale.ticks.iter().all(|tick| (0.0..=1.0).contains(&tick.at)));
        assert!(scale.ticks.len() <= 27, "thin enough to draw");
    }
    let at = |scale: &domain::contract::Scale<Say>, role| {
        scale.ticks.iter().find(|t| t.role == role).map(|t| t.at).expect("the tick")
    };
    assert!(at(capture, TickRole::Threshold) < at(capture, TickRole::Set), "small is good");
    assert!(at(sensing, TickRole::Threshold) > at(sensing, TickRole::Set), "big is good");
}

#[test]
fn who_accepted_the_example_rules_is_on_the_result() {
    let state = state_with(fine());
    let wire = wire(1, "example-fine-current");
    let names = Names { accepted_by: Some("دكتور".to_owned()), ..Names::default() };
    let record = record(&state, &wire, whole_check(&fine()), &names, at(0));
    let outcome = screen_of(state, record);
    let said = row(&outcome, &Say::RowAccepted).value.clone();
    assert_eq!(said, Say::NamedPerson { name: "\u{2068}دكتور\u{2069}".to_owned() });
}

#[test]
fn charts_join_like_with_like_only() {
    let p = fine();
    let state = state_with(p.clone());
    let checks = [
        with_capture(&p, Found::Exact, "0.6"),
        with_capture(&p, Found::Bracket, "3.0"),
        with_capture(&p, Found::Exact, "0.9"),
        with_capture(&p, Found::Exact, "1.2"),
    ];
    let mut state = State { screen: Screen::History { bed: 1, wire: 1 }, ..state };
    state.beds = vec![bed(1, "Bay 4", vec![wire_with(&state, 1, &checks)])];
    let Shape::Chart(trend) = view(&state, at(0)).shape else { panic!("the history") };
    let chart = &trend.charts[0];
    assert_eq!(chart.line.len(), 3, "the bracket going down is not joined to figures going up");
    assert_eq!(trend.rows.len(), 5, "the slope in words, then every check");
    let (x, y): (Vec<f32>, Vec<f32>) = chart.line.iter().copied().unzip();
    assert!(x.is_sorted() && y.is_sorted(), "time to the right, a rising threshold upward");
    assert_eq!((x[0], x[2]), (0.0, 1.0));
}

/// A threshold is one of wire and polarity: after an exchange the chart and the slope in words begin anew, and what was
/// before stays in its rows.
#[test]
fn after_the_polarity_was_exchanged_charts_begin_anew() {
    let p = fine();
    let checks = ["0.6", "0.9", "1.2", "1.5"].map(|printed| with_capture(&p, Found::Exact, printed));
    let mut state = State { screen: Screen::Bed { bed: 1 }, ..state_with(p) };
    state.beds = vec![bed(1, "Bay 4", vec![wire_with(&state, 1, &checks)])];
    let chart_of = |exchanged: Option<usize>| {
        let mut state = state.clone();
        let wire = &mut state.beds[0].wires[0];
        wire.exchanged = exchanged.map(|first| wire.records[first].opened);
        state.screen = Screen::History { bed: 1, wire: 1 };
        let Shape::Chart(trend) = view(&state, at(0)).shape else { panic!("the history") };
        (trend.charts.first().map_or(0, |chart| chart.line.len()), trend.rows.len())
    };
    assert_eq!(chart_of(None), (4, 5));
    assert_eq!(chart_of(Some(1)), (3, 5));
    assert_eq!(chart_of(Some(3)), (0, 5), "one check alone makes no chart");
}

#[test]
fn one_record_alone_makes_no_chart() {
    let mut state = state_with(fine());
    state.beds = vec![bed(1, "Bay 4", vec![wire_with(&state, 1, &[whole_check(&fine())])])];
    state.screen = Screen::History { bed: 1, wire: 1 };
    let Shape::Chart(trend) = view(&state, at(0)).shape else { panic!("the history") };
    assert_eq!(trend.charts, []);
}

/// Many journeys and changes of box leave room for the checks, and a page that is cut says so.
#[test]
fn what_befell_a_wire_leaves_room_for_its_checks() {
    let mut state = state_with(fine());
    let mut kept = wire_with(&state, 1, &vec![whole_check(&fine()); 15]);
    kept.records.iter_mut().for_each(|record| record.flags.clear());
    kept.swaps = vec![nothing_changed(); 30];
    state.beds = vec![bed(1, "Bay 4", vec![kept])];
    state.screen = Screen::History { bed: 1, wire: 1 };
    let Shape::Chart(trend) = view(&state, at(0)).shape else { panic!("the history") };
    let befell = trend.rows.iter().filter(|row| row.value == Say::HistorySwapNothing).count();
    let checks = trend.rows.iter().filter(|row| matches!(row.value, Say::HistoryValue { .. })).count();
    assert_eq!((befell, checks, trend.headline), (7, 12, Say::HistoryKept { count: 15 }));
}

fn nothing_changed() -> SwapRecord {
    SwapRecord {
        id: Uuid::from_u128(1),
        opened: at(0),
        ended: at(0),
        work: Work::Box,
        outcome: SwapOutcome::NothingChanged,
        own_beats: true,
        no_beats: false,
        shock: false,
        shared: false,
        from: "example-fine-current".into(),
        to: "example-fine-current".into(),
        old: None,
        left: None,
        names: domain::state::swap::Names::default(),
    }
}

#[test]
fn own_beats_that_were_seen_and_not_measured_are_told_so() {
    let p = fine();
    let nothing = Facts {
        own: Own::NotSeen,
        own_slowest: 0,
        own_fastest: 0,
        first_look: FirstLook::EveryBeatPaced,
        ..whole_check(&p)
    };
    let said = |facts: Facts| {
        let (state, record) = made(facts);
        row(&screen_of(state, record), &Say::RowOwnBeats).value.clone()
    };
    for seen in [
        Facts { first_look: FirstLook::OnlyOwn, ..nothing },
        Facts { first_look: FirstLook::Both, ..nothing },
        Facts { first_own_asked: true, ..nothing },
        Facts { missed: nothing.found.mv, saw: NONE, ..nothing },
    ] {
        assert_eq!(said(seen), Say::OwnNotMeasured);
    }
    assert!(matches!(said(nothing), Say::OwnNotSeen { .. }));
    assert_eq!(said(Facts { own: Own::NotLooked, ..nothing }), Say::OwnNotLooked);
}
