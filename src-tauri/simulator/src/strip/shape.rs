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

/// The bump's height at `at_us` after its beginning: (1 - x²)², which begins and ends without a corner.
/// Bumps are narrower than a second and lower than 2,000, so that nothing overflows.
pub fn height(bump: Bump, at_us: i32) -> i32 {
    let wide = bump.wide_us.cast_signed();
    let x = (2 * at_us - wide) * 1_000 / wide;
    let inside = (1_000_000 - x * x) / 1_000;
    bump.high * (inside * inside / 1_000) / 1_000
}

/// Both in one: `share` parts of a hundred of the first.
pub fn fused(first: Bump, share: i32) -> Bump {
    Bump { high: first.high * share / 100, ..first }
}
