//! A summary as CBOR (RFC 8949): arrays in a fixed order, figures as the dial prints them. Frozen for versions 1 to
//! 3; from version 2 on each check stands in a pair with the minutes until its dials were read after all, and version 3
//! has two flags more.

use domain::rules::Chamber;
use domain::state::bed::{Polarity, WireKind};
use domain::units::OutputUnit;
use serde::{Deserialize, Serialize};

use super::version_for;
use domain::handover::figure::Figure;
use domain::handover::stamp::{Minute, Place};
use domain::handover::summary::{
    Capture, Check, DialsAt, MOST_CHECKS, Mention, Next, Origin, OwnBeats, Sensing, Summary, WireFacts,
};

/// Bytes of content read at most.
const MOST_BYTES: usize = 1_024;

/// Version; practice; chamber, kind and polarity as 0 or 1; offset in minutes; age; next check (0 = now);
/// checks, newest first.
#[derive(Serialize, Deserialize)]
struct Packed<C>(u32, bool, (u8, u8, u8), i16, u32, Minute, Vec<C>);

/// A check of versions 2 and 3.
#[derive(Serialize, Deserialize)]
struct PackedLater(PackedCheck, Option<u32>);

/// Id; example rules; ended; read; rate, output, number; unit; capture; margin; sensing; own; pulse width; flags.
#[derive(Serialize, Deserialize)]
struct PackedCheck(
    u32,
    bool,
    Minute,
    bool,
    Option<(String, String, Option<String>)>,
    u8,
    (u8, Vec<String>),
    Option<String>,
    (u8, Option<String>),
    (u8, Option<String>, u8, u8),
    Option<String>,
    Vec<(u8, Option<String>)>,
);

/// `None` when the summary is not one that a tablet makes: shortened, or with lines it does not know.
pub(super) fn packed(summary: &Summary) -> Option<Vec<u8>> {
    let whole = summary.left_out == 0 && summary.others.is_empty();
    let next = match summary.next {
        Next::Now => 0,
        Next::At(0) => return None,
        Next::At(minute) => minute,
    };
    let checks = || std::iter::once(&summary.newest).chain(&summary.earlier);
    // Only the newest can have been read later, and only where it was not read at its end.
    let sound = !(summary.newest.read && summary.newest.read_later.is_some())
        && summary.earlier.iter().all(|check| check.read_later.is_none());
    let (practice, wire) = (summary.origin == Origin::Practice, pack_wire(summary.wire));
    let (offset, age) = (summary.place.offset_min(), summary.age_min);
    let version = version_for(summary);
    let bytes = if version == 1 {
        let checks = checks().map(pack_check).collect();
        cbor(&Packed(version, practice, wire, offset, age, next, checks))?
    } else {
        let checks = checks().map(|check| PackedLater(pack_check(check), check.read_later)).collect();
        cbor(&Packed(version, practice, wire, offset, age, next, checks))?
    };
    (whole && sound && bytes.len() <= MOST_BYTES).then_some(bytes)
}

fn cbor<C: Serialize>(packed: &Packed<C>) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    ciborium::into_writer(packed, &mut bytes).ok()?;
    Some(bytes)
}

/// Packs again and compares: other CBOR of the same values is refused.
pub(super) fn unpacked(bytes: &[u8]) -> Option<Summary> {
    if bytes.len() > MOST_BYTES {
        return None;
    }
    // Packed again below: what was read as the wrong version is not the same.
    let Packed(_, practice, wire, offset, age_min, next, checks) = either(bytes)?;
    if checks.len() > MOST_CHECKS {
        return None;
    }
    let checks: Option<Vec<Check>> = checks.into_iter().map(unpack_later).collect();
    let mut checks = checks?.into_iter();
    let summary = Summary {
        origin: if practice { Origin::Practice } else { Origin::Care },
        wire: unpack_wire(wire)?,
        place: Place::new(offset)?,
        age_min,
        newest: checks.next()?,
        next: if next == 0 { Next::Now } else { Next::At(next) },
        earlier: checks.collect(),
        left_out: 0,
        others: Vec::new(),
    };
    (packed(&summary)? == bytes).then_some(summary)
}

