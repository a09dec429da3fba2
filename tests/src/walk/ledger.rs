//! The walk's own book beside `Facts`: written from the answers and from what the cards ask, never from
//! the machine's conclusions. The properties and the second restore table read this book.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, NONE, Phase};
use domain::check::offer::offer;
use domain::check::setup::Setup;
use domain::check::step::{Stage, Step};

use super::evidence::Evidence;

/// Why the generator may be left asynchronous.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Blindness {
    No,
    Ordered,
    Pauses,
    Emergency,
}

/// See the module. A dial in doubt is `None`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Ledger {
    /// As read, or as read again after trouble: the settings to go back to.
    pub found: Option<Dials>,
    pub at: [Option<u8>; 3],
    /// Where each dial was last said to stand; RATE the faster of its places if something broke in.
    pub last: [u8; 3],
    /// mV is in doubt and may stand at asynchronous.
    pub maybe_asynchronous: bool,
    pub evidence: Evidence,
    pub own: Option<(u8, u8)>,
    pub own_held: bool,
    pub own_shown: bool,
    pub own_old: bool,
    /// Own beats are in the last thing that was seen.
    pub own_now: bool,
    /// Every beat was paced at the found rate.
    pub paced_at_found: bool,
    pub asked: bool,
    pub owed: bool,
    pub loss_open: bool,
    /// A spike made no beat in the capture search.
    pub lost_in_capture: bool,
    pub minimum_made_beat: bool,
    pub no_beats: bool,
    /// Pauses at a number that was set: it sees too much.
    pub pauses: bool,
    pub asynchronous: Blindness,
    /// The number asynchronous was left for, or the one tried for a blind generator.
    pub fallback: Option<u8>,
    pub emergency_output: Option<u8>,
    pub emergency_rate: Option<u8>,
    /// OUTPUT, RATE, mV set by the plan.
    pub set: u8,
    pub watched: bool,
    /// Dials whose place was said after a refusal, as bits.
    pub said: u8,
}

pub fn index(dial: Dial) -> usize {
    match dial {
        Dial::Output => 0,
        Dial::Rate => 1,
        Dial::Mv => 2,
    }
}

/// The card a side card lies on; any other card is its own.
pub fn lies_on(facts: &Facts) -> Step {
    if facts.step.is_side() { facts.from } else { facts.step }
}

/// The card a side card lies on; a reading after sleep belongs to the card before it.
pub fn under(facts: &Facts) -> Step {
    match lies_on(facts) {
        Step::AwayRead if facts.step.is_side() => facts.came_from,
        Step::AwayRead => facts.from,
        other => other,
    }
}

impl Ledger {
    pub const EMPTY: Ledger = Ledger {
        found: None,
        at: [None; 3],
        last: [0; 3],
        maybe_asynchronous: false,
        evidence: Evidence::NOTHING,
        own: None,
        own_held: false,
        own_shown: false,
        own_old: false,
        own_now: false,
        paced_at_found: false,
        asked: false,
        owed: false,
        loss_open: false,
        lost_in_capture: false,
        minimum_made_beat: false,
        no_beats: false,
        pauses: false,
        asynchronous: Blindness::No,
        fallback: None,
        emergency_output: None,
        emergency_rate: None,
        set: 0,
        watched: false,
        said: 0,
    };

    pub fn at(&self, dial: Dial) -> Option<u8> {
        self.at[index(dial)]
    }

    /// Lowest and highest place at which a dial may stand on this card.
    pub fn range(&self, facts: &Facts, dial: Dial) -> (u8, u8) {
        let asked = facts.asks(dial).then_some(facts.to);
        match (self.at(dial), asked) {
            (None, _) => (0, NONE),
            (Some(at), Some(to)) => (at.min(to), at.max(to)),
            (Some(at), None) => (at, at),
        }
    }

    /// The book after `answer` to `card`, with the card that it opened.
    pub fn after(mut self, setup: &Setup<'_>, card: &Facts, answer: Answer, opened: &Facts) -> Ledger {
        if opened == card {
            return self;
        }
        self.note_time(card, answer);
        let (_, fastest) = self.range(card, Dial::Rate);
        let (_, number) = self.range(card, Dial::Mv);
        self.note_last();
        self.note_place(setup, card, answer, opened);
        self.maybe_asynchronous |= number == ASYNCHRONOUS;
        self.note_last();
        if self.at(Dial::Rate).is_none() && fastest != NONE {
            self.last[index(Dial::Rate)] = fastest;
        }
        if lies_on(card) == Step::Restore && answer == Answer::SpikeWithoutABeat {
            self.lost_on_the_way(setup, card);
        }
        self.note_seen(setup, card, answer);
        self.note_trouble(card, answer);
        self.note_progress(setup, card, answer);
        self.note_opened(setup, opened, card, answer);
        self
    }

