//! What is left out when the lines are too long for their code, in a fixed order.

use super::phrase::Table;
use super::write::written;
use domain::handover::summary::Summary;

/// Bytes of lines that fit beside a signature into version 18 at level M (ISO/IEC 18004: 563 data codewords,
/// 4,504 bits). The signature's line, 148 letters of the alphanumeric alphabet: 4 + 11 + 814 bits. The lines and
/// the line break after them, as bytes: 4 + 16 + 8 n. n = 456 (arithmetic), less one for the line break.
pub const MOST_TEXT_BYTES: usize = 455;

/// The summary as its lines can carry it: first the least urgent flags go, one by one, but never the first;
/// then the pulse width, then the margin (it follows from two other lines), then the last flag. `None` when even
/// that is too long: no dial prints figures like that.
pub fn shortened(summary: &Summary, table: Table) -> Option<Summary> {
    let mut short = summary.for_lines();
    while written(&short, table).len() > MOST_TEXT_BYTES {
        let check = &mut short.newest;
        let gone = match check.flags.len() {
            2.. => check.flags.pop().is_some(),
            _ => {
                check.pulse_width.take().or_else(|| check.margin.take()).is_some()
                    || check.flags.pop().is_some()
            }
        };
        short.left_out = gone.then(|| short.left_out.checked_add(1)).flatten()?;
    }
    Some(short)
}
