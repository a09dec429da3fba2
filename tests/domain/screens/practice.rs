//! Practice: the same check on a simulated patient, framed, marked, locked while a patient's check is open.

use domain::check::answer::Answer;
use domain::check::facts::{Dial, Dials, Facts, Found, NONE, Phase};
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::{Sent, Shape, View};
use domain::event::{Event, What};
use domain::moment::Moment;
use domain::practice::{Entry, ExerciseId, Happened, Pause, Staged, Threshold};
use domain::rules::{Chamber, Rules};
use domain::say::Say;
use domain::state::bed::Origin;
use domain::state::screen::Screen;
use domain::{Refusal, State, apply, apply_to, decide, due, view};

fn staged(guided: bool) -> Staged {
    Staged {
        exercise: ExerciseId::Quiet,
        hash: "0123".into(),
        engine: "test".into(),
        seed: 7,
        guided,
        chamber: Chamber::Ventricle,
        generator: "example-fine-current".into(),
        found: Dials { output: 40, rate: 41, mv: 4 },
        rules: Box::new(Rules::example()),
    }
}

/// A tablet, and its clock.
pub struct Tablet {
    pub state: State,
    pub now: Moment,
    pub at_us: u64,
}

impl Tablet {
    pub fn new() -> Tablet {
        let generators = domain::profile::shipped().unwrap();
        let now = Moment { wall_ms: 1_000_000, offset_min: 0, boot_ms: 50_000, boot: 1, fresh: [3; 16] };
        let what = What::LibraryAdopted { rules: Box::new(Rules::example()), generators, hash: "x".into() };
        let state = apply(State::default(), &Event { at: now, what });
        Tablet { state, now, at_us: 0 }
    }

    pub fn practising(guided: bool) -> Tablet {
        let mut tablet = Tablet::new();
        tablet.ask(Command::Staged(Box::new(staged(guided)))).unwrap();
        tablet
    }

    fn pass(&mut self, ms: i64) {
        self.now = Moment { wall_ms: self.now.wall_ms + ms, boot_ms: self.now.boot_ms + ms, ..self.now };
    }

    pub fn ask(&mut self, command: Command) -> Result<(), Refusal> {
        self.ask_with(command, &[])
    }

    /// As the session does: what is asked while a practice is open comes with its instant.
    pub fn ask_with(&mut self, command: Command, values: &[(&str, &str)]) -> Result<(), Refusal> {
        self.pass(400);
        let wrapped = self.state.practice.is_some()
            && !matches!(command, Command::TimePassed | Command::Started { .. });
        let (at_us, asked) = (self.at_us, Box::new(command.clone()));
        let command = if wrapped { Command::AtStrip { at_us, asked } } else { command };
        let values = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        let events = decide(&self.state, &sent, self.now)?;
        events.iter().for_each(|event| apply_to(&mut self.state, event));
        Ok(())
    }

    fn view(&self) -> View<Say> {
        view(&self.state, self.now)
    }

    fn entries(&self) -> &[Entry] {
        &self.state.practice.as_ref().unwrap().entries
    }
}

#[test]
fn a_guided_practice_shows_the_check_framed_and_marked() {
    let tablet = Tablet::practising(true);
    let view = tablet.view();
    assert_eq!(view.marks, [Say::MarkPractice]);
    assert_eq!(view.head.title, Say::Practice);
    let Shape::Form(form) = &view.shape else { panic!("{view:#?}") };
    assert_eq!(form.question, Say::AskOrder, "the same first card");
    let practice = view.practice.unwrap();
    assert!(practice.monitor.is_some_and(|monitor| !monitor.kept));
    assert!(practice.knobs.is_empty(), "nothing is turned before the dials are read");
    assert_eq!(tablet.state.check_on_screen().unwrap().3.origin, Origin::Practice);
    assert!(tablet.state.beds.is_empty(), "it lies in no bed");
}

#[test]
fn no_patients_screen_is_framed() {
    let mut tablet = Tablet::new();
    tablet.ask(Command::Go(Screen::Beds)).unwrap();
    assert!(tablet.view().practice.is_none());
    assert!(!tablet.view().marks.contains(&Say::MarkPractice));
}

