//! Who is signed for what, and until when. All names are inventions.

use domain::State;
use domain::command::Command;
use domain::contract::{Sent, Shape};
use domain::moment::Moment;
use domain::practice::{
    Act, Agreement, Compared, Entry, ExerciseId, Judged, Judgement, PracticeRun, Staged, Threshold, Verdict,
};
use domain::rules::{Chamber, Rules};
use domain::say::Say;
use domain::state::screen::Screen;
use domain::teaching::ask::Ask;
use domain::teaching::draft::{Subject, agrees, judged};
use domain::teaching::item::{How, Item};
use domain::teaching::paper::{FORMAT, Finding, Marked, Paper, Says, SignOff, Work};
use domain::teaching::place::Place;
use domain::teaching::roster::{DUE_DAYS, Due, due, learners, missing};
use domain::teaching::{Kept, Read, Teaching, hex, months_after, unhex};

const DAY_MS: i64 = 86_400_000;
/// 2026-11-28T12:00:00 UTC.
const NOON_MS: i64 = 1_795_867_200_000;

fn kept(number: u8, day: i64, says: Says) -> Kept {
    let paper = Paper {
        format: FORMAT,
        app: "0.1.0".into(),
        educator: "E. Example".into(),
        enrolled_ms: 0,
        at_ms: NOON_MS + day * DAY_MS,
        offset_min: 0,
        says,
    };
    let (key, hash) = ("ab".into(), format!("{number:02x}"));
    Kept { paper, key, token: String::new(), hash, elsewhere: false, file: None }
}

fn says(learner: &str, marks: &[(Item, bool)]) -> Says {
    let work = Work::Supervised { check: Default::default(), record: String::new(), ended_ms: 0 };
    let mark =
        |&(item, met): &(Item, bool)| Marked { item, how: How::Observed, met, judge: None, reason: None };
    Says::SignedOff(SignOff { learner: learner.into(), work, marks: marks.iter().map(mark).collect() })
}

fn teaching(entries: Vec<Kept>) -> Teaching {
    Teaching { entries, ..Teaching::default() }
}

fn names(teaching: &Teaching, months: Option<u16>) -> Vec<&str> {
    learners(teaching, months).iter().map(|learner| learner.name).collect()
}

#[test]
fn whoever_runs_out_first_comes_first_and_without_a_rule_the_names_are_in_order() {
    let entry = |number, day, name| kept(number, day, says(name, &[(Item::Parts, true)]));
    let all = teaching(vec![entry(1, -10, "B."), entry(2, -300, "C."), entry(3, -100, "A.")]);
    assert_eq!(names(&all, Some(12)), ["C.", "A.", "B."]);
    assert_eq!(names(&all, None), ["A.", "B.", "C."]);
}

/// The word of the later paper stands, also where an earlier one is handed in after it.
#[test]
fn of_two_words_on_one_item_the_later_one_stands() {
    for order in [[0, 1], [1, 0]] {
        let both = [
            kept(1, -20, says("A.", &[(Item::Parts, true)])),
            kept(2, -5, says("A.", &[(Item::Parts, false)])),
        ];
        let all = teaching(order.map(|at: usize| both[at].clone()).to_vec());
        let found = learners(&all, Some(12));
        assert_eq!((found[0].met(), found[0].held[0].mark.met), (0, false));
        assert_eq!(missing(&found[0]).len(), Item::ALL.len());
    }
}

#[test]
fn what_is_taken_back_counts_no_more_and_what_was_signed_before_it_counts_again() {
    let revokes = Says::Revoked { entry: "02".into(), reason: "wrong person".into() };
    let all = teaching(vec![
        kept(1, -20, says("A.", &[(Item::Parts, true), (Item::Battery, true)])),
        kept(2, -5, says("A.", &[(Item::Parts, false)])),
        kept(3, -1, revokes),
    ]);
    let found = learners(&all, Some(12));
    assert_eq!((found.len(), found[0].met(), found[0].entries.as_slice()), (1, 2, &[0, 1][..]));
}

