//! The instants a swap measures from, ms of this boot.

use serde::{Deserialize, Serialize};

use super::answer::TimeUp;
use super::facts::{Facts, Own, Place};
use super::{Setup, step::Step};
use crate::check::facts::{NONE, Phase};
use crate::moment::Moment;
use crate::state::times::OWN_FRESH_MS;
use crate::units::interval_ms;

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Times {
    pub boot: u64,
    pub watch_from: Option<i64>,
    pub watch_until: Option<i64>,
    pub own_shown: Option<i64>,
}

impl Times {
    pub fn after(self, setup: &Setup<'_>, before: &Facts, after: &Facts, now: Moment) -> Times {
        let kept = if self.boot == now.boot { self } else { Times::default() };
        let watches = after.phase == Phase::Watching;
        let goes_on = watches && before.phase == Phase::Watching && before.step == after.step;
        let starts = watches && !(goes_on && kept.watch_until.is_some());
        let at = now.boot_ms;
        let looked = before.step == Step::Look && after.own == Own::Shown;
        Times {
            boot: now.boot,
            watch_from: if starts { Some(at) } else { kept.watch_from.filter(|_| watches) },
            watch_until: if starts {
                Some(at + length_ms(setup, after))
            } else {
                kept.watch_until.filter(|_| watches)
            },
            own_shown: if looked { Some(at) } else { kept.own_shown },
        }
    }

    /// What time itself will do next, and when.
    pub fn due(&self, facts: &Facts) -> Option<(i64, TimeUp)> {
        let watch = self.watch_until.filter(|_| facts.phase == Phase::Watching);
        let counts = facts.own == Own::Shown && facts.place == Place::Old && facts.old_on;
        let own = self.own_shown.filter(|_| counts).map(|since| since + OWN_FRESH_MS);
        [(watch, TimeUp::Watch), (own, TimeUp::OwnOld)]
            .into_iter()
            .filter_map(|(at, up)| Some((at?, up)))
            .min_by_key(|(at, _)| *at)
    }
}

/// As many beats as a check watches going down, at the rate of the box that the pins are in.
fn length_ms(setup: &Setup<'_>, facts: &Facts) -> i64 {
    let dials = if facts.place == Place::New { facts.new } else { facts.old };
    let known = (dials.rate != NONE).then(|| setup.box_of(facts).rate_at(dials.rate));
    let rate = known.unwrap_or(setup.rules.emergency_rate);
    i64::from(setup.rules.beats_down) * interval_ms(rate)
}
