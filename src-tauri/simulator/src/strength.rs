//! Output, pulse width and energy. Weiss-Lapicque: I = b(1 + c/d), in whole µA (or µV) and µs.

/// Threshold at a pulse width, from rheobase and chronaxie, rounded up: a little more is needed, never less.
///
/// `rheobase` in µA or µV, the result in the same; `chronaxie_us` and `width_us` in µs, `width_us` > 0
/// (0 gives `u32::MAX`: no pulse captures). Source: GED, doi:10.1109/TBME.2003.820340.
pub fn threshold_at(rheobase: u32, chronaxie_us: u32, width_us: u32) -> u32 {
    let width = u64::from(width_us);
    scaled(rheobase, width + u64::from(chronaxie_us), width)
}

/// The threshold at `width_us` of muscle whose threshold at `measured_at_us` is `threshold`.
pub fn rescaled_threshold(threshold: u32, measured_at_us: u32, chronaxie_us: u32, width_us: u32) -> u32 {
    let chronaxie = u64::from(chronaxie_us);
    let (measured, width) = (u64::from(measured_at_us), u64::from(width_us));
    scaled(threshold, (width + chronaxie) * measured, width * (measured + chronaxie))
}

/// Energy of one rectangular pulse of constant voltage, E = V²·d / Z, in nanojoules, rounded down.
///
/// `output_uv` in µV, `width_us` in µs, `impedance_ohm` in Ω (0 gives `u64::MAX`).
pub fn energy_nj(output_uv: u32, width_us: u32, impedance_ohm: u32) -> u64 {
    const UV2_US_PER_NJ: u128 = 1_000_000_000;
    let square = u128::from(output_uv) * u128::from(output_uv);
    (square * u128::from(width_us))
        .checked_div(u128::from(impedance_ohm) * UV2_US_PER_NJ)
        .map_or(u64::MAX, |energy| u64::try_from(energy).unwrap_or(u64::MAX))
}

fn scaled(value: u32, numerator: u64, denominator: u64) -> u32 {
    if denominator == 0 {
        return u32::MAX;
    }
    let exact = (u128::from(value) * u128::from(numerator)).div_ceil(u128::from(denominator));
    u32::try_from(exact).unwrap_or(u32::MAX)
}
