//! The cards of a check: head, body, answers, and what is always there.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "most cards share the common words; each card is read in place by a test"
)]

mod asking;
mod labels;
mod listing;
mod reasons;
mod turning;
mod typing;

pub use typing::{dial_fields, named_form};

use super::asked_again::asked_again;
use super::pieces::{go, spoken, wire_name};
use super::{Screenful, act, beds, figures};
use crate::check::answer::Answer;
use crate::check::facts::{Dial, Facts, NONE, Phase};
use crate::check::offer::{Typed, has_safety, is_always_open, offer};
use crate::check::restore;
use crate::check::setup::Setup;
use crate::check::slip::reads_all;
use crate::check::step::{Stage, Step};
use crate::check::watch::{Watch as Length, watch as length};
use crate::command::Command;
use crate::contract::{Act, Clock, Head, Rail, Safety, Shape, Small, Strip, Tone, Watch};
use crate::decide::with_setup;
use crate::flags::Flag;
use crate::moment::Moment;
use crate::say::{Say, dial_name};
use crate::state::State;
use crate::state::bed::{OpenCheck, Wire};
use crate::state::screen::Screen;

/// So long it is said that the clock has jumped; the result says it again.
const CLOCK_TOLD_MS: i64 = 60_000;

/// What a card is drawn from.
pub struct Card<'a> {
    pub setup: &'a Setup<'a>,
    pub facts: &'a Facts,
    pub open: &'a OpenCheck,
    pub wire: &'a Wire,
    pub now: Moment,
}

pub fn screenful(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let drawn = state.checked_wire(bed, wire).and_then(|this| {
        with_setup(state, bed, wire, |setup, open| {
            let label = state.bed(bed).map(|b| b.label.clone()).unwrap_or_default();
            draw(&Card { setup, facts: &open.facts, open, wire: this, now }, label)
        })
    });
    let Some(mut screen) = drawn else { return beds::beds(state, now) };
    screen.aside.extend(other_generator(state, bed, wire));
    screen
}

/// Where the wire is asked about and the dials are not read yet, it may hang on another generator.
fn other_generator(state: &State, bed: u32, wire: u32) -> Option<Act<Say>> {
    let step = state.wire(bed, wire)?.check.as_ref()?.facts.step;
    let asked = matches!(step, Step::RightWire | Step::ReadFound) && state.generators.len() > 1;
    asked.then(|| go("generator", Say::OtherGenerator, Tone::Plain, Screen::Plug { bed, wire }))
}

fn draw(card: &Card<'_>, label: String) -> Screenful {
    let shape = shape(card);
    let spoken = spoken(&shape);
    Screenful {
        head: head(card, label),
        rail: rail(card.facts),
        answers: answers(card),
        aside: aside(card),
        safety: has_safety(card.facts).then(|| Box::new(safety(card))),
        notice: notice(card),
        spoken,
        shape,
    }
}

/// A card that asks to turn a dial, or watches one that stands.
fn turns(facts: &Facts) -> bool {
    facts.to != NONE && !facts.step.is_side() && facts.step != Step::Restore
}

fn shape(card: &Card<'_>) -> Shape<Say> {
    let typed = offer(card.setup, card.facts).typed;
    if let Some(form) = typing::naming(card) {
        return form;
    }
    match card.facts.step {
        _ if typed != Typed::Nothing => typing::shape(card, typed),
        Step::Restore
        | Step::NoSpikes
        | Step::Emergency
        | Step::Arrest
        | Step::ListFirst
        | Step::ListSecond
        | Step::Stays
        | Step::Guarded
        | Step::FirstConnections
        | Step::Differs
        | Step::ReadLower => listing::shape(card),
        _ if turns(card.facts) => turning::shape(card),
        _ => asking::shape(card),
    }
}

