//! Breadth first over every state that a swap can reach, each answer of the whole alphabet tried at each.

use std::collections::{HashMap, HashSet, VecDeque};

use domain::check::facts::Dials;
use domain::swap::answer::Answer;
use domain::swap::facts::Facts;
use domain::swap::step::Step;
use domain::{State, due};

use super::alphabet::deeds;
use super::book::{AT_FIRST, Book, Said};
use super::judged::{ended_safe, judge, safety, the_other_wire_is_owed};
use crate::made::{BED, WIRE, WORLDS, World, at, before, facts, send};

/// With what a slip goes back to, on both sides.
type Key = (Facts, Option<Facts>, Book, Option<Book>, u8, Option<Dials>);

/// The book, the one before the last answer, and how many slips and sleeps there were.
type Known = (Book, Option<Book>, u8);

/// What is tried beside the plain answers: all together the states grow past what a test can wait for.
#[derive(Clone, Copy, Debug)]
struct Bound {
    slips: bool,
    sleeps: bool,
    /// Slips and sleeps of one walk.
    most: u8,
    /// Yes, the old box paces another wire too.
    shared: bool,
}

impl Bound {
    fn takes(self, card: &Facts, said: Said, spent: u8) -> bool {
        match said {
            Said::Tapped(Answer::Yes) if card.step == Step::Shared => self.shared,
            Said::Slept { .. } => self.sleeps && spent < self.most,
            Said::Tapped(Answer::Slip) => self.slips && spent < self.most,
            Said::Tapped(_) | Said::ReadRight | Said::ReadOther | Said::Picked | Said::Time => true,
        }
    }
}

struct Walk {
    world: World,
    bound: Bound,
    seen: HashMap<Key, usize>,
    /// From each state where one can go; `None` at the end.
    ways: Vec<Vec<usize>>,
    ends: HashSet<usize>,
    steps: HashSet<Step>,
    queue: VecDeque<(State, Known, usize)>,
    answers: usize,
}

impl Walk {
    fn over(world: World, bound: Bound) -> Walk {
        let mut walk = Walk {
            world,
            bound,
            seen: HashMap::new(),
            ways: Vec::new(),
            ends: HashSet::new(),
            steps: HashSet::new(),
            queue: VecDeque::new(),
            answers: 0,
        };
        walk.enter(world.begun(), (AT_FIRST, None, 0));
        while let Some((state, known, place)) = walk.queue.pop_front() {
            walk.visit(&state, known, place);
        }
        walk
    }

    fn enter(&mut self, state: State, (book, earlier, spent): Known) -> usize {
        let before = before(&state).filter(|_| self.bound.slips && spent < self.bound.most);
        let earlier_kept = earlier.filter(|_| before.is_some());
        let key = (facts(&state).unwrap(), before, book, earlier_kept, spent, asked(&state));
        if let Some(known) = self.seen.get(&key) {
            return *known;
        }
        let place = self.ways.len();
        self.steps.insert(key.0.step);
        self.seen.insert(key, place);
        self.ways.push(Vec::new());
        self.queue.push_back((state, (book, earlier, spent), place));
        place
    }

    fn visit(&mut self, state: &State, (book, earlier, spent): Known, place: usize) {
        let card = facts(state).unwrap();
        safety(state, &card);
        let mut acted = false;
        for (said, command, values) in deeds(&self.world, state, &card) {
            if !self.bound.takes(&card, said, spent) {
                continue;
            }
            let pairs: Vec<_> = values.iter().map(|(k, v)| (*k, v.as_str())).collect();
            let now = match said {
                Said::Time => due(state).map_or(0, |due| due - at(0).boot_ms),
                Said::Slept { long } => {
                    if long {
                        900_000
                    } else {
                        20_000
                    }
                }
                Said::Tapped(_) | Said::ReadRight | Said::ReadOther | Said::Picked => 0,
            };
            let Ok(next) = send(state, command, &pairs, at(now)) else { continue };
            self.answers += 1;
            let Some(came) = facts(&next) else {
                assert!(!book.is_off() || ended_safe(&card), "ended without a box: {card:?} {said:?}");
                the_other_wire_is_owed(&next, book);
                self.ends.insert(place);
                acted = true;
                continue;
            };
            if came == card && before(&next) == before(state) && asked(&next) == asked(state) {
                continue;
            }
            acted |= !matches!(said, Said::Slept { .. } | Said::Time);
            let after = book.turned(earlier, &card, said, &came);
            judge(&card, book, said, &came, after, self.tops(state));
            typed_twice(&card, book, said, &came);
            let deviates = matches!(said, Said::Slept { .. } | Said::Tapped(Answer::Slip));
            // Any number is not counted.
            let counts = deviates && self.bound.most < u8::MAX;
            let spent = spent + u8::from(counts);
            let to = self.enter(next, (after, kept(book, earlier, (&card, &came), said), spent));
            self.ways[place].push(to);
        }
        assert!(acted, "a card without a way on: {card:?}");
    }

