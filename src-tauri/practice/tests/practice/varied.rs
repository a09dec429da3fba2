//! The seed draws the patient: other numbers, the same lesson.

use std::collections::BTreeSet;

use domain::check::facts::{ASYNCHRONOUS, Dial};
use domain::profile::Position;
use practice::{Change, Entry, Exercise, ExerciseId as Id, Judgement, exercises, judge, truth};
use simulator::Heart;

use crate::script::exercise;

const SEEDS: std::ops::Range<u64> = 0..200;

/// What a check could find, as positions of the dials.
fn found(exercise: &Exercise, seed: u64) -> (Option<Position>, Option<Position>) {
    let truth = exercise.truth(seed);
    let capture = truth::lowest_at_or_above(&exercise.profile, truth.going_up_micro);
    (capture, truth::highest_that_sees(&exercise.profile, &truth))
}

/// The heart at the beginning, and after everything that happens by itself.
fn hearts(exercise: &Exercise, seed: u64) -> (Heart, Heart) {
    let (mut happenings, mut last) = (exercise.happenings(seed), exercise.heart(seed));
    let dials = exercise.found.with(Dial::Output, 0);
    let [low, high] = [dials.with(Dial::Rate, 0), dials.with(Dial::Rate, exercise.profile.rate_last())];
    for second in 0..3_600 {
        for change in happenings.now(second * 1_000_000, if second % 20 < 10 { low } else { high }) {
            if let Change::Heart(heart) | Change::Shock(heart) = change {
                last = heart;
            }
        }
    }
    (exercise.heart(seed), last)
}

/// Who has seen one run knows the figures of none. Where even the minimum captures, the threshold stays: it is the lesson.
#[test]
fn every_exercise_has_several_patients() {
    for exercise in exercises().unwrap() {
        let found: Vec<_> = SEEDS.map(|seed| found(exercise, seed)).collect();
        let capture = found.iter().map(|found| found.0).collect::<BTreeSet<_>>().len();
        let sensing = found.iter().map(|found| found.1).collect::<BTreeSet<_>>().len();
        println!("{:?}: {capture} thresholds, {sensing} signals", exercise.id);
        assert!(capture >= 6 || sensing >= 3, "{:?}: {capture}, {sensing}", exercise.id);
    }
}

/// What the exercise is there for, as arithmetic on the heart that was drawn.
#[test]
fn whatever_is_drawn_each_exercise_keeps_its_lesson() {
    for exercise in exercises().unwrap() {
        for seed in SEEDS {
            let kept = keeps_its_lesson(exercise, seed);
            assert!(kept, "{:?} {seed} {:?}", exercise.id, exercise.truth(seed));
        }
    }
}

fn keeps_its_lesson(exercise: &Exercise, seed: u64) -> bool {
    let (profile, truth) = (&exercise.profile, exercise.truth(seed));
    let (output, last) = (profile.output_at(exercise.found.output), profile.output_at(profile.output_last()));
    let (down, up, signal) = (truth.going_down_micro, truth.going_up_micro, truth.smallest_signal_uv);
    let number = profile.mv_at(exercise.found.mv);
    let (captures, sees) = (output >= up, number <= signal);
    let below_half = (0..=profile.mv_last()).rfind(|at| 2 * profile.mv_at(*at) < signal);
    let (_, later) = hearts(exercise, seed);
    match exercise.id {
        // Three times the threshold is beyond the dial, double is on it.
        Id::HighThreshold => captures && sees && 3 * up > last && 2 * up <= last,
        Id::DidNotSee => captures && !sees,
        Id::FoundAsynchronous => captures && exercise.found.mv == ASYNCHRONOUS,
        // The rule's number takes the T wave for a beat; the number found does not.
        Id::TWaveSeen => {
            let by_rule = profile.mv_at(below_half.unwrap());
            captures && sees && by_rule <= truth.largest_false_signal_uv
        }
        Id::MinimumCaptures => up <= profile.output_at(0) && sees,
        Id::SpikesWithoutBeats => down > output && up <= last,
        Id::CaptureLost => captures && later.capture.going_down_micro > output,
        Id::ShockInCheck => {
            captures
                && up < 3_200
                && later.capture.going_up_micro > output
                && later.capture.going_up_micro <= last
        }
        Id::NoCaptureAtMaximum => down > last,
        // Twice the threshold is no more than was found: there is nothing to put right.
        Id::Quiet
        | Id::NoOwnBeats
        | Id::EscapeSleeps
        | Id::ExtraBeats
        | Id::BlockAtFasterRate
        | Id::WrongChamber
        | Id::PressureFalls
        | Id::LoosePin => output >= 2 * up && sees,
    }
}

/// The judge, and what happens by itself; that the bedside of a careful run is the same follows from what it finds.
#[test]
fn everybody_speaks_of_the_heart_that_was_drawn() {
    for seed in [1, 2, 3, 77] {
        for exercise in exercises().unwrap() {
            let judged: Judgement = judge(exercise, seed, &[Entry::Ended { at_us: 1_000_000 }]).unwrap();
            assert_eq!(
                (judged.capture.truth, judged.sensing.truth),
                found(exercise, seed),
                "{:?}",
                exercise.id
            );
        }
        let (first, shocked) = hearts(exercise(Id::ShockInCheck), seed);
        assert_eq!(shocked, first.after_shock(3));
        let (first, lost) = hearts(exercise(Id::CaptureLost), seed);
        assert_eq!(lost.capture.going_up_micro - first.capture.going_up_micro, 9_500 - 1_800);
        assert_eq!(lost.signal, first.signal);
    }
}

/// And what varies, no further than the file says, in threshold and signal alone.
#[test]
fn what_does_not_vary_is_the_same_for_every_seed() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/exercises/quiet.json");
    let mut file: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let varied = Exercise::from_json(&file.to_string()).unwrap();
    file.as_object_mut().unwrap().remove("varies");
    let fixed = Exercise::from_json(&file.to_string()).unwrap();
    assert_ne!(varied.hash, fixed.hash);
    let hearts: Vec<Heart> = SEEDS.map(|seed| fixed.heart(seed)).collect();
    assert!(hearts.iter().all(|heart| *heart == hearts[0]));
    let moved = |seed| {
        let (varied, fixed) = (varied.heart(seed), &hearts[0]);
        let up = varied.capture.going_up_micro.abs_diff(fixed.capture.going_up_micro);
        let down = varied.capture.going_down_micro.abs_diff(fixed.capture.going_down_micro);
        assert_eq!(up, down, "both thresholds together");
        let same_else = Heart { capture: fixed.capture, signal: fixed.signal, ..varied.clone() };
        assert_eq!(same_else, *fixed);
        (varied.capture.going_up_micro, varied.signal.own_uv)
    };
    let drawn: BTreeSet<(u32, u32)> = SEEDS.map(moved).collect();
    let bounds = |of: fn(&(u32, u32)) -> u32| (drawn.iter().map(of).min(), drawn.iter().map(of).max());
    assert_eq!(bounds(|drawn| drawn.0), (Some(1_200), Some(2_600)));
    assert_eq!(bounds(|drawn| drawn.1), (Some(5_500), Some(10_000)));
}
