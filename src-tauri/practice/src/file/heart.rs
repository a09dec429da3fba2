//! A heart as a clinical educator writes it down. What is left out is as in the simulator's own heart.

use domain::profile::Profile;
use domain::units::OutputUnit;
use serde::{Deserialize, Serialize};
use simulator::{
    AtrialRhythm, Capture, Conduction, Escape, ExtraBeats, Heart, Lead, Pressure, Suppression, interval_us,
};

use super::ChamberName;
use super::recorded::{Beside, RecordedFile, RecordingFault};
use super::signal::SignalFile;
use super::varies::Moved;
use super::wire::{LeadFile, NoiseFile, VulnerableFile};
use crate::fault::Fault;

#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HeartFile {
    /// The chamber the wire truly stands on, if it is not the one it is labelled for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wire_on: Option<ChamberName>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub atrium: Option<AtriumFile>,
    /// A recorded rhythm of the chamber the wire stands on, in place of `atrium`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recorded: Option<RecordedFile>,
    /// No P wave reaches the ventricle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub complete_block: Option<bool>,
    /// P waves that follow one another faster than this are blocked in part, per minute.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub conducts_up_to_per_min: Option<u16>,
    /// The ventricle's own pacemaker.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub escape: Option<EscapeFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub extra_beats: Option<ExtraBeatsFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signal: Option<SignalFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub capture: Option<CaptureFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure: Option<PressureFile>,
    /// Signals at the wire that are no beats.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub noise: Option<NoiseFile>,
    /// Whether the wire carries anything at all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<LeadFile>,
    /// A spike that makes a beat on a T wave can start fibrillation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vulnerable: Option<VulnerableFile>,
    /// The monitor shows spikes of this OUTPUT or more, in the unit of the dial.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spikes_seen_from: Option<f64>,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(tag = "rhythm", rename_all = "kebab-case", deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum AtriumFile {
    Silent,
    Sinus {
        rate_per_min: u16,
        /// Each interval is so much longer or shorter, by chance.
        #[serde(default)]
        scatter_ms: u32,
    },
    /// The ventricle follows irregularly between the two rates.
    Fibrillation {
        slowest_per_min: u16,
        fastest_per_min: u16,
        #[serde(rename = "wave_mV")]
        wave_mv: f64,
    },
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EscapeFile {
    pub rate_per_min: u16,
    /// Each interval is so much longer or shorter, by chance.
    #[serde(default)]
    pub scatter_ms: u32,
    /// Pacing puts it to sleep: this much later it comes at first, seconds.
    #[serde(default)]
    pub sleeps_s: f64,
}

/// Extra beats of the chamber the wire stands on, or of another.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ExtraBeatsFile {
    pub chamber: ChamberName,
    /// One own beat in so many is followed by one.
    pub one_in: u32,
    pub after_ms: u32,
    #[serde(rename = "signal_mV")]
    pub signal_mv: f64,
}

/// Thresholds in the unit of the OUTPUT dial, at the generator's own pulse width.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CaptureFile {
    /// Captured muscle stays so down to this.
    pub going_down: f64,
    /// Muscle once lost takes this.
    pub going_up: f64,
    /// Both are so much higher or lower from beat to beat.
    #[serde(default)]
    pub scatter: f64,
}

/// Systolic, mmHg; 0 is no pulse.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct PressureFile {
    #[serde(rename = "own_mmHg")]
    pub own_mmhg: u16,
    #[serde(rename = "paced_mmHg")]
    pub paced_mmhg: u16,
}

fn fault(why: RecordingFault) -> Fault {
    Fault::Recording { place: "recorded".to_owned(), why }
}

/// Thousandths, as the dials and the simulator count.
pub(super) fn milli(figure: f64) -> u32 {
    (figure * 1000.0).round() as u32
}

/// A figure of the OUTPUT dial, as the simulator counts.
pub(super) fn micro(figure: f64, generator: &Profile) -> u32 {
    match generator.output_unit() {
        OutputUnit::MilliAmp => milli(figure),
        OutputUnit::Volt => milli(figure * 1000.0),
    }
}

/// A heart whose recording was read, where it names one: only such a one can beat.
#[derive(Clone, Debug, Default)]
pub struct LoadedHeart {
    file: HeartFile,
    moved: Moved,
}