fn either(bytes: &[u8]) -> Option<Packed<PackedLater>> {
    if let Ok(packed) = ciborium::from_reader(bytes) {
        return Some(packed);
    }
    let Packed(version, practice, wire, offset, age, next, checks) = ciborium::from_reader(bytes).ok()?;
    let checks: Vec<PackedCheck> = checks;
    let checks = checks.into_iter().map(|check| PackedLater(check, None)).collect();
    Some(Packed(version, practice, wire, offset, age, next, checks))
}

fn unpack_later(PackedLater(check, read_later): PackedLater) -> Option<Check> {
    Some(Check { read_later, ..unpack_check(check)? })
}

fn pack_wire(wire: WireFacts) -> (u8, u8, u8) {
    let ventricle = u8::from(wire.chamber == Chamber::Ventricle);
    let transvenous = u8::from(wire.kind == WireKind::Transvenous);
    (ventricle, transvenous, u8::from(wire.polarity == Polarity::Unipolar))
}

/// Anything but 0 or 1 is refused when it is packed again.
fn unpack_wire((chamber, kind, polarity): (u8, u8, u8)) -> Option<WireFacts> {
    Some(WireFacts {
        chamber: if chamber == 0 { Chamber::Atrium } else { Chamber::Ventricle },
        kind: if kind == 0 { WireKind::Epicardial } else { WireKind::Transvenous },
        polarity: if polarity == 0 { Polarity::Bipolar } else { Polarity::Unipolar },
    })
}

fn pack_check(check: &Check) -> PackedCheck {
    let text = |figure: &Figure| figure.to_string();
    let dials = |dials: &DialsAt| (text(&dials.rate), text(&dials.output), dials.mv.as_ref().map(text));
    PackedCheck(
        check.id,
        check.example_rules,
        check.ended,
        check.read,
        check.dials.as_ref().map(dials),
        u8::from(check.unit == OutputUnit::Volt),
        pack_capture(&check.capture),
        check.margin.as_ref().map(text),
        pack_sensing(&check.sensing),
        pack_own(&check.own),
        check.pulse_width.as_ref().map(text),
        check.flags.iter().map(pack_flag).collect(),
    )
}

fn unpack_check(packed: PackedCheck) -> Option<Check> {
    let PackedCheck(id, example_rules, ended, read, dials, unit, capture, margin, sensing, own, width, flags) =
        packed;
    Some(Check {
        id,
        example_rules,
        ended,
        read,
        read_later: None,
        dials: some_sound(dials, unpack_dials)?,
        unit: if unit == 0 { OutputUnit::MilliAmp } else { OutputUnit::Volt },
        capture: unpack_capture(capture.0, &capture.1)?,
        margin: some_sound(margin, figure)?,
        sensing: unpack_sensing(sensing)?,
        own: unpack_own(own)?,
        pulse_width: some_sound(width, figure)?,
        flags: flags.into_iter().map(unpack_flag).collect::<Option<_>>()?,
    })
}

fn figure(text: String) -> Option<Figure> {
    Figure::new(&text)
}

/// What is absent may stay absent; what is present must be sound.
fn some_sound<A, B>(given: Option<A>, read: impl FnOnce(A) -> Option<B>) -> Option<Option<B>> {
    match given {
        None => Some(None),
        Some(value) => read(value).map(Some),
    }
}

fn unpack_dials((rate, output, mv): (String, String, Option<String>)) -> Option<DialsAt> {
    Some(DialsAt { rate: figure(rate)?, output: figure(output)?, mv: some_sound(mv, figure)? })
}

fn pack_capture(capture: &Capture) -> (u8, Vec<String>) {
    let texts = |figures: &[&Figure]| figures.iter().map(ToString::to_string).collect();
    match capture {
        Capture::NotTested => (0, Vec::new()),
        Capture::Exact { at } => (1, texts(&[at])),
        Capture::Bracket { low, high } => (2, texts(&[low, high])),
        Capture::AtMost { at } => (3, texts(&[at])),
        Capture::Held { at } => (4, texts(&[at])),
    }
}

fn unpack_capture(kind: u8, figures: &[String]) -> Option<Capture> {
    let read = |text: &String| Figure::new(text);
    match (kind, figures) {
        (0, []) => Some(Capture::NotTested),
        (1, [at]) => Some(Capture::Exact { at: read(at)? }),
        (2, [low, high]) => Some(Capture::Bracket { low: read(low)?, high: read(high)? }),
        (3, [at]) => Some(Capture::AtMost { at: read(at)? }),
        (4, [at]) => Some(Capture::Held { at: read(at)? }),
        _ => None,
    }
}

