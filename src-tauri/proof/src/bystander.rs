//! Somebody who sees what truly happens to the patient: time without beats, spikes on T waves.

use observer::Reading;
use simulator::{Chamber, Event, Origin, SpikeOutcome, What};

/// Longer than this nobody is left without beats.
pub const LONGEST_GAP_US: u64 = 4_000_000;
/// A captured spike this long after a ventricular beat falls on its T wave: from memory, wide.
const T_WAVE_US: std::ops::RangeInclusive<u64> = 200_000..=400_000;

/// Where the dials stood, and what was asked then.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    pub at_us: u64,
    pub stage: &'static str,
    pub asks: &'static str,
    pub dials: Reading,
}

/// A time without a ventricular beat, longer than it should be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    pub us: u64,
    pub from: Place,
    /// The first dial turned once it had become too long, and the dials after that.
    pub then: Option<(observer::Dial, Reading)>,
    /// The ventricle fibrillates: no dial ends it.
    pub fibrillating: bool,
}

/// A captured spike on the T wave of a beat that was not paced.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpikeOnT {
    pub after_us: u64,
    pub behind: Origin,
    pub place: Place,
}

#[derive(Clone, Debug)]
pub struct Bystander {
    place: Place,
    last_beat: Option<(u64, Origin)>,
    gap_from: Place,
    first_turn: Option<(observer::Dial, Reading)>,
    pub gaps: Vec<Gap>,
    pub spikes_on_t: Vec<SpikeOnT>,
    pub fibrillated: Option<Place>,
    pub beats: u64,
    /// Every turn of a dial, and how the dials stood then.
    pub turns: Vec<(u64, Reading)>,
    pub without_capture: u64,
}

impl Bystander {
    pub fn new(dials: Reading) -> Bystander {
        let place = Place { at_us: 0, stage: "", asks: "", dials };
        Bystander {
            gap_from: place.clone(),
            place,
            last_beat: None,
            first_turn: None,
            gaps: Vec::new(),
            spikes_on_t: Vec::new(),
            fibrillated: None,
            beats: 0,
            turns: Vec::new(),
            without_capture: 0,
        }
    }

    pub fn card(&mut self, stage: &'static str, asks: &'static str) {
        (self.place.stage, self.place.asks) = (stage, asks);
    }

    pub fn turned(&mut self, dial: observer::Dial, to: Reading, now_us: u64) {
        self.turns.push((now_us, to.clone()));
        self.place.dials = to;
        if now_us - self.gap_from.at_us > LONGEST_GAP_US {
            self.first_turn.get_or_insert((dial, self.place.dials.clone()));
        }
    }

    pub fn see(&mut self, event: Event, wire: Chamber) {
        match event.what {
            What::Beat { chamber: Chamber::Ventricle, origin } => self.beat(event.at_us, origin),
            What::Spike { outcome: SpikeOutcome::Captured, .. } if wire == Chamber::Ventricle => {
                self.captured(event.at_us);
            }
            What::Spike { outcome: SpikeOutcome::BelowThreshold, .. } => self.without_capture += 1,
            What::VentricularFibrillation => {
                let place = Place { at_us: event.at_us, ..self.place.clone() };
                self.fibrillated.get_or_insert(place);
            }
            What::Beat { .. } | What::Spike { .. } | What::Mark(_) | What::Pulse { .. } | What::NoPulse => {}
        }
    }

    /// The run is over; a gap that is still open counts.
    pub fn leave(&mut self, now_us: u64) {
        self.end_gap(now_us);
    }

    fn beat(&mut self, at_us: u64, origin: Origin) {
        self.end_gap(at_us);
        self.beats += 1;
        self.last_beat = Some((at_us, origin));
    }

    fn end_gap(&mut self, at_us: u64) {
        let us = at_us - self.gap_from.at_us;
        let next = Place { at_us, ..self.place.clone() };
        let from = std::mem::replace(&mut self.gap_from, next);
        let then = self.first_turn.take();
        if us > LONGEST_GAP_US {
            let fibrillating = self.fibrillated.is_some();
            self.gaps.push(Gap { us, from, then, fibrillating });
        }
    }

    fn captured(&mut self, at_us: u64) {
        let Some((beat, behind)) = self.last_beat else { return };
        let after_us = at_us - beat;
        if behind != Origin::Paced && T_WAVE_US.contains(&after_us) {
            let place = Place { at_us, ..self.place.clone() };
            self.spikes_on_t.push(SpikeOnT { after_us, behind, place });
        }
    }
}
