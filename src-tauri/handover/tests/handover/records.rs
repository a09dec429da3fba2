//! From the tablet's own records.

use domain::check::facts::{Dials, Facts, Found, Own, Why};
use domain::check::step::Step;
use domain::flags::Flag;
use domain::handover::history::{Arrival, newest};
use domain::handover::known::{Source, known};
use domain::handover::stamp::Place;
use domain::handover::tablet::Tablet;
use domain::moment::Moment;
use domain::profile::Profile;
use domain::record::{Printed, Record};
use domain::rules::Chamber;
use domain::state::bed::{DueNow, Names, OpenCheck, Polarity, Standing, Wire, WireKind};
use domain::units::OutputUnit;
use handover::{Capture, Check, Mention, Next, NoSummary, Origin, OwnBeats, Sensing, Summary};
use uuid::Uuid;

use crate::made::{ENDED, check, figure, text};

pub fn at(minute: i64) -> Moment {
    let wall_ms = (i64::from(ENDED) + minute) * 60_000;
    Moment { wall_ms, offset_min: 60, boot_ms: 0, boot: 1, fresh: [0; 16] }
}

pub fn record(minute: i64) -> Record {
    let stays = Printed { output: "3.6".into(), rate: "80".into(), mv: Some("2.0".into()) };
    let mut facts = Facts::new(Step::Done);
    facts.own = Own::Shown;
    Record {
        id: Uuid::from_u128(0x3F9A_27C1_0000_0000_0000_0000_0000_0001),
        opened: at(minute - 12),
        ended: at(minute),
        rules_id: "example".into(),
        rules_hash: String::new(),
        example_rules: true,
        practice: false,
        generator: "example-fine-current".into(),
        unit: OutputUnit::MilliAmp,
        found: None,
        stays: Some(stays),
        stays_at: Dials::UNREAD,
        read: true,
        sensing: Found::Exact,
        sensing_uv: Some(5_000),
        sensing_text: Some("5.0".into()),
        why_sensing: Why::None,
        capture: Found::Exact,
        capture_micro: Some(1_200),
        capture_text: Some("1.2".into()),
        capture_low_text: Some("1.1".into()),
        held_down_text: Some("1.1".into()),
        why_capture: Why::None,
        own: Some((52, 52)),
        limit: "50".into(),
        highest_test_rate: 110,
        output_micro: 3_600,
        mv_uv: Some(2_000),
        multiple: Some("3".into()),
        found_multiple: None,
        output_band: None,
        mv_band: None,
        beats: 10,
        pulse_width_us: 1_200,
        flags: vec![Flag::Shock, Flag::NotRead, Flag::Slip],
        names: Names { accepted_by: Some("Accepting Clinician".into()), ..Names::default() },
        due_ms: at(minute + 720).wall_ms,
        facts,
    }
}

pub fn wire(records: Vec<Record>) -> Wire {
    let (kind, polarity) = (WireKind::Epicardial, Polarity::Bipolar);
    let new = Wire::new(1, Chamber::Ventricle, kind, polarity, "example-fine-current".into(), at(-3_000));
    Wire { records, ..new }
}

fn of(records: Vec<Record>) -> Summary {
    Summary::of(&wire(records), at(6)).unwrap()
}

#[test]
fn a_record_becomes_what_it_says() {
    let made = of(vec![record(-720), record(0)]);
    let mut expected = crate::made::summary();
    expected.newest.flags = vec![Mention::Shock];
    let mut before = expected.newest.clone();
    before.ended -= 720;
    expected.earlier = vec![before];
    assert_eq!(made, expected);
}

#[test]
fn no_name_and_no_whole_identifier_leaves() {
    let said = text(&of(vec![record(0)]));
    for kept_back in ["Clinician", "0000-0000", "example-fine"] {
        assert!(!said.contains(kept_back), "{kept_back} stands in {said}");
    }
}

#[test]
fn six_checks_at_most_and_never_practice_among_care() {
    let mut many: Vec<Record> = (0..9).map(|n| record(-720 * (8 - n))).collect();
    assert_eq!(of(many.clone()).earlier.len(), 5);
    for practice in &mut many[..8] {
        practice.practice = true;
    }
    let made = of(many.clone());
    assert_eq!((made.origin, made.earlier.len()), (Origin::Care, 0));
    many[8].practice = true;
    assert_eq!(of(many).origin, Origin::Practice);
}

