//! What an honest learner may do, and what a guess is worth.

use domain::check::answer::Answer;
use domain::check::facts::Dial::{Mv, Output, Rate};
use domain::check::facts::{ASYNCHRONOUS, Found};
use domain::check::step::Step;
use practice::{Act, Agreement, Entry, Exercise, ExerciseId as Id, Judgement, Reason, Verdict, judge};
use proof::{End, practise};
use serde_json::{Value, json};

use crate::drawn::Drawn;
use crate::script::{SEED, Script, exercise};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/exercises");

/// A shipped exercise with another heart, the same for every seed.
fn with(name: &str, change: impl Fn(&mut Value)) -> Exercise {
    let text = std::fs::read_to_string(format!("{FOLDER}/{name}.json")).unwrap();
    let mut file: Value = serde_json::from_str(&text).unwrap();
    file.as_object_mut().unwrap().remove("varies");
    change(&mut file);
    Exercise::from_json(&file.to_string()).unwrap()
}

fn judged(id: Id, entries: &[Entry]) -> Judgement {
    judge(exercise(id), SEED, entries).unwrap()
}

fn not_done(judgement: &Judgement) -> Vec<(Act, Verdict)> {
    let acts = judgement.acts.iter().filter(|one| one.verdict != Verdict::Done);
    acts.map(|one| (one.act, one.verdict)).collect()
}

fn verdict_of(judgement: &Judgement, act: Act) -> Option<(Verdict, Option<Reason>)> {
    judgement.acts.iter().find(|one| one.act == act).map(|one| (one.verdict, one.reason))
}

fn is_turn_of(entry: &Entry, wanted: domain::check::facts::Dial) -> bool {
    matches!(entry, Entry::Turned { dial, .. } if *dial == wanted)
}

/// Told by somebody who has looked at the answer; the dials are left as found, and read.
#[test]
fn a_figure_that_was_not_tested_counts_for_nothing_though_it_is_right() {
    let mut script = Script::careful(Id::Quiet);
    let right = judged(Id::Quiet, &script.entries);
    assert_eq!((right.capture.agreement, right.sensing.agreement), (Agreement::Equal, Agreement::Equal));
    script.entries.retain(|entry| !is_turn_of(entry, Output) && !is_turn_of(entry, Mv));
    let guessed = judged(Id::Quiet, &script.entries);
    assert_eq!(guessed.capture.said, right.capture.said);
    let agreements = (guessed.capture.agreement, guessed.sensing.agreement);
    assert_eq!(agreements, (Agreement::NotTested, Agreement::NotTested));
    let missed = Some((Verdict::Missed, Some(Reason::NotTested)));
    assert_eq!(verdict_of(&guessed, Act::CaptureFound), missed);
    assert_eq!(verdict_of(&guessed, Act::SensingFound), missed);
    assert!(!guessed.passed);
}

/// Turned past it, but nothing was seen to be lost below, or missed above.
#[test]
fn half_a_test_is_none() {
    let careful = Script::careful(Id::Quiet);
    let said = careful.entries.iter().find_map(|entry| match entry {
        Entry::Said { said, .. } => Some(*said),
        Entry::Turned { .. } | Entry::Answered { .. } | Entry::Paused { .. } | Entry::Ended { .. } => None,
    });
    let (capture, sensing) = (said.unwrap().capture.at, said.unwrap().sensing.at);
    let mut never_lost = Script::careful(Id::Quiet);
    never_lost.entries.retain(
        |entry| !matches!(entry, Entry::Turned { dial: Output, to, .. } if (1..capture).contains(to)),
    );
    let agreement = judged(Id::Quiet, &never_lost.entries).capture.agreement;
    assert_eq!(agreement, Agreement::NotTested);
    let mut never_missed = Script::careful(Id::Quiet);
    never_missed
        .entries
        .retain(|entry| !matches!(entry, Entry::Turned { dial: Mv, to, .. } if *to > sensing));
    let agreement = judged(Id::Quiet, &never_missed.entries).sensing.agreement;
    assert_eq!(agreement, Agreement::NotTested);
}

