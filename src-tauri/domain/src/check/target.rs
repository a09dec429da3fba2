//! The plan: what the dials are to be set to, from what this check found.

use super::facts::{ASYNCHRONOUS, Dials, Facts, Found, Marks, NONE};
use super::guard::Guard;
use super::restore::by_evidence;
use super::setup::Setup;
use crate::plan::{MvPlan, OutputPlan, mv_plan, output_plan};
use crate::profile::Position;

/// Where each dial is to stand at the end of the check.
pub fn plan(setup: &Setup<'_>, facts: &Facts) -> Dials {
    let restore = by_evidence(setup, facts);
    Dials { output: output(setup, facts, restore), rate: restore.rate, mv: number(setup, facts, restore) }
}

/// What the unit's rule makes of the capture threshold; `None` when capture was not tested.
pub fn output_by_rule(setup: &Setup<'_>, facts: &Facts) -> Option<OutputPlan> {
    let measured = matches!(facts.capture, Found::Exact | Found::AtMost | Found::Bracket);
    measured.then(|| output_plan(setup.profile, setup.rules, facts.capture_at))
}

/// What the unit's rule makes of the sensing threshold; `None` when there is none, or asynchronous stays.
pub fn number_by_rule(setup: &Setup<'_>, facts: &Facts) -> Option<MvPlan> {
    let measured = matches!(facts.sensing, Found::Exact | Found::AtLeast);
    let present = by_evidence(setup, facts).mv;
    (measured && present != ASYNCHRONOUS).then(|| number_plan(setup, facts, present))
}

fn number_plan(setup: &Setup<'_>, facts: &Facts, present: Position) -> MvPlan {
    let saw = facts.saw != NONE && present <= facts.saw;
    mv_plan(setup.profile, setup.rules, setup.chamber, facts.sensing_at, present, saw)
}

fn output(setup: &Setup<'_>, facts: &Facts, restore: Dials) -> Position {
    if !setup.guards.on(Guard::PlanByRule) && facts.capture_at != NONE {
        return facts.capture_at;
    }
    let planned = match output_by_rule(setup, facts) {
        None | Some(OutputPlan::OtherUnit) => return restore.output,
        Some(OutputPlan::At { position, .. }) => position,
        Some(OutputPlan::Maximum) => setup.maximum(),
    };
    if facts.no_beats { planned.max(restore.output) } else { planned }
}

fn number(setup: &Setup<'_>, facts: &Facts, restore: Dials) -> Position {
    if facts.marks.has(Marks::PAUSES) {
        return restore.mv;
    }
    match number_by_rule(setup, facts) {
        Some(MvPlan::Down { to }) => to,
        Some(MvPlan::Stays | MvPlan::Refused | MvPlan::BelowLowest) | None => restore.mv,
    }
}
