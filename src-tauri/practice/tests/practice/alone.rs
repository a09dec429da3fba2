//! Each act has an exercise that only it fails: a careful run, changed in one place.
//!
//! Positions of the generator "fine mA": OUTPUT 58 is 6.0 mA, 70 is 12.0, 78 the last, 20.0; RATE 41 is 80, 35 is
//! 70, 25 is 60, 15 is 50; mV 8 is 2.0, 16 is 4.5, 24 is 9.0.

use domain::check::answer::Answer;
use domain::check::facts::Dial::{Mv, Output, Rate};
use domain::check::facts::{Found, NONE};
use practice::{Act, ExerciseId as Id, Judgement, Threshold, Verdict, judge};

use crate::script::{SEED, Script, exercise};

fn failing(act: Act) -> (Id, Verdict, Script) {
    use Verdict::{Late, Missed, Unsafe};
    let quiet = || Script::careful(Id::Quiet);
    let (id, verdict, script) = match act {
        Act::MaximumWhereFoundFails => {
            let script = Script::careful(Id::SpikesWithoutBeats);
            let at = script.at_s(Output, 78);
            (Id::SpikesWithoutBeats, Late, script.instead(Output, 78, 0, 70).turn(at + 4.0, Output, 78))
        }
        Act::OutOfAsynchronous => {
            (Id::FoundAsynchronous, Unsafe, Script::careful(Id::FoundAsynchronous).turn(13.0, Rate, 40))
        }
        Act::RateStepsWatched => {
            let script = Script::careful(Id::NoOwnBeats);
            (Id::NoOwnBeats, Missed, script.without(Rate, 35, 0).without(Rate, 25, 0))
        }
        Act::RateLimitKept => {
            let script = Script::careful(Id::NoOwnBeats);
            let at = script.at_s(Rate, 15);
            (Id::NoOwnBeats, Unsafe, script.turn(at + 11.0, Rate, 10))
        }
        Act::BlindPutRight => (Id::DidNotSee, Late, Script::careful(Id::DidNotSee).later(Rate, 41, 0, 40)),
        Act::OutputBeforeNumber => {
            let script = quiet();
            let at = script.at_s(Output, 0);
            (Id::Quiet, Unsafe, script.turn(at - 2.0, Mv, 16))
        }
        Act::SpikeAtMinimumHeeded => {
            let script = Script::careful(Id::MinimumCaptures);
            // 9.0 missed the first beat, and the spike behind it made one: from there the number goes down to 2.0.
            let at = script.at_s(Mv, 8);
            (Id::MinimumCaptures, Unsafe, script.turn(at - 0.4, Mv, 25))
        }
        Act::MinimumKeptShort => (Id::Quiet, Late, quiet().later(Output, 58, 0, 100)),
        Act::SensingFound => {
            (Id::Quiet, Missed, quiet().saying(|said| said.sensing = Threshold::exactly(24)))
        }
        Act::NumberBeforeOutput => {
            let script = quiet();
            let out = script.at_s(Output, 58);
            (Id::Quiet, Unsafe, script.at(Mv, 8, 0, out + 1.0))
        }
        Act::OwnRhythmFirst => {
            let script = Script::careful(Id::NoOwnBeats);
            let at = script.at_s(Rate, 41);
            (Id::NoOwnBeats, Unsafe, script.turn(at + 1.0, Output, 48).turn(at + 4.0, Output, 58))
        }
        Act::OutputStepsWatched => {
            let script = quiet();
            let first = script.at_s(Output, 46);
            (Id::Quiet, Missed, script.at(Output, 37, 0, first + 2.0))
        }
        Act::OnlyUpAfterLoss => (Id::Quiet, Late, quiet().later(Output, 15, 1, 12)),
        Act::CaptureFound => {
            (Id::Quiet, Missed, quiet().saying(|said| said.capture = Threshold::exactly(15)))
        }
        Act::BlockHeeded => {
            (Id::BlockAtFasterRate, Late, Script::careful(Id::BlockAtFasterRate).later(Rate, 41, 0, 20))
        }
        Act::WrongChamberHeeded => {
            let script = Script::careful(Id::WrongChamber);
            let back = script.at_s(Rate, 25);
            let script = script.turn(back - 1.4, Output, 48).turn(back - 0.8, Output, 58);
            (Id::WrongChamber, Unsafe, script)
        }
        Act::PressureHeeded => {
            (Id::PressureFalls, Late, Script::careful(Id::PressureFalls).later(Rate, 25, 0, 20))
        }
        Act::OutputFirstInNoBeats => {
            (Id::CaptureLost, Late, Script::careful(Id::CaptureLost).later(Output, 78, 0, 8))
        }
        Act::MaximumAfterShock => {
            let script = Script::careful(Id::ShockInCheck);
            let at = script.at_s(Output, 78);
            (Id::ShockInCheck, Late, script.instead(Output, 78, 0, 70).turn(at + 4.0, Output, 78))
        }
        Act::PausesEnded => (Id::TWaveSeen, Late, Script::careful(Id::TWaveSeen).later(Mv, 17, 0, 200)),
        Act::OutputByRule => {
            let script = quiet().instead(Output, 52, 0, 24);
            (Id::Quiet, Missed, script.saying(|said| said.stays.as_mut().unwrap().output = 24))
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
            let script = Script::guided(Id::Quiet);
            (Id::Quiet, Unsafe, script.answering(Answer::SpikeWithoutABeat, Answer::EverySpikeMadeABeat))
        }
    };
    (id, verdict, script)
}

