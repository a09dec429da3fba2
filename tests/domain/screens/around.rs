//! The screens around a check: what each offers, and what every one of them says.

use domain::check::facts::Facts;
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::{Act, FieldKind, Shape, View};
use domain::say::Say;
use domain::state::bed::Wire;
use domain::state::screen::Screen;
use domain::teaching::place::Place;
use domain::{State, view};

use crate::made::{at, bed, fine, open_check, state_with, whole_check, wire, wire_with};

fn on(mut state: State, screen: Screen) -> View<Say> {
    state.screen = screen;
    view(&state, at(0))
}

fn ward() -> State {
    let mut state = state_with(fine());
    let second = Wire { id: 2, ..wire_with(&state, 1, &[whole_check(&fine())]) };
    state.beds = vec![bed(1, "Bay 2", vec![wire_with(&state, 1, &[whole_check(&fine())]), second])];
    state
}

const AROUND: [Screen; 30] = [
    Screen::Welcome,
    Screen::Beds,
    Screen::MoreBeds { from: 0 },
    Screen::NewBed,
    Screen::Bed { bed: 1 },
    Screen::NewPatient { bed: 1 },
    Screen::NewWire { bed: 1 },
    Screen::Result { bed: 1, wire: 1, back: 0 },
    Screen::Code { bed: 1, wire: 1 },
    Screen::History { bed: 1, wire: 1 },
    Screen::Plug { bed: 1, wire: 1 },
    Screen::BedMore { bed: 1 },
    Screen::Happened { bed: 1 },
    Screen::WireOut { bed: 1 },
    Screen::EmptyBed { bed: 1 },
    Screen::ReadOwed { bed: 1, wire: 1 },
    Screen::Settings,
    Screen::Rules,
    Screen::NewRules,
    Screen::OfferedRules,
    Screen::Generators,
    Screen::Generator { at: 0 },
    Screen::NewGenerator,
    Screen::OfferedGenerator,
    Screen::Approve,
    Screen::Teaching(Place::Roster { from: 0 }),
    Screen::Teaching(Place::Educators),
    Screen::Teaching(Place::Enrol),
    Screen::Teaching(Place::ToSign),
    Screen::Teaching(Place::NewFile),
];

/// H16, and product's last line: local rules and the responsible clinician come first.
#[test]
fn every_screen_says_that_local_rules_come_first() {
    for screen in AROUND {
        assert_eq!(on(ward(), screen).marks, [Say::MarkExampleRules], "{screen:?}");
        let mut approved = ward();
        approved.rules.example = false;
        // What a check found under example rules stays marked when the unit has its own.
        let of_a_check = matches!(screen, Screen::Result { .. } | Screen::Code { .. });
        let mark = if of_a_check { Say::MarkExampleRules } else { Say::CautionLocalRules };
        assert_eq!(on(approved, screen).marks, [mark], "{screen:?}");
    }
}

#[test]
fn no_screen_around_a_check_touches_a_dial_and_each_has_a_way_on() {
    for screen in AROUND {
        let shown = on(ward(), screen);
        assert!(shown.safety.is_none() && shown.rail.is_none(), "{screen:?}");
        assert!(!shown.answers.is_empty(), "{screen:?}");
        assert!(shown.head.wall.is_some(), "{screen:?}: the clock is labelled");
    }
}

#[test]
fn the_keys_of_one_screen_are_unlike() {
    for screen in AROUND {
        let shown = on(ward(), screen);
        let mut keys: Vec<String> =
            shown.answers.into_iter().chain(shown.aside).map(|act| act.key.into()).collect();
        if let Shape::Beds(list) = shown.shape {
            keys.extend(list.rows.into_iter().map(|row| row.open.key.into()));
        }
        let count = keys.len();
        keys.sort();
        keys.dedup();
        assert_eq!(keys.len(), count, "{screen:?}: {keys:?}");
    }
}

#[test]
fn a_screen_that_is_gone_shows_the_beds() {
    for screen in [
        Screen::Bed { bed: 9 },
        Screen::Result { bed: 1, wire: 1, back: 5 },
        Screen::Code { bed: 1, wire: 9 },
    ] {
        assert!(matches!(on(ward(), screen).shape, Shape::Beds(_)), "{screen:?}");
    }
}

