//! Each act has an exercise that only it fails: a careful run, changed in one place, whatever the seed has drawn.
//!
//! Positions of the generator "fine mA": OUTPUT 58 is 6.0 mA, 70 is 12.0, 78 the last, 20.0; RATE 41 is 80, 35 is
//! 70, 25 is 60, 15 is 50; mV 8 is 2.0, 16 is 4.5, 24 is 9.0.

use domain::check::answer::Answer;
use domain::check::facts::Dial::{Mv, Output, Rate};
use domain::check::facts::{Found, NONE};
use practice::{Act, ExerciseId as Id, Judgement, Threshold, Verdict, judge};

use crate::drawn::Drawn;
use crate::script::{SEED, Script, exercise};

const SEEDS: std::ops::Range<u64> = 1..9;

fn failing(act: Act, seed: u64) -> (Id, Verdict, Script) {
    use Verdict::{Late, Missed, Unsafe};
    let careful = |id| Script::careful_of(id, seed);
    let quiet = || careful(Id::Quiet);
    let drawn = Drawn::of(Id::Quiet, seed);
    let (id, verdict, script) = match act {
        Act::MaximumWhereFoundFails => {
            let script = careful(Id::SpikesWithoutBeats);
            let at = script.at_s(Output, 78);
            (Id::SpikesWithoutBeats, Late, script.instead(Output, 78, 0, 77).turn(at + 4.0, Output, 78))
        }
        Act::OutOfAsynchronous => {
            (Id::FoundAsynchronous, Unsafe, careful(Id::FoundAsynchronous).turn(13.0, Rate, 40))
        }
        Act::RateStepsWatched => {
            let script = careful(Id::NoOwnBeats);
            (Id::NoOwnBeats, Missed, script.without(Rate, 35, 0).without(Rate, 25, 0))
        }
        Act::RateLimitKept => {
            let script = careful(Id::NoOwnBeats);
            let at = script.at_s(Rate, 15);
            (Id::NoOwnBeats, Unsafe, script.turn(at + 11.0, Rate, 10))
        }
        Act::BlindPutRight => (Id::DidNotSee, Late, careful(Id::DidNotSee).later(Rate, 41, 0, 40)),
        Act::OutputBeforeNumber => {
            let script = quiet();
            let at = script.at_s(Output, 0);
            (Id::Quiet, Unsafe, script.turn(at - 2.0, Mv, drawn.sees))
        }
        Act::SpikeAtMinimumHeeded => {
            let script = careful(Id::MinimumCaptures);
            // A number missed the first beat, and the spike behind it made one: from there the number goes down to 2.0.
            let at = script.at_s(Mv, 8);
            let (_, _, missed) = script.last(Mv);
            (Id::MinimumCaptures, Unsafe, script.turn(at - 0.4, Mv, missed + 1))
        }
        Act::MinimumKeptShort => (Id::Quiet, Late, quiet().later(Output, 58, 0, 100)),
        Act::SensingFound => {
            (Id::Quiet, Missed, quiet().saying(|said| said.sensing = Threshold::exactly(drawn.sees + 1)))
        }
        Act::NumberBeforeOutput => {
            let script = quiet();
            let out = script.at_s(Output, 58);
            (Id::Quiet, Unsafe, script.at(Mv, 8, 0, out + 1.0))
        }
        Act::OwnRhythmFirst => {
            let script = careful(Id::NoOwnBeats);
            let at = script.at_s(Rate, 41);
            (Id::NoOwnBeats, Unsafe, script.turn(at + 1.0, Output, 48).turn(at + 4.0, Output, 58))
        }
        Act::OutputStepsWatched => {
            let script = quiet();
            let first = script.at_s(Output, 46);
            (Id::Quiet, Missed, script.at(Output, 37, 0, first + 2.0))
        }
        Act::OnlyUpAfterLoss => (Id::Quiet, Late, drawn.later_after_loss(quiet(), 12)),
        Act::CaptureFound => {
            (Id::Quiet, Missed, quiet().saying(|said| said.capture = Threshold::exactly(drawn.captures - 1)))
        }
        Act::BlockHeeded => {
            (Id::BlockAtFasterRate, Late, careful(Id::BlockAtFasterRate).later(Rate, 41, 0, 20))
        }
        Act::WrongChamberHeeded => {
            let script = careful(Id::WrongChamber);
            let back = script.at_s(Rate, 25);
            let script = script.turn(back - 1.4, Output, 48).turn(back - 0.8, Output, 58);
            (Id::WrongChamber, Unsafe, script)
        }
        Act::PressureHeeded => (Id::PressureFalls, Late, careful(Id::PressureFalls).later(Rate, 25, 0, 20)),
        Act::OutputFirstInNoBeats => {
            (Id::CaptureLost, Late, careful(Id::CaptureLost).later(Output, 78, 0, 8))
        }
        Act::MaximumAfterShock => {
            let script = careful(Id::ShockInCheck);
            let at = script.at_s(Output, 78);
            (Id::ShockInCheck, Late, script.instead(Output, 78, 0, 77).turn(at + 4.0, Output, 78))
        }
        Act::PausesEnded => {
            let script = careful(Id::TWaveSeen);
            let (back, nth, _) = script.last(Mv);
            (Id::TWaveSeen, Late, script.later(Mv, back, nth, 200))
        }
        Act::OutputByRule => {
            let too_low = drawn.captures + 5;
            (Id::Quiet, Missed, quiet().leaving_output(too_low))
        }
        Act::NumberByRule => {
            let script = quiet();
            let back = script.at_s(Rate, 41);
            let script = script.turn(back + 2.0, Mv, 2);
            (Id::Quiet, Missed, script.saying(|said| said.stays.as_mut().unwrap().mv = 2))
        }
        Act::RateBack => {
            let script = quiet().without(Rate, 41, 0);
            (Id::Quiet, Missed, script.saying(|said| said.stays.as_mut().unwrap().rate = 42))
        }
        Act::DialsRead => (Id::Quiet, Missed, quiet().saying(|said| said.stays = None)),
        Act::Confirmed => (Id::Quiet, Missed, quiet().ending_soon(5)),
        Act::AnsweredAsSeen => {
            let script = Script::guided_of(Id::Quiet, seed);
            (Id::Quiet, Unsafe, script.answering(Answer::SpikeWithoutABeat, Answer::EverySpikeMadeABeat))
        }
    };
    (id, verdict, script)
}

