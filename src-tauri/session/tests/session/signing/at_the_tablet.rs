//! Two educators, a learner, a supervised check. All names are inventions.

use std::path::{Path, PathBuf};

use domain::command::Command;
use domain::contract::{Sent, Shape, View};
use domain::say::Say;
use domain::state::screen::Screen;
use domain::teaching::ask::Ask;
use domain::teaching::draft::Subject;
use domain::teaching::item::Item;
use domain::teaching::paper::Says;
use domain::teaching::place::Place;
use words::Language;

use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::wards::with_dials_owed;

pub const PIN: &str = "40618273";
pub const OTHER_PIN: &str = "95173028";
pub const WRONG_PIN: &str = "77441100";
pub const LEARNER: &str = "L. E. (invented)";

pub fn english(say: &Say) -> String {
    words::say(say, Language::English).unwrap()
}

pub fn go(nurse: &mut Nurse, place: Place) {
    nurse.ask(Command::Go(Screen::Teaching(place)));
}

/// Sends with these fields only.
pub fn fill(nurse: &Nurse, ask: Ask, fields: &[(&str, &str)]) {
    nurse.clock.pass(400);
    let values = fields.iter().map(|(field, value)| ((*field).to_owned(), (*value).to_owned())).collect();
    let sent = Sent { card: nurse.view.card, command: Command::Teach(ask), values, stood_ms: None };
    nurse.session.send(sent).unwrap();
}

pub fn fill_and_wait(nurse: &mut Nurse, ask: Ask, fields: &[(&str, &str)]) {
    let (card, notice) = (nurse.view.card, nurse.view.notice.clone());
    fill(nurse, ask, fields);
    nurse.wait("a card or a sentence", |view| view.card != card || view.notice != notice);
}

fn is_working(view: &View<String>) -> bool {
    matches!(&view.shape, Shape::Ask(ask) if ask.question == english(&Say::PinWorking))
}

/// Until the PIN has been looked at.
pub fn try_pin(nurse: &mut Nurse, ask: Ask, fields: &[(&str, &str)]) {
    fill_and_wait(nurse, ask, fields);
    nurse.wait("the end of the work", |view| !is_working(view));
}

pub fn enrol(nurse: &mut Nurse, name: &str, pin: &str) {
    go(nurse, Place::Enrol);
    try_pin(nurse, Ask::Enrol, &[("name", name), ("new-pin", pin), ("new-pin-again", pin)]);
}

/// A tablet on which a check has ended, with one educator.
pub fn with_an_educator(folder: &Path, clock: &HandClock) -> Nurse {
    let mut nurse = with_dials_owed(folder, clock);
    enrol(&mut nurse, "E. Example (invented)", PIN);
    nurse
}

pub fn subject(folder: &Path) -> Subject {
    let state = folded(folder);
    Subject::Check { bed: 1, wire: 1, check: state.wire(1, 1).unwrap().records[0].id }
}

/// The form is filled; the card asks for the PIN.
pub fn filled(nurse: &mut Nurse, folder: &Path) {
    go(nurse, Place::ToSign);
    fill_and_wait(nurse, Ask::Begin(subject(folder)), &[]);
    fill_and_wait(nurse, Ask::NameLearner, &[("learner", LEARNER)]);
    for item in Item::ALL {
        let met = if item == Item::Battery { "not-met" } else { "met" };
        let how = if item == Item::Parts { "explained" } else { "observed" };
        fill_and_wait(nurse, Ask::Mark { item }, &[("how", how), ("met", met), ("reason", "")]);
    }
    go(nurse, Place::SignPin);
}

pub fn sign_with(nurse: &mut Nurse, pin: &str) {
    try_pin(nurse, Ask::Sign, &[("educator", "0"), ("pin", pin)]);
}

