//! One case from the first card to the last, through the shipped decide, apply and view.

use std::borrow::Cow;
use std::sync::Arc;

use domain::check::answer::Answer;
use domain::command::Command;
use domain::contract::{Sent, View};
use domain::practice::Entry;
use domain::profile::Profile;
use domain::say::Say;
use simulator::Event;

use observer::{Bedside, Card, Deed, Dial, Mistake, Observer, Puzzled, Reading, Trouble};

use crate::bystander::Bystander;
use crate::case::Case;
use crate::pair::Second;
use crate::played::{Answered, End, Played, Stuck};
use crate::shift::{Happens, Mishap};
use crate::tablet::Tablet;

/// A check takes some hundred looks; one that takes more goes in circles.
const LOOKS_MOST: u32 = 60_000;
const REFUSALS_MOST: u32 = 6;
/// The monitor has been running when the person comes.
const BEFORE_MS: i64 = 12_000;
/// Often enough to see three seconds without a beat, seldom enough to play a million checks.
pub(crate) const GLANCE_MS: i64 = 400;

/// Where something happens besides, time goes on in steps of this length, as the strip's batches do.
const STEP_MS: i64 = 50;

/// What happens at the bedside besides heart and cards; asked before each step.
pub(crate) type Beside<'a> = &'a mut dyn FnMut(&mut Observer) -> Result<(), Puzzled>;

/// # Errors
/// The run could not begin.
pub fn play(case: &Case) -> Result<Played, Stuck> {
    play_telling(case, &mut |_, _| {})
}

/// The case's check, and the next one some hours later where its shift has one; each is told with its own case.
///
/// # Errors
/// A run could not begin.
pub fn play_shift(case: &Case, each: &mut dyn FnMut(&Case, &Played)) -> Result<(), Stuck> {
    let mut tell = |_: &Reading, _| {};
    let mut round = Round::new(case, &mut tell, None)?;
    round.be_before()?;
    let (played, mut tablet) = round.play_keeping();
    each(case, &played);
    let ended = matches!(played.end, End::Recorded | End::Left);
    let (Some(later), Some(again)) = (case.shift.later.as_deref(), case.later(&played.stays)) else {
        return Ok(());
    };
    // Where help has taken over the check is still open: nobody begins another.
    if !ended {
        return Ok(());
    }
    tablet.open_again(later.after_ms).map_err(|_| Stuck::not_begun())?;
    let mut tell = |_: &Reading, _| {};
    let mut round = Round::on(tablet, &again, &mut tell, None)?;
    round.be_before()?;
    each(&again, &round.play());
    Ok(())
}

/// As [`play`], telling every event with the dials it met.
///
/// # Errors
/// As [`play`].
pub fn play_telling(case: &Case, tell: &mut dyn FnMut(&Reading, Event)) -> Result<Played, Stuck> {
    let mut round = Round::new(case, tell, None)?;
    round.be_before()?;
    Ok(round.play())
}

/// As [`play`], with something that happens besides.
pub(crate) fn play_beside(case: &Case, beside: Beside<'_>) -> Result<Played, Stuck> {
    let mut tell = |_: &Reading, _| {};
    let mut round = Round::new(case, &mut tell, Some(beside))?;
    round.be_before()?;
    Ok(round.play())
}

/// Two at the bedside, one who knows each beat as it was and one who has the drawn trace alone. The first turns and
/// taps; the second does the same on a patient of the same seed, and says when it would have answered otherwise.
///
/// # Errors
/// As [`play`].
pub fn play_in_pair(case: &Case) -> Result<Played, Stuck> {
    let mut tell = |_: &Reading, _| {};
    let mut round = Round::new(case, &mut tell, None)?;
    let bedside = round.observer.bedside.clone();
    round.observer.bedside = bedside.clone().seen_late();
    let mut observer = Observer::new(bedside.seen_as_a_trace());
    observer.glance_ms = GLANCE_MS;
    observer.knows_of_an_order = case.shift.ordered;
    round.second = Some(Second::new(observer));
    round.be_before()?;
    Ok(round.play())
}

/// As [`play`], by somebody who makes these mistakes in so many of a thousand times that each could be made.
///
/// # Errors
/// As [`play`].
pub fn play_tired(case: &Case, kinds: &[Mistake], per_thousand: u64) -> Result<Played, Stuck> {
    let mut tell = |_: &Reading, _| {};
    let mut round = Round::new(case, &mut tell, None)?;
    round.observer.tire(kinds, per_thousand, case.seed);
    round.be_before()?;
    Ok(round.play())
}

struct Round<'a> {
    tablet: Tablet,
    observer: Observer,
    /// Looks at the same patient with other eyes.
    second: Option<Second>,
    bystander: Bystander,
    case: &'a Case,
    tell: &'a mut dyn FnMut(&Reading, Event),
    beside: Option<Beside<'a>>,
    /// Of the case's shift, still to come.
    happens: Option<Happens>,
    refusals: u32,
    answers: Vec<Answered>,
    entries: Vec<Entry>,
}

