//! What an answer has shown of the heart, and what trouble makes worthless.

use domain::check::answer::{Answer, Gap};
use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, NONE, Phase};
use domain::check::setup::Setup;
use domain::check::step::{Stage, Step};

use super::{Blindness, Ledger, index, lies_on, under};

impl Ledger {
    /// Nobody knows how far the list was turned: the loss counts at the highest place on the way.
    pub(super) fn lost_on_the_way(&mut self, setup: &Setup<'_>, card: &Facts) {
        let lines = domain::check::restore::lines(setup, card, card.row);
        let listed = lines.iter().find(|line| line.dial == Dial::Output);
        let highest = listed.map_or(0, |line| line.to).max(self.last[index(Dial::Output)]);
        self.evidence.lost(highest);
    }

    pub(super) fn note_seen(&mut self, setup: &Setup<'_>, card: &Facts, answer: Answer) {
        use Answer as A;
        let (output, number) = (self.at(Dial::Output), self.at(Dial::Mv));
        let step = lies_on(card);
        match answer {
            A::EveryBeatPaced | A::EverySpikeMadeABeat => self.held(output),
            A::Fine if step == Step::AfterShock => self.held(output),
            A::SpikeWithoutABeat if step == Step::BlindRateUp => {}
            A::SpikeWithoutABeat | A::SpikesWithoutBeats => self.lost(step, output),
            A::Pause if !matches!(step, Step::SenseUp | Step::SenseDown) => self.paused(step),
            A::SpikesNoneMadeABeat => self.lost_at_minimum(output),
            A::EveryBeatMarked | A::OwnHeld => {
                self.own_now = true;
                self.own_held |= answer == A::OwnHeld;
                number.into_iter().for_each(|at| self.evidence.marked(at));
            }
            A::BeatNotMarked => {
                self.missed(number);
                self.own_ends_asynchronous(step);
                self.own_ends_asynchronous_as_read(setup, step);
            }
            A::No if card.step == Step::FirstOwn => self.missed(number),
            A::SpikeMadeABeat => self.spike_made_a_beat(step, number),
            A::MarkWithoutBeat => self.marks_alone = true,
            A::OnlyOwn => self.own_now = true,
            A::BothSeen | A::OwnAmongThem => {
                self.own_now = true;
                self.own_held = false;
            }
            A::OwnRate { slowest, fastest } => self.own_rate(setup, slowest, fastest),
            A::StillPaced => {
                self.own_held = false;
                self.held(output);
            }
            _ => {}
        }
        let among = matches!(answer, A::OwnAmongThem | A::SpikeWithoutABeat);
        if step == Step::BlindRateUp && among && card.phase != Phase::Turning {
            self.not_paced_over |= !a_faster_test_is_left(setup, card.to);
        }
        if step == Step::FirstLook {
            self.paced_at_first = matches!(answer, A::EveryBeatPaced | A::BothSeen);
        }
        if answer == A::EveryBeatPaced {
            self.paced_at_found = true;
        }
        if answer == A::OwnAmongThem {
            self.own_ends_asynchronous(step);
        }
    }

    /// Own beats in what was set: nothing that an emergency turned to asynchronous stays so.
    pub(super) fn own_ends_asynchronous(&mut self, step: Step) {
        if matches!(step, Step::SetMv | Step::Confirm) && self.asynchronous == Blindness::Emergency {
            self.asynchronous = Blindness::No;
        }
    }

    /// Nor what was merely read so: a number is gone to as for a generator found asynchronous.
    fn own_ends_asynchronous_as_read(&mut self, setup: &Setup<'_>, step: Step) {
        let read_so = self.found.is_some_and(|found| found.mv == ASYNCHRONOUS);
        let set = matches!(step, Step::SetMv | Step::Confirm);
        if set && read_so && self.asynchronous == Blindness::No && self.fallback.is_none() {
            let seen_before = (setup.last_seen != NONE).then_some(setup.last_seen);
            self.fallback = seen_before.or(Some(setup.starting_mv()));
        }
    }

    /// Out of asynchronous to a number, then pauses: asynchronous again. A number set by the plan has its own way.
    fn paused(&mut self, step: Step) {
        self.pauses = true;
        let left = self.found.is_some_and(|found| found.mv == ASYNCHRONOUS) && self.fallback.is_some();
        if left && !matches!(step, Step::SetMv | Step::Confirm) {
            self.asynchronous = Blindness::Pauses;
        }
    }

    /// Only own beats for the unit's hold, at or above its limit: the definition of an own rhythm.
    fn own_rate(&mut self, setup: &Setup<'_>, slowest: u8, fastest: u8) {
        self.own = Some((slowest, fastest));
        self.own_shown = self.own_held && u16::from(slowest) >= setup.rules.own_limit;
        self.own_old = false;
    }

    fn held(&mut self, output: Option<u8>) {
        self.own_now = false;
        self.loss_open &= !self.watched;
        output.into_iter().for_each(|at| self.evidence.held(at));
    }

    /// What was last seen is a spike without a beat; own beats count as there only if they were missed.
    fn lost(&mut self, step: Step, output: Option<u8>) {
        self.loss_open = true;
        self.own_now &= self.at(Dial::Mv).is_some_and(|number| self.evidence.blind(number));
        self.lost_in_capture |= step.stage() == Some(Stage::Capture);
        let sensing = step.stage() == Some(Stage::Sensing);
        let counted = output.or((!sensing).then_some(self.last[index(Dial::Output)]));
        counted.into_iter().for_each(|at| self.evidence.lost(at));
    }

    /// At minimum output a spike that makes no beat is what is wanted.
    fn lost_at_minimum(&mut self, output: Option<u8>) {
        output.into_iter().for_each(|at| self.evidence.lost(at));
    }

    /// On the way out the number is where it is to stay: there it counts as a beat not marked.
    fn spike_made_a_beat(&mut self, step: Step, number: Option<u8>) {
        self.minimum_made_beat = true;
        if step == Step::SenseMvOut {
            self.missed(number);
        }
    }

    /// A number in doubt counts as the one last said.
    fn missed(&mut self, number: Option<u8>) {
        self.own_now = true;
        self.evidence.unmarked(number.unwrap_or(self.last[index(Dial::Mv)]));
    }

    pub(super) fn note_trouble(&mut self, card: &Facts, answer: Answer) {
        use Answer as A;
        match answer {
            A::NoBeats | A::NoPulse => {
                self.no_beats = true;
                self.own_now = false;
                self.own_shown = false;
            }
            A::FastWide => {
                self.own_shown = false;
                self.own_now = false;
            }
            A::NotTolerated | A::WideBeat | A::PWithoutQrs => self.own_shown = false,
            A::ShockGiven => {
                self.set = 0;
                self.evidence.good = None;
                self.own_shown = false;
                self.own_now = false;
            }
            A::BeatNotMarked if under(card).stage() != Some(Stage::Sensing) => self.own_shown = false,
            A::Woke(Gap::Long | Gap::TooLong) => {
                self.own_shown = false;
                self.own_now = false;
            }
            A::BeatsAgain => self.loss_open &= card.step.stage() == Some(Stage::Capture),
            _ => {}
        }
    }
}

/// A RATE of the dial that is a step of the search faster and not above the unit's highest test rate.
fn a_faster_test_is_left(setup: &Setup<'_>, rate: u8) -> bool {
    let faster = setup.profile.rate_at(rate) + setup.rules.own_step;
    let rates = (0..=setup.profile.rate_last()).map(|p| setup.profile.rate_at(p));
    rates.filter(|rate| *rate >= faster).min().is_some_and(|rate| rate <= setup.rules.highest_test_rate)
}
