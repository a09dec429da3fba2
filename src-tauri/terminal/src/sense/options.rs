//! What stands on the command line, in any order.

use domain::units::{MICRO_PER_MILLI, scaled};

use super::fault::{Allowed, SenseFault};

const FASTEST_HZ: u32 = 100_000;
const LONGEST_BLANK_MS: u32 = 10_000;
/// More levels than this is a slip of the finger.
const LEVELS_MOST: u32 = 100_000;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Options {
    pub signal: String,
    pub hz: u32,
    /// Levels in µV, so that a step adds up exactly.
    pub from_uv: u32,
    pub to_uv: u32,
    pub step_uv: u32,
    pub blank_ms: u32,
    pub json: bool,
}

impl Options {
    /// # Errors
    /// An option is missing, twice there, unknown, or out of its range.
    pub fn read(words: &[&str]) -> Result<Options, SenseFault> {
        let mut given = Given::default();
        let mut words = words.iter();
        while let Some(word) = words.next() {
            given.take(word, words.by_ref())?;
        }
        given.options()
    }

    /// Of a sample, in thousandths of the time between two samples: blanking is a whole number of these too.
    pub fn instant(&self, sample: u64) -> u64 {
        sample * 1_000
    }

    pub fn blanking(&self) -> u64 {
        u64::from(self.blank_ms) * u64::from(self.hz)
    }
}

#[derive(Default)]
struct Given {
    values: Vec<(&'static str, String)>,
    json: bool,
}

const NAMES: [&str; 6] = ["--signal", "--hz", "--from", "--to", "--step", "--blank-ms"];

impl Given {
    fn take<'a>(
        &mut self,
        word: &str,
        mut rest: impl Iterator<Item = &'a &'a str>,
    ) -> Result<(), SenseFault> {
        if word == "--json" {
            self.json = true;
            return Ok(());
        }
        let name = NAMES.into_iter().find(|name| *name == word);
        let name = name.ok_or_else(|| SenseFault::NoSuchOption { found: word.to_owned() })?;
        let value = rest.next().ok_or(SenseFault::Missing { name })?;
        self.values.retain(|(other, _)| *other != name);
        self.values.push((name, (*value).to_owned()));
        Ok(())
    }

    fn options(self) -> Result<Options, SenseFault> {
        let from_uv = self.level("--from", 0)?;
        let to_uv = self.level("--to", from_uv)?;
        let step_uv = self.level("--step", 1)?;
        if (to_uv - from_uv) / step_uv >= LEVELS_MOST {
            return Err(self.out_of_range("--step", Allowed::FewerLevels { most: LEVELS_MOST }));
        }
        Ok(Options {
            signal: self.text("--signal")?.to_owned(),
            hz: self.whole("--hz", 1, FASTEST_HZ)?,
            from_uv,
            to_uv,
            step_uv,
            blank_ms: self.whole("--blank-ms", 0, LONGEST_BLANK_MS)?,
            json: self.json,
        })
    }

    fn text(&self, name: &'static str) -> Result<&str, SenseFault> {
        let found = self.values.iter().find(|(other, _)| *other == name);
        found.map(|(_, value)| value.as_str()).ok_or(SenseFault::Missing { name })
    }

    fn whole(&self, name: &'static str, least: u32, most: u32) -> Result<u32, SenseFault> {
        let number = self.text(name)?.parse().ok().filter(|number| (least..=most).contains(number));
        number.ok_or_else(|| self.out_of_range(name, Allowed::Whole { least, most }))
    }

    /// In mV, to the thousandth.
    fn level(&self, name: &'static str, least_uv: u32) -> Result<u32, SenseFault> {
        let level = scaled(self.text(name)?, MICRO_PER_MILLI).filter(|uv| *uv >= least_uv);
        level.ok_or_else(|| self.out_of_range(name, Allowed::LevelFrom { least: least_uv }))
    }

    fn out_of_range(&self, name: &'static str, allowed: Allowed) -> SenseFault {
        let found = self.text(name).unwrap_or_default().to_owned();
        SenseFault::OutOfRange { name, found, allowed }
    }
}
