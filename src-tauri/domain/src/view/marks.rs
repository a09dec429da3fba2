//! What stands on every screen about whose rules these are.

#![allow(clippy::wildcard_enum_match_arm, reason = "only a few screens stand on rules of their own")]

use crate::check::step::Stage;
use crate::moment::Moment;
use crate::rules::Rules;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::Wire;
use crate::state::screen::Screen;

/// On every screen: local rules come first, whether these rules and this generator are anybody's, and
/// where a check may begin, that their review is overdue.
pub fn marks(state: &State, now: Moment) -> Vec<Say> {
    if is_practice(state) {
        return vec![Say::MarkPractice];
    }
    let shown = shown_with(state);
    let first = match shown {
        Shown { example_rules: true, .. } => Say::MarkExampleRules,
        Shown { example_generator: true, .. } => Say::MarkExampleGenerator,
        Shown { .. } => Say::CautionLocalRules,
    };
    let overdue = shown.rules.review_passed(now).filter(|_| shown.may_begin);
    let overdue = overdue.map(|review| Say::MarkReviewPassed { review: review.to_string() });
    let practice = super::teaching::is_of_practice(state).then_some(Say::MarkPractice);
    practice.into_iter().chain([first]).chain(overdue).collect()
}

/// No patient stands behind this screen; its rules are examples, and it says so by being practice.
fn is_practice(state: &State) -> bool {
    matches!(
        state.screen,
        Screen::Practice
            | Screen::PracticeBegin { .. }
            | Screen::Practising
            | Screen::PracticeFound
            | Screen::PracticeRead
            | Screen::PracticeRuns
            | Screen::PracticeResult { .. }
            | Screen::PracticeActs { .. }
            | Screen::LookAgain { .. }
    )
}

/// The rules and generator behind what is on the screen.
struct Shown<'a> {
    rules: &'a Rules,
    example_rules: bool,
    example_generator: bool,
    may_begin: bool,
}

fn shown_with(state: &State) -> Shown<'_> {
    let profile = |wire: &Wire| state.generator(&wire.generator).is_some_and(|profile| profile.example);
    let (rules, example_rules, example_generator) = match state.screen {
        Screen::Check { .. } => match state.check_on_screen() {
            Some((_, _, wire, open)) => (&*open.rules, open.rules.example, profile(wire)),
            None => (&state.rules, state.rules.example, false),
        },
        Screen::Result { bed, wire, back } => {
            let wire = state.wire(bed, wire);
            let record = wire.and_then(|wire| wire.records.iter().rev().nth(back as usize));
            let example = record.map_or(state.rules.example, |record| record.example_rules);
            (&state.rules, example, wire.is_some_and(profile))
        }
        Screen::Swap { bed, wire } => {
            let this = state.wire(bed, wire);
            let new = this.and_then(|wire| state.generator(wire.swap.as_ref()?.new.as_deref()?));
            let example = this.is_some_and(profile) || new.is_some_and(|profile| profile.example);
            (&state.rules, state.rules.example, example)
        }
        Screen::Transport { bed } => {
            let example = state.bed(bed).is_some_and(|bed| bed.wires.iter().any(profile));
            (&state.rules, state.rules.example, example)
        }
        Screen::Code { bed, wire } | Screen::CodeCopy { bed, wire } => {
            let wire = state.wire(bed, wire);
            let record = wire.and_then(|wire| wire.records.last());
            let example = record.map_or(state.rules.example, |record| record.example_rules);
            (&state.rules, example, wire.is_some_and(profile))
        }
        Screen::Compare { bed, wire } | Screen::Compared { bed, wire } => {
            let wire = state.wire(bed, wire);
            let arrival = wire.and_then(|wire| wire.arrival.as_ref());
            let example = arrival.is_some_and(|arrival| arrival.newest.example_rules);
            (&state.rules, example || state.rules.example, wire.is_some_and(profile))
        }
        _ => (&state.rules, state.rules.example, false),
    };
    Shown { rules, example_rules, example_generator, may_begin: may_begin(state) }
}

/// The bed list, a bed, and the first stage of a check.
fn may_begin(state: &State) -> bool {
    let ready = |stage: Option<Stage>| stage == Some(Stage::Ready);
    match state.screen {
        Screen::Beds | Screen::MoreBeds { .. } | Screen::Bed { .. } => true,
        _ => state.check_on_screen().is_some_and(|(_, _, _, open)| ready(open.facts.step.stage())),
    }
}