#[test]
fn example_rules_need_nobody_who_accepts_them() {
    let mut tablet = Tablet::practising(true);
    tablet.ask_with(Command::Named(Answer::Yes), &[("name", "A. Example (invented)")]).unwrap();
    assert_eq!(tablet.state.check_on_screen().unwrap().3.facts.step, Step::ListFirst);
}

#[test]
fn each_turn_and_answer_is_an_entry_at_its_instant() {
    let mut tablet = Tablet::practising(true);
    tablet.at_us = 1_500_000;
    tablet.ask_with(Command::Named(Answer::Yes), &[("name", "A. Example (invented)")]).unwrap();
    tablet.at_us = 2_000_000;
    let card = tablet.state.card;
    tablet.ask(Command::TurnDial { dial: Dial::Rate, to: 39 }).unwrap();
    assert_eq!(tablet.state.card, card, "a turn opens no card: the next tap is not stale");
    assert_eq!(
        tablet.entries(),
        [
            Entry::Answered { at_us: 1_500_000, step: Step::Order, answer: Answer::Yes },
            Entry::Turned { at_us: 2_000_000, dial: Dial::Rate, to: 39 },
        ]
    );
    assert_eq!(tablet.state.practice.as_ref().unwrap().dials, Dials { output: 40, rate: 39, mv: 4 });
}

#[test]
fn a_dial_turns_only_to_where_it_can_stand() {
    let mut tablet = Tablet::practising(false);
    for (dial, to) in [(Dial::Output, 200), (Dial::Rate, 120), (Dial::Mv, 90), (Dial::Output, 40)] {
        assert_eq!(tablet.ask(Command::TurnDial { dial, to }), Err(Refusal::NotOpen), "{dial:?} {to}");
    }
}

#[test]
fn the_dial_under_the_hand_has_keys_and_the_others_have_none() {
    let mut tablet = Tablet::practising(false);
    tablet.ask(Command::TakeDial(Dial::Mv)).unwrap();
    let knobs = tablet.view().practice.unwrap().knobs;
    let large: Vec<_> = knobs.iter().filter(|knob| knob.keys.is_some()).collect();
    assert_eq!((knobs.len(), large.len()), (3, 1));
    let keys = large[0].keys.as_ref().unwrap();
    let (down, up) = (keys.down.as_ref().unwrap(), keys.up.as_ref().unwrap());
    assert_eq!((&down.label, &up.label), (&Say::KeySeesMore, &Say::KeySeesLess));
    assert_eq!(up.command, Command::TurnDial { dial: Dial::Mv, to: 5 });
}

#[test]
fn no_practice_begins_while_a_check_on_a_patient_is_open() {
    let mut tablet = Tablet::new();
    tablet.ask_with(Command::AddBed, &[("label", "Bay 1")]).unwrap();
    let wire = [
        ("chamber", "ventricle"),
        ("kind", "epicardial"),
        ("polarity", "bipolar"),
        ("generator", "example-volts"),
    ];
    tablet.ask_with(Command::AddWire { bed: 1 }, &wire).unwrap();
    tablet.ask(Command::Begin { bed: 1, wire: 1 }).unwrap();
    let refused = tablet.ask(Command::Staged(Box::new(staged(true))));
    assert_eq!(refused, Err(Refusal::said(Say::PracticeLocked)));
}

#[test]
fn a_patients_check_breaks_a_practice_off() {
    let mut tablet = Tablet::new();
    tablet.ask_with(Command::AddBed, &[("label", "Bay 1")]).unwrap();
    let wire = [
        ("chamber", "ventricle"),
        ("kind", "epicardial"),
        ("polarity", "bipolar"),
        ("generator", "example-volts"),
    ];
    tablet.ask_with(Command::AddWire { bed: 1 }, &wire).unwrap();
    tablet.ask(Command::Staged(Box::new(staged(true)))).unwrap();
    tablet.ask(Command::Go(Screen::Bed { bed: 1 })).unwrap();
    assert!(tablet.state.practice.as_ref().unwrap().paused.is_some(), "out of sight it stands still");
    tablet.ask(Command::Begin { bed: 1, wire: 1 }).unwrap();
    assert_eq!(tablet.state.screen, Screen::Check { bed: 1, wire: 1 });
    assert!(tablet.state.practice.is_none());
    assert!(tablet.state.runs[0].broken_off && !tablet.state.runs[0].is_unjudged());
    assert!(tablet.view().practice.is_none(), "the patient's card is not framed");
}

