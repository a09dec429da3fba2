//! What "n of n beats" is worth.

/// 1 − 0.05^(1/n) in tenths of a percent, n from 1 to 30 (RULE3, calculated; a test recomputes it).
const MISS_BOUND: [u16; 30] = [
    950, 776, 632, 527, 451, 393, 348, 312, 283, 259, 238, 221, 206, 193, 181, 171, 162, 153, 146, 139, 133,
    127, 122, 117, 113, 109, 105, 101, 98, 95,
];

/// Upper 95 % bound on the share of beats missed when none of `beats` was, in tenths of a percent.
/// No beats say nothing: 100 %. Beyond the table the bound of its end holds, which is larger.
pub fn miss_bound_percent(beats: u8) -> u16 {
    let last = MISS_BOUND.len() - 1;
    let entry = usize::from(beats).checked_sub(1).map(|i| i.min(last));
    entry.and_then(|i| MISS_BOUND.get(i)).copied().unwrap_or(1_000)
}