/// The first loss answered wrongly, then taken back where `slips` puts it.
fn slipped(slips: &[(Step, Answer)], after_the_next_turn: bool) -> Judgement {
    let mut entries = Script::guided(Id::Quiet).entries;
    let lost = entries
        .iter()
        .position(|entry| matches!(entry, Entry::Answered { answer: Answer::SpikeWithoutABeat, .. }))
        .unwrap();
    let Entry::Answered { at_us, step, .. } = entries[lost] else { panic!("no answer") };
    let wrong = Entry::Answered { at_us, step, answer: Answer::EverySpikeMadeABeat };
    let place = if after_the_next_turn { lost + 2 } else { lost + 1 };
    let at_slip_us = entries[place - 1].at_us().max(at_us);
    let back = slips.iter().map(|(step, answer)| Entry::Answered {
        at_us: at_slip_us,
        step: *step,
        answer: *answer,
    });
    let right = entries[lost];
    entries[lost] = wrong;
    let again = if after_the_next_turn { Vec::new() } else { vec![right] };
    entries.splice(place..place, back.chain(again));
    judged(Id::Quiet, &entries)
}

#[test]
fn an_answer_taken_back_at_once_is_not_held_against_anybody() {
    let card = Step::CaptureDown;
    let slip = (card, Answer::Slip);
    assert_eq!(not_done(&slipped(&[slip, (Step::Slip, Answer::StandsAt(12))], false)), []);
    assert_eq!(not_done(&slipped(&[(card, Answer::Stands), slip], false)), []);
    let kept = [(Act::AnsweredAsSeen, Verdict::Unsafe)];
    assert_eq!(not_done(&slipped(&[], false)), kept);
    assert_eq!(not_done(&slipped(&[slip, (Step::Slip, Answer::Back)], false)), kept);
    assert_eq!(not_done(&slipped(&[slip], true)), kept, "a dial was turned on the strength of it");
}

/// Nothing captures: the emergency card's dials, a call, and no reading asked of whoever has handed over.
#[test]
fn no_capture_at_maximum_is_judged_by_the_emergency_card() {
    let id = Id::NoCaptureAtMaximum;
    let s = 1_000_000;
    let turned = |s_at: u64, dial, to| Entry::Turned { at_us: s_at * s, dial, to };
    let up = turned(12, Output, 78);
    let end = Entry::Ended { at_us: 60 * s };
    for then in [
        vec![turned(16, Mv, ASYNCHRONOUS)],
        vec![turned(16, Mv, ASYNCHRONOUS), turned(18, Rate, 45)],
        vec![turned(16, Rate, 45)],
        vec![],
    ] {
        let entries: Vec<Entry> = [vec![up], then.clone(), vec![end]].concat();
        let judged = judged(id, &entries);
        assert_eq!(not_done(&judged), [], "{then:?}");
        assert!(judged.passed && verdict_of(&judged, Act::DialsRead).is_none());
    }
    let down = judged(id, &[up, turned(16, Output, 60), end]);
    assert!(!down.passed, "{down:?}");
}

#[test]
fn asynchronous_that_nothing_asked_for_is_missed_as_before() {
    let script = Script::careful(Id::Quiet);
    let end = script.entries.last().unwrap().at_us();
    let script = script.turn(end as f64 / 1e6 - 8.0, Mv, ASYNCHRONOUS);
    let judged =
        judged(Id::Quiet, &script.saying(|said| said.stays.as_mut().unwrap().mv = ASYNCHRONOUS).entries);
    assert_eq!(verdict_of(&judged, Act::NumberByRule), Some((Verdict::Missed, None)));
}

#[test]
fn output_above_the_rule_is_late_and_says_so() {
    let leaving = |output: u8| judged(Id::Quiet, &Script::careful(Id::Quiet).leaving_output(output).entries);
    let (most, ..) = Script::careful(Id::Quiet).last(Output);
    for output in [most + 1, most + 5, 78] {
        let judged = leaving(output);
        assert_eq!(not_done(&judged), [(Act::OutputByRule, Verdict::Late)], "{output}");
        assert_eq!(verdict_of(&judged, Act::OutputByRule), Some((Verdict::Late, Some(Reason::AboveRule))));
        assert!(judged.passed);
    }
    assert_eq!(not_done(&leaving(most - 2)), [], "inside the band");
}

