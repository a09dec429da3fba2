//! Why a heart cannot beat, in the words of the file it was written in: its own fields, in their own units.

use domain::say::{Say, figure};
use domain::units::{MICRO_PER_MILLI, MICRO_PER_WHOLE, OutputUnit, shortest};
use simulator::Fault;

const MINUTE_US: u32 = 60_000_000;

/// How the figure of a file becomes the simulator's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Written {
    /// As it is, in this unit.
    Plain(&'static str),
    Ms,
    Seconds,
    MilliVolt,
    /// In the unit of the OUTPUT dial.
    Output,
    /// A rate, which the simulator keeps as an interval: what is longest there is slowest here.
    PerMin,
}

use Written::{MilliVolt, Ms, Output, PerMin, Plain, Seconds};

/// The simulator's field, and the file's.
const FIELDS: [(&str, &str, Written); 32] = [
    ("sinus.interval_us", "atrium.rate_per_min", PerMin),
    ("sinus.scatter_us", "atrium.scatter_ms", Ms),
    ("recorded.interval_us", "recorded", Seconds),
    ("fibrillating.fastest_us", "atrium.fastest_per_min", PerMin),
    ("fibrillating.slowest_us", "atrium.slowest_per_min", PerMin),
    ("fibrillating.wave_uv", "atrium.wave_mV", MilliVolt),
    ("conduction.recovery_us", "conducts_up_to_per_min", PerMin),
    ("escape.interval_us", "escape.rate_per_min", PerMin),
    ("escape.scatter_us", "escape.scatter_ms", Ms),
    ("suppression.longest_us", "escape.sleeps_s", Seconds),
    ("extra.one_in", "extra_beats.one_in", Plain("")),
    ("extra.coupling_us", "extra_beats.after_ms", Ms),
    ("extra.signal_uv", "extra_beats.signal_mV", MilliVolt),
    ("signal.own_uv", "signal.own_mV", MilliVolt),
    ("signal.own_scatter_uv", "signal.scatter_mV", MilliVolt),
    ("signal.breath_uv", "signal.breathing_mV", MilliVolt),
    ("signal.breath_us", "signal.breath_s", Seconds),
    ("signal.drift_uv_per_hour", "signal.drift_mV_per_hour", MilliVolt),
    ("signal.t_wave_uv", "signal.t_wave_mV", MilliVolt),
    ("signal.t_wave_delay_us", "signal.t_wave_after_ms", Ms),
    ("noise.peak_uv", "noise.peak_mV", MilliVolt),
    ("lead.sound_us", "lead.sound_ms", Ms),
    ("lead.broken_us", "lead.broken_ms", Ms),
    ("vulnerable.from_us", "vulnerable.from_ms", Ms),
    ("vulnerable.until_us", "vulnerable.until_ms", Ms),
    ("vulnerable.one_in", "vulnerable.one_in", Plain("")),
    ("vulnerable.wave_uv", "vulnerable.wave_mV", MilliVolt),
    ("capture.going_down_micro", "capture.going_down", Output),
    ("capture.going_up_micro", "capture.going_up", Output),
    ("capture.scatter_micro", "capture.scatter", Output),
    ("pressure.own_mmhg", "pressure.own_mmHg", Plain("mmHg")),
    ("pressure.paced_mmhg", "pressure.paced_mmHg", Plain("mmHg")),
];

/// The place in the heart's file, and what stands against it there; `None` where no file says such a thing.
pub(crate) fn told(fault: Fault, unit: OutputUnit) -> Option<(&'static str, Say)> {
    match fault {
        Fault::OutOfRange { field, value, least, greatest } => {
            let (place, written) = of(field)?;
            Some((place, written.out_of_range(value, (least, greatest), unit)))
        }
        Fault::AboveOther { field, value, other, limit } => match (of(field), of(other)) {
            (Some((place, PerMin)), Some((other, PerMin))) => {
                let (found, least) = (PerMin.text(value, unit), PerMin.text(limit, unit));
                Some((place, Say::FaultBelowOther { found, other: other.to_owned(), least }))
            }
            (Some((place, written)), Some((other, _))) => {
                let (found, greatest) = (written.text(value, unit), written.text(limit, unit));
                Some((place, Say::FaultAboveOther { found, other: other.to_owned(), greatest }))
            }
            // An interval scatters no further than the fastest beat allows.
            (Some((place, written)), None) => Some((place, written.out_of_range(value, (0, limit), unit))),
            // Conduction recovers no sooner than it conducts.
            (None, Some((place, written))) => {
                Some((place, written.out_of_range(limit, (value, MINUTE_US), unit)))
            }
            (None, None) => None,
        },
    }
}

fn of(field: &str) -> Option<(&'static str, Written)> {
    FIELDS.iter().find(|(simulated, ..)| *simulated == field).map(|&(_, place, written)| (place, written))
}

impl Written {
    fn out_of_range(self, found: u32, (least, greatest): (u32, u32), unit: OutputUnit) -> Say {
        let (least, greatest) = match self {
            PerMin => (MINUTE_US.div_ceil(greatest.max(1)), MINUTE_US / least.max(1)),
            Plain(_) | Ms | Seconds | MilliVolt | Output => (least, greatest),
        };
        let bound = |bound: u32| if self == PerMin { bound.to_string() } else { self.text(bound, unit) };
        Say::FaultOutOfRange {
            found: self.text(found, unit),
            least: bound(least),
            greatest: bound(greatest),
            unit: Box::new(figure(self.unit(unit))),
            source: Box::new(Say::RangeNoSource),
        }
    }

    /// The simulator's figure as a file would write it.
    fn text(self, value: u32, output: OutputUnit) -> String {
        match self {
            Plain(_) => value.to_string(),
            Ms | MilliVolt => shortest(value, MICRO_PER_MILLI),
            Output => shortest(value, output.scale()),
            Seconds => shortest(value, MICRO_PER_WHOLE),
            PerMin => ((MINUTE_US + value / 2) / value.max(1)).to_string(),
        }
    }

    fn unit(self, output: OutputUnit) -> &'static str {
        match self {
            Plain(unit) => unit,
            Ms => "ms",
            Seconds => "s",
            MilliVolt => "mV",
            Output => output.symbol(),
            PerMin => "/min",
        }
    }
}
