//! Guided: what was answered beside what the strip showed. Only what it plainly contradicts is held against anybody:
//! how a beat looks, and what came at the last moment, is for the learner's eyes.

use domain::check::answer::Answer;
use domain::check::facts::ASYNCHRONOUS;
use domain::check::step::Step;
use domain::practice::{Act, Judged, Verdict};
use simulator::{Origin, SpikeOutcome};

use super::marks::{Marked, own_beats};
use crate::seen::Seen;

/// A beat so short before the answer may not have been taken in (M).
const TAKEN_IN_US: u64 = 1_000_000;
/// What "now" means to somebody who looks at a monitor (M).
const NOW_US: u64 = 4_000_000;

/// The worst of the answers. A loss, or a beat not marked, that was not seen is the dangerous one.
pub fn answered_as_seen(seen: &Seen<'_>) -> Option<Judged> {
    let mut worst: Option<Judged> = None;
    for (place, (at_us, _, answer)) in seen.answers.iter().enumerate() {
        if is_taken_back(seen, place) {
            continue;
        }
        let Some(verdict) = verdict(seen, *at_us, *answer) else { continue };
        // Of several that were right the last is shown, of several wrong ones the first of the worst.
        let replaces = |worst: Judged| verdict > worst.verdict || worst.verdict == Verdict::Done;
        if worst.is_none_or(replaces) {
            worst = Some(seen.judged(Act::AnsweredAsSeen, verdict, *at_us));
        }
    }
    worst
}

/// By a slip that is the next thing said, before any dial was turned on the strength of the answer.
fn is_taken_back(seen: &Seen<'_>, place: usize) -> bool {
    let (said_us, ..) = seen.answers[place];
    let later = &seen.answers[place + 1..];
    let Some(next) = later.iter().position(|(_, _, answer)| !says_nothing(*answer)) else { return false };
    let (slip_us, _, answer) = later[next];
    let thought_better =
        later.get(next + 1).is_some_and(|(_, step, answer)| (*step, *answer) == (Step::Slip, Answer::Back));
    let turned = seen.turns.iter().any(|turn| turn.at_us >= said_us && turn.began_us <= slip_us);
    answer == Answer::Slip && !thought_better && !turned
}

/// A slip takes back what was said before these.
fn says_nothing(answer: Answer) -> bool {
    let opens_or_closes = [Answer::Stands, Answer::Wrong, Answer::SomethingElse, Answer::Back];
    opens_or_closes.contains(&answer) || matches!(answer, Answer::Time(_))
}

/// `None` where the answer is not about what the strip shows.
fn verdict(seen: &Seen<'_>, at_us: u64, answer: Answer) -> Option<Verdict> {
    let wrongly = |is_so: bool, verdict| Some(if is_so { verdict } else { Verdict::Done });
    if answer == Answer::EverySpikeMadeABeat {
        return wrongly(lost_since_turn(seen, at_us) > 0, Verdict::Unsafe);
    }
    if answer == Answer::SpikeWithoutABeat {
        return wrongly(lost_since_turn(seen, at_us) == 0, Verdict::Missed);
    }
    let now = now(seen, at_us);
    if answer == Answer::OnlyOwn {
        return wrongly(now.len() > 1 && now.iter().all(|origin| *origin == Origin::Paced), Verdict::Unsafe);
    }
    if answer == Answer::StillPaced {
        return wrongly(now.len() > 1 && now.iter().all(|origin| *origin == Origin::Own), Verdict::Missed);
    }
    if answer != Answer::EveryBeatMarked && answer != Answer::BeatNotMarked {
        return None;
    }
    let marks = Marks::since_turn(seen, at_us)?;
    if answer == Answer::EveryBeatMarked {
        return wrongly(marks.missed > 0, Verdict::Unsafe);
    }
    // A spike that comes too soon tells of a miss as well.
    wrongly(marks.marked > 0 && marks.missed == 0 && !marks.spikes, Verdict::Missed)
}

/// Spikes below the threshold since the last turn before this instant.
fn lost_since_turn(seen: &Seen<'_>, at_us: u64) -> usize {
    let since_us = last_turn_us(seen, at_us);
    let lost = |(at, outcome): &(u64, SpikeOutcome)| {
        (since_us..=at_us).contains(at) && *outcome == SpikeOutcome::BelowThreshold
    };
    seen.spikes().filter(lost).count()
}

fn last_turn_us(seen: &Seen<'_>, at_us: u64) -> u64 {
    seen.turns.iter().rfind(|turn| turn.at_us <= at_us).map_or(0, |turn| turn.at_us)
}

/// Where the last beats before this instant began.
fn now(seen: &Seen<'_>, at_us: u64) -> Vec<Origin> {
    let from_us = at_us.saturating_sub(NOW_US).max(last_turn_us(seen, at_us));
    seen.wire_beats().filter(|(at, _)| (from_us..at_us).contains(at)).map(|(_, origin)| origin).collect()
}

/// Own beats since the last turn, by what the generator made of them.
struct Marks {
    marked: usize,
    missed: usize,
    spikes: bool,
}

impl Marks {
    /// `None` while asynchronous: nothing is marked then.
    fn since_turn(seen: &Seen<'_>, at_us: u64) -> Option<Marks> {
        if seen.dials_at(at_us).mv == ASYNCHRONOUS {
            return None;
        }
        let since_us = last_turn_us(seen, at_us);
        let until_us = at_us.saturating_sub(TAKEN_IN_US);
        let own = own_beats(seen).into_iter().filter(|(at, _)| (since_us..until_us).contains(at));
        let own: Vec<Marked> = own.map(|(_, marked)| marked).collect();
        let count = |wanted: Marked| own.iter().filter(|marked| **marked == wanted).count();
        Some(Marks {
            marked: count(Marked::Yes),
            missed: count(Marked::No),
            spikes: seen.spikes().any(|(at, _)| (since_us..=at_us).contains(&at)),
        })
    }
}
