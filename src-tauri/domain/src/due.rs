//! When time itself must act.

use crate::decide::with_setup;
use crate::state::State;

/// The next instant, ms of this boot, at which the session must send `TimePassed`.
pub fn due(state: &State) -> Option<i64> {
    let swaps = state.open_swaps().filter_map(|(.., open)| open.times.due(&open.facts));
    let swaps = swaps.map(|(at, _)| at).min();
    checks(state).into_iter().chain(swaps).min()
}

fn checks(state: &State) -> Option<i64> {
    state
        .open_checks()
        .chain(state.practised_check())
        .filter_map(|(bed, wire, _, _)| {
            with_setup(state, bed, wire, |setup, open| open.times.due(setup, &open.facts))?
        })
        .map(|(at, _)| at)
        .min()
}
