//! The end of a check: its record, flags and the time of the next one, as results.

mod climb;
mod due;
mod flags;

pub use climb::{Climb, climb, trend};
pub use due::due_now;

use crate::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Found, NONE};
use crate::check::restore::rule_position;
use crate::check::setup::Setup;
use crate::flags::Flag;
use crate::moment::Moment;
use crate::plan::{multiple_text, rule_positions};
use crate::profile::{Position, Profile};
use crate::record::{Printed, Record};
use crate::state::State;
use crate::state::bed::{Names, OpenCheck, Origin, Wire};

/// Everything the check found and left. `None` when the wire's generator is not known.
pub fn record(
    state: &State,
    wire: &Wire,
    open: &OpenCheck,
    facts: &Facts,
    names: &Names,
    now: Moment,
) -> Option<Record> {
    let profile = state.generator(&wire.generator)?;
    let setup = crate::decide::setup(&open.rules, wire, profile);
    let mut record = results(&setup, open, facts, now);
    record.names = names.clone();
    record.read = !names.not_read;
    let history = wire.alike();
    record.flags = flags::flags(&setup, &record, facts, history);
    record.flags.extend(Flag::of_clock(open.clock_jump_ms));
    record.due_ms = due::due_ms(&setup, &record, history);
    Some(record)
}

fn results(setup: &Setup<'_>, open: &OpenCheck, facts: &Facts, now: Moment) -> Record {
    let profile = setup.profile;
    let stays_at = facts.now();
    let captured = known(facts.capture_at).filter(|_| facts.capture != Found::Nothing);
    let sensed = known(facts.sensing_at).filter(|_| facts.sensing != Found::Nothing);
    let output_text = |at: Position| profile.output_text(at).to_owned();
    Record {
        id: open.id,
        opened: open.opened,
        ended: now,
        rules_id: setup.rules.id.clone(),
        rules_hash: open.rules_hash.clone(),
        example_rules: setup.rules.example,
        practice: open.origin == Origin::Practice,
        generator: profile.id.clone(),
        unit: profile.output_unit(),
        found: printed(profile, facts.found),
        stays: printed(profile, stays_at),
        stays_at,
        read: false,
        sensing: facts.sensing,
        sensing_uv: sensed.map(|at| profile.mv_at(at)),
        sensing_text: sensed.map(|at| profile.mv_text(at).to_owned()),
        why_sensing: facts.why_sensing,
        capture: facts.capture,
        capture_micro: captured.map(|at| profile.output_at(at)),
        capture_text: captured.map(output_text),
        capture_low_text: captured.and(known(facts.capture_low)).map(output_text),
        held_down_text: known(facts.held_down).map(output_text),
        why_capture: facts.why_capture,
        own: (facts.own_slowest > 0).then_some((facts.own_slowest, facts.own_fastest)),
        limit: setup.search_limit().map(|at| profile.rate_text(at).to_owned()).unwrap_or_default(),
        highest_test_rate: setup.rules.highest_test_rate,
        output_micro: profile.output_at(stays_at.output),
        mv_uv: (stays_at.mv != ASYNCHRONOUS).then(|| profile.mv_at(stays_at.mv)),
        multiple: captured.map(|at| multiple_text(profile, facts.current(Dial::Output), at)),
        found_multiple: captured.map(|at| multiple_text(profile, facts.found.output, at)),
        output_band: captured.and_then(|at| rule_positions(profile, setup.rules, at)),
        mv_band: mv_band(setup, facts),
        beats: setup.rules.beats_threshold,
        pulse_width_us: profile.pulse_width_us,
        flags: Vec::new(),
        names: Names::default(),
        due_ms: now.wall_ms,
        facts: *facts,
    }
}

fn known(position: Position) -> Option<Position> {
    (position != NONE).then_some(position)
}

fn printed(profile: &Profile, dials: Dials) -> Option<Printed> {
    (dials != Dials::UNREAD).then(|| Printed::of(profile, dials))
}

/// From the lowest number ever set to the rule on this check's signal.
fn mv_band(setup: &Setup<'_>, facts: &Facts) -> Option<(Position, Position)> {
    let high = rule_position(setup, facts)?;
    let lowest = u64::from(setup.rules.lowest_mv_uv(setup.chamber));
    let low = setup.profile.sensitivity.positions.at_or_above(lowest)?;
    (low <= high).then_some((low, high))
}
