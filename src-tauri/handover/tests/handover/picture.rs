//! The drawing as a picture, and what rqrr reads in it.

use handover::{Drawing, Level, draw};
use proptest::prelude::*;

use crate::made::{any_summary, key, longest, signed, summary};

/// Light modules around a symbol (ISO/IEC 18004).
const QUIET: usize = 4;

/// Grey levels of the symbol with its quiet zone, `side` pixels a module; and the width in pixels.
pub fn pixels(drawing: &Drawing, side: usize) -> (usize, Vec<u8>) {
    let width = (drawing.width + 2 * QUIET) * side;
    let module = |at: usize| (at / side).checked_sub(QUIET).filter(|at| *at < drawing.width);
    let dark = |at: usize| {
        let (x, y) = (module(at % width), module(at / width));
        x.zip(y).is_some_and(|(x, y)| drawing.dark[y * drawing.width + x])
    };
    (width, (0..width * width).map(|at| if dark(at) { 0 } else { 255 }).collect())
}

pub fn rqrr_reads(drawing: &Drawing) -> Vec<u8> {
    let (width, grey) = pixels(drawing, 4);
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, width, |x, y| grey[y * width + x]);
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1, "one code in the picture");
    let mut bytes = Vec::new();
    grids[0].decode_to(&mut bytes).unwrap();
    bytes
}

#[test]
fn the_lines_read_back_byte_for_byte() {
    for summary in [summary(), longest()] {
        let code = signed(&summary);
        assert_eq!(rqrr_reads(&draw(&code, Level::M, 18).unwrap()), code.as_bytes());
    }
}

#[test]
fn the_copy_reads_back_byte_for_byte() {
    for summary in [summary(), longest()] {
        let code = handover::copy::sign(&summary, &key()).unwrap();
        assert_eq!(rqrr_reads(&draw(&code, Level::Q, 20).unwrap()), code.as_bytes());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]
    #[test]
    fn any_handover_reads_back_byte_for_byte(summary in any_summary()) {
        let code = signed(&summary);
        prop_assert_eq!(rqrr_reads(&draw(&code, Level::M, 18).unwrap()), code.as_bytes());
    }
}
