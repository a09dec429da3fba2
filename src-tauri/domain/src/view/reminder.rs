//! A check that has come due while somebody is elsewhere in the app: one quiet line.

#![allow(clippy::wildcard_enum_match_arm, reason = "the line stands on the few screens named here")]

use crate::attention::first_due;
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

use super::pieces::isolated;

/// On the papers of a wire and on the settings. Nothing on cards of a check, of practice or of a handover, which have
/// their own matter, nor on the bed list, which says it itself.
pub fn reminder(state: &State, now: Moment) -> Option<Say> {
    let own = match state.screen {
        Screen::Settings | Screen::Rules | Screen::Generators | Screen::Generator { .. } => None,
        Screen::Bed { bed } | Screen::Result { bed, .. } | Screen::History { bed, .. } => Some(bed),
        _ => return None,
    };
    let due = first_due(&state.beds, now, own)?;
    Some(Say::CheckDueIn { bed: isolated(&due.label) })
}
