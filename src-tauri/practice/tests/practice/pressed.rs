//! Dials turned by the keys of the practice, a position or a few at a press: judged as one turn of a hand.

use domain::check::facts::Dial::{Output, Rate};
use practice::{Act, Entry, ExerciseId as Id, Verdict, judge};

use crate::script::{SEED, Script, exercise};

fn not_done(id: Id, script: &Script) -> Vec<(Act, Verdict)> {
    not_done_of(id, SEED, script)
}

fn not_done_of(id: Id, seed: u64, script: &Script) -> Vec<(Act, Verdict)> {
    let judged = judge(exercise(id), seed, &script.entries).unwrap();
    let acts = judged.acts.iter().filter(|one| one.verdict != Verdict::Done);
    acts.map(|one| (one.act, one.verdict)).collect()
}

#[test]
fn a_careful_run_by_single_presses_passes_every_act() {
    let mut wrong = Vec::new();
    for (id, seed) in Id::ALL.iter().flat_map(|id| (1..9).map(move |seed| (*id, seed))) {
        let pressed = Script::careful_of(id, seed).pressed(exercise(id), 700);
        let found = not_done_of(id, seed, &pressed);
        if !found.is_empty() {
            let turns: Vec<_> = pressed.entries.iter().map(|entry| format!("{entry:?}")).collect();
            wrong.push(format!("{id:?} {seed} {found:?}\n  {}", turns.join("\n  ")));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Presses with a look between them are steps of their own, each too short.
#[test]
fn presses_with_a_pause_between_are_several_turns() {
    let script = Script::careful(Id::NoOwnBeats).pressed(exercise(Id::NoOwnBeats), 3_000);
    assert_eq!(not_done(Id::NoOwnBeats, &script), [(Act::RateStepsWatched, Verdict::Missed)]);
}

/// Pressed on from one step into the next, without the watch that lies between.
#[test]
fn two_steps_in_one_go_are_one_step_too_far() {
    let rate = Script::careful(Id::NoOwnBeats);
    let second = rate.at_s(Rate, 35) + 2.0;
    assert_eq!(
        not_done(Id::NoOwnBeats, &rate.at(Rate, 25, 0, second)),
        [(Act::RateStepsWatched, Verdict::Missed)]
    );
    let output = Script::careful(Id::Quiet);
    let second = output.at_s(Output, 46) + 2.0;
    assert_eq!(
        not_done(Id::Quiet, &output.at(Output, 37, 0, second)),
        [(Act::OutputStepsWatched, Verdict::Missed)]
    );
}

/// Simulated time stands still meanwhile: nobody has looked.
#[test]
fn a_pause_of_the_practice_divides_no_turn() {
    let script = Script::careful(Id::Quiet).pressed(exercise(Id::Quiet), 700);
    let paused = script.entries.iter().flat_map(|entry| {
        let pause = Entry::Paused { at_us: entry.at_us(), why: practice::Pause::Stall, ms: 40_000 };
        [*entry, pause]
    });
    let entries = paused.filter(|entry| entry.at_us() <= script.entries.last().unwrap().at_us()).collect();
    assert_eq!(not_done(Id::Quiet, &Script { entries }), []);
}
