//! A sign-off half filled: every card of it is journalled, so that nothing is typed twice.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::item::Item;
use super::paper::{Finding, Marked, SignOff, Work};
use crate::practice::Judgement;
use crate::say::Say;

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Draft {
    /// Nobody yet where it is empty.
    pub learner: String,
    pub work: Work,
    /// What the judge of a practice run found; empty for a supervised check.
    pub judged: Vec<(Item, Finding)>,
    /// Looked at, item by item; `None` = not this time.
    pub marks: Vec<(Item, Option<Marked>)>,
}

/// What can be signed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Subject {
    Check {
        bed: u32,
        wire: u32,
        check: Uuid,
    },
    /// An ended practice run that has been judged.
    Run {
        run: Uuid,
    },
}

impl Draft {
    pub fn mark(&self, item: Item) -> Option<&Option<Marked>> {
        self.marks.iter().find(|(marked, _)| *marked == item).map(|(_, mark)| mark)
    }

    pub fn put(&mut self, item: Item, mark: Option<Marked>) {
        self.marks.retain(|(marked, _)| *marked != item);
        self.marks.push((item, mark));
        self.marks.sort_by_key(|(item, _)| *item);
    }

    /// The first item that nobody has looked at.
    pub fn next(&self) -> Option<Item> {
        Item::ALL.into_iter().find(|item| self.mark(*item).is_none())
    }

    pub fn finding(&self, item: Item) -> Option<Finding> {
        self.judged.iter().find(|(judged, _)| *judged == item).map(|(_, found)| *found)
    }

    /// The educator says otherwise than the run, and has to say why.
    pub fn asks_why(&self, item: Item, met: bool) -> Option<Say> {
        if met && self.work.is_not_passed() {
            return Some(Say::NotPassedNeedsReason);
        }
        let judge = self.finding(item)?;
        (!agrees(judge, met)).then_some(Say::OverrideNeedsReason)
    }

    /// The first mark that stands without the reason it needs: a form half filled by an older version may hold one.
    pub fn unexplained(&self) -> Option<Say> {
        let mut unexplained = self
            .marks
            .iter()
            .filter_map(|(_, mark)| mark.as_ref())
            .filter(|mark| mark.reason.is_none() && self.asks_why(mark.item, mark.met).is_some());
        unexplained.next().map(|mark| Say::ReasonMissing { item: Box::new(mark.item.say()) })
    }

    /// Items said to be met, and all that were looked at.
    pub fn counts(&self) -> (u32, u32) {
        let looked = self.marks.iter().filter_map(|(_, mark)| mark.as_ref());
        looked.fold((0, 0), |(met, all), mark| (met + u32::from(mark.met), all + 1))
    }

    pub fn sign_off(&self) -> SignOff {
        SignOff {
            learner: self.learner.clone(),
            work: self.work.clone(),
            marks: self.marks.iter().filter_map(|(_, mark)| mark.clone()).collect(),
        }
    }
}

/// The worst that the judge found of the acts that speak to each item.
pub fn judged(judgement: &Judgement) -> Vec<(Item, Finding)> {
    let found = |item: Item| {
        let about = judgement.acts.iter().filter(|judged| Item::of(judged.act) == item);
        about.map(|judged| judged.verdict).max().map(|worst| (item, worst.into()))
    };
    Item::ALL.into_iter().filter_map(found).collect()
}

/// The judge and a mark say the same; where they do not, the educator says why.
pub fn agrees(finding: Finding, met: bool) -> bool {
    (finding == Finding::Done) == met
}