    fn note_time(&mut self, card: &Facts, answer: Answer) {
        match answer {
            Answer::Time(TimeUp::Watch) if card.phase == Phase::Watching && !card.step.is_side() => {
                self.watched = true;
            }
            Answer::Time(TimeUp::OwnOld) => self.own_old = true,
            _ => {}
        }
    }

    /// An answer to the card's own question says that its dial stands as asked; anything that breaks in
    /// while it may be turning leaves it in doubt.
    fn note_place(&mut self, setup: &Setup<'_>, card: &Facts, answer: Answer, opened: &Facts) {
        if let Answer::Read(dials) = answer {
            self.at = [Some(dials.output), Some(dials.rate), Some(dials.mv)];
            self.asked |= self.found.is_some_and(|found| found != dials);
            return;
        }
        if card.step == Step::Restore && answer == Answer::AllTrue {
            for line in domain::check::restore::lines(setup, card, card.row) {
                self.at[index(line.dial)] = Some(line.to);
            }
            return;
        }
        let same = opened.step == under(card) && opened.to == card.to;
        if goes_on_lying(card, answer) && (same || opened.step.is_side()) {
            return;
        }
        if opened.step != Step::Restore {
            self.leave_list(setup, card);
        }
        if card.to == NONE {
            return;
        }
        if opened.step == under(card) && opened.to == card.to && opened.phase == Phase::Turning {
            return;
        }
        let below = Facts { step: under(card), ..*card };
        let own = is_own_answer(setup, &below, answer);
        let turned = own || answer == Answer::Stands || card.phase != Phase::Turning;
        let place = &mut self.at[index(card.dial)];
        if turned {
            *place = Some(card.to);
        } else if *place != Some(card.to) {
            *place = None;
        }
    }

    pub fn note_last(&mut self) {
        for (last, at) in self.last.iter_mut().zip(self.at) {
            *last = at.unwrap_or(*last);
        }
        self.maybe_asynchronous &= self.at(Dial::Mv).is_none();
    }

    /// Nobody knows how far the list was turned: the loss counts at the highest place on the way.
    fn lost_on_the_way(&mut self, setup: &Setup<'_>, card: &Facts) {
        let lines = domain::check::restore::lines(setup, card, card.row);
        let listed = lines.iter().find(|line| line.dial == Dial::Output);
        let highest = listed.map_or(0, |line| line.to).max(self.last[index(Dial::Output)]);
        self.evidence.lost(highest);
    }

