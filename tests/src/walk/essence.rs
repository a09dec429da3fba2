//! What of `Facts` and of the book can still matter. States that differ only in the rest are walked once;
//! the random walk checks at every step that the rest changes nothing (`answers_depend_on_the_essence`).

use domain::check::facts::{Dial, Facts, Known, Marks, NONE, Row, Why};
use domain::check::step::Step;

use super::ledger::Ledger;

/// The card without what is only recorded.
pub fn of_card(facts: Facts) -> Facts {
    let mut kept = facts;
    kept.marks = Marks(facts.marks.0 & Marks::DID_NOT_SEE_AS_FOUND.0);
    kept.why_sensing = reason(facts.why_sensing);
    kept.why_capture = reason(facts.why_capture);
    kept.held_down = NONE;
    kept.minimum_captures = Known::Unknown;
    kept.elsewhere = facts.elsewhere.min(1);
    if facts.to == NONE {
        kept.dial = Dial::Output;
    }
    if !remembers_its_origin(facts.step) {
        kept.from = facts.step;
    }
    if !remembers_its_origin(facts.step) && !facts.step.is_side() {
        kept.came_from = facts.step;
    }
    if !matches!(below(&facts), Step::Restore | Step::ReadBack | Step::Differs | Step::Reason) {
        kept.row = Row::NothingTurned;
    }
    kept
}

fn below(facts: &Facts) -> Step {
    if facts.step.is_side() { facts.from } else { facts.step }
}

fn remembers_its_origin(step: Step) -> bool {
    let list = matches!(step, Step::WhichLine | Step::Blocked);
    list || step.is_side() || matches!(step, Step::CaptureCount | Step::Reason | Step::AwayRead)
}

fn reason(why: Why) -> Why {
    match why {
        Why::None | Why::BlockFromRate => why,
        _ => Why::Stopped,
    }
}

/// The book without what no property can ask for again.
pub fn of_book(book: Ledger) -> Ledger {
    let mut kept = book;
    let mut forget = |dial: usize| {
        if book.at[dial].is_some() {
            kept.last[dial] = 0;
        }
    };
    (0..3).for_each(&mut forget);
    kept
}
