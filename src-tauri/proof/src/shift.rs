//! What else a shift brings: an order, something that happens in mid-check, and a second check some hours later.

use domain::profile::{Position, Profile};
use domain::rules::Rules;
use observer::Reading;
use simulator::{Chamber, Course, Heart};

use crate::draw::Draw;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shift {
    /// Where the generator is found asynchronous, somebody has ordered it.
    pub ordered: bool,
    /// A shock in the last 24 hours: whoever is at the bedside knows of it.
    pub shocked: bool,
    pub happens: Option<Happens>,
    pub later: Option<Box<Later>>,
}

/// At an instant of the patient's time, while the check is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Happens {
    pub at_us: u64,
    pub what: Mishap,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mishap {
    /// An external shock, for whatever reason: thresholds rise at once.
    Shock,
    LeadLost,
}

/// The next check of the same wire on the same tablet, so long after the first has ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Later {
    pub after_ms: i64,
    pub heart: Heart,
    pub ordered: bool,
    pub shocked: bool,
    /// Somebody has turned OUTPUT meanwhile: a position, and its share of the dial in percent.
    pub output_percent: Option<u32>,
}

/// Minutes after which a shock is met in mid-check: the threshold is highest.
const JUST_SHOCKED_MIN: u32 = 3;

impl Happens {
    pub fn heart(self, heart: &Heart) -> Heart {
        match self.what {
            Mishap::Shock => heart.after_shock(JUST_SHOCKED_MIN),
            Mishap::LeadLost => Heart { lead: simulator::Lead::Lost, ..heart.clone() },
        }
    }
}

/// Drawn last, so that a seed stays the same patient otherwise.
pub fn shift(draw: &mut Draw, heart: &Heart, plain: bool) -> Shift {
    let ordered = draw.percent(40);
    let happens = (!plain && draw.percent(6)).then(|| happens(draw));
    let later = draw.percent(25).then(|| Box::new(later(draw, heart, plain)));
    Shift { ordered, shocked: false, happens, later }
}

fn happens(draw: &mut Draw) -> Happens {
    let at_us = u64::from(draw.between(20, 240)) * 1_000_000;
    let what = if draw.percent(50) { Mishap::Shock } else { Mishap::LeadLost };
    Happens { at_us, what }
}

/// Before the next check is due, about then, or long after.
fn later(draw: &mut Draw, heart: &Heart, plain: bool) -> Later {
    let after_min = draw.between(60, 16 * 60);
    let shocked = draw.percent(15);
    let mut changed =
        if shocked { heart.after_shock(draw.between(3, after_min)) } else { changed(draw, heart) };
    if plain {
        // As drawn: no wave but the beats of the chamber is as large as the unit's numbers.
        let most = changed.signal.own_uv / 4;
        changed.signal.t_wave_uv = changed.signal.t_wave_uv.min(most);
        changed.signal.far_field_uv = changed.signal.far_field_uv.min(most);
    }
    let ordered = draw.percent(40);
    let output_percent = draw.percent(10).then(|| draw.between(0, 100));
    Later { after_ms: i64::from(after_min) * 60_000, heart: changed, ordered, shocked, output_percent }
}

/// Days pass faster here than on a ward, so that thresholds and signals differ from the record's.
fn changed(draw: &mut Draw, heart: &Heart) -> Heart {
    match draw.between(0, 9) {
        0..=2 => heart.clone(),
        3..=5 => {
            let course = match heart.wire {
                Chamber::Atrium => Course::ATRIAL_APPENDAGE,
                Chamber::Ventricle => Course::VENTRICLE,
            };
            heart.on_day(course, draw.between(1, 5))
        }
        6 | 7 => heart.on_day(Course::RISING, draw.between(1, 5)),
        _ => {
            let mut better = heart.clone();
            let times = |value: u32, percent: u32| value.saturating_mul(percent) / 100;
            let (threshold, signal) = (draw.between(40, 95), draw.between(60, 200));
            better.capture.going_down_micro = times(heart.capture.going_down_micro, threshold).max(1);
            better.capture.going_up_micro = times(heart.capture.going_up_micro, threshold).max(1);
            better.capture.scatter_micro = times(heart.capture.scatter_micro, threshold);
            better.signal.own_uv = times(heart.signal.own_uv, signal);
            better.signal.own_scatter_uv = times(heart.signal.own_scatter_uv, signal);
            better.signal.breath_uv = times(heart.signal.breath_uv, signal);
            better
        }
    }
}

impl Later {
    /// The dials as they are found then.
    pub fn found(&self, profile: &Profile, left: &Reading) -> Reading {
        let Some(percent) = self.output_percent else { return left.clone() };
        let place = u32::from(profile.output_last()) * percent / 100;
        let output = Position::try_from(place).unwrap_or(0);
        Reading { output: profile.output_text(output).to_owned(), ..left.clone() }
    }
}

/// Off in the example rules: a unit switches it on.
pub fn margin_check(draw: &mut Draw, rules: &mut Rules) {
    rules.margin_check = draw.percent(25);
}