    fn note_seen(&mut self, setup: &Setup<'_>, card: &Facts, answer: Answer) {
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
            A::BeatNotMarked => self.missed(number),
            A::No if card.step == Step::FirstOwn => self.missed(number),
            A::SpikeMadeABeat => self.spike_made_a_beat(step, number),
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
        if answer == A::EveryBeatPaced {
            self.paced_at_found = true;
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

    fn note_trouble(&mut self, card: &Facts, answer: Answer) {
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

    fn note_progress(&mut self, setup: &Setup<'_>, card: &Facts, answer: Answer) {
        use Answer as A;
        match (card.step, answer) {
            (Step::ReadFound, A::Read(dials)) => self.found = Some(dials),
            (Step::ReadAfter | Step::Elsewhere, A::Read(dials)) if is_after_trouble(card) => {
                self.evidence.bad = None;
                self.evidence.good = None;
                self.loss_open = false;
                self.go_back_to(dials);
            }
            (Step::Reason, A::ReasonAndName) if card.from == Step::Differs => self.reasoned(),
            (Step::ReadBack, A::Read(_)) | (_, A::ReasonAndName) => self.owed = false,
            (Step::AsynchronousOrdered, A::Yes) => self.asynchronous = Blindness::Ordered,
            (Step::SetOutput, A::EverySpikeMadeABeat) => self.set = 1,
            (Step::SetRate, A::Fine) => self.set = 2,
            (Step::SetMv, A::Fine) if self.set == 2 => self.set = 3,
            (_, A::Pause | A::BeatNotMarked) if matches!(lies_on(card), Step::SetMv | Step::Confirm) => {
                self.set = self.set.min(2);
            }
            (Step::AwayRead, A::Read(dials)) => self.raised_by_others(setup, card, dials),
            _ => {}
        }
    }

    /// Of a list nobody knows which of its dials were turned.
    pub fn leave_list(&mut self, setup: &Setup<'_>, card: &Facts) {
        if lies_on(card) == Step::Restore {
            self.maybe_asynchronous |= self.at(Dial::Mv) == Some(ASYNCHRONOUS);
            for line in domain::check::restore::lines(setup, card, card.row) {
                self.at[index(line.dial)] = None;
            }
        }
    }

    /// A card opened once more after a slip, the dials where they were said to stand.
    pub fn reopened(&mut self, setup: &Setup<'_>, slip: &Facts, opened: &Facts) {
        let (at, maybe_asynchronous) = (self.at, self.maybe_asynchronous);
        self.note_opened(setup, opened, slip, Answer::Slip);
        (self.at, self.maybe_asynchronous) = (at, maybe_asynchronous);
    }

    /// "These are the new restore settings."
    fn go_back_to(&mut self, dials: Dials) {
        self.found = Some(dials);
        self.emergency_output = None;
        self.emergency_rate = None;
        self.asynchronous = Blindness::No;
        self.fallback = None;
        self.set = 0;
        self.owed = false;
        self.said = 7;
    }

    /// An OUTPUT that somebody has raised meanwhile is not turned down again.
    fn raised_by_others(&mut self, setup: &Setup<'_>, card: &Facts, dials: Dials) {
        if dials.output > super::table::target(setup, self, card).output {
            self.emergency_output = Some(dials.output);
        }
    }

    /// The dials stay as they were read, for a reason.
    fn reasoned(&mut self) {
        if let [Some(output), Some(rate), Some(mv)] = self.at {
            self.go_back_to(Dials { output, rate, mv });
        }
    }

    fn note_opened(&mut self, setup: &Setup<'_>, opened: &Facts, card: &Facts, answer: Answer) {
        if answer == Answer::Stands {
            self.watched = false;
        }
        if answer == Answer::Woke(Gap::TooLong) && is_after_trouble(opened) {
            self.in_doubt();
        }
        if opened.step.is_side() || (answer != Answer::Slip && same_card(card, opened)) {
            return;
        }
        self.watched &= card.step.is_side();
        if opened.to != NONE {
            self.asked = true;
            self.owed |= self.at(opened.dial) != Some(opened.to);
        }
        match opened.step {
            Step::AsynchronousOff | Step::BlindMvDown => self.fallback = Some(opened.to),
            Step::NoBeats | Step::AfterShock | Step::CaptureMaximum => {
                self.emergency_output = Some(opened.to);
                self.lost_in_capture |= opened.step == Step::CaptureMaximum;
            }
            Step::Emergency | Step::NoSpikes => self.note_emergency(setup),
            Step::Arrest | Step::AwayRead => self.in_doubt(),
            Step::Stays => self.said = 7,
            Step::Restore => self.note_restore(setup, opened),
            Step::SetOutput | Step::SetRate | Step::SetMv => self.said |= 1 << index(opened.dial),
            _ => {}
        }
    }

    fn in_doubt(&mut self) {
        self.at = [None; 3];
        self.maybe_asynchronous = true;
        self.owed = true;
        self.asked = true;
    }

    fn note_restore(&mut self, setup: &Setup<'_>, opened: &Facts) {
        self.said = 7;
        let turns = !domain::check::restore::lines(setup, opened, opened.row).is_empty();
        self.owed |= turns;
        self.asked |= turns;
    }

    /// The emergency card lists three dials and asks for none of them singly.
    fn note_emergency(&mut self, setup: &Setup<'_>) {
        let own = (0..=setup.profile.rate_last())
            .find(|p| setup.profile.rate_at(*p) >= setup.rules.emergency_rate)
            .unwrap_or(setup.profile.rate_last());
        self.in_doubt();
        self.own_now = false;
        self.set = 0;
        self.asynchronous = Blindness::Emergency;
        self.emergency_output = Some(setup.profile.output_last());
        self.emergency_rate = Some(own.max(self.found.map_or(0, |found| found.rate)));
    }
}

/// Emergency, or too long a sleep: the dials are read as they stand, nothing old is restored.
pub fn is_after_trouble(card: &Facts) -> bool {
    let before = if card.step.is_side() { card.came_from } else { card.from };
    under(card) == Step::ReadAfter || (under(card) == Step::Reason && before == Step::ReadAfter)
}

fn same_card(card: &Facts, opened: &Facts) -> bool {
    let below = if card.step.is_side() { card.from } else { card.step };
    (opened.step, opened.to, opened.row) == (below, card.to, card.row)
}

/// Answers that open, close or pass through a side card and say nothing of the dial.
fn goes_on_lying(card: &Facts, answer: Answer) -> bool {
    use Answer as A;
    match answer {
        A::Wrong | A::SomethingElse | A::DialElsewhere | A::Back | A::Slip => true,
        A::Yes | A::No => card.step == Step::Away,
        A::Time(TimeUp::Watch | TimeUp::OwnOld) | A::Woke(Gap::Short) => true,
        A::ExtraBeatNotMarked => true,
        _ => false,
    }
}

fn is_own_answer(setup: &Setup<'_>, below: &Facts, answer: Answer) -> bool {
    let beats_came_first = matches!(below.step, Step::NoBeats | Step::CaptureRestore);
    let breaks_in = match answer {
        Answer::NotTolerated | Answer::NoPulse => true,
        Answer::SpikeWithoutABeat if below.step == Step::BlindRateUp => return true,
        Answer::BeatsAgain => beats_came_first,
        Answer::Pause => matches!(below.step, Step::SenseUp | Step::SenseDown),
        _ => false,
    };
    let offer = offer(setup, below);
    let offered = offer.free.contains(&answer) || [offer.good, offer.also_good].contains(&Some(answer));
    offered && !breaks_in
}
