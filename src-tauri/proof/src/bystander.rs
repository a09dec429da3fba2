//! Somebody who sees what truly happens to the patient: time without beats, spikes on T waves.

use std::sync::Arc;

use observer::Reading;
use simulator::{Chamber, Event, Origin, SpikeOutcome, What};

/// Longer than this nobody is left without beats.
pub const LONGEST_GAP_US: u64 = 4_000_000;
/// A captured spike this long after a ventricular beat falls on its T wave: from memory, wide.
const T_WAVE_US: std::ops::RangeInclusive<u64> = 200_000..=400_000;

/// A person needs so long to see something, tap, read one card and turn one dial; then the next spike comes.
pub const ACT_US: u64 = 5_000_000;
/// So long, at most, the first acts for a heart without beats go before everything else: help comes meanwhile.
const FIRST_ACTS_US: u64 = 90_000_000;

/// A generator that has just paced sees nothing for so long: from memory.
const REFRACTORY_US: u64 = 300_000;

/// Where the dials stood, and what was asked then.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    pub at_us: u64,
    pub stage: &'static str,
    pub asks: &'static str,
    pub dials: Arc<Reading>,
}

/// A time without a ventricular beat, longer than it should be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    pub us: u64,
    pub from: Place,
    /// So much of it had passed when somebody came.
    pub unseen_us: u64,
    /// The first dial turned once it had become too long.
    pub then: Option<Turn>,
    /// The ventricle fibrillates: no dial ends it.
    pub fibrillating: bool,
}

/// A dial turned, and how all of them stood before and after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    pub dial: observer::Dial,
    pub from: Arc<Reading>,
    pub to: Arc<Reading>,
}

/// A captured spike on the T wave of a beat that was not paced.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpikeOnT {
    pub after_us: u64,
    pub behind: Origin,
    /// That beat followed a spike that made none so soon that the generator looked away.
    pub hidden: bool,
    /// There had been no beats: OUTPUT was raised and the list behind it not done yet, or asynchronous was set and no
    /// card had come yet that asks for own beats. Or there had been a shock, and no last look yet.
    pub in_first_acts: bool,
    pub place: Place,
}

/// A captured spike made the ventricle fibrillate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fibrillation {
    /// As of a spike on a T wave.
    pub in_first_acts: bool,
    pub place: Place,
}

/// Outside the search at minimum output: from a spike that made no beat to the next that made one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loss {
    pub us: u64,
    pub from: Place,
}

#[derive(Clone, Debug)]
pub struct Bystander {
    place: Place,
    last_beat: Option<(u64, Origin)>,
    gap_from: Place,
    first_turn: Option<Turn>,
    /// When the first card came.
    came_us: Option<u64>,
    lowest: String,
    /// The stage that a side card lies on.
    under: &'static str,
    last_lost: Option<u64>,
    first_acts_until_us: u64,
    /// Whatever is turned, they are over by then.
    latest_us: u64,
    /// By a list that asks for asynchronous, not by NO BEATS alone.
    called: bool,
    /// Of the card that stands: it is such a list; it is one of the first acts.
    calls: bool,
    is_first_act: bool,
    loss_from: Option<Place>,
    pub gaps: Vec<Gap>,
    pub losses: Vec<Loss>,
    pub spikes_on_t: Vec<SpikeOnT>,
    pub fibrillated: Option<Fibrillation>,
    pub beats: u64,
    /// Every turn of a dial, and how the dials stood then.
    pub turns: Vec<(u64, Arc<Reading>)>,
    /// NO BEATS asked for a dial that stood there already: nothing was left to turn.
    pub stood: Vec<u64>,
    pub without_capture: u64,
}

impl Bystander {
    /// `lowest` is the figure of the lowest OUTPUT.
    pub fn new(dials: Arc<Reading>, lowest: String) -> Bystander {
        let place = Place { at_us: 0, stage: "", asks: "", dials };
        Bystander {
            gap_from: place.clone(),
            place,
            last_beat: None,
            first_turn: None,
            came_us: None,
            lowest,
            under: "",
            last_lost: None,
            first_acts_until_us: 0,
            latest_us: 0,
            called: false,
            calls: false,
            is_first_act: false,
            loss_from: None,
            gaps: Vec::new(),
            losses: Vec::new(),
            spikes_on_t: Vec::new(),
            fibrillated: None,
            beats: 0,
            turns: Vec::new(),
            stood: Vec::new(),
            without_capture: 0,
        }
    }

    pub fn card(&mut self, stage: &'static str, asks: &'static str, now_us: u64) {
        self.came_us.get_or_insert(now_us);
        let another = self.place.asks != asks;
        if another {
            self.calls = is_emergency(asks);
            self.is_first_act = self.calls || asks == NO_BEATS;
        }
        if self.is_first_act {
            self.first_acts_until_us = now_us + FIRST_ACTS_US;
            self.latest_us = self.first_acts_until_us;
            self.called = self.calls;
        } else if another && self.ends_first_acts() && stage != TROUBLE {
            self.first_acts_until_us = self.first_acts_until_us.min(now_us + ACT_US);
        }
        (self.place.stage, self.place.asks) = (stage, asks);
        if stage != TROUBLE {
            self.under = stage;
        }
    }

