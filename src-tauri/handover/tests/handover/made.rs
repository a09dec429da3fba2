//! Summaries of our own invention: one by hand, the longest, and random ones.

use std::collections::BTreeSet;

use domain::rules::Chamber;
use domain::state::bed::{Polarity, WireKind};
use domain::units::OutputUnit;
use handover::lines::{LANGUAGE, TABLES, Table, sign, version_for};
use handover::{
    Capture, Check, DialsAt, Figure, Mention, Next, Origin, Outcome, OwnBeats, Place, Sensing, Summary,
    WireFacts,
};
use proptest::prelude::*;
use seal::{KnownKeys, TabletKey};

/// 2026-11-24 20:40 UTC.
pub const ENDED: u32 = 29_925_880;

pub fn figure(text: &str) -> Figure {
    Figure::new(text).unwrap()
}

pub fn key() -> TabletKey {
    TabletKey::from_seed(&[11; 32])
}

pub fn table() -> Table {
    TABLES[0].2
}

/// The table that the lines of this summary are written with, unless they must be shortened.
pub fn table_for(summary: &Summary) -> Table {
    handover::lines::table(version_for(&summary.newest), LANGUAGE).unwrap()
}

pub fn check(id: u32, ended: u32) -> Check {
    Check {
        id,
        example_rules: true,
        ended,
        read: true,
        read_later: None,
        dials: Some(DialsAt { rate: figure("80"), output: figure("3.6"), mv: Some(figure("2.0")) }),
        unit: OutputUnit::MilliAmp,
        capture: Capture::Exact { at: figure("1.2") },
        margin: Some(figure("3")),
        sensing: Sensing::Exact { at: figure("5.0") },
        own: OwnBeats::Seen { slowest: 52, fastest: 52 },
        pulse_width: Some(figure("1.2")),
        flags: Vec::new(),
    }
}

/// An ordinary handover, six minutes after the check, with two checks before it.
pub fn summary() -> Summary {
    Summary {
        origin: Origin::Care,
        wire: WireFacts {
            chamber: Chamber::Ventricle,
            kind: WireKind::Epicardial,
            polarity: Polarity::Bipolar,
        },
        place: Place::new(60).unwrap(),
        age_min: 6,
        newest: check(0x3F9A_27C1, ENDED),
        next: Next::At(ENDED + 720),
        earlier: vec![check(2, ENDED - 700), check(1, ENDED - 1400)],
        left_out: 0,
        others: Vec::new(),
    }
}

pub fn every_flag(was: &str) -> Vec<Mention> {
    let mut flags: Vec<Mention> = Mention::PLAIN.into_iter().map(|(_, flag)| flag).collect();
    flags.push(Mention::FoundMargin { multiple: figure(was) });
    flags.push(Mention::CaptureAboveLimit { limit: figure(was) });
    flags.push(Mention::SignalBelowLimit { limit: figure(was) });
    flags.push(Mention::Doubled { was: figure(was) });
    flags.push(Mention::SignalHalved { was: figure(was) });
    flags.sort();
    flags
}

/// Every line as long as the longest figures of a dial in mA make it: three digits before the point and three after;
/// all that format 1 can say.
pub fn longest() -> Summary {
    let long = || figure("100.125");
    let newest = Check {
        read: false,
        dials: Some(DialsAt { rate: figure("100"), output: long(), mv: None }),
        capture: Capture::Bracket { low: long(), high: long() },
        margin: Some(figure("100.9")),
        sensing: Sensing::AsFound { at: long() },
        own: OwnBeats::ThenLost { slowest: 100, fastest: 250 },
        pulse_width: Some(long()),
        flags: every_flag("100.125").into_iter().filter(is_of_format_1).collect(),
        ..check(0xFFFF_FFFF, ENDED)
    };
    let wire =
        WireFacts { chamber: Chamber::Ventricle, kind: WireKind::Transvenous, polarity: Polarity::Unipolar };
    let earlier = (1..6).map(|n| Check { ended: ENDED - 700 * n, ..newest.clone() }).collect();
    Summary { origin: Origin::Practice, wire, age_min: 10_079, newest, earlier, ..summary() }
}