/// Calendar months; the last day of a shorter month (arithmetic).
#[test]
fn a_sign_off_runs_out_after_calendar_months() {
    let at = |text: &str| chrono::DateTime::parse_from_rfc3339(text).unwrap().timestamp_millis();
    for (signed, months, ends) in [
        ("2026-11-28T12:00:00Z", 12, "2027-11-28T12:00:00Z"),
        ("2027-08-31T00:00:00Z", 6, "2028-02-29T00:00:00Z"),
        ("2026-08-31T00:00:00Z", 6, "2027-02-28T00:00:00Z"),
        ("2024-02-29T00:00:00Z", 36, "2027-02-28T00:00:00Z"),
    ] {
        assert_eq!(months_after(at(signed), months), Some(at(ends)), "{signed}");
    }
    assert_eq!(months_after(i64::MAX, 12), None);
}

#[test]
fn due_is_said_thirty_days_before() {
    let until = NOON_MS + DUE_DAYS * DAY_MS;
    assert_eq!(due(Some(until + 1), NOON_MS), Due::Later);
    assert_eq!(due(Some(until), NOON_MS), Due::Soon);
    assert_eq!(due(Some(NOON_MS + 1), NOON_MS), Due::Soon);
    assert_eq!(due(Some(NOON_MS), NOON_MS), Due::RunOut);
    assert_eq!(due(None, NOON_MS), Due::Never);
}

fn judgement(acts: &[(Act, Verdict)]) -> Judgement {
    let dials = domain::check::facts::Dials { output: 0, rate: 0, mv: 0 };
    let acts =
        acts.iter().map(|&(act, verdict)| Judged { act, verdict, at_us: 0, dials, reason: None }).collect();
    let none = Compared { said: Threshold::NOT_TESTED, truth: None, agreement: Agreement::NotTested };
    Judgement {
        exercise: ExerciseId::Quiet,
        seed: 1,
        engine: "1".into(),
        ended_us: 0,
        passed: true,
        acts,
        capture: none,
        sensing: none,
        without_beats_us: 0,
        longest_pause_us: 0,
        spikes_on_t: Vec::new(),
    }
}

/// The worst of the acts that speak to an item; what a run shows nothing of has no finding.
#[test]
fn the_judge_stands_beside_the_items_that_a_run_shows() {
    let found = judged(&judgement(&[
        (Act::OutputBeforeNumber, Verdict::Done),
        (Act::MinimumKeptShort, Verdict::Late),
        (Act::OutOfAsynchronous, Verdict::Unsafe),
        (Act::DialsRead, Verdict::Missed),
    ]));
    let judged_items =
        [(Item::Parts, Finding::Missed), (Item::Modes, Finding::Unsafe), (Item::SensingTest, Finding::Late)];
    assert_eq!(found, judged_items);
    assert!(agrees(Finding::Done, true) && !agrees(Finding::Done, false));
    for other in [Finding::Late, Finding::Missed, Finding::Unsafe] {
        assert!(agrees(other, false) && !agrees(other, true));
    }
}

#[test]
fn hexadecimal_digits_come_back_and_nothing_else_is_taken() {
    let all: Vec<u8> = (0..=255).collect();
    assert_eq!(unhex(&hex(&all)), Some(all));
    for bad in ["0", "0g", "AB", "٠٠", " 00"] {
        assert_eq!(unhex(bad), None, "{bad}");
    }
}

fn practised() -> PracticeRun {
    let dials = domain::check::facts::Dials { output: 0, rate: 0, mv: 0 };
    let at = Moment { wall_ms: NOON_MS, offset_min: 0, boot_ms: 9_000, boot: 7, fresh: [1; 16] };
    let staged = Staged {
        exercise: ExerciseId::Quiet,
        hash: "ab".repeat(32),
        engine: "1".into(),
        seed: 7,
        guided: true,
        chamber: Chamber::Ventricle,
        generator: "example-volts".into(),
        found: dials,
        rules: Box::new(Rules::example()),
    };
    PracticeRun {
        id: uuid::Uuid::from_bytes([3; 16]),
        staged,
        opened: at,
        ended: at,
        entries: vec![Entry::Ended { at_us: 5 }],
        record: None,
        broken_off: false,
        not_judged: false,
        judgement: Some(Box::new(judgement(&[(Act::OutputBeforeNumber, Verdict::Missed)]))),
    }
}

