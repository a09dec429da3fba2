//! What of `Facts` and of the book can still matter. States that differ only in the rest are walked once;
//! the random walk checks at every step that the rest changes nothing.

use domain::check::facts::{
    AtrialRhythm, Dial, Facts, FirstLook, Found, Known, Marks, NONE, Own, Phase, Row, Why,
};
use domain::check::offer::offer;
use domain::check::setup::Setup;
use domain::check::step::{Stage, Step};

use super::ledger::{Ledger, is_after_trouble, under};

/// The card without what is only recorded, or is over.
pub fn of_card(facts: Facts) -> Facts {
    let mut kept = facts;
    if facts.dials_read() {
        kept.found = facts.back_to;
    }
    let matter = [
        Marks::DID_NOT_SEE_AS_FOUND,
        Marks::PAUSES,
        Marks::EMERGENCY,
        Marks::NO_BEATS_IN_LAST_LOOK,
        Marks::NO_BEATS_AGAIN,
        Marks::ASYNCHRONOUS_ORDERED,
        Marks::MARKS_WITHOUT_BEATS,
        Marks::STILL_BLIND,
        Marks::NOT_PACED_OVER,
        Marks::NO_CAPTURE_AT_MAXIMUM,
    ]
    .into_iter()
    .fold(Marks(0), Marks::and);
    kept.marks = Marks(facts.marks.0 & matter.0);
    kept.why_sensing = reason(facts.why_sensing);
    kept.why_capture = reason(facts.why_capture);
    kept.held_down = NONE;
    // That a minimum output did not capture is only recorded.
    if facts.minimum_captures == Known::No {
        kept.minimum_captures = Known::Unknown;
    }
    kept.loss_open = false;
    kept.elsewhere = facts.elsewhere.min(1);
    if facts.to == NONE {
        kept.dial = Dial::Output;
    }
    forget_origin(&mut kept);
    if is_search_over(under(&facts)) {
        forget_search(&mut kept);
    }
    kept
}

/// Where the card came from matters to a few cards only; the row only where a list was opened by it.
fn forget_origin(kept: &mut Facts) {
    if !origin_matters(kept.step, kept.from) {
        kept.from = kept.step;
    }
    if !origin_matters(kept.step, kept.came_from) && !kept.step.is_side() {
        kept.came_from = kept.step;
    }
    let below = if kept.step.is_side() { kept.from } else { kept.step };
    if kept.step.is_side() && !origin_matters(below, kept.came_from) {
        kept.came_from = below;
    }
    let list = matches!(under(kept), Step::Restore | Step::ReadBack | Step::Differs | Step::Reason);
    if !list || is_after_trouble(kept) {
        kept.row = Row::NothingTurned;
    }
}

/// What stays after the last look is not looked at again.
fn origin_matters(step: Step, from: Step) -> bool {
    remembers_its_origin(step) || (step == Step::Stays && from == Step::Confirm)
}

fn remembers_its_origin(step: Step) -> bool {
    let list = matches!(step, Step::WhichLine | Step::Blocked);
    list || step.is_side() || matches!(step, Step::CaptureCount | Step::Reason | Step::AwayRead | Step::Done)
}

fn reason(why: Why) -> Why {
    match why {
        Why::None | Why::BlockFromRate => why,
        _ => Why::Stopped,
    }
}

/// No card from here on asks a dial down to learn something: only a slip leads back.
fn is_search_over(step: Step) -> bool {
    match step.stage() {
        Some(Stage::Ready) => matches!(step, Step::AsynchronousOn),
        Some(Stage::OwnRhythm | Stage::Sensing) => false,
        Some(Stage::Capture) => matches!(step, Step::CaptureMaximum),
        Some(Stage::Set | Stage::Read | Stage::Confirm | Stage::Done) | None => true,
    }
}

fn forget_search(kept: &mut Facts) {
    kept.own = Own::NotLooked;
    kept.own_old = false;
    kept.own_slowest = 0;
    kept.first_own_asked = false;
    kept.among_paced = false;
    kept.atrium = AtrialRhythm::NotAsked;
    kept.ups = 0;
    kept.pauses = 0;
    kept.minimum_captures = Known::Unknown;
    kept.spike_lost = under(kept) == Step::CaptureMaximum;
    if kept.first_look != FirstLook::EveryBeatPaced {
        kept.first_look = FirstLook::Both;
    }
    if matches!(kept.capture, Found::Exact | Found::AtMost | Found::Bracket) {
        kept.capture = Found::Exact;
        kept.capture_low = NONE;
    }
    if kept.sensing == Found::AtLeast {
        kept.sensing = Found::Exact;
    }
}

/// The book without what no property can ask for again.
pub fn of_book(setup: &Setup<'_>, book: Ledger, card: &Facts) -> Ledger {
    let mut kept = book;
    let has_a_watch = card.step.is_side() || offer(setup, card).good.is_some();
    kept.watched &= has_a_watch && card.phase == Phase::Open;
    for dial in 0..3 {
        if book.at[dial].is_some() {
            kept.last[dial] = 0;
        }
    }
    if is_search_over(under(card)) {
        kept.own = book.own.map(|(_, fastest)| (fastest, fastest));
        kept.own_held = false;
        kept.own_shown = false;
        kept.own_old = false;
        kept.minimum_made_beat = false;
        let at_maximum = under(card) == Step::CaptureMaximum;
        kept.loss_open &= at_maximum;
        kept.lost_in_capture = at_maximum;
    }
    kept
}