#[test]
fn a_pause_moves_the_check_and_takes_no_answer() {
    let mut tablet = Tablet::practising(true);
    let found = Dials { output: 40, rate: 41, mv: 4 };
    let facts = Facts {
        found,
        back_to: found,
        stand: found,
        dial: Dial::Rate,
        to: 39,
        touched: true,
        phase: Phase::Watching,
        ..Facts::new(Step::OwnDown)
    };
    let at = tablet.now.boot_ms;
    let open = tablet.state.practice.as_mut().unwrap();
    let check = open.wire.check.as_mut().unwrap();
    check.facts = facts;
    check.times = domain::state::times::Times {
        boot: 1,
        watch_from: Some(at),
        watch_until: Some(at + 10_000),
        ..Default::default()
    };
    assert_eq!(due(&tablet.state), Some(at + 10_000));
    tablet.at_us = 3_000_000;
    tablet.ask(Command::StoodStill { why: Pause::Stall, for_ms: 2_500 }).unwrap();
    assert_eq!(due(&tablet.state), None, "time does not act on a patient that stands still");
    assert_eq!(tablet.ask(Command::Answer(Answer::NoBeats)), Err(Refusal::NotOpen));
    assert_eq!(tablet.ask(Command::TurnDial { dial: Dial::Rate, to: 38 }), Err(Refusal::NotOpen));
    let Shape::Ask(ask) = tablet.view().shape else { panic!("{:#?}", tablet.view()) };
    assert_eq!(ask.question, Say::PausedStall);
    let paused_at = tablet.state.practice.as_ref().unwrap().paused.unwrap().since.boot_ms;
    tablet.pass(60_000);
    tablet.ask(Command::GoOn).unwrap();
    let stood = tablet.now.boot_ms - paused_at;
    assert_eq!(due(&tablet.state), Some(at + 10_000 + stood));
    let ms = u32::try_from(stood).unwrap();
    assert_eq!(tablet.entries(), [Entry::Paused { at_us: 3_000_000, why: Pause::Stall, ms }]);
}

#[test]
fn after_a_death_it_comes_back_standing_still() {
    let mut tablet = Tablet::practising(true);
    tablet.at_us = 4_000_000;
    tablet.ask(Command::TurnDial { dial: Dial::Output, to: 30 }).unwrap();
    tablet.now.boot += 1;
    tablet.ask(Command::Started { alive: None }).unwrap();
    let paused = tablet.state.practice.as_ref().unwrap().paused.unwrap();
    assert_eq!((paused.why, paused.at_us), (Pause::Restart, 4_000_000));
    assert_eq!(tablet.state.screen, Screen::Practising);
}

#[test]
fn what_an_unguided_learner_found_ends_the_run() {
    let mut tablet = Tablet::practising(false);
    tablet.at_us = 9_000_000;
    tablet.ask(Command::Go(Screen::PracticeFound)).unwrap();
    assert!(tablet.state.practice.as_ref().unwrap().paused.is_none(), "the patient goes on meanwhile");
    let none = tablet.ask_with(Command::SaidFound, &[("capture", "1.63"), ("capture-how", "exactly")]);
    assert!(matches!(none, Err(Refusal::Said(_))), "{none:?}");
    tablet
        .ask_with(Command::SaidFound, &[("capture", "1.6"), ("capture-how", "exactly"), ("sensing", "")])
        .unwrap();
    assert_eq!(tablet.state.screen, Screen::PracticeRead, "the dials are read apart");
    assert!(tablet.state.practice.as_ref().unwrap().said().unwrap().stays.is_none(), "nobody has yet");
    assert!(!tablet.view().practice.unwrap().knobs.is_empty(), "they are there to be read");
    tablet.ask_with(Command::SaidDials, &[("output", "6.0"), ("rate", "80"), ("mv", "2.0")]).unwrap();
    let run = tablet.state.runs.last().unwrap();
    assert!(run.is_unjudged());
    let [Entry::Said { .. }, Entry::Said { said, .. }, Entry::Ended { at_us: 9_000_000 }] = run.entries[..]
    else {
        panic!("{:?}", run.entries)
    };
    // As typed, not as the dials stand: OUTPUT 40 is none of these.
    assert_eq!(said.stays, Some(Dials { output: 58, rate: 41, mv: 8 }));
    assert_eq!((said.capture, said.sensing), (Threshold::exactly(14), Threshold::NOT_TESTED));
    assert_eq!(tablet.state.screen, Screen::PracticeResult { run: run.id });
    assert_eq!(run.hash(), None, "nothing is signed before it is judged");
}