fn tap(state: State, ask: Ask, values: &[(&str, &str)]) -> Result<State, Option<Say>> {
    let values = values.iter().map(|(field, value)| ((*field).to_owned(), (*value).to_owned())).collect();
    let at = Moment { wall_ms: NOON_MS, offset_min: 0, boot_ms: 90_000, boot: 7, fresh: [2; 16] };
    let sent = Sent { card: state.card, command: Command::Teach(ask), values, stood_ms: None };
    let events = domain::decide(&state, &sent, at).map_err(|refusal| refusal.say())?;
    Ok(State { card_at: None, ..events.iter().fold(state, domain::apply) })
}

/// A run that one act alone has failed.
fn failed_by(act: Act) -> PracticeRun {
    let judgement = Judgement { passed: false, ..judgement(&[(act, Verdict::Unsafe)]) };
    PracticeRun { judgement: Some(Box::new(judgement)), ..practised() }
}

/// At the item, with the form of this run half filled.
fn on_item(run: &PracticeRun, item: Item) -> State {
    let screen = Screen::Teaching(Place::ToSign);
    let state = State { runs: vec![run.clone()], screen, ..State::default() };
    let state = tap(state, Ask::Begin(Subject::Run { run: run.id }), &[]).unwrap();
    let state = tap(state, Ask::NameLearner, &[("learner", "L. E.")]).unwrap();
    State { screen: Screen::Teaching(Place::SignItem { item }), ..state }
}

const MET: [(&str, &str); 2] = [("how", "observed"), ("met", "met")];

#[test]
fn every_act_speaks_to_one_item() {
    for act in Act::ALL {
        let found = judged(&judgement(&[(*act, Verdict::Unsafe)]));
        assert!(matches!(found.as_slice(), [(_, Finding::Unsafe)]), "{act:?}: {found:?}");
    }
}

/// Whichever act has failed the run: nothing of it is signed as met without a word.
#[test]
fn of_a_run_that_was_not_passed_no_item_is_met_without_a_reason() {
    for (act, item) in Act::ALL.iter().flat_map(|act| Item::ALL.map(|item| (*act, item))) {
        let state = on_item(&failed_by(act), item);
        let refused = tap(state.clone(), Ask::Mark { item }, &MET).unwrap_err();
        assert_eq!(refused, Some(Say::NotPassedNeedsReason), "{act:?}");
        let with_reason = [MET[0], MET[1], ("reason", "seen at the bed")];
        let marked = tap(state, Ask::Mark { item }, &with_reason).unwrap().teaching.draft.unwrap();
        assert_eq!(marked.unexplained(), None, "{act:?} {item:?}");
    }
}

#[test]
fn of_a_run_that_was_passed_what_the_judge_found_done_is_met_without_a_reason() {
    let passed = judgement(&[(Act::OutOfAsynchronous, Verdict::Done)]);
    let run = PracticeRun { judgement: Some(Box::new(passed)), ..practised() };
    for item in [Item::Modes, Item::Battery] {
        assert!(tap(on_item(&run, item), Ask::Mark { item }, &MET).is_ok(), "{item:?}");
    }
}

/// A form that an older version let be filled without a reason is not signed with one missing.
#[test]
fn a_mark_without_its_reason_is_not_signed() {
    let item = Item::Battery;
    let mut state = on_item(&failed_by(Act::OnlyUpAfterLoss), item);
    let mark = Marked { item, how: How::Observed, met: true, judge: None, reason: None };
    state.teaching.draft.as_mut().unwrap().put(item, Some(mark));
    let state = State { screen: Screen::Teaching(Place::SignPin), ..state };
    let refused = tap(state, Ask::Sign, &[]).unwrap_err();
    assert_eq!(refused, Some(Say::ReasonMissing { item: Box::new(item.say()) }));
}

