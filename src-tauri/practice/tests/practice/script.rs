//! A careful run, changed in one place.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial};
use practice::{Entry, Exercise, ExerciseId, Said, exercises};
use proof::practise;

use crate::form;

pub const SEED: u64 = 1;
const S: u64 = 1_000_000;

pub fn exercise(id: ExerciseId) -> &'static Exercise {
    exercises().unwrap().iter().find(|exercise| exercise.id == id).unwrap()
}

/// Turns and words only, as a learner without cards leaves them.
pub struct Script {
    pub entries: Vec<Entry>,
}

impl Script {
    pub fn careful(id: ExerciseId) -> Script {
        Script::careful_of(id, SEED)
    }

    pub fn careful_of(id: ExerciseId, seed: u64) -> Script {
        Script { entries: form::said(exercise(id), seed, &Script::guided_of(id, seed).entries) }
    }

    pub fn guided(id: ExerciseId) -> Script {
        Script::guided_of(id, SEED)
    }

    pub fn guided_of(id: ExerciseId, seed: u64) -> Script {
        Script { entries: practise(exercise(id), seed).unwrap().entries }
    }

    /// Where the last turn of this dial led to, which turn to that position it is, from 0, and the position before.
    pub fn last(&self, wanted: Dial) -> (u8, usize, u8) {
        let turns: Vec<u8> = self.turns_of(wanted).collect();
        let [.., before, to] = turns[..] else { panic!("too few turns of {wanted:?}: {:?}", self.entries) };
        (to, turns.iter().filter(|other| **other == to).count() - 1, before)
    }

