//! Flags: each from what was seen, like with like, most urgent first.

use domain::check::facts::{ASYNCHRONOUS, Dials, Facts, Found, Marks, NONE};
use domain::ending;
use domain::flags::Flag;
use domain::profile::Profile;
use domain::state::bed::{Names, OpenCheck};

use crate::made::{
    at, fine, marked, mv, open_check, output, profile, record, state_with, whole_check, wire_with,
    with_capture, with_signal,
};

fn flags_on(p: Profile, before: &[Facts], facts: Facts) -> Vec<Flag> {
    let state = state_with(p);
    let wire = wire_with(&state, 1, before);
    record(&state, &wire, facts, &Names::default(), at(0)).flags
}

fn flags_after(before: &[Facts], facts: Facts) -> Vec<Flag> {
    flags_on(fine(), before, facts)
}

#[test]
fn an_ordinary_check_raises_no_flag() {
    assert_eq!(flags_after(&[], whole_check(&fine())), []);
    assert_eq!(flags_after(&[whole_check(&fine())], whole_check(&fine())), []);
}

#[test]
fn each_mark_is_one_flag() {
    let p = fine();
    let pairs = [
        (Marks::STILL_BLIND, Flag::StillBlind),
        (Marks::NOT_PACED_OVER, Flag::NotPacedOver),
        (Marks::WRONG_CHAMBER, Flag::WrongChamber),
        (Marks::NO_BEATS, Flag::NoBeats),
        (Marks::SHOCK, Flag::Shock),
        (Marks::FIBRILLATION, Flag::Fibrillation),
        (Marks::NO_CAPTURE_AT_MAXIMUM, Flag::NoCaptureAtMaximum),
        (Marks::LOST_UNSOUGHT, Flag::LostUnsought),
        (Marks::FOUND_DID_NOT_CAPTURE, Flag::FoundDidNotCapture),
        (Marks::DID_NOT_SEE_AS_FOUND, Flag::DidNotSeeAsFound),
        (Marks::BLOCK_FROM_RATE, Flag::BlockFromRate),
        (Marks::PAUSES, Flag::Pauses),
        (Marks::EXTRA_BEAT_UNMARKED, Flag::ExtraBeatUnmarked),
        (Marks::MARKS_WITHOUT_BEATS, Flag::MarksWithoutBeats),
        (Marks::FOUND_ASYNCHRONOUS, Flag::FoundAsynchronous),
        (Marks::NOT_TOLERATED, Flag::NotTolerated),
        (Marks::SPIKE_AT_MINIMUM_MADE_A_BEAT, Flag::SpikeAtMinimumMadeABeat),
        (Marks::AWAY, Flag::Away),
        (Marks::SLIP, Flag::Slip),
    ];
    for (mark, flag) in pairs {
        assert_eq!(flags_after(&[], marked(&p, mark)), [flag]);
    }
    for silent in [Marks::IRREGULAR, Marks::EMERGENCY] {
        assert_eq!(flags_after(&[], marked(&p, silent)), []);
    }
}

/// Once each: at the OUTPUT found it has a flag of its own.
#[test]
fn a_spike_without_a_beat_is_one_flag() {
    let marks = Marks::LOST_UNSOUGHT.and(Marks::FOUND_DID_NOT_CAPTURE);
    assert_eq!(flags_after(&[], marked(&fine(), marks)), [Flag::FoundDidNotCapture]);
}

/// What counts is the number that stays, and what was last seen at it.
#[test]
fn a_number_that_is_not_known_to_see_is_told() {
    let p = fine();
    let lowered = Facts { missed: mv(&p, "5.0"), saw: NONE, ..whole_check(&p) };
    assert_eq!(flags_after(&[], lowered), [Flag::StillBlind]);
    let seen = Facts { saw: mv(&p, "2.0"), ..lowered };
    assert_eq!(flags_after(&[], seen), []);
    let asynchronous = Dials { mv: ASYNCHRONOUS, ..whole_check(&p).stand };
    let left = Facts { stand: asynchronous, ..marked(&p, Marks::EMERGENCY) };
    assert_eq!(flags_after(&[], left), [Flag::SeesNothing]);
    let ordered = Facts { marks: left.marks.and(Marks::ASYNCHRONOUS_ORDERED), ..left };
    assert_eq!(flags_after(&[], ordered), []);
}

