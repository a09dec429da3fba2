//! The generator file: read with every refusal, and written.

use serde_json::{Value, json};

use super::dial::{Mark, Positions};
use super::{AsynchronousBy, Control, OutputDial, Profile, ProfileFault, RateDial, SensitivityDial};
use super::{FASTEST_RATE, MOST_OUTPUT, MOST_RATE, MOST_SENSITIVITY};
use crate::document::{Node, Why};
use crate::nbg::{CheckMode, Code};
use crate::rules::Chamber;
use crate::units::{self, MICRO_PER_MILLI, OutputUnit};

const FIELDS: [&str; 10] = [
    "id",
    "name",
    "example",
    "control",
    "rate_per_min",
    "output",
    "sensitivity_mV",
    "pulse_width_us",
    "auto_lock_s",
    "modes",
];
/// Three digits before the point: no dial of the trade needs more (from memory).
const GREATEST: u32 = 999;
const CONTROLS: [(&str, Control); 2] = [("dial", Control::Dial), ("keys", Control::Keys)];
const UNITS: [(&str, OutputUnit); 2] = [("mA", OutputUnit::MilliAmp), ("V", OutputUnit::Volt)];
const ASYNCHRONOUS: [(&str, AsynchronousBy); 3] = [
    ("none", AsynchronousBy::None),
    ("position", AsynchronousBy::Position),
    ("switch", AsynchronousBy::Switch),
];

pub(super) fn read(value: &Value) -> Result<Profile, ProfileFault> {
    let root = Node::root(value);
    root.only(&FIELDS)?;
    let profile = Profile {
        id: root.field("id")?.name()?.to_owned(),
        name: root.field("name")?.name()?.to_owned(),
        example: root.field("example")?.yes()?,
        control: root.field("control")?.one_of(&CONTROLS)?,
        rate: RateDial { positions: positions(&root.field("rate_per_min")?, 1, MOST_RATE)? },
        output: output(&root.field("output")?)?,
        sensitivity: sensitivity(&root.field("sensitivity_mV")?)?,
        pulse_width_us: positive(&root.field("pulse_width_us")?)?,
        auto_lock_s: root.maybe("auto_lock_s")?.map(|node| lock_seconds(&node)).transpose()?,
        modes: modes(&root.field("modes")?)?,
    };
    agree(&root, &profile)?;
    Ok(profile)
}

/// A file that is handed in is asked for more than one in a record: what was once let in can be read for ever.
pub(super) fn read_new(value: &Value) -> Result<Profile, ProfileFault> {
    let profile = read(value)?;
    let root = Node::root(value);
    let last = profile.rate_last();
    if u32::from(profile.rate_at(last)) > FASTEST_RATE {
        let (found, greatest) = (profile.rate_text(last).to_owned(), FASTEST_RATE.to_string());
        let (least, unit, source) = ("1".to_owned(), "/min".to_owned(), String::new());
        return Err(root.field("rate_per_min")?.fault(Why::OutOfRange {
            found,
            least,
            greatest,
            unit,
            source,
        }));
    }
    if !profile.is_for(Chamber::Atrium) && !profile.is_for(Chamber::Ventricle) {
        return Err(root.field("modes")?.fault(Why::NoDemandMode));
    }
    Ok(profile)
}

fn output(node: &Node<'_>) -> Result<OutputDial, ProfileFault> {
    node.only(&["unit", "positions"])?;
    let unit = node.field("unit")?.one_of(&UNITS)?;
    Ok(OutputDial { unit, positions: positions(&node.field("positions")?, unit.scale(), MOST_OUTPUT)? })
}

fn sensitivity(node: &Node<'_>) -> Result<SensitivityDial, ProfileFault> {
    node.only(&["positions", "asynchronous"])?;
    Ok(SensitivityDial {
        positions: positions(&node.field("positions")?, MICRO_PER_MILLI, MOST_SENSITIVITY)?,
        asynchronous: node.field("asynchronous")?.one_of(&ASYNCHRONOUS)?,
    })
}

fn positive(node: &Node<'_>) -> Result<u32, ProfileFault> {
    let number = node.whole()?;
    if number == 0 { Err(node.fault(Why::NotPositive { found: "0".to_owned() })) } else { Ok(number) }
}

/// Up to an hour.
fn lock_seconds(node: &Node<'_>) -> Result<u16, ProfileFault> {
    let seconds = positive(node)?;
    u16::try_from(seconds).ok().filter(|&s| s <= 3_600).ok_or_else(|| {
        let (least, greatest) = ("1".to_owned(), "3600".to_owned());
        node.fault(Why::OutOfRange {
            found: seconds.to_string(),
            least,
            greatest,
            unit: "s".to_owned(),
            source: String::new(),
        })
    })
}

fn modes(node: &Node<'_>) -> Result<Vec<Code>, ProfileFault> {
    let items = node.items()?;
    count(node, items.len(), 16)?;
    items.iter().map(mode).collect()
}

fn mode(node: &Node<'_>) -> Result<Code, ProfileFault> {
    let text = node.text()?;
    Code::decode(text).map_err(|why| node.fault(Why::NotAMode { found: text.to_owned(), why }))
}

