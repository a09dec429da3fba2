//! The handover codes of a record, as text, also beside a running app.

use std::path::Path;

use domain::handover::summary::Summary;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::bed::Wire;
use seal::TabletKey;
use session::{Clock, OpenFault, SystemClock};

use crate::spoken::spoken;
use crate::verify::said;

/// The signed lines of each wire's code, one block a wire: as the app last made them of its newest check, else
/// made now; or why there is none.
///
/// # Errors
/// The sentence that says why the record cannot be read, or nothing signed.
pub fn codes(folder: &Path) -> Result<String, String> {
    let state = session::read(folder).map_err(|fault| said(&OpenFault::Record(fault)))?;
    let now = now()?;
    let wires: Vec<&Wire> = state.beds.iter().flat_map(|bed| &bed.wires).collect();
    let ready: Vec<&Wire> = wires.into_iter().filter(|wire| Summary::last(wire).is_ok()).collect();
    if ready.is_empty() {
        return Err(spoken(&Say::CodeNothing));
    }
    let key = session::read_key(folder).ok();
    let blocks: Vec<String> = ready.into_iter().filter_map(|wire| block(wire, key.as_ref(), now)).collect();
    if blocks.is_empty() { Err(spoken(&Say::CodeNoKey)) } else { Ok(blocks.join("\n\n")) }
}

fn now() -> Result<Moment, String> {
    let clock = SystemClock::new().map_err(|_| said(&OpenFault::NoClock))?;
    let reading = clock.read();
    Ok(Moment {
        wall_ms: reading.wall_ms,
        offset_min: reading.offset_min,
        boot_ms: reading.boot_ms,
        boot: reading.boot,
        fresh: [0; 16],
    })
}

fn block(wire: &Wire, key: Option<&TabletKey>, now: Moment) -> Option<String> {
    let last = Summary::last(wire).ok()?.id;
    let shown = wire.code.as_ref().filter(|code| code.check == last).and_then(|code| code.lines.clone());
    shown.or_else(|| handover::made(wire, key?, now).ok()?.lines)
}
