//! A journey that goes well, and one with a dial that stands elsewhere: the order of the cards, a second time. Common
//! practice, no source; local procedure comes first.

use domain::command::Command;
use domain::handover::compare::{Beside, Margin};
use domain::handover::known::Source;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::bed::DueNow;
use domain::state::screen::Screen;
use domain::state::transport::Reading;
use domain::transport::answer::Answer as A;
use domain::transport::step::Step;
use domain::{State, attention, view};

use crate::made::{BED, WIRE, at, checked_ward, compared_ward, handed_ward, history, send, tell, ward};

struct Journey {
    state: State,
    asked: Vec<Step>,
}

impl Journey {
    fn of(state: State) -> Journey {
        Journey { state: tell(&state, Command::BeginTransport { bed: BED }, &[], at(0)), asked: Vec::new() }
    }

    fn card(&self) -> Step {
        self.state.bed(BED).unwrap().transport.as_ref().unwrap().facts.step
    }

    fn send(mut self, command: Command, values: &[(&str, &str)]) -> Journey {
        self.asked.push(self.card());
        let second = i64::try_from(self.asked.len()).unwrap() * 1_000;
        self.state = tell(&self.state, command, values, at(second));
        self
    }

    fn tap(self, answer: A) -> Journey {
        self.send(Command::Transport(answer), &[])
    }

    fn going(self, target: &str) -> Journey {
        self.send(Command::TransportGoing, &[("target", target), ("destination", "CT, level 1")])
    }

    fn reads(self, output: &str) -> Journey {
        self.send(Command::TransportTypedDials, &[("output", output), ("rate", "80"), ("mv", "2.0")])
    }

    /// Nothing is known here to set it beside.
    fn reads_twice(self, output: &str) -> Journey {
        self.reads(output).reads(output)
    }

    fn signed(self) -> Journey {
        self.send(Command::TransportSigned, &[("from", "AB"), ("to", "CD")])
    }

    fn left(self, output: &str) -> Journey {
        let known = !self.state.wire(BED, WIRE).unwrap().records.is_empty();
        let asked = self.going("imaging").tap(A::Yes).tap(A::AllTrue).reads(output);
        let read = if known { asked } else { asked.reads(output) };
        read.tap(A::AllTrue).signed().tap(A::Yes)
    }
}

#[test]
fn a_journey_with_a_vehicle_from_the_pads_to_the_names() {
    let journey = Journey::of(ward(1)).left("6.0");
    let away = journey
        .tap(A::Changed)
        .tap(A::IntoVehicle)
        .tap(A::Yes)
        .tap(A::Changed)
        .tap(A::OutOfVehicle)
        .tap(A::Yes);
    let there = away.tap(A::Arrived).tap(A::Yes).reads("6.0").tap(A::AllTrue).signed().tap(A::Yes);
    use Step::*;
    assert_eq!(
        there.asked,
        [
            Destination,
            Pads,
            Carry,
            Read,
            Read,
            Margin,
            Initials,
            LookLeave,
            OnTheWay,
            Change,
            Unchanged,
            OnTheWay,
            Change,
            Unchanged,
            OnTheWay,
            SayNames,
            Read,
            Margin,
            Initials,
            LookArrived
        ]
    );
    let bed = there.state.bed(BED).unwrap();
    assert_eq!(there.state.wire(BED, WIRE).unwrap().due_now, Some(DueNow::Moved));
    let told = &bed.transports.last().unwrap().told;
    assert_eq!((told.looks.len(), told.hands.len(), told.readings.len()), (4, 2, 2));
    assert!(told.left.is_some() && told.arrived.is_some());
}

/// After another bed capture and pulse are looked at; another team reads the dials, says what they mean, and both sign.
#[test]
fn another_bed_is_looked_at_and_another_team_reads_and_signs() {
    let left = Journey::of(ward(1)).left("6.0");
    let before = left.asked.len();
    let moved = left.tap(A::Changed).tap(A::AnotherBed).tap(A::Yes);
    let taken_over = moved.tap(A::Changed).tap(A::OtherTeam).reads("6.0").tap(A::AllTrue).signed();
    use Step::*;
    assert_eq!(
        taken_over.asked[before..],
        [OnTheWay, Change, Unchanged, OnTheWay, Change, Read, Margin, Initials]
    );
    assert_eq!(taken_over.card(), OnTheWay);
    let told = &taken_over.state.bed(BED).unwrap().transport.as_ref().unwrap().told;
    assert_eq!((told.looks.len(), told.readings.len(), told.hands.len()), (2, 2, 2));
}

#[test]
fn magnetic_resonance_stops() {
    let journey = Journey::of(ward(1)).going("mri");
    assert_eq!(journey.card(), Step::MriStop);
    assert_eq!(journey.tap(A::Back).card(), Step::Destination);
}

fn reading(journey: &Journey) -> Reading {
    journey.state.bed(BED).unwrap().transport.as_ref().unwrap().told.reading(WIRE).unwrap().clone()
}

