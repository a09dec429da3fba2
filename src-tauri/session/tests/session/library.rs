//! A unit hands in its rules and its generators, looks at them, and lets them into force by name
//! (H12, H16). All files are inventions.

use std::path::Path;

use domain::command::Command;
use domain::contract::{Shape, View};
use domain::event::What;
use domain::say::Say;
use domain::state::screen::Screen;
use serde_json::{Value, json};
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;
use crate::recording::events;

const EXAMPLE_RULES: &str = include_str!("../../../../scenarios/rules/example.json");
const EXAMPLE_GENERATOR: &str = include_str!("../../../../scenarios/generators/volts.json");

pub fn unit_rules(change: impl FnOnce(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(EXAMPLE_RULES).unwrap();
    file["id"] = json!("ward-7-invented");
    file["example"] = json!(false);
    file["approval"] = json!({
        "by": "Dr A. Example (invented)", "document": "Pacing procedure 3 (invented)",
        "on": "2026-01-10", "review": "2027-01-10",
    });
    change(&mut file);
    file.to_string()
}

pub fn unit_generator(change: impl FnOnce(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(EXAMPLE_GENERATOR).unwrap();
    file["id"] = json!("ward-7-box");
    file["name"] = json!("Ward 7 box (invented)");
    file["example"] = json!(false);
    change(&mut file);
    file.to_string()
}

fn english(say: &Say) -> String {
    words::say(say, Language::English).unwrap()
}

fn at_the_card_for_rules(folder: &Path, clock: &HandClock) -> Nurse {
    let mut nurse = Nurse::start(folder, clock);
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::NewRules));
    nurse
}

fn let_in(nurse: &mut Nurse, kind: &str, file: &str) {
    nurse.hand_in(kind, file.as_bytes());
    nurse.ask(Command::Go(Screen::Approve));
    nurse.ask(Command::ApproveOffered);
}

fn text(view: &View<String>) -> String {
    serde_json::to_string(view).unwrap()
}

fn is_marked_example(view: &View<String>) -> bool {
    view.marks.contains(&english(&Say::MarkExampleRules))
}

#[test]
fn a_unit_hands_in_its_rules_and_they_are_in_force_once_a_person_approves_them_by_name() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_the_card_for_rules(folder.path(), &HandClock::new());
    let file = unit_rules(|file| file["own_step"] = json!(5));
    nurse.hand_in("rules", file.as_bytes());
    let shown = text(&nurse.view);
    assert!(shown.contains("5/min a step") && shown.contains("10/min a step"), "new beside old: {shown}");
    assert!(shown.contains(&english(&Say::OfferedDiffer { count: 1 })), "{shown}");
    assert!(is_marked_example(&nurse.view), "not in force yet");

    nurse.ask(Command::Go(Screen::Approve));
    nurse.type_in(Command::ApproveOffered, "name", "  ");
    let nobody = Say::NothingTyped { field: Box::new(Say::ApproverField) };
    assert_eq!(nurse.view.notice, Some(english(&nobody)));
    nurse.ask(Command::ApproveOffered);
    let shown = text(&nurse.view);
    for said in ["ward-7-invented", "Dr A. Example (invented)", "2027-01-10", "charge nurse (invented)"] {
        assert!(shown.contains(said), "{said} in {shown}");
    }
    nurse.ask(Command::Go(Screen::Beds));
    assert!(!is_marked_example(&nurse.view));
    nurse.session.close();

    let approved = events(folder.path()).into_iter().find_map(|event| {
        let What::RulesApproved { rules, let_in } = event.what else { return None };
        Some((rules, let_in))
    });
    let (rules, let_in) = approved.unwrap();
    assert_eq!(rules.id, "ward-7-invented");
    assert_eq!(let_in.by, "A. Example (invented)");
    assert_eq!(let_in.hash, domain::document::hash(&file));
}

#[test]
fn rules_put_aside_leave_everything_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_the_card_for_rules(folder.path(), &HandClock::new());
    nurse.hand_in("rules", unit_rules(|_| ()).as_bytes());
    nurse.ask(Command::PutAside);
    assert!(text(&nurse.view).contains(&english(&Say::RulesTitleExample)));
    assert!(is_marked_example(&nurse.view));
    nurse.clock.pass(1_000);
    nurse.send(Command::Go(Screen::Approve));
    nurse.drain();
    assert!(!matches!(nurse.view.shape, Shape::Form(_)), "nothing is offered any more");
}

#[test]
fn an_open_check_goes_on_under_the_rules_it_began_with() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::NewRules));
    let_in(&mut nurse, "rules", &unit_rules(|_| ()));
    nurse.ask(Command::Go(Screen::Check { bed: 1, wire: 1 }));
    assert!(is_marked_example(&nurse.view), "its own rules are still the examples");
    for _ in 0..2 {
        nurse.good();
    }
    nurse.ask(Command::Go(Screen::Beds));
    assert!(!is_marked_example(&nurse.view));
    nurse.session.close();
    let accept = domain::check::step::Step::Accept;
    let asked = events(folder.path())
        .iter()
        .any(|event| matches!(&event.what, What::Answered(answered) if answered.facts.step == accept));
    assert!(asked, "example rules are accepted by name, also where others are in force by now");
}