fn head(card: &Card<'_>, label: String) -> Head<Say> {
    let since_ms = card.open.opened.boot_ms;
    let same_boot = card.open.opened.boot == card.now.boot;
    Head {
        title: Say::Local { text: label },
        subtitle: Some(Say::WireAndStage {
            wire: Box::new(wire_name(card.wire)),
            stage: Box::new(stage_name(card.facts)),
        }),
        clock: same_boot.then_some(Clock { label: Say::ClockInCheck, since_ms, urgent: false }),
        wall: None,
    }
}

fn stage_name(facts: &Facts) -> Say {
    match facts.step.stage() {
        Some(Stage::Ready) => Say::StageReady,
        Some(Stage::OwnRhythm) => Say::StageOwnRhythm,
        Some(Stage::Sensing) => Say::StageSensing,
        Some(Stage::Capture) => Say::StageCapture,
        Some(Stage::Set) => Say::StageSet,
        Some(Stage::Read) => Say::StageRead,
        Some(Stage::Confirm) => Say::StageConfirm,
        Some(Stage::Done) => Say::StageDone,
        None if facts.step == Step::Restore => Say::StageRestore,
        None if matches!(facts.step, Step::Away | Step::AwayRead) => Say::StageAway,
        None => Say::StageTrouble,
    }
}

fn rail(facts: &Facts) -> Option<Rail> {
    let stage = facts.step.stage().or(facts.from.stage())?;
    Some(Rail { of: 8, now: stage as u8 })
}

/// The answers, bad ones first. Where the watch has not begun, the good one's place holds "it stands".
fn answers(card: &Card<'_>) -> Vec<Act<Say>> {
    let offered = offer(card.setup, card.facts);
    let mut acts: Vec<Act<Say>> = offered
        .free
        .iter()
        .filter(|answer| !leads_back(card, **answer))
        .filter_map(|answer| labels::answer(card, *answer))
        .collect();
    acts.extend(typing::done(card, offered.typed));
    let waits_to_stand =
        card.facts.to != NONE && card.facts.phase == Phase::Turning && !card.facts.step.is_side();
    if waits_to_stand && offered.typed == Typed::Nothing && turns(card.facts) {
        acts.push(stands(card));
    } else if card.facts.phase == Phase::Open {
        let good = [offered.also_good, offered.good].into_iter().flatten();
        acts.extend(good.filter_map(|answer| labels::answer(card, answer)));
    }
    acts
}

/// "OUTPUT stands at 1.6": the figure takes the same tap.
fn stands(card: &Card<'_>) -> Act<Say> {
    let figure = figures::printed(card.setup.profile, card.facts.dial, card.facts.to);
    let label = Say::DialStandsAt { dial: dial_name(card.facts.dial), figure: Box::new(figure) };
    act("stands", label, Tone::Good, Command::Answer(Answer::Stands))
}

/// Back is no answer to the card's question, but where it says that something was put right.
fn leads_back(card: &Card<'_>, answer: Answer) -> bool {
    answer == Answer::Back && !matches!(card.facts.step, Step::Blocked | Step::Differs | Step::ReadLower)
}

/// Back; and before the dials are read a check can be left.
fn aside(card: &Card<'_>) -> Vec<Act<Say>> {
    let free = offer(card.setup, card.facts).free;
    let back = free.iter().filter(|answer| leads_back(card, **answer));
    let mut acts: Vec<Act<Say>> = back.filter_map(|answer| labels::answer(card, *answer)).collect();
    if has_safety(card.facts) {
        return acts;
    }
    let open = |answer| is_always_open(card.setup, card.facts, answer);
    if open(Answer::NoBeats) {
        acts.insert(0, act("no-beats", Say::NoBeats, Tone::Alarm, Command::Answer(Answer::NoBeats)));
    }
    let closes_itself = card.facts.step == Step::Blocked;
    if !closes_itself && open(Answer::Stop) {
        acts.push(act("leave", Say::LeaveCheck, Tone::Plain, Command::Answer(Answer::Stop)));
    }
    if open(Answer::Slip) {
        acts.push(act("slip", Say::ThatWasASlip, Tone::Plain, Command::Answer(Answer::Slip)));
    }
    acts
}

