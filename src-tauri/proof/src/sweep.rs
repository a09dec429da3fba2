//! Many checks by somebody who errs: what it costs the patient, and which answer ends it.

use std::collections::BTreeMap;
use std::fmt;

use domain::check::facts::Found;
use domain::record::Record;
use observer::{Mistake, Reading};

use crate::bystander::{Loss, SpikeOnT};
use crate::case::Case;
use crate::harm::is_at_minimum;
use crate::play::{play, play_tired};
use crate::played::{End, Played, Stuck};

/// Shorter losses end before a person can have done anything about them.
const SHORT_US: u64 = 3_000_000;

/// Mistakes of some kinds, so often, over many checks.
#[derive(Clone, Debug, Default)]
pub struct Row {
    pub kinds: Vec<Mistake>,
    pub per_thousand: u64,
    pub checks: usize,
    pub mistakes: usize,
    /// Of each check with any loss of capture, µs in all.
    pub without_capture_us: Vec<u64>,
    /// Of each check, the longest time without a ventricular beat that is too long, else 0.
    pub without_beats_us: Vec<u64>,
    pub on_t: Vec<OnT>,
    /// Checks that ended with the reading owed, a reason and a name given: the bed says so first.
    pub owed: usize,
    /// Seeds of checks that ended with OUTPUT below restore and plan, and it is neither read there nor owed.
    pub below_restore_unread: Vec<u64>,
    /// Seeds of checks that ended with OUTPUT truly lower than it stood at first, and no threshold was measured.
    pub lowered: Vec<u64>,
    /// Seeds of checks in which RATE was turned above the highest test rate, and above where it truly stood at first.
    pub too_fast: Vec<u64>,
    /// Seeds of checks that ended with mV truly higher than it stood at first, and no threshold was measured.
    pub blinder: Vec<u64>,
    /// Seeds of checks that ended asynchronous and had not begun so: an emergency asked for it, and the list says so.
    pub asynchronous: Vec<u64>,
    pub stuck: Vec<(u64, Stuck)>,
    /// The last answer before capture, or the beats, came back.
    pub ended_by: BTreeMap<String, usize>,
}

/// A captured spike on a T wave, with what led there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnT {
    pub seed: u64,
    pub spike: SpikeOnT,
    pub cause: Cause,
    /// The last answers before it, the newest first.
    pub after: Vec<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Without the mistakes it comes as well.
    Anyway,
    /// The minimum captures, which the first spike there tells.
    MinimumCaptures,
    /// The dials do not stand where the guide believes, or it leads back to where they never stood.
    Mistyped,
    /// Asynchronous, which an emergency that was none had asked for.
    Asynchronous,
    /// The beat before came behind a spike that made none, while the generator looked away.
    Hidden,
    /// The number is so low that something else than a beat is seen, and a beat behind it is not.
    SeesTooMuch,
    /// A number that the check raised, OUTPUT no longer at minimum: a wrong answer told it that there are no beats.
    AnsweredWrongly,
    /// None of these: somebody has to look.
    Unexplained,
}

impl Row {
    /// Plays the first `checks` seeds from `first` on whose patient gives no cause for trouble: nothing left to
    /// chance, and dials that were found capturing and seeing.
    pub fn played(kinds: &[Mistake], per_thousand: u64, first: u64, checks: usize) -> Row {
        let mut row = Row { kinds: kinds.to_vec(), per_thousand, ..Row::default() };
        let cases = (first..).filter_map(|seed| Case::drawn(seed).ok()).filter(is_untroubled);
        cases.take(checks).for_each(|case| row.add(&case));
        row
    }

    fn add(&mut self, case: &Case) {
        self.checks += 1;
        match play_tired(case, &self.kinds, self.per_thousand) {
            Ok(Played { end: End::Stuck(stuck), .. }) | Err(stuck) => self.stuck.push((case.seed, stuck)),
            Ok(played) => self.count(case, &played),
        }
    }

    fn count(&mut self, case: &Case, played: &Played) {
        self.mistakes += played.mistakes.len();
        let losses: Vec<Loss> = played.bystander.losses.iter().map(|loss| cut(case, played, loss)).collect();
        if !losses.is_empty() {
            self.without_capture_us.push(losses.iter().map(|loss| loss.us).sum());
        }
        let gaps = || played.bystander.gaps.iter().map(|gap| (gap.from.at_us, gap.us));
        self.without_beats_us.push(gaps().map(|(_, us)| us).max().unwrap_or(0));
        let long = losses.iter().map(|loss| (loss.from.at_us, loss.us)).filter(|(_, us)| *us >= SHORT_US);
        for (from_us, us) in long.chain(gaps()) {
            *self.ended_by.entry(ended_by(played, from_us, from_us + us)).or_default() += 1;
        }
        self.owed += usize::from(is_owed(played));
        if !is_owed(played) && is_below_restore_unread(case, played) {
            self.below_restore_unread.push(case.seed);
        }
        self.count_undone(case, played);
        self.explain(case, played);
    }

