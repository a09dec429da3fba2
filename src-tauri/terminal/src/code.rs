//! The handover codes of a record, as text; those that the app has made also beside it.

use std::path::Path;

use domain::handover::summary::Summary;
use domain::leaving::Way;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::bed::Wire;
use domain::why_no_code;
use session::{Clock, OpenFault, SystemClock};

use crate::spoken::spoken;
use crate::verify::said;

/// The signed lines of each wire's code, one block a wire: as the app last made them of its newest check, else
/// made now, and the record says so; or why there is none.
///
/// # Errors
/// The sentence that says why the record cannot be read or written, or nothing signed.
pub fn codes(folder: &Path) -> Result<String, String> {
    let state = session::read(folder).map_err(|fault| said(&OpenFault::Record(fault), folder))?;
    let now = now()?;
    let wires: Vec<&Wire> = state.beds.iter().flat_map(|bed| &bed.wires).collect();
    let ready: Vec<&Wire> = wires.iter().copied().filter(|wire| Summary::last(wire).is_ok()).collect();
    if ready.is_empty() {
        return Err(why_none(&wires));
    }
    let key = session::read_key(folder).ok();
    let made = |wire: &Wire| handover::made(wire, key.as_ref()?, now).ok()?.lines;
    let blocks: Vec<String> = ready.iter().filter_map(|wire| shown(wire).or_else(|| made(wire))).collect();
    if blocks.is_empty() {
        return Err(spoken(&Say::CodeNoKey));
    }
    // What the app has shown is known to have left.
    if ready.iter().any(|wire| shown(wire).is_none()) {
        session::record_leaving(folder, Way::Code).map_err(|fault| said(&fault, folder))?;
    }
    Ok(blocks.join("\n\n"))
}

/// As the app says it of each wire, each sentence once.
fn why_none(wires: &[&Wire]) -> String {
    let mut told: Vec<String> = Vec::new();
    for why in wires.iter().filter_map(|wire| Summary::last(wire).err()) {
        let sentence = spoken(&why_no_code(why));
        if !told.contains(&sentence) {
            told.push(sentence);
        }
    }
    if told.is_empty() { spoken(&Say::CodeNothing) } else { told.join("\n") }
}

fn now() -> Result<Moment, String> {
    let clock = SystemClock::new().map_err(|_| spoken(&Say::RecordNoClock))?;
    let reading = clock.read();
    Ok(Moment {
        wall_ms: reading.wall_ms,
        offset_min: reading.offset_min,
        boot_ms: reading.boot_ms,
        boot: reading.boot,
        fresh: [0; 16],
    })
}

/// As the app made them of the newest check.
fn shown(wire: &Wire) -> Option<String> {
    let last = Summary::last(wire).ok()?.id;
    wire.code.as_ref().filter(|code| code.check == last).and_then(|code| code.lines.clone())
}
