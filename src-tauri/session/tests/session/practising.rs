//! Practice through a running session: the patient lives by the session's clock, stands still when nobody could
//! watch, comes back after a death, and is judged.

use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use domain::check::facts::Dial;
use domain::command::Command;
use domain::contract::View;
use domain::event::{Event, What};
use domain::practice::{Entry, ExerciseId, Pause, Staged};
use domain::say::Say;
use domain::state::screen::Screen;

use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::recording::events;

const PATIENCE: Duration = Duration::from_secs(20);

/// Somebody who practises alone, and the strip that reaches the page.
fn practising(folder: &Path, clock: &HandClock) -> (Nurse, Receiver<Vec<u8>>) {
    let mut nurse = Nurse::start(folder, clock);
    let (sender, strip) = channel();
    nurse.session.watch_strip(move |bytes| sender.send(bytes).is_ok()).unwrap();
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Practise { exercise: ExerciseId::Quiet, guided: false });
    assert!(monitor(&nurse.view), "{:#?}", nurse.view);
    (nurse, strip)
}

fn monitor(view: &View<String>) -> bool {
    view.practice.as_ref().is_some_and(|practice| practice.monitor.is_some())
}

fn figure(view: &View<String>, dial: usize) -> String {
    view.practice.as_ref().unwrap().knobs[dial].figure.clone()
}

fn number(batch: &[u8]) -> u32 {
    u32::from_le_bytes(batch[4..8].try_into().unwrap())
}

/// The clock goes on step by step until `wanted` more batches have come.
fn live(nurse: &Nurse, strip: &Receiver<Vec<u8>>, wanted: usize) -> Vec<Vec<u8>> {
    live_while_seen(nurse, strip, wanted).unwrap()
}

/// `None`: no more batches came, the patient stands still.
fn live_while_seen(nurse: &Nurse, strip: &Receiver<Vec<u8>>, wanted: usize) -> Option<Vec<Vec<u8>>> {
    let next = || {
        nurse.clock.pass(50);
        strip.recv_timeout(PATIENCE).ok()
    };
    std::iter::repeat_with(next).take(wanted).collect()
}

fn entries(folder: &Path) -> Vec<Entry> {
    let done = |what: What| if let What::Practised(entry) = what { Some(entry) } else { None };
    events(folder).into_iter().filter_map(|event| done(event.what)).collect()
}

#[test]
fn the_strip_comes_in_numbered_twentieths_of_a_second_under_a_thousand_bytes() {
    let folder = tempfile::tempdir().unwrap();
    let (nurse, strip) = practising(folder.path(), &HandClock::new());
    let batches = live(&nurse, &strip, 60);
    let first = number(&batches[0]);
    for (batch, at) in batches.iter().zip(first..) {
        assert_eq!(number(batch), at, "without a gap");
        assert_eq!(batch.len(), 112 + 2 * usize::from(batch[11]));
        assert!(batch.len() < 1_000);
    }
    assert!(batches.iter().any(|batch| batch[11] > 0), "three seconds bring a mark");
}

#[test]
fn a_turn_is_recorded_at_its_instant_and_shown() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, strip) = practising(folder.path(), &HandClock::new());
    live(&nurse, &strip, 20);
    let (before, at) = (figure(&nurse.view, 0), nurse.view.practice.clone().unwrap().knobs[0].clone());
    let down = at.keys.unwrap().down.unwrap();
    nurse.send(down.command.clone());
    nurse.wait("the dial to turn", |view| figure(view, 0) != before);
    let Some(Entry::Turned { at_us, dial: Dial::Output, .. }) = entries(folder.path()).pop() else {
        panic!("{:?}", entries(folder.path()))
    };
    assert!(at_us >= 1_000_000 && at_us % 50_000 == 0, "{at_us}");
}

#[test]
fn a_patient_that_nobody_could_watch_stands_still_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let (mut nurse, strip) = practising(folder.path(), &clock);
    live(&nurse, &strip, 10);
    nurse.drain();
    clock.be_strict();
    clock.pass(3_000);
    nurse.wait("the pause", |view| !monitor(view));
    let paused = |what: What| if let What::PracticePaused(paused) = what { Some(paused.why) } else { None };
    let paused = events(folder.path()).into_iter().find_map(|event| paused(event.what));
    assert_eq!(paused, Some(Pause::Stall));
    nurse.ask(Command::GoOn);
    assert!(monitor(&nurse.view));
    let Some(Entry::Paused { why: Pause::Stall, ms, .. }) = entries(folder.path()).pop() else {
        panic!("{:?}", entries(folder.path()))
    };
    assert!(ms >= 3_000, "from when nobody could watch: {ms} ms");
}

/// The instant at which the patient was let stand still, and why.
fn paused(folder: &Path) -> Option<(Pause, u64)> {
    let paused = |what: What| {
        if let What::PracticePaused(paused) = what { Some((paused.why, paused.at_us)) } else { None }
    };
    events(folder).into_iter().rev().find_map(|event| paused(event.what))
}

fn is_apart(batch: &[u8]) -> bool {
    batch[10] & 1 == 1
}

