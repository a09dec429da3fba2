//! A heart in motion. It knows nothing of the generator but the pulses it is given.

mod atrium;
mod disturbed;
mod pending;
mod recorded;
mod sleep;
mod ventricle;
mod wire;

use crate::event::{Chamber, Origin, What};
use crate::heart::{AtrialRhythm, Heart};
use crate::random::SplitMix64;
use crate::strength::rescaled_threshold;
pub(crate) use pending::Due;
use pending::{NEVER, Pending};
use sleep::Sleep;

/// What became of one instant: at most one visible thing, and the signal it left at the wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Happening {
    pub(crate) what: Option<What>,
    pub(crate) at_wire_uv: u32,
}

impl Happening {
    const NOTHING: Happening = Happening { what: None, at_wire_uv: 0 };
}

#[derive(Clone, Debug)]
pub(crate) struct Living {
    heart: Heart,
    chance: SplitMix64,
    pending: Pending,
    /// Thresholds at the generator's pulse width.
    holds_from: u32,
    captures_from: u32,
    /// The last spike on excitable muscle captured.
    holding: bool,
    atrium_refractory_until: u64,
    ventricle_refractory_until: u64,
    last_ventricular: u64,
    has_beaten: bool,
    ventricle_fibrillates: bool,
    node_recovered_at: u64,
    sleep: Sleep,
    own_in_a_row: u32,
    still_until: u64,
    pulse_mmhg: u16,
    noise_until: u64,
    /// Since when the signal has been the one it drifts from.
    signal_since: u64,
    /// Of a recording: the place of the beat that comes next.
    recorded_place: usize,
}

/// Which parts of a heart stay as they were when it changes.
#[derive(Clone, Copy, Debug)]
struct Unchanged {
    atrium: bool,
    conduction: bool,
    escape: bool,
    extra: bool,
    noise: bool,
    signal: bool,
}

impl Unchanged {
    fn of(before: &Heart, after: &Heart) -> Unchanged {
        Unchanged {
            atrium: before.atrium == after.atrium && before.wire == after.wire,
            conduction: before.conduction == after.conduction,
            escape: before.escape == after.escape,
            extra: before.extra == after.extra,
            noise: before.noise == after.noise,
            signal: before.signal == after.signal,
        }
    }

    fn rhythm(self) -> bool {
        self.atrium && self.conduction && self.escape
    }
}

impl Living {
    /// A heart whose first own beats come somewhere within their interval after `now`. `heart` is possible.
    pub(crate) fn new(heart: Heart, pulse_width_us: u32, seed: u64, now: u64) -> Self {
        let mut living = Living {
            heart,
            chance: SplitMix64::new(seed),
            pending: Pending::NOTHING,
            holds_from: 0,
            captures_from: 0,
            holding: false,
            atrium_refractory_until: now,
            ventricle_refractory_until: now,
            last_ventricular: now,
            has_beaten: false,
            ventricle_fibrillates: false,
            node_recovered_at: now,
            sleep: Sleep::default(),
            own_in_a_row: 0,
            still_until: now,
            pulse_mmhg: 0,
            noise_until: 0,
            signal_since: now,
            recorded_place: 0,
        };
        living.measure(pulse_width_us);
        living.begin(now);
        living
    }

    /// The heart changes under way: a drug, a rhythm that stops, a lead. Muscle and sleep stay as they are, and what
    /// was to come from a part that did not change still comes. Only another rhythm ends fibrillation.
    pub(crate) fn become_heart(&mut self, heart: Heart, pulse_width_us: u32, now: u64) {
        let unchanged = Unchanged::of(&self.heart, &heart);
        let recovers = self.ventricle_fibrillates && !unchanged.rhythm();
        self.change_into(heart, unchanged, recovers, pulse_width_us, now);
    }

    /// An external shock: it ends fibrillation, and this is the heart afterwards.
    pub(crate) fn be_shocked(&mut self, heart: Heart, pulse_width_us: u32, now: u64) {
        let unchanged = Unchanged::of(&self.heart, &heart);
        self.change_into(heart, unchanged, self.ventricle_fibrillates, pulse_width_us, now);
    }

