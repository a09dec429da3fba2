//! No beats, capture lost, a shock, standby lost: the first act that can pace, in one card.

use super::answer::Answer;
use super::facts::{Away, Done, Facts, Own, Place, Standby, Work};
use super::step::Step;
use super::{Setup, ask, away, back_to_old, prepare};
use crate::check::facts::Phase;

/// OUTPUT to maximum where the pins are in a running box that is not there already; else standby pacing.
pub fn no_beats(setup: &Setup<'_>, facts: Facts) -> Facts {
    if matches!(facts.step, Step::NoBeats | Step::StandbyNow | Step::Emergency | Step::Arrest) {
        return facts;
    }
    let facts = Facts { no_beats: true, own: Own::NotShown, ..facts };
    if facts.is_off() || stands_at_maximum(setup, &facts) {
        return ask(facts, Step::StandbyNow);
    }
    ask(Facts { maximum: true, ..facts }, Step::NoBeats)
}

fn stands_at_maximum(setup: &Setup<'_>, facts: &Facts) -> bool {
    let stands = if facts.place == Place::New { facts.new.output } else { facts.old.output };
    facts.maximum || stands == setup.box_of(facts).output_last()
}

/// A spike without a beat: maximum; where that was not enough the box that did capture, else standby pacing.
pub fn capture_lost(setup: &Setup<'_>, facts: Facts) -> Facts {
    if facts.is_off() {
        return ask(facts, Step::StandbyNow);
    }
    if !stands_at_maximum(setup, &facts) {
        return ask(Facts { maximum: true, ..facts }, Step::Maximum);
    }
    let facts = Facts { maximum: true, ..facts };
    if facts.place == Place::New && facts.old_on { back_to_old(facts) } else { ask(facts, Step::StandbyNow) }
}

pub fn answer(setup: &Setup<'_>, facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::Look | S::AwayLook, A::SpikesWithoutBeats) => capture_lost(setup, facts),
        (S::NoBeats, A::SpikesWithoutBeats | A::NoSpikesCame) => ask(facts, S::StandbyNow),
        (S::NoBeats, A::BeatsAgain) => away::then(facts, S::ReadEnd),
        (S::Maximum, A::Stands) => Facts { phase: Phase::Watching, ..facts },
        (S::Maximum, A::SpikeWithoutABeat) => capture_lost(setup, facts),
        (S::Maximum, A::EverySpikeMadeABeat | A::OnlyOwn) if facts.place == Place::New => {
            away::then(facts, S::Guarded)
        }
        (S::Maximum, A::EverySpikeMadeABeat | A::OnlyOwn) => away::then(facts, S::ReadEnd),
        (S::StandbyNow, A::StillNoBeats) if facts.old_on && facts.place != Place::Old => back_to_old(facts),
        (S::StandbyNow, A::StillNoBeats) => ask(facts, S::Emergency),
        (S::StandbyNow, A::BeatsAgain) if facts.place == Place::New && facts.old_on => back_to_old(facts),
        (S::StandbyNow | S::Emergency | S::Arrest, A::BeatsAgain) => settled(facts),
        (S::BackToOld, A::AllTrue) => {
            ask(Facts { place: Place::Old, maximum: false, away: Away::No, ..facts }, S::LookBack)
        }
        (S::BackToOld, A::No) => ask(Facts { no_beats: true, ..facts }, S::Emergency),
        (S::Emergency, A::FastWide) => ask(facts, S::Arrest),
        (S::Arrest | S::Wrong, A::ShockGiven) => shock(facts),
        (S::Wrong, A::NoPulse | A::FastWide) => {
            ask(Facts { no_beats: true, own: Own::NotShown, ..facts }, S::Arrest)
        }
        (S::Wrong, A::SpikesWithoutBeats) => capture_lost(setup, facts),
        (S::Wrong, A::StandbyLost) => standby_lost(facts),
        (S::Wrong, A::Back) => away::go_on(facts),
        _ => return None,
    })
}

/// Beats again: a box first, where none is on the patient; else the dials as they stand.
fn settled(facts: Facts) -> Facts {
    if facts.is_off() { back_to_old(facts) } else { away::then(facts, Step::ReadEnd) }
}

/// After a shock OUTPUT to maximum, not the old setting (SHOCK: thresholds rise many times over).
fn shock(facts: Facts) -> Facts {
    let facts = Facts { shock: true, own: Own::NotShown, ..facts };
    if facts.is_off() { back_to_old(facts) } else { ask(Facts { maximum: true, ..facts }, Step::Maximum) }
}

/// Nothing is opened without it, and what is open goes back.
fn standby_lost(facts: Facts) -> Facts {
    let facts = Facts { standby: Standby::Unknown, done: facts.done.less(Done::READY), ..facts };
    match facts.work {
        _ if facts.is_off() && facts.old_on => back_to_old(facts),
        Work::Battery if facts.is_off() => ask(facts, Step::BatteryBack),
        Work::Battery | Work::Box if prepare::prepares(facts.from) => {
            let next = prepare::next(facts);
            away::go_on(Facts { from: next.step, ..next })
        }
        Work::Battery | Work::Box if facts.away != Away::No => away::go_on(facts),
        Work::Battery | Work::Box => ask(facts, facts.from),
    }
}
