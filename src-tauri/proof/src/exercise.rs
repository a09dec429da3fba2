//! An exercise led through the shipped check by the same person as in the closed loop: the run that a careful
//! learner could have done.

use domain::check::facts::{Dial, Dials};
use domain::practice::{Entry, Said};
use domain::profile::Profile;
use domain::record::Printed;
use domain::say::{Say, figure};
use observer::{Observer, Puzzled, Reading, Trouble};
use practice::{Change, Exercise};

use crate::case::Case;
use crate::play::play_beside;
use crate::played::{Played, Stuck};
use crate::shift::Shift;

#[derive(Clone, Debug)]
pub struct Practised {
    pub played: Played,
    /// As a session would have kept them.
    pub entries: Vec<Entry>,
}

/// # Errors
/// The run could not begin.
pub fn practise(exercise: &Exercise, seed: u64) -> Result<Practised, Stuck> {
    let mut happenings = exercise.happenings(seed);
    let mut dials = Standing { profile: &exercise.profile, last: exercise.found };
    let mut beside = |observer: &mut Observer| {
        let stand = dials.read(observer.bedside.reading());
        let changes = happenings.now(observer.bedside.now_us(), stand);
        changes.into_iter().try_for_each(|change| happen(observer, &exercise.profile, change))
    };
    let played = play_beside(&case(exercise, seed), &mut beside)?;
    Ok(Practised { entries: entries(&played), played })
}

/// The same run, as the closed loop knows it.
pub fn case(exercise: &Exercise, seed: u64) -> Case {
    let found = Printed::of(&exercise.profile, exercise.found);
    Case {
        seed,
        port: exercise.port(),
        profile: exercise.profile.clone(),
        rules: exercise.rules.clone(),
        heart: exercise.heart(seed),
        found: Reading { output: found.output, rate: found.rate, mv: found.mv },
        plain: false,
        shift: Shift::default(),
    }
}

/// What was found and read back, then the end.
fn entries(played: &Played) -> Vec<Entry> {
    let at_us = played.ended_us;
    let said = played.record.as_ref().map(|record| {
        let said = Said::of(&record.facts, record.read.then_some(record.stays_at));
        Entry::Said { at_us, said }
    });
    played.entries.iter().copied().chain(said).chain([Entry::Ended { at_us }]).collect()
}

fn happen(observer: &mut Observer, profile: &Profile, change: Change) -> Result<(), Puzzled> {
    match change {
        Change::Heart(heart) => observer.bedside.change_heart(heart),
        Change::Shock(heart) => {
            observer.report(Trouble::Shock);
            observer.bedside.shock(heart)
        }
        Change::Power(power) => {
            observer.bedside.switch(power);
            Ok(())
        }
        Change::Turn { dial, to } => {
            let (dial, text) = match dial {
                Dial::Output => (observer::Dial::Output, profile.output_text(to)),
                Dial::Rate => (observer::Dial::Rate, profile.rate_text(to)),
                Dial::Mv if to > profile.mv_last() => {
                    return observer.bedside.turn(observer::Dial::Mv, &Say::Asynchronous);
                }
                Dial::Mv => (observer::Dial::Mv, profile.mv_text(to)),
            };
            observer.bedside.turn(dial, &figure(text))
        }
    }
}

/// Printed figures as positions; where one cannot be read the dial counts as it stood.
struct Standing<'a> {
    profile: &'a Profile,
    last: Dials,
}

impl Standing<'_> {
    fn read(&mut self, reading: &Reading) -> Dials {
        use domain::check::facts::ASYNCHRONOUS;
        let mv = reading.mv.as_ref().map_or(Ok(ASYNCHRONOUS), |text| self.profile.read_mv(text));
        self.last = Dials {
            output: self.profile.read_output(&reading.output).unwrap_or(self.last.output),
            rate: self.profile.read_rate(&reading.rate).unwrap_or(self.last.rate),
            mv: mv.unwrap_or(self.last.mv),
        };
        self.last
    }
}
