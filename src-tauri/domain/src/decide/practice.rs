//! Practice on a simulated patient: begun, turned, answered, paused, ended.

mod found;

use uuid::Uuid;

use crate::check::facts::{ASYNCHRONOUS, Dial, Facts};
use crate::check::step::Step;
use crate::command::Command;
use crate::contract::Sent;
use crate::event::{Answered, What};
use crate::moment::Moment;
use crate::practice::{Entry, Judgement, PRACTICE_BED, PRACTICE_WIRE, Pause, Paused, Practice, Said, Staged};
use crate::profile::{AsynchronousBy, Position, Profile};
use crate::record::Record;
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::state::times::Times;

type Decided = Result<Vec<What>, Refusal>;

/// Not while a check on a patient is open: that comes first, and nothing may lie over it.
pub fn begin(state: &State, staged: &Staged, now: Moment) -> Decided {
    if state.is_at_work() {
        return Err(Refusal::said(Say::PracticeLocked));
    }
    if state.practice.is_some() {
        return Ok(vec![What::Went(Screen::Practising)]);
    }
    let profile = state.generator(&staged.generator).ok_or(Refusal::NotOpen)?;
    if !exists(profile, Dial::Output, staged.found.output) {
        return Err(Refusal::NotOpen);
    }
    let practice = Uuid::from_bytes(now.fresh);
    let opened = What::CheckOpened {
        bed: PRACTICE_BED,
        wire: PRACTICE_WIRE,
        check: practice,
        facts: Facts::new(Step::Order),
    };
    let began = What::PracticeBegan { practice, staged: Box::new(staged.clone()) };
    Ok([began].into_iter().chain(staged.guided.then_some(opened)).collect())
}

/// What is asked while a practice is open, at its instant of the simulated patient.
#[allow(
    clippy::wildcard_enum_match_arm,
    reason = "what is no act of practice is asked of the tablet as ever"
)]
pub fn at_strip(state: &State, at_us: u64, asked: &Sent, now: Moment) -> Decided {
    let open = state.practice.as_deref().ok_or(Refusal::NotOpen)?;
    let practising = practises(state.screen);
    match &asked.command {
        Command::TurnDial { dial, to } if practising => turn(state, open, at_us, *dial, *to),
        Command::TakeDial(dial) if practising => Ok(vec![What::DialTaken(*dial)]),
        Command::PausePractice => pause(open, at_us, Pause::Asked, now),
        Command::StoodStill { why, for_ms } => pause(open, at_us, *why, earlier(now, *for_ms)),
        Command::Befell { happened, dials } => Ok(vec![What::Befell { happened: *happened, dials: *dials }]),
        Command::GoOn => go_on(open, now),
        Command::SaidFound if practising => found::said_found(state, open, at_us, &asked.values),
        Command::SaidDials if practising => found::said_dials(state, open, at_us, &asked.values),
        Command::EndPractice => Ok(ended(at_us, None, false)),
        Command::BreakOff => Ok(ended(at_us, None, true)),
        _ => other(state, open, at_us, asked, now),
    }
}

/// A practice that gives way to a patient.
pub fn broken_off(state: &State) -> Option<What> {
    state.practice.as_ref().map(|_| What::PracticeEnded { record: None, broken_off: true })
}

/// After a death of the app it stands still where it was last recorded.
pub fn restarted(state: &State, alive: Option<Moment>, now: Moment) -> Vec<What> {
    let Some(open) = state.practice.as_deref() else { return Vec::new() };
    let back = What::Went(Screen::Practising);
    if open.paused.is_some() {
        return vec![back];
    }
    let since = alive.into_iter().chain(state.last).max_by_key(|at| at.wall_ms).unwrap_or(now);
    let at_us = open.entries.last().map_or(0, Entry::at_us);
    vec![What::PracticePaused(Paused { why: Pause::Restart, at_us, since }), back]
}

pub fn judged(state: &State, run: Uuid, judgement: &Judgement) -> Decided {
    let waits = state.run(run).is_some_and(|run| run.is_unjudged());
    let judgement = Box::new(judgement.clone());
    if waits { Ok(vec![What::PracticeJudged { run, judgement }]) } else { Err(Refusal::NotOpen) }
}

/// Made by another version: neither exercise nor engine are those of this one. One that is open cannot go on.
pub fn not_judged(state: &State, run: Uuid) -> Decided {
    if let Some(open) = state.practice.as_deref().filter(|open| open.id == run) {
        return Ok(ended(open.entries.last().map_or(0, Entry::at_us), None, true));
    }
    let waits = state.run(run).is_some_and(|run| run.is_unjudged());
    if waits { Ok(vec![What::PracticeNotJudged { run }]) } else { Err(Refusal::NotOpen) }
}

