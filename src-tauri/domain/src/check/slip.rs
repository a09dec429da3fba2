//! "That was a slip": the answer before is taken back, and the card before opens again where the dials stand now.

use super::facts::{ASYNCHRONOUS, Dial, Dials, Doubt, Facts, Marks, NONE, Phase, Row, Turned};
use super::setup::Setup;
use super::side::{away_read, below, over, reading_owed, watched_anew};
use super::step::Step;
use super::turn::{ask, turn};
use super::{capture, conclude, reading, restore, set};
use crate::profile::Position;

/// "That was a slip": the answer before this card is taken back; both entries stay in the record.
pub fn said(setup: &Setup<'_>, before: Option<&Facts>, facts: Facts) -> Facts {
    match before {
        Some(earlier) if !facts.dials_read() => taken_back(setup, *earlier, &facts, Said::Nothing),
        // Read there, the list comes again with what still differs.
        None if below(facts).step == Step::Restore => over(facts, Step::Elsewhere),
        None if reads_all(&facts) => ask(restore::broken_off(setup, facts), Step::ReadAfter),
        None => over(facts, Step::Elsewhere),
        Some(earlier) if !reads_all(&facts) && doubtful_dial(earlier, &facts).is_none() => {
            taken_back(setup, *earlier, &facts, Said::Nothing)
        }
        Some(_) => over(facts, Step::Slip),
    }
}

/// More than one dial may have been turned on this card: a slip reads all three.
pub fn reads_all(facts: &Facts) -> bool {
    is_list(below(*facts).step) || facts.doubt != Doubt::NONE
}

/// Cards that list dials to turn, with no tap between them.
fn is_list(step: Step) -> bool {
    matches!(step, Step::Restore | Step::NoSpikes | Step::Emergency | Step::Arrest)
}

/// The dial whose place must be said after a slip: this card's if it may have been turned, else the last card's.
pub fn doubtful_dial(earlier: &Facts, facts: &Facts) -> Option<Dial> {
    if facts.to != NONE { Some(facts.dial) } else { (earlier.to != NONE).then_some(earlier.dial) }
}

pub(super) fn stands(
    setup: &Setup<'_>,
    before: Option<&Facts>,
    facts: &Facts,
    position: Position,
) -> Option<Facts> {
    let earlier = before?;
    let dial = doubtful_dial(earlier, facts)?;
    Some(taken_back(setup, *earlier, facts, Said::One(dial, position)))
}

/// Where the dials stand now, as said with a slip.
#[derive(Clone, Copy)]
pub(super) enum Said {
    Nothing,
    One(Dial, Position),
    All(Dials),
}

