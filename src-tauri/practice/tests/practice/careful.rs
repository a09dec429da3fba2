//! The person of the closed loop, led by the cards, does every act of every exercise, whatever the seed has drawn.

use practice::{Act, Agreement, ExerciseId, Judgement, Verdict, exercises, judge};
use proof::{End, practise};

const SEEDS: std::ops::Range<u64> = 0..200;

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
                let (end, truth) = (run.played.end, exercise.truth(seed));
                wrong.push(format!("{:?} {seed} {end:?} {truth:?}\n{}", exercise.id, told(&judged)));
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
fn the_quiet_exercise_is_found_exactly_where_the_seed_has_put_it() {
    let exercise = &exercises().unwrap()[0];
    assert_eq!(exercise.id, ExerciseId::Quiet);
    let mut found = Vec::new();
    for seed in 1..5 {
        let run = practise(exercise, seed).unwrap();
        let judged = judge(exercise, seed, &run.entries).unwrap();
        assert_eq!(judged.capture.agreement, Agreement::Equal);
        assert_eq!(judged.sensing.agreement, Agreement::Equal);
        assert!(judged.spikes_on_t.iter().all(|spike| !spike.captured));
        let (capture, sensing) = (judged.capture.said.at, judged.sensing.said.at);
        found.push((exercise.profile.output_text(capture), exercise.profile.mv_text(sensing)));
    }
    assert_eq!(found, [("2.5", "8.0"), ("1.3", "5.5"), ("2.6", "7.0"), ("1.3", "9.0")]);
}