impl LoadedHeart {
    /// This heart, with what `over` names put in its place.
    #[must_use]
    pub fn changed_by(&self, over: &LoadedHeart) -> LoadedHeart {
        LoadedHeart { file: self.file.changed_by(&over.file), moved: self.moved }
    }

    /// As a seed has drawn it; what takes its place later is moved as far.
    #[must_use]
    pub fn moved(&self, moved: Moved) -> LoadedHeart {
        LoadedHeart { file: self.file.clone(), moved }
    }

    /// Whether it can beat; `place` is that of its file.
    ///
    /// # Errors
    /// The first field that makes it impossible, with what is allowed there.
    pub fn can_beat(&self, chamber: ChamberName, generator: &Profile, place: &str) -> Result<(), Fault> {
        let unit = generator.output_unit();
        let possible = self.heart(chamber, generator).validate();
        possible.map_err(|why| Fault::Heart { place: place.to_owned(), why, unit })
    }

    /// The simulated heart behind a wire labelled for `chamber`.
    pub fn heart(&self, chamber: ChamberName, generator: &Profile) -> Heart {
        let (file, usual) = (&self.file, Heart::default());
        self.moved.heart(Heart {
            wire: file.wire_on.unwrap_or(chamber).simulated(),
            atrium: file.recorded_rhythm().or(file.atrium.map(AtriumFile::rhythm)).unwrap_or(usual.atrium),
            conduction: file.conduction(),
            escape: file.escape.map(EscapeFile::escape),
            extra: file.extra_beats.map(ExtraBeatsFile::extra),
            signal: file.signal.map_or(usual.signal, |signal| signal.signal(usual.signal)),
            capture: file.capture(generator),
            pressure: file.pressure.map_or(usual.pressure, |pressure| Pressure {
                own_mmhg: pressure.own_mmhg,
                paced_mmhg: pressure.paced_mmhg,
                ..usual.pressure
            }),
            noise: file.noise.and_then(NoiseFile::noise),
            lead: file.lead.map_or(Lead::Sound, LeadFile::lead),
            vulnerable: file.vulnerable.map(VulnerableFile::vulnerable),
            spikes_seen_from_micro: file.spikes_seen_from.map_or(0, |figure| micro(figure, generator)),
            ..usual
        })
    }
}

impl HeartFile {
    /// This heart, with what `over` names put in its place.
    fn changed_by(&self, over: &HeartFile) -> HeartFile {
        HeartFile {
            wire_on: over.wire_on.or(self.wire_on),
            atrium: over.atrium.or(self.atrium),
            recorded: over
                .recorded
                .clone()
                .or_else(|| self.recorded.clone().filter(|_| over.atrium.is_none())),
            complete_block: over.complete_block.or(self.complete_block),
            conducts_up_to_per_min: over.conducts_up_to_per_min.or(self.conducts_up_to_per_min),
            escape: over.escape.or(self.escape),
            extra_beats: over.extra_beats.or(self.extra_beats),
            signal: over.signal.or(self.signal),
            capture: over.capture.or(self.capture),
            pressure: over.pressure.or(self.pressure),
            noise: over.noise.or(self.noise),
            lead: over.lead.or(self.lead),
            vulnerable: over.vulnerable.or(self.vulnerable),
            spikes_seen_from: over.spikes_seen_from.or(self.spikes_seen_from),
        }
    }

    /// # Errors
    /// It names a recording that has not been read.
    pub fn loaded(&self) -> Result<LoadedHeart, Fault> {
        let unread = self.recorded.as_ref().is_some_and(|recorded| recorded.read().is_none());
        if unread {
            Err(fault(RecordingFault::NotRead))
        } else {
            Ok(LoadedHeart { file: self.clone(), moved: Moved::default() })
        }
    }

    /// Reads its recording, where it has one; gives back the text it was read from.
    ///
    /// # Errors
    /// The recording is no rhythm.
    pub fn load(&mut self, beside: Beside<'_>) -> Result<Option<String>, Fault> {
        let Some(recorded) = &mut self.recorded else { return Ok(None) };
        if self.atrium.is_some() {
            return Err(fault(RecordingFault::BesideAtrium));
        }
        recorded.load(beside).map(Some).map_err(fault)
    }

    fn recorded_rhythm(&self) -> Option<AtrialRhythm> {
        self.recorded.as_ref()?.read().cloned().map(AtrialRhythm::Recorded)
    }

