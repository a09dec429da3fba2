//! One case: everything a run depends on, from one seed.

use domain::document::Fault;
use domain::profile::{Position, Profile};
use domain::rules::Rules;
use observer::Reading;
use simulator::{Chamber, Heart, Truth};

use crate::draw::Draw;
use crate::shift::{self, Mishap, Shift};
use crate::{equipment, hearts};

#[derive(Clone, Debug)]
pub struct Case {
    pub seed: u64,
    pub port: Chamber,
    pub profile: Profile,
    pub rules: Rules,
    pub heart: Heart,
    pub found: Reading,
    /// Nothing in the heart is left to chance.
    pub plain: bool,
    pub shift: Shift,
}

impl Case {
    /// # Errors
    /// Equipment was drawn that no file may describe: a fault of the drawing.
    pub fn drawn(seed: u64) -> Result<Case, Fault> {
        let mut draw = Draw::new(seed);
        let port = if draw.percent(25) { Chamber::Atrium } else { Chamber::Ventricle };
        let plain = draw.percent(60);
        let profile = equipment::profile(&mut draw)?;
        let mut rules = equipment::rules(&mut draw)?;
        let mut heart = hearts::heart(&mut draw, port, profile.output_unit(), plain);
        let found = found(&mut draw, &heart, &profile);
        // What came later is drawn last, so that a seed stays the same patient otherwise.
        shift::margin_check(&mut draw, &mut rules);
        hearts::unrest(&mut draw, &mut heart, plain);
        let shift = shift::shift(&mut draw, &heart, plain);
        Ok(Case { seed, port, profile, rules, heart, found, plain, shift })
    }

    /// The next check on the same tablet: the dials as they were left, unless somebody has turned one.
    pub fn later(&self, left: &Reading) -> Option<Case> {
        let later = self.shift.later.as_deref()?;
        let found = later.found(&self.profile, left);
        let shift = Shift { ordered: later.ordered, shocked: later.shocked, happens: None, later: None };
        // Other chances than in the first check.
        let seed = !self.seed;
        Some(Case { seed, heart: later.heart.clone(), found, shift, ..self.clone() })
    }

    /// The heart as it is once everything that happens in this check has happened.
    pub fn heart_in_the_end(&self) -> Heart {
        self.shift.happens.map_or_else(|| self.heart.clone(), |happens| happens.heart(&self.heart))
    }

    /// The heart's own numbers, at this generator's pulse width.
    pub fn truth(&self) -> Truth {
        Truth::of(&self.heart, self.profile.pulse_width_us)
    }

    /// From beat to beat, and from the first card to the last: there is one output that the rule can be held against.
    pub fn has_a_steady_threshold(&self) -> bool {
        self.heart.capture.scatter_micro == 0 && self.shift.happens.is_none()
    }

    /// The same: there is one highest number that sees.
    pub fn has_a_steady_signal(&self) -> bool {
        let signal = self.heart.signal;
        let lost = self.shift.happens.is_some_and(|happens| happens.what == Mishap::LeadLost);
        signal.own_scatter_uv == 0 && signal.breath_uv == 0 && signal.drift_uv_per_hour == 0 && !lost
    }
}

/// Mostly a setting somebody has made with care; now and then one that does not capture, or does not see.
fn found(draw: &mut Draw, heart: &Heart, profile: &Profile) -> Reading {
    let truth = Truth::of(heart, profile.pulse_width_us);
    let output = output(draw, &truth, profile);
    let mv = number(draw, &truth, profile).map(|at| profile.mv_text(at).to_owned());
    let rate = rate(draw, &truth, profile);
    Reading { output: profile.output_text(output).to_owned(), rate: profile.rate_text(rate).to_owned(), mv }
}

fn output(draw: &mut Draw, truth: &Truth, profile: &Profile) -> Position {
    let times = if draw.percent(90) { draw.between(120, 400) } else { draw.between(20, 130) };
    let wanted = u64::from(truth.going_up_micro) * u64::from(times) / 100;
    let last = profile.output_last();
    (0..=last).find(|at| u64::from(profile.output_at(*at)) >= wanted).unwrap_or(last)
}

/// `None` is asynchronous.
fn number(draw: &mut Draw, truth: &Truth, profile: &Profile) -> Option<Position> {
    let last = profile.mv_last();
    let can_be_asynchronous = profile.asynchronous() != domain::profile::AsynchronousBy::None;
    if can_be_asynchronous && draw.percent(3) {
        return None;
    }
    let share = if draw.percent(88) { draw.between(15, 90) } else { draw.between(90, 200) };
    let wanted = u64::from(truth.smallest_signal_uv) * u64::from(share) / 100;
    Some((0..=last).rfind(|at| u64::from(profile.mv_at(*at)) <= wanted).unwrap_or(0))
}

fn rate(draw: &mut Draw, truth: &Truth, profile: &Profile) -> Position {
    let own = truth.own.map_or(0, |own| u32::try_from(60_000_000 / own.slowest_us.max(1)).unwrap_or(0));
    let wanted = match draw.between(0, 9) {
        _ if own == 0 => draw.between(60, 90),
        0..=5 => own + draw.between(2, 30),
        6..=8 => own.saturating_sub(draw.between(2, 30)),
        _ => draw.between(40, 110),
    };
    let wanted = wanted.clamp(40, 110);
    let last = profile.rate_last();
    (0..=last).find(|at| u32::from(profile.rate_at(*at)) >= wanted).unwrap_or(last)
}
