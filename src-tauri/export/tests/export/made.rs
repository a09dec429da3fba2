//! Wires and records by hand.

use domain::check::facts::{Dials, Facts, Found, Why};
use domain::check::step::Step;
use domain::moment::Moment;
use domain::record::{Printed, Record};
use domain::rules::Chamber;
use domain::state::bed::{Names, Polarity, Wire, WireKind};
use domain::units::OutputUnit;
use uuid::Uuid;

/// 2026-11-24 21:40 in a place one hour east.
const EVENING: i64 = 1_795_552_800_000;

fn at(minutes: i64) -> Moment {
    Moment { wall_ms: EVENING + minutes * 60_000, offset_min: 60, boot_ms: 0, boot: 1, fresh: [0; 16] }
}

pub fn record(number: u128, minutes: i64) -> Record {
    Record {
        id: Uuid::from_u128(0x3F9A_27C1_0000_4000_8000_0000_0000_0000 + number),
        opened: at(minutes - 12),
        ended: at(minutes),
        rules_id: "example".into(),
        rules_hash: String::new(),
        example_rules: true,
        practice: false,
        generator: "example-fine-current".into(),
        unit: OutputUnit::MilliAmp,
        found: None,
        stays: Some(Printed { output: "3.6".into(), rate: "80".into(), mv: Some("2.0".into()) }),
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
        own: Some((52, 60)),
        limit: "50".into(),
        output_micro: 3_600,
        mv_uv: Some(2_000),
        multiple: Some("3".into()),
        found_multiple: None,
        output_band: None,
        mv_band: None,
        beats: 10,
        pulse_width_us: 1_200,
        flags: Vec::new(),
        names: Names { accepted_by: Some("Accepting Clinician".into()), ..Names::default() },
        due_ms: at(minutes + 720).wall_ms,
        facts: Facts::new(Step::Done),
    }
}

pub fn wire(chamber: Chamber, records: Vec<Record>) -> Wire {
    let (kind, polarity) = (WireKind::Epicardial, Polarity::Bipolar);
    let new = Wire::new(1, chamber, kind, polarity, "example-fine-current".into(), at(-3_000));
    Wire { records, ..new }
}

/// Every kind of result once, in mA on the ventricle and the atrium, and in volts.
pub fn ventricle() -> Wire {
    let whole = record(1, 0);
    let bracket = Record { capture: Found::Bracket, sensing: Found::AtLeast, ..record(2, 720) };
    let bounds = Record { capture: Found::AtMost, sensing: Found::SeenAtNone, ..record(3, 1440) };
    let asynchronous = Some(Printed { output: "20".into(), rate: "80".into(), mv: None });
    let nothing = Record {
        capture: Found::Nothing,
        sensing: Found::Nothing,
        own: None,
        multiple: None,
        stays: asynchronous,
        read: false,
        ..record(4, 2160)
    };
    let volts = Record { unit: OutputUnit::Volt, example_rules: false, ..record(5, 2880) };
    wire(Chamber::Ventricle, vec![whole, bracket, bounds, nothing, volts])
}

pub fn atrium() -> Wire {
    wire(Chamber::Atrium, vec![record(6, 0)])
}
