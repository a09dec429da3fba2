//! What happens by itself, waiting for its moment.

use domain::check::facts::{Dial, Dials};
use domain::practice::Happened;
use domain::profile::{Position, Profile};
use simulator::{Heart, Power};

use crate::fault::Fault;
use crate::file::{
    ChamberName, ExerciseFile, HappeningFile, LoadedHeart, Moved, PowerName, StandsFile, WhatFile, WhenFile,
    position,
};

/// Those of one run, in the order of the file; each once.
#[derive(Clone, Debug)]
pub struct Happenings {
    waiting: Vec<Waiting>,
    heart: LoadedHeart,
    label: ChamberName,
    profile: Profile,
}

/// What is to be done to the patient now.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    Heart(Heart),
    /// The heart as it is after an external shock.
    Shock(Heart),
    Power(Power),
    Turn {
        dial: Dial,
        to: Position,
    },
}

#[derive(Clone, Debug)]
struct Waiting {
    when: When,
    what: What,
    /// Since when everything named has been so.
    since_us: Option<u64>,
    done: bool,
}

#[derive(Clone, Debug)]
enum What {
    Heart(Box<LoadedHeart>),
    Shock { minutes: u32 },
    Power(Power),
    Turn { dial: Dial, to: Position },
}

#[derive(Clone, Debug)]
struct When {
    at_us: u64,
    /// Each dial between the two positions.
    dials: Vec<(Dial, Position, Position)>,
    after_the_last: bool,
    after_us: u64,
}

impl Change {
    pub fn told(&self) -> Happened {
        match self {
            Change::Heart(_) => Happened::HeartChanged,
            Change::Shock(_) => Happened::Shock,
            Change::Power(_) => Happened::Power,
            Change::Turn { dial, .. } => Happened::DialTurned(*dial),
        }
    }
}

impl Happenings {
    pub(crate) fn read(
        file: &ExerciseFile,
        heart: &LoadedHeart,
        profile: &Profile,
    ) -> Result<Happenings, Fault> {
        let each = file.happenings.iter().enumerate();
        let waiting = each.map(|(at, happening)| {
            Waiting::read(happening, profile).map_err(|fault| fault.within(&format!("happenings[{at}]")))
        });
        let happenings = Happenings {
            waiting: waiting.collect::<Result<_, _>>()?,
            heart: heart.clone(),
            label: file.chamber,
            profile: profile.clone(),
        };
        happenings.try_hearts().map(|()| happenings)
    }

    /// Each heart that will come can beat.
    fn try_hearts(&self) -> Result<(), Fault> {
        let unit = self.profile.output_unit();
        let possible = |(place, heart): (String, Heart)| {
            heart.validate().map_err(|why| Fault::Heart { place, why, unit })
        };
        self.hearts().into_iter().try_for_each(possible)
    }

    /// Each heart that will come, and where it is written.
    pub(crate) fn hearts(&self) -> Vec<(String, Heart)> {
        let (mut heart, mut hearts) = (self.heart.clone(), Vec::new());
        for (at, waiting) in self.waiting.iter().enumerate() {
            let (over, place) = match &waiting.what {
                What::Heart(over) => (Some(over), format!("happenings[{at}].what.heart")),
                What::Shock { .. } => (None, format!("happenings[{at}].what.shock")),
                What::Power(_) | What::Turn { .. } => continue,
            };
            heart = over.map_or_else(|| heart.clone(), |over| heart.changed_by(over));
            let shocked = matches!(waiting.what, What::Shock { .. });
            let simulated = heart.heart(self.label, &self.profile);
            hearts.push((place, if shocked { simulated.after_shock(0) } else { simulated }));
        }
        hearts
    }

    /// As they befall the patient whom a seed has drawn.
    pub(crate) fn moved(&self, moved: Moved) -> Happenings {
        Happenings { heart: self.heart.moved(moved), ..self.clone() }
    }

    /// What happens at this instant, with the dials as they stand. Asked every twentieth of a second.
    pub fn now(&mut self, now_us: u64, dials: Dials) -> Vec<Change> {
        let mut changes = Vec::new();
        let mut before_done = true;
        for waiting in &mut self.waiting {
            if !waiting.done && waiting.is_due(now_us, dials, before_done) {
                waiting.done = true;
                changes.push(change(&mut self.heart, &waiting.what, self.label, &self.profile));
            }
            before_done = waiting.done;
        }
        changes
    }
}

fn change(heart: &mut LoadedHeart, what: &What, label: ChamberName, profile: &Profile) -> Change {
    match what {
        What::Heart(over) => {
            *heart = heart.changed_by(over);
            Change::Heart(heart.heart(label, profile))
        }
        What::Shock { minutes } => Change::Shock(heart.heart(label, profile).after_shock(*minutes)),
        What::Power(power) => Change::Power(*power),
        What::Turn { dial, to } => Change::Turn { dial: *dial, to: *to },
    }
}

impl Waiting {
    fn read(file: &HappeningFile, profile: &Profile) -> Result<Waiting, Fault> {
        let what = match &file.what {
            WhatFile::Heart(heart) => {
                heart.check()?;
                What::Heart(Box::new(heart.loaded().map_err(|fault| fault.within("what.heart"))?))
            }
            WhatFile::Shock { minutes } => What::Shock { minutes: *minutes },
            WhatFile::Power(power) => What::Power(match power {
                PowerName::Good => Power::Good,
                PowerName::BatteryLow => Power::BatteryLow,
                PowerName::Off => Power::Off,
            }),
            WhatFile::Turn { dial, to } => {
                What::Turn { dial: dial.dial(), to: position(profile, dial.dial(), to)? }
            }
        };
        let when = When::read(&file.when, profile).map_err(|fault| fault.within("when"))?;
        Ok(Waiting { when, what, since_us: None, done: false })
    }

    fn is_due(&mut self, now_us: u64, dials: Dials, before_done: bool) -> bool {
        let when = &self.when;
        let stands = when.dials.iter().all(|(dial, least, most)| (least..=most).contains(&&dials.at(*dial)));
        let holds = now_us >= when.at_us && stands && (before_done || !when.after_the_last);
        if !holds && self.since_us.is_none() {
            return false;
        }
        let since = *self.since_us.get_or_insert(now_us);
        now_us >= since + when.after_us
    }
}

impl When {
    fn read(file: &WhenFile, profile: &Profile) -> Result<When, Fault> {
        if file.at_s.is_none() && file.dials.is_empty() && !file.after_the_last {
            return Err(Fault::NeverHappens { place: "dials".to_owned() });
        }
        let dials = file.dials.iter().map(|stands| between(stands, profile));
        let second = |s: u32| u64::from(s) * 1_000_000;
        Ok(When {
            at_us: second(file.at_s.unwrap_or(0)),
            dials: dials.collect::<Result<_, _>>()?,
            after_the_last: file.after_the_last,
            after_us: second(file.after_s),
        })
    }
}

fn between(stands: &StandsFile, profile: &Profile) -> Result<(Dial, Position, Position), Fault> {
    let dial = stands.dial.dial();
    let bound = |text: &Option<String>, otherwise: Position| {
        text.as_ref().map_or(Ok(otherwise), |text| position(profile, dial, text))
    };
    if stands.at_least.is_none() && stands.at_most.is_none() {
        return Err(Fault::NeverHappens { place: "dials".to_owned() });
    }
    Ok((dial, bound(&stands.at_least, 0)?, bound(&stands.at_most, Position::MAX)?))
}
