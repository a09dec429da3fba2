//! A reading unlike what the check believes is not undone on the word of an earlier one: OUTPUT is asked down, RATE
//! back and mV up only to where this check has shown it to be safe.

use domain::check::answer::{Answer, Gap};
use domain::check::facts::{Dial, Dials, Facts, FirstLook, Found, Marks, NONE, Own, Phase, Turned, Why};
use domain::check::set::differences;
use domain::check::step::Step;
use domain::check::{self, restore};
use domain::contract::Shape;
use domain::flags::Flag;
use domain::profile::Profile;
use domain::say::Say;
use domain::state::bed::Names;
use domain::state::screen::Screen;
use domain::{State, view};

use crate::made::{
    at, bed, dials, fine, mv, open_check, output, rate, record, state_with, whole_check, wire, with,
};

fn given(profile: &Profile, facts: &Facts, answer: Answer) -> Facts {
    with(profile, |setup| check::answer(setup, None, facts, answer)).expect("the card takes it")
}

/// Read as this at first, every beat paced; nothing turned, nothing tested.
fn read_first(found: Dials, step: Step) -> Facts {
    let mut facts = Facts { step, found, back_to: found, stand: found, ..Facts::new(step) };
    facts.first_look = FirstLook::EveryBeatPaced;
    facts.own = Own::NotSeen;
    facts.held_at(found.output);
    facts.not_tested(Why::NoOwnBeats);
    facts
}

fn lines_of(profile: &Profile, facts: &Facts) -> (Vec<Dial>, Vec<Dial>) {
    with(profile, |setup| {
        let named = |lines: Vec<restore::Line>| lines.iter().map(|line| line.dial).collect();
        let found = differences(setup, facts);
        (named(found.put_right), named(found.left_alone))
    })
}

fn listed(profile: &Profile, facts: &Facts) -> Vec<Dial> {
    with(profile, |setup| restore::lines(setup, facts, facts.row).iter().map(|line| line.dial).collect())
}

/// OUTPUT typed 0.5 where 5.8 stands, nothing tested.
#[test]
fn output_read_higher_is_not_asked_down_to_where_nothing_was_seen() {
    let profile = fine();
    let card = read_first(dials(&profile, "0.5", "80", "2.0"), Step::ReadBack);
    let truly = dials(&profile, "5.8", "80", "2.0");
    let differs = given(&profile, &card, Answer::Read(truly));
    assert_eq!(differs.step, Step::Differs);
    assert_eq!(lines_of(&profile, &differs), (vec![], vec![Dial::Output]));
    let stopped = given(&profile, &differs, Answer::Stop);
    assert_eq!((stopped.step, listed(&profile, &stopped)), (Step::Restore, vec![]));

    let reason = given(&profile, &differs, Answer::No);
    let confirm = given(&profile, &reason, Answer::ReasonAndName);
    assert_eq!((confirm.step, confirm.stand, confirm.back_to), (Step::Confirm, truly, truly));
    assert!(confirm.marks.has(Marks::LEFT_AS_READ));
    let done = Facts { step: Step::Done, ..confirm };
    let state = state_with(fine());
    let names =
        Names { reason: Some("as it stood".into()), told: Some("R. Example".into()), ..Names::default() };
    let kept = record(&state, &wire(1, &profile.id), done, &names, at(0));
    assert!(kept.flags.contains(&Flag::LeftAsRead) && kept.read);
    assert_eq!(kept.stays_at, truly);
}

/// A figure mistyped at the end is read again: nothing of it sticks.
#[test]
fn the_last_reading_can_be_the_wrong_one() {
    let profile = fine();
    let card = read_first(dials(&profile, "5.8", "80", "2.0"), Step::ReadBack);
    let differs = given(&profile, &card, Answer::Read(dials(&profile, "15.0", "80", "2.0")));
    assert_eq!(lines_of(&profile, &differs), (vec![], vec![Dial::Output]));
    let again = given(&profile, &differs, Answer::Back);
    let confirm = given(&profile, &again, Answer::Read(dials(&profile, "5.8", "80", "2.0")));
    assert_eq!(confirm.step, Step::Confirm);
    assert!(!confirm.marks.has(Marks::LEFT_AS_READ));
}

#[test]
fn output_read_lower_is_asked_up_as_before() {
    let profile = fine();
    let card = read_first(dials(&profile, "5.8", "80", "2.0"), Step::ReadBack);
    let list = given(&profile, &card, Answer::Read(dials(&profile, "0.5", "80", "2.0")));
    assert_eq!((list.step, listed(&profile, &list)), (Step::Restore, vec![Dial::Output]));
}

