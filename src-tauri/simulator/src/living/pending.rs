//! What the heart will do next: one place for each kind, so that nothing is ever sorted or allocated.

pub(crate) const NEVER: u64 = u64::MAX;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Due {
    Sinus,
    FibrillationWave,
    Conducted,
    Escape,
    Extra,
    TWave,
    Noise,
    VentricularWave,
    Pulse,
}

#[derive(Clone, Debug)]
pub(crate) struct Pending {
    pub(crate) sinus: u64,
    pub(crate) wave: u64,
    pub(crate) conducted: u64,
    pub(crate) escape: u64,
    pub(crate) extra: u64,
    pub(crate) t_wave: u64,
    pub(crate) noise: u64,
    pub(crate) ventricular_wave: u64,
    pub(crate) pulse: u64,
}

impl Pending {
    pub(crate) const NOTHING: Pending = Pending {
        sinus: NEVER,
        wave: NEVER,
        conducted: NEVER,
        escape: NEVER,
        extra: NEVER,
        t_wave: NEVER,
        noise: NEVER,
        ventricular_wave: NEVER,
        pulse: NEVER,
    };

    /// The earliest; of two at one instant the one named first in [`Due`].
    pub(crate) fn first(&self) -> (u64, Due) {
        let mut first = (self.sinus, Due::Sinus);
        for other in [
            (self.wave, Due::FibrillationWave),
            (self.conducted, Due::Conducted),
            (self.escape, Due::Escape),
            (self.extra, Due::Extra),
            (self.t_wave, Due::TWave),
            (self.noise, Due::Noise),
            (self.ventricular_wave, Due::VentricularWave),
            (self.pulse, Due::Pulse),
        ] {
            if other.0 < first.0 {
                first = other;
            }
        }
        first
    }
}
