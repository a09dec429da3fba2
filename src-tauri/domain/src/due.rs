//! When time itself must act.

use crate::decide::with_setup;
use crate::state::State;

/// The next instant, ms of this boot, at which the session must send `TimePassed`.
pub fn due(state: &State) -> Option<i64> {
    state
        .open_checks()
        .chain(state.practised_check())
        .filter_map(|(bed, wire, _, _)| {
            with_setup(state, bed, wire, |setup, open| open.times.due(setup, &open.facts))?
        })
        .map(|(at, _)| at)
        .min()
}