fn judged(id: Id, script: &Script) -> Judgement {
    judge(exercise(id), SEED, &script.entries).unwrap()
}

#[test]
fn each_act_has_an_exercise_that_only_it_fails() {
    let mut wrong = Vec::new();
    for act in Act::ALL {
        let (id, verdict, script) = failing(*act);
        let judged = judged(id, &script);
        let not_done = not_done(&judged);
        if not_done != [(*act, verdict)] {
            let turns: Vec<_> = script.entries.iter().map(|entry| format!("{entry:?}")).collect();
            wrong.push(format!("{act:?} on {id:?}: {not_done:?}\n  {}", turns.join("\n  ")));
        }
        assert_eq!(judged.passed, verdict == Verdict::Late, "{act:?} on {id:?}");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// One unsafe act among acts that are all done, and a run that passes but for it.
#[test]
fn an_unsafe_act_fails_the_run_whatever_else_was_right() {
    let mut unsafe_acts = 0;
    for act in Act::ALL {
        let (id, verdict, script) = failing(*act);
        if verdict == Verdict::Unsafe {
            unsafe_acts += 1;
            let judged = judged(id, &script);
            assert!(!judged.passed, "{act:?}");
            assert!(judged.acts.iter().filter(|one| one.verdict == Verdict::Done).count() > 4, "{act:?}");
            assert!(judge(exercise(id), SEED, &Script::careful(id).entries).unwrap().passed, "{act:?}");
        }
    }
    assert!(unsafe_acts >= 7, "{unsafe_acts}");
}

/// The instant to look at again lies in the run, and the dials stood there as said.
#[test]
fn each_act_names_an_instant_and_the_dials_of_it() {
    for act in Act::ALL {
        let (id, _, script) = failing(*act);
        for one in judged(id, &script).acts {
            assert!(one.at_us <= script.entries.last().unwrap().at_us(), "{one:?}");
            let mut run = practice::Run::new(exercise(id), SEED).unwrap();
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
    assert_eq!(not_done(&judged(Id::Quiet, &script)), [(Act::DialsRead, Verdict::Missed)]);
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
        not_done(&judged(Id::Quiet, &script))
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
        let found = not_done(&judged(id, &script));
        assert_eq!(found, [(Act::AnsweredAsSeen, verdict)], "{other:?} for {instead_of:?}");
    }
}

fn not_done(judgement: &Judgement) -> Vec<(Act, Verdict)> {
    let acts = judgement.acts.iter().filter(|one| one.verdict != Verdict::Done);
    acts.map(|one| (one.act, one.verdict)).collect()
}
