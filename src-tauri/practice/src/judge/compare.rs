//! What was said to be found, beside the heart's own numbers.

use domain::check::facts::{Dial, Found};
use domain::practice::{Act, Agreement, Compared, Judged, Threshold, Verdict};
use domain::profile::Position;

use crate::seen::Seen;
use crate::truth;

pub fn capture(seen: &Seen<'_>) -> Compared {
    let said = seen.said.map_or(Threshold::NOT_TESTED, |(_, said)| said.capture);
    let (profile, heart) = (&seen.exercise.profile, seen.truth_at(measured_us(seen)));
    let truth = truth::lowest_at_or_above(profile, heart.going_up_micro);
    let untrue = truth::capture_is_untrue(said, &heart, profile) || !capture_was_tried(seen, said);
    Compared { said, truth, agreement: agreement(said, truth, untrue) }
}

pub fn sensing(seen: &Seen<'_>) -> Compared {
    let said = seen.said.map_or(Threshold::NOT_TESTED, |(_, said)| said.sensing);
    let (profile, heart) = (&seen.exercise.profile, seen.truth_at(measured_us(seen)));
    let truth = truth::highest_that_sees(profile, &heart);
    let untrue = truth::sensing_is_untrue(said, &heart, profile) || !sensing_was_tried(seen, said);
    Compared { said, truth, agreement: agreement(said, truth, untrue) }
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
        Agreement::NotTested if !measurable => return None,
        Agreement::NotTested | Agreement::OffBy(_) | Agreement::Untrue => Verdict::Missed,
    };
    Some(seen.judged(act, verdict, seen.said_us()))
}

/// Any bracket wide enough holds the truth: it counts where OUTPUT was turned to both its ends. The lowest position is
/// the one that no test goes below.
fn capture_was_tried(seen: &Seen<'_>, said: Threshold) -> bool {
    let stood = |at: Position| seen.stood_at(Dial::Output, at);
    match said.found {
        Found::Bracket => stood(said.low) && stood(said.at),
        Found::AtMost => stood(said.at),
        Found::Nothing | Found::Exact | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => true,
    }
}

/// "At least" a number that was never tried says nothing; nor, where more can be measured, does the number found.
fn sensing_was_tried(seen: &Seen<'_>, said: Threshold) -> bool {
    let raised = seen.turns.iter().any(|turn| turn.is_up_of(Dial::Mv));
    match said.found {
        Found::AtLeast => seen.stood_at(Dial::Mv, said.at) && (raised || !seen.exercise.measurable.sensing),
        Found::Nothing
        | Found::Exact
        | Found::AtMost
        | Found::Bracket
        | Found::SeenWhereItStood
        | Found::SeenAtNone => true,
    }
}

/// The last OUTPUT turned down is the last that could measure anything: what the heart does later is another
/// heart's number.
fn measured_us(seen: &Seen<'_>) -> u64 {
    let last = seen.turns.iter().rfind(|turn| turn.is_down_of(Dial::Output));
    last.map_or_else(|| seen.said_us(), |turn| turn.at_us)
}

fn agreement(said: Threshold, truth: Option<Position>, untrue: bool) -> Agreement {
    match (said.found, truth) {
        (Found::Nothing, _) => Agreement::NotTested,
        (Found::Exact, Some(truth)) if said.at != truth => {
            Agreement::OffBy(i16::from(said.at) - i16::from(truth))
        }
        _ if untrue => Agreement::Untrue,
        (Found::Exact, _) => Agreement::Equal,
        (Found::AtLeast | Found::AtMost | Found::Bracket, _)
        | (Found::SeenWhereItStood | Found::SeenAtNone, _) => Agreement::Contains,
    }
}