fn differs(said: &str) -> Beside {
    Beside::Differs { said: Some(said.to_owned()) }
}

fn times(multiple: &str, below_rule: bool) -> Margin {
    Margin::Times { multiple: multiple.to_owned(), threshold: "1.2".to_owned(), at_least: false, below_rule }
}

/// Threshold 1.2 mA: 3.0 is 2.5 times it. The example rule asks for 2 to 3 times and at least 1 mA above.
#[test]
fn a_dial_elsewhere_is_named_with_the_margin_it_leaves() {
    let state = checked_ward();
    let journey = Journey::of(state.clone()).going("unit").tap(A::Yes).tap(A::AllTrue).reads("3.0");
    let read = reading(&journey);
    assert_eq!((read.by, &read.compared.output), (Some(Source::Check), &differs("3.6")));
    assert_eq!((&read.compared.rate, &read.compared.mv), (&Beside::Same, &Beside::Same));
    assert_eq!(read.compared.margin, times("2.5", false));
    let said = format!("{:?}", view(&journey.state, at(0)).shape);
    assert!(said.contains("MarginDiffers") && said.contains("SummaryMargin"), "{said}");
    let standing = |journey: &Journey| journey.state.wire(BED, WIRE).unwrap().standing.clone();
    assert_eq!(standing(&journey), None, "not before both teams have seen it");
    let again = journey.tap(A::Back).reads("3.6");
    assert!(reading(&again).compared.is_same());
    let again = again.tap(A::Back).reads("3.0").tap(A::AllTrue);
    assert_eq!(standing(&again).unwrap().printed.output, "3.0");
    let low = Journey::of(state).going("unit").tap(A::Yes).tap(A::AllTrue).reads_twice("1.5");
    assert_eq!(reading(&low).compared.margin, times("1.2", true), "1.5 mA is 1.2 times the threshold");
}

/// The search ended with "at least 5.0": nobody knows what a number above it sees, and nobody is called for it.
#[test]
fn above_a_number_that_saw_at_least_is_said_and_nobody_is_called() {
    let mut state = checked_ward();
    state.wire_mut(BED, WIRE).unwrap().records[0].sensing = domain::check::facts::Found::AtLeast;
    let said = |mv: &str| {
        let begun = Journey::of(state.clone()).going("unit").tap(A::Yes).tap(A::AllTrue);
        let dials = [("output", "3.6"), ("rate", "80"), ("mv", mv)];
        let read = begun.send(Command::TransportTypedDials, &dials);
        let read = if mv == "2.0" { read } else { read.send(Command::TransportTypedDials, &dials) };
        match view(&read.state, at(0)).shape {
            domain::contract::Shape::List(list) => {
                list.items.into_iter().map(|item| item.text).collect::<Vec<_>>()
            }
            other => panic!("what it means: {other:?}"),
        }
    };
    let signal = || "5.0".to_owned();
    assert!(said("2.0").contains(&Say::SummarySeesAtLeast { number: "2.0".to_owned(), signal: signal() }));
    assert!(said("6.0").contains(&Say::NumberUntried { number: "6.0".to_owned(), signal: signal() }));
}

/// A slip after "read again" finds the reading that was there.
#[test]
fn a_slip_back_to_what_differs_still_knows_it() {
    let journey = Journey::of(checked_ward()).going("unit").tap(A::Yes).tap(A::AllTrue).reads("3.0");
    let back = journey.tap(A::Back).tap(A::Slip);
    assert_eq!(back.card(), Step::Margin);
    assert_eq!(reading(&back).compared.output, differs("3.6"));
}

/// With what another tablet handed over, where nobody here has made a check; the handover counts as compared then.
#[test]
fn the_dials_are_compared_with_the_code_that_was_loaded() {
    let journey = Journey::of(handed_ward()).going("unit").tap(A::Yes).tap(A::AllTrue).reads_twice("3.0");
    let read = reading(&journey);
    assert_eq!((read.by, &read.compared.output), (Some(Source::Code), &differs("3.6")));
    assert_eq!(read.compared.margin, times("2.5", false));
    let arrival = |journey: &Journey| journey.state.wire(BED, WIRE).unwrap().arrival.clone().unwrap();
    assert_eq!(arrival(&journey).compared, None, "not before both teams have seen it");
    let seen = journey.tap(A::AllTrue);
    assert!(arrival(&seen).compared.is_some());
    let there = seen.signed().tap(A::Yes).tap(A::Arrived).tap(A::Yes).reads("3.0");
    let read = reading(&there);
    assert_eq!((read.by, read.compared.is_same()), (Some(Source::Reading), true), "as it stood on leaving");
}

fn compared_at(when: Moment) -> State {
    let dials = [("output", "3.6"), ("rate", "80"), ("mv", "2.0")];
    tell(&handed_ward(), Command::CompareDials { bed: BED, wire: WIRE }, &dials, when)
}