fn is_of_format_1(flag: &Mention) -> bool {
    version_for(&Check { flags: vec![flag.clone()], ..check(1, ENDED) }) == 1
}

/// All that format 3 can say besides.
pub fn beyond_limits(summary: Summary) -> Summary {
    let [limit, least] = [figure("5.0"), figure("2.0")];
    foremost(summary, [Mention::CaptureAboveLimit { limit }, Mention::SignalBelowLimit { limit: least }])
}

/// With the longest figures a flag has room on a patient's code only, without the line that marks practice.
pub fn longest_of_a_patient() -> Summary {
    Summary { origin: Origin::Care, ..longest() }
}

/// All that format 2 can say besides.
pub fn later(summary: Summary) -> Summary {
    let read = read_later(summary);
    let mut flags = read.newest.flags.clone();
    flags.push(Mention::LeftAsRead);
    flags.sort();
    Summary { newest: Check { flags, ..read.newest }, ..read }
}

/// All that format 4 can say besides.
pub fn in_danger(summary: Summary) -> Summary {
    foremost(summary, [Mention::Fibrillation, Mention::LostUnsought, Mention::SeesNothing])
}

/// All that format 5 can say besides.
pub fn held(summary: Summary) -> Summary {
    let said = foremost(summary, [Mention::NotPacedOver, Mention::NumberBelowLowest]);
    let newest = Check {
        capture: Capture::Held { at: figure("3.0") },
        margin: None,
        own: OwnBeats::Unmeasured,
        ..said.newest
    };
    Summary { newest, ..said }
}

/// The lines drop the least urgent flags first, so none stands before these.
fn foremost<const N: usize>(summary: Summary, mut these: [Mention; N]) -> Summary {
    these.sort();
    let less_urgent = summary.newest.flags.iter().filter(|flag| **flag > these[N - 1]).cloned();
    let flags = these.iter().cloned().chain(less_urgent).collect();
    Summary { newest: Check { flags, ..summary.newest }, ..summary }
}

/// The dials were not read at the end of the check, and stood as it left them 45 minutes later.
pub fn read_later(summary: Summary) -> Summary {
    let newest = Check { read: false, read_later: Some(45), ..summary.newest };
    // A practice owes no reading.
    Summary { origin: Origin::Care, newest, age_min: summary.age_min.max(51), ..summary }
}

pub fn text(summary: &Summary) -> String {
    handover::lines::text(summary).unwrap()
}

pub fn signed(summary: &Summary) -> String {
    sign(&text(summary), &key())
}

pub fn load(code: &[u8]) -> Outcome {
    load_at(code, ENDED + 10)
}

pub fn load_at(code: &[u8], now: u32) -> Outcome {
    handover::load(code, Origin::Care, &KnownKeys::default(), &BTreeSet::new(), now)
}

pub fn loaded(code: &[u8], origin: Origin) -> handover::Loaded {
    match handover::load(code, origin, &KnownKeys::default(), &BTreeSet::new(), ENDED + 10) {
        Outcome::Read(loaded) => *loaded,
        Outcome::Refused(refused) => panic!("{refused:?}: {}", String::from_utf8_lossy(code)),
    }
}

pub fn any_figure() -> impl Strategy<Value = Figure> {
    (0..1000_u32, prop::option::of((0..1000_u32, 1..=3_usize))).prop_map(|(whole, fraction)| {
        let text = match fraction {
            Some((part, places)) => format!("{whole}.{}", &format!("{part:03}")[..places]),
            None => whole.to_string(),
        };
        figure(&text)
    })
}

