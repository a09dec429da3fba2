//! Who is signed for what, and until when.

use super::item::Item;
use super::paper::{Marked, Says, SignOff};
use super::{Kept, Teaching, months_after};

/// Within so many days of its end a sign-off is due (M).
pub const DUE_DAYS: i64 = 30;
const DAY_MS: i64 = 86_400_000;

/// One learner, by the name as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Learner<'a> {
    pub name: &'a str,
    /// The newest word on each item that was ever looked at, in the order of the list.
    pub held: Vec<Held<'a>>,
    /// Places of all entries about this learner, the revoked ones too, oldest first.
    pub entries: Vec<u32>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Held<'a> {
    pub mark: &'a Marked,
    pub kept: &'a Kept,
    /// When it runs out; `None` where the unit's rules name no time.
    pub until_ms: Option<i64>,
    pub practice: bool,
}

impl Learner<'_> {
    /// The first item that runs out among those that are met.
    pub fn until_ms(&self) -> Option<i64> {
        self.held.iter().filter(|held| held.mark.met).filter_map(|held| held.until_ms).min()
    }

    pub fn met(&self) -> u32 {
        u32::try_from(self.held.iter().filter(|held| held.mark.met).count()).unwrap_or(u32::MAX)
    }

    pub fn has_practice(&self) -> bool {
        self.held.iter().any(|held| held.practice)
    }
}

/// What runs out first comes first, what never does last; then by name.
pub fn learners(teaching: &Teaching, months: Option<u16>) -> Vec<Learner<'_>> {
    let mut learners: Vec<Learner<'_>> = Vec::new();
    for (place, kept, sign_off) in sign_offs(teaching) {
        let at = learners.iter().position(|learner| learner.name == sign_off.learner);
        let at = at.unwrap_or_else(|| {
            learners.push(Learner { name: &sign_off.learner, held: Vec::new(), entries: Vec::new() });
            learners.len() - 1
        });
        learners[at].entries.push(place);
        if teaching.revoked_by(&kept.hash).is_none() {
            hold(&mut learners[at], kept, sign_off, months);
        }
    }
    let soonest = |learner: &Learner<'_>| learner.until_ms().unwrap_or(i64::MAX);
    learners.sort_by(|a, b| soonest(a).cmp(&soonest(b)).then_with(|| a.name.cmp(b.name)));
    learners
}

fn sign_offs(teaching: &Teaching) -> impl Iterator<Item = (u32, &Kept, &SignOff)> {
    (0..).zip(&teaching.entries).filter_map(|(place, kept)| match &kept.paper.says {
        Says::SignedOff(sign_off) => Some((place, kept, sign_off)),
        Says::Revoked { .. } | Says::Vouched { .. } => None,
    })
}

/// Of two words on one item the later one stands, by the date on the paper.
fn hold<'a>(learner: &mut Learner<'a>, kept: &'a Kept, sign_off: &'a SignOff, months: Option<u16>) {
    for mark in &sign_off.marks {
        let until_ms = months.and_then(|months| months_after(kept.paper.at_ms, months));
        let newest = Held { mark, kept, until_ms, practice: sign_off.work.is_practice() };
        match learner.held.iter_mut().find(|held| held.mark.item == mark.item) {
            Some(held) if held.kept.paper.at_ms <= kept.paper.at_ms => *held = newest,
            Some(_) => {}
            None => learner.held.push(newest),
        }
    }
    learner.held.sort_by_key(|held| held.mark.item);
}

/// Items that nobody has signed as met.
pub fn missing(learner: &Learner<'_>) -> Vec<Item> {
    let met = |item: &Item| learner.held.iter().any(|held| held.mark.item == *item && held.mark.met);
    Item::ALL.into_iter().filter(|item| !met(item)).collect()
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Due {
    RunOut,
    Soon,
    Later,
    /// The unit's rules name no time, or nothing is met.
    Never,
}

pub fn due(until_ms: Option<i64>, now_ms: i64) -> Due {
    match until_ms {
        None => Due::Never,
        Some(until) if until <= now_ms => Due::RunOut,
        Some(until) if until - now_ms <= DUE_DAYS * DAY_MS => Due::Soon,
        Some(_) => Due::Later,
    }
}
