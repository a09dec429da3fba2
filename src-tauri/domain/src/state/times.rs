//! The instants a check measures from, in milliseconds of this boot.

use serde::{Deserialize, Serialize};

use crate::check::answer::TimeUp;
use crate::check::facts::{Facts, Found, Own, Phase};
use crate::check::setup::Setup;
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
        let at = now.boot_ms;
        let starts_watch = after.phase == Phase::Watching && !same_watch(before, after);
        let keeps_watch = after.phase == Phase::Watching && !after.step.is_side();
        let shown = before.own != Own::Shown && after.own == Own::Shown;
        let counted_in_vain = before.step == Step::CaptureCount && after.step != Step::CaptureCount;
        let lost = after.loss_open && (!before.loss_open || counted_in_vain);
        Times {
            boot: now.boot,
            watch_from: if starts_watch { Some(at) } else { self.watch_from.filter(|_| keeps_watch) },
            watch_until: if starts_watch {
                Some(at + watch::length_ms(setup, after))
            } else {
                self.watch_until.filter(|_| keeps_watch)
            },
            own_shown: if shown { Some(at) } else { self.own_shown.filter(|_| after.own == Own::Shown) },
            minimum_since: if at_minimum(after) { self.minimum_since.or(Some(at)) } else { None },
            loss_since: if lost { Some(at) } else { self.loss_since.filter(|_| after.loss_open) },
        }
    }

    /// What time itself will do next, and when.
    pub fn due(&self, setup: &Setup<'_>, facts: &Facts) -> Option<(i64, TimeUp)> {
        let side = facts.step.is_side();
        let watch = self.watch_until.filter(|_| facts.phase == Phase::Watching && !side);
        let own = self.own_shown.filter(|_| !facts.own_old).map(|since| since + OWN_FRESH_MS);
        let searching = matches!(facts.step, Step::SenseMinimum | Step::SenseUp | Step::SenseDown);
        let minimum = self
            .minimum_since
            .filter(|_| searching)
            .map(|since| since + i64::from(setup.rules.minimum_output_s) * 1000);
        let climbing = matches!(facts.step, Step::CaptureBack | Step::CaptureUp);
        let loss = self
            .loss_since
            .filter(|_| climbing)
            .map(|since| since + i64::from(setup.rules.after_loss_s) * 1000);
        [(loss, TimeUp::Loss), (minimum, TimeUp::Minimum), (watch, TimeUp::Watch), (own, TimeUp::OwnOld)]
            .into_iter()
            .filter_map(|(at, up)| Some((at?, up)))
            .min_by_key(|(at, _)| *at)
    }

    /// A limit that counts while the tablet is away has passed.
    pub fn limit_passed(&self, setup: &Setup<'_>, facts: &Facts, now: Moment) -> bool {
        let minimum = self.minimum_since.map(|since| since + i64::from(setup.rules.minimum_output_s) * 1000);
        let loss = self.loss_since.map(|since| since + i64::from(setup.rules.after_loss_s) * 1000);
        let own = self.own_shown.filter(|_| !facts.own_old).map(|since| since + OWN_FRESH_MS);
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

/// From the card that asks OUTPUT down until it is up again: no standby from the wires.
fn at_minimum(facts: &Facts) -> bool {
    let step = if facts.step.is_side() { facts.from } else { facts.step };
    let sensing = matches!(
        step,
        Step::SenseMinimum | Step::SenseUp | Step::SenseDown | Step::SenseMvOut | Step::SenseOutputOut
    );
    sensing && (facts.sensing == Found::Nothing || facts.stand.output == 0)
}
