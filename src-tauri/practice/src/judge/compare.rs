//! What was said to be found, beside the heart's own numbers.

use domain::check::facts::{ASYNCHRONOUS, Dial, Found};
use domain::practice::{Act, Agreement, Compared, Judged, Reason, Threshold, Verdict};
use domain::profile::Position;
use simulator::SpikeOutcome;

use super::marks::{Marked, own_beats};
use crate::seen::Seen;
use crate::truth;

pub fn capture(seen: &Seen<'_>) -> Compared {
    let said = seen.said.map_or(Threshold::NOT_TESTED, |(_, said)| said.capture);
    let (profile, heart) = (&seen.exercise.profile, seen.truth_at(measured_us(seen)));
    let truth = truth::lowest_at_or_above(profile, heart.going_up_micro);
    let untrue = truth::capture_is_untrue(said, &heart, profile);
    Compared { said, truth, agreement: agreement(said, truth, untrue, capture_was_tried(seen, said)) }
}

pub fn sensing(seen: &Seen<'_>) -> Compared {
    let said = seen.said.map_or(Threshold::NOT_TESTED, |(_, said)| said.sensing);
    let tried = sensing_was_tried(seen, said);
    let at = |at_us: u64| {
        let (profile, heart) = (&seen.exercise.profile, seen.truth_at(at_us));
        let truth = truth::highest_that_sees(profile, &heart);
        let untrue = truth::sensing_is_untrue(said, &heart, profile);
        Compared { said, truth, agreement: agreement(said, truth, untrue, tried) }
    };
    let Some((from_us, until_us)) = super::sensing::measured_us(seen) else { return at(measured_us(seen)) };
    // What was so at the beginning, or at the end, of the watch.
    let (first, last) = (at(from_us), at(until_us));
    if last.agreement == Agreement::Equal { last } else { first }
}

pub fn capture_found(seen: &Seen<'_>) -> Option<Judged> {
    found(seen, Act::CaptureFound, capture(seen), seen.exercise.measurable.capture)
}

pub fn sensing_found(seen: &Seen<'_>) -> Option<Judged> {
    found(seen, Act::SensingFound, sensing(seen), seen.exercise.measurable.sensing)
}

fn found(seen: &Seen<'_>, act: Act, compared: Compared, measurable: bool) -> Option<Judged> {
    let verdict = match compared.agreement {
        Agreement::Equal | Agreement::Contains => Verdict::Done,
        Agreement::NotTested if !measurable && compared.said.found == Found::Nothing => return None,
        Agreement::NotTested | Agreement::OffBy(_) | Agreement::Untrue => Verdict::Missed,
    };
    let judged = seen.judged(act, verdict, seen.said_us());
    let untested = compared.agreement == Agreement::NotTested;
    Some(if untested { judged.because(Reason::NotTested) } else { judged })
}

/// Any bracket wide enough holds the truth: it counts where OUTPUT was turned to both its ends. The lowest position is
/// the one that no test goes below. A single figure, which may be a guess, counts where it held and what lies below
/// was lost.
fn capture_was_tried(seen: &Seen<'_>, said: Threshold) -> bool {
    let stood = |at: Position| seen.stood_at(Dial::Output, at);
    match said.found {
        Found::Bracket => stood(said.low) && stood(said.at),
        Found::AtMost => stood(said.at),
        Found::Exact => held_at(seen, said.at) && lost_below(seen, said.at),
        Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => true,
    }
}

fn held_at(seen: &Seen<'_>, at: Position) -> bool {
    test_spikes(seen, SpikeOutcome::Captured).any(|us| seen.dials_at(us).output == at)
}

/// One position lower, or where OUTPUT was then turned up from.
fn lost_below(seen: &Seen<'_>, at: Position) -> bool {
    test_spikes(seen, SpikeOutcome::BelowThreshold).any(|us| {
        let lost = seen.dials_at(us).output;
        let next = seen.turns.iter().find(|turn| turn.dial == Dial::Output && turn.at_us > us);
        let up_from_there = next.is_some_and(|turn| turn.from == lost && turn.is_up() && turn.to == at);
        up_from_there || at.checked_sub(1) == Some(lost)
    })
}

/// While the generator led.
fn test_spikes<'a>(seen: &'a Seen<'_>, wanted: SpikeOutcome) -> impl Iterator<Item = u64> + 'a {
    let spikes = seen.spikes().filter(move |(_, outcome)| *outcome == wanted).map(|(at, _)| at);
    spikes.filter(|at| seen.paces_faster_than_own(seen.dials_at(*at), *at))
}

/// "At least" a number that was never tried says nothing; nor, where more can be measured, does the number found. A
/// single figure counts where own beats were marked, and where the number above it missed one.
fn sensing_was_tried(seen: &Seen<'_>, said: Threshold) -> bool {
    let raised = seen.turns.iter().any(|turn| turn.is_up_of(Dial::Mv));
    match said.found {
        Found::AtLeast => seen.stood_at(Dial::Mv, said.at) && (raised || !seen.exercise.measurable.sensing),
        Found::Exact => {
            let own = own_beats(seen);
            let at_number = |at: u64| seen.dials_at(at).mv;
            own.iter().any(|(at, marked)| *marked == Marked::Yes && at_number(*at) == said.at)
                && own.iter().any(|(at, marked)| *marked == Marked::No && is_just_above(seen, *at, said.at))
        }
        Found::Nothing | Found::AtMost | Found::Bracket | Found::SeenWhereItStood | Found::SeenAtNone => true,
    }
}

/// The number of this instant is the next position, or the one that was then turned down to this.
fn is_just_above(seen: &Seen<'_>, at_us: u64, number: Position) -> bool {
    let stood = seen.dials_at(at_us).mv;
    let next = seen.turns.iter().find(|turn| turn.dial == Dial::Mv && turn.at_us > at_us);
    let down_from_there = next.is_some_and(|turn| turn.from == stood && !turn.is_up() && turn.to == number);
    stood != ASYNCHRONOUS && (down_from_there || stood.checked_sub(1) == Some(number))
}

/// The last OUTPUT turned down is the last that could measure anything: what the heart does later is another
/// heart's number.
fn measured_us(seen: &Seen<'_>) -> u64 {
    let last = seen.turns.iter().rfind(|turn| turn.is_down_of(Dial::Output));
    last.map_or_else(|| seen.said_us(), |turn| turn.at_us)
}

fn agreement(said: Threshold, truth: Option<Position>, untrue: bool, tried: bool) -> Agreement {
    match (said.found, truth) {
        (Found::Nothing, _) => Agreement::NotTested,
        (Found::Exact, Some(truth)) if said.at != truth => {
            Agreement::OffBy(i16::from(said.at) - i16::from(truth))
        }
        _ if untrue => Agreement::Untrue,
        _ if !tried => Agreement::NotTested,
        (Found::Exact, _) => Agreement::Equal,
        (Found::AtLeast | Found::AtMost | Found::Bracket, _)
        | (Found::SeenWhereItStood | Found::SeenAtNone, _) => Agreement::Contains,
    }
}
