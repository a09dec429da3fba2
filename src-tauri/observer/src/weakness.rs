//! What a tired person gets wrong at the bedside, each with a chance of its own, drawn from a seed of its own: the
//! patient's chance is not touched.

use simulator::SplitMix64;

/// One kind of mistake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mistake {
    /// A spike that made no beat is not noticed.
    Overlooked,
    /// An own beat right behind a spike is taken for the spike's beat.
    Misread,
    /// At a reading before anything was turned, one dial is typed as another of its positions.
    Mistyped,
    /// As that, and believed: typed the same at every reading before anything was turned.
    MisreadDial,
    /// An answer is tapped some seconds after it was made up.
    Late,
    /// Another answer of the card is tapped; half of these are noticed at once.
    Slipped,
    /// A card is watched and answered without a look at the monitor, until its alarm is heard.
    LookedAway,
}

impl Mistake {
    pub const ALL: [Mistake; 7] = [
        Mistake::Overlooked,
        Mistake::Misread,
        Mistake::Mistyped,
        Mistake::MisreadDial,
        Mistake::Late,
        Mistake::Slipped,
        Mistake::LookedAway,
    ];
}

/// The kinds that happen, and how often each does where it can.
#[derive(Clone, Debug)]
pub struct Weakness {
    kinds: Vec<Mistake>,
    per_thousand: u64,
    chance: SplitMix64,
    /// With the instant, µs.
    pub made: Vec<(u64, Mistake)>,
}

impl Weakness {
    pub fn new(kinds: &[Mistake], per_thousand: u64, seed: u64) -> Weakness {
        Weakness { kinds: kinds.to_vec(), per_thousand, chance: SplitMix64::new(seed), made: Vec::new() }
    }

    /// Whether it is made now.
    pub fn makes(&mut self, mistake: Mistake, at_us: u64) -> bool {
        let made = self.kinds.contains(&mistake) && self.chance.below(1_000) < self.per_thousand;
        if made {
            self.made.push((at_us, mistake));
        }
        made
    }

    /// Uniform below `bound`.
    pub fn below(&mut self, bound: usize) -> usize {
        usize::try_from(self.chance.below(bound as u64)).unwrap_or(0)
    }
}
