//! Every answer that can be given to a card, and what it costs of the budget of deviations.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Phase};
use domain::check::offer::{Typed, offer};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{restore, set};

use super::world::World;

/// Regular rates below the limit, near it, between the dial's positions (one to which 50 is a late RATE) and too
/// fast; one irregular.
const OWN_RATES: [(u8, u8); 5] = [(45, 45), (62, 62), (78, 78), (62, 85), (118, 118)];

/// Writes into `into` every answer the card takes; time and sleep at every card.
pub fn fill(into: &mut Vec<Answer>, world: &World, setup: &Setup<'_>, facts: &Facts) {
    use Answer as A;
    into.clear();
    let offer = offer(setup, facts);
    into.extend_from_slice(offer.free);
    into.extend(offer.good);
    into.extend(offer.also_good);
    into.extend([A::NoBeats, A::Stop, A::Wrong, A::Slip, A::Stands]);
    match offer.typed {
        Typed::Nothing => {}
        Typed::Dials if facts.step == Step::ReadFound && !world.found.is_empty() => {
            into.extend(world.found.iter().copied().map(A::Read));
        }
        Typed::Dials => readings(into, setup, facts),
        Typed::OwnRate => {
            into.extend(OWN_RATES.map(|(slowest, fastest)| A::OwnRate { slowest, fastest }));
        }
        Typed::OneDial => into.extend(every_place(setup).map(A::StandsAt)),
    }
    into.extend([TimeUp::OwnOld, TimeUp::Minimum, TimeUp::Loss].map(A::Time));
    if facts.phase == Phase::Watching {
        into.push(A::Time(TimeUp::Watch));
    }
    into.extend([Gap::Short, Gap::LimitPassed, Gap::Long, Gap::TooLong].map(A::Woke));
}

/// The card names the dial; places that it does not have are refused.
fn every_place(setup: &Setup<'_>) -> impl Iterator<Item = u8> + use<> {
    let profile = setup.profile;
    let last = profile.output_last().max(profile.rate_last()).max(profile.mv_last());
    (0..=last).chain([ASYNCHRONOUS])
}

fn places(setup: &Setup<'_>, dial: Dial) -> impl Iterator<Item = u8> + use<> {
    let (last, asynchronous) = match dial {
        Dial::Output => (setup.profile.output_last(), false),
        Dial::Rate => (setup.profile.rate_last(), false),
        Dial::Mv => (setup.profile.mv_last(), setup.has_asynchronous()),
    };
    (0..=last).chain(asynchronous.then_some(ASYNCHRONOUS))
}

/// At the start every combination; later the expected reading and each single dial elsewhere.
fn readings(into: &mut Vec<Answer>, setup: &Setup<'_>, facts: &Facts) {
    if facts.step == Step::ReadFound {
        for output in places(setup, Dial::Output) {
            for rate in places(setup, Dial::Rate) {
                into.extend(places(setup, Dial::Mv).map(|mv| Answer::Read(Dials { output, rate, mv })));
            }
        }
        return;
    }
    let expected = expected(setup, facts);
    into.push(Answer::Read(expected));
    for dial in [Dial::Output, Dial::Rate, Dial::Mv] {
        let elsewhere = places(setup, dial).filter(|p| *p != expected.at(dial));
        into.extend(elsewhere.map(|p| Answer::Read(expected.with(dial, p))));
    }
}

/// What a nurse who did as the cards asked would read.
pub fn expected(setup: &Setup<'_>, facts: &Facts) -> Dials {
    match facts.step {
        Step::ReadBack => set::expected(setup, facts),
        _ if facts.stand == Dials::UNREAD => restore::target(setup, facts),
        _ => facts.now(),
    }
}

/// What a check has spent of the walk's bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Spent {
    pub deviations: u8,
    pub troubles: u8,
}

impl Spent {
    pub const NOTHING: Spent = Spent { deviations: 0, troubles: 0 };
}

/// How much of what does not belong to a quiet check one walk lets in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bound {
    /// A dial elsewhere, a slip, a sleep, a shock.
    pub deviations: u8,
    /// NO BEATS, Stop, what is said under "Something is wrong"; `None`: any number.
    pub troubles: Option<u8>,
}

impl Bound {
    /// What is spent after one answer more, if that is still within the bound.
    pub fn spend(self, spent: Spent, cost: Spent) -> Option<Spent> {
        let deviations = spent.deviations + cost.deviations;
        let troubles = self.troubles.map_or(0, |_| spent.troubles + cost.troubles);
        let within = deviations <= self.deviations && self.troubles.is_none_or(|most| troubles <= most);
        within.then_some(Spent { deviations, troubles })
    }
}

pub fn cost(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Spent {
    let deviates = match answer {
        Answer::Slip | Answer::Woke(_) | Answer::ShockGiven | Answer::DialElsewhere => true,
        Answer::Read(dials) => {
            matches!(facts.step, Step::ReadBack | Step::AwayRead | Step::ReadAfter)
                && dials != expected(setup, facts)
        }
        _ => false,
    };
    Spent { deviations: u8::from(deviates), troubles: u8::from(is_trouble(facts.step, answer)) }
}

fn is_trouble(step: Step, answer: Answer) -> bool {
    use Answer as A;
    match (step, answer) {
        (_, A::NoBeats | A::Stop) => true,
        (Step::Wrong | Step::WrongMore, A::SomethingElse | A::Back | A::ShockGiven | A::DialElsewhere) => {
            false
        }
        (Step::Wrong | Step::WrongMore, A::Time(_) | A::Woke(_) | A::Slip) => false,
        (Step::Wrong | Step::WrongMore, _) => true,
        _ => false,
    }
}