/// The evidence of the answer taken back goes; the card before opens again where the dials stand now.
pub(super) fn taken_back(setup: &Setup<'_>, earlier: Facts, facts: &Facts, said: Said) -> Facts {
    let marks = earlier.marks.and(Marks::SLIP);
    let own_old = earlier.own_old || facts.own_old;
    let card = Facts { marks, own_old, turned: turned_since(setup, &earlier, facts, said), ..earlier };
    if !card.dials_read() {
        return card;
    }
    if let (true, Said::All(dials)) = (is_reading(card.step), said) {
        return read_again(setup, card, dials);
    }
    let now = put(setup, card, facts, said);
    if card.step == Step::ReadBack && now.stand.output < set::lowest_output(setup, &now) {
        return restore::open_row(now, Row::Set);
    }
    if is_first_act(card.step) {
        return first_act_again(card, now);
    }
    if is_list(card.step) || is_reading(card.step) {
        return reopened(card, now, card.to);
    }
    let stand = now.stand;
    let others_as_then = [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .filter(|dial| !card.asks(*dial))
        .all(|dial| stand.at(dial) == card.stand.at(dial));
    if !others_as_then {
        return reading_owed(conclude::restore_or_stay(setup, now));
    }
    // RATE is never raised in sensing.
    let to = match card.step {
        Step::SenseRate => card.to.min(stand.rate),
        step if is_search(step) || step == Step::CaptureCount => {
            safer(card.dial, card.to, stand.at(card.dial))
        }
        Step::SenseOutputOut | Step::CaptureOut => {
            reading::kept(setup, &now, stand.with(Dial::Output, card.to)).output
        }
        _ => card.to,
    };
    capture::unless_too_old(setup, reopened(card, now, to))
}

/// What was turned meanwhile was turned, whatever is taken back.
fn turned_since(setup: &Setup<'_>, earlier: &Facts, facts: &Facts, said: Said) -> Turned {
    let turned = earlier.turned.with_all(restore::broken_off(setup, below(*facts)).turned);
    let asked_elsewhere = facts.asks(Dial::Output) && facts.stand.output != facts.to;
    let is_there = matches!(said, Said::One(Dial::Output, at) if at == facts.to);
    if asked_elsewhere && is_there { turned.and(Dial::Output) } else { turned }
}

/// The earlier card's facts, with the dials where they stand now. Of a list nobody knows which were turned;
/// what was read by a slip is not known.
fn put(setup: &Setup<'_>, card: Facts, facts: &Facts, said: Said) -> Facts {
    let list = restore::broken_off(setup, card);
    let as_then = is_list(card.step) || is_reading(card.step);
    let (stand, doubt) = if as_then { (card.stand, list.doubt) } else { (facts.now(), card.doubt) };
    let doubt = undone_turn(card, doubt);
    let (stand, doubt) = match said {
        Said::Nothing => (stand, doubt),
        Said::One(dial, position) => (stand.with(dial, position), doubt.less(dial)),
        Said::All(dials) => (dials, Doubt::NONE),
    };
    Facts { doubt, ..card.standing(stand) }
}

/// Only the answer taken back said that the earlier card's dial was turned.
fn undone_turn(card: Facts, doubt: Doubt) -> Doubt {
    if card.to != NONE && card.phase != Phase::Turning {
        return doubt.less(card.dial);
    }
    if card.to == NONE || card.stand.at(card.dial) == card.to {
        return doubt;
    }
    let asynchronous = card.dial == Dial::Mv && card.stand.mv.max(card.to) == ASYNCHRONOUS;
    let doubt = doubt.and(card.dial);
    if asynchronous { doubt.and_asynchronous() } else { doubt }
}

/// OUTPUT goes up, or stays where it was said to stand: it is not turned down before beats are there.
fn first_act_again(card: Facts, now: Facts) -> Facts {
    let to = if card.to == NONE { NONE } else { safer(card.dial, card.to, now.stand.at(card.dial)) };
    let opened = reopened(card, now, to);
    if card.step == Step::NoBeats { Facts { emergency_output: to, ..opened } } else { opened }
}

/// The earlier card again, with a new watch: its dial to `to`, or its question.
fn reopened(card: Facts, now: Facts, to: Position) -> Facts {
    if card.to == NONE {
        return watched_anew(Facts { phase: card.phase, ..now });
    }
    let opened = turn(now, card.step, card.dial, to);
    Facts { from: card.from, came_from: card.came_from, ..opened }
}

/// The reading said with the slip is the one that the earlier card asks for.
fn read_again(setup: &Setup<'_>, card: Facts, dials: Dials) -> Facts {
    match card.step {
        Step::AwayRead => away_read(setup, card, dials),
        Step::ReadAfter => set::read_after(card, dials),
        _ => set::compare(setup, card, dials),
    }
}

fn is_reading(step: Step) -> bool {
    matches!(step, Step::ReadBack | Step::ReadAfter | Step::AwayRead)
}

/// Cards whose act comes before anything else, wherever the other dials stand.
fn is_first_act(step: Step) -> bool {
    use Step::*;
    matches!(step, NoBeats | AfterShock | CaptureMaximum | FirstMaximum | CaptureRestore)
}

/// Cards that try one position after another: after a slip the safer one is watched.
fn is_search(step: Step) -> bool {
    use Step::*;
    matches!(step, OwnDown | BlindRateUp | SenseUp | SenseDown | CaptureDown | CaptureBack | CaptureUp)
}

/// More output, a faster rate, a number that sees more.
fn safer(dial: Dial, one: Position, other: Position) -> Position {
    match dial {
        Dial::Output | Dial::Rate => one.max(other),
        Dial::Mv => one.min(other),
    }
}
