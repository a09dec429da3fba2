//! Breadth first through `decide` and `apply`, by nothing but what each view offers.

use std::collections::HashSet;
use std::hash::{DefaultHasher, Hash, Hasher};

use domain::check::facts::{ASYNCHRONOUS, Facts, NONE};
use domain::check::guard::Guards;
use domain::check::restore;
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::View;
use domain::event::What;
use domain::moment::Moment;
use domain::record::Record;
use domain::say::Say;
use domain::state::bed::{OpenCheck, Wire};
use domain::{State, apply, decide, due, view};

use super::person::{Deed, deeds, time_passed};
use super::texts;
use super::worlds::{World, at, begun};

/// One card of an open check.
#[derive(Clone)]
struct Node {
    open: OpenCheck,
    now: Moment,
    deviated: bool,
}

/// A card as it was met.
pub struct Met<'s> {
    pub setup: &'s Setup<'s>,
    pub facts: &'s Facts,
    pub view: &'s View<Say>,
}

/// What one search leaves besides the cards it shows.
#[derive(Default)]
pub struct Harvest {
    pub cards: usize,
    pub records: Vec<Record>,
    /// An act that a view offers and `decide` does not take, with its card.
    pub dead: Vec<(Step, Command)>,
}

/// What a deed led to.
enum Done {
    /// The check goes on.
    On(Box<OpenCheck>),
    /// It stays on its card, with a sentence.
    No(Say),
    Over,
}

/// The unhurried eye: the picture is taken this long after the card came.
const LOOK_MS: i64 = 1_500;

/// On the straight way each position is a card of its own. Behind a deviation the search goes on only where
/// a card is of another kind, and reads differently, than all that were met.
pub fn search(world: &World, mut met: impl FnMut(&Met<'_>)) -> Harvest {
    let mut search = Search {
        world,
        base: begun(world.state.clone()),
        kinds: HashSet::new(),
        wordings: HashSet::new(),
        harvest: Harvest::default(),
    };
    let Some(open) = search.base.wire(1, 1).and_then(|wire| wire.check.clone()) else {
        return search.harvest;
    };
    let mut level = vec![Node { open, now: at(0), deviated: false }];
    while !level.is_empty() {
        let mut next = Vec::new();
        for node in &level {
            search.visit(node, &mut met, &mut next);
        }
        level = next;
    }
    search.harvest
}

struct Search<'w> {
    world: &'w World,
    base: State,
    kinds: HashSet<u64>,
    wordings: HashSet<u64>,
    harvest: Harvest,
}

impl Search<'_> {
    fn visit(&mut self, node: &Node, met: &mut impl FnMut(&Met<'_>), next: &mut Vec<Node>) {
        let state = self.shown(node);
        let looked = later(node.now, LOOK_MS);
        let view = view(&state, looked);
        let Some(setup) = state.wire(1, 1).and_then(|wire| setup_of(&state, wire)) else { return };
        if node.deviated && !self.wordings.insert(wording(&setup, &node.open, &view)) {
            return;
        }
        self.harvest.cards += 1;
        met(&Met { setup: &setup, facts: &node.open.facts, view: &view });
        let mut todo = deeds(&setup, &node.open.facts, &view, &self.world.found, looked);
        todo.extend(due(&state).map(|due_ms| time_passed(&view, &node.open.facts, due_ms.max(view.now_ms))));
        for deed in todo {
            let now = later(looked, deed.after_ms);
            let deviated = node.deviated || deed.deviates;
            match self.done(&state, &deed, now) {
                Done::On(open) => next.extend(self.new_to_us(Node { open: *open, now, deviated })),
                Done::No(no) => {
                    let refused = View { notice: Some(no), ..view.clone() };
                    met(&Met { setup: &setup, facts: &node.open.facts, view: &refused });
                }
                Done::Over => {}
            }
        }
    }

    /// The tablet with this card on it; card number and tap times as at the start: no tap is stale.
    fn shown(&self, node: &Node) -> State {
        let mut state = self.base.clone();
        if let Some(wire) = state.wire_mut(1, 1) {
            wire.check = Some(node.open.clone());
        }
        state.last = Some(node.now);
        state
    }

    fn new_to_us(&mut self, node: Node) -> Option<Node> {
        self.kinds.insert(kind(&node)).then_some(node)
    }

    fn done(&mut self, state: &State, deed: &Deed, now: Moment) -> Done {
        let events = match decide(state, &deed.sent, now) {
            Ok(events) => events,
            Err(refusal) => return refusal.say().map_or_else(|| self.dead(state, deed), Done::No),
        };
        for event in &events {
            if let What::CheckEnded { record, .. } = &event.what {
                self.harvest.records.push((**record).clone());
            }
        }
        let after = events.iter().fold(state.clone(), apply);
        let open = after.wire(1, 1).and_then(|wire| wire.check.clone());
        open.map_or(Done::Over, |open| Done::On(Box::new(open)))
    }

    fn dead(&mut self, state: &State, deed: &Deed) -> Done {
        let step = state.check_on_screen().map(|(_, _, _, open)| open.facts.step);
        self.harvest.dead.extend(step.map(|step| (step, deed.sent.command.clone())));
        Done::Over
    }
}

fn later(now: Moment, by_ms: i64) -> Moment {
    Moment { wall_ms: now.wall_ms + by_ms, boot_ms: now.boot_ms + by_ms, ..now }
}

/// What offers and readings depend on; what is remembered of earlier checks is not among it.
fn setup_of<'s>(state: &'s State, wire: &Wire) -> Option<Setup<'s>> {
    Some(Setup {
        profile: state.generator(&wire.generator)?,
        rules: &state.rules,
        chamber: wire.chamber,
        history: !wire.records.is_empty(),
        needs_acceptance: state.rules.example,
        last_capture: NONE,
        last_seen: NONE,
        guards: Guards::ALL_ON,
    })
}

fn hash(of: impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    of.hash(&mut hasher);
    hasher.finish()
}

/// What goes on from here: the plot on the straight way by positions, behind a deviation by its turns.
fn kind(node: &Node) -> u64 {
    let f = &node.open.facts;
    let card = (
        f.step,
        f.phase,
        f.to.cmp(&f.stand.at(f.dial)),
        f.row,
        f.set,
        f.blocked,
        (node.open.asked_again, node.open.asked_before),
    );
    let tests = (f.sensing, f.capture, f.why_sensing, f.why_capture, f.loss_open, f.ups, f.pauses);
    let heart = (f.own, f.asynchronous, f.atrium, f.no_beats, f.own_old, f.elsewhere.min(1));
    let seen = (f.found_sees, f.found_captures, f.minimum_captures, f.to == 0, f.to == ASYNCHRONOUS);
    if node.deviated {
        let from =
            matches!(f.step, Step::WhichLine | Step::Reason | Step::Slip | Step::Wrong).then_some(f.from);
        // What was turned, and how the dials read, decide what a reading asks back.
        let read = (f.step == Step::Differs).then_some((f.turned, f.stand));
        return hash((card, tests, heart, seen, from, read));
    }
    hash((card, tests, heart, seen, f.from, f.to, f.stand.at(f.dial)))
}

/// The card as it reads, and the way back from it.
fn wording(setup: &Setup<'_>, open: &OpenCheck, view: &View<Say>) -> u64 {
    let facts = &open.facts;
    let offers: Vec<&str> = view.answers.iter().map(|act| &*act.key).collect();
    let row = restore::row(setup, facts);
    hash((facts.step, facts.phase, offers, row, open.asked_again, texts::names(view).0))
}
