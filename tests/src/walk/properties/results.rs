//! What a check announces, and where it may go on to from what was seen: N6, N7, N13.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, Found, Marks, NONE, Why};
use domain::check::offer;
use domain::check::step::{Stage, Step};

use super::{Held, Seen, hold};
use crate::walk::ledger::{Blindness, Ledger};

/// The plan is a position that obeys the unit's rule.
pub(super) fn n6(seen: &Seen<'_>) -> Held {
    let card = seen.card;
    match card.step {
        Step::SetOutput => {
            hold("N6", card.to == seen.plan.output, || format!("OUTPUT {} plan {:?}", card.to, seen.plan))
        }
        Step::SetRate => {
            hold("N6", card.to == seen.plan.rate, || format!("RATE {} plan {:?}", card.to, seen.plan))
        }
        Step::SetMv => hold("N6", card.to == seen.plan.mv, || format!("mV {} plan {:?}", card.to, seen.plan)),
        _ => Ok(()),
    }
}

/// A result that is announced is borne out by the answers.
pub(super) fn n6_results(before: &Facts, opened: &Facts, book: &Ledger) -> Held {
    let measured = matches!(opened.capture, Found::Exact | Found::AtMost | Found::Bracket);
    let evidence = &book.evidence;
    if measured && (opened.capture, opened.capture_at) != (before.capture, before.capture_at) {
        let borne = evidence.good.is_some_and(|good| opened.capture_at >= good);
        hold("N6", borne, || format!("capture at {} was not shown: {evidence:?}", opened.capture_at))?;
    }
    let sensed = matches!(opened.sensing, Found::Exact | Found::AtLeast | Found::SeenWhereItStood);
    if sensed && (opened.sensing, opened.sensing_at) != (before.sensing, before.sensing_at) {
        hold("N6", evidence.sees(opened.sensing_at), || {
            format!("number {} was not shown to see: {evidence:?}", opened.sensing_at)
        })?;
    }
    Ok(())
}

/// After a spike without a beat only up, a count, or the emergency.
pub(super) fn n7(seen: &Seen<'_>) -> Held {
    let card = seen.card;
    if !seen.book.loss_open || card.step.stage() != Some(Stage::Capture) {
        return Ok(());
    }
    let last = seen.setup.profile.output_last();
    let said = seen.book.at(Dial::Output).is_none_or(|at| card.to >= at);
    let above = said && (card.doubt.has(Dial::Output) || card.to >= card.stand.output);
    let higher = card.to == last || (above && !seen.book.evidence.fails(card.to));
    let up = card.to != NONE && card.dial == Dial::Output && higher;
    let count = card.step == Step::CaptureCount && (card.to == NONE || up);
    hold("N7", up || count, || format!("{:?} asks {:?} to {}", card.step, card.dial, card.to))
}

/// Asynchronous pacing that an emergency left, and nobody had ordered before, is looked at for own beats last of all.
pub(super) fn own_asked(from: &Seen<'_>, answer: Answer) -> Held {
    let left = from.book.asynchronous == Blindness::Emergency && from.book.at(Dial::Mv) == Some(ASYNCHRONOUS);
    let last_look = from.card.step == Step::Confirm && answer == Answer::Fine;
    let left = left && !from.card.marks.has(Marks::ASYNCHRONOUS_ORDERED);
    let offered = || offer::offer(from.setup, from.card).free.contains(&Answer::OwnAmongThem);
    hold("asynchronous", !(last_look && left) || offered(), || "own beats were not asked for".into())
}

/// A refusal or skip has said where each dial stays before the result.
pub(super) fn n13(seen: &Seen<'_>) -> Held {
    let refused = seen.card.why_sensing != Why::None || seen.card.why_capture != Why::None;
    let result = seen.card.step == Step::Done;
    let unread = seen.card.from == Step::Reason;
    hold("N13", !(refused && result) || seen.book.said == 7 || unread, || {
        format!("said {:03b}", seen.book.said)
    })
}
