//! The instants a check measures from, in milliseconds of this boot.

use serde::{Deserialize, Serialize};

use crate::check::answer::TimeUp;
use crate::check::facts::{Facts, Own, Phase};
use crate::check::restore;
use crate::check::setup::Setup;
use crate::check::side::below;
use crate::check::step::Step;
use crate::check::watch;
use crate::moment::Moment;

/// Ten minutes: an own rhythm shown longer ago is asked for anew (M).
pub const OWN_FRESH_MS: i64 = 10 * 60 * 1000;

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Times {
    pub boot: u64,
    pub watch_from: Option<i64>,
    pub watch_until: Option<i64>,
    pub own_shown: Option<i64>,
    /// OUTPUT was asked down to its minimum.
    pub minimum_since: Option<i64>,
    /// A spike made no beat, and not every one has since.
    pub loss_since: Option<i64>,
}

impl Times {
    /// The instants after one answer.
    pub fn after(self, setup: &Setup<'_>, before: &Facts, after: &Facts, now: Moment) -> Times {
        let kept = if self.boot == now.boot { self } else { Times::default() };
        let at = now.boot_ms;
        let starts_watch = after.phase == Phase::Watching && !same_watch(before, after);
        let keeps_watch = after.phase == Phase::Watching && !after.step.is_side();
        let shown = before.step == Step::OwnRate && after.own == Own::Shown;
        let asked_down = after.step == Step::SenseMinimum;
        let counted_in_vain = before.step == Step::CaptureCount && after.step != Step::CaptureCount;
        let lost = after.loss_open && (!before.loss_open || counted_in_vain);
        Times {
            boot: now.boot,
            watch_from: if starts_watch { Some(at) } else { kept.watch_from.filter(|_| keeps_watch) },
            watch_until: if starts_watch {
                Some(at + watch::length_ms(setup, after))
            } else {
                kept.watch_until.filter(|_| keeps_watch)
            },
            own_shown: if shown { Some(at) } else { kept.own_shown },
            minimum_since: kept
                .minimum_since
                .or(asked_down.then_some(at))
                .filter(|_| without_standby(setup, after)),
            loss_since: if lost { Some(at) } else { kept.loss_since.filter(|_| after.loss_open) },
        }
    }

    /// The same instants, had the time from `since` to `now` not passed.
    #[must_use]
    pub fn moved(self, since: Moment, now: Moment) -> Times {
        let later = |at: Option<i64>| at.map(|at| at - since.boot_ms + now.boot_ms);
        Times {
            boot: now.boot,
            watch_from: later(self.watch_from),
            watch_until: later(self.watch_until),
            own_shown: later(self.own_shown),
            minimum_since: later(self.minimum_since),
            loss_since: later(self.loss_since),
        }
    }

    /// What time itself will do next, and when.
    pub fn due(&self, setup: &Setup<'_>, facts: &Facts) -> Option<(i64, TimeUp)> {
        let side = facts.step.is_side();
        let watch = self.watch_until.filter(|_| facts.phase == Phase::Watching && !side);
        let own = self.own_old_at(facts);
        // A limit counts on under a card that lies over the search.
        let under = below(*facts).step;
        let searching = matches!(under, Step::SenseMinimum | Step::SenseUp | Step::SenseDown);
        let minimum = self
            .minimum_since
            .filter(|_| searching)
            .map(|since| since + i64::from(setup.rules.minimum_output_s) * 1000);
        let climbing = matches!(under, Step::CaptureBack | Step::CaptureUp);
        let loss = self
            .loss_since
            .filter(|_| climbing)
            .map(|since| since + i64::from(setup.rules.after_loss_s) * 1000);
        [(loss, TimeUp::Loss), (minimum, TimeUp::Minimum), (watch, TimeUp::Watch), (own, TimeUp::OwnOld)]
            .into_iter()
            .filter_map(|(at, up)| Some((at?, up)))
            .min_by_key(|(at, _)| *at)
    }

    /// When an own rhythm that still counts becomes too old to count.
    fn own_old_at(&self, facts: &Facts) -> Option<i64> {
        let counts = facts.own == Own::Shown && !facts.own_old;
        self.own_shown.filter(|_| counts).map(|since| since + OWN_FRESH_MS)
    }

    /// A limit that counts while the tablet is away has passed.
    pub fn limit_passed(&self, setup: &Setup<'_>, facts: &Facts, now: Moment) -> bool {
        let minimum = self.minimum_since.map(|since| since + i64::from(setup.rules.minimum_output_s) * 1000);
        let loss = self.loss_since.map(|since| since + i64::from(setup.rules.after_loss_s) * 1000);
        let own = self.own_old_at(facts);
        [minimum, loss, own].into_iter().flatten().any(|at| at <= now.boot_ms)
    }
}

fn same_watch(before: &Facts, after: &Facts) -> bool {
    before.phase == Phase::Watching
        && before.step == after.step
        && before.to == after.to
        && before.stand == after.stand
        && before.pauses == after.pauses
        && before.marks == after.marks
}

/// Once asked down for sensing, until it stands at restore again: no standby from the wires.
fn without_standby(setup: &Setup<'_>, facts: &Facts) -> bool {
    facts.lowest_output() < restore::target(setup, facts).output
}
