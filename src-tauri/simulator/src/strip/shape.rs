//! Shapes of waves, as parts of a whole. Sizes and widths are from memory of what a monitor shows, none measured.

/// One bump: where it begins after its event, how wide and how high it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bump {
    pub after_us: u32,
    pub wide_us: u32,
    /// µV on the ECG, mmHg on the pulse trace.
    pub high: i32,
}

const fn bump(after_ms: u32, wide_ms: u32, high: i32) -> Bump {
    Bump { after_us: after_ms * 1_000, wide_us: wide_ms * 1_000, high }
}

pub const P_WAVE: &[Bump] = &[bump(0, 90, 150)];
pub const P_WAVE_PACED: &[Bump] = &[bump(10, 110, 110)];
/// Narrow, upright.
pub const QRS: &[Bump] = &[bump(0, 24, -120), bump(16, 44, 1_100), bump(48, 36, -280)];
pub const T_WAVE: Bump = bump(0, 180, 260);
/// Wide and downward, its T wave upright and larger.
pub const QRS_PACED: &[Bump] = &[bump(4, 60, 200), bump(30, 140, -1_050)];
pub const T_WAVE_PACED: Bump = bump(0, 200, 380);
/// Wide and upright: neither own nor paced.
pub const QRS_EXTRA: &[Bump] = &[bump(0, 130, 1_300), bump(110, 70, -350)];
pub const T_WAVE_EXTRA: Bump = bump(0, 200, -350);
/// One sample up, one down.
pub const SPIKE: [i32; 2] = [2_400, -900];
/// Of fibrillation; each is a little larger or smaller.
pub const FIBRILLATION: Bump = bump(0, 170, 300);
/// Above the diastolic pressure.
pub const PULSE_US: u32 = 420_000;

/// Heights, in thousandths, by the distance from the middle in thousandths of half the width: (1 - x²)², which
/// begins and ends without a corner. Longer than is reached, so that its places need no check.
const BY_DISTANCE: [i32; 1_024] = {
    let mut heights = [0; 1_024];
    let mut x = 0;
    while x <= 1_000 {
        let inside = (1_000_000 - x * x) / 1_000;
        heights[x as usize] = inside * inside / 1_000;
        x += 1;
    }
    heights
};

/// A division by a width is done as a multiplication by its inverse of so many bits, too large by less than one.
/// A dividend is at most a thousand widths and a width less than a second: 10⁹ times 10⁶ is below 2⁵², so that
/// the quotient is never a whole one too large.
const INVERSE_BITS: u32 = 52;

/// A bump with what its every height asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawn {
    high: i32,
    wide_us: i64,
    inverse: u64,
}

impl Drawn {
    pub fn new(bump: Bump) -> Drawn {
        let inverse = (1_u64 << INVERSE_BITS) / u64::from(bump.wide_us) + 1;
        Drawn { high: bump.high, wide_us: i64::from(bump.wide_us), inverse }
    }

    /// The height at `at_us` after the beginning, 0 up to the width. Bumps are lower than 2,000,000, so that
    /// nothing overflows.
    pub fn height(&self, at_us: i64) -> i32 {
        let from_middle = (2 * at_us - self.wide_us).unsigned_abs() * 1_000;
        let x = (from_middle * self.inverse) >> INVERSE_BITS;
        self.high * BY_DISTANCE[(x & 1_023) as usize] / 1_000
    }
}

/// Both in one: `share` parts of a hundred of the first.
pub fn fused(first: Bump, share: i32) -> Bump {
    Bump { high: first.high * share / 100, ..first }
}
