//! A scenario played through the shipped check, headless, on a clock that does not wait: decide, apply, view,
//! a simulated patient, and a person who sees no more than the cards and the strip.

mod clock;
mod ending;
mod fault;
mod log;
mod room;
mod script;
pub mod summary;

use std::collections::BTreeMap;
use std::rc::Rc;

use domain::command::Command;
use domain::contract::Sent;
use domain::state::screen::Screen;
use observer::{Bedside, Card, Deed, Observer};

use crate::scenario::{Act, Earlier, LoadedHeart, Ready, reading};
pub use ending::{Ending, Outcome};
pub use fault::RehearsalFault;
pub use log::CardSeen;
use log::Log;
use room::Room;
use script::Script;
pub use summary::{kebab, number};

/// A check takes some thousand glances; one that takes more goes in circles.
const GLANCES_MOST: u32 = 40_000;
/// Nobody types the same wrong thing oftener.
const REFUSALS_MOST: usize = 6;
/// The monitor has been running when the person comes.
const BEFORE_MS: i64 = 12_000;

/// Plays the checks of the history, then the scenario's own; `each` is told every card of the latter.
///
/// # Errors
/// The scenario cannot be played to an end, or the check and the bedside do not fit together.
pub fn rehearse(ready: &Ready, each: &mut dyn FnMut(&CardSeen)) -> Result<Ending, RehearsalFault> {
    let scenario = &ready.scenario;
    let mut room = Room::furnished(ready)?;
    for earlier in &scenario.history {
        room.clock.set_hours_before(earlier.hours_before);
        play_earlier(&mut room, ready, earlier)?;
    }
    room.clock.set_hours_before(0);
    let heart = scenario.heart.loaded()?;
    let observer = observer(ready, &heart, &reading(&scenario.found))?;
    let script = Script::new(&scenario.script);
    Rehearsal { room, observer, script, log: Log::default(), heart, ready }.play(each)
}

fn play_earlier(room: &mut Room, ready: &Ready, earlier: &Earlier) -> Result<(), RehearsalFault> {
    let heart = ready.scenario.heart.loaded()?.changed_by(&earlier.heart.loaded()?);
    let observer = observer(ready, &heart, &reading(&earlier.found))?;
    let own = room.take_out();
    let mut rehearsal =
        Rehearsal { room: own, observer, script: Script::default(), log: Log::default(), heart, ready };
    rehearsal.play_out(&mut |_| {})?;
    *room = rehearsal.room;
    Ok(())
}

fn observer(
    ready: &Ready,
    heart: &LoadedHeart,
    found: &observer::Reading,
) -> Result<Observer, RehearsalFault> {
    let scenario = &ready.scenario;
    let heart = heart.heart(scenario.chamber, &ready.profile);
    let port = scenario.chamber.simulated();
    let mut bedside = Bedside::new(heart, ready.profile.clone(), port, found.clone(), scenario.seed)?;
    bedside.pass(BEFORE_MS);
    Ok(Observer::new(bedside))
}

struct Rehearsal<'a> {
    room: Room,
    observer: Observer,
    script: Script,
    log: Log,
    heart: LoadedHeart,
    ready: &'a Ready,
}

impl Rehearsal<'_> {
    fn play(mut self, each: &mut dyn FnMut(&CardSeen)) -> Result<Ending, RehearsalFault> {
        let handed_over = self.play_out(each)?;
        let reading = self.observer.bedside.reading().as_ref().clone();
        let unit = self.ready.profile.output_unit();
        let mut ending = ending::ending(self.room, self.log, reading, unit, handed_over)?;
        ending.never = self.script.waits_at();
        Ok(ending)
    }

    /// Until the check has left the screen; `true` when help took over before.
    fn play_out(&mut self, each: &mut dyn FnMut(&CardSeen)) -> Result<bool, RehearsalFault> {
        self.room.begin_check()?;
        for _ in 0..GLANCES_MOST {
            let view = Rc::new(self.room.view());
            if !matches!(self.room.state.screen, Screen::Check { .. }) {
                self.log.flush(each)?;
                return Ok(false);
            }
            self.log.see(&view, self.room.clock.since_start_ms(), each)?;
            if let Some(act) = self.script.due(Card::read(&view), self.room.clock.boot_ms()) {
                self.perform(act)?;
                continue;
            }
            match self.observer.look(&view)? {
                Deed::Tap { key, sent } => self.send(&key, &sent)?,
                Deed::Wait { ms } => self.pass(ms)?,
                Deed::HandOver => {
                    self.log.flush(each)?;
                    return Ok(true);
                }
            }
            self.log.note_turns(self.observer.bedside.reading());
        }
        self.log.flush(each)?;
        Err(RehearsalFault::GoesInCircles { card: self.room.state.card })
    }

    fn send(&mut self, key: &str, sent: &Sent) -> Result<(), RehearsalFault> {
        self.log.answered(key, &sent.values);
        match self.room.take(sent) {
            Ok(()) => Ok(()),
            Err(refusal) => {
                let said = refusal
                    .say()
                    .ok_or_else(|| RehearsalFault::NotTaken { card: sent.card, key: key.to_owned() })?;
                self.log.refused(sent.card, said);
                if self.log.refusals() > REFUSALS_MOST {
                    return Err(RehearsalFault::GoesInCircles { card: sent.card });
                }
                self.pass(1000)
            }
        }
    }

    /// Time passes for the patient and the tablet; time itself may act.
    fn pass(&mut self, ms: i64) -> Result<(), RehearsalFault> {
        let until = self.room.clock.boot_ms() + ms;
        while self.room.clock.boot_ms() < until {
            let now = self.room.clock.boot_ms();
            let due = domain::due(&self.room.state).filter(|due| *due <= until);
            let next = due.map_or(until, |due| due.max(now));
            self.live(next - now);
            if due.is_some() {
                self.room.send(Command::TimePassed, BTreeMap::new())?;
                if domain::due(&self.room.state) == due {
                    return Err(RehearsalFault::TimeStandsStill);
                }
            }
        }
        Ok(())
    }

    fn live(&mut self, ms: i64) {
        self.room.clock.pass(ms);
        self.observer.bedside.pass(ms);
    }

    fn perform(&mut self, act: Act) -> Result<(), RehearsalFault> {
        match act {
            Act::Tap(key) => {
                let view = self.room.view();
                if let Deed::Tap { key, sent } = self.observer.tap(&view, &key)? {
                    self.send(&key, &sent)?;
                }
            }
            Act::Report(what) => self.observer.report(what.trouble()),
            Act::Heart(over) => {
                self.heart = self.heart.changed_by(&over.loaded()?);
                let chamber = self.ready.scenario.chamber;
                let heart = self.heart.heart(chamber, &self.ready.profile);
                self.observer.bedside.change_heart(heart)?;
            }
            Act::Turn(turn) => self.observer.bedside.turn(turn.dial(), &turn.figure())?,
            Act::Type(fields) => {
                fields.iter().for_each(|(field, text)| self.observer.type_instead(field, text));
            }
            Act::Sleep(seconds) => self.away(seconds, |alive| Command::Woke { alive })?,
            Act::Killed(seconds) => self.away(seconds, |alive| Command::Started { alive: Some(alive) })?,
        }
        Ok(())
    }

    /// Nobody looks at the tablet; the patient lives on.
    fn away(
        &mut self,
        seconds: u32,
        back: impl FnOnce(domain::moment::Moment) -> Command,
    ) -> Result<(), RehearsalFault> {
        let alive = self.room.clock.now();
        self.live(i64::from(seconds) * 1000);
        self.room.send(back(alive), BTreeMap::new())
    }
}
