//! What a person at the bedside knows: where the pins are, which box runs, whether standby pacing was tested. Kept
//! from the cards shown and the answers given alone; shares nothing with the machine.

use domain::swap::answer::Answer;
use domain::swap::facts::{Facts, Own, Place, Work};
use domain::swap::step::Step;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pins {
    Old,
    Air,
    New,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Book {
    pub pins: Pins,
    pub old_runs: bool,
    pub new_runs: bool,
    pub new_read: bool,
    /// Tested on this patient; `captures`: seen to capture.
    pub standby: bool,
    pub captures: bool,
    pub own: bool,
    /// OUTPUT of the box that the pins are in was asked to maximum.
    pub maximum: bool,
    /// That box was seen not to make beats, or no beats were seen.
    pub lost: bool,
    /// Nobody knows where the pins are: a long break, or a connection opened and said to be a slip.
    pub pins_unknown: bool,
    pub old_read: bool,
    /// Another wire of this patient is in the old box.
    pub shared: bool,
    /// A card asked for a connection to be opened or a box off, or it was found so; never closed again here.
    pub opened: bool,
    /// Beats or capture were missing, or a shock was given: OUTPUT may stand elsewhere. No slip undoes that.
    pub trouble: bool,
    /// The reading of the old box typed last, on the card that is open or under the one over it.
    pub typed: Option<Said>,
}

pub const AT_FIRST: Book = Book {
    pins: Pins::Old,
    old_runs: true,
    new_runs: false,
    new_read: false,
    standby: false,
    captures: false,
    own: false,
    maximum: false,
    lost: false,
    pins_unknown: false,
    old_read: false,
    shared: false,
    opened: false,
    trouble: false,
    typed: None,
};

impl Book {
    pub fn is_off(&self) -> bool {
        match self.pins {
            Pins::Old => !self.old_runs,
            Pins::New => !self.new_runs,
            Pins::Air => true,
        }
    }

    pub fn is_covered(&self) -> bool {
        self.standby && (self.captures || self.own)
    }

    /// One answer to one card, and the card that came; `earlier`: what was known before the last answer.
    pub fn turned(mut self, earlier: Option<Book>, card: &Facts, said: Said, came: &Facts) -> Book {
        match said {
            Said::Tapped(Answer::Slip) if card.step != Step::Wrong => self.taken_back(earlier),
            Said::Tapped(answer) => self.tapped(card, answer),
            Said::ReadRight if card.step == Step::ReadNew => (self.new_read, self.new_runs) = (true, true),
            Said::ReadRight | Said::ReadOther if card.step == Step::ReadOld => {
                self.old_read |= came.step != Step::ReadOld;
                self.typed = Some(said);
            }
            // What was seen a minute ago and more is not known now.
            Said::Slept { long: true } => self.nothing_is_known(),
            Said::Slept { long: false } => {}
            Said::Time if card.own == Own::Shown && came.own == Own::NotLooked => self.own = false,
            Said::ReadRight | Said::ReadOther | Said::Picked | Said::Time => {}
        }
        if matches!(said, Said::Picked) {
            (self.new_read, self.new_runs) = (false, false);
        }
        self.shown(card, came);
        self.typed = self.typed.filter(|_| matches!(came.step, Step::ReadOld | Step::Wrong | Step::AwayLook));
        self
    }

    /// What was said is taken back. What hands may have done is not: then nobody knows where the pins are.
    fn taken_back(&mut self, earlier: Option<Book>) {
        let Some(back) = earlier else { return };
        (self.standby, self.captures, self.own) = (back.standby, back.captures, back.own);
        (self.new_read, self.old_read, self.lost) = (back.new_read, back.old_read, back.lost);
        self.shared = back.shared;
        let moved = (back.pins, back.old_runs, back.new_runs) != (self.pins, self.old_runs, self.new_runs);
        self.pins_unknown |= back.pins_unknown;
        if moved {
            self.nothing_is_known();
        }
    }

    fn nothing_is_known(&mut self) {
        (self.standby, self.captures, self.new_read, self.own) = (false, false, false, false);
        self.pins_unknown = true;
    }

    fn tapped(&mut self, card: &Facts, answer: Answer) {
        use Answer as A;
        use Step as S;
        match (card.step, answer) {
            (S::Look, A::OnlyOwn) => self.own = true,
            (S::Look, A::Paced) => self.own = false,
            // One wire's own beats may be paced by the other: they are looked for again.
            (S::Shared, A::Yes) => (self.shared, self.own) = (true, false),
            (S::Standby, A::Yes) => (self.standby, self.captures) = (true, !self.own),
            (S::Wrong, A::StandbyLost) => (self.standby, self.captures) = (false, false),
            (S::Move, A::AllTrue) => self.plugged_into(Pins::New),
            (S::BackToOld, A::AllTrue) => self.plugged_into(Pins::Old),
            (S::BatteryOut | S::BatteryBack, A::AllTrue) => {
                (self.old_runs, self.maximum, self.lost, self.pins_unknown) = (true, false, false, false);
            }
            (S::Guarded, A::AllTrue) if self.pins == Pins::New && !self.shared => self.old_runs = false,
            (S::BoxDead | S::Blocked | S::Sound, A::OtherBox | A::Back) if came_without_box(card) => {
                (self.new_read, self.new_runs) = (false, false);
            }
            (_, A::NoBeats | A::NoPulse | A::FastWide) => {
                (self.own, self.lost, self.trouble) = (false, true, true);
            }
            (_, A::ShockGiven) => (self.own, self.trouble) = (false, true),
            (_, A::SpikeWithoutABeat | A::SpikesWithoutBeats | A::StillNoBeats | A::NoSpikesCame) => {
                (self.lost, self.trouble) = (true, true);
            }
            (S::AwayWhere, A::PinsOld | A::PinsNew | A::PinsNeither) => self.found(card, answer),
            _ => {}
        }
    }

    fn plugged_into(&mut self, pins: Pins) {
        (self.pins, self.maximum, self.lost, self.pins_unknown) = (pins, false, false, false);
    }

    /// After a break only what was looked at counts.
    fn found(&mut self, card: &Facts, answer: Answer) {
        self.nothing_is_known();
        self.pins_unknown = false;
        self.opened |= answer != Answer::PinsOld;
        let pins = self.pins;
        match answer {
            Answer::PinsOld => (self.pins, self.old_runs, self.new_runs) = (Pins::Old, true, false),
            Answer::PinsNew => (self.pins, self.new_runs) = (Pins::New, true),
            _ if card.work == Work::Battery => self.old_runs = false,
            _ => self.pins = Pins::Air,
        }
        // What was asked of one box says nothing of the other.
        if self.pins != pins {
            self.maximum = false;
        }
    }

    /// Asked for by the card that came: from here on it may have happened.
    fn shown(&mut self, card: &Facts, came: &Facts) {
        self.opened |= matches!(came.step, Step::Move | Step::BackToOld | Step::BatteryOut);
        match came.step {
            Step::Move | Step::BackToOld => self.pins = Pins::Air,
            Step::BatteryOut => self.old_runs = false,
            Step::NoBeats | Step::Maximum => self.maximum = true,
            Step::BoxDead if card.step != Step::BoxDead => self.old_runs = false,
            _ => {}
        }
        if card.step == Step::BoxDead && came.step != Step::BoxDead && came.place == Place::Old {
            (self.pins, self.pins_unknown) = (Pins::Old, false);
        }
    }
}

fn came_without_box(card: &Facts) -> bool {
    let sent_for_another =
        matches!(card.from, Step::Sound | Step::NewOn | Step::NewMode) && card.work == Work::Box;
    card.step == Step::BoxDead || (card.step == Step::Blocked && sent_for_another)
}

/// What was done to a card.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Said {
    Tapped(Answer),
    ReadRight,
    ReadOther,
    Picked,
    Slept { long: bool },
    Time,
}