impl<'a> Round<'a> {
    fn new(
        case: &'a Case,
        tell: &'a mut dyn FnMut(&Reading, Event),
        beside: Option<Beside<'a>>,
    ) -> Result<Round<'a>, Stuck> {
        let tablet = Tablet::with_check_open(case).map_err(|_| Stuck::not_begun())?;
        Round::on(tablet, case, tell, beside)
    }

    /// A check is open on the tablet.
    fn on(
        tablet: Tablet,
        case: &'a Case,
        tell: &'a mut dyn FnMut(&Reading, Event),
        beside: Option<Beside<'a>>,
    ) -> Result<Round<'a>, Stuck> {
        let bedside =
            Bedside::new(case.heart.clone(), case.profile.clone(), case.port, case.found.clone(), case.seed)?;
        let lowest = case.profile.output_text(0).to_owned();
        let bystander = Bystander::new(Arc::clone(bedside.reading()), lowest);
        let mut observer = Observer::new(bedside);
        observer.glance_ms = GLANCE_MS;
        observer.knows_of_an_order = case.shift.ordered;
        observer.knows_of_a_shock = case.shift.shocked;
        let (answers, entries) = (Vec::new(), Vec::new());
        let (second, happens) = (None, case.shift.happens);
        let refusals = 0;
        Ok(Round {
            tablet,
            observer,
            second,
            bystander,
            case,
            tell,
            beside,
            happens,
            refusals,
            answers,
            entries,
        })
    }

    /// The monitor has been running when the person comes; nobody has been told of it.
    fn be_before(&mut self) -> Result<(), Stuck> {
        let mut left_ms = BEFORE_MS;
        while left_ms > 0 {
            let step_ms = self.step_ms(left_ms)?;
            let (bystander, wire) = (&mut self.bystander, self.case.heart.wire);
            self.observer.bedside.pass_telling(step_ms, |event| bystander.see(event, wire));
            self.second.iter_mut().for_each(|second| second.observer.bedside.pass(step_ms));
            left_ms -= step_ms;
        }
        Ok(())
    }

    /// All at once, or one step with what happens before it.
    fn step_ms(&mut self, left_ms: i64) -> Result<i64, Stuck> {
        let now_us = self.observer.bedside.now_us();
        if let Some(happens) = self.happens.take_if(|happens| happens.at_us <= now_us) {
            let heart = happens.heart(&self.case.heart);
            match happens.what {
                Mishap::LeadLost => self.observer.bedside.change_heart(heart)?,
                Mishap::Shock => {
                    self.observer.bedside.shock(heart)?;
                    self.observer.report(Trouble::Shock);
                    self.observer.knows_of_a_shock = true;
                }
            }
        }
        let until_us = self.happens.map_or(u64::MAX, |happens| happens.at_us);
        let left_ms = left_ms.min(i64::try_from((until_us - now_us).div_ceil(1_000)).unwrap_or(left_ms));
        let Some(beside) = &mut self.beside else { return Ok(left_ms) };
        beside(&mut self.observer)?;
        Ok(STEP_MS)
    }

    fn play(self) -> Played {
        self.play_keeping().0
    }

    /// With the tablet as it is then.
    fn play_keeping(mut self) -> (Played, Tablet) {
        let began_us = self.observer.bedside.now_us();
        let end = self.play_out().unwrap_or_else(End::Stuck);
        let now_us = self.observer.bedside.now_us();
        self.bystander.leave(now_us);
        let played = Played {
            end,
            record: self.tablet.record().cloned(),
            stays: self.observer.bedside.reading().as_ref().clone(),
            bystander: self.bystander,
            lasted_us: now_us - began_us,
            ended_us: now_us,
            answers: self.answers,
            entries: self.entries,
            mistakes: self.observer.mistakes(),
            compared: self.second.map(|second| second.compared),
        };
        (played, self.tablet)
    }

    fn play_out(&mut self) -> Result<End, Stuck> {
        let mut view = self.tablet.view();
        let mut shown = names(&view);
        for _ in 0..LOOKS_MOST {
            if !self.tablet.is_in_check() {
                return Ok(if self.tablet.record().is_some() { End::Recorded } else { End::Left });
            }
            let (stage, asks) = shown;
            self.bystander.card(stage, asks, self.observer.bedside.now_us());
            let drawn_anew = match self.look(&view)? {
                Deed::Tap { key, sent } => {
                    self.tap(&view, key, &sent)?;
                    true
                }
                Deed::Wait { ms } => self.pass(ms, &view)?,
                Deed::HandOver => return Ok(End::HandedOver),
            };
            if drawn_anew {
                view = self.tablet.view();
                shown = names(&view);
            }
        }
        Err(Stuck::Circles { asks: asks(&view) })
    }

    fn look(&mut self, view: &View<Say>) -> Result<Deed, Stuck> {
        let before = Arc::clone(self.observer.bedside.reading());
        let deed = self.observer.look(view)?;
        self.tell_turns(&before);
        match &mut self.second {
            Some(second) => second.look(view, deed, &self.observer),
            None => Ok(deed),
        }
    }

    fn tell_turns(&mut self, before: &Arc<Reading>) {
        let (now_us, after) = (self.observer.bedside.now_us(), self.observer.bedside.reading());
        if Arc::ptr_eq(before, after) {
            return;
        }
        if before == after {
            self.bystander.found_there(now_us);
        }
        for dial in Dial::ALL {
            let differs = match dial {
                Dial::Output => before.output != after.output,
                Dial::Rate => before.rate != after.rate,
                Dial::Mv => before.mv != after.mv,
            };
            if differs {
                self.bystander.turned(dial, Arc::clone(after), now_us);
                self.entries.extend(turned(&self.case.profile, dial, after, now_us));
            }
        }
    }

    fn tap(&mut self, view: &View<Say>, key: Cow<'static, str>, sent: &Sent) -> Result<(), Stuck> {
        self.answers.push(Answered {
            at_us: self.observer.bedside.now_us(),
            asks: asks(view),
            key: key.clone(),
            dials: Arc::clone(self.observer.bedside.reading()),
            lost: self.bystander.without_capture,
        });
        self.entries.extend(self.answered(sent));
        if sent.command == Command::Answer(Answer::ShockGiven) {
            self.bystander.told_of_a_shock(self.observer.bedside.now_us());
        }
        let Err(refusal) = self.tablet.take(sent) else { return Ok(()) };
        self.refusals += 1;
        let said = refusal.say().filter(|_| self.refusals <= REFUSALS_MOST);
        let Some(said) = said else { return Err(Stuck::NotTaken { key: key.to_string(), asks: asks(view) }) };
        self.observer.refused(&said);
        self.second.iter_mut().for_each(|second| second.observer.refused(&said));
        self.pass(1_000, view).map(|_| ())
    }

    /// Time passes for patient and tablet; `true` when time itself has changed the card.
    fn pass(&mut self, ms: i64, view: &View<Say>) -> Result<bool, Stuck> {
        let until = self.tablet.boot_ms() + ms;
        let mut acted = false;
        while self.tablet.boot_ms() < until {
            let now = self.tablet.boot_ms();
            let due = self.tablet.due().filter(|due| *due <= until);
            self.live(due.map_or(until, |due| due.max(now)) - now)?;
            if due.is_some() {
                acted = true;
                let taken = self.tablet.time_passed();
                if taken.is_err() || self.tablet.due() == due {
                    return Err(Stuck::TimeStandsStill { asks: asks(view) });
                }
            }
        }
        Ok(acted)
    }

    fn live(&mut self, ms: i64) -> Result<(), Stuck> {
        let mut left_ms = ms;
        while left_ms > 0 {
            let step_ms = self.step_ms(left_ms)?;
            self.live_on(step_ms);
            left_ms -= step_ms;
        }
        Ok(())
    }

    fn live_on(&mut self, ms: i64) {
        self.tablet.pass(ms);
        let (bystander, tell, wire) = (&mut self.bystander, &mut self.tell, self.case.heart.wire);
        let dials = Arc::clone(self.observer.bedside.reading());
        self.observer.bedside.pass_telling(ms, |event| {
            bystander.see(event, wire);
            tell(&dials, event);
        });
        self.second.iter_mut().for_each(|second| second.observer.bedside.pass(ms));
    }

    fn answered(&self, sent: &Sent) -> Option<Entry> {
        let Command::Answer(answer) = sent.command else { return None };
        let step = self.tablet.state.check_on_screen()?.3.facts.step;
        Some(Entry::Answered { at_us: self.observer.bedside.now_us(), step, answer })
    }
}

/// The turn as a position of its dial.
fn turned(profile: &Profile, dial: Dial, to: &Reading, at_us: u64) -> Option<Entry> {
    use domain::check::facts::{ASYNCHRONOUS, Dial as Turned};
    let (dial, to) = match dial {
        Dial::Output => (Turned::Output, profile.read_output(&to.output).ok()?),
        Dial::Rate => (Turned::Rate, profile.read_rate(&to.rate).ok()?),
        Dial::Mv => {
            let at = to.mv.as_ref().map_or(Ok(ASYNCHRONOUS), |text| profile.read_mv(text));
            (Turned::Mv, at.ok()?)
        }
    };
    Some(Entry::Turned { at_us, dial, to })
}

/// Of the stage, and of the sentence that asks.
fn names(view: &View<Say>) -> (&'static str, &'static str) {
    let card = Card::read(view);
    (card.stage(), card.asks().name())
}

pub(crate) fn asks(view: &View<Say>) -> &'static str {
    Card::read(view).asks().name()
}
