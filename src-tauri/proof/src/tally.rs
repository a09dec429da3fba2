//! What many runs came to.

use std::collections::BTreeMap;
use std::fmt;

use domain::check::facts::Marks;

use crate::bystander::SpikeOnT;
use crate::case::Case;
use crate::harm::{Harm, harms, is_at_minimum};
use crate::play::play_shift;
use crate::played::{Answered, End, Played, Stuck};

/// Failures kept with their seeds; the rest is counted.
const KEPT: usize = 200;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Harmed {
    pub seed: u64,
    /// In the second check of its shift.
    pub second: bool,
    pub harm: Harm,
}

#[derive(Clone, Debug, Default)]
pub struct Tally {
    pub checks: u64,
    /// How checks ended and what they found, by name.
    pub ends: BTreeMap<String, u64>,
    pub harmed: u64,
    pub stuck: u64,
    /// Captured spikes on T waves, and those of them at minimum output.
    pub spikes_on_t: u64,
    pub spikes_on_t_at_minimum: u64,
    /// Those that the first acts for a heart without beats cost.
    pub spikes_on_t_in_first_acts: u64,
    /// Checks in which the ventricle came to fibrillate, by whatever spike.
    pub fibrillated: u64,
    /// Checks that were a second one on the same tablet.
    pub second: u64,
    pub harms: Vec<Harmed>,
    pub faults: Vec<(u64, Stuck)>,
}

impl Tally {
    /// Plays one case and counts it.
    pub fn add(&mut self, seed: u64) {
        self.checks += 1;
        let (mut harmed, mut second) = (false, false);
        let played =
            Case::drawn(seed).map_err(|fault| Stuck::Equipment(fault.to_string())).and_then(|case| {
                play_shift(&case, &mut |case, played| {
                    self.second += u64::from(second);
                    let found = self.count(seed, case, played);
                    harmed |= !found.is_empty();
                    self.harms.extend(found.into_iter().map(|harm| Harmed { seed, second, harm }));
                    second = true;
                })
            });
        self.harmed += u64::from(harmed);
        self.harms.truncate(KEPT);
        if let Err(stuck) = played {
            self.stick(seed, stuck);
        }
    }

    pub fn count_of(&self, name: &str) -> u64 {
        self.ends.get(name).copied().unwrap_or_default()
    }

    /// Both together.
    pub fn merge(&mut self, other: Tally) {
        self.checks += other.checks;
        self.harmed += other.harmed;
        self.stuck += other.stuck;
        self.spikes_on_t += other.spikes_on_t;
        self.spikes_on_t_at_minimum += other.spikes_on_t_at_minimum;
        self.spikes_on_t_in_first_acts += other.spikes_on_t_in_first_acts;
        self.fibrillated += other.fibrillated;
        self.second += other.second;
        other.ends.into_iter().for_each(|(name, count)| *self.ends.entry(name).or_default() += count);
        self.harms.extend(other.harms);
        self.faults.extend(other.faults);
    }

    pub fn is_clean(&self) -> bool {
        self.harmed == 0 && self.stuck == 0
    }

    fn stick(&mut self, seed: u64, stuck: Stuck) {
        self.stuck += 1;
        self.faults.push((seed, stuck));
        self.faults.truncate(KEPT);
    }

    fn count(&mut self, seed: u64, case: &Case, played: &Played) -> Vec<Harm> {
        if let End::Stuck(stuck) = &played.end {
            self.stick(seed, stuck.clone());
            return Vec::new();
        }
        self.name(format!("end {:?}", played.end));
        self.spikes_on_t += played.bystander.spikes_on_t.len() as u64;
        let minimum = |spike: &&SpikeOnT| is_at_minimum(case, &spike.place.dials);
        self.spikes_on_t_at_minimum += played.bystander.spikes_on_t.iter().filter(minimum).count() as u64;
        let in_first_acts = |spike: &&SpikeOnT| spike.in_first_acts;
        self.spikes_on_t_in_first_acts +=
            played.bystander.spikes_on_t.iter().filter(in_first_acts).count() as u64;
        self.fibrillated += u64::from(played.bystander.fibrillated.is_some());
        if let Some(record) = &played.record {
            self.name(format!("capture {:?}", record.capture));
            self.name(format!("sensing {:?}", record.sensing));
            self.name(format!("own {:?}", record.why_sensing));
            if record.facts.marks.has(Marks::ASYNCHRONOUS_ORDERED) {
                self.name("ordered".to_owned());
            }
        }
        let margin = |answered: &Answered| answered.asks == "AskMargin" && answered.key == "yes";
        if played.answers.iter().any(margin) {
            self.name("margin".to_owned());
        }
        harms(case, played)
    }

    fn name(&mut self, end: String) {
        *self.ends.entry(end).or_default() += 1;
    }
}

/// One name and figure a line; harms and faults with their seeds.
impl fmt::Display for Tally {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{:>9} checks", self.checks)?;
        writeln!(out, "{:>9} second checks", self.second)?;
        for (name, count) in &self.ends {
            writeln!(out, "{count:>9} {name}")?;
        }
        writeln!(out, "{:>9} spikes-on-t", self.spikes_on_t)?;
        writeln!(out, "{:>9} spikes-on-t-at-minimum", self.spikes_on_t_at_minimum)?;
        writeln!(out, "{:>9} spikes-on-t-in-first-acts", self.spikes_on_t_in_first_acts)?;
        writeln!(out, "{:>9} fibrillated", self.fibrillated)?;
        writeln!(out, "{:>9} harmed", self.harmed)?;
        writeln!(out, "{:>9} stuck", self.stuck)?;
        for Harmed { seed, second, harm } in &self.harms {
            writeln!(out, "harm {seed} {}{harm:?}", if *second { "second check " } else { "" })?;
        }
        self.faults.iter().try_for_each(|(seed, stuck)| writeln!(out, "stuck {seed} {stuck:?}"))
    }
}