fn turn(state: &State, open: &Practice, at_us: u64, dial: Dial, to: Position) -> Decided {
    let profile = state.generator(&open.staged.generator).ok_or(Refusal::NotOpen)?;
    let stands = open.dials.at(dial) == to;
    if open.paused.is_some() || stands || !exists(profile, dial, to) {
        return Err(Refusal::NotOpen);
    }
    Ok(vec![What::Practised(Entry::Turned { at_us, dial, to })])
}

fn exists(profile: &Profile, dial: Dial, at: Position) -> bool {
    match dial {
        Dial::Output => at <= profile.output_last(),
        Dial::Rate => at <= profile.rate_last(),
        Dial::Mv if at == ASYNCHRONOUS => profile.asynchronous() != AsynchronousBy::None,
        Dial::Mv => at <= profile.mv_last(),
    }
}

/// By both clocks.
fn earlier(now: Moment, by_ms: i64) -> Moment {
    Moment { wall_ms: now.wall_ms - by_ms, boot_ms: now.boot_ms - by_ms, ..now }
}

fn pause(open: &Practice, at_us: u64, why: Pause, since: Moment) -> Decided {
    if open.paused.is_some() {
        return Err(Refusal::NotOpen);
    }
    Ok(vec![What::PracticePaused(Paused { why, at_us, since })])
}

/// The check's own instants move by the pause: nobody is hurried, or judged, by it.
fn go_on(open: &Practice, now: Moment) -> Decided {
    let Paused { why, at_us, since } = open.paused.ok_or(Refusal::NotOpen)?;
    let ms = now.since(since).unwrap_or(now.wall_ms - since.wall_ms).max(0);
    let ms = u32::try_from(ms).unwrap_or(u32::MAX);
    let times = open.wire.check.as_ref().map_or_else(Times::default, |check| check.times.moved(since, now));
    let paused = Entry::Paused { at_us, why, ms };
    Ok(vec![What::Practised(paused), What::PracticeWentOn { times }, What::Went(Screen::Practising)])
}

/// An answer to a card of the check, or something else of the tablet: then the patient stands still meanwhile.
fn other(state: &State, open: &Practice, at_us: u64, asked: &Sent, now: Moment) -> Decided {
    if state.screen == Screen::Practising && open.paused.is_some() && answers(&asked.command) {
        return Err(Refusal::NotOpen);
    }
    let whats = super::command(state, asked, now)?;
    let leaves = |what: &What| matches!(what, What::Went(screen) if !practises(*screen));
    let mut all = Vec::new();
    if open.paused.is_none() && whats.iter().any(leaves) {
        all.push(What::PracticePaused(Paused { why: Pause::Asked, at_us, since: now }));
    }
    for what in whats {
        let more = entries(open, at_us, &what);
        all.push(what);
        all.extend(more);
    }
    Ok(all)
}

fn practises(screen: Screen) -> bool {
    matches!(screen, Screen::Practising | Screen::PracticeFound | Screen::PracticeRead)
}

fn answers(command: &Command) -> bool {
    matches!(
        command,
        Command::Answer(_)
            | Command::Named(_)
            | Command::TypedDials
            | Command::TypedOwnRate
            | Command::TypedOneDial
    )
}

/// What an event of the check means for the run.
fn entries(open: &Practice, at_us: u64, what: &What) -> Vec<What> {
    if let What::Answered(answered) = what {
        return answered_on(open, answered)
            .map(|step| (step, answered.answer))
            .map_or_else(Vec::new, |(step, answer)| {
                vec![What::Practised(Entry::Answered { at_us, step, answer })]
            });
    }
    if let What::CheckEnded { bed: PRACTICE_BED, record, .. } = what {
        return ended(at_us, Some(record), false);
    }
    if let What::CheckLeft { bed: PRACTICE_BED, .. } = what {
        return ended(at_us, None, true);
    }
    Vec::new()
}

fn answered_on(open: &Practice, answered: &Answered) -> Option<Step> {
    let check = open.wire.check.as_ref().filter(|_| answered.bed == PRACTICE_BED)?;
    Some(check.facts.step)
}

fn ended(at_us: u64, record: Option<&Record>, broken_off: bool) -> Vec<What> {
    let stays = |record: &Record| record.read.then_some(record.stays_at);
    let said = record
        .map(|record| Entry::Said { at_us, said: Said::of(&record.facts, stays(record)) })
        .map(What::Practised);
    let end = What::PracticeEnded { record: record.cloned().map(Box::new), broken_off };
    said.into_iter().chain([What::Practised(Entry::Ended { at_us }), end]).collect()
}
