//! Breadth first over everything a check can come to, each state once.

use domain::check;
use domain::check::answer::Answer;
use domain::check::facts::Facts;
use domain::check::setup::Setup;
use domain::check::step::Step;

use super::alphabet::{self, Bound, Spent};
use super::essence;
use super::fingerprint::{Seen as Visited, Trail, of};
use super::node::Node;
use super::properties::{self, Breach, Seen};
use super::stages::Gates;
use super::world::World;

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

#[derive(Default)]
pub struct Edges {
    pub steps: Vec<(u64, u64)>,
    pub ends: Vec<u64>,
}

pub struct Walk<'w> {
    world: &'w World,
    setup: Setup<'w>,
    bound: Bound,
    limit: usize,
    visited: Visited,
    /// States of the two cards that are walked at once, without being remembered.
    beside: usize,
    /// From which state, by which answer: kept only when a breach has to be told.
    trail: Option<Trail<(u64, Answer)>>,
    /// From which state to which, and the states at which a check is over: kept where that is asked.
    pub edges: Option<Edges>,
    /// Between the stages, where the walk goes stage by stage.
    pub gates: Option<Gates>,
    alphabets: Vec<Vec<Answer>>,
    pub answers: u64,
    /// Nothing was left when the walk ended.
    pub closed: bool,
}

impl<'w> Walk<'w> {
    pub fn new(world: &'w World, bound: Bound, limit: usize) -> Walk<'w> {
        Walk {
            world,
            setup: world.setup(),
            bound,
            limit,
            visited: Visited::default(),
            trail: None,
            edges: None,
            gates: None,
            beside: 0,
            alphabets: Vec::new(),
            answers: 0,
            closed: false,
        }
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
        self.gates.iter_mut().for_each(Gates::clear);
        match self.levels(first) {
            Ok(()) => Ok(()),
            Err(broken) => Err(Box::new(self.told(first, broken))),
        }
    }

    fn levels(&mut self, first: Node) -> Result<(), Broken> {
        self.visited.insert(first.key());
        let mut level = vec![(first.key(), first)];
        let mut next = Vec::new();
        while !level.is_empty() && self.states() < self.limit {
            for (key, node) in &level {
                self.expand(*key, node, &mut next)?;
            }
            level.clear();
            std::mem::swap(&mut level, &mut next);
            if level.is_empty() {
                level = self.gates.as_mut().map(Gates::open).unwrap_or_default();
            }
        }
        self.closed = level.is_empty();
        Ok(())
    }

    fn expand(&mut self, here: u64, node: &Node, next: &mut Vec<(u64, Node)>) -> Result<(), Broken> {
        let setup = self.setup;
        let broken = |breach, last| Broken { breach, at: here, last };
        let seen = Seen::new(&setup, &node.facts, &node.book);
        properties::on_card(&seen, self.world.only).map_err(|breach| broken(breach, None))?;
        let mut alphabet = self.alphabets.pop().unwrap_or_default();
        alphabet::fill(&mut alphabet, self.world, &setup, &node.facts);
        for answer in alphabet.iter().copied() {
            let cost = alphabet::cost(&setup, &node.facts, answer);
            let Some(spent) = self.bound.spend(node.spent, cost) else { continue };
            let Ok(opened) = check::answer(&setup, node.card_before(), &node.facts, answer) else {
                continue;
            };
            self.answers += 1;
            if opened == node.facts {
                properties::acts(&seen, answer, self.world.only)
                    .map_err(|breach| broken(breach, Some(answer)))?;
                if spent == node.spent {
                    continue;
                }
            }
            let mut after = node.after(&setup, answer, opened, spent);
            let announced = node.announced(answer, &opened);
            properties::on_answer(&seen, announced, answer, &opened, &after.book, self.world.only)
                .map_err(|breach| broken(breach, Some(answer)))?;
            self.keep_the_essence(&mut after);
            self.visit(here, node, answer, after, next)?;
        }
        self.alphabets.push(alphabet);
        Ok(())
    }

    /// The two trouble cards lie on one card each and lead back to it: expanded at once, not queued.
    fn visit(
        &mut self,
        from: u64,
        before: &Node,
        answer: Answer,
        node: Node,
        next: &mut Vec<(u64, Node)>,
    ) -> Result<(), Broken> {
        let trouble = matches!(node.facts.step, Step::Wrong | Step::WrongMore);
        let named = !trouble || self.trail.is_some() || self.edges.is_some();
        let key = if named { node.key() } else { 0 };
        if let Some(edges) = &mut self.edges {
            edges.steps.push((from, key));
            edges.ends.extend((node.facts.step == Step::Ended).then_some(key));
        }
        if !trouble && !self.visited.insert(key) {
            return Ok(());
        }
        if let Some(trail) = &mut self.trail {
            trail.entry(key).or_insert((from, answer));
        }
        if trouble {
            self.beside += 1;
            return self.expand(key, &node, next);
        }
        let setup = self.setup;
        let waits = self.gates.as_mut().is_some_and(|gates| gates.takes(&setup, before, key, &node));
        if !waits {
            next.push((key, node));
        }
        Ok(())
    }

    /// Once the deviations are spent no slip can come any more.
    fn keep_the_essence(&self, node: &mut Node) {
        node.book = essence::of_book(&self.setup, node.book, &node.facts);
        node.facts = essence::of_card(node.facts);
        if node.spent.deviations == self.bound.deviations {
            node.before = None;
        }
        if let Some(before) = node.before.as_mut().filter(|before| before.key.is_none()) {
            before.book = essence::of_book(&self.setup, before.book, &before.card);
            before.card = essence::of_card(before.card);
            before.key = Some(of(&(before.card, before.book)));
        }
    }

    /// The answers from the first card to the breach, played once more.
    fn told(&self, first: Node, broken: Broken) -> Found {
        let mut answers: Vec<Answer> = broken.last.into_iter().collect();
        let mut at = broken.at;
        while let Some((from, answer)) = self.trail.as_ref().and_then(|trail| trail.get(&at)) {
            answers.push(*answer);
            at = *from;
        }
        let mut node = first;
        let mut path = Vec::new();
        for answer in answers.into_iter().rev() {
            let Ok(opened) = check::answer(&self.setup, node.card_before(), &node.facts, answer) else {
                break;
            };
            node = node.after(&self.setup, answer, opened, Spent::NOTHING);
            path.push((answer, node.facts));
        }
        Found { breach: broken.breach, path }
    }
}