#[test]
fn each_kind_of_result_is_told_apart() {
    let captures = [
        (Found::Bracket, Capture::Bracket { low: figure("1.1"), high: figure("1.2") }),
        (Found::AtMost, Capture::AtMost { at: figure("1.2") }),
    ];
    for (found, expected) in captures {
        assert_eq!(of(vec![Record { capture: found, ..record(0) }]).newest.capture, expected);
    }
    let held_down_text = Some("3.0".to_owned());
    let held = Record { capture: Found::Nothing, held_down_text, flags: Vec::new(), ..record(0) };
    let untested = Record { held_down_text: None, ..held.clone() };
    let shaken = Record { flags: vec![Flag::Shock], ..held.clone() };
    assert_eq!(of(vec![held]).newest.capture, Capture::Held { at: figure("3.0") }, "a margin check");
    assert_eq!(of(vec![untested]).newest.capture, Capture::NotTested);
    assert_eq!(of(vec![shaken]).newest.capture, Capture::NotTested);
    let signals = [
        (Found::Nothing, Sensing::NotTested),
        (Found::AtLeast, Sensing::AtLeast { at: figure("5.0") }),
        (Found::SeenWhereItStood, Sensing::AsFound { at: figure("5.0") }),
        (Found::SeenAtNone, Sensing::NoneSaw),
    ];
    for (found, expected) in signals {
        assert_eq!(of(vec![Record { sensing: found, ..record(0) }]).newest.sensing, expected);
    }
    let own = |own: Option<(u8, u8)>, seen: Own| {
        let mut made = Record { own, ..record(0) };
        made.facts.own = seen;
        of(vec![made]).newest.own
    };
    assert_eq!(own(None, Own::NotSeen), OwnBeats::NoneSeen { limit: figure("50") });
    assert_eq!(own(None, Own::NotLooked), OwnBeats::NotLooked);
    assert_eq!(own(Some((52, 60)), Own::Cleared), OwnBeats::ThenLost { slowest: 52, fastest: 60 });
}

#[test]
fn a_check_that_is_due_now_and_a_clock_set_back() {
    let due = Record { due_ms: at(0).wall_ms, ..record(0) };
    assert_eq!(of(vec![due]).next, Next::Now);
    assert_eq!(Summary::of(&wire(vec![record(0)]), at(-60)).unwrap().age_min, 0);
}

/// H8: while dials are being turned, the old record is no handover.
#[test]
fn without_an_ended_check_or_with_an_open_one_there_is_no_code() {
    assert_eq!(Summary::of(&wire(Vec::new()), at(0)), Err(NoSummary::NoCheck));
    let mut open = wire(vec![record(0)]);
    open.check = Some(OpenCheck::new(Uuid::nil(), Facts::new(Step::Done), at(1)));
    assert_eq!(Summary::of(&open, at(2)), Err(NoSummary::CheckOpen));
}

/// H8: what the last check left is no handover once the dials were read to stand otherwise; and what has
/// happened since makes a check due.
#[test]
fn what_has_happened_since_the_last_check_is_handed_over_too() {
    let mut since = wire(vec![record(0)]);
    since.due_now = Some(DueNow::Potassium);
    assert_eq!(Summary::of(&since, at(6)).unwrap().next, Next::Now);
    let printed = Printed { output: "5.0".into(), rate: "80".into(), mv: Some("2.0".into()) };
    since.standing = Some(Standing { dials: Dials::UNREAD, printed, at: at(3) });
    assert_eq!(Summary::of(&since, at(6)), Err(NoSummary::DialsElsewhere));
}

#[test]
fn a_figure_that_no_dial_prints_makes_no_code() {
    let odd = Record { capture_text: Some("1,2".into()), ..record(0) };
    assert_eq!(Summary::of(&wire(vec![odd]), at(0)), Err(NoSummary::Unreadable));
}

/// A check that came at minute 60, done then by the other tablet's clock, which is so many minutes apart.
fn came(apart_min: i64) -> Arrival {
    let ended = u32::try_from(i64::from(ENDED) + 60 + apart_min).unwrap();
    Arrival {
        tablet: Tablet::of_key(&[9; 32]),
        name: None,
        place: Place::new(60).unwrap(),
        newest: check(7, ended),
        next: Next::Now,
        at: at(60),
        first: Some(at(60)),
        compared: None,
    }
}

fn fine() -> Profile {
    let all = domain::profile::shipped().unwrap();
    all.into_iter().find(|profile| profile.id == "example-fine-current").unwrap()
}

/// A day ahead or a day behind: what is newer is told by this tablet's clock alone.
#[test]
fn a_check_counts_from_when_it_came_whatever_the_other_tablets_clock_says() {
    for apart in [-1_440, 0, 1_440] {
        let with_own = |ended: i64| Wire { arrival: Some(came(apart)), ..wire(vec![record(ended)]) };
        let (before, after) = (with_own(0), with_own(120));
        let (theirs, ours) = (came(apart).newest, Check::of(&record(120)).unwrap());
        let who = |wire: &Wire| known(&fine(), wire).dials.map(|(source, _)| source);
        assert_eq!(Summary::last(&before).err(), Some(NoSummary::HandedOverSince), "{apart}");
        assert_eq!(
            (newest(&before), known(&fine(), &before).thresholds),
            (Some(theirs.clone()), Some(theirs))
        );
        assert_eq!(who(&before), Some(Source::Code));
        assert_eq!(Summary::last(&after).map(|last| last.id), Ok(record(120).id), "{apart}");
        assert_eq!((newest(&after), known(&fine(), &after).thresholds), (Some(ours.clone()), Some(ours)));
        assert_eq!(who(&after), Some(Source::Check));
    }
}

/// Loaded once more after a check done here, it counts from its first coming; one that something newer had followed,
/// by its own time.
#[test]
fn a_check_that_comes_again_is_no_newer_for_it() {
    let again = |first: Option<i64>, apart: i64| {
        let arrival = Arrival { at: at(200), first: first.map(at), ..came(apart) };
        Summary::last(&Wire { arrival: Some(arrival), ..wire(vec![record(120)]) }).is_ok()
    };
    assert!(again(Some(60), 1_440));
    assert!(!again(Some(130), -1_440));
    assert!(again(None, 59));
    assert!(again(None, 60), "the same minute: its own");
    assert!(!again(None, 61));
}
