//! The numbers a perfect check would find, worked out from the heart, never from a run.

use crate::event::Chamber;
use crate::heart::{AtrialRhythm, Heart};
use crate::recording::Recording;
use crate::strength::rescaled_threshold;

/// In the units of the heart. Intervals are between own beats of the wire's chamber.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Truth {
    /// Least output that keeps a captured heart captured, at the generator's pulse width.
    pub going_down_micro: u32,
    /// Least output that captures a heart not captured before.
    pub going_up_micro: u32,
    pub smallest_signal_uv: u32,
    pub largest_signal_uv: u32,
    pub extra_signal_uv: Option<u32>,
    /// The largest signal at the wire that is no beat of its chamber.
    pub largest_false_signal_uv: u32,
    /// `None`: the chamber has no own rhythm. Sleep of an escape and standstill not counted.
    pub own: Option<OwnRhythm>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OwnRhythm {
    pub fastest_us: u64,
    pub slowest_us: u64,
}

impl Truth {
    /// For a possible heart, on a generator of this pulse width, before its signal has drifted.
    pub fn of(heart: &Heart, pulse_width_us: u32) -> Self {
        Truth::drifted(heart, pulse_width_us, 0)
    }

    /// As [`Truth::of`], so many µs after the signal began to drift.
    pub fn drifted(heart: &Heart, pulse_width_us: u32, us: u64) -> Self {
        let capture = heart.capture;
        let at_width = |threshold| {
            let (measured, chronaxie) = (capture.measured_at_us, capture.chronaxie_us);
            rescaled_threshold(threshold, measured, chronaxie, pulse_width_us)
        };
        let (smallest, largest) = own_signals(heart, us);
        Truth {
            going_down_micro: at_width(capture.going_down_micro),
            going_up_micro: at_width(capture.going_up_micro),
            smallest_signal_uv: smallest,
            largest_signal_uv: largest,
            extra_signal_uv: extra_at_wire(heart),
            largest_false_signal_uv: largest_false(heart),
            own: OwnRhythm::of(heart),
        }
    }
}

impl OwnRhythm {
    fn of(heart: &Heart) -> Option<Self> {
        match heart.wire {
            Chamber::Atrium => p_waves(heart),
            Chamber::Ventricle => ventricular(heart).map(|own| own.answered(heart.refractory_us.into())),
        }
    }

    /// What comes while the muscle cannot answer is lost; then the next one counts, or the one after that.
    fn answered(self, refractory_us: u64) -> OwnRhythm {
        let lost = refractory_us.div_ceil(self.fastest_us.max(1)).max(1);
        OwnRhythm {
            fastest_us: self.fastest_us.max(refractory_us),
            slowest_us: self.slowest_us.saturating_mul(lost),
        }
    }

    fn recorded(recording: &Recording) -> OwnRhythm {
        OwnRhythm { fastest_us: recording.fastest_us(), slowest_us: recording.slowest_us() }
    }

    fn every_nth(self, n: u64) -> OwnRhythm {
        OwnRhythm { fastest_us: self.fastest_us * n, slowest_us: self.slowest_us * n }
    }
}

/// Of own beats: a recording has its own sizes, an escape beside it the heart's.
fn own_signals(heart: &Heart, us: u64) -> (u32, u32) {
    let signal = heart.signal;
    let around = i64::from(signal.own_scatter_uv) + i64::from(signal.breath_uv);
    let middle = i64::from(signal.own_uv) + signal.drifted_uv(us);
    let size = |uv: i64| u32::try_from(uv.max(0)).unwrap_or(u32::MAX);
    let (least, most) = (size(middle - around), size(middle + around));
    let AtrialRhythm::Recorded(recording) = &heart.atrium else { return (least, most) };
    let Some((smallest, largest)) = recording.signals_uv() else { return (least, most) };
    let escapes = heart.wire == Chamber::Ventricle && heart.escape.is_some();
    if escapes { (smallest.min(least), largest.max(most)) } else { (smallest, largest) }
}

fn p_waves(heart: &Heart) -> Option<OwnRhythm> {
    let own = match heart.atrium {
        AtrialRhythm::Sinus { interval_us, scatter_us } => around(interval_us, scatter_us),
        AtrialRhythm::Recorded(ref recording) => Some(OwnRhythm::recorded(recording)),
        AtrialRhythm::Silent | AtrialRhythm::Fibrillating { .. } => None,
    };
    own.map(|own| own.answered(heart.refractory_us.into()))
}

fn ventricular(heart: &Heart) -> Option<OwnRhythm> {
    let escape = heart.escape.and_then(|escape| around(escape.interval_us, escape.scatter_us));
    match (conducted(heart), escape) {
        (Some(conducted), Some(escape)) => Some(together(heart, conducted, escape)),
        (conducted, escape) => conducted.or(escape),
    }
}

/// Every ventricular beat resets the escape and the response to fibrillation, but no P wave: a conducted beat
/// may follow an escape as soon as the muscle can answer.
fn together(heart: &Heart, conducted: OwnRhythm, escape: OwnRhythm) -> OwnRhythm {
    if escape.fastest_us > conducted.slowest_us {
        return conducted;
    }
    match heart.atrium {
        AtrialRhythm::Fibrillating { .. } => OwnRhythm {
            fastest_us: conducted.fastest_us.min(escape.fastest_us),
            slowest_us: conducted.slowest_us.min(escape.slowest_us),
        },
        // A conducted beat that meets refractory muscle is lost; the escape then comes at its own time.
        // A recording likewise runs on under an escape.
        AtrialRhythm::Sinus { .. } | AtrialRhythm::Silent | AtrialRhythm::Recorded(_) => {
            OwnRhythm { fastest_us: heart.refractory_us.into(), slowest_us: escape.slowest_us }
        }
    }
}

fn conducted(heart: &Heart) -> Option<OwnRhythm> {
    if let AtrialRhythm::Recorded(recording) = &heart.atrium {
        return Some(OwnRhythm::recorded(recording));
    }
    let conduction = heart.conduction?;
    if let AtrialRhythm::Fibrillating { fastest_us, slowest_us, .. } = heart.atrium {
        return Some(OwnRhythm { fastest_us: fastest_us.into(), slowest_us: slowest_us.into() });
    }
    let p_waves = p_waves(heart)?;
    let recovery = u64::from(conduction.recovery_us);
    Some(OwnRhythm {
        fastest_us: p_waves.every_nth(recovery.div_ceil(p_waves.slowest_us)).fastest_us,
        slowest_us: p_waves.every_nth(recovery.div_ceil(p_waves.fastest_us)).slowest_us,
    })
}

fn around(interval_us: u32, scatter_us: u32) -> Option<OwnRhythm> {
    Some(OwnRhythm {
        fastest_us: u64::from(interval_us.saturating_sub(scatter_us)),
        slowest_us: u64::from(interval_us) + u64::from(scatter_us),
    })
}

fn extra_at_wire(heart: &Heart) -> Option<u32> {
    heart.extra.filter(|extra| extra.chamber == heart.wire).map(|extra| extra.signal_uv)
}

fn largest_false(heart: &Heart) -> u32 {
    match (heart.wire, &heart.atrium) {
        (Chamber::Ventricle, _) => heart.signal.t_wave_uv,
        (Chamber::Atrium, AtrialRhythm::Fibrillating { wave_uv, .. }) => {
            heart.signal.far_field_uv.max(*wave_uv)
        }
        (Chamber::Atrium, AtrialRhythm::Silent | AtrialRhythm::Sinus { .. } | AtrialRhythm::Recorded(_)) => {
            heart.signal.far_field_uv
        }
    }
}
