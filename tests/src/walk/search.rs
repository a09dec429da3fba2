//! Breadth first over (card, card before, book, book before, deviations spent), each state once.

use std::collections::HashMap;
use std::hash::{BuildHasher, Hash};

use domain::check::answer::Answer;
use domain::check::facts::Facts;
use domain::check::step::Step;
use domain::check::{self, kept_before};

use super::ledger::Ledger;
use super::properties::{self, Breach, Seen};
use super::world::World;
use super::{alphabet, essence};

#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Node {
    pub facts: Facts,
    pub before: Option<Facts>,
    pub book: Ledger,
    pub book_before: Ledger,
    pub spent: u8,
}

impl Node {
    pub fn first(step: Step) -> Node {
        Node {
            facts: Facts::new(step),
            before: None,
            book: Ledger::EMPTY,
            book_before: Ledger::EMPTY,
            spent: 0,
        }
    }
}

/// A breach and the answers that lead to it.
pub struct Found {
    pub breach: Breach,
    pub path: Vec<(Answer, Facts)>,
}

pub struct Walk<'w> {
    world: &'w World,
    budget: u8,
    limit: usize,
    seen: HashMap<u64, (u64, Answer), foldhash::fast::FixedState>,
    hasher: foldhash::quality::FixedState,
    pub answers: u64,
}

impl<'w> Walk<'w> {
    pub fn new(world: &'w World, budget: u8, limit: usize) -> Walk<'w> {
        Walk {
            world,
            budget,
            limit,
            seen: HashMap::default(),
            hasher: foldhash::quality::FixedState::with_seed(7),
            answers: 0,
        }
    }

    pub fn states(&self) -> usize {
        self.seen.len()
    }

    /// Visits everything from `first`; stops at the first breach.
    pub fn run(&mut self, first: Node) -> Result<(), Box<Found>> {
        let root = self.hasher.hash_one(first);
        self.seen.insert(root, (root, Answer::Stop));
        let mut level = vec![first];
        while !level.is_empty() && self.seen.len() < self.limit {
            let mut next = Vec::new();
            for node in &level {
                self.expand(node, &mut next).map_err(|(breach, at, last)| {
                    Box::new(Found { breach, path: self.path(first, at, last) })
                })?;
            }
            level = next;
        }
        Ok(())
    }

    fn expand(&mut self, node: &Node, next: &mut Vec<Node>) -> Result<(), (Breach, u64, Option<Answer>)> {
        let setup = self.world.setup();
        let here = self.hasher.hash_one(node);
        let seen = Seen::new(&setup, &node.facts, &node.book);
        properties::on_card(&seen).map_err(|breach| (breach, here, None))?;
        let mut alphabet = Vec::new();
        alphabet::fill(&mut alphabet, self.world, &setup, &node.facts);
        for answer in alphabet {
            let spent = node.spent + alphabet::cost(&setup, &node.facts, answer);
            if spent > self.budget {
                continue;
            }
            let Ok(opened) = check::answer(&setup, node.before.as_ref(), &node.facts, answer) else {
                continue;
            };
            self.answers += 1;
            let mut after = follow(&setup, node, answer, opened, spent);
            properties::on_answer(&seen, answer, &opened, &after.book)
                .map_err(|breach| (breach, here, Some(answer)))?;
            self.keep_the_essence(&mut after);
            let key = self.hasher.hash_one(after);
            if let std::collections::hash_map::Entry::Vacant(free) = self.seen.entry(key) {
                free.insert((here, answer));
                next.push(after);
            }
        }
        Ok(())
    }

    /// Once the budget is spent no slip can come any more.
    fn keep_the_essence(&self, node: &mut Node) {
        node.facts = essence::of_card(node.facts);
        node.book = essence::of_book(node.book);
        if node.spent == self.budget {
            node.before = None;
            node.book_before = Ledger::EMPTY;
        } else {
            node.before = node.before.map(essence::of_card);
            node.book_before = essence::of_book(node.book_before);
        }
    }

    fn path(&self, first: Node, mut at: u64, last: Option<Answer>) -> Vec<(Answer, Facts)> {
        let mut answers: Vec<Answer> = last.into_iter().collect();
        while let Some((from, answer)) = self.seen.get(&at).filter(|(from, _)| *from != at) {
            answers.push(*answer);
            at = *from;
        }
        answers.reverse();
        let setup = self.world.setup();
        let mut node = first;
        let mut path = Vec::new();
        for answer in answers {
            let Ok(opened) = check::answer(&setup, node.before.as_ref(), &node.facts, answer) else { break };
            node = follow(&setup, &node, answer, opened, 0);
            path.push((answer, node.facts));
        }
        path
    }
}

/// The node after an answer that was taken.
pub fn follow(
    setup: &check::setup::Setup<'_>,
    node: &Node,
    answer: Answer,
    opened: Facts,
    spent: u8,
) -> Node {
    let before = kept_before(node.before, &node.facts, answer, &opened);
    let slipped = is_taken_back(node, answer, &opened);
    let mut book = node.book.after(setup, &node.facts, answer, &opened);
    if slipped {
        book = taken_back(setup, node, answer, &opened);
    }
    let book_before = if before == node.before { node.book_before } else { node.book };
    Node { facts: opened, before, book, book_before, spent }
}

fn is_taken_back(node: &Node, answer: Answer, opened: &Facts) -> bool {
    let slip = answer == Answer::Slip || node.facts.step == Step::Slip;
    slip && !opened.step.is_side()
        && node.before.is_some()
        && answer != Answer::Back
        && !matches!(
            answer,
            Answer::NoBeats | Answer::Stop | Answer::Wrong | Answer::Woke(_) | Answer::Time(_)
        )
}

/// The book as it was before the answer taken back; the dials where they stand now; time goes on.
fn taken_back(setup: &check::setup::Setup<'_>, node: &Node, answer: Answer, opened: &Facts) -> Ledger {
    let mut book = node.book_before;
    let lasting = |last: u8, at: Option<u8>| at.unwrap_or(last);
    let last: Vec<u8> = node.book.last.iter().zip(node.book.at).map(|(l, at)| lasting(*l, at)).collect();
    if opened.step == Step::Restore {
        book.leave_list(setup, &node.before.unwrap_or(node.facts));
    } else if !matches!(opened.step, Step::Emergency | Step::NoSpikes | Step::Arrest) {
        for (then, now) in book.at.iter_mut().zip(node.book.at) {
            *then = then.and(now);
        }
    }
    book.maybe_asynchronous |= node.book.maybe_asynchronous;
    book.maybe_asynchronous &= book.at[2].is_none();
    book.own_old = node.book.own_old;
    book.watched = false;
    match answer {
        Answer::StandsAt(place) => {
            let doubtful = node.before.and_then(|b| domain::check::side::doubtful_dial(&b, &node.facts));
            if let Some(dial) = doubtful {
                book.at[super::ledger::index(dial)] = Some(place);
            }
        }
        Answer::Read(dials) => book.at = [Some(dials.output), Some(dials.rate), Some(dials.mv)],
        _ => {}
    }
    for (kept, (at, now)) in book.last.iter_mut().zip(book.at.iter().zip(last)) {
        *kept = at.unwrap_or(now);
    }
    let elsewhere = book.found.is_some_and(|f| book.at != [Some(f.output), Some(f.rate), Some(f.mv)]);
    book.asked |= elsewhere;
    book.owed |= elsewhere;
    book.reopened(setup, &node.facts, opened);
    book
}