/// The plan on a threshold that this check has measured may be asked down to.
#[test]
fn output_above_the_plan_is_asked_down() {
    let profile = fine();
    let card = Facts { step: Step::ReadBack, back_to: whole_check(&profile).found, ..whole_check(&profile) };
    let differs = given(&profile, &card, Answer::Read(dials(&profile, "5.8", "80", "2.0")));
    assert_eq!(lines_of(&profile, &differs), (vec![Dial::Output], vec![]));
}

/// Where a card has had OUTPUT turned and every spike made a beat, it may be asked back to it.
#[test]
fn output_is_asked_down_to_where_it_was_turned_and_captured() {
    let profile = fine();
    let found = dials(&profile, "3.6", "80", "2.0");
    let mut card = read_first(found, Step::ReadBack);
    card.turned = Turned::NONE.and(Dial::Output);
    let read = Answer::Read(dials(&profile, "5.8", "80", "2.0"));
    assert_eq!(lines_of(&profile, &given(&profile, &card, read)), (vec![Dial::Output], vec![]));
    card.proved = NONE;
    assert_eq!(lines_of(&profile, &given(&profile, &card, read)), (vec![], vec![Dial::Output]));
}

/// RATE typed 160 where 60 stands, or 60 where 100 stands: no card has had it turned. Turned, it is asked back to where
/// it was found.
#[test]
fn rate_is_asked_down_or_above_the_highest_test_rate_only_if_a_card_had_it_turned() {
    let profile = fine();
    for (first, truly) in [("160", "60"), ("60", "100")] {
        let mut card = read_first(dials(&profile, "5.8", first, "2.0"), Step::ReadBack);
        let read = Answer::Read(dials(&profile, "5.8", truly, "2.0"));
        assert_eq!(lines_of(&profile, &given(&profile, &card, read)), (vec![], vec![Dial::Rate]), "{first}");
        card.turned = Turned::NONE.and(Dial::Rate);
        assert_eq!(lines_of(&profile, &given(&profile, &card, read)), (vec![Dial::Rate], vec![]), "{first}");
    }
}

/// Knocked down under a patient who was paced on every beat: asked up, at the reading and by Stop.
#[test]
fn rate_that_stands_below_the_found_one_is_asked_up() {
    let profile = fine();
    let card = read_first(dials(&profile, "5.8", "60", "2.0"), Step::ReadBack);
    let differs = given(&profile, &card, Answer::Read(dials(&profile, "5.8", "40", "2.0")));
    assert_eq!(lines_of(&profile, &differs), (vec![Dial::Rate], vec![]));
    let stopped = given(&profile, &differs, Answer::Stop);
    assert_eq!((stopped.step, listed(&profile, &stopped)), (Step::Restore, vec![Dial::Rate]));
}

/// A lower number sees more: it is asked up only to one that was seen to see. A higher one is asked down.
#[test]
fn a_number_is_not_asked_up_to_one_that_was_not_seen_to_see() {
    let profile = fine();
    let mut card = read_first(dials(&profile, "5.8", "80", "9.0"), Step::ReadBack);
    card.saw_at(card.stand.mv);
    let lower = Answer::Read(dials(&profile, "5.8", "80", "2.0"));
    assert_eq!(lines_of(&profile, &given(&profile, &card, lower)), (vec![], vec![Dial::Mv]));
    let higher = Answer::Read(dials(&profile, "5.8", "80", "12.0"));
    assert_eq!(lines_of(&profile, &given(&profile, &card, higher)), (vec![Dial::Mv], vec![]));
    card.turned = Turned::NONE.and(Dial::Mv);
    assert_eq!(lines_of(&profile, &given(&profile, &card, lower)), (vec![Dial::Mv], vec![]));
    card.saw = mv(&profile, "5.0");
    assert_eq!(lines_of(&profile, &given(&profile, &card, lower)), (vec![], vec![Dial::Mv]));
    // Of a threshold of 5.0 the rule is below half: 9.0 lies above it.
    (card.sensing, card.sensing_at) = (Found::Exact, mv(&profile, "5.0"));
    assert_eq!(lines_of(&profile, &given(&profile, &card, lower)), (vec![], vec![Dial::Mv]));
}

#[test]
fn a_number_is_asked_up_to_the_rule_on_a_threshold() {
    let profile = fine();
    let mut card = read_first(dials(&profile, "5.8", "80", "2.0"), Step::ReadBack);
    let lower = Answer::Read(dials(&profile, "5.8", "80", "1.0"));
    assert_eq!(lines_of(&profile, &given(&profile, &card, lower)), (vec![], vec![Dial::Mv]));
    (card.sensing, card.sensing_at) = (Found::Exact, mv(&profile, "5.0"));
    assert_eq!(lines_of(&profile, &given(&profile, &card, lower)), (vec![Dial::Mv], vec![]));
}

