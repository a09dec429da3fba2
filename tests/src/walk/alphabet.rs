//! Every answer that can be given to a card, and what it costs of the budget of deviations.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Phase};
use domain::check::offer::{Typed, offer};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{restore, set};

use super::world::World;

/// Regular rates below the limit, near it, between the dial's positions and too fast; one irregular.
const OWN_RATES: [(u8, u8); 5] = [(45, 45), (62, 62), (75, 75), (62, 85), (118, 118)];

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
    /// A dial elsewhere, a slip, a sleep, a shock.
    pub deviations: u8,
    /// NO BEATS, Stop, Something is wrong.
    pub troubles: u8,
}

impl Spent {
    pub const NOTHING: Spent = Spent { deviations: 0, troubles: 0 };

    pub fn and(self, other: Spent) -> Spent {
        Spent { deviations: self.deviations + other.deviations, troubles: self.troubles + other.troubles }
    }

    pub fn is_within(self, bound: Spent) -> bool {
        self.deviations <= bound.deviations && self.troubles <= bound.troubles
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
    let trouble = matches!(answer, Answer::NoBeats | Answer::Stop | Answer::Wrong);
    Spent { deviations: u8::from(deviates), troubles: u8::from(trouble) }
}
