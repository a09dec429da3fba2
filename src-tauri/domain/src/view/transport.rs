//! The cards of a transport: head, body, answers, and what is always there.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "many cards share a shape; each is read in place by a test"
)]

mod labels;
mod margin;
mod shapes;

pub use margin::differs;

use super::asked_again::asked_again;
use super::pieces::{bed_head, boxed, go, isolated, plain, spoken, wire_name};
use super::{Screenful, act, act_with_fields, beds};
use crate::command::Command;
use crate::contract::{Act, Head, Safety, Tone};
use crate::decide::last_known;
use crate::handover::known::known;
use crate::moment::Moment;
use crate::profile::Profile;
use crate::rules::Chamber;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;
use crate::state::transport::{OpenTransport, Reading};
use crate::transport::answer::Answer;
use crate::transport::facts::{Facts, Leg};
use crate::transport::offer::{has_safety, is_open, offer};
use crate::transport::step::Step;

/// What a card is drawn from.
pub struct Card<'a> {
    pub state: &'a State,
    pub bed: &'a Bed,
    pub open: &'a OpenTransport,
    pub facts: &'a Facts,
    pub now: Moment,
}

impl Card<'_> {
    /// The wire whose dials are read now.
    fn wire(&self) -> Option<(&Wire, &Profile)> {
        self.with_profile(self.bed.wires.get(usize::from(self.facts.wire))?)
    }

    /// The wire that the pulse hangs on: the ventricle's where there is one.
    fn pacing_wire(&self) -> Option<(&Wire, &Profile)> {
        let ventricle = self.bed.wires.iter().find(|wire| wire.chamber == Chamber::Ventricle);
        self.with_profile(ventricle.or(self.bed.wires.first())?)
    }

    fn with_profile<'w>(&'w self, wire: &'w Wire) -> Option<(&'w Wire, &'w Profile)> {
        Some((wire, self.state.generator(&wire.generator)?))
    }

    /// The last reading of the wire that is read now.
    fn reading(&self) -> Option<&Reading> {
        self.open.told.reading(self.wire()?.0.id)
    }

    fn differs(&self) -> bool {
        self.reading().is_some_and(|reading| reading.by.is_some() && !reading.compared.is_same())
    }

    fn place(&self) -> String {
        isolated(self.open.told.destination.as_deref().unwrap_or_default())
    }
}

pub fn transport(state: &State, bed: u32, now: Moment) -> Screenful {
    let found = state.bed(bed).and_then(|bed| Some((bed, bed.transport.as_ref()?)));
    match found {
        Some((bed, open)) => draw(&Card { state, bed, open, facts: &open.facts, now }),
        None => beds::beds(state, now),
    }
}

fn draw(card: &Card<'_>) -> Screenful {
    let shape = shapes::shape(card);
    let spoken = spoken(&shape);
    Screenful {
        answers: answers(card),
        aside: aside(card),
        safety: has_safety(card.facts).then(|| Box::new(safety(card))),
        notice: notice(card),
        ..plain(card_head(card), shape, spoken)
    }
}

/// Unlike a handover, where nobody has read the dials here, the figures of neither are shown.
fn notice(card: &Card<'_>) -> Option<Say> {
    let (wire, profile) = card.wire().filter(|_| card.facts.step == Step::Read)?;
    let typed = wire.asked_again?;
    let handed = known(profile, wire).dials.is_some() && last_known(profile, wire).is_none();
    Some(if handed { Say::UnlikeHanded } else { asked_again(profile, wire, wire.asked_before, typed) })
}

fn card_head(card: &Card<'_>) -> Head<Say> {
    let stage = if card.facts.leg == Leg::Arriving { Say::StageArrival } else { Say::StageTransport };
    let wire = match card.facts.step {
        Step::Read | Step::Margin => card.wire(),
        Step::NoBeats | Step::Maximum => card.pacing_wire(),
        _ => None,
    };
    let subtitle = match wire {
        Some((wire, _)) => Say::WireAndStage { wire: boxed(wire_name(wire)), stage: boxed(stage) },
        None => stage,
    };
    Head { subtitle: Some(subtitle), ..bed_head(card.bed, card.now) }
}

fn answers(card: &Card<'_>) -> Vec<Act<Say>> {
    let typed = match card.facts.step {
        Step::Destination => Some((Say::DestinationDone, Command::TransportGoing)),
        Step::Read => Some((Say::ReadDone, Command::TransportTypedDials)),
        Step::Initials => Some((Say::InitialsDone, Command::TransportSigned)),
        _ => None,
    };
    let sent = typed.map(|(label, command)| act_with_fields("done", label, Tone::Good, command));
    offer(card.facts).iter().filter_map(|answer| labels::answer(card, *answer)).chain(sent).collect()
}

/// Before the first reading a transport is left as any form is; on the way the other beds are in reach.
fn aside(card: &Card<'_>) -> Vec<Act<Say>> {
    if card.facts.step == Step::OnTheWay {
        return vec![go("beds", Say::AllBeds, Tone::Plain, Screen::Beds)];
    }
    let leaves = matches!(card.facts.step, Step::Destination | Step::Pads | Step::Carry);
    let leave = || act("leave", Say::TransportClose, Tone::Plain, Command::Transport(Answer::Stop));
    leaves.then(leave).into_iter().collect()
}

fn safety(card: &Card<'_>) -> Safety<Say> {
    let always =
        |key: &'static str, label: Say, tone, answer| act(key, label, tone, Command::Transport(answer));
    let open = |answer| is_open(card.open.before.as_ref(), card.facts, answer);
    Safety {
        no_beats: always("no-beats", Say::NoBeats, Tone::Alarm, Answer::NoBeats),
        wrong: open(Answer::Wrong)
            .then(|| always("wrong", Say::SomethingIsWrong, Tone::Plain, Answer::Wrong)),
        slip: open(Answer::Slip).then(|| always("slip", Say::ThatWasASlip, Tone::Plain, Answer::Slip)),
        stop: always("stop", Say::TransportStop, Tone::Strong, Answer::Stop),
        strip: None,
        exposed: None,
    }
}
