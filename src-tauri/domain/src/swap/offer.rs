//! What each card of a swap takes: the one table behind the view, the refusals and the walk.

use super::answer::Answer;
use super::facts::{Away, Done, Facts, Place, Work};
use super::step::Step;
use crate::check::facts::{Dials, Phase};

/// What is typed or chosen on a card, besides tapping.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Typed {
    Nothing,
    Dials,
    Box,
}

#[derive(Clone, Copy, Debug)]
pub struct Offer {
    /// Open from the first instant.
    pub free: &'static [Answer],
    /// Opens when the watch has passed.
    pub good: Option<Answer>,
    pub typed: Typed,
}

const fn free(free: &'static [Answer]) -> Offer {
    Offer { free, good: None, typed: Typed::Nothing }
}

const fn typed(free: &'static [Answer], typed: Typed) -> Offer {
    Offer { free, good: None, typed }
}

const CAPTURE: Offer = Offer {
    free: &[Answer::SpikeWithoutABeat, Answer::OnlyOwn],
    good: Some(Answer::EverySpikeMadeABeat),
    typed: Typed::Nothing,
};

pub fn offer(facts: &Facts) -> Offer {
    use Answer as A;
    use Step as S;
    match facts.step {
        S::Look => free(&[A::NoBeats, A::SpikesWithoutBeats, A::Paced, A::OnlyOwn]),
        S::Shared | S::Order | S::NewOn | S::NewMode | S::Standby => free(&[A::No, A::Yes]),
        S::UseBox => free(&[A::Close, A::OtherBox]),
        S::ReadOld | S::ReadNew => typed(&[], Typed::Dials),
        S::PickBox => typed(&[], Typed::Box),
        S::Sound | S::Ready | S::Move | S::BatteryOut | S::BatteryBack | S::BackToOld => {
            free(&[A::No, A::AllTrue])
        }
        S::NewRate | S::NewOutput | S::NewMv => free(&[A::Stands]),
        S::NewDiffers => free(&[A::Back]),
        // What does not capture yet is why this card is there.
        S::Maximum if facts.phase == Phase::Turning => free(&[A::Stands]),
        S::LookNew | S::LookBattery | S::LookBack | S::Maximum => CAPTURE,
        S::BoxDead => free(&[A::OtherBox]),
        S::Guarded => free(&[A::AllTrue]),
        S::ReadEnd => typed(&[A::No], Typed::Dials),
        S::EndDiffers => free(&[A::Back, A::AllTrue]),
        S::Reason => free(&[A::Back, A::Yes]),
        S::NoBeats => free(&[A::SpikesWithoutBeats, A::NoSpikesCame, A::BeatsAgain]),
        S::StandbyNow => free(&[A::StillNoBeats, A::BeatsAgain]),
        S::Emergency => free(&[A::FastWide, A::BeatsAgain]),
        S::Arrest => free(&[A::ShockGiven, A::BeatsAgain]),
        S::Wrong => {
            free(&[A::NoPulse, A::FastWide, A::ShockGiven, A::SpikesWithoutBeats, A::StandbyLost, A::Back])
        }
        S::AwayLook => free(&[A::SpikesWithoutBeats, A::Yes]),
        S::AwayWhere if facts.work == Work::Box && facts.done.has(Done::PICKED) => {
            free(&[A::PinsNeither, A::PinsNew, A::PinsOld])
        }
        S::AwayWhere => free(&[A::PinsNeither, A::PinsOld]),
        // Nothing is closed over a patient without a running box.
        S::Blocked if facts.is_off() => free(&[A::Back]),
        S::Blocked => free(&[A::Back, A::Close]),
        S::Ended => free(&[]),
    }
}

/// What is typed beside it goes with the answer.
pub fn is_named(facts: &Facts, answer: Answer) -> bool {
    matches!(facts.step, Step::Order | Step::Reason) && answer == Answer::Yes
}

/// NO BEATS, Stop, Something is wrong and That was a slip stand on the card.
pub fn has_safety(facts: &Facts) -> bool {
    !matches!(facts.step, Step::Look | Step::Blocked | Step::UseBox | Step::Ended)
}

fn is_always_open(before: Option<&Facts>, facts: &Facts, answer: Answer) -> bool {
    let emergency = matches!(facts.step, Step::NoBeats | Step::StandbyNow | Step::Emergency | Step::Arrest);
    match answer {
        Answer::NoBeats => has_safety(facts),
        Answer::Wrong => has_safety(facts) && facts.step != Step::Wrong && !emergency,
        Answer::Slip => has_safety(facts) && before.is_some(),
        Answer::Stop => has_safety(facts) && can_stop(facts),
        _ => false,
    }
}

/// Back to the old box, or, where the pins are in it, to the end. After a break the patient is looked at first.
fn can_stop(facts: &Facts) -> bool {
    let away = facts.away != Away::No;
    let itself = matches!(facts.step, Step::BackToOld | Step::ReadEnd | Step::Reason);
    let to_old = facts.old_on || facts.place == Place::Between;
    !away && !itself && to_old
}

/// May this answer be given to this card now?
pub fn is_open(before: Option<&Facts>, facts: &Facts, answer: Answer) -> bool {
    let offer = offer(facts);
    match answer {
        Answer::Time(_) => true,
        Answer::Woke(_) => facts.step != Step::Ended,
        Answer::Read(dials) => offer.typed == Typed::Dials && dials != Dials::UNREAD,
        Answer::Picked => offer.typed == Typed::Box,
        tapped => {
            is_always_open(before, facts, tapped)
                || offer.free.contains(&tapped)
                || (offer.good == Some(tapped) && facts.phase == Phase::Open)
        }
    }
}
