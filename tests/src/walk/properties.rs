//! What must never happen, N1 to N15, looked at from outside: which dial a card asks, from where to
//! where, and what was answered before.

mod back;
mod dials;
mod results;

use domain::check::answer::Answer;
use domain::check::facts::{Dial, Dials, Facts, NONE, Phase};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{self, offer};

use super::ledger::{Ledger, is_after_trouble, under};
use super::table as restore_table;

/// The first property broken, with what broke it.
pub type Breach = (&'static str, String);
type Held = Result<(), Breach>;

fn hold(name: &'static str, holds: bool, said: impl FnOnce() -> String) -> Held {
    if holds { Ok(()) } else { Err((name, said())) }
}

/// One state: a card, and the book beside it.
pub struct Seen<'a> {
    pub setup: &'a Setup<'a>,
    pub card: &'a Facts,
    pub book: &'a Ledger,
    pub restore: Dials,
    pub plan: Dials,
    /// What Stop opens here.
    pub stopped: Option<Facts>,
}

impl<'a> Seen<'a> {
    pub fn new(setup: &'a Setup<'a>, card: &'a Facts, book: &'a Ledger) -> Seen<'a> {
        let restore = restore_table::target(setup, book, card);
        let plan = restore_table::plan(setup, book, card);
        let stopped = check::answer(setup, None, card, Answer::Stop).ok();
        Seen { setup, card, book, restore, plan, stopped }
    }

    fn asks(&self, dial: Dial) -> Option<u8> {
        let open = !self.card.step.is_side() && self.card.step != Step::Restore;
        (open && self.card.asks(dial)).then_some(self.card.to)
    }

    fn range(&self, dial: Dial) -> (u8, u8) {
        let (low, high) = self.book.range(self.card, dial);
        if self.card.asks(dial) && self.card.phase != Phase::Turning {
            return (self.card.to, self.card.to);
        }
        (low, high)
    }

    /// Before this card turns it.
    fn stood(&self, dial: Dial) -> (u8, u8) {
        self.book.at(dial).map_or((0, NONE), |at| (at, at))
    }

    fn touches_a_dial(&self) -> bool {
        let over = matches!(under(self.card), Step::Done | Step::Ended | Step::Blocked)
            || is_after_trouble(self.card);
        self.book.found.is_some() && !over
    }
}

/// Every property of one card.
const OF_A_CARD: [fn(&Seen<'_>) -> Held; 16] = [
    dials::n1,
    dials::n2_number_up,
    dials::n2_output_up,
    dials::n3,
    back::n4,
    back::table,
    results::n6,
    results::n7,
    dials::n10,
    back::n11,
    dials::n12,
    dials::asynchronous,
    results::n13,
    back::n15,
    back::reading,
    dials::test_rate,
];

/// Everything that is to hold on one card; the first breach.
pub fn on_card(seen: &Seen<'_>, only: Only) -> Held {
    OF_A_CARD.iter().map(|property| property(seen)).find(|held| counts(held, only)).unwrap_or(Ok(()))
}

/// With a guard switched off, the breaches of its own property alone are looked for.
pub type Only = Option<&'static str>;

fn counts(held: &Held, only: Only) -> bool {
    held.as_ref().is_err_and(|(name, _)| only.is_none_or(|only| only == *name))
}

/// What is offered acts: only NO BEATS on its own card, Stop on its own list, and a slip on the reading that it
/// leads to where there is nothing to take back, are there already.
pub fn acts(seen: &Seen<'_>, answer: Answer, only: Only) -> Held {
    let already = matches!(
        (seen.card.step, answer),
        (Step::NoBeats, Answer::NoBeats) | (Step::ReadAfter, Answer::Slip)
    ) || (answer == Answer::Stop && under(seen.card) == Step::Restore);
    let by_itself = matches!(answer, Answer::Time(_) | Answer::Woke(_));
    let held = hold("acts", already || by_itself, || {
        format!("{:?} takes {answer:?} and changes nothing", seen.card.step)
    });
    if counts(&held, only) { held } else { Ok(()) }
}

/// Everything that is to hold of one answer; the first breach. `announced` is the card whose results stood before.
pub fn on_answer(
    from: &Seen<'_>,
    announced: &Facts,
    answer: Answer,
    opened: &Facts,
    book: &Ledger,
    only: Only,
) -> Held {
    let held = [
        in_its_time(from, answer),
        dials::n2_no_beats(answer, opened),
        results::n6_results(announced, opened, book),
        results::own_asked(from, answer),
        n5(from, opened, book),
    ];
    held.into_iter().find(|held| counts(held, only)).unwrap_or(Ok(()))
}

fn in_its_time(from: &Seen<'_>, answer: Answer) -> Held {
    let offer = offer::offer(from.setup, from.card);
    let good = [offer.good, offer.also_good].contains(&Some(answer));
    let waited = from.book.watched || from.card.phase == Phase::Open && from.card.to == NONE;
    hold("watch", !good || waited, || format!("{answer:?} before its time"))
}

fn n5(from: &Seen<'_>, opened: &Facts, book: &Ledger) -> Held {
    let ends = matches!(opened.step, Step::Done | Step::Ended) && from.card.step != Step::Done;
    hold("N5", !ends || from.book.found.is_none() || !book.owed, || "ended without a reading".into())
}