#[test]
fn at_least_at_most_and_between_are_said_as_a_check_finds_them() {
    let said = |values: &[(&str, &str)]| {
        let mut tablet = Tablet::practising(false);
        tablet.ask(Command::Go(Screen::PracticeFound)).unwrap();
        tablet.ask_with(Command::SaidFound, values).map(|()| {
            let said = tablet.state.practice.as_ref().unwrap().said().unwrap();
            (said.capture, said.sensing)
        })
    };
    let none = Threshold::NOT_TESTED;
    let at = |found, at, low| Threshold { found, at, low };
    let at_most = [("capture", "0.2"), ("capture-how", "at-most")];
    assert_eq!(said(&at_most), Ok((at(Found::AtMost, 0, NONE), none)));
    let at_least = [("sensing", "2.0"), ("sensing-how", "at-least")];
    assert_eq!(said(&at_least), Ok((none, at(Found::AtLeast, 8, NONE))));
    let between = |low| said(&[("capture", "1.6"), ("capture-low", low), ("capture-how", "between")]);
    assert_eq!(between("1.4"), Ok((at(Found::Bracket, 14, 12), none)));
    assert_eq!(between("1.8"), Err(Refusal::said(Say::CaptureLowAbove)));
    let missing = |name: Say| Err(Refusal::said(Say::NothingTyped { field: Box::new(name) }));
    assert_eq!(between(""), missing(Say::CaptureLow));
    assert_eq!(said(&[("capture", "1.6")]), missing(Say::CaptureHow), "nothing is true by default");
    assert_eq!(said(&[("capture", "1.6"), ("capture-how", "at-least")]), missing(Say::CaptureHow));
    assert_eq!(said(&[("capture-how", "exactly")]), Ok((none, none)), "chosen, and not tested");
}

#[test]
fn the_dials_are_read_only_once_it_was_said_what_was_found() {
    let mut tablet = Tablet::practising(false);
    assert_eq!(tablet.ask(Command::Go(Screen::PracticeRead)), Err(Refusal::NotOpen));
    let typed = [("output", "6.0"), ("rate", "80"), ("mv", "2.0")];
    assert_eq!(tablet.ask_with(Command::SaidDials, &typed), Err(Refusal::NotOpen));
}

#[test]
fn a_shock_is_told_until_the_next_answer_and_a_strange_hand_is_seen_on_the_dial() {
    let mut tablet = Tablet::practising(true);
    let dials = Dials { output: 12, rate: 41, mv: 4 };
    tablet.ask(Command::Befell { happened: Happened::DialTurned(Dial::Output), dials }).unwrap();
    assert_eq!(tablet.state.practice.as_ref().unwrap().dials, dials);
    assert_eq!(tablet.view().notice, None, "whoever looks at the dial sees it");
    tablet.ask(Command::Befell { happened: Happened::Shock, dials }).unwrap();
    assert_eq!(tablet.view().notice, Some(Say::PracticeShockGiven));
    tablet.ask_with(Command::Named(Answer::Yes), &[("name", "A. Example (invented)")]).unwrap();
    assert_eq!(tablet.view().notice, None);
}

#[test]
fn a_page_cannot_name_the_instant() {
    let mut tablet = Tablet::practising(false);
    let inner = Command::AtStrip { at_us: 1, asked: Box::new(Command::TurnDial { dial: Dial::Rate, to: 3 }) };
    assert_eq!(tablet.ask(inner), Err(Refusal::NotOpen));
}
