//! All that can be done to a card, as commands with what is typed beside them.

use domain::State;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials};
use domain::command::Command;
use domain::profile::Profile;
use domain::swap::answer::Answer;
use domain::swap::facts::{Facts, Place};
use domain::swap::step::Step;

use super::book::Said;
use super::walk::asked;
use crate::made::{TAPS, World, at};

/// What is done to a card, as a command with its fields.
pub type Deed = (Said, Command, Vec<(&'static str, String)>);

/// The whole alphabet, as commands.
pub fn deeds(world: &World, state: &State, card: &Facts) -> Vec<Deed> {
    let tap = |answer: Answer| match (card.step, answer) {
        (Step::Order | Step::Reason, Answer::Yes) => {
            let values = [("name", "Dr Example"), ("reason", "The dial is covered")];
            let values = values.map(|(id, text)| (id, text.to_owned())).to_vec();
            (Said::Tapped(answer), Command::SwapNamed(answer), values)
        }
        (_, Answer::Picked) => (Said::Picked, Command::SwapPicked, vec![("generator", world.new.to_owned())]),
        _ => (Said::Tapped(answer), Command::Swap(answer), Vec::new()),
    };
    let mut deeds: Vec<_> = TAPS.into_iter().filter(|tap| !matches!(tap, Answer::Time(_))).map(tap).collect();
    deeds.push((Said::Time, Command::TimePassed, Vec::new()));
    deeds.push((Said::Slept { long: false }, Command::Woke { alive: at(0) }, Vec::new()));
    deeds.push((Said::Slept { long: true }, Command::Woke { alive: at(0) }, Vec::new()));
    deeds.extend(readings(world, state, card));
    deeds
}

fn readings(world: &World, state: &State, card: &Facts) -> Vec<Deed> {
    let printed = |profile: &Profile, dials: Dials| {
        let mv = match dials.mv {
            ASYNCHRONOUS => "asynchronous".to_owned(),
            at => profile.mv_text(at).to_owned(),
        };
        let (output, rate) = (profile.output_text(dials.output), profile.rate_text(dials.rate));
        vec![("output", output.to_owned()), ("rate", rate.to_owned()), ("mv", mv)]
    };
    let on_new = card.step == Step::ReadNew || card.place == Place::New;
    let profile = state.generator(if on_new { world.new } else { world.old }).unwrap();
    let found = found(world, state);
    let lower = |at: u8| if at == 0 { 1 } else { at - 1 };
    let beside =
        |dials: Dials| dials.with(Dial::Output, lower(dials.output)).with(Dial::Rate, lower(dials.rate));
    // Two readings of each box, no more: else the dials drift through every position.
    let (right, other) = match (on_new, card.old) {
        (true, _) => (card.new, beside(card.new)),
        (false, old) if old == beside(found) => (old, found),
        (false, _) => (found, beside(found)),
    };
    let typed = |said, dials| (said, Command::SwapTypedDials, printed(profile, dials));
    let readings = [typed(Said::ReadRight, right), typed(Said::ReadOther, other)];
    // The other one is typed first, never twice in a row.
    let twice = card.step == Step::ReadOld && asked(state) == Some(other);
    readings.into_iter().take(if twice { 1 } else { 2 }).collect()
}

fn found(world: &World, state: &State) -> Dials {
    let old = state.generator(world.old).unwrap();
    let [output, rate, mv] = world.found;
    let mv = if mv == "asynchronous" { ASYNCHRONOUS } else { old.read_mv(mv).unwrap() };
    Dials { output: old.read_output(output).unwrap(), rate: old.read_rate(rate).unwrap(), mv }
}