    fn count_undone(&mut self, case: &Case, played: &Played) {
        let kinds = [
            (is_lowered(case, played), &mut self.lowered),
            (is_too_fast(case, played), &mut self.too_fast),
            (is_blinder(case, played), &mut self.blinder),
            (is_asynchronous(case, played), &mut self.asynchronous),
        ];
        kinds.into_iter().filter(|(so, _)| *so).for_each(|(_, seeds)| seeds.push(case.seed));
    }

    fn explain(&mut self, case: &Case, played: &Played) {
        if played.bystander.spikes_on_t.is_empty() {
            return;
        }
        let sharp = play(case).map(|played| played.bystander.spikes_on_t).unwrap_or_default();
        for spike in &played.bystander.spikes_on_t {
            let anyway = sharp.iter().any(|other| other.place.asks == spike.place.asks);
            let cause = if anyway { Cause::Anyway } else { cause(case, played, spike) };
            let after = last_answers(played, spike.place.at_us);
            self.on_t.push(OnT { seed: case.seed, spike: spike.clone(), cause, after });
        }
    }
}

/// The value that so many of a hundred do not exceed; 0 of none.
pub fn percentile(values: &[u64], percent: usize) -> u64 {
    let mut sorted = values.to_vec();
    sorted.sort_unstable();
    let place = (sorted.len() * percent).div_ceil(100).saturating_sub(1);
    sorted.get(place).copied().unwrap_or(0)
}

fn is_untroubled(case: &Case) -> bool {
    let truth = case.truth();
    let output = case.profile.read_output(&case.found.output).map(|at| case.profile.output_at(at));
    let captures = output.is_ok_and(|output| output >= truth.going_up_micro);
    let number = case.found.mv.as_ref().and_then(|text| case.profile.read_mv(text).ok());
    let sees = number.is_some_and(|at| {
        let level = case.profile.mv_at(at);
        level <= truth.smallest_signal_uv && level > truth.largest_false_signal_uv
    });
    case.plain && captures && sees
}

/// It is over once OUTPUT stands where it captures, whether or not a spike is needed there.
fn cut(case: &Case, played: &Played, loss: &Loss) -> Loss {
    let captures = |dials: &Reading| {
        let output = case.profile.read_output(&dials.output).map(|at| case.profile.output_at(at));
        output.is_ok_and(|output| output >= case.truth().going_up_micro)
    };
    let from_us = loss.from.at_us;
    let turned = played.bystander.turns.iter().find(|(at, dials)| *at >= from_us && captures(dials));
    let us = turned.map_or(loss.us, |(at, _)| loss.us.min(at - from_us));
    Loss { us, from: loss.from.clone() }
}

fn ended_by(played: &Played, from_us: u64, until_us: u64) -> String {
    let within = |at: u64| (from_us..=until_us).contains(&at);
    let last = played.answers.iter().rev().find(|answer| within(answer.at_us) && answer.key != "stands");
    last.map_or_else(|| "nothing".to_owned(), |answer| answer.key.to_string())
}

fn last_answers(played: &Played, until_us: u64) -> Vec<String> {
    const LAST: usize = 4;
    let before = played.answers.iter().rev().filter(|answer| answer.at_us <= until_us);
    before.take(LAST).map(|answer| format!("{} {}", answer.asks, answer.key)).collect()
}

fn is_owed(played: &Played) -> bool {
    let last = |asks: &str| played.answers.iter().rposition(|answer| answer.asks == asks);
    last("ReasonTitle") > last("ReadBackTitle").max(last("ReadAfterTitle"))
}

fn is_below_restore_unread(case: &Case, played: &Played) -> bool {
    let Ok(stands) = case.profile.read_output(&played.stays.output) else { return true };
    let Some(record) = &played.record else {
        let found = case.profile.read_output(&case.found.output);
        return played.end == End::HandedOver && found.is_ok_and(|found| stands < found);
    };
    let read = record.stays.as_ref().is_some_and(|said| said.output == played.stays.output);
    !read && stands < record.stays_at.output.min(record.facts.back_to.output)
}

fn is_lowered(case: &Case, played: &Played) -> bool {
    let at = |dials: &Reading| case.profile.read_output(&dials.output).ok();
    let measured = |record: &Record| matches!(record.capture, Found::Exact | Found::AtMost | Found::Bracket);
    let untested = !played.record.as_ref().is_some_and(measured);
    untested && at(&played.stays) < at(&case.found)
}