    /// By leaving the card that stands. What is wrong over it leaves it unanswered.
    fn ends_first_acts(&self) -> bool {
        let asks = self.place.asks;
        LAST_LOOK.contains(&asks) || (!self.called && RESTORE.contains(&asks))
    }

    /// A shock was told: OUTPUT to its maximum goes before everything else, as where there are no beats.
    pub fn told_of_a_shock(&mut self, now_us: u64) {
        self.first_acts_until_us = now_us + FIRST_ACTS_US;
        self.latest_us = self.first_acts_until_us;
        self.called = true;
    }

    pub fn turned(&mut self, dial: observer::Dial, to: Arc<Reading>, now_us: u64) {
        self.turns.push((now_us, Arc::clone(&to)));
        let from = std::mem::replace(&mut self.place.dials, Arc::clone(&to));
        // On the way out of asynchronous a number takes two acts: to see that it misses, and to turn to the next.
        if dial == observer::Dial::Mv && self.is_in_first_acts(now_us) && !self.is_first_act {
            self.first_acts_until_us = self.first_acts_until_us.max(now_us + 2 * ACT_US).min(self.latest_us);
        }
        if now_us - self.gap_from.at_us > LONGEST_GAP_US {
            self.first_turn.get_or_insert(Turn { dial, from, to });
        }
    }

    /// A dial was to be turned where it stands.
    pub fn found_there(&mut self, now_us: u64) {
        if self.place.asks == NO_BEATS {
            self.stood.push(now_us);
        }
    }

    pub fn see(&mut self, event: Event, wire: Chamber) {
        match event.what {
            What::Beat { chamber: Chamber::Ventricle, origin } => self.beat(event.at_us, origin),
            What::Spike { outcome: SpikeOutcome::Captured, .. } => {
                self.end_loss(event.at_us);
                if wire == Chamber::Ventricle {
                    self.captured(event.at_us);
                }
            }
            What::Spike { outcome: SpikeOutcome::BelowThreshold, .. } => self.lost(event.at_us),
            What::VentricularFibrillation => {
                let place = Place { at_us: event.at_us, ..self.place.clone() };
                let in_first_acts = self.is_in_first_acts(event.at_us);
                self.fibrillated.get_or_insert(Fibrillation { in_first_acts, place });
            }
            What::Beat { .. } | What::Spike { .. } | What::Mark(_) | What::Pulse { .. } | What::NoPulse => {}
        }
    }

    /// The run is over; a gap that is still open counts.
    pub fn leave(&mut self, now_us: u64) {
        self.end_gap(now_us);
        self.end_loss(now_us);
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
            let unseen_us = self.came_us.unwrap_or(at_us).saturating_sub(from.at_us);
            self.gaps.push(Gap { us, from, unseen_us, then, fibrillating });
        }
    }

    fn lost(&mut self, at_us: u64) {
        self.without_capture += 1;
        self.last_lost = Some(at_us);
        let meant = self.under == "StageSensing" && self.place.dials.output == self.lowest;
        if !meant {
            self.loss_from.get_or_insert(Place { at_us, ..self.place.clone() });
        }
    }

    fn end_loss(&mut self, at_us: u64) {
        let ended = self.loss_from.take().map(|from| Loss { us: at_us - from.at_us, from });
        self.losses.extend(ended);
    }

    fn captured(&mut self, at_us: u64) {
        let Some((beat, behind)) = self.last_beat else { return };
        let after_us = at_us - beat;
        if behind != Origin::Paced && T_WAVE_US.contains(&after_us) {
            let place = Place { at_us, ..self.place.clone() };
            let hidden = self.last_lost.is_some_and(|lost| (lost..lost + REFRACTORY_US).contains(&beat));
            let in_first_acts = self.is_in_first_acts(at_us);
            self.spikes_on_t.push(SpikeOnT { after_us, behind, hidden, in_first_acts, place });
        }
    }

    fn is_in_first_acts(&self, at_us: u64) -> bool {
        at_us <= self.first_acts_until_us
    }
}

const TROUBLE: &str = "StageTrouble";
const NO_BEATS: &str = "AskNoBeats";
const RESTORE: [&str; 2] = ["RestoreTitle", "RestoreStands"];
const LAST_LOOK: [&str; 2] = ["AskConfirm", "AskConfirmAsynchronous"];

/// Asks for asynchronous, or the highest number.
fn is_emergency(asks: &str) -> bool {
    matches!(asks, "NoSpikesTitle" | "EmergencyTitle")
}
