//! Whole dials, stage by stage. Within a stage every state is walked. From one stage to the next goes one check
//! of each *summary* that the stage can leave: all facts and the whole book, but of the dials that are behind
//! it (the number after sensing, OUTPUT after the search for capture) only in which order their places lie.

use std::collections::BTreeSet;

use domain::check::facts::{ASYNCHRONOUS, Dial, NONE};
use domain::check::setup::Setup;
use domain::check::step::Stage;
use domain::check::{restore, target};

use super::fingerprint::{Seen, of};
use super::ledger::under;
use super::node::Node;

const GROUPS: usize = 5;
const CAPTURE: usize = 3;
/// Set, read, confirm, done, and everything that is no stage.
const END: usize = 4;

fn group(node: &Node) -> usize {
    match under(&node.facts).stage() {
        Some(Stage::Ready) => 0,
        Some(Stage::OwnRhythm) => 1,
        Some(Stage::Sensing) => 2,
        Some(Stage::Capture) => CAPTURE,
        Some(Stage::Set | Stage::Read | Stage::Confirm | Stage::Done) | None => END,
    }
}

/// Checks that wait at the beginning of a stage.
#[derive(Default)]
pub struct Gates {
    waiting: [Vec<(u64, Node)>; GROUPS],
    summaries: Seen,
    /// Checks that came to a gate, and those that were let through.
    pub came: usize,
    pub through: usize,
}

impl Gates {
    /// Forgets everything, for a walk from the beginning.
    pub fn clear(&mut self) {
        *self = Gates::default();
    }

    /// Whether the step leads into another stage; then the check waits there, or its like has been before.
    pub fn takes(&mut self, setup: &Setup<'_>, from: &Node, key: u64, node: &Node) -> bool {
        let stage = group(node);
        if group(from) == stage {
            return false;
        }
        self.came += 1;
        if self.summaries.insert(summary(setup, node, stage)) {
            self.through += 1;
            self.waiting[stage].push((key, *node));
        }
        true
    }

    /// All that wait at the first stage at which any wait.
    pub fn open(&mut self) -> Vec<(u64, Node)> {
        self.waiting.iter_mut().find(|waiting| !waiting.is_empty()).map(std::mem::take).unwrap_or_default()
    }
}

fn summary(setup: &Setup<'_>, node: &Node, stage: usize) -> u64 {
    let mut left = *node;
    let kept = restore::by_evidence(setup, &node.facts);
    let planned = target::plan(setup, &node.facts);
    let mut references = [[NONE; 4]; 2];
    if stage >= CAPTURE {
        let with = [kept.mv, planned.mv, 0, setup.profile.mv_last()];
        references[0] = in_order(&mut numbers(&mut left), with);
    }
    if stage == END {
        let with = [kept.output, planned.output, 0, setup.profile.output_last()];
        references[1] = in_order(&mut outputs(&mut left), with);
    }
    of(&(stage, left.key(), references))
}

/// Puts each place's rank in its stead, among these places and the ones that go with them; the ranks of those.
fn in_order(places: &mut [&mut u8], with: [u8; 4]) -> [u8; 4] {
    let ranks: BTreeSet<u8> = places.iter().map(|place| **place).chain(with).filter(is_a_place).collect();
    let rank = |place: u8| match is_a_place(&place) {
        true => u8::try_from(ranks.range(..place).count()).unwrap(),
        false => place,
    };
    places.iter_mut().for_each(|place| **place = rank(**place));
    with.map(rank)
}

fn is_a_place(place: &u8) -> bool {
    !matches!(*place, NONE | ASYNCHRONOUS)
}

/// Everything that says a place of the mV dial.
fn numbers(node: &mut Node) -> Vec<&mut u8> {
    let (facts, book) = (&mut node.facts, &mut node.book);
    let asked = (facts.dial == Dial::Mv).then_some(&mut facts.to);
    let mut places = vec![
        &mut facts.found.mv,
        &mut facts.back_to.mv,
        &mut facts.stand.mv,
        &mut facts.fallback_mv,
        &mut facts.saw,
        &mut facts.missed,
        &mut facts.sensing_at,
        &mut book.last[2],
    ];
    places.extend(asked);
    places.extend(book.found.as_mut().map(|found| &mut found.mv));
    places.extend(book.at[2].as_mut());
    places.extend(book.evidence.missed.as_mut());
    places.extend(book.evidence.saw.as_mut());
    places.extend(book.fallback.as_mut());
    places
}

/// Everything that says a place of OUTPUT.
fn outputs(node: &mut Node) -> Vec<&mut u8> {
    let (facts, book) = (&mut node.facts, &mut node.book);
    let asked = (facts.dial == Dial::Output).then_some(&mut facts.to);
    let mut places = vec![
        &mut facts.found.output,
        &mut facts.back_to.output,
        &mut facts.stand.output,
        &mut facts.emergency_output,
        &mut facts.proved,
        &mut facts.lost,
        &mut facts.capture_at,
        &mut facts.capture_low,
        &mut book.last[0],
    ];
    places.extend(asked);
    places.extend(book.found.as_mut().map(|found| &mut found.output));
    places.extend(book.at[0].as_mut());
    places.extend(book.evidence.bad.as_mut());
    places.extend(book.evidence.good.as_mut());
    places.extend(book.emergency_output.as_mut());
    places
}
