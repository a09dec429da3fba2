//! The handover codes of a record, as text, also beside a running app.

use std::path::Path;

use domain::contract::Shape;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::State;
use domain::state::screen::Screen;
use session::{Clock, OpenFault, SystemClock};

use crate::spoken::spoken;
use crate::verify::said;

/// The lines that the code of each wire holds now, one block a wire; or why there is none.
///
/// # Errors
/// The sentence that says why the record cannot be read.
pub fn codes(folder: &Path) -> Result<String, String> {
    let state = session::read(folder).map_err(|fault| said(&OpenFault::Record(fault)))?;
    let clock = SystemClock::new().map_err(|_| said(&OpenFault::NoClock))?;
    let reading = clock.read();
    let now = Moment {
        wall_ms: reading.wall_ms,
        offset_min: reading.offset_min,
        boot_ms: reading.boot_ms,
        boot: reading.boot,
        fresh: [0; 16],
    };
    let blocks: Vec<String> = wires(&state).filter_map(|screen| block(&state, screen, now)).collect();
    if blocks.is_empty() { Err(spoken(&Say::CodeNothing)) } else { Ok(blocks.join("\n\n")) }
}

fn wires(state: &State) -> impl Iterator<Item = Screen> + '_ {
    let of = |bed: u32, wire: u32| Screen::Code { bed, wire };
    state.beds.iter().flat_map(move |bed| bed.wires.iter().map(move |wire| of(bed.id, wire.id)))
}

/// What the app itself would show, so that both always say the same.
fn block(state: &State, screen: Screen, now: Moment) -> Option<String> {
    let shown = State { screen, ..state.clone() };
    let Shape::Code(code) = domain::view(&shown, now).shape else { return None };
    let lines: Vec<String> =
        code.rows.iter().map(|row| format!("{}: {}", spoken(&row.label), spoken(&row.value))).collect();
    (!lines.is_empty()).then(|| lines.join("\n"))
}
