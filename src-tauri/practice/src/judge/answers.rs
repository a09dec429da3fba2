//! Guided: what was answered beside what the strip showed. Only what it plainly contradicts is held against anybody:
//! how a beat looks, and what came at the last moment, is for the learner's eyes.

use domain::check::answer::Answer;
use domain::check::facts::ASYNCHRONOUS;
use domain::practice::{Act, Judged, Verdict};
use simulator::{Chamber, MarkKind, Origin, SpikeOutcome, What};

use crate::seen::Seen;

/// A beat so short before the answer may not have been taken in (M).
const TAKEN_IN_US: u64 = 1_000_000;
/// What "now" means to somebody who looks at a monitor (M).
const NOW_US: u64 = 4_000_000;
/// A mark belongs to a beat that began so shortly before it: in the ventricle, and with the QRS behind a P wave.
const MARKED_WITHIN_US: u64 = 60_000;
const MARKED_WITH_QRS_US: u64 = 250_000;
/// So close behind a spike the generator looks away.
const LOOKS_AWAY_US: u64 = 300_000;

/// The worst of the answers. A loss, or a beat not marked, that was not seen is the dangerous one.
pub fn answered_as_seen(seen: &Seen<'_>) -> Option<Judged> {
    let mut worst: Option<Judged> = None;
    for (at_us, _, answer) in &seen.answers {
        let Some(verdict) = verdict(seen, *at_us, *answer) else { continue };
        // Of several that were right the last is shown, of several wrong ones the first of the worst.
        let replaces = |worst: Judged| verdict > worst.verdict || worst.verdict == Verdict::Done;
        if worst.is_none_or(replaces) {
            worst = Some(seen.judged(Act::AnsweredAsSeen, verdict, *at_us));
        }
    }
    worst
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
        let within_us = match seen.exercise.heart().wire {
            Chamber::Atrium => MARKED_WITH_QRS_US,
            Chamber::Ventricle => MARKED_WITHIN_US,
        };
        let spikes: Vec<u64> = seen.spikes().map(|(at, _)| at).collect();
        let marks = sense_marks(seen);
        let own = seen.wire_beats().filter(|(at, origin)| {
            *origin == Origin::Own && (since_us..at_us.saturating_sub(TAKEN_IN_US)).contains(at)
        });
        let own: Vec<u64> = own.map(|(at, _)| at).collect();
        let among = |times: &[u64], from_us: u64, until_us: u64| {
            times.iter().any(|at| (from_us..=until_us).contains(at))
        };
        let is_marked = |at: u64| among(&marks, at, at + within_us);
        let looks_away = |at: u64| among(&spikes, at.saturating_sub(LOOKS_AWAY_US), at + within_us);
        Some(Marks {
            marked: own.iter().filter(|at| is_marked(**at)).count(),
            missed: own.iter().filter(|at| !is_marked(**at) && !looks_away(**at)).count(),
            spikes: among(&spikes, since_us, at_us),
        })
    }
}

fn sense_marks(seen: &Seen<'_>) -> Vec<u64> {
    let sense = seen.events.iter().filter(|event| match event.what {
        What::Mark(mark) => mark.kind != MarkKind::Pace,
        What::Beat { .. }
        | What::Spike { .. }
        | What::Pulse { .. }
        | What::NoPulse
        | What::VentricularFibrillation => false,
    });
    sense.map(|event| event.at_us).collect()
}
