//! The exercises that come with Holdfast.

use practice::{ExerciseId, Run, exercises, judge};

#[test]
fn every_exercise_is_there_in_order_and_can_be_run() {
    let exercises = exercises().unwrap();
    let ids: Vec<ExerciseId> = exercises.iter().map(|exercise| exercise.id).collect();
    assert_eq!(ids, ExerciseId::ALL);
    for exercise in exercises {
        let mut run = Run::new(exercise, 1).unwrap();
        let batches: Vec<_> = (0..400).map(|_| run.next_batch().unwrap()).collect();
        assert!(batches.iter().any(|batch| batch.ecg.iter().any(|uv| *uv > 500)), "{:?}", exercise.id);
        assert_eq!(run.now_us(), 20_000_000);
    }
}

#[test]
fn nobody_passes_by_doing_nothing() {
    for exercise in exercises().unwrap() {
        let judged = judge(exercise, 1, &[practice::Entry::Ended { at_us: 60_000_000 }]).unwrap();
        assert!(!judged.passed, "{:?}", exercise.id);
    }
}