/// A figure that cannot be read counts as too fast: somebody has to look.
fn is_too_fast(case: &Case, played: &Played) -> bool {
    let rate = |dials: &Reading| case.profile.read_rate(&dials.rate).map(|at| case.profile.rate_at(at)).ok();
    let most = rate(&case.found).map(|found| found.max(case.rules.highest_test_rate));
    let within = |dials: &Reading| most.zip(rate(dials)).is_some_and(|(most, rate)| rate <= most);
    played.bystander.turns.iter().any(|(_, dials)| !within(dials))
}

/// Help that took over leaves what nobody answers for here.
fn is_blinder(case: &Case, played: &Played) -> bool {
    let measured = |record: &Record| matches!(record.sensing, Found::Exact | Found::AtLeast);
    let untested = !played.record.as_ref().is_some_and(measured);
    let recorded = played.end == End::Recorded && played.stays.mv.is_some();
    untested && recorded && number(case, &played.stays) > number(case, &case.found)
}

fn is_asynchronous(case: &Case, played: &Played) -> bool {
    played.end == End::Recorded && played.stays.mv.is_none() && case.found.mv.is_some()
}

/// The lowest number at which the timer of this spike may have begun.
fn lowest_of_late(case: &Case, played: &Played, spike: &SpikeOnT) -> u32 {
    const LATE_US: u64 = 2_000_000;
    let (until, turns) = (spike.place.at_us, &played.bystander.turns);
    let began = turns.partition_point(|(at, _)| at + LATE_US < until).saturating_sub(1);
    let late = turns.iter().skip(began).take_while(|(at, _)| *at <= until);
    let standing = late.map(|(_, dials)| dials).chain([&spike.place.dials]);
    standing.map(|dials| number(case, dials)).min().unwrap_or(u32::MAX)
}

/// Asynchronous counts above every number.
fn number(case: &Case, dials: &Reading) -> u32 {
    let at = dials.mv.as_ref().and_then(|text| case.profile.read_mv(text).ok());
    at.map_or(u32::MAX, |at| case.profile.mv_at(at))
}

fn cause(case: &Case, played: &Played, spike: &SpikeOnT) -> Cause {
    let before = played.mistakes.iter().filter(|(at, _)| *at <= spike.place.at_us);
    let made: Vec<Mistake> = before.map(|(_, mistake)| *mistake).collect();
    let raised = number(case, &spike.place.dials) > number(case, &case.found);
    if raised && is_at_minimum(case, &spike.place.dials) {
        Cause::MinimumCaptures
    } else if spike.hidden {
        Cause::Hidden
    } else if lowest_of_late(case, played, spike) <= case.truth().largest_false_signal_uv {
        Cause::SeesTooMuch
    } else if spike.place.dials.mv.is_none() && !made.is_empty() {
        Cause::Asynchronous
    } else if made.contains(&Mistake::Mistyped) || made.contains(&Mistake::MisreadDial) {
        Cause::Mistyped
    } else if raised && made.contains(&Mistake::Slipped) {
        Cause::AnsweredWrongly
    } else {
        Cause::Unexplained
    }
}

/// One line: kinds, chance, checks, and what it cost; seconds.
impl fmt::Display for Row {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let kinds = match self.kinds.as_slice() {
            [kind] => format!("{kind:?}"),
            kinds => format!("{} kinds", kinds.len()),
        };
        let seconds = |values: &[u64], percent| percentile(values, percent) as f64 / 1_000_000.0;
        let (capture, beats) = (&self.without_capture_us, &self.without_beats_us);
        write!(
            out,
            "{kinds:>12} {:>4.3}: {} checks, {} mistakes; without capture {} checks, median {:.1} p99 {:.1} most {:.1} s; ",
            self.per_thousand as f64 / 1_000.0,
            self.checks,
            self.mistakes,
            capture.len(),
            seconds(capture, 50),
            seconds(capture, 99),
            seconds(capture, 100),
        )?;
        let gaps = beats.iter().filter(|us| **us > 0).count();
        write!(
            out,
            "without beats {gaps} checks, most {:.1} s; {} on T; ",
            seconds(beats, 100),
            self.on_t.len()
        )?;
        write!(
            out,
            "{} owed; unread {:?}; OUTPUT lowered {:?}; RATE too fast {:?}; mV blinder {:?}; asynchronous {:?}; stuck {:?}; ended by {:?}",
            self.owed,
            self.below_restore_unread,
            self.lowered,
            self.too_fast,
            self.blinder,
            self.asynchronous,
            self.stuck,
            self.ended_by
        )
    }
}
