//! What each card of a transport takes: the one table behind the view, the refusals and the walk.

use super::answer::Answer;
use super::facts::Facts;
use super::step::Step;

/// Tapped; what is typed (`Going`, `Read`, `Signed`) is beside it.
pub fn offer(facts: &Facts) -> &'static [Answer] {
    use Answer as A;
    use Step as S;
    match facts.step {
        S::Destination | S::Read | S::Initials | S::Ended => &[],
        S::MriStop | S::NotReady => &[A::Close, A::Back],
        S::Pads | S::LookLeave | S::LookArrived => &[A::No, A::Yes],
        S::Carry => &[A::No, A::AllTrue],
        S::Margin => &[A::Back, A::AllTrue],
        S::OnTheWay => &[A::Changed, A::Arrived],
        S::Change if facts.in_vehicle => &[A::OutOfVehicle, A::OtherTeam, A::Back],
        S::Change => &[A::AnotherBed, A::IntoVehicle, A::OtherTeam, A::Back],
        S::Unchanged => &[A::No, A::DialChanged, A::Yes],
        S::SayNames => &[A::Yes],
        S::NoBeats => &[A::SpikesWithoutBeats, A::NoSpikesCame, A::BeatsAgain],
        S::Maximum => &[A::SpikeWithoutABeat, A::EverySpikeMadeABeat],
        S::StandbyNow => &[A::StillNoBeats, A::BeatsAgain],
        S::Emergency => &[A::FastWide, A::BeatsAgain],
        S::Arrest => &[A::ShockGiven, A::BeatsAgain],
        S::Wrong => &[A::NoPulse, A::FastWide, A::ShockGiven, A::SpikesWithoutBeats, A::Back],
        S::AwayLook => &[A::SpikesWithoutBeats, A::Yes],
    }
}

/// NO BEATS, Stop, Something is wrong and That was a slip stand on the card: from the first reading on.
pub fn has_safety(facts: &Facts) -> bool {
    use Step as S;
    !matches!(facts.step, S::Destination | S::MriStop | S::Pads | S::Carry | S::NotReady | S::Ended)
}

fn is_always_open(before: Option<&Facts>, facts: &Facts, answer: Answer) -> bool {
    use Step as S;
    let emergency = matches!(facts.step, S::NoBeats | S::StandbyNow | S::Emergency | S::Arrest);
    match answer {
        Answer::NoBeats => has_safety(facts),
        Answer::Wrong => has_safety(facts) && facts.step != S::Wrong && !emergency,
        Answer::Slip => has_safety(facts) && before.is_some(),
        // Also before the first reading: a transport can be left.
        Answer::Stop => {
            let looked = facts.away.is_none();
            looked && !emergency && !matches!(facts.step, S::AwayLook | S::SayNames | S::Ended)
        }
        _ => false,
    }
}

/// May this answer be given to this card now?
pub fn is_open(before: Option<&Facts>, facts: &Facts, answer: Answer) -> bool {
    match answer {
        Answer::Going(_) => facts.step == Step::Destination,
        Answer::Read => facts.step == Step::Read,
        Answer::Signed => facts.step == Step::Initials,
        Answer::Woke(_) => facts.step != Step::Ended,
        tapped => is_always_open(before, facts, tapped) || offer(facts).contains(&tapped),
    }
}
