//! Drawing from a seed.

use simulator::SplitMix64;

#[derive(Clone, Debug)]
pub struct Draw(SplitMix64);

impl Draw {
    pub fn new(seed: u64) -> Draw {
        Draw(SplitMix64::new(seed))
    }

    /// Both ends included.
    pub fn between(&mut self, least: u32, most: u32) -> u32 {
        let span = u64::from(most.saturating_sub(least)) + 1;
        least + u32::try_from(self.0.below(span)).unwrap_or_default()
    }

    pub fn percent(&mut self, chance: u32) -> bool {
        self.between(1, 100) <= chance
    }

    /// `None` from an empty list.
    pub fn one_of<T: Copy>(&mut self, list: &[T]) -> Option<T> {
        let last = u32::try_from(list.len()).ok()?.checked_sub(1)?;
        list.get(self.between(0, last) as usize).copied()
    }
}
