//! Wires and records by hand.

use domain::check::facts::{Dials, Facts, Found, Why};
use domain::check::step::Step;
use domain::flags::Flag;
use domain::handover::compare::{Beside, Compared, Margin, Seeing};
use domain::handover::known::Source;
use domain::moment::Moment;
use domain::profile::shipped;
use domain::record::{Printed, Record};
use domain::rules::Chamber;
use domain::state::State;
use domain::state::bed::{Bed, Names, Polarity, Wire, WireKind};
use domain::state::swap::{Names as SwapNames, Outcome, SwapRecord};
use domain::state::transport::{Hands, Reading, Told, TransportRecord};
use domain::swap::facts::Work;
use domain::transport::answer::Target;
use domain::transport::facts::Leg;
use domain::units::OutputUnit;
use uuid::Uuid;

/// 2026-11-24 21:40 in a place one hour east.
const EVENING: i64 = 1_795_552_800_000;

pub fn at(minutes: i64) -> Moment {
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
        highest_test_rate: 110,
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

/// As they are ranked.
pub fn every_flag() -> Vec<Flag> {
    let figure = || "10.0".to_owned();
    vec![
        Flag::NoCaptureAtMaximum,
        Flag::NoRuleSatisfied,
        Flag::StillBlind,
        Flag::SeesNothing,
        Flag::WrongChamber,
        Flag::NoBeats,
        Flag::Shock,
        Flag::Fibrillation,
        Flag::LostUnsought,
        Flag::FoundDidNotCapture,
        Flag::DidNotSeeAsFound,
        Flag::NumberRefused,
        Flag::CaptureAboveLimit { is: figure(), limit: figure(), unit: OutputUnit::MilliAmp },
        Flag::SignalBelowLimit { is: figure(), limit: figure() },
        Flag::FoundMarginBelowRule { multiple: figure() },
        Flag::LeftAsRead,
        Flag::BlockFromRate,
        Flag::Pauses,
        Flag::ExtraBeatUnmarked,
        Flag::MarksWithoutBeats,
        Flag::Climbs { per_day: figure(), unit: OutputUnit::MilliAmp },
        Flag::Doubled { was: figure(), is: figure() },
        Flag::HalfSignalGone { was: figure(), is: figure() },
        Flag::FoundAsynchronous,
        Flag::NotTolerated,
        Flag::SpikeAtMinimumMadeABeat,
        Flag::NotRead,
        Flag::Away,
        Flag::Slip,
        Flag::ClockSet { by_min: -10 },
    ]
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
    let (is, limit) = ("1.2".into(), "1.0".into());
    let flags = vec![
        Flag::CaptureAboveLimit { is, limit, unit: OutputUnit::Volt },
        Flag::SignalBelowLimit { is: "5.0".into(), limit: "6.0".into() },
    ];
    let volts = Record { unit: OutputUnit::Volt, example_rules: false, flags, ..record(5, 2880) };
    wire(Chamber::Ventricle, vec![whole, bracket, bounds, nothing, volts])
}

pub fn atrium() -> Wire {
    wire(Chamber::Atrium, vec![record(6, 0)])
}

fn printed(output: &str, mv: Option<&str>) -> Printed {
    Printed { output: output.into(), rate: "80".into(), mv: mv.map(str::to_owned) }
}

fn swap(number: u128, minutes: i64) -> SwapRecord {
    SwapRecord {
        id: Uuid::from_u128(0x51A9_0000_0000_4000_8000_0000_0000_0000 + number),
        opened: at(minutes - 9),
        ended: at(minutes),
        work: Work::Box,
        outcome: Outcome::Moved,
        own_beats: false,
        no_beats: false,
        shock: false,
        shared: false,
        from: "example-fine-current".into(),
        to: "example-volts".into(),
        old: Some(printed("3.6", Some("2.0"))),
        left: Some(printed("14.0", Some("2.0"))),
        names: SwapNames { clinician: Some("Ordering Clinician".into()), ..SwapNames::default() },
    }
}

fn reading(minutes: i64) -> Reading {
    let compared = Compared {
        at: at(minutes),
        dials: Dials::UNREAD,
        printed: printed("3.0", None),
        unit: OutputUnit::MilliAmp,
        output: Beside::Differs { said: Some("3.6".into()) },
        rate: Beside::Same,
        mv: Beside::Differs { said: Some("2.0".into()) },
        margin: Margin::Unknown,
        seeing: Seeing::Asynchronous,
    };
    Reading { wire: 1, leg: Leg::Leaving, by: Some(Source::Check), compared, seen: true }
}

fn way(number: u128, minutes: i64) -> TransportRecord {
    TransportRecord {
        id: Uuid::from_u128(0x7A5F_0000_0000_4000_8000_0000_0000_0000 + number),
        began: at(minutes - 40),
        ended: at(minutes),
        no_beats: false,
        shock: false,
        told: Told {
            target: Some(Target::Imaging),
            destination: Some("Room behind Ward Seven".into()),
            left: Some(at(minutes - 30)),
            arrived: Some(at(minutes - 5)),
            readings: vec![reading(minutes - 35)],
            looks: Vec::new(),
            hands: vec![
                Hands { at: at(minutes - 33), from: "QX".into(), to: "ZK".into() },
                Hands { at: at(minutes - 3), from: "ZK".into(), to: "QX".into() },
            ],
        },
    }
}

/// A bed in which everything happened once: to another box, back in the old one, a battery with trouble, a journey and
/// one that was not made; between the two checks of its wire.
pub fn moved() -> State {
    let volts = swap(1, 60);
    let back =
        SwapRecord { outcome: Outcome::BackInTheOld, to: volts.from.clone(), left: None, ..swap(2, 90) };
    let battery = SwapRecord {
        work: Work::Battery,
        outcome: Outcome::BatteryChanged,
        to: volts.from.clone(),
        left: volts.old.clone(),
        own_beats: true,
        no_beats: true,
        shock: true,
        shared: true,
        ..swap(3, 120)
    };
    let nothing = SwapRecord { outcome: Outcome::NothingChanged, old: None, left: None, ..swap(4, 150) };
    let swaps = vec![volts, back, battery, nothing];
    let stayed =
        TransportRecord { told: Told { target: Some(Target::Mri), ..Told::default() }, ..way(2, 300) };
    let wire = Wire { swaps, ..wire(Chamber::Ventricle, vec![record(1, 0), record(2, 720)]) };
    let bed = Bed {
        id: 1,
        label: "Bay 10".into(),
        patient: Uuid::nil(),
        patient_since: wire.added,
        wires: vec![wire],
        next_wire: 2,
        left: Vec::new(),
        transport: None,
        transports: vec![way(1, 240), stayed],
    };
    State { beds: vec![bed], welcomed: true, generators: shipped().unwrap(), ..State::default() }
}