/// A clock set right again within the check is none.
#[test]
fn a_clock_that_was_set_in_the_check_is_told_last() {
    let state = state_with(fine());
    let wire = wire_with(&state, 1, &[]);
    for (jump_ms, expected) in [(0, None), (-59_999, None), (-3_600_000, Some(-60)), (7_200_000, Some(120))] {
        let facts = marked(&state.generators[0], Marks::SLIP);
        let open = OpenCheck { clock_jump_ms: jump_ms, ..open_check(facts, at(0)) };
        let kept = ending::record(&state, &wire, &open, &facts, &Names::default(), at(0)).unwrap();
        let clock = expected.map(|by_min| Flag::ClockSet { by_min });
        let flags: Vec<Flag> = [Some(Flag::Slip), clock].into_iter().flatten().collect();
        assert_eq!(kept.flags, flags);
    }
}

#[test]
fn the_most_urgent_flag_stands_first() {
    let p = fine();
    let marks = Marks::SLIP.and(Marks::SHOCK).and(Marks::PAUSES).and(Marks::STILL_BLIND);
    let found = flags_after(&[], marked(&p, marks));
    assert_eq!(found, [Flag::StillBlind, Flag::Shock, Flag::Pauses, Flag::Slip]);
}

/// The example rule: at least double (CTS, read) and 1 mA above (ACCCN, read).
#[test]
fn an_output_found_below_the_rule_is_a_near_miss() {
    let p = fine();
    let found_at = |printed: &str| {
        let mut facts = whole_check(&p);
        facts.found.output = output(&p, printed);
        flags_after(&[], facts)
    };
    assert_eq!(found_at("2.4"), []);
    assert_eq!(found_at("2.3"), [Flag::FoundMarginBelowRule { multiple: "1.9".to_owned() }]);
    let mut low = with_capture(&p, Found::Exact, "0.5");
    low.found.output = output(&p, "1.4");
    let near_miss = Flag::FoundMarginBelowRule { multiple: "2.8".to_owned() };
    assert_eq!(flags_after(&[], low), [near_miss], "2.8 times, but not 1 mA above");
}

#[test]
fn without_a_threshold_there_is_no_near_miss() {
    let mut facts = whole_check(&fine());
    facts.capture = Found::Nothing;
    facts.capture_at = NONE;
    facts.found.output = 0;
    assert_eq!(flags_after(&[], facts), []);
}

/// CONG (read): medians rose 1.9 times in a day. The flag stands at twice.
#[test]
fn twice_the_last_threshold_is_flagged_like_with_like() {
    let p = fine();
    let check = |kind, printed: &str| with_capture(&p, kind, printed);
    let doubled = |was: &str, is: &str| Flag::Doubled { was: was.to_owned(), is: is.to_owned() };
    use Found::{AtMost, Bracket, Exact};
    assert_eq!(flags_after(&[check(Exact, "0.6")], check(Exact, "1.2")), [doubled("0.6", "1.2")]);
    assert_eq!(flags_after(&[check(Exact, "0.7")], check(Exact, "1.3")), []);
    assert_eq!(flags_after(&[check(Bracket, "0.6")], check(Exact, "1.2")), [], "two directions");
    assert_eq!(flags_after(&[check(AtMost, "0.6")], check(Bracket, "1.2")), [doubled("0.6", "1.2")]);
    assert_eq!(flags_after(&[check(Bracket, "0.6")], check(AtMost, "1.2")), [], "at most says no height");
    let between = [check(Exact, "0.6"), check(Bracket, "3.0")];
    assert_eq!(flags_after(&between, check(Exact, "1.2")), [doubled("0.6", "1.2")], "the last alike one");
}

/// EGM33 (read): 11.09 to 5.44 mV by day 4-6: half of the first exceeds the later mean.
#[test]
fn half_of_the_last_signal_gone_is_flagged() {
    let p = fine();
    let signal = |kind, printed: &str| with_signal(&p, kind, printed);
    let gone = |was: &str, is: &str| Flag::HalfSignalGone { was: was.to_owned(), is: is.to_owned() };
    use Found::{AtLeast, Exact, SeenAtNone};
    assert_eq!(flags_after(&[signal(Exact, "11.0")], signal(Exact, "5.0")), [gone("11.0", "5.0")]);
    assert_eq!(flags_after(&[signal(Exact, "10.0")], signal(Exact, "5.0")), [], "half is still seen");
    assert_eq!(flags_after(&[signal(AtLeast, "11.0")], signal(Exact, "5.0")), [gone("11.0", "5.0")]);
    assert_eq!(flags_after(&[signal(Exact, "11.0")], signal(AtLeast, "5.0")), [], "at least says no height");
    let seen_at_none = |missed: u8| {
        let mut none = whole_check(&p);
        (none.sensing, none.sensing_at, none.saw, none.missed) = (SeenAtNone, NONE, NONE, missed);
        let flags = flags_after(&[signal(Exact, "2.0")], none);
        flags.into_iter().filter(|flag| matches!(flag, Flag::HalfSignalGone { .. })).collect::<Vec<_>>()
    };
    assert_eq!(seen_at_none(mv(&p, "0.4")), [gone("2.0", "< 0.4")]);
    assert_eq!(seen_at_none(mv(&p, "1.0")), [gone("2.0", "< 1.0")], "time was up on the way down");
    assert_eq!(seen_at_none(mv(&p, "1.2")), [], "it may be 1.1");
    assert_eq!(seen_at_none(NONE), [], "pauses ended the search");
}