fn safety(card: &Card<'_>) -> Safety<Say> {
    let always = |key: &'static str, label: Say, tone, answer| act(key, label, tone, Command::Answer(answer));
    let open = |answer| is_always_open(card.setup, card.facts, answer);
    Safety {
        no_beats: always("no-beats", Say::NoBeats, Tone::Alarm, Answer::NoBeats),
        wrong: open(Answer::Wrong)
            .then(|| always("wrong", Say::SomethingIsWrong, Tone::Plain, Answer::Wrong)),
        slip: open(Answer::Slip).then(|| always("slip", Say::ThatWasASlip, Tone::Plain, Answer::Slip)),
        stop: always("stop", Say::StopRestore, Tone::Strong, Answer::Stop),
        strip: strip(card),
        exposed: exposed(card),
    }
}

/// Hidden where it would prompt a reading; after a break the card itself names the old settings and their age.
fn strip(card: &Card<'_>) -> Option<Strip<Say>> {
    let reads =
        matches!(card.facts.step, Step::ReadBack | Step::ReadFound | Step::ReadAfter | Step::Elsewhere)
            || (card.facts.step == Step::Slip && reads_all(card.facts));
    if reads {
        return None;
    }
    let row = restore::row(card.setup, card.facts);
    let target = restore::wanted(card.setup, card.facts, row);
    let dial = |dial: Dial| Small {
        label: *dial_name(dial),
        value: figures::with_unit(card.setup.profile, dial, target.at(dial)),
    };
    Some(Strip {
        label: Say::RestoreLabel,
        dials: vec![dial(Dial::Output), dial(Dial::Rate), dial(Dial::Mv)],
        note: reasons::restore_note(card, target).filter(|_| card.facts.step != Step::AwayRead),
    })
}

fn exposed(card: &Card<'_>) -> Option<Clock<Say>> {
    let times = card.open.times;
    if times.boot != card.now.boot {
        return None;
    }
    let loss = times.loss_since.map(|since_ms| Clock { label: Say::ClockSinceLoss, since_ms, urgent: true });
    let standby =
        times.minimum_since.map(|since_ms| Clock { label: Say::ClockNoStandby, since_ms, urgent: false });
    loss.or(standby)
}

/// The bar of a running watch, on cards that have one.
pub fn running_watch(card: &Card<'_>) -> Option<Watch<Say>> {
    let good = offer(card.setup, card.facts).good;
    let times = card.open.times;
    if card.facts.phase != Phase::Watching || good.is_none() || times.boot != card.now.boot {
        return None;
    }
    let label = match length(card.setup, card.facts) {
        Length::Beats(beats) => Say::TimeForBeats { beats: u32::from(beats) },
        Length::Seconds(seconds) => Say::TimeForSeconds { seconds: u32::from(seconds) },
        Length::ThreeSpikes => Say::TimeForThreeSpikes,
    };
    Some(Watch { label, from_ms: times.watch_from?, until_ms: times.watch_until? })
}

fn notice(card: &Card<'_>) -> Option<Say> {
    asked_again_of(card).or_else(|| clock_jumped(card))
}

fn clock_jumped(card: &Card<'_>) -> Option<Say> {
    let since = card.open.clock_jumped.and_then(|jumped| card.now.since(jumped))?;
    (since < CLOCK_TOLD_MS).then(|| Flag::of_clock(card.open.clock_jump_ms)).flatten().map(|flag| flag.say())
}

fn asked_again_of(card: &Card<'_>) -> Option<Say> {
    let typed = card.open.asked_again.filter(|_| card.facts.step == Step::ReadFound)?;
    Some(asked_again(card.setup.profile, card.wire, card.open.asked_before, typed))
}
