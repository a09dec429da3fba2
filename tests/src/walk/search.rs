//! Breadth first over (card, card before, book, book before, what was spent), each state once.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, NONE, Phase};
use domain::check::step::Step;
use domain::check::{self, kept_before};

use super::alphabet::{self, Spent};
use super::essence;
use super::fingerprint::{self, Seen as Visited, Trail};
use super::ledger::{Ledger, index};
use super::properties::{self, Breach, Seen};
use super::world::World;

#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Node {
    pub facts: Facts,
    pub before: Option<Facts>,
    pub book: Ledger,
    pub book_before: Ledger,
    pub spent: Spent,
}

impl Node {
    pub fn first(step: Step) -> Node {
        Node {
            facts: Facts::new(step),
            before: None,
            book: Ledger::EMPTY,
            book_before: Ledger::EMPTY,
            spent: Spent::NOTHING,
        }
    }
}

/// A breach and the answers that lead to it.
pub struct Found {
    pub breach: Breach,
    pub path: Vec<(Answer, Facts)>,
}

struct Broken {
    breach: Breach,
    at: u64,
    last: Option<Answer>,
}

pub struct Walk<'w> {
    world: &'w World,
    budget: Spent,
    limit: usize,
    visited: Visited,
    /// From which state, by which answer: kept only when a breach has to be told.
    trail: Option<Trail<(u64, Answer)>>,
    beside: usize,
    pub answers: u64,
}

