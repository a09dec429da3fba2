//! What "Stop, restore" would set now, and in which order.

use super::facts::{ASYNCHRONOUS, Asynchronous, Dial, Dials, Facts, Found, Known, Marks, NONE, Row};
use super::guard::Guard;
use super::reading;
use super::setup::Setup;
use super::side::{below, read_anew};
use super::step::Step;
use super::target::{output_by_rule, plan};
use super::turn::ask;
use crate::plan::{mv_half_down, mv_rule_position};
use crate::profile::Position;

/// The restore settings by evidence; the plan as far as it has been turned.
pub fn target(setup: &Setup<'_>, facts: &Facts) -> Dials {
    let kept = by_evidence(setup, facts);
    let planned = plan(setup, facts);
    match facts.set {
        0 => Dials { output: kept.output.max(measured(setup, facts)), ..kept },
        1 => Dials { output: raised(facts, planned.output), ..kept },
        2 => Dials { output: raised(facts, planned.output), rate: planned.rate, ..kept },
        3 => Dials { output: raised(facts, planned.output), ..planned },
        _ => kept,
    }
}

/// A threshold measured in this check: OUTPUT is not turned back below the rule on it.
fn measured(setup: &Setup<'_>, facts: &Facts) -> Position {
    if output_by_rule(setup, facts).is_some() { plan(setup, facts).output } else { 0 }
}

/// What an emergency has raised since is not turned down to the plan.
fn raised(facts: &Facts, planned: Position) -> Position {
    if facts.emergency_output == NONE { planned } else { planned.max(facts.emergency_output) }
}

/// Restore without regard to how far the plan was turned.
pub fn by_evidence(setup: &Setup<'_>, facts: &Facts) -> Dials {
    Dials {
        output: output(setup, facts),
        rate: if facts.emergency_rate == NONE { facts.back_to.rate } else { facts.emergency_rate },
        mv: number(setup, facts),
    }
}

/// The highest of found, the lowest position proved to capture, and the last emergency setting. One shown
/// not to capture is no way back; then the maximum is.
fn output(setup: &Setup<'_>, facts: &Facts) -> Position {
    let by_evidence = setup.guards.on(Guard::RestoreOutputByEvidence);
    let fails = |position: &Position| by_evidence && facts.lost != NONE && *position <= facts.lost;
    let found_fails = by_evidence && facts.found_captures == Known::No;
    let found = if found_fails { NONE } else { facts.back_to.output };
    [found, facts.proved, facts.emergency_output]
        .into_iter()
        .filter(|position| *position != NONE && !fails(position))
        .max()
        .unwrap_or(setup.maximum())
}

/// Found if it saw every own beat or own beats were never seen; else by what was seen.
fn number(setup: &Setup<'_>, facts: &Facts) -> Position {
    match facts.asynchronous {
        Asynchronous::OrderedToday | Asynchronous::SetForPauses => return ASYNCHRONOUS,
        Asynchronous::SetInEmergency => return setup.blindest(),
        Asynchronous::No => {}
    }
    let by_sight = setup.guards.on(Guard::RestoreNumberByEvidence);
    let found_is_a_number = facts.back_to.mv != ASYNCHRONOUS;
    if found_is_a_number && (facts.found_sees != Known::No || !by_sight) {
        return facts.back_to.mv;
    }
    if !found_is_a_number && facts.fallback_mv == NONE {
        return ASYNCHRONOUS;
    }
    rule_position(setup, facts)
        .or(known(facts.saw))
        .or(unmissed(facts, facts.fallback_mv))
        .or(unmissed(facts, setup.starting_mv()))
        .unwrap_or_else(|| below_missed(setup, facts))
}

/// Below what missed, as far as the unit goes; where the lowest that missed is lower still, that. A number that
/// asynchronous was left for is halved: every spike may fall on a T wave until one sees.
fn below_missed(setup: &Setup<'_>, facts: &Facts) -> Position {
    let lower = if facts.back_to.mv == ASYNCHRONOUS {
        mv_half_down(setup.profile, facts.missed)
    } else {
        facts.missed.saturating_sub(1)
    };
    lower.max(setup.lowest_mv()).min(facts.missed)
}

fn known(position: Position) -> Option<Position> {
    (position != NONE).then_some(position)
}

fn unmissed(facts: &Facts, position: Position) -> Option<Position> {
    let seen_to_miss = facts.missed != NONE && position >= facts.missed;
    known(position).filter(|_| !seen_to_miss)
}

/// The unit's rule on the sensing threshold of this check.
pub fn rule_position(setup: &Setup<'_>, facts: &Facts) -> Option<Position> {
    let measured = matches!(facts.sensing, Found::Exact | Found::AtLeast);
    measured.then(|| mv_rule_position(setup.profile, setup.rules, setup.chamber, facts.sensing_at)).flatten()
}

