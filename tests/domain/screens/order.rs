//! The bed list: what needs a person first.

use domain::attention::{Attention, beds_in_order, minutes_since, of_bed, of_wire};
use domain::check::facts::Facts;
use domain::check::step::Step;
use domain::contract::Shape;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::bed::{Bed, DueNow, Wire};
use domain::state::screen::Screen;
use domain::{State, view};

use crate::made::{HOUR, MINUTE, at, bed, fine, open_check, state_with, whole_check, wire, wire_with};

fn checked(state: &State, due_in_ms: i64) -> Wire {
    let mut made = wire_with(state, 1, &[whole_check(&fine())]);
    made.records[0].due_ms = at(0).wall_ms + due_in_ms;
    made
}

fn with_open_check(mut wire: Wire, touched: bool, opened_min: i64) -> Wire {
    let mut facts = Facts::new(Step::ListFirst);
    facts.touched = touched;
    wire.check = Some(open_check(facts, at(opened_min)));
    wire
}

fn labels(beds: &[Bed]) -> Vec<&str> {
    beds_in_order(beds, at(0)).into_iter().map(|bed| bed.label.as_str()).collect()
}

#[test]
fn what_needs_a_person_first_stands_first() {
    let state = state_with(fine());
    let owed = Wire { owed: Some(at(-30)), ..checked(&state, HOUR) };
    let beds = [
        bed(1, "quiet", vec![]),
        bed(2, "due later", vec![checked(&state, 3 * HOUR)]),
        bed(3, "due soon", vec![checked(&state, HOUR)]),
        bed(4, "never checked", vec![wire(1, "example-fine-current")]),
        bed(5, "late", vec![checked(&state, -10 * MINUTE)]),
        bed(6, "later still", vec![checked(&state, -40 * MINUTE)]),
        bed(7, "left open", vec![with_open_check(checked(&state, HOUR), false, -20)]),
        bed(8, "not read", vec![owed]),
        bed(9, "dials turned", vec![with_open_check(checked(&state, HOUR), true, -25)]),
    ];
    let expected = [
        "not read",
        "dials turned",
        "left open",
        "later still",
        "late",
        "never checked",
        "due soon",
        "due later",
        "quiet",
    ];
    assert_eq!(labels(&beds), expected);
}

#[test]
fn a_bed_takes_the_place_of_its_most_urgent_wire() {
    let state = state_with(fine());
    let late = checked(&state, -MINUTE);
    let two = bed(1, "two wires", vec![checked(&state, HOUR), Wire { id: 2, ..late }]);
    assert_eq!(of_bed(&two, at(0)), Attention::Overdue { since_ms: at(-1).wall_ms });
}

#[test]
fn beds_alike_stay_in_the_order_in_which_they_were_added() {
    let beds = [bed(3, "c", vec![]), bed(1, "a", vec![]), bed(2, "b", vec![])];
    assert_eq!(labels(&beds), ["a", "b", "c"]);
}

#[test]
fn a_check_is_due_at_its_minute_and_not_before() {
    let state = state_with(fine());
    for (due_in_ms, urgent) in [(1, false), (0, true), (-1, true)] {
        assert_eq!(of_wire(&checked(&state, due_in_ms), at(0)).is_urgent(), urgent, "{due_in_ms} ms");
    }
}

#[test]
fn something_since_the_last_check_makes_one_due_now() {
    let state = state_with(fine());
    let moved = Wire { due_now: Some(DueNow::Shock), ..checked(&state, HOUR) };
    assert!(of_wire(&moved, at(0)).is_urgent());
    let late = of_wire(&checked(&state, -HOUR), at(0));
    assert!(of_wire(&moved, at(0)) < late, "its reason comes before a check that is merely late");
    let owed = Wire { owed: Some(at(-25)), ..moved.clone() };
    assert!(of_wire(&owed, at(0)) < of_wire(&moved, at(0)), "dials that nobody has read come first");
}

#[test]
fn a_dial_turned_in_an_open_check_counts_from_its_start() {
    let state = state_with(fine());
    let open = with_open_check(checked(&state, HOUR), true, -25);
    assert_eq!(of_wire(&open, at(0)), Attention::DialsNotRead { since_ms: at(-25).wall_ms });
}