fn pack_sensing(sensing: &Sensing) -> (u8, Option<String>) {
    match sensing {
        Sensing::NotTested => (0, None),
        Sensing::Exact { at } => (1, Some(at.to_string())),
        Sensing::AtLeast { at } => (2, Some(at.to_string())),
        Sensing::AsFound { at } => (3, Some(at.to_string())),
        Sensing::NoneSaw => (4, None),
    }
}

fn unpack_sensing(packed: (u8, Option<String>)) -> Option<Sensing> {
    match packed {
        (0, None) => Some(Sensing::NotTested),
        (1, Some(at)) => Some(Sensing::Exact { at: figure(at)? }),
        (2, Some(at)) => Some(Sensing::AtLeast { at: figure(at)? }),
        (3, Some(at)) => Some(Sensing::AsFound { at: figure(at)? }),
        (4, None) => Some(Sensing::NoneSaw),
        _ => None,
    }
}

fn pack_own(own: &OwnBeats) -> (u8, Option<String>, u8, u8) {
    match own {
        OwnBeats::NotLooked => (0, None, 0, 0),
        OwnBeats::Unmeasured => (4, None, 0, 0),
        OwnBeats::NoneSeen { limit } => (1, Some(limit.to_string()), 0, 0),
        OwnBeats::Seen { slowest, fastest } => (2, None, *slowest, *fastest),
        OwnBeats::ThenLost { slowest, fastest } => (3, None, *slowest, *fastest),
    }
}

fn unpack_own((kind, limit, slowest, fastest): (u8, Option<String>, u8, u8)) -> Option<OwnBeats> {
    match (kind, limit) {
        (0, None) => Some(OwnBeats::NotLooked),
        (1, Some(limit)) => Some(OwnBeats::NoneSeen { limit: figure(limit)? }),
        (2, None) => Some(OwnBeats::Seen { slowest, fastest }),
        (3, None) => Some(OwnBeats::ThenLost { slowest, fastest }),
        (4, None) => Some(OwnBeats::Unmeasured),
        _ => None,
    }
}

/// Numbers of the flags that carry a figure; the plain ones have theirs in `Mention::PLAIN`.
const FOUND_MARGIN: u8 = 9;
const DOUBLED: u8 = 13;
const SIGNAL_HALVED: u8 = 14;
const CAPTURE_ABOVE_LIMIT: u8 = 19;
const SIGNAL_BELOW_LIMIT: u8 = 20;

fn pack_flag(flag: &Mention) -> (u8, Option<String>) {
    if let Mention::FoundMargin { multiple } = flag {
        return (FOUND_MARGIN, Some(multiple.to_string()));
    }
    if let Mention::Doubled { was } = flag {
        return (DOUBLED, Some(was.to_string()));
    }
    if let Mention::SignalHalved { was } = flag {
        return (SIGNAL_HALVED, Some(was.to_string()));
    }
    if let Mention::CaptureAboveLimit { limit } = flag {
        return (CAPTURE_ABOVE_LIMIT, Some(limit.to_string()));
    }
    if let Mention::SignalBelowLimit { limit } = flag {
        return (SIGNAL_BELOW_LIMIT, Some(limit.to_string()));
    }
    let plain = Mention::PLAIN.iter().find(|(_, plain)| plain == flag);
    (plain.map_or(u8::MAX, |(number, _)| *number), None)
}

fn unpack_flag(packed: (u8, Option<String>)) -> Option<Mention> {
    match packed {
        (FOUND_MARGIN, Some(text)) => Some(Mention::FoundMargin { multiple: figure(text)? }),
        (DOUBLED, Some(text)) => Some(Mention::Doubled { was: figure(text)? }),
        (SIGNAL_HALVED, Some(text)) => Some(Mention::SignalHalved { was: figure(text)? }),
        (CAPTURE_ABOVE_LIMIT, Some(text)) => Some(Mention::CaptureAboveLimit { limit: figure(text)? }),
        (SIGNAL_BELOW_LIMIT, Some(text)) => Some(Mention::SignalBelowLimit { limit: figure(text)? }),
        (number, None) => {
            Mention::PLAIN.into_iter().find(|(plain, _)| *plain == number).map(|(_, flag)| flag)
        }
        _ => None,
    }
}