#[test]
fn the_record_of_a_check_names_the_file_it_ran_under() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_the_card_for_rules(folder.path(), &HandClock::new());
    let file = unit_rules(|_| ());
    let_in(&mut nurse, "rules", &file);
    for command in [
        Command::Go(Screen::NewBed),
        Command::AddBed,
        Command::AddWire { bed: 1 },
        Command::Begin { bed: 1, wire: 1 },
    ] {
        nurse.ask(command);
    }
    nurse.reach_the_first_dial();
    nurse.session.close();
    let opened = events(folder.path()).iter().any(|event| matches!(event.what, What::CheckOpened { .. }));
    assert!(opened);
    let (fold, hash) = (folded(folder.path()), domain::document::hash(&file));
    let open = fold.wire(1, 1).and_then(|wire| wire.check.as_ref()).unwrap();
    assert_eq!((open.rules.id.as_str(), open.rules_hash.as_str()), ("ward-7-invented", hash.as_str()));
}

pub fn folded(folder: &Path) -> domain::State {
    events(folder).iter().fold(domain::State::default(), domain::apply)
}

#[test]
fn a_review_that_is_overdue_is_said_where_a_check_begins_and_blocks_only_where_the_unit_wants_it() {
    for blocks in [false, true] {
        let folder = tempfile::tempdir().unwrap();
        let mut nurse = at_the_card_for_rules(folder.path(), &HandClock::new());
        let overdue = |file: &mut Value| {
            file["approval"]["review"] = json!("2026-11-01");
            file["approval"]["blocks_when_overdue"] = json!(blocks);
        };
        let_in(&mut nurse, "rules", &unit_rules(overdue));
        for command in [Command::Go(Screen::NewBed), Command::AddBed, Command::AddWire { bed: 1 }] {
            nurse.ask(command);
        }
        let mark = english(&Say::MarkReviewPassed { review: "2026-11-01".to_owned() });
        assert!(nurse.view.marks.contains(&mark), "on the bed: {:?}", nurse.view.marks);
        if blocks {
            nurse.send(Command::Begin { bed: 1, wire: 1 });
            let said = english(&Say::RulesReviewBlocks { review: "2026-11-01".to_owned() });
            nurse.wait("the block", |view| view.notice.as_ref() == Some(&said));
        } else {
            nurse.ask(Command::Begin { bed: 1, wire: 1 });
            assert!(nurse.view.marks.contains(&mark), "at Ready: {:?}", nurse.view.marks);
        }
    }
}

#[test]
fn a_generator_is_looked_at_position_by_position_and_approved_by_name() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::NewGenerator));
    nurse.hand_in("generator-file", unit_generator(|_| ()).as_bytes());
    let shown = text(&nurse.view);
    assert!(shown.contains("0.2 · 0.4 · 0.6"), "positions as printed: {shown}");
    assert!(shown.contains("OUTPUT, V"), "{shown}");
    nurse.ask(Command::Go(Screen::Approve));
    nurse.ask(Command::ApproveOffered);
    nurse.ask(Command::Go(Screen::NewBed));
    nurse.ask(Command::AddBed);
    let offered = text(&nurse.view);
    assert!(offered.contains("ward-7-box"));
    assert!(!offered.contains("example-fine-current"), "a unit with its own boxes is offered no example");
}

#[test]
fn a_wire_is_plugged_into_another_generator_before_its_dials_are_read_and_not_after() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::Plug { bed: 1, wire: 1 }));
    nurse.type_in(Command::PlugInto { bed: 1, wire: 1 }, "generator", "example-volts");
    assert_eq!(folded(folder.path()).wire(1, 1).unwrap().generator, "example-volts");
    let fields = |nurse: &Nurse| text(&nurse.view).contains("\"V\"");
    let mut cards = 0;
    while !matches!(nurse.view.shape, Shape::Form(ref form) if form.fields.len() == 3) {
        nurse.good();
        cards += 1;
        assert!(cards < 20, "{:?}", nurse.view.shape);
    }
    assert!(fields(&nurse), "the dials are read in volts: {:?}", nurse.view.shape);
    nurse.ask(Command::TypedDials);
    nurse.ask(Command::TypedDials);
    nurse.ask(Command::Go(Screen::Plug { bed: 1, wire: 1 }));
    nurse.type_in(Command::PlugInto { bed: 1, wire: 1 }, "generator", "example-fine-current");
    assert_eq!(nurse.view.notice, Some(english(&Say::EndCheckFirst)));
    assert_eq!(folded(folder.path()).wire(1, 1).unwrap().generator, "example-volts");
}
