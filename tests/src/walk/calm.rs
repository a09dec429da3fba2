//! From any card the check can be brought to its end the plain way.

use domain::check::answer::{Answer, TimeUp};
use domain::check::facts::{Facts, Phase};
use domain::check::offer::{Typed, offer};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{answer, offer};

use super::alphabet::expected;

/// No card is further than this from the end.
const FURTHEST: usize = 24;

/// Stop where that is open, then do as the cards ask; `Err` says where it ended.
pub fn to_the_end(setup: &Setup<'_>, from: &Facts) -> Result<(), String> {
    let mut facts = *from;
    let mut stopped = false;
    for _ in 0..FURTHEST {
        if facts.step == Step::Ended {
            return Ok(());
        }
        let stop = !stopped && offer::is_open(setup, &facts, Answer::Stop);
        let given = if stop { Answer::Stop } else { as_asked(setup, &facts) };
        stopped |= stop;
        facts = answer(setup, None, &facts, given)
            .map_err(|why| format!("{given:?} at {:?}: {why:?}", facts.step))?;
    }
    Err(format!("still at {:?}", facts.step))
}

/// The good answer in its time, the expected reading, or the last of the free answers.
fn as_asked(setup: &Setup<'_>, facts: &Facts) -> Answer {
    let offer = offer(setup, facts);
    match (facts.phase, facts.step) {
        (_, Step::Reason) => return Answer::ReasonAndName,
        (_, Step::Slip) => return Answer::Back,
        (Phase::Turning, step) if !step.is_side() && offer.good.is_some() => return Answer::Stands,
        (Phase::Watching, step) if !step.is_side() && offer.good.is_some() => {
            return Answer::Time(TimeUp::Watch);
        }
        (Phase::Turning | Phase::Watching | Phase::Open, _) => {}
    }
    match offer.typed {
        Typed::Dials => Answer::Read(expected(setup, facts)),
        Typed::OwnRate => Answer::OwnRate { slowest: 40, fastest: 40 },
        Typed::Nothing | Typed::OneDial => offer.good.or(offer.free.last().copied()).unwrap_or(Answer::Back),
    }
}
