//! A QR code in half blocks: two rows a line, light on dark or dark on light as the terminal is.

/// Light modules around the code; readers want four.
const QUIET: usize = 4;

/// The code with its quiet zone, drawn so that a dark module is a blank and a light one is full: right on a
/// terminal with light letters on a dark ground.
pub fn half_blocks(modules: &[String]) -> Vec<String> {
    let size = modules.len();
    if size == 0 {
        return Vec::new();
    }
    let rows: Vec<Vec<char>> = modules.iter().map(|row| row.chars().collect()).collect();
    let dark = |row: usize, column: usize| {
        let inside = |at: usize| at.checked_sub(QUIET).filter(|at| *at < size);
        inside(row).zip(inside(column)).is_some_and(|(row, column)| rows[row].get(column) == Some(&'1'))
    };
    let whole = size + 2 * QUIET;
    (0..whole)
        .step_by(2)
        .map(|row| {
            (0..whole)
                .map(|column| block(dark(row, column), row + 1 < whole && dark(row + 1, column)))
                .collect()
        })
        .collect()
}

fn block(upper_dark: bool, lower_dark: bool) -> char {
    match (upper_dark, lower_dark) {
        (false, false) => '█',
        (false, true) => '▀',
        (true, false) => '▄',
        (true, true) => ' ',
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dark_module_is_a_gap_in_a_full_ground() {
        let drawn = half_blocks(&["10".to_owned(), "01".to_owned()]);
        assert_eq!(drawn.len(), 5);
        assert_eq!(drawn[2], "████▄▀████");
        assert_eq!(drawn[0], "██████████");
    }

    #[test]
    fn an_odd_last_row_has_a_light_lower_half() {
        let drawn = half_blocks(&["1".to_owned()]);
        assert_eq!(drawn.len(), 5);
        assert_eq!(drawn[2], "████▄████");
    }

    #[test]
    fn no_code_draws_nothing() {
        assert!(half_blocks(&[]).is_empty());
    }
}
