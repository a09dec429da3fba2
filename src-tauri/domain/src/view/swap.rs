//! The cards of a change of generator or battery: head, body, answers, and what is always there.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "many cards share a shape; each is read in place by a test"
)]

mod labels;
mod lists;
mod questions;
mod turning;

use super::asked_again::asked_again;
use super::pieces::{boxed, go, head, plain, spoken, wire_head, wire_name};
use super::{Screenful, act, act_with_fields, beds, figures};
use crate::check::facts::{Dial, Phase};
use crate::command::Command;
use crate::contract::{Act, Ask, Head, Safety, Shape, Small, Strip, Tone, Watch};
use crate::decide::with_swap;
use crate::moment::Moment;
use crate::say::{Say, dial_name};
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;
use crate::state::swap::OpenSwap;
use crate::swap::Setup;
use crate::swap::answer::Answer;
use crate::swap::facts::{Done, Facts, Place, Work};
use crate::swap::offer::{Typed, has_safety, is_open, offer};
use crate::swap::step::Step;

/// What a card is drawn from.
pub struct Card<'a> {
    pub state: &'a State,
    pub setup: &'a Setup<'a>,
    pub facts: &'a Facts,
    pub open: &'a OpenSwap,
    pub wire: &'a Wire,
    pub bed: &'a Bed,
    pub now: Moment,
}

impl Card<'_> {
    /// The wire whose box or battery is changed.
    fn this(&self) -> Box<Say> {
        boxed(wire_name(self.wire))
    }

    /// The one other wire that may be in the same box.
    fn other_known(&self) -> Option<Box<Say>> {
        match self.bed.may_share(self.wire).as_slice() {
            [other] => Some(boxed(wire_name(other))),
            _ => None,
        }
    }

    fn other(&self) -> Box<Say> {
        self.other_known().unwrap_or_else(|| boxed(Say::SwapOtherWire))
    }

    /// The box has dials of two wires.
    fn is_in_the_shared_box(&self) -> bool {
        self.facts.shared && self.facts.place != Place::New
    }
}

/// Another box, or another battery?
pub fn new_swap(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let Some((found, this)) = state.bed(bed).zip(state.wire(bed, wire)) else {
        return beds::beds(state, now);
    };
    let begin = |key: &'static str, label, work| {
        act(key, label, Tone::Strong, Command::BeginSwap { bed, wire, work })
    };
    let ask = Ask {
        question: Say::AskSwapWork,
        lines: vec![Say::AskSwapWorkLine],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Plug { bed, wire }),
            begin("swap-battery", Say::SwapTheBattery, Work::Battery),
            begin("swap-box", Say::SwapTheBox, Work::Box),
        ],
        ..plain(wire_head(found, this, Say::StageSwapBox, now), Shape::Ask(ask), Say::AskSwapWork)
    }
}

pub fn swap(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let known = state.bed(bed).zip(state.wire(bed, wire));
    let drawn = known.and_then(|(found, this)| {
        with_swap(state, bed, wire, |setup, open| {
            draw(&Card { state, setup, facts: &open.facts, open, wire: this, bed: found, now })
        })
    });
    drawn.unwrap_or_else(|| beds::beds(state, now))
}

fn draw(card: &Card<'_>) -> Screenful {
    let shape = shape(card);
    let spoken = spoken(&shape);
    Screenful {
        answers: answers(card),
        safety: has_safety(card.facts).then(|| Box::new(safety(card))),
        notice: notice(card),
        ..plain(card_head(card), shape, spoken)
    }
}

fn notice(card: &Card<'_>) -> Option<Say> {
    let typed = card.wire.asked_again.filter(|_| card.facts.step == Step::ReadOld)?;
    Some(asked_again(card.setup.old, card.wire, card.wire.asked_before, typed))
}

fn card_head(card: &Card<'_>) -> Head<Say> {
    let stage = match card.facts.work {
        Work::Box => Say::StageSwapBox,
        Work::Battery => Say::StageSwapBattery,
    };
    let subtitle = Say::WireAndStage { wire: boxed(wire_name(card.wire)), stage: boxed(stage) };
    Head { subtitle: Some(subtitle), ..head(Say::Local { text: card.bed.label.clone() }, card.now) }
}

fn shape(card: &Card<'_>) -> Shape<Say> {
    use Step as S;
    match card.facts.step {
        S::NewRate | S::NewOutput | S::NewMv | S::NoBeats | S::Maximum => turning::shape(card),
        S::Sound
        | S::NewDiffers
        | S::Ready
        | S::Move
        | S::BatteryOut
        | S::BatteryBack
        | S::BoxDead
        | S::Guarded
        | S::EndDiffers
        | S::StandbyNow
        | S::BackToOld
        | S::Emergency
        | S::Arrest => lists::shape(card),
        _ => questions::shape(card),
    }
}

fn answers(card: &Card<'_>) -> Vec<Act<Say>> {
    let offered = offer(card.facts);
    let mut acts: Vec<Act<Say>> =
        offered.free.iter().filter_map(|answer| labels::answer(card, *answer)).collect();
    match offered.typed {
        Typed::Nothing => {}
        Typed::Dials => {
            acts.push(act_with_fields("done", Say::ReadDone, Tone::Good, Command::SwapTypedDials))
        }
        Typed::Box => {
            acts.push(act_with_fields("picked", Say::SwapPickDone, Tone::Good, Command::SwapPicked))
        }
    }
    if card.facts.phase == Phase::Open {
        acts.extend(offered.good.and_then(|good| labels::answer(card, good)));
    }
    acts
}

fn safety(card: &Card<'_>) -> Safety<Say> {
    let always = |key: &'static str, label: Say, tone, answer| act(key, label, tone, Command::Swap(answer));
    let open = |answer| is_open(card.open.before.as_ref(), card.facts, answer);
    Safety {
        no_beats: always("no-beats", Say::NoBeats, Tone::Alarm, Answer::NoBeats),
        wrong: open(Answer::Wrong)
            .then(|| always("wrong", Say::SomethingIsWrong, Tone::Plain, Answer::Wrong)),
        slip: open(Answer::Slip).then(|| always("slip", Say::ThatWasASlip, Tone::Plain, Answer::Slip)),
        stop: always("stop", Say::SwapStop, Tone::Strong, Answer::Stop),
        strip: strip(card),
        exposed: None,
    }
}

/// The box to go back to; not where it would prompt a reading.
fn strip(card: &Card<'_>) -> Option<Strip<Say>> {
    let facts = card.facts;
    let reads = matches!(facts.step, Step::ReadOld | Step::ReadNew | Step::ReadEnd);
    if reads || !facts.old_on || !facts.done.has(Done::OLD_READ) {
        return None;
    }
    let dial = |dial: Dial| Small {
        label: *dial_name(dial),
        value: figures::with_unit(card.setup.old, dial, facts.old.at(dial)),
    };
    Some(Strip {
        label: Say::SwapOldBox,
        dials: vec![dial(Dial::Output), dial(Dial::Rate), dial(Dial::Mv)],
        note: None,
    })
}

/// The bar of a running watch.
fn running_watch(card: &Card<'_>) -> Option<Watch<Say>> {
    let times = card.open.times;
    if card.facts.phase != Phase::Watching || times.boot != card.now.boot {
        return None;
    }
    let label = Say::TimeForBeats { beats: u32::from(card.setup.rules.beats_down) };
    Some(Watch { label, from_ms: times.watch_from?, until_ms: times.watch_until? })
}