    /// The highest OUTPUT position of both boxes.
    fn tops(&self, state: &State) -> (u8, u8) {
        let top = |id| state.generator(id).unwrap().output_last();
        (top(self.world.old), top(self.world.new))
    }

    /// Backward from the ends.
    fn without_end(&self) -> usize {
        let mut back = vec![Vec::new(); self.ways.len()];
        for (from, tos) in self.ways.iter().enumerate() {
            tos.iter().for_each(|to| back[*to].push(from));
        }
        let mut reached = self.ends.clone();
        let mut queue: Vec<usize> = self.ends.iter().copied().collect();
        while let Some(place) = queue.pop() {
            for from in &back[place] {
                if reached.insert(*from) {
                    queue.push(*from);
                }
            }
        }
        self.ways.len() - reached.len()
    }
}

pub fn asked(state: &State) -> Option<Dials> {
    state.wire(BED, WIRE)?.asked_again
}

/// Nothing is known of the old box: its reading is taken once it is the second in a row.
fn typed_twice(card: &Facts, book: Book, said: Said, came: &Facts) {
    if card.step != Step::ReadOld || !matches!(said, Said::ReadRight | Said::ReadOther) {
        return;
    }
    assert_eq!(came.step == Step::ReadOld, book.typed != Some(said), "{said:?} on {card:?}\n{book:?}");
}

/// What a slip goes back to: a slip and a break use it up; a side card and time keep it.
fn kept(book: Book, earlier: Option<Book>, (card, came): (&Facts, &Facts), said: Said) -> Option<Book> {
    match said {
        Said::Slept { .. } | Said::Tapped(Answer::Slip) => None,
        Said::Time | Said::Tapped(Answer::Wrong) => earlier,
        Said::Tapped(Answer::Back) if card.step == Step::Wrong => earlier,
        _ if came == card => earlier,
        _ => Some(book),
    }
}

const PLAIN: Bound = Bound { slips: false, sleeps: false, most: 0, shared: false };
const SHARED: Bound = Bound { shared: true, ..PLAIN };
const SLIPS: Bound = Bound { slips: true, most: 1, ..PLAIN };
const SLEEPS: Bound = Bound { sleeps: true, most: 1, ..PLAIN };

fn walk(worlds: &[(World, Bound)]) -> HashSet<Step> {
    let mut steps = HashSet::new();
    for (world, bound) in worlds {
        let walk = Walk::over(*world, *bound);
        println!("{world:?} {bound:?}: {} states, {} answers taken", walk.ways.len(), walk.answers);
        assert_eq!(walk.without_end(), 0, "states from which a swap cannot end");
        steps.extend(walk.steps);
    }
    steps
}

#[test]
fn no_way_without_end_nothing_unplugged_without_standby_the_first_act_always() {
    let [same_unit, _, to_volts, refused, battery, _] = WORLDS;
    let worlds = [
        (same_unit, SLIPS),
        (same_unit, SLEEPS),
        (to_volts, PLAIN),
        (refused, PLAIN),
        (battery, PLAIN),
        (same_unit.of_two(), SHARED),
        (battery.of_two(), SHARED),
        // That wire is not on this tablet.
        (same_unit, SHARED),
        (battery, SHARED),
    ];
    let steps = walk(&worlds);
    // What has ended has no card.
    let cards = Step::ALL.iter().filter(|step| **step != Step::Ended);
    let unmet: Vec<_> = cards.filter(|step| !steps.contains(step)).collect();
    assert!(unmet.is_empty(), "no state of {unmet:?}");
}

#[test]
#[ignore = "minutes: make prove"]
fn every_world_with_slips_and_with_sleeps() {
    let any = |bound: Bound| Bound { most: u8::MAX, ..bound };
    let [same_unit, .., battery, _] = WORLDS;
    let alone = WORLDS.map(|world| (world, PLAIN));
    let of_two = [same_unit, battery].map(|world| (world.of_two(), SHARED));
    let wide = alone.into_iter().chain(of_two).flat_map(|(world, Bound { shared, .. })| {
        [SLIPS, SLEEPS].map(|bound| (world, any(Bound { shared, ..bound })))
    });
    walk(&wide.collect::<Vec<_>>());
}
