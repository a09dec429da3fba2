//! The pins, or the battery; capture and pulse at once after; the dials read as they stand.

use super::answer::Answer;
use super::facts::{Away, Done, Facts, Place, Work};
use super::step::Step;
use super::{Setup, ask, back_to_old, over, prepare, urgent};
use crate::check::facts::{Dial, Dials};

pub fn answer(setup: &Setup<'_>, facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::Move, A::AllTrue) => {
            ask(Facts { place: Place::New, maximum: false, away: Away::No, ..facts }, S::LookNew)
        }
        (S::Move, A::No) => back_to_old(facts),
        (S::BatteryOut | S::BatteryBack, A::AllTrue) => {
            ask(Facts { old_on: true, maximum: false, away: Away::No, ..facts }, S::LookBattery)
        }
        (S::BatteryOut | S::BatteryBack, A::No) => ask(facts, S::BoxDead),
        (S::BoxDead, A::OtherBox) => other_box(facts),
        (S::LookNew | S::LookBattery, A::EverySpikeMadeABeat | A::OnlyOwn) => ask(facts, S::Guarded),
        (S::LookBack, A::EverySpikeMadeABeat | A::OnlyOwn) => ask(facts, S::ReadEnd),
        (S::LookNew | S::LookBattery | S::LookBack, A::SpikeWithoutABeat) => {
            urgent::capture_lost(setup, facts)
        }
        // The list of this card switches the old box off, unless another wire is in it.
        (S::Guarded, A::AllTrue) if facts.place == Place::New && !facts.shared => {
            ask(Facts { old_on: false, ..facts }, S::ReadEnd)
        }
        (S::Guarded, A::AllTrue) => ask(facts, S::ReadEnd),
        (S::ReadEnd, A::Read(read)) => ended(facts, read),
        (S::ReadEnd, A::No) => over(Facts { read: Dials::UNREAD, ..facts }, S::Reason),
        (S::EndDiffers, A::Back) => ask(facts, S::ReadEnd),
        (S::EndDiffers, A::AllTrue) => over(facts, S::Reason),
        (S::Reason, A::Back) => ask(facts, facts.from),
        (S::Reason, A::Yes) => ask(facts, S::Ended),
        _ => return None,
    })
}

/// The dead box is kept for nothing, and what was asked of it says nothing any more: another one is made ready while
/// standby pacing waits.
fn other_box(facts: Facts) -> Facts {
    let gone = Facts { place: Place::Old, old_on: false, maximum: false, away: Away::No, ..facts };
    prepare::next(prepare::without_box(Facts { work: Work::Box, ..gone }))
}

/// What the dials should stand at; after trouble they are taken as they stand.
pub fn expected(facts: &Facts) -> Option<Dials> {
    let asked = if facts.place == Place::New { facts.new } else { facts.old };
    let known = facts.place == Place::Old || facts.done.has(Done::PICKED);
    (known && asked.at(Dial::Rate) != Dials::UNREAD.rate && !facts.is_urgent()).then_some(asked)
}

fn ended(facts: Facts, read: Dials) -> Facts {
    let facts = Facts { read, ..facts };
    let differs = expected(&facts).is_some_and(|expected| expected != read);
    ask(facts, if differs { Step::EndDiffers } else { Step::Ended })
}
