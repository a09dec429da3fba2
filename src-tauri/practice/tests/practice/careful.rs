//! The person of the closed loop, led by the cards, does every act of every exercise.

use practice::{Act, Agreement, ExerciseId, Judgement, Verdict, exercises, judge};
use proof::{End, practise};

const SEEDS: std::ops::Range<u64> = 1..13;

fn told(judgement: &Judgement) -> String {
    let acts = judgement.acts.iter().map(|act| {
        format!("{:?} {:?} at {} s, {:?}", act.act, act.verdict, act.at_us / 1_000_000, act.dials)
    });
    let ends = format!("capture {:?}\nsensing {:?}", judgement.capture, judgement.sensing);
    acts.chain([ends]).collect::<Vec<_>>().join("\n")
}

#[test]
fn whoever_follows_the_cards_passes_every_act() {
    let mut wrong = Vec::new();
    for exercise in exercises().unwrap() {
        for seed in SEEDS {
            let run = practise(exercise, seed).unwrap();
            let judged = judge(exercise, seed, &run.entries).unwrap();
            if std::env::var_os("SHOW").is_some() && seed == 1 {
                println!("== {:?} {:?}\n{}", exercise.id, run.played.end, told(&judged));
                run.entries.iter().for_each(|entry| println!("   {entry:?}"));
            }
            let all_done = judged.acts.iter().all(|one| one.verdict == Verdict::Done);
            if !(all_done && judged.passed && run.played.end == End::Recorded) {
                wrong.push(format!("{:?} {seed} {:?}\n{}", exercise.id, run.played.end, told(&judged)));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn every_act_is_asked_for_somewhere() {
    let mut asked: Vec<Act> = Vec::new();
    for exercise in exercises().unwrap() {
        let run = practise(exercise, 1).unwrap();
        asked.extend(judge(exercise, 1, &run.entries).unwrap().acts.iter().map(|act| act.act));
    }
    let never: Vec<_> = Act::ALL.iter().filter(|act| !asked.contains(act)).collect();
    assert!(never.is_empty(), "{never:?}");
}

#[test]
fn the_quiet_exercise_is_found_exactly() {
    let exercise = &exercises().unwrap()[0];
    assert_eq!(exercise.id, ExerciseId::Quiet);
    let run = practise(exercise, 3).unwrap();
    let judged = judge(exercise, 3, &run.entries).unwrap();
    assert_eq!(judged.capture.agreement, Agreement::Equal);
    assert_eq!(judged.sensing.agreement, Agreement::Equal);
    assert_eq!(exercise.profile.output_text(judged.capture.said.at), "1.8");
    assert_eq!(exercise.profile.mv_text(judged.sensing.said.at), "8.0");
    assert!(judged.spikes_on_t.iter().all(|spike| !spike.captured));
}