    /// The positions that this dial was turned to, one after the other.
    pub fn turns_of(&self, wanted: Dial) -> impl Iterator<Item = u8> + '_ {
        self.entries.iter().filter_map(move |entry| match *entry {
            Entry::Turned { dial, to, .. } if dial == wanted => Some(to),
            Entry::Turned { .. }
            | Entry::Answered { .. }
            | Entry::Said { .. }
            | Entry::Paused { .. }
            | Entry::Ended { .. } => None,
        })
    }

    /// The place of the `nth` turn of a dial to a position, from 0.
    fn place(&self, dial: Dial, to: u8, nth: usize) -> usize {
        let is =
            |entry: &Entry| matches!(*entry, Entry::Turned { dial: d, to: t, .. } if d == dial && t == to);
        let places = self.entries.iter().enumerate().filter(|(_, entry)| is(entry));
        let found = places.map(|(at, _)| at).nth(nth);
        found.unwrap_or_else(|| panic!("no turn of {dial:?} to {to}: {:?}", self.entries))
    }

    pub fn at_s(&self, dial: Dial, to: u8) -> f64 {
        self.entries[self.place(dial, to, 0)].at_us() as f64 / S as f64
    }

    /// This turn and everything after it comes so much later.
    pub fn later(mut self, dial: Dial, to: u8, nth: usize, s: u64) -> Script {
        let from = self.place(dial, to, nth);
        self.entries[from..].iter_mut().for_each(|entry| move_to(entry, entry.at_us() + s * S));
        self
    }

    /// This turn alone comes at another time.
    pub fn at(mut self, dial: Dial, to: u8, nth: usize, s: f64) -> Script {
        let place = self.place(dial, to, nth);
        move_to(&mut self.entries[place], us(s));
        self.sorted()
    }

    pub fn turn(mut self, s: f64, dial: Dial, to: u8) -> Script {
        self.entries.push(Entry::Turned { at_us: us(s), dial, to });
        self.sorted()
    }

    pub fn instead(mut self, dial: Dial, to: u8, nth: usize, other: u8) -> Script {
        let place = self.place(dial, to, nth);
        let at_us = self.entries[place].at_us();
        self.entries[place] = Entry::Turned { at_us, dial, to: other };
        self
    }

    pub fn without(mut self, dial: Dial, to: u8, nth: usize) -> Script {
        self.entries.remove(self.place(dial, to, nth));
        self
    }

    /// Each turn by the keys of the dial, one press so long after the other; what comes later, later.
    pub fn pressed(mut self, exercise: &Exercise, apart_ms: u64) -> Script {
        let (mut later_us, mut dials, mut entries) = (0, exercise.found, Vec::new());
        for mut entry in self.entries {
            let now = entry.at_us() + later_us;
            move_to(&mut entry, now);
            let Entry::Turned { dial, to, .. } = entry else {
                entries.push(entry);
                continue;
            };
            let presses = presses(exercise, dial, dials.at(dial), to);
            let at = |press: usize| now + press as u64 * apart_ms * 1_000;
            later_us += presses.len().saturating_sub(1) as u64 * apart_ms * 1_000;
            dials = dials.with(dial, to);
            entries.extend(presses.iter().enumerate().map(|(press, to)| Entry::Turned {
                at_us: at(press),
                dial,
                to: *to,
            }));
        }
        self.entries = entries;
        self
    }

    pub fn saying(mut self, change: impl Fn(&mut Said)) -> Script {
        let last = self.entries.iter_mut().rev().find_map(|entry| match entry {
            Entry::Said { said, .. } => Some(said),
            Entry::Turned { .. } | Entry::Answered { .. } | Entry::Paused { .. } | Entry::Ended { .. } => {
                None
            }
        });
        change(last.unwrap());
        self
    }

    /// OUTPUT is left at another position than the rule's, and read there.
    pub fn leaving_output(self, output: u8) -> Script {
        let (to, nth, _) = self.last(Dial::Output);
        let script = self.instead(Dial::Output, to, nth, output);
        script.saying(|said| said.stays.as_mut().unwrap().output = output)
    }

    pub fn answering(mut self, instead_of: Answer, other: Answer) -> Script {
        for entry in &mut self.entries {
            if let Entry::Answered { answer, .. } = entry
                && *answer == instead_of
            {
                *answer = other;
                return self;
            }
        }
        panic!("{instead_of:?} was never answered: {:?}", self.entries)
    }

    /// Said and ended so soon after the last turn.
    pub fn ending_soon(mut self, s: u64) -> Script {
        let turned = |entry: &&Entry| matches!(entry, Entry::Turned { .. });
        let last = self.entries.iter().rfind(turned).unwrap().at_us();
        for entry in &mut self.entries {
            if entry.at_us() > last {
                move_to(entry, last + s * S);
            }
        }
        self
    }

    fn sorted(mut self) -> Script {
        self.entries.sort_by_key(Entry::at_us);
        self
    }
}

/// Where each press leads, as the practice's keys turn: one position, or on a long dial an eighth of it.
fn presses(exercise: &Exercise, dial: Dial, from: u8, to: u8) -> Vec<u8> {
    let last = match dial {
        Dial::Output => exercise.profile.output_last(),
        Dial::Rate => exercise.profile.rate_last(),
        Dial::Mv => exercise.profile.mv_last(),
    };
    let far = if last > 24 { last / 8 } else { 1 };
    let (mut at, mut presses) = (from, Vec::new());
    while at != to {
        at = match () {
            () if at == ASYNCHRONOUS => last,
            () if to == ASYNCHRONOUS && at == last => ASYNCHRONOUS,
            () if to > at => at + if to.min(last) - at >= far { far } else { 1 },
            () => at - if at - to >= far { far } else { 1 },
        };
        presses.push(at);
    }
    presses
}

fn us(s: f64) -> u64 {
    (s * S as f64).round() as u64
}

fn move_to(entry: &mut Entry, to_us: u64) {
    match entry {
        Entry::Turned { at_us, .. }
        | Entry::Answered { at_us, .. }
        | Entry::Said { at_us, .. }
        | Entry::Paused { at_us, .. }
        | Entry::Ended { at_us } => *at_us = to_us,
    }
}