    fn change_into(&mut self, heart: Heart, same: Unchanged, recovers: bool, pulse_width_us: u32, now: u64) {
        let recorded = self.recorded_so_far(&heart);
        self.heart = heart;
        self.measure(pulse_width_us);
        if recovers {
            self.ventricle_fibrillates = false;
            self.pending.ventricular_wave = NEVER;
        }
        if recovers || !same.atrium {
            (self.pending.sinus, self.pending.wave, self.pending.conducted) = (NEVER, NEVER, NEVER);
            self.begin_atrium(now);
            if let Some(recorded) = recorded {
                self.go_on(recorded, now);
            }
        } else if !same.conduction && !self.is_recorded_ventricle() {
            self.pending.conducted = NEVER;
            self.begin_conducted(now);
        }
        if recovers || !same.escape {
            self.pending.escape = NEVER;
            self.begin_escape(now);
        }
        if !same.extra {
            self.pending.extra = NEVER;
        }
        if !same.noise {
            self.pending.noise = NEVER;
            self.begin_noise(now);
        }
        if !same.signal {
            self.signal_since = now;
        }
    }

    pub(crate) fn heart(&self) -> &Heart {
        &self.heart
    }

    pub(crate) fn next(&self) -> (u64, Due) {
        self.pending.first()
    }

    pub(crate) fn fire(&mut self, due: Due, now: u64) -> Happening {
        let happening = self.happen(due, now);
        self.through_lead(happening, now)
    }

    fn happen(&mut self, due: Due, now: u64) -> Happening {
        match due {
            Due::Sinus => self.sinus_fires(now),
            Due::FibrillationWave => self.wave_arrives(now),
            Due::Conducted => self.conducted_arrives(now),
            Due::Escape => self.escape_fires(now),
            Due::Extra => self.extra_fires(now),
            Due::TWave => self.t_wave_passes(),
            Due::Noise => self.noise_arrives(now),
            Due::VentricularWave => self.ventricular_wave_arrives(now),
            Due::Pulse => self.pulse_arrives(),
        }
    }

    fn measure(&mut self, pulse_width_us: u32) {
        let capture = self.heart.capture;
        let at_width = |threshold| {
            rescaled_threshold(threshold, capture.measured_at_us, capture.chronaxie_us, pulse_width_us)
        };
        self.holds_from = at_width(capture.going_down_micro);
        self.captures_from = at_width(capture.going_up_micro);
    }

    fn begin(&mut self, now: u64) {
        self.begin_atrium(now);
        self.begin_escape(now);
        self.begin_noise(now);
    }

    fn begin_atrium(&mut self, now: u64) {
        match self.heart.atrium {
            AtrialRhythm::Silent => {}
            AtrialRhythm::Recorded(_) => self.begin_recorded(now),
            AtrialRhythm::Sinus { interval_us, .. } => {
                self.pending.sinus = self.somewhere_within(interval_us, now);
            }
            AtrialRhythm::Fibrillating { .. } => {
                self.pending.wave = self.next_wave(now);
                self.begin_conducted(now);
            }
        }
    }

    /// Fibrillation is conducted of itself; every other beat follows its P wave.
    fn begin_conducted(&mut self, now: u64) {
        if let AtrialRhythm::Fibrillating { slowest_us, .. } = self.heart.atrium
            && self.heart.conduction.is_some()
        {
            self.pending.conducted = self.somewhere_within(slowest_us, now);
        }
    }

    fn begin_escape(&mut self, now: u64) {
        if let Some(escape) = self.heart.escape {
            let slept = escape.suppression.map_or(0, |habit| self.sleep.adds_us(habit));
            self.pending.escape = now + u64::from(escape.interval_us) + slept;
        }
    }

    fn somewhere_within(&mut self, interval_us: u32, now: u64) -> u64 {
        now + 1 + self.chance.below(interval_us.into())
    }

    /// An extra beat may follow an own beat of the chamber it starts from.
    fn perhaps_extra(&mut self, chamber: Chamber, origin: Origin, now: u64) {
        let Some(extra) = self.heart.extra else {
            return;
        };
        if extra.chamber == chamber && origin == Origin::Own && self.chance.below(extra.one_in.into()) == 0 {
            self.pending.extra = now + u64::from(extra.coupling_us);
        }
    }

    fn extra_fires(&mut self, now: u64) -> Happening {
        self.pending.extra = NEVER;
        match self.heart.extra.map(|extra| extra.chamber) {
            Some(Chamber::Atrium) => self.atrium_beats(Origin::Extra, None, now),
            Some(Chamber::Ventricle) => self.ventricle_beats(Origin::Extra, None, now),
            None => Happening::NOTHING,
        }
    }
}
