//! A second observer of the same run, who must come to the same answers.

use domain::contract::View;
use domain::say::Say;
use observer::{Deed, Look, Observer, Sight};
use simulator::Chamber;

use crate::play::{GLANCE_MS, asks};
use crate::played::Stuck;

/// A beat on the very edge of a look is seen by both in the next.
const LOOKS_TO_AGREE: u32 = 2;

/// What two observers of one run came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Compared {
    /// Taps on which both agreed, with what was typed.
    pub answers: u64,
    /// Looks after which both looked once more.
    pub waits: u64,
    /// Answers that differ although both saw the same: it hangs on less than the trace can show.
    pub at_a_limit: Vec<Apart>,
    /// Answers that differ because one saw what the other did not.
    pub apart: Vec<Apart>,
}

/// An answer on which they did not agree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Apart {
    pub at_us: u64,
    pub asks: &'static str,
    pub first: String,
    pub second: String,
    /// What each had seen of the last seconds.
    pub seen: [Vec<(u64, Sight)>; 2],
}

#[derive(Debug)]
pub(crate) struct Second {
    pub(crate) observer: Observer,
    pub(crate) compared: Compared,
    /// Looks for which the two have not agreed.
    waited: u32,
}

impl Second {
    pub(crate) fn new(observer: Observer) -> Second {
        Second { observer, compared: Compared::default(), waited: 0 }
    }

    /// What both do; while they do not agree they look again, and then it is told and the first has it.
    pub(crate) fn look(&mut self, view: &View<Say>, first: Deed, by: &Observer) -> Result<Deed, Stuck> {
        let second = self.observer.look(view)?;
        if is_the_same(&first, &second) {
            self.waited = 0;
            self.compared.answers += u64::from(matches!(first, Deed::Tap { .. }));
            return Ok(first);
        }
        self.waited += 1;
        if self.waited <= LOOKS_TO_AGREE {
            self.compared.waits += 1;
            return Ok(Deed::Wait { ms: GLANCE_MS });
        }
        self.waited = 0;
        let apart = Apart {
            at_us: self.observer.bedside.now_us(),
            asks: asks(view),
            first: format!("{first:?}"),
            second: format!("{second:?}"),
            seen: [by, &self.observer].map(last_seen),
        };
        let same = saw_the_same(&apart.seen, by.bedside.seen_until_us());
        if same { &mut self.compared.at_a_limit } else { &mut self.compared.apart }.push(apart);
        Ok(first)
    }
}

/// Longer than any card judges at once.
const LAST_US: u64 = 20_000_000;
/// Two samples: a trace shows no more.
const ALIKE_US: u64 = 4_000;

/// Spikes and ventricular beats; the second does not look for P waves.
fn last_seen(observer: &Observer) -> Vec<(u64, Sight)> {
    let from_us = observer.bedside.now_us().saturating_sub(LAST_US);
    let strip = observer.bedside.strip();
    let beat = |(at, look): &(u64, Look)| (*at, Sight::Beat(Chamber::Ventricle, *look));
    let beats = strip.beats(Chamber::Ventricle, from_us).iter().map(beat);
    let mut seen: Vec<_> = strip.spikes(from_us).map(|at| (at, Sight::Spike)).chain(beats).collect();
    seen.sort_by_key(|(at, _)| *at);
    seen
}

/// Each sight of one has its like in the other; at the ends of what was seen nobody asks for it.
fn saw_the_same([one, other]: &[Vec<(u64, Sight)>; 2], until_us: u64) -> bool {
    let began_us = one.iter().chain(other).map(|(at, _)| *at).min().unwrap_or(0);
    let inside = began_us + ALIKE_US..until_us.saturating_sub(ALIKE_US);
    let has = |seen: &[(u64, Sight)], (at, sight): (u64, Sight)| {
        seen.iter().any(|(like, same)| *same == sight && like.abs_diff(at) <= ALIKE_US)
    };
    let all = |of: &[(u64, Sight)], within: &[(u64, Sight)]| {
        of.iter().filter(|(at, _)| inside.contains(at)).all(|sight| has(within, *sight))
    };
    all(one, other) && all(other, one)
}

/// An own rate that lies between two figures may be typed as either.
fn is_the_same(first: &Deed, second: &Deed) -> bool {
    let (Deed::Tap { key, sent }, Deed::Tap { key: other_key, sent: other }) = (first, second) else {
        return first == second;
    };
    let alike = |(field, typed): (&String, &String)| {
        let other = other.values.get(field).map_or("", String::as_str);
        let is_a_rate = matches!(field.as_str(), "slowest" | "fastest");
        typed == other || (is_a_rate && are_neighbours(typed, other))
    };
    key == other_key && sent.command == other.command && sent.values.iter().all(alike)
}

fn are_neighbours(one: &str, other: &str) -> bool {
    let rates = one.parse::<i32>().ok().zip(other.parse::<i32>().ok());
    rates.is_some_and(|(one, other)| (one - other).abs() <= 1)
}