impl<'w> Walk<'w> {
    pub fn new(world: &'w World, budget: Spent, limit: usize) -> Walk<'w> {
        Walk { world, budget, limit, visited: Visited::default(), trail: None, beside: 0, answers: 0 }
    }

    pub fn states(&self) -> usize {
        self.visited.len() + self.beside
    }

    /// Visits everything; stops at the first breach and walks once more to tell the way there.
    pub fn run(&mut self, first: Node) -> Result<(), Box<Found>> {
        if self.levels(first).is_ok() {
            return Ok(());
        }
        self.visited.clear();
        self.beside = 0;
        self.trail = Some(Trail::default());
        match self.levels(first) {
            Ok(()) => Ok(()),
            Err(broken) => Err(Box::new(self.told(first, broken))),
        }
    }

    fn levels(&mut self, first: Node) -> Result<(), Broken> {
        self.visited.insert(fingerprint::of(&first));
        let mut level = vec![first];
        while !level.is_empty() && self.states() < self.limit {
            let mut next = Vec::new();
            for node in &level {
                self.expand(node, &mut next)?;
            }
            level = next;
        }
        Ok(())
    }

    fn expand(&mut self, node: &Node, next: &mut Vec<Node>) -> Result<(), Broken> {
        let here = fingerprint::of(node);
        let setup = self.world.setup();
        let broken = |breach, last| Broken { breach, at: here, last };
        let seen = Seen::new(&setup, &node.facts, &node.book);
        properties::on_card(&seen).map_err(|breach| broken(breach, None))?;
        let mut alphabet = Vec::with_capacity(32);
        alphabet::fill(&mut alphabet, self.world, &setup, &node.facts);
        for answer in alphabet {
            let spent = node.spent.and(alphabet::cost(&setup, &node.facts, answer));
            if !spent.is_within(self.budget) {
                continue;
            }
            let Ok(opened) = check::answer(&setup, node.before.as_ref(), &node.facts, answer) else {
                continue;
            };
            self.answers += 1;
            if opened == node.facts && spent == node.spent {
                continue;
            }
            let mut after = follow(&setup, node, answer, opened, spent);
            properties::on_answer(&seen, answer, &opened, &after.book)
                .map_err(|breach| broken(breach, Some(answer)))?;
            self.keep_the_essence(&mut after);
            self.visit(here, answer, after, next)?;
        }
        Ok(())
    }

    /// The two trouble cards lie on one card each and lead back to it: expanded at once, not queued.
    fn visit(&mut self, from: u64, answer: Answer, node: Node, next: &mut Vec<Node>) -> Result<(), Broken> {
        let trouble = matches!(node.facts.step, Step::Wrong | Step::WrongMore);
        let key = if trouble && self.trail.is_none() { 0 } else { fingerprint::of(&node) };
        if !trouble && !self.visited.insert(key) {
            return Ok(());
        }
        if let Some(trail) = &mut self.trail {
            trail.entry(key).or_insert((from, answer));
        }
        if trouble {
            self.beside += 1;
            return self.expand(&node, next);
        }
        next.push(node);
        Ok(())
    }

    /// Once the deviations are spent no slip can come any more.
    fn keep_the_essence(&self, node: &mut Node) {
        node.book = essence::of_book(node.book, &node.facts);
        node.facts = essence::of_card(node.facts);
        if node.spent.deviations == self.budget.deviations {
            node.before = None;
        }
        let book = |card| essence::of_book(node.book_before, &card);
        node.book_before = node.before.map_or(Ledger::EMPTY, book);
        node.before = node.before.map(essence::of_card);
    }

    /// The answers from the first card to the breach, played once more.
    fn told(&self, first: Node, broken: Broken) -> Found {
        let mut answers: Vec<Answer> = broken.last.into_iter().collect();
        let mut at = broken.at;
        while let Some((from, answer)) = self.trail.as_ref().and_then(|trail| trail.get(&at)) {
            answers.push(*answer);
            at = *from;
        }
        let setup = self.world.setup();
        let mut node = first;
        let mut path = Vec::new();
        for answer in answers.into_iter().rev() {
            let Ok(opened) = check::answer(&setup, node.before.as_ref(), &node.facts, answer) else { break };
            node = follow(&setup, &node, answer, opened, Spent::NOTHING);
            path.push((answer, node.facts));
        }
        Found { breach: broken.breach, path }
    }
}

/// The node after an answer that was taken.
pub fn follow(
    setup: &check::setup::Setup<'_>,
    node: &Node,
    answer: Answer,
    opened: Facts,
    spent: Spent,
) -> Node {
    let before = kept_before(node.before, &node.facts, answer, &opened);
    let book = if is_taken_back(node, answer, &opened) {
        taken_back(setup, node, answer, &opened)
    } else {
        node.book.after(setup, &node.facts, answer, &opened)
    };
    let book_before = if before == node.before { node.book_before } else { node.book };
    Node { facts: opened, before, book, book_before, spent }
}

fn is_reading(step: Step) -> bool {
    matches!(step, Step::ReadBack | Step::ReadAfter | Step::AwayRead)
}

/// Only the answer taken back said that this dial was turned.
fn undone_turn(card: &Facts) -> Option<Dial> {
    let unsaid = card.to != NONE && card.phase == Phase::Turning && card.stand.at(card.dial) != card.to;
    unsaid.then_some(card.dial)
}

/// Lists and readings: what was turned or read by the slip is not known.
fn is_as_then(step: Step) -> bool {
    use Step::*;
    is_reading(step) || matches!(step, Emergency | NoSpikes | Arrest)
}

/// The slip was said, and where the dials stand now where that is asked.
fn is_taken_back(node: &Node, answer: Answer, opened: &Facts) -> bool {
    let told = node.facts.step == Step::Slip && matches!(answer, Answer::StandsAt(_) | Answer::Read(_));
    let slip = told || answer == Answer::Slip;
    slip && !opened.step.is_side() && node.before.is_some()
}

/// The book as it was before the answer taken back; the dials where they stand now; time goes on.
fn taken_back(setup: &check::setup::Setup<'_>, node: &Node, answer: Answer, opened: &Facts) -> Ledger {
    let reading = node.before.filter(|card| is_reading(card.step));
    if let (Some(card), Answer::Read(_)) = (reading, answer) {
        let mut book = node.book_before;
        book.own_old = node.book.own_old;
        return book.after(setup, &card, answer, opened);
    }
    let mut book = node.book_before;
    let mut now = node.book;
    now.note_last();
    book.note_last();
    if opened.step == Step::Restore {
        book.leave_list(setup, &node.before.unwrap_or(node.facts));
    } else if !is_as_then(opened.step) {
        for (then, now) in book.at.iter_mut().zip(now.at) {
            *then = then.and(now);
        }
    }
    if let Some(dial) = node.before.and_then(|card| undone_turn(&card)) {
        book.at[index(dial)] = None;
    }
    book.maybe_asynchronous |= node.before.is_some_and(|card| {
        undone_turn(&card) == Some(Dial::Mv) && card.to.max(card.stand.mv) == ASYNCHRONOUS
    });
    book.maybe_asynchronous |= now.maybe_asynchronous;
    book.own_old = now.own_old;
    book.watched = false;
    match answer {
        Answer::StandsAt(place) => {
            let doubtful = node.before.and_then(|b| domain::check::side::doubtful_dial(&b, &node.facts));
            doubtful.into_iter().for_each(|dial| book.at[index(dial)] = Some(place));
        }
        Answer::Read(dials) => book.at = [Some(dials.output), Some(dials.rate), Some(dials.mv)],
        _ => {}
    }
    if opened.step != Step::Restore && !is_as_then(opened.step) {
        book.last = now.last;
    }
    book.note_last();
    let elsewhere = book.found.is_some_and(|f| book.at != [Some(f.output), Some(f.rate), Some(f.mv)]);
    book.asked |= elsewhere;
    book.owed |= book.at != node.book_before.at;
    book.reopened(setup, &node.facts, opened);
    book
}
