//! What another box is asked to stand at, in its own printed positions. mA and volts are never carried over.

use super::facts::Block;
use crate::check::facts::{ASYNCHRONOUS, Dials};
use crate::nbg::{CheckMode, Code};
use crate::profile::{AsynchronousBy, Position, Profile};
use crate::rules::Chamber;

/// RATE not slower, OUTPUT not lower, the mV number not higher than on the old box; or why this box cannot.
pub fn asked(old: &Profile, new: &Profile, chamber: Chamber, stood: Dials) -> Result<Dials, Block> {
    mode(new, chamber, stood).ok_or(Block::NoSuchMode)?;
    let rate = i32::from(old.rate_at(stood.rate));
    Ok(Dials {
        rate: new.rate_at_or_above(rate).ok_or(Block::Rate)?,
        output: output(old, new, stood.output).ok_or(Block::Output)?,
        mv: number(old, new, stood.mv)?,
    })
}

/// Another unit or a shorter pulse says nothing about capture: maximum until the threshold is taken anew
/// (common practice, no source).
fn output(old: &Profile, new: &Profile, stood: Position) -> Option<Position> {
    if !compares(old, new) {
        return Some(new.output_last());
    }
    new.output.positions.at_or_above(old.output_at(stood).into())
}

/// The figure of the old box means the same on the new one, or less than it gives.
pub fn compares(old: &Profile, new: &Profile) -> bool {
    old.output_unit() == new.output_unit() && new.pulse_width_us >= old.pulse_width_us
}

/// The number only ever goes down: sees more.
fn number(old: &Profile, new: &Profile, stood: Position) -> Result<Position, Block> {
    if stood == ASYNCHRONOUS {
        let has = new.asynchronous() != AsynchronousBy::None;
        return if has { Ok(ASYNCHRONOUS) } else { Err(Block::Asynchronous) };
    }
    new.sensitivity.positions.at_or_below(old.mv_at(stood).into()).ok_or(Block::Number)
}

/// The mode to set: on demand in this chamber; asynchronous only where the old box stood so and the new
/// one has a mode for it. `None`: the box has none of these.
pub fn mode(new: &Profile, chamber: Chamber, stood: Dials) -> Option<Code> {
    let by_mode = stood.mv == ASYNCHRONOUS && new.asynchronous() == AsynchronousBy::Switch;
    let wanted = if by_mode { CheckMode::Asynchronous } else { CheckMode::Demand };
    new.modes.iter().copied().find(|code| code.for_check(chamber) == wanted)
}