/// A machine that takes two seconds of its own over the first part has been silent too long already: begun anew.
fn unseen(silent: Duration, lose: impl Fn(&Nurse)) {
    const TRIES: usize = 5;
    assert!(
        (0..TRIES).any(|_| tried(silent, &lose).is_some()),
        "five seconds of a patient took two of this machine"
    );
}

/// The page draws a card; five seconds of the patient later, and `silent` of the world's, something is `lost`.
fn tried(silent: Duration, lose: impl Fn(&Nurse)) -> Option<()> {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, strip) = practising(folder.path(), &HandClock::new());
    nurse.drain();
    let drawn = Instant::now();
    nurse.session.painted(nurse.view.card);
    let lived = live_while_seen(&nurse, &strip, 100)?;
    let lived_us = u64::from(number(lived.last().unwrap())) * 50_000;
    std::thread::sleep(silent);
    lose(&nurse);
    nurse.wait("the pause", |view| !monitor(view));
    let (why, at_us) = paused(folder.path()).unwrap();
    assert_eq!(why, Pause::Stall);
    let silent_us = u64::try_from(silent.as_micros()).unwrap();
    let longest_us = u64::try_from(drawn.elapsed().as_micros()).unwrap();
    assert!(at_us + silent_us <= lived_us + 50_000, "{at_us}: what nobody saw was not lived ({lived_us})");
    assert!(at_us + longest_us + 100_000 >= lived_us, "{at_us}: what was seen was lived ({lived_us})");
    nurse.session.painted(nurse.view.card);
    nurse.ask(Command::GoOn);
    let on =
        std::iter::repeat_with(|| live(&nurse, &strip, 1).remove(0)).find(|batch| is_apart(batch)).unwrap();
    assert_eq!(u64::from(number(&on)) * 50_000, at_us, "the strip goes on where it was last seen");
    Some(())
}

#[test]
fn a_page_that_dies_pauses_the_patient_where_it_was_last_drawn() {
    unseen(Duration::from_millis(700), |nurse| nurse.session.page_died());
}

#[test]
fn a_page_that_has_drawn_nothing_for_two_seconds_pauses_it_too() {
    unseen(Duration::from_millis(2_000), |_| {});
}

#[test]
fn a_turn_that_was_made_is_not_undone_by_a_death_of_the_page() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, strip) = practising(folder.path(), &HandClock::new());
    nurse.drain();
    nurse.session.painted(nurse.view.card);
    std::thread::sleep(Duration::from_millis(300));
    live(&nurse, &strip, 20);
    let before = figure(&nurse.view, 1);
    nurse.send(Command::TurnDial { dial: Dial::Rate, to: 30 });
    nurse.wait("the turn", |view| figure(view, 1) != before);
    nurse.session.page_died();
    nurse.wait("the pause", |view| !monitor(view));
    let turned_us = entries(folder.path()).first().unwrap().at_us();
    assert!(paused(folder.path()).unwrap().1 >= turned_us);
}

/// No page of ours: there is no glass to ask about.
#[test]
fn a_watcher_that_never_says_what_it_has_drawn_pauses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (nurse, strip) = practising(folder.path(), &HandClock::new());
    live(&nurse, &strip, 50);
    std::thread::sleep(Duration::from_millis(2_200));
    live(&nurse, &strip, 10);
    assert_eq!(paused(folder.path()), None);
}

#[test]
fn after_a_death_the_run_comes_back_standing_still_and_goes_on_where_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let (mut nurse, strip) = practising(folder.path(), &clock);
    live(&nurse, &strip, 30);
    nurse.send(Command::TurnDial { dial: Dial::Rate, to: 30 });
    nurse.wait("the turn", |view| figure(view, 1) == "65");
    nurse.session.close();
    let mut nurse = Nurse::start(folder.path(), &clock);
    assert!(!monitor(&nurse.view) && nurse.view.practice.is_some(), "{:#?}", nurse.view);
    let (sender, strip) = channel();
    nurse.session.watch_strip(move |bytes| sender.send(bytes).is_ok()).unwrap();
    nurse.ask(Command::GoOn);
    assert_eq!(figure(&nurse.view, 1), "65");
    let turned = entries(folder.path()).first().unwrap().at_us();
    let next = live(&nurse, &strip, 1);
    assert_eq!(u64::from(number(&next[0])) * 50_000, turned, "the strip goes on at the last entry");
}

#[test]
fn a_page_that_takes_no_strip_holds_up_no_command() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, strip) = practising(folder.path(), &HandClock::new());
    live(&nurse, &strip, 2);
    let (release, held) = channel::<()>();
    let (entered, stuck) = channel();
    nurse
        .session
        .watch_strip(move |_| {
            let told = entered.send(());
            told.is_ok() && held.recv().is_ok()
        })
        .unwrap();
    while stuck.try_recv().is_err() {
        nurse.clock.pass(50);
        std::thread::yield_now();
    }
    let before = figure(&nurse.view, 1);
    nurse.send(Command::TurnDial { dial: Dial::Rate, to: 20 });
    nurse.wait("the turn, with the strip stuck", |view| figure(view, 1) != before);
    drop(release);
}