#[test]
fn a_rule_without_a_position_is_flagged() {
    let coarse = profile("example-coarse-current");
    let mut top = whole_check_on(&coarse, "11", "15");
    top.stand.output = coarse.output_last();
    assert_eq!(
        flags_on(coarse.clone(), &[], top),
        [Flag::NoRuleSatisfied, Flag::FoundMarginBelowRule { multiple: "1.3".to_owned() }]
    );
}

#[test]
fn a_number_that_may_not_go_lower_is_flagged() {
    let p = fine();
    let mut facts = with_signal(&p, Found::Exact, "1.6");
    facts.found.mv = mv(&p, "1.6");
    facts.stand.mv = mv(&p, "1.6");
    assert_eq!(
        flags_after(&[], facts),
        [Flag::NumberRefused],
        "below half of 1.6 lies under the lowest, 1.0"
    );
}

#[test]
fn no_capture_at_maximum_comes_before_everything() {
    let p = fine();
    let mut facts = marked(&p, Marks::FOUND_DID_NOT_CAPTURE);
    facts.capture = Found::Nothing;
    facts.lost = p.output_last();
    assert_eq!(flags_after(&[], facts), [Flag::NoCaptureAtMaximum, Flag::FoundDidNotCapture]);
}

/// N5: a check never ends without a reading, or a reason and a name; the second is flagged.
#[test]
fn dials_not_read_are_flagged() {
    let state = state_with(fine());
    let wire = wire_with(&state, 1, &[]);
    let names = Names {
        reason: Some("moved to imaging".to_owned()),
        told: Some("charge nurse".to_owned()),
        not_read: true,
        ..Names::default()
    };
    let record = record(&state, &wire, whole_check(&fine()), &names, at(0));
    assert!(!record.read);
    assert_eq!(record.flags, [Flag::NotRead]);
}

#[test]
fn a_reason_for_a_reading_that_differed_is_no_missing_reading() {
    let state = state_with(fine());
    let wire = wire_with(&state, 1, &[]);
    let names = Names { reason: Some("ordered".to_owned()), told: Some("Dr".to_owned()), ..Names::default() };
    let record = record(&state, &wire, whole_check(&fine()), &names, at(0));
    assert!(record.read);
    assert_eq!(record.flags, []);
}

fn whole_check_on(p: &Profile, threshold: &str, found: &str) -> Facts {
    let mut facts = Facts::new(domain::check::step::Step::Done);
    facts.found = crate::made::dials(p, found, "80", "2");
    facts.stand = facts.found;
    facts.capture = Found::Exact;
    facts.capture_at = output(p, threshold);
    facts
}

/// mA and volts are different scales (trade, trap 4), and so are two pulse widths (GED, read).
#[test]
fn only_one_unit_and_one_pulse_width_compare() {
    let state = state_with(fine());
    let wire = wire_with(&state, 1, &[whole_check(&fine())]);
    let earlier = &wire.records[0];
    let changed = |change: &dyn Fn(&mut domain::record::Record)| {
        let mut other = earlier.clone();
        change(&mut other);
        other
    };
    assert!(earlier.compares_with(&changed(&|_| {})));
    assert!(!earlier.compares_with(&changed(&|r| r.unit = domain::units::OutputUnit::Volt)));
    assert!(!earlier.compares_with(&changed(&|r| r.pulse_width_us = 500)));
    assert!(!earlier.compares_with(&changed(&|r| r.capture = Found::Bracket)));
    let none = changed(&|r| r.capture = Found::Nothing);
    assert!(!none.compares_with(&none), "without a threshold there is nothing to compare");
}