fn each() -> impl Iterator<Item = (Act, u64)> {
    Act::ALL.iter().flat_map(|act| SEEDS.map(|seed| (*act, seed)))
}

fn judged(id: Id, seed: u64, script: &Script) -> Judgement {
    judge(exercise(id), seed, &script.entries).unwrap()
}

#[test]
fn each_act_has_an_exercise_that_only_it_fails() {
    let mut wrong = Vec::new();
    for (act, seed) in each() {
        let (id, verdict, script) = failing(act, seed);
        let judged = judged(id, seed, &script);
        let not_done = not_done(&judged);
        if not_done != [(act, verdict)] {
            let turns: Vec<_> = script.entries.iter().map(|entry| format!("{entry:?}")).collect();
            wrong.push(format!("{act:?} on {id:?}, seed {seed}: {not_done:?}\n  {}", turns.join("\n  ")));
        }
        assert_eq!(judged.passed, verdict == Verdict::Late, "{act:?} on {id:?}, seed {seed}");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// One unsafe act among acts that are all done, and a run that passes but for it.
#[test]
fn an_unsafe_act_fails_the_run_whatever_else_was_right() {
    let mut unsafe_acts = 0;
    for (act, seed) in each() {
        let (id, verdict, script) = failing(act, seed);
        if verdict == Verdict::Unsafe {
            unsafe_acts += 1;
            let judged = judged(id, seed, &script);
            assert!(!judged.passed, "{act:?}");
            assert!(judged.acts.iter().filter(|one| one.verdict == Verdict::Done).count() > 4, "{act:?}");
            assert!(
                judge(exercise(id), seed, &Script::careful_of(id, seed).entries).unwrap().passed,
                "{act:?}"
            );
        }
    }
    assert!(unsafe_acts >= 7 * SEEDS.count(), "{unsafe_acts}");
}

/// The instant to look at again lies in the run, and the dials stood there as said.
#[test]
fn each_act_names_an_instant_and_the_dials_of_it() {
    for (act, seed) in each() {
        let (id, _, script) = failing(act, seed);
        for one in judged(id, seed, &script).acts {
            assert!(one.at_us <= script.entries.last().unwrap().at_us(), "{one:?}");
            let mut run = practice::Run::new(exercise(id), seed).unwrap();
            for entry in script.entries.iter().filter(|entry| entry.at_us() <= one.at_us) {
                if let practice::Entry::Turned { dial, to, .. } = entry {
                    run.turn(*dial, *to).unwrap();
                }
            }
            assert_eq!(run.dials(), one.dials, "{act:?} {one:?}");
        }
    }
}

/// What is said is read off the dials by whoever says it: a wrong figure is no reading.
#[test]
fn a_dial_read_wrong_was_not_read() {
    let script = Script::careful(Id::Quiet).saying(|said| said.stays.as_mut().unwrap().rate = 40);
    assert_eq!(not_done(&judged(Id::Quiet, SEED, &script)), [(Act::DialsRead, Verdict::Missed)]);
}

/// Wide enough, each would hold the truth.
#[test]
fn what_was_never_tried_is_not_found() {
    let at = |found, at, low| Threshold { found, at, low };
    let said = |capture: Option<Threshold>, sensing: Option<Threshold>| {
        let script = Script::careful(Id::Quiet).saying(|said| {
            said.capture = capture.unwrap_or(said.capture);
            said.sensing = sensing.unwrap_or(said.sensing);
        });
        not_done(&judged(Id::Quiet, SEED, &script))
    };
    let capture = [(Act::CaptureFound, Verdict::Missed)];
    assert_eq!(said(Some(at(Found::Bracket, 77, 1)), None), capture);
    // And by what is said, the rule asks for less.
    let too_high = (Act::OutputByRule, Verdict::Late);
    assert_eq!(said(Some(at(Found::AtMost, 0, NONE)), None), [capture[0], too_high]);
    assert_eq!(said(None, Some(at(Found::AtLeast, 0, NONE))), [(Act::SensingFound, Verdict::Missed)]);
    assert_eq!(said(None, Some(at(Found::AtLeast, 16, NONE))), []);
}

/// An answer that marks and beats contradict, put in the place of the right one.
#[test]
fn answers_about_marks_and_beats_are_judged() {
    use Answer::{BeatNotMarked, EveryBeatMarked, OnlyOwn, StillPaced};
    for (id, instead_of, other, verdict) in [
        (Id::Quiet, BeatNotMarked, EveryBeatMarked, Verdict::Unsafe),
        (Id::Quiet, EveryBeatMarked, BeatNotMarked, Verdict::Missed),
        (Id::NoOwnBeats, StillPaced, OnlyOwn, Verdict::Unsafe),
        (Id::Quiet, OnlyOwn, StillPaced, Verdict::Missed),
    ] {
        let script = Script::guided(id).answering(instead_of, other);
        let found = not_done(&judged(id, SEED, &script));
        assert_eq!(found, [(Act::AnsweredAsSeen, verdict)], "{other:?} for {instead_of:?}");
    }
}

fn not_done(judgement: &Judgement) -> Vec<(Act, Verdict)> {
    let acts = judgement.acts.iter().filter(|one| one.verdict != Verdict::Done);
    acts.map(|one| (one.act, one.verdict)).collect()
}