/// Once per change of hands: what was compared when the code was loaded is not asked for again, only its meaning.
#[test]
fn a_handover_compared_just_now_is_not_read_twice() {
    let journey = Journey::of(compared_ward()).going("unit").tap(A::Yes).tap(A::AllTrue);
    assert_eq!(journey.card(), Step::Margin);
    assert_eq!(reading(&journey).compared.output, differs("3.6"));
    let again = journey.tap(A::Back);
    assert_eq!(again.card(), Step::Read, "it can be");
    let left = again.tap(A::Slip).tap(A::AllTrue).signed().tap(A::Yes);
    let there = left.tap(A::Arrived).tap(A::Yes);
    assert_eq!(there.card(), Step::Read, "the next hands read for themselves");
}

/// After trouble, after a quarter of an hour, or on another box the dials are read again.
#[test]
fn what_was_compared_before_trouble_or_long_ago_is_read_again() {
    let begun = |state| Journey::of(state).going("unit").tap(A::Yes).tap(A::AllTrue);
    let long_ago = compared_at(at(-15 * 60_000 - 1));
    assert_eq!(begun(long_ago).card(), Step::Read);
    let now = compared_at(at(-15 * 60_000));
    let trouble = begun(now.clone()).tap(A::NoBeats).tap(A::BeatsAgain);
    assert_eq!(trouble.card(), Step::Read);
    let mut plugged = now;
    plugged.wire_mut(BED, WIRE).unwrap().another_box = true;
    let plugged = begun(plugged);
    assert_eq!(plugged.card(), Step::Read);
    let read = plugged.reads_twice("3.6");
    assert_eq!(
        reading(&read).compared.margin,
        Margin::Unknown,
        "a threshold is one of wire and box together"
    );
}

#[test]
fn in_a_vehicle_no_check_begins_and_the_bed_list_says_where_the_patient_goes() {
    let journey = Journey::of(ward(1)).left("6.0").tap(A::Changed).tap(A::IntoVehicle);
    let check = send(&journey.state, Command::Begin { bed: BED, wire: WIRE }, &[], at(0));
    assert_eq!(check.expect_err("taken").say(), Some(Say::NoCheckInVehicle));
    let listed = tell(&journey.state, Command::Go(Screen::Beds), &[], at(0));
    assert!(format!("{:?}", view(&listed, at(0)).shape).contains("OnTheWayTo"));
    let first = attention::of_bed(listed.bed(BED).unwrap(), at(0));
    assert!(first.is_urgent(), "{first:?}");
}

#[test]
fn a_transport_comes_back_after_a_death_with_the_patient_first() {
    let journey = Journey::of(ward(1)).left("6.0");
    let away = tell(&journey.state, Command::Go(Screen::Beds), &[], at(0));
    let new_boot = Moment { boot: 8, boot_ms: 5_000, ..at(3_600_000) };
    let back = tell(&away, Command::Started { alive: None }, &[], new_boot);
    assert_eq!(back.screen, Screen::Transport { bed: BED });
    assert_eq!(back.bed(BED).unwrap().transport.as_ref().unwrap().facts.step, Step::AwayLook);
}

/// A box may be changed on the way; no other patient comes into the bed.
#[test]
fn a_box_may_be_changed_on_the_way() {
    let journey = Journey::of(ward(1)).left("6.0");
    let work = domain::swap::facts::Work::Box;
    let swap = send(&journey.state, Command::BeginSwap { bed: BED, wire: WIRE, work }, &[], at(0));
    assert!(swap.is_ok());
    for command in
        [Command::NewPatient { bed: BED }, Command::EmptyBed { bed: BED }, Command::RemoveBed { bed: BED }]
    {
        let refused = send(&journey.state, command, &[], at(0)).expect_err("taken");
        assert_eq!(refused.say(), Some(Say::EndTransportFirst));
    }
}

/// Newest first: the journey with its times, both changes of hands with the initials of both teams, and the reading
/// that was unlike what was known; not the one that was as known.
#[test]
fn the_history_tells_the_journey_the_hands_and_what_differed() {
    let journey = Journey::of(checked_ward()).left("3.0").tap(A::Arrived).tap(A::Yes);
    let there = journey.reads("3.0").tap(A::AllTrue).signed().tap(A::Yes);
    let rows = history(&there.state);
    let names: Vec<&str> = rows.iter().map(|(value, _)| value.name()).collect();
    let told = ["HistoryWay", "HistoryHands", "HistoryHands", "HistoryReadLeaving"].as_slice();
    assert_eq!(names.iter().filter(|name| told.contains(name)).copied().collect::<Vec<_>>(), told);
    let whole = format!("{rows:?}");
    for said in [
        "CT, level 1",
        r"\u{2068}AB\u{2069}",
        r"\u{2068}CD\u{2069}",
        "HistoryLeft",
        "HistoryArrived",
        "\"3.0\"",
        "\"3.6\"",
    ] {
        assert!(whole.contains(said), "{said}: {whole}");
    }
    let nobody = history(&Journey::of(checked_ward()).going("mri").tap(A::Close).state);
    assert!(nobody.contains(&(Say::HistoryMri, None)), "{nobody:?}");
}