#[test]
fn a_supervised_check_is_signed_item_by_item_after_a_wrong_pin_that_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_an_educator(folder.path(), &HandClock::new());
    filled(&mut nurse, folder.path());
    let draft = folded(folder.path()).teaching.draft;
    sign_with(&mut nurse, WRONG_PIN);
    assert_eq!(nurse.view.notice, Some(english(&Say::PinWrong)));
    let state = folded(folder.path());
    assert_eq!((state.teaching.draft, state.teaching.entries.len()), (draft.clone(), 0));
    assert_eq!(state.teaching.educators[0].tries.count, 1);

    sign_with(&mut nurse, PIN);
    let state = folded(folder.path());
    let kept = &state.teaching.entries[0];
    assert_eq!(kept.paper.says, Says::SignedOff(draft.unwrap().sign_off()));
    assert_eq!((state.teaching.draft, state.teaching.educators[0].tries.count), (None, 0));
    let shown = serde_json::to_string(&nurse.view).unwrap();
    for said in [LEARNER, &english(&Say::NotVouchedFlag), "Observed, met", "Observed, not met"] {
        assert!(shown.contains(said), "{said} in {shown}");
    }
    assert!(!shown.contains("Bay 3"), "no bed stands in a sign-off");
}

/// A raw search of every file after everything that takes a PIN: none is found, in no form a text could have.
#[test]
fn no_pin_is_anywhere_in_the_data_folder() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_an_educator(folder.path(), &HandClock::new());
    enrol(&mut nurse, "F. Example (invented)", OTHER_PIN);
    filled(&mut nurse, folder.path());
    sign_with(&mut nurse, WRONG_PIN);
    sign_with(&mut nurse, PIN);
    go(&mut nurse, Place::Vouch { at: 0 });
    try_pin(&mut nurse, Ask::Vouch { at: 0 }, &[("educator", "1"), ("pin", OTHER_PIN)]);
    go(&mut nurse, Place::Renew { at: 1 });
    let renewed = [("educator", "0"), ("pin", PIN), ("new-pin", "31415926"), ("new-pin-again", "31415926")];
    try_pin(&mut nurse, Ask::Renew { at: 1 }, &renewed);
    // A PIN in a field of a card that asks for none goes nowhere either.
    fill(&nurse, Ask::PutAside, &[("pin", "27182818"), ("new-pin", "27182818")]);
    nurse.drain();
    let state = folded(folder.path());
    assert!(state.teaching.educators[1].retired.is_some() && state.teaching.educators[0].vouched.is_some());
    assert_eq!(state.teaching.educators.len(), 3);
    let mut files = files(folder.path());
    search(&files);
    nurse.session.close();
    files = self::files(folder.path());
    search(&files);
}

fn search(files: &[PathBuf]) {
    assert!(!files.is_empty());
    for file in files {
        let bytes = std::fs::read(file).unwrap();
        for pin in [PIN, OTHER_PIN, WRONG_PIN, "31415926", "27182818"] {
            let backwards: Vec<u8> = pin.bytes().rev().collect();
            let hex: String = pin.bytes().map(|byte| format!("{byte:02x}")).collect();
            let listed = pin.bytes().map(|byte| byte.to_string()).collect::<Vec<_>>().join(",");
            for form in [pin.as_bytes(), &backwards, hex.as_bytes(), listed.as_bytes()] {
                let found = bytes.windows(form.len()).any(|window| window == form);
                assert!(!found, "{pin} in {}", file.display());
            }
        }
    }
}

pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { found.extend(files(&path)) } else { found.push(path) }
    }
    found
}

#[test]
fn a_pin_that_is_none_is_answered_in_a_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    go(&mut nurse, Place::Enrol);
    let nothing = Say::NothingTyped { field: Box::new(Say::PinField) };
    let long = "1".repeat(1_000);
    for (pin, again, said) in [
        ("", "", nothing.clone()),
        ("1", "1", Say::PinShort { least: 6 }),
        ("12345", "12345", Say::PinShort { least: 6 }),
        (&*long, &*long, Say::PinLong { most: 12 }),
        ("letters", "letters", Say::PinNotDigits),
        ("٤٠٦١٨٢", "٤٠٦١٨٢", Say::PinNotDigits),
        ("406182", "406183", Say::PinsDiffer),
        ("406182", "", nothing),
    ] {
        let name = ("name", "E. Example (invented)");
        fill_and_wait(&mut nurse, Ask::Enrol, &[name, ("new-pin", pin), ("new-pin-again", again)]);
        assert_eq!(nurse.view.notice, Some(english(&said)), "{} digits", pin.len());
        // A tap that changes nothing takes the sentence away again, so that the next one is seen to come.
        fill(&nurse, Ask::Save { at: 0 }, &[]);
        nurse.ask(Command::Go(Screen::Settings));
        go(&mut nurse, Place::Enrol);
    }
    assert!(folded(folder.path()).teaching.educators.is_empty());
}