/// A signal below the unit's starting number: the cards try that, then go back, call, and say it.
#[test]
fn who_is_left_blind_by_the_cards_and_has_called_has_done_right() {
    let blind = with("did-not-see", |file| {
        file["heart"]["signal"] = json!({ "own_mV": 1.2 });
        file["measurable"] = json!({ "sensing": false, "capture": false });
    });
    for seed in 1..7 {
        let run = practise(&blind, seed).unwrap();
        let judged = judge(&blind, seed, &run.entries).unwrap();
        let told = verdict_of(&judged, Act::NumberByRule);
        assert_eq!((run.played.end, told), (End::Recorded, Some((Verdict::Done, None))), "{judged:?}");
        assert!(judged.passed, "{judged:?}");
    }
    // As found, with nothing tried.
    let left = judge(&blind, 1, &[Entry::Ended { at_us: 60_000_000 }]).unwrap();
    assert_eq!(verdict_of(&left, Act::NumberByRule), Some((Verdict::Unsafe, None)));
}

/// Slow to come to it, and right when they do.
#[test]
fn a_threshold_that_has_drifted_is_found_where_it_is_by_then() {
    let drifting = with("quiet", |file| {
        file["heart"]["signal"] = json!({ "own_mV": 8.2, "drift_mV_per_hour": -20.0 });
    });
    let at_first = drifting.truth(1).smallest_signal_uv;
    for seed in 1..7 {
        let run = practise(&drifting, seed).unwrap();
        let judged = judge(&drifting, seed, &run.entries).unwrap();
        assert_eq!(judged.sensing.said.found, Found::Exact);
        assert!(
            drifting.profile.mv_at(judged.sensing.said.at + 1) <= at_first,
            "it has not drifted far enough"
        );
        assert_eq!(judged.sensing.agreement, Agreement::Equal, "{judged:?}");
        assert_eq!(not_done(&judged), [], "{judged:?}");
    }
}

/// Where the judge knows it.
#[test]
fn what_is_not_done_says_why_in_short() {
    let script = Script::careful(Id::NoOwnBeats);
    let second = script.at_s(Rate, 35) + 4.0;
    let soon = judged(Id::NoOwnBeats, &script.at(Rate, 25, 0, second).entries);
    let watched = Reason::Watched { at: 35, seconds: 4, asked: 10 };
    assert_eq!(verdict_of(&soon, Act::RateStepsWatched), Some((Verdict::Missed, Some(watched))));
    let far = judged(Id::NoOwnBeats, &Script::careful(Id::NoOwnBeats).without(Rate, 35, 0).entries);
    let one_turn = Reason::OneTurn { dial: Rate, from: 41, to: 25 };
    assert_eq!(verdict_of(&far, Act::RateStepsWatched), Some((Verdict::Missed, Some(one_turn))));
    let script = Script::careful(Id::Quiet);
    let second = script.at_s(Output, 46) + 3.0;
    let soon = judged(Id::Quiet, &script.at(Output, 37, 0, second).entries);
    let reason = verdict_of(&soon, Act::OutputStepsWatched);
    assert!(matches!(reason, Some((_, Some(Reason::Spikes { at: 46, asked: 5, .. })))), "{reason:?}");
    let late = judged(
        Id::Quiet,
        &Drawn::of(Id::Quiet, SEED).later_after_loss(Script::careful(Id::Quiet), 12).entries,
    );
    let reason = verdict_of(&late, Act::OnlyUpAfterLoss);
    assert!(matches!(reason, Some((Verdict::Late, Some(Reason::After { seconds: 11.. })))), "{reason:?}");
    let short = judged(Id::Quiet, &Script::careful(Id::Quiet).ending_soon(5).entries);
    let reason = verdict_of(&short, Act::Confirmed);
    assert!(matches!(reason, Some((_, Some(Reason::Beats { asked: 20, .. })))), "{reason:?}");
}