#[test]
fn not_passed_stands_in_the_list_the_form_the_entry_and_the_file() {
    let now = Moment { wall_ms: NOON_MS, offset_min: 0, boot_ms: 99_000, boot: 7, fresh: [2; 16] };
    let run = failed_by(Act::OwnRhythmFirst);
    let at =
        |state: &State, place| domain::view(&State { screen: Screen::Teaching(place), ..state.clone() }, now);
    let item = Item::SensingOrCapture;
    let state = on_item(&run, item);
    let Shape::Beds(list) = at(&state, Place::ToSign).shape else { panic!() };
    assert!(list.rows[0].urgent && list.rows[0].lines.contains(&Say::RunFailed), "{list:?}");
    let work = Say::WorkNotPassed { exercise: Box::new(ExerciseId::Quiet.name()), date: "2026-11-28".into() };
    for (place, line) in
        [(Place::SignLearner, &work), (Place::SignItem { item }, &Say::RunNotPassed), (Place::SignPin, &work)]
    {
        let Shape::Form(form) = at(&state, place).shape else { panic!() };
        assert!(form.lines.contains(line), "{place:?}: {:?}", form.lines);
    }
    let mut paper = kept(1, 0, Says::SignedOff(state.teaching.draft.as_ref().unwrap().sign_off()));
    paper.paper.at_ms = NOON_MS;
    let read = Read { paper: paper.paper.clone(), key: "ab".into(), token: String::new(), hash: "02".into() };
    let teaching = Teaching { entries: vec![paper], read: Some(read), ..Teaching::default() };
    let state = State { teaching, ..state };
    for place in [Place::Entry { at: 0 }, Place::FileRead] {
        let Shape::Result(outcome) = at(&state, place).shape else { panic!() };
        assert_eq!(outcome.flags[0], Say::RunNotPassed, "{place:?}");
        assert!(outcome.rows.iter().any(|row| row.value == work), "{place:?}");
    }
}

/// A run is signed by its hash, marked as practice on every card, and against the judge only with a reason.
#[test]
fn a_judged_run_is_signed_as_practice_with_the_judge_beside_it() {
    let run = practised();
    let screen = Screen::Teaching(Place::ToSign);
    let state = State { runs: vec![run.clone()], screen, ..State::default() };
    let state = tap(state, Ask::Begin(Subject::Run { run: run.id }), &[]).unwrap();
    let draft = state.teaching.draft.clone().unwrap();
    assert!(
        matches!(&draft.work, Work::Practice { record, seed: 7, .. } if Some(record) == run.hash().as_ref())
    );
    assert_eq!(draft.finding(Item::SensingTest), Some(Finding::Missed));
    let state = tap(state, Ask::NameLearner, &[("learner", "L. E.")]).unwrap();
    let item = Item::SensingTest;
    let state = State { screen: Screen::Teaching(Place::SignItem { item }), ..state };
    let at = Moment { wall_ms: NOON_MS, offset_min: 0, boot_ms: 99_000, boot: 7, fresh: [2; 16] };
    let shown = domain::view(&state, at);
    assert!(shown.marks.contains(&Say::MarkPractice), "{:?}", shown.marks);
    let met = [("how", "observed"), ("met", "met")];
    let refused = tap(state.clone(), Ask::Mark { item }, &met).unwrap_err();
    assert_eq!(refused, Some(Say::OverrideNeedsReason));
    let reason = [("how", "observed"), ("met", "met"), ("reason", "seen at the bed")];
    let state = tap(state, Ask::Mark { item }, &reason).unwrap();
    let mark = state.teaching.draft.unwrap().mark(item).cloned().flatten().unwrap();
    assert_eq!((mark.judge, mark.reason.as_deref()), (Some(Finding::Missed), Some("seen at the bed")));
}

#[test]
fn a_run_that_nobody_has_judged_is_not_signed() {
    let run = PracticeRun { judgement: None, ..practised() };
    let screen = Screen::Teaching(Place::ToSign);
    let state = State { runs: vec![run.clone()], screen, ..State::default() };
    assert_eq!(tap(state, Ask::Begin(Subject::Run { run: run.id }), &[]), Err(None));
}
