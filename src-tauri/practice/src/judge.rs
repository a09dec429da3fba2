//! What was done in a run, act by act, and what it came to. Limits in seconds without a rule of the unit behind
//! them are from memory.

mod answers;
mod capture;
mod compare;
mod ending;
mod harm;
mod marks;
mod own;
mod sensing;
mod trouble;

use domain::practice::{Entry, Judged, Judgement, Verdict};

use crate::ENGINE;
use crate::exercise::Exercise;
use crate::fault::Fault;
use crate::seen::Seen;

/// An act is judged only where the run asked for it.
type ActJudge = fn(&Seen<'_>) -> Option<Judged>;

const JUDGES: &[ActJudge] = &[
    trouble::maximum_where_found_fails,
    own::out_of_asynchronous,
    own::rate_steps_watched,
    own::rate_limit_kept,
    own::blind_put_right,
    sensing::output_before_number,
    sensing::spike_at_minimum_heeded,
    sensing::minimum_kept_short,
    compare::sensing_found,
    sensing::number_before_output,
    capture::own_rhythm_first,
    capture::output_steps_watched,
    capture::only_up_after_loss,
    compare::capture_found,
    trouble::block_heeded,
    trouble::wrong_chamber_heeded,
    trouble::pressure_heeded,
    trouble::output_first_in_no_beats,
    trouble::maximum_after_shock,
    sensing::pauses_ended,
    ending::output_by_rule,
    ending::number_by_rule,
    ending::rate_back,
    ending::dials_read,
    ending::confirmed,
    answers::answered_as_seen,
];

/// A function of these three alone.
///
/// # Errors
/// An entry names a position that the dial does not have, or goes back in time.
pub fn judge(exercise: &Exercise, seed: u64, entries: &[Entry]) -> Result<Judgement, Fault> {
    let seen = Seen::replay(exercise, seed, entries)?;
    let acts: Vec<Judged> = JUDGES.iter().filter_map(|judge| judge(&seen)).collect();
    let harm = harm::harm(&seen);
    Ok(Judgement {
        exercise: exercise.id,
        seed,
        engine: ENGINE.to_owned(),
        ended_us: seen.ended_us,
        passed: acts.iter().all(|act| act.verdict < Verdict::Missed),
        capture: compare::capture(&seen),
        sensing: compare::sensing(&seen),
        without_beats_us: harm.without_beats_us,
        longest_pause_us: harm.longest_pause_us,
        spikes_on_t: harm.spikes_on_t,
        acts,
    })
}
