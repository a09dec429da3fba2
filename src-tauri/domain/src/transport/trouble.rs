//! Trouble on the way: the first act that can pace, then standby, then the emergency; after it the dials are read.

use super::answer::Answer;
use super::facts::Facts;
use super::step::Step;
use super::{ask, compare, go_on, looked_after_break};

/// OUTPUT to maximum first: the pins are in a running box.
pub fn no_beats(facts: Facts) -> Facts {
    if matches!(facts.step, Step::NoBeats | Step::StandbyNow | Step::Emergency | Step::Arrest) {
        return facts;
    }
    let step = if facts.step == Step::Maximum { Step::StandbyNow } else { Step::NoBeats };
    ask(Facts { no_beats: true, ..facts }, step)
}

pub fn capture_lost(facts: Facts) -> Facts {
    ask(facts, Step::Maximum)
}

pub fn answer(facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::NoBeats, A::SpikesWithoutBeats | A::NoSpikesCame) => ask(facts, S::StandbyNow),
        (S::Maximum, A::SpikeWithoutABeat) => ask(facts, S::StandbyNow),
        (S::StandbyNow, A::StillNoBeats) => ask(Facts { no_beats: true, ..facts }, S::Emergency),
        (S::Emergency, A::FastWide) => ask(facts, S::Arrest),
        (S::NoBeats | S::StandbyNow | S::Emergency | S::Arrest, A::BeatsAgain) => read_again(facts),
        (S::Maximum, A::EverySpikeMadeABeat) => read_again(facts),
        (S::Arrest | S::Wrong, A::ShockGiven) => ask(Facts { shock: true, ..facts }, S::Maximum),
        (S::Wrong, A::NoPulse | A::FastWide) => ask(Facts { no_beats: true, ..facts }, S::Arrest),
        (S::Wrong | S::AwayLook, A::SpikesWithoutBeats) => capture_lost(facts),
        (S::Wrong, A::Back) => go_on(facts),
        (S::AwayLook, A::Yes) => looked_after_break(facts),
        _ => return None,
    })
}

/// As they stand now; where the patient was changing hands, that comparison begins anew.
fn read_again(facts: Facts) -> Facts {
    compare(Facts { compared: 0, away: None, ..facts }, facts.hands)
}
