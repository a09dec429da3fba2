//! Which positions were tried and held. The facts keep the outermost; those between follow from the strides.

use std::iter::successors;

use crate::check::facts::{ASYNCHRONOUS, Dial, Facts, NONE};
use crate::check::setup::Setup;
use crate::plan::{mv_stride_up, output_stride_down};
use crate::profile::Position;

pub fn tried(setup: &Setup<'_>, facts: &Facts) -> Vec<Position> {
    match facts.dial {
        Dial::Output => captured(setup, facts),
        Dial::Mv => seen(setup, facts),
        Dial::Rate => Vec::new(),
    }
}

/// Down by strides from restore, then by single positions to the lowest that captured.
fn captured(setup: &Setup<'_>, facts: &Facts) -> Vec<Position> {
    let lowest = facts.proved;
    if lowest == NONE {
        return Vec::new();
    }
    let above = |at: &Position| *at != NONE && *at >= lowest;
    let down = |at: &Position| output_stride_down(setup.profile, setup.rules, *at).filter(above);
    let strides: Vec<Position> = successors(Some(facts.back_to.output).filter(above), down).collect();
    let singles = lowest..*strides.last().unwrap_or(&(lowest + 1));
    strides.into_iter().chain(singles).collect()
}

/// Up by strides from the number the search began at, and the highest that saw every beat.
fn seen(setup: &Setup<'_>, facts: &Facts) -> Vec<Position> {
    let highest = facts.saw;
    if highest == NONE {
        return Vec::new();
    }
    let began = if facts.fallback_mv == NONE { facts.back_to.mv } else { facts.fallback_mv };
    let below = |at: &Position| *at != ASYNCHRONOUS && *at != NONE && *at <= highest;
    let up = |at: &Position| mv_stride_up(setup.profile, setup.rules, *at).filter(below);
    let mut strides: Vec<Position> = successors(Some(began).filter(below), up).collect();
    if strides.last() != Some(&highest) {
        strides.push(highest);
    }
    strides
}
