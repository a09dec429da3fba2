//! From every state of the walk the end of the check can be reached: backward from the ends over every step.

use std::collections::HashSet;

use domain::check::facts::Dials;
use domain::check::step::Step;
use domain::rules::Rules;

use super::alphabet::Bound;
use super::fingerprint::Seen;
use super::jobs::told;
use super::node::Node;
use super::search::{Edges, Walk};
use super::world::{World, tiny};

/// States that were left by some answer, and those of them from which no end can be reached.
fn without_an_end(mut edges: Edges) -> (usize, usize) {
    edges.steps.sort_unstable_by_key(|(_, to)| *to);
    let mut ending: Seen = edges.ends.iter().copied().collect();
    let mut open: Vec<u64> = ending.iter().copied().collect();
    while let Some(state) = open.pop() {
        let first = edges.steps.partition_point(|(_, to)| *to < state);
        for (from, _) in edges.steps[first..].iter().take_while(|(_, to)| *to == state) {
            if ending.insert(*from) {
                open.push(*from);
            }
        }
    }
    let all: HashSet<u64> = edges.steps.iter().flat_map(|(from, to)| [*from, *to]).collect();
    (all.len(), all.difference(&ending.into_iter().collect()).count())
}

fn every_state_can_end(found: Dials, bound: Bound) {
    let rules = Rules::example();
    let world = World { found: vec![found], ..tiny(&["50", "90"], &["0.5", "3", "12"], rules) };
    let mut walk = Walk::new(&world, bound, usize::MAX);
    walk.edges = Some(Edges::default());
    walk.run(Node::first(Step::SamePatient)).unwrap_or_else(|found| panic!("{}", told(&world, &found)));
    let (states, stuck) = without_an_end(walk.edges.unwrap());
    println!("{found:?}: {states} states, from {stuck} of them no end");
    assert!(stuck == 0 && states > 10_000);
}

const IN_THE_MIDDLE: Dials = Dials { output: 1, rate: 1, mv: 1 };

#[test]
fn the_end_can_be_reached_from_every_state() {
    every_state_can_end(IN_THE_MIDDLE, Bound { deviations: 0, troubles: Some(1) });
}

#[test]
#[ignore = "for make prove: some gigabytes"]
fn the_end_can_be_reached_from_every_state_after_any_trouble() {
    every_state_can_end(IN_THE_MIDDLE, Bound { deviations: 0, troubles: None });
    every_state_can_end(IN_THE_MIDDLE, Bound { deviations: 1, troubles: Some(1) });
}

/// The backward search itself: two states end, a third and a fourth only lead to each other.
#[test]
fn a_state_without_an_end_is_found() {
    let edges = Edges { steps: vec![(1, 2), (2, 9), (1, 3), (3, 4), (4, 3)], ends: vec![9] };
    assert_eq!(without_an_end(edges), (5, 2));
}