#[test]
fn an_ended_run_is_judged_and_a_moment_of_it_can_be_looked_at_again() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, strip) = practising(folder.path(), &HandClock::new());
    live(&nurse, &strip, 40);
    nurse.send(Command::EndPractice);
    nurse.wait("the judgement", |view| view.answers.iter().any(|act| act.key == "acts"));
    let state = folded(folder.path());
    let run = state.runs.last().unwrap();
    let judgement = run.judgement.as_ref().unwrap();
    assert!(!judgement.passed, "nothing was done");
    assert_eq!(run.hash().map(|hash| hash.len()), Some(64));
    let again = practice::judge(
        practice::exercises().unwrap().iter().find(|one| one.id == ExerciseId::Quiet).unwrap(),
        run.staged.seed,
        &run.entries,
    );
    assert_eq!(again.as_ref().ok(), Some(&**judgement), "a function of exercise, seed and entries");
    while strip.try_recv().is_ok() {}
    nurse.ask(Command::Go(Screen::LookAgain { run: run.id, act: 0 }));
    let moment = strip.recv_timeout(PATIENCE).unwrap();
    let stream = nurse.view.practice.as_ref().unwrap().monitor.as_ref().unwrap().stream;
    assert_eq!(u32::from_le_bytes(moment[..4].try_into().unwrap()), stream);
    let rest = std::iter::from_fn(|| strip.recv_timeout(Duration::from_millis(400)).ok());
    let last = rest.last().unwrap();
    let end_us = u64::from(number(&last) + 1) * 50_000;
    assert_eq!(end_us, judgement.ended_us, "nothing from after the end, and all up to it");
}

/// The record as another version has left it: a run by an engine or of a file that are not ours, and what followed.
fn of_another_version(folder: &Path, change: fn(&mut Staged), then: Vec<What>) -> Nurse {
    let (nurse, strip) = practising(folder, &HandClock::new());
    live(&nurse, &strip, 4);
    nurse.session.close();
    let began = |event: &Event| matches!(event.what, What::PracticeBegan { .. });
    let mut other = events(folder).into_iter().find(began).unwrap();
    if let What::PracticeBegan { practice, staged } = &mut other.what {
        *practice = OTHER;
        change(staged);
    }
    let at = other.at;
    let then = then.into_iter().map(|what| Event { at, what });
    let bodies = [other].into_iter().chain(then).map(|event| serde_json::to_vec(&event).unwrap());
    let (mut journal, _) = journal::Journal::open(folder).unwrap();
    journal.append(&bodies.collect::<Vec<_>>()).unwrap();
    drop(journal);
    Nurse::start(folder, &HandClock::new())
}

const OTHER: uuid::Uuid = uuid::Uuid::from_bytes([9; 16]);
const ENDED: What = What::PracticeEnded { record: None, broken_off: false };

fn english(say: &Say) -> String {
    words::say(say, words::Language::English).unwrap()
}

#[test]
fn a_practice_that_another_version_began_is_broken_off_and_says_why() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = of_another_version(folder.path(), |staged| staged.engine = "0".into(), Vec::new());
    nurse.wait("the sentence", |view| view.notice == Some(english(&Say::RunOfOtherVersion)));
    let state = folded(folder.path());
    assert!(state.practice.is_none() && state.run(OTHER).unwrap().broken_off);
}

/// The engine is ours; the exercise was another then.
#[test]
fn a_run_of_another_file_is_not_judged_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let other_file: fn(&mut Staged) = |staged| staged.hash = "00".repeat(32);
    let mut nurse = of_another_version(folder.path(), other_file, vec![ENDED]);
    nurse.wait("the sentence", |view| view.notice == Some(english(&Say::RunOfOtherVersion)));
    let run = folded(folder.path()).run(OTHER).cloned().unwrap();
    assert!(run.not_judged && run.judgement.is_none() && !run.is_unjudged());
    assert_eq!(nurse.view.spoken, english(&Say::RunNotJudged));
}

#[test]
fn no_strip_is_shown_of_a_run_that_another_version_has_judged() {
    let folder = tempfile::tempdir().unwrap();
    let quiet = practice::exercises().unwrap().iter().find(|one| one.id == ExerciseId::Quiet).unwrap();
    let judgement = practice::judge(quiet, 1, &[Entry::Ended { at_us: 5_000_000 }]).unwrap();
    let judged = What::PracticeJudged { run: OTHER, judgement: Box::new(judgement) };
    let other_engine: fn(&mut Staged) = |staged| staged.engine = "0".into();
    let mut nurse = of_another_version(folder.path(), other_engine, vec![ENDED, judged]);
    let (sender, strip) = channel();
    nurse.session.watch_strip(move |bytes| sender.send(bytes).is_ok()).unwrap();
    assert_eq!(nurse.view.notice, None, "it was judged when it could be");
    nurse.ask(Command::Go(Screen::LookAgain { run: OTHER, act: 0 }));
    assert_eq!(nurse.view.notice, Some(english(&Say::StripOfOtherVersion)));
    assert!(strip.recv_timeout(Duration::from_millis(400)).is_err(), "another strip than was seen");
}