/// The row of the table for the card a person stops on.
pub fn row(setup: &Setup<'_>, facts: &Facts) -> Row {
    use Step::*;
    let on = below(*facts).step;
    let step = if on == AwayRead { below(*facts).from } else { on };
    if !facts.touched && facts.now() == target(setup, facts) {
        return Row::NothingTurned;
    }
    match step {
        BlindRateUp | BlindMvDown => Row::Blind,
        OwnDown | FirstOwn | OwnHold | OwnRate | OwnBack if is_blind(facts) => Row::Blind,
        OwnDown | FirstOwn | OwnHold | OwnRate | OwnBack => Row::OwnRhythm,
        SenseRate if facts.lowest_output() >= target(setup, facts).output => Row::SensingOutputUp,
        SenseRate | SenseMinimum | SenseUp | SenseDown | SenseMvOut | SenseOutputOut => Row::SensingMinimum,
        CaptureRate | CaptureDown | CaptureBack | CaptureUp | CaptureCount | CaptureRestore | CaptureOut
        | CaptureMaximum | CaptureRateDown => capture_row(setup, facts),
        MarginAsk | MarginOne | MarginHalf | MarginBack => Row::Margin,
        FirstMaximum | FirstConnections => Row::FirstLookMaximum,
        NoBeats | NoSpikes | Emergency | Arrest => Row::AfterNoBeats,
        AfterShock => Row::AfterShock,
        Restore => facts.row,
        SamePatient | Order | Accept | ListFirst | ListSecond | PulseTrace | Standby | RightWire
        | WhichLine | Blocked | ReadFound | FirstLook | Atrium | AsynchronousOrdered | AsynchronousOff
        | AsynchronousOn | SetOutput | SetRate | SetMv | Stays | ReadBack | Differs | ReadLower | Reason
        | Confirm | Guarded | Done | ReadAfter | AwayRead | Ended | Wrong | WrongMore | Elsewhere | Slip
        | Away => Row::Set,
    }
}

fn capture_row(setup: &Setup<'_>, facts: &Facts) -> Row {
    if facts.spike_lost {
        Row::CaptureAfterLoss
    } else if facts.own_faster_than(setup.profile.rate_at(facts.back_to.rate)) {
        Row::CaptureOwnFaster
    } else {
        Row::CaptureFoundFaster
    }
}

/// The order of the row. Dials the row does not name come last.
pub fn order(row: Row) -> [Dial; 3] {
    use Dial::{Mv, Output, Rate};
    match row {
        Row::NothingTurned | Row::OwnRhythm | Row::Blind | Row::SensingOutputUp => [Rate, Mv, Output],
        Row::SensingMinimum => [Mv, Output, Rate],
        Row::AfterNoBeats | Row::AfterShock => [Output, Mv, Rate],
        Row::CaptureOwnFaster => [Rate, Output, Mv],
        Row::CaptureFoundFaster | Row::CaptureAfterLoss | Row::Margin | Row::Set | Row::FirstLookMaximum => {
            [Output, Rate, Mv]
        }
    }
}

/// One line of the restore card.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Line {
    pub dial: Dial,
    pub to: Position,
}

/// The dials that differ, or may differ, from restore, in the order to turn them.
pub fn lines(setup: &Setup<'_>, facts: &Facts, row: Row) -> Vec<Line> {
    let wanted = wanted(setup, facts, row);
    in_order(setup, facts, row, wanted)
        .into_iter()
        .map(|dial| Line { dial, to: wanted.at(dial) })
        .filter(|line| facts.may_differ(line.dial, line.to))
        .collect()
}

/// Where the three dials are to stand once the card's list is done. What a reading has shown is not undone on the
/// word of an earlier one.
pub fn wanted(setup: &Setup<'_>, facts: &Facts, row: Row) -> Dials {
    let target = reading::kept(setup, facts, target(setup, facts));
    safe_rate(setup, facts, row, target)
}

/// As [`wanted`], without regard to where the dials were read to stand: what a reading is set beside.
pub fn meant(setup: &Setup<'_>, facts: &Facts, row: Row) -> Dials {
    safe_rate(setup, facts, row, target(setup, facts))
}

/// Blind or asynchronous, RATE is not lowered; but where no RATE rose above the own beats.
fn safe_rate(setup: &Setup<'_>, facts: &Facts, row: Row, target: Dials) -> Dials {
    let mut wanted = target;
    if row == Row::Blind && is_blind(facts) && !facts.marks.has(Marks::NOT_PACED_OVER) {
        wanted.rate = wanted.rate.max(blind_rate(setup, facts)).max(facts.current(Dial::Rate));
    }
    let rate_known = !facts.in_doubt(Dial::Rate);
    if wanted.mv == ASYNCHRONOUS && rate_known && setup.guards.on(Guard::RateKeptWhileAsynchronous) {
        wanted.rate = wanted.rate.max(facts.current(Dial::Rate));
    }
    wanted
}