/// A box that can be made asynchronous lists such a mode, and the other way round.
fn agree(root: &Node<'_>, profile: &Profile) -> Result<(), ProfileFault> {
    let asynchronous =
        |wire| profile.modes.iter().any(|code| code.for_check(wire) == CheckMode::Asynchronous);
    let listed = asynchronous(Chamber::Atrium) || asynchronous(Chamber::Ventricle);
    if listed == (profile.asynchronous() != AsynchronousBy::None) {
        return Ok(());
    }
    let other = "sensitivity_mV.asynchronous".to_owned();
    Err(root.field("modes")?.fault(Why::Contradicts { other }))
}

/// Printed strings and spans, in the order of the dial.
fn positions(node: &Node<'_>, scale: u32, most: usize) -> Result<Positions, ProfileFault> {
    let mut marks: Vec<Mark> = Vec::new();
    for item in node.items()? {
        if !item.is_group() {
            add(&mut marks, &item, single(&item, scale)?)?;
        } else {
            let room = most.saturating_sub(marks.len());
            span(&item, scale, room)?.into_iter().try_for_each(|mark| add(&mut marks, &item, mark))?;
        }
        count(node, marks.len(), most)?;
    }
    count(node, marks.len(), most)?;
    Ok(Positions { scale, marks: marks.into() })
}

fn count(node: &Node<'_>, found: usize, most: usize) -> Result<(), ProfileFault> {
    if (1..=most).contains(&found) { Ok(()) } else { Err(node.fault(Why::Count { found, least: 1, most })) }
}

/// Above all before it, or a fault.
fn add(marks: &mut Vec<Mark>, node: &Node<'_>, mark: Mark) -> Result<(), ProfileFault> {
    match marks.last() {
        Some(last) if last.value == mark.value => Err(node.fault(Why::Duplicate { found: mark.text })),
        Some(last) if last.value > mark.value => {
            Err(node.fault(Why::Unsorted { found: mark.text, after: last.text.clone() }))
        }
        _ => {
            marks.push(mark);
            Ok(())
        }
    }
}

fn single(node: &Node<'_>, scale: u32) -> Result<Mark, ProfileFault> {
    let text = node.printed()?;
    Ok(Mark { value: value(node, scale)?, text: text.to_owned() })
}

/// The value of a figure as printed: a leading zero before the point, never before a digit.
fn value(node: &Node<'_>, scale: u32) -> Result<u32, ProfileFault> {
    let text = node.printed()?;
    let found = || text.to_owned();
    let value = units::scaled(text, scale);
    if text.starts_with('-') || value == Some(0) {
        return Err(node.fault(Why::NotPositive { found: found() }));
    }
    let plain = !text.starts_with('0') || text.starts_with("0.");
    let value = value.filter(|_| plain).ok_or_else(|| node.fault(Why::NotAsPrinted { found: found() }))?;
    if value <= GREATEST * scale { Ok(value) } else { Err(beyond(node, text, scale)) }
}

fn beyond(node: &Node<'_>, found: &str, scale: u32) -> ProfileFault {
    let (least, greatest) = (units::shortest(1, scale), GREATEST.to_string());
    let (unit, source) = (String::new(), String::new());
    node.fault(Why::OutOfRange { found: found.to_owned(), least, greatest, unit, source })
}

/// `from`, `from + step` … `to`, all printed with the decimals of `from`. Stops one beyond `room`,
/// so that a tiny step cannot fill the memory and the count is still refused.
fn span(node: &Node<'_>, scale: u32, room: usize) -> Result<Vec<Mark>, ProfileFault> {
    node.only(&["from", "to", "step"])?;
    let [from, to, step] = [node.field("from")?, node.field("to")?, node.field("step")?];
    let [low, high, by] = [value(&from, scale)?, value(&to, scale)?, value(&step, scale)?];
    let [from, to, step] = [from.printed()?, to.printed()?, step.printed()?];
    let places = units::decimals(from);
    if high <= low || (high - low) % by != 0 || units::decimals(step) > places {
        let [from, to, step] = [from, to, step].map(str::to_owned);
        return Err(node.fault(Why::SpanMissesEnd { from, to, step }));
    }
    let values = (low..=high).step_by(usize::try_from(by).unwrap_or(usize::MAX));
    Ok(values.take(room + 1).map(|value| Mark::new(value, scale, places)).collect())
}

pub(super) fn write(profile: &Profile) -> Value {
    json!({
        "id": profile.id,
        "name": profile.name,
        "example": profile.example,
        "control": name_of(&CONTROLS, profile.control),
        "rate_per_min": printed(&profile.rate.positions),
        "output": { "unit": profile.output.unit.symbol(), "positions": printed(&profile.output.positions) },
        "sensitivity_mV": {
            "positions": printed(&profile.sensitivity.positions),
            "asynchronous": name_of(&ASYNCHRONOUS, profile.sensitivity.asynchronous),
        },
        "pulse_width_us": profile.pulse_width_us,
        "auto_lock_s": profile.auto_lock_s,
        "modes": profile.modes.iter().map(Code::to_string).collect::<Vec<_>>(),
    })
}

fn printed(positions: &Positions) -> Vec<&str> {
    positions.marks.iter().map(|mark| mark.text.as_str()).collect()
}

fn name_of<T: PartialEq>(names: &[(&'static str, T)], value: T) -> &'static str {
    names.iter().find(|(_, named)| *named == value).map_or("", |(name, _)| name)
}