#[test]
fn what_is_signed_stays_and_is_taken_back_by_a_newer_entry() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_an_educator(folder.path(), &HandClock::new());
    filled(&mut nurse, folder.path());
    sign_with(&mut nurse, PIN);
    go(&mut nurse, Place::Revoke { at: 0 });
    let typed = "Signed the wrong person (invented)";
    let fields = |pin| [("reason", typed), ("educator", "0"), ("pin", pin)];
    try_pin(&mut nurse, Ask::Revoke { at: 0 }, &fields(WRONG_PIN));
    let shown = serde_json::to_string(&nurse.view).unwrap();
    assert!(shown.contains(typed), "what was typed stands there after a wrong PIN: {shown}");
    try_pin(&mut nurse, Ask::Revoke { at: 0 }, &fields(PIN));
    let state = folded(folder.path());
    assert_eq!(state.teaching.entries.len(), 2, "nothing is deleted");
    let hash = &state.teaching.entries[0].hash;
    assert!(state.teaching.revoked_by(hash).is_some());
    go(&mut nurse, Place::Roster { from: 0 });
    let shown = serde_json::to_string(&nurse.view).unwrap();
    assert!(shown.contains(&english(&Say::NothingSigned)), "{shown}");
}

/// A page that says what only a worker can know is not believed.
#[test]
fn a_page_cannot_say_that_a_pin_was_right() {
    use domain::teaching::PinDone;
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_an_educator(folder.path(), &HandClock::new());
    filled(&mut nurse, folder.path());
    sign_with(&mut nurse, WRONG_PIN);
    fill(&nurse, Ask::Sign, &[("educator", "0"), ("pin", WRONG_PIN)]);
    let said = PinDone::Opened { token: Some("00".into()), locked: Some("00".into()) };
    for _ in 0..3 {
        fill(&nurse, Ask::PinDone(said.clone()), &[]);
    }
    let (mut teaching, mut looked) = (folded(folder.path()).teaching, 0);
    while teaching.wanted.is_some() || (teaching.educators[0].tries.count < 2 && teaching.entries.is_empty())
    {
        nurse.glance(20);
        teaching = folded(folder.path()).teaching;
        looked += 1;
        assert!(looked < 1_000, "the PIN is never looked at");
    }
    assert_eq!((teaching.entries.len(), teaching.educators[0].tries.count), (0, 2));
}

/// Nor when the tablet slept, that time has passed, or what a file holds that nobody handed in.
#[test]
fn a_page_cannot_say_what_only_the_session_knows() {
    use domain::library::{HandedIn, Paper};
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::new());
    nurse.reach_the_first_dial();
    nurse.drain();
    let alive = folded(folder.path()).last.unwrap();
    let (before, card) = (crate::recording::events(folder.path()).len(), nurse.view.card);
    let forged = [
        Command::Started { alive: None },
        Command::Started { alive: Some(alive) },
        Command::Woke { alive },
        Command::TimePassed,
        Command::HandedIn(HandedIn::new(Paper::Rules, domain::rules::Rules::example().to_json().as_bytes())),
        Command::KeyNotFound(domain::handover::tablet::KeyLost::Gone),
        Command::Restored(Err(domain::leaving::NotRestorable::Altered)),
        Command::StoodStill { why: domain::practice::Pause::Stall, for_ms: 60_000 },
    ];
    for command in forged {
        assert!(command.is_by_session(), "{command:?}");
        nurse.send(command);
        nurse.drain();
    }
    assert_eq!(crate::recording::events(folder.path()).len(), before, "none of it is recorded");
    assert_eq!(nurse.view.card, card);
}

/// The first card of a check comes while a PIN is being looked at, and the result does not push it away.
#[test]
fn a_pin_being_tried_holds_nobody_up() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_an_educator(folder.path(), &HandClock::new());
    filled(&mut nurse, folder.path());
    fill(&nurse, Ask::Sign, &[("educator", "0"), ("pin", PIN)]);
    let card = nurse.view.card;
    nurse.wait("the card that works", |view| view.card != card);
    nurse.ask(Command::Go(Screen::Beds));
    let beds = nurse.view.card;
    let mut looked = 0;
    while folded(folder.path()).teaching.entries.is_empty() {
        nurse.glance(20);
        looked += 1;
        assert!(looked < 1_000, "never signed");
    }
    nurse.drain();
    assert_eq!((nurse.view.card, folded(folder.path()).screen), (beds, Screen::Beds));
}