fn commands(acts: &[Act<Say>]) -> Vec<Command> {
    acts.iter().map(|act| act.command.clone()).collect()
}

/// N14: both wires of one patient are never below restore at once.
#[test]
fn while_a_check_is_open_no_other_wire_of_the_patient_offers_one() {
    let mut state = ward();
    let begin = |wire| Command::Begin { bed: 1, wire };
    let shown = on(state.clone(), Screen::Bed { bed: 1 });
    assert!(commands(&shown.answers).contains(&begin(1)) && commands(&shown.answers).contains(&begin(2)));
    state.beds[0].wires[0].check = Some(open_check(Facts::new(Step::ListFirst), at(-3)));
    let offered = commands(&on(state, Screen::Bed { bed: 1 }).answers);
    assert!(offered.contains(&Command::Resume { bed: 1, wire: 1 }));
    assert!(!offered.contains(&begin(2)));
}

/// H6: the wire is named wherever there is another.
#[test]
fn two_wires_are_named_on_their_buttons() {
    let shown = on(ward(), Screen::Bed { bed: 1 });
    let of = Say::StartCheckOf { wire: Box::new(Say::VentricularWire) };
    assert_eq!(shown.answers.iter().filter(|act| act.label == of).count(), 2);
}

#[test]
fn a_bed_without_a_wire_asks_for_one() {
    let mut state = state_with(fine());
    state.beds = vec![bed(1, "Bay 2", vec![])];
    let shown = on(state, Screen::Bed { bed: 1 });
    assert!(commands(&shown.answers).contains(&Command::Go(Screen::NewWire { bed: 1 })));
}

#[test]
fn nothing_about_a_wire_is_chosen_beforehand() {
    let mut state = ward();
    state.generators = domain::profile::shipped().expect("the shipped generators");
    let Shape::Form(form) = on(state, Screen::NewWire { bed: 1 }).shape else { panic!("a form") };
    assert_eq!(form.fields.len(), 4);
    for field in form.fields {
        assert_eq!((field.kind, field.value.as_str()), (FieldKind::Pick, ""));
        assert!(field.choices.len() >= 2 && field.choices.iter().all(|choice| !choice.chosen));
    }
}

#[test]
fn a_tablet_with_one_generator_has_chosen_it() {
    let Shape::Form(form) = on(ward(), Screen::NewWire { bed: 1 }).shape else { panic!("a form") };
    let generator = form.fields.iter().find(|field| field.id == "generator").expect("the field");
    assert_eq!(generator.value, "example-fine-current");
    assert!(generator.choices[0].chosen);
}

#[test]
fn each_setting_shows_what_is_chosen_now() {
    let Shape::Form(form) = on(ward(), Screen::Settings).shape else { panic!("a form") };
    assert_eq!(form.fields.len(), 5);
    for field in form.fields {
        assert_eq!(field.choices.iter().filter(|choice| choice.chosen).count(), 1, "{}", field.id);
        assert!(field.choices.iter().all(|choice| choice.act.is_some()), "{}", field.id);
    }
}

#[test]
fn every_rule_is_shown_with_its_source() {
    let Shape::Result(rules) = on(ward(), Screen::Rules).shape else { panic!("the rules") };
    let bare: Vec<_> = rules.rows.iter().filter(|row| row.note.is_none()).map(|row| &row.label).collect();
    let switches = [
        &Say::RowBelowDouble,
        &Say::RowCaptureLimit,
        &Say::RowSignalLimit,
        &Say::RowGoingUp,
        &Say::RowHalfRate,
        &Say::RowMarginCheck,
        &Say::RowReviewBlocks,
    ];
    assert_eq!(bare, switches, "a switch, a name or a limit that is not set has no figure");
    assert_eq!(rules.note, Some(Say::RulesNotApproved));
}

#[test]
fn a_wire_without_a_check_says_so() {
    let mut state = state_with(fine());
    state.beds = vec![bed(1, "Bay 2", vec![wire(1, "example-fine-current")])];
    let Shape::Beds(list) = on(state, Screen::Beds).shape else { panic!("the beds") };
    assert_eq!(list.rows[0].due, Some(Say::NoCheckYet));
    assert_eq!(list.rows[0].lines, [Say::WireNotChecked { wire: Box::new(Say::VentricularWire) }]);
}