fn any_capture() -> impl Strategy<Value = Capture> {
    prop_oneof![
        Just(Capture::NotTested),
        any_figure().prop_map(|at| Capture::Exact { at }),
        (any_figure(), any_figure()).prop_map(|(low, high)| Capture::Bracket { low, high }),
        any_figure().prop_map(|at| Capture::AtMost { at }),
        any_figure().prop_map(|at| Capture::Held { at }),
    ]
}

fn any_sensing() -> impl Strategy<Value = Sensing> {
    prop_oneof![
        Just(Sensing::NotTested),
        Just(Sensing::NoneSaw),
        any_figure().prop_map(|at| Sensing::Exact { at }),
        any_figure().prop_map(|at| Sensing::AtLeast { at }),
        any_figure().prop_map(|at| Sensing::AsFound { at }),
    ]
}

fn any_own() -> impl Strategy<Value = OwnBeats> {
    prop_oneof![
        Just(OwnBeats::NotLooked),
        any_figure().prop_map(|limit| OwnBeats::NoneSeen { limit }),
        any::<(u8, u8)>().prop_map(|(slowest, fastest)| OwnBeats::Seen { slowest, fastest }),
        any::<(u8, u8)>().prop_map(|(slowest, fastest)| OwnBeats::ThenLost { slowest, fastest }),
    ]
}

fn any_flags() -> impl Strategy<Value = Vec<Mention>> {
    (any_figure(), prop::collection::vec(any::<bool>(), 21)).prop_map(|(was, take)| {
        let all = every_flag(was.text());
        all.into_iter().zip(take).filter_map(|(flag, take)| take.then_some(flag)).collect()
    })
}

fn any_dials() -> impl Strategy<Value = DialsAt> {
    (any_figure(), any_figure(), prop::option::of(any_figure())).prop_map(|(rate, output, mv)| DialsAt {
        rate,
        output,
        mv,
    })
}

prop_compose! {
    pub fn any_check()(
        (id, example_rules, ended, read) in (any::<u32>(), any::<bool>(), 20_000_000..40_000_000_u32, any::<bool>()),
        dials in prop::option::weighted(0.9, any_dials()),
        volts in any::<bool>(),
        capture in any_capture(),
        margin in prop::option::of(any_figure()),
        sensing in any_sensing(),
        own in any_own(),
        pulse_width in prop::option::of(any_figure()),
        flags in any_flags(),
    ) -> Check {
        let says_output = dials.is_some() || capture != Capture::NotTested;
        let unit = if volts && says_output { OutputUnit::Volt } else { OutputUnit::MilliAmp };
        let flags = if says_output { flags } else { Vec::new() };
        let read_later = None;
        Check { id, example_rules, ended, read, read_later, dials, unit, capture, margin, sensing, own, pulse_width, flags }
    }
}

prop_compose! {
    pub fn any_summary()(
        wire in any::<(bool, bool, bool)>(),
        practice in any::<bool>(),
        offset_min in -840..=840_i16,
        age_min in 0..20_000_u32,
        newest in any_check(),
        later in prop::option::of(0..20_000_u32),
        earlier in prop::collection::vec(any_check(), 0..6),
        next in prop::option::of(20_000_000..40_000_000_u32),
    ) -> Summary {
        let wire = WireFacts {
            chamber: if wire.0 { Chamber::Atrium } else { Chamber::Ventricle },
            kind: if wire.1 { WireKind::Epicardial } else { WireKind::Transvenous },
            polarity: if wire.2 { Polarity::Bipolar } else { Polarity::Unipolar },
        };
        let origin = if practice { Origin::Practice } else { Origin::Care };
        let next = next.map_or(Next::Now, Next::At);
        let place = Place::new(offset_min).unwrap();
        // A practice owes no reading, so that none comes later.
        let newest = Check { read_later: later.filter(|_| !newest.read && !practice), ..newest };
        Summary { origin, wire, place, age_min, newest, next, earlier, left_out: 0, others: Vec::new() }
    }
}