/// Said on the way: the list that follows leaves OUTPUT and mV where they stand; RATE, which the card had turned, goes
/// back.
#[test]
fn a_dial_found_elsewhere_is_not_undone_either() {
    let profile = fine();
    let found = dials(&profile, "0.5", "80", "9.0");
    let asked = Facts { dial: Dial::Rate, to: rate(&profile, "70"), ..read_first(found, Step::OwnDown) };
    let elsewhere = Facts { step: Step::Elsewhere, from: Step::OwnDown, ..asked };
    let read = Answer::Read(dials(&profile, "5.8", "70", "2.0"));
    let list = given(&profile, &elsewhere, read);
    assert_eq!((list.step, listed(&profile, &list)), (Step::Restore, vec![Dial::Rate]));
    let read_back = given(&profile, &list, Answer::AllTrue);
    let differs = given(&profile, &read_back, Answer::Read(dials(&profile, "5.8", "80", "2.0")));
    assert_eq!(lines_of(&profile, &differs), (vec![], vec![Dial::Output, Dial::Mv]));
}

/// After some minutes away others may have changed what no card has had turned.
#[test]
fn after_a_long_gap_what_others_have_turned_stays() {
    let profile = fine();
    let found = dials(&profile, "3.6", "80", "9.0");
    let card = read_first(found, Step::Confirm);
    let away = given(&profile, &card, Answer::Woke(Gap::Long));
    let stays = given(&profile, &away, Answer::Read(dials(&profile, "5.8", "100", "2.0")));
    assert_eq!(stays.step, Step::Stays);
}

/// NO BEATS by a slip, OUTPUT turned to maximum for it: back to where every spike was seen to make a beat, else not.
#[test]
fn a_slip_that_raised_output_leads_down_only_to_what_captured() {
    let profile = fine();
    let found = dials(&profile, "3.6", "80", "2.0");
    for (proved, expected) in [(output(&profile, "3.6"), vec![Dial::Output]), (NONE, vec![])] {
        let card = Facts { proved, phase: Phase::Watching, ..read_first(found, Step::Confirm) };
        with(&profile, |setup| {
            let opened = check::answer(setup, None, &card, Answer::NoBeats).expect("always open");
            let maximum = Facts { phase: Phase::Watching, ..opened };
            let slip = check::answer(setup, Some(&card), &maximum, Answer::Slip).expect("always open");
            let at = Answer::StandsAt(profile.output_last());
            let back = check::answer(setup, Some(&card), &slip, at).expect("where it stands");
            let lines: Vec<Dial> =
                restore::lines(setup, &back, back.row).iter().map(|line| line.dial).collect();
            assert_eq!(lines, expected, "{back:?}");
        });
    }
}

/// The card says what it does not ask, and both figures.
#[test]
fn the_card_leaves_the_dial_and_says_why() {
    let profile = fine();
    let card = read_first(dials(&profile, "0.5", "80", "2.0"), Step::ReadBack);
    let differs = given(&profile, &card, Answer::Read(dials(&profile, "5.8", "80", "2.0")));
    let mut one = wire(1, &profile.id);
    one.check = Some(open_check(differs, at(-1)));
    let screen = Screen::Check { bed: 1, wire: 1 };
    let state = State { beds: vec![bed(1, "Bay 2", vec![one])], screen, ..state_with(fine()) };
    let shown = view(&state, at(0));
    let Shape::List(list) = shown.shape else { panic!("a list") };
    assert_eq!((list.instruction, list.note), (Say::LeftAloneTitle, Some(Say::LeftAloneNote)));
    assert_eq!(list.items.len(), 1);
    let labels: Vec<Say> = shown.answers.into_iter().map(|act| act.label).collect();
    assert_eq!(labels, [Say::LeftAloneReadAgain, Say::DiffersReason]);
}

/// Own 72 and found 120: 85 would be allowed, 120 is above the highest test rate of the example rules, 110.
#[test]
fn capture_is_not_tested_faster_than_the_unit_allows_because_rate_was_found_so() {
    let profile = fine();
    let found = dials(&profile, "6.0", "120", "2.0");
    let mut card = read_first(found, Step::SenseOutputOut);
    card.why_sensing = Why::None;
    card.why_capture = Why::None;
    card.own = Own::Shown;
    (card.own_slowest, card.own_fastest) = (72, 72);
    card.saw_at(card.stand.mv);
    card.sensing = Found::SeenWhereItStood;
    card.stand.rate = rate(&profile, "62");
    card.turned = Turned::NONE.and(Dial::Rate);
    card = Facts { dial: Dial::Output, to: found.output, phase: Phase::Open, ..card };
    let next = given(&profile, &card, Answer::Fine);
    assert_eq!((next.why_capture, next.step, next.to), (Why::FoundTooFast, Step::SetRate, found.rate));
    let record = record(&state_with(fine()), &wire(1, &profile.id), next, &Names::default(), at(0));
    assert_eq!((record.why_capture, record.highest_test_rate), (Why::FoundTooFast, 110));
}