/// H17: the tablet's clock may go back.
#[test]
fn a_clock_that_went_back_shows_no_negative_wait() {
    assert_eq!(minutes_since(at(30).wall_ms, at(0)), 0);
    assert_eq!(minutes_since(at(-40).wall_ms, at(0)), 40);
}

#[test]
fn the_list_says_why_each_bed_stands_where_it_does() {
    let mut state = state_with(fine());
    let owed = Wire { owed: Some(at(-25)), ..checked(&state, HOUR) };
    state.beds = vec![
        bed(1, "Bay 7", vec![checked(&state, 50 * MINUTE)]),
        bed(2, "Bay 4", vec![checked(&state, -40 * MINUTE)]),
        bed(3, "Bay 9", vec![owed]),
        bed(4, "Side room 2", vec![checked(&state, -5 * HOUR)]),
    ];
    state.screen = Screen::Beds;
    let Shape::Beds(list) = view(&state, at(0)).shape else { panic!("the bed list") };
    let said: Vec<_> = list.rows.iter().map(|row| (row.due.clone(), row.urgent)).collect();
    let expected = [
        (Some(Say::DialsNotReadSince { time: "21:15".to_owned() }), true),
        (Some(Say::LateHours { hours: 5 }), true),
        (Some(Say::LateMinutes { minutes: 40 }), true),
        (Some(Say::DueAt { time: "22:30".to_owned() }), false),
    ];
    assert_eq!(said, expected);
}

/// A clock set back does not put a check off. Due twelve hours after 21:40; elapsed by the clock that nobody can set.
#[test]
fn a_clock_set_back_does_not_put_a_check_off() {
    let state = state_with(fine());
    let made = wire_with(&state, 1, &[whole_check(&fine())]);
    let due_ms = made.records[0].due_ms;
    let back = |elapsed_min: i64, by_ms: i64| {
        let now = at(elapsed_min);
        Moment { wall_ms: now.wall_ms + by_ms, ..now }
    };
    // 11 h 59 min after the check, as due as by the wall: 21:40 + 12 h.
    assert_eq!(of_wire(&made, at(719)), Attention::DueAt { at_ms: due_ms });
    // A day back after one hour: eleven hours are left, by the clock as it stands now.
    let shifted = back(60, -24 * HOUR);
    assert_eq!(of_wire(&made, shifted), Attention::DueAt { at_ms: shifted.wall_ms + 11 * HOUR });
    // A day back after thirteen hours: it is late all the same, by an hour.
    let late = back(780, -24 * HOUR);
    assert_eq!(of_wire(&made, late), Attention::Overdue { since_ms: late.wall_ms - HOUR });
    // Two seconds apart is no set clock.
    assert_eq!(of_wire(&made, back(60, -2_000)), Attention::DueAt { at_ms: due_ms });
    // A day ahead: late by the wall, which may be right.
    assert!(matches!(of_wire(&made, back(60, 24 * HOUR)), Attention::Overdue { .. }));
    // After a restart only the wall is left: before the end of the check it says nothing, so it is due.
    let restarted = Moment { boot: 8, boot_ms: 5_000, ..back(60, -24 * HOUR) };
    assert_eq!(of_wire(&made, restarted), Attention::Overdue { since_ms: restarted.wall_ms });
}

/// One quiet line, of another bed than the one on the screen, and none where the list or the card says it.
#[test]
fn a_check_that_has_come_due_is_said_elsewhere_in_the_app() {
    let mut state = state_with(fine());
    let late = checked(&state, -MINUTE);
    let later = checked(&state, HOUR);
    state.beds = vec![bed(1, "Bay 1", vec![late]), bed(2, "Bay 2", vec![later])];
    let said = |screen: Screen| view(&State { screen, ..state.clone() }, at(0)).notice;
    let due = Say::CheckDueIn { bed: "\u{2068}Bay 1\u{2069}".to_owned() };
    assert_eq!(said(Screen::Settings), Some(due.clone()));
    assert_eq!(said(Screen::History { bed: 2, wire: 1 }), Some(due));
    assert_eq!(said(Screen::History { bed: 1, wire: 1 }), None, "it is about this bed");
    assert_eq!(said(Screen::Beds), None, "the list says it");
}