    /// What no file may say of a heart and the simulator would read as something else.
    ///
    /// # Errors
    /// The first figure below zero, or rate of zero.
    pub fn check(&self) -> Result<(), Fault> {
        self.signal.map_or(Ok(()), SignalFile::check)?;
        let capture =
            self.capture.map_or([0.0; 3], |capture| [capture.going_down, capture.going_up, capture.scatter]);
        let figures = [
            ("capture.going_down", capture[0]),
            ("capture.going_up", capture[1]),
            ("capture.scatter", capture[2]),
            ("vulnerable.wave_mV", self.vulnerable.map_or(0.0, |vulnerable| vulnerable.wave_mv)),
            ("spikes_seen_from", self.spikes_seen_from.unwrap_or(0.0)),
            ("escape.sleeps_s", self.escape.map_or(0.0, |escape| escape.sleeps_s)),
            ("extra_beats.signal_mV", self.extra_beats.map_or(0.0, |extra| extra.signal_mv)),
            ("noise.peak_mV", self.noise.map_or(0.0, NoiseFile::peak_mv)),
        ];
        figures.into_iter().try_for_each(|(place, figure)| Fault::unless_figure(place, figure))?;
        let escape = self.escape.map_or(1, |escape| escape.rate_per_min);
        let conducts = self.conducts_up_to_per_min.unwrap_or(1);
        let (slowest, fastest) = self.atrium.map_or((1, 1), AtriumFile::rates);
        [
            ("atrium.rate_per_min", slowest),
            ("atrium.fastest_per_min", fastest),
            ("escape.rate_per_min", escape),
            ("conducts_up_to_per_min", conducts),
        ]
        .into_iter()
        .try_for_each(|(place, rate)| Fault::unless_rate(place, rate))
    }

    fn conduction(&self) -> Option<Conduction> {
        if self.complete_block == Some(true) {
            return None;
        }
        let usual = Conduction::default();
        let recovery_us = self.conducts_up_to_per_min.map_or(usual.recovery_us, interval_us);
        Some(Conduction { recovery_us, ..usual })
    }

    fn capture(&self, generator: &Profile) -> Capture {
        let usual = CaptureFile { going_down: 1.6, going_up: 1.8, scatter: 0.0 };
        let capture = self.capture.unwrap_or(usual);
        Capture {
            going_down_micro: micro(capture.going_down, generator),
            going_up_micro: micro(capture.going_up, generator),
            scatter_micro: micro(capture.scatter, generator),
            measured_at_us: generator.pulse_width_us,
            ..Capture::default()
        }
    }
}

impl AtriumFile {
    fn rates(self) -> (u16, u16) {
        match self {
            AtriumFile::Silent => (1, 1),
            AtriumFile::Sinus { rate_per_min, .. } => (rate_per_min, rate_per_min),
            AtriumFile::Fibrillation { slowest_per_min, fastest_per_min, .. } => {
                (slowest_per_min, fastest_per_min)
            }
        }
    }

    fn rhythm(self) -> AtrialRhythm {
        match self {
            AtriumFile::Silent => AtrialRhythm::Silent,
            AtriumFile::Sinus { rate_per_min, scatter_ms } => AtrialRhythm::Sinus {
                interval_us: interval_us(rate_per_min),
                scatter_us: scatter_ms.saturating_mul(1_000),
            },
            AtriumFile::Fibrillation { slowest_per_min, fastest_per_min, wave_mv } => {
                AtrialRhythm::Fibrillating {
                    fastest_us: interval_us(fastest_per_min),
                    slowest_us: interval_us(slowest_per_min),
                    wave_uv: milli(wave_mv),
                }
            }
        }
    }
}

impl EscapeFile {
    fn escape(self) -> Escape {
        let suppression = (self.sleeps_s > 0.0).then(|| Suppression {
            longest_us: (self.sleeps_s * 1_000_000.0).round() as u32,
            builds_over_beats: 10,
            wakes_over_beats: 2,
        });
        let scatter_us = self.scatter_ms.saturating_mul(1_000);
        Escape { interval_us: interval_us(self.rate_per_min), scatter_us, suppression }
    }
}

impl ExtraBeatsFile {
    fn extra(self) -> ExtraBeats {
        ExtraBeats {
            chamber: self.chamber.simulated(),
            one_in: self.one_in,
            coupling_us: self.after_ms.saturating_mul(1000),
            signal_uv: milli(self.signal_mv),
        }
    }
}