/// The row's order, but for two cases. Out of asynchronous the number comes before RATE is lowered. Where no
/// spike has failed, a number that stands too high comes before OUTPUT goes up: own beats may be there, unseen.
pub fn in_order(setup: &Setup<'_>, facts: &Facts, row: Row, wanted: Dials) -> [Dial; 3] {
    let in_doubt = facts.in_doubt(Dial::Mv) && !facts.in_doubt(Dial::Output);
    let too_high = in_doubt || facts.highest_number() > wanted.mv;
    let raises = facts.lowest_output() < wanted.output;
    let none_failed = matches!(row, Row::Set | Row::CaptureOwnFaster | Row::CaptureFoundFaster);
    if none_failed && too_high && raises && setup.guards.on(Guard::NumberDownBeforeOutputUp) {
        return order(Row::SensingMinimum);
    }
    let lowers = facts.in_doubt(Dial::Rate) || facts.current(Dial::Rate) > wanted.rate;
    let in_doubt = facts.in_doubt(Dial::Mv) && facts.doubt.maybe_asynchronous();
    let asynchronous = (in_doubt && setup.has_asynchronous()) || facts.stands_asynchronous();
    if lowers
        && asynchronous
        && wanted.mv != ASYNCHRONOUS
        && setup.guards.on(Guard::RateKeptWhileAsynchronous)
    {
        return number_before_rate(order(row));
    }
    order(row)
}

fn number_before_rate(order: [Dial; 3]) -> [Dial; 3] {
    match order {
        [Dial::Output, ..] => [Dial::Output, Dial::Mv, Dial::Rate],
        [Dial::Rate, ..] => [Dial::Mv, Dial::Rate, Dial::Output],
        [Dial::Mv, ..] => order,
    }
}

/// A number did not see, and nothing says that the present one does.
#[inline]
pub fn is_blind(facts: &Facts) -> bool {
    let sees = !facts.in_doubt(Dial::Mv) && facts.saw != NONE && facts.current(Dial::Mv) <= facts.saw;
    facts.missed != NONE && !sees
}

/// Above own beats that the number does not see, as far as that goes.
pub fn blind_rate(setup: &Setup<'_>, facts: &Facts) -> Position {
    if facts.marks.has(Marks::NOT_PACED_OVER) {
        return 0;
    }
    rate_above_own(setup, facts).unwrap_or(0)
}

/// The rate at which the own beats no longer show: found if every beat was paced there, else a step up, or the highest
/// test rate if that is above them still. `None`: they are too fast to be paced over.
pub fn rate_above_own(setup: &Setup<'_>, facts: &Facts) -> Option<Position> {
    use super::facts::FirstLook;
    let found = setup.profile.rate_at(facts.back_to.rate);
    if facts.first_look == FirstLook::EveryBeatPaced && !facts.own_faster_than(found) {
        return Some(facts.back_to.rate);
    }
    let own = i32::from(facts.own_fastest).max(i32::from(found));
    let a_step_up = setup.profile.rate_at_or_above(own + i32::from(setup.rules.own_step));
    let highest = setup.profile.rate_at_or_below(i32::from(setup.rules.highest_test_rate));
    a_step_up
        .filter(|rate| setup.is_test_rate(*rate))
        .or(highest.filter(|rate| i32::from(setup.profile.rate_at(*rate)) > own))
}

/// Something breaks in on this card: what it may have had turned is in doubt from now on.
pub fn broken_off(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.broken_off();
    if below(facts).step == Step::Restore {
        for line in lines(setup, &facts, facts.row) {
            next.doubt = next.doubt.and(line.dial);
            next.turned = next.turned.and(line.dial);
            next.touched = true;
            if line.dial == Dial::Rate {
                next.stand.rate = next.stand.rate.max(line.to);
            }
        }
    }
    next
}

/// Opens the restore card for where the check stands. On that card it is open already, half done perhaps.
/// After trouble there is nothing to go back to: the dials are read as they stand.
pub fn open(setup: &Setup<'_>, facts: Facts) -> Facts {
    if below(facts).step == Step::Restore {
        return below(facts);
    }
    if read_anew(&facts) {
        return ask(facts, Step::ReadAfter);
    }
    let row = row(setup, &facts);
    open_row(broken_off(setup, facts), row)
}

pub fn open_row(facts: Facts, row: Row) -> Facts {
    Facts { row, ..ask(facts, Step::Restore) }
}
