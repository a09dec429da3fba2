//! A threshold that differs from beat to beat: how many misses so many watched beats leave open, and how often the
//! plan's real margin then falls below the rule.

use std::fmt;

use domain::check::facts::Found;
use domain::profile::shipped;
use domain::rules::{OutputRule, Rules};
use observer::Reading;
use simulator::{Capture, Chamber, Heart};

use crate::case::Case;
use crate::play::play;
use crate::played::{End, Played, Stuck};
use crate::shift::Shift;

/// The same in both directions: only the beats are looked at here. µA.
const MIDDLE: u32 = 1_600;
/// Each a quarter of the checks. µA.
const SCATTERS: [u32; 4] = [100, 200, 300, 400];

/// In one case of twenty, n of n beats without a miss leave a greater share of misses than this (RULE3).
#[allow(clippy::disallowed_methods, reason = "printed and drawn, never played")]
pub fn left_open(beats: u8) -> f64 {
    1.0 - 0.05_f64.powf(1.0 / f64::from(beats))
}

/// The same patients, watched for so many beats at the threshold.
#[derive(Clone, Debug)]
pub struct Watched {
    pub beats: u8,
    pub checks: usize,
    /// Of each threshold found, the share of beats that it misses.
    pub miss_rates: Vec<f64>,
    /// Outputs set below double the one that misses no beat.
    pub below_rule: usize,
    pub stuck: Vec<(u64, Stuck)>,
}

#[derive(Clone, Debug)]
pub struct Scatter {
    pub rows: Vec<Watched>,
}

impl Scatter {
    /// Nobody watched yet, at each number of beats that the table of trade names.
    pub fn begun() -> Scatter {
        Scatter { rows: [5, 10, 20, 30].map(Watched::begun).to_vec() }
    }

    /// Plays this patient once for each number of beats.
    pub fn add(&mut self, seed: u64) {
        self.rows.iter_mut().for_each(|row| row.add(seed));
    }

    /// Both together.
    pub fn merge(&mut self, other: Scatter) {
        self.rows.iter_mut().zip(other.rows).for_each(|(row, other)| row.merge(other));
    }

    pub fn is_complete(&self, checks: u64) -> bool {
        self.rows.iter().all(|row| row.stuck.is_empty() && row.checks as u64 == checks)
    }
}

impl Watched {
    fn begun(beats: u8) -> Watched {
        Watched { beats, checks: 0, miss_rates: Vec::new(), below_rule: 0, stuck: Vec::new() }
    }

    fn add(&mut self, seed: u64) {
        self.checks += 1;
        let case = case(seed, self.beats);
        match case.and_then(|case| play(&case).map(|played| (case, played))) {
            Ok((_, Played { end: End::Stuck(stuck), .. })) | Err(stuck) => self.stuck.push((seed, stuck)),
            Ok((case, played)) => self.count(&case, &played),
        }
    }

    fn count(&mut self, case: &Case, played: &Played) {
        let Some(record) = played.record.as_ref().filter(|record| record.capture == Found::Exact) else {
            return;
        };
        let scatter = case.heart.capture.scatter_micro;
        self.miss_rates.push(miss_rate(scatter, case.profile.output_at(record.facts.capture_at)));
        self.below_rule += usize::from(record.output_micro < 2 * (MIDDLE + scatter));
    }

    fn merge(&mut self, other: Watched) {
        self.checks += other.checks;
        self.miss_rates.extend(other.miss_rates);
        self.below_rule += other.below_rule;
        self.stuck.extend(other.stuck);
    }

    /// The share of thresholds that miss more than n of n beats leave open.
    pub fn above_left_open(&self, beats: u8) -> f64 {
        self.share(self.miss_rates.iter().filter(|rate| **rate > left_open(beats)).count())
    }

    pub fn below_rule(&self) -> f64 {
        self.share(self.below_rule)
    }

    /// The share of beats that 95 of 100 thresholds do not exceed in misses; 0 of none.
    pub fn missed_by_95(&self) -> f64 {
        let mut sorted = self.miss_rates.clone();
        sorted.sort_by(f64::total_cmp);
        let place = (sorted.len() * 95).div_ceil(100).saturating_sub(1);
        sorted.get(place).copied().unwrap_or(0.0)
    }

    fn share(&self, count: usize) -> f64 {
        count as f64 / self.miss_rates.len().max(1) as f64
    }
}

fn case(seed: u64, beats: u8) -> Result<Case, Stuck> {
    let mut rules = Rules::example();
    rules.beats_threshold = beats;
    rules.output_rule = OutputRule::Double;
    let profiles = shipped().map_err(|(file, fault)| Stuck::Equipment(format!("{file}: {fault}")))?;
    let profile = profiles.into_iter().find(|profile| profile.id == "example-fine-current");
    let profile = profile.ok_or_else(|| Stuck::Equipment("the fine dial is not there".to_owned()))?;
    let scatter_micro = SCATTERS[(seed % 4) as usize];
    let capture =
        Capture { going_down_micro: MIDDLE, going_up_micro: MIDDLE, scatter_micro, ..Capture::default() };
    let found = Reading { output: "6.0".to_owned(), rate: "80".to_owned(), mv: Some("2.0".to_owned()) };
    Ok(Case {
        seed,
        port: Chamber::Ventricle,
        profile,
        rules,
        heart: Heart { capture, ..Heart::sinus(72) },
        found,
        plain: false,
        shift: Shift::default(),
    })
}

/// At this output: thresholds are drawn evenly about the middle.
fn miss_rate(scatter: u32, output: u32) -> f64 {
    let (scatter, above) = (f64::from(scatter), f64::from(MIDDLE + scatter) - f64::from(output));
    (above / (2.0 * scatter)).clamp(0.0, 1.0)
}

/// One line a number of beats; shares in percent, of thresholds found but for "left open" and "missed by".
impl fmt::Display for Scatter {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "simulated; rule: double the threshold")?;
        writeln!(
            out,
            "beats  checks  thresholds  left-open  missed-by-95-of-100  missing-more  margin-below-rule"
        )?;
        for row in &self.rows {
            writeln!(
                out,
                "{:>5}  {:>6}  {:>10}  {:>8.1}%  {:>18.1}%  {:>11.1}%  {:>16.1}%",
                row.beats,
                row.checks,
                row.miss_rates.len(),
                100.0 * left_open(row.beats),
                100.0 * row.missed_by_95(),
                100.0 * row.above_left_open(row.beats),
                100.0 * row.below_rule(),
            )?;
        }
        let stuck = self.rows.iter().flat_map(|row| row.stuck.iter().map(move |stuck| (row.beats, stuck)));
        stuck
            .into_iter()
            .try_for_each(|(beats, (seed, stuck))| writeln!(out, "stuck {seed} at {beats} beats {stuck:?}"))
    }
}
