//! Chance from a seed, the same on every machine.

/// SplitMix64: Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014,
/// doi:10.1145/2660193.2660195, with the constants of its published reference code.
#[derive(Clone, Debug)]
pub struct SplitMix64 {
    state: u64,
}

impl SplitMix64 {
    pub const fn new(seed: u64) -> Self {
        SplitMix64 { state: seed }
    }

    pub const fn next_u64(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Uniform in `0..bound`; 0 when the bound is 0. Multiply and shift: biased by less than bound / 2⁶⁴.
    pub const fn below(&mut self, bound: u64) -> u64 {
        ((self.next_u64() as u128 * bound as u128) >> 64) as u64
    }

    /// Uniform in `centre - scatter ..= centre + scatter`, never below 0. Draws nothing without scatter.
    pub const fn around(&mut self, centre: u32, scatter: u32) -> u32 {
        if scatter == 0 {
            return centre;
        }
        let least = centre.saturating_sub(scatter);
        let span = centre.saturating_add(scatter) - least;
        least + self.below(span as u64 + 1) as u32
    }
}
