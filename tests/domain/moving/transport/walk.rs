//! Breadth first over every state of a transport, each answer tried at each: with sleeps and "Something is
//! wrong", with slips, and with two wires (see `Bound`).

use std::collections::{HashMap, HashSet, VecDeque};

use domain::check::facts::Dials;
use domain::command::Command;
use domain::state::bed::DueNow;
use domain::transport::answer::{Answer, Target};
use domain::transport::facts::{Facts, Leg};
use domain::transport::offer::has_safety;
use domain::transport::step::Step;
use domain::{State, view};

use crate::made::{BED, OTHER, WIRE, at, compared_ward, send, ward};

const TAPS: [Answer; 28] = {
    use Answer::*;
    [
        NoBeats,
        Stop,
        Wrong,
        Slip,
        Yes,
        No,
        AllTrue,
        Back,
        Close,
        Changed,
        AnotherBed,
        IntoVehicle,
        OutOfVehicle,
        OtherTeam,
        DialChanged,
        Arrived,
        NoPulse,
        FastWide,
        ShockGiven,
        SpikesWithoutBeats,
        NoSpikesCame,
        BeatsAgain,
        StillNoBeats,
        EverySpikeMadeABeat,
        SpikeWithoutABeat,
        // Sent by a tap these are typed elsewhere: they must be refused.
        Going(Target::Unit),
        Signed,
        Read,
    ]
};

/// Kept from cards and answers alone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
struct Book {
    going: bool,
    pads: bool,
    carry: bool,
    /// Wires read since the hands began to change, and whether that was signed.
    read: u8,
    left: bool,
    vehicle: bool,
    names: bool,
    read_here: u8,
    seen_here: bool,
    maximum: bool,
    /// Since a break nobody has looked at the patient.
    not_looked: bool,
    /// On the way another team takes over and both have not signed; the wires whose dials they have gone on from.
    team: bool,
    read_by_team: u8,
    /// The reading typed last on the card that is open, or under the one over it; 0: none.
    typed: u8,
    /// Of each wire the reading that both teams went on from, last.
    known: [u8; 2],
    /// Of each wire the last reading that was taken, or compared with the handover.
    taken: [u8; 2],
}

/// The second is less than half of the first: far from it. Neither is far from what was compared.
const COMPARED: u8 = 3;
const READINGS: [(&str, u8); 2] = [("6.0", 1), ("2.0", 2)];

const SHORT_MS: i64 = 20_000;
const LONG_MS: i64 = 900_000;

type Key = (Facts, Option<Facts>, Book, [Option<Dials>; 2]);

/// What is tried beside the plain answers: all together the states grow past what a test can wait for.
#[derive(Clone, Copy, Debug, Default)]
struct Bound {
    slips: bool,
    /// Sleeps, and "Something is wrong".
    troubles: bool,
}

impl Bound {
    fn takes(self, command: &Command) -> bool {
        match command {
            Command::Woke { .. } | Command::Transport(Answer::Wrong) => self.troubles,
            Command::Transport(Answer::Slip) => self.slips,
            _ => true,
        }
    }
}

#[derive(Default)]
struct Walk {
    bound: Bound,
    seen: HashMap<Key, usize>,
    ways: Vec<Vec<usize>>,
    ends: HashSet<usize>,
    steps: HashSet<Step>,
    queue: VecDeque<(State, Book, usize)>,
    answers: usize,
}

fn facts(state: &State) -> Option<Facts> {
    state.bed(BED)?.transport.as_ref().map(|open| open.facts)
}

fn before(state: &State) -> Option<Facts> {
    state.bed(BED)?.transport.as_ref()?.before
}

type Values = Vec<(&'static str, &'static str)>;

fn deeds() -> Vec<(Command, Values)> {
    let taps = TAPS.into_iter().map(|answer| (Command::Transport(answer), Vec::new()));
    let going =
        ["unit", "mri"].map(|to| (Command::TransportGoing, vec![("target", to), ("destination", "Ward 3")]));
    let read =
        |output| (Command::TransportTypedDials, vec![("output", output), ("rate", "80"), ("mv", "2.0")]);
    let signed = (Command::TransportSigned, vec![("from", "AB"), ("to", "CD")]);
    taps.chain(going).chain(READINGS.map(|(output, _)| read(output))).chain([signed]).collect()
}

/// A tap, and a sleep of so many ms before it.
fn all_deeds(now: i64) -> Vec<(Command, Values, i64)> {
    let sleeps = [SHORT_MS, LONG_MS].map(|ms| (Command::Woke { alive: at(now) }, Vec::new(), ms));
    deeds().into_iter().map(|(command, values)| (command, values, 0)).chain(sleeps).collect()
}

impl Walk {
    fn over(ward: &State, bound: Bound) -> Walk {
        let mut walk = Walk { bound, ..Walk::default() };
        let begun = send(ward, Command::BeginTransport { bed: BED }, &[], at(0)).unwrap();
        let wires = u8::try_from(begun.bed(BED).unwrap().wires.len()).unwrap();
        let compared =
            begun.wire(BED, WIRE).unwrap().arrival.as_ref().is_some_and(|arrival| arrival.compared.is_some());
        // The handover was compared: this wire has been read for this change of hands, and where it stood is known.
        let taken = if compared { [COMPARED, 0] } else { [0, 0] };
        walk.enter(begun, Book { read: u8::from(compared), known: taken, taken, ..Book::default() });
        while let Some((state, book, place)) = walk.queue.pop_front() {
            walk.visit(&state, book, place, wires);
        }
        walk
    }

    fn enter(&mut self, state: State, book: Book) -> usize {
        let mut card = facts(&state).unwrap();
        // Only counted: what was looked at, up to the first.
        card.looks = card.looks.min(1);
        let key = (card, before(&state).filter(|_| self.bound.slips), book, asked(&state));
        if let Some(known) = self.seen.get(&key) {
            return *known;
        }
        let place = self.ways.len();
        self.steps.insert(key.0.step);
        self.seen.insert(key, place);
        self.ways.push(Vec::new());
        self.queue.push_back((light(state), book, place));
        place
    }

    fn visit(&mut self, state: &State, book: Book, place: usize, wires: u8) {
        let card = facts(state).unwrap();
        drawn(state, &card);
        let check = send(state, Command::Begin { bed: BED, wire: WIRE }, &[], at(0));
        let refused = check.expect_err("no threshold on the way").say();
        assert!(refused.is_some(), "said why");
        let bound = self.bound;
        // Each card has its own second: a slip takes back what was told in one.
        let now = 1_000 * i64::from(state.card);
        for (command, values, ms) in all_deeds(now).into_iter().filter(|(command, ..)| bound.takes(command)) {
            let Ok(next) = send(state, command.clone(), &values, at(now + ms)) else { continue };
            assert!(!matches!(tapped(&command), Some(Answer::Going(_) | Answer::Signed | Answer::Read)));
            self.answers += 1;
            let Some(came) = facts(&next) else {
                ended(&card, book, wires, &command, &next);
                self.ends.insert(place);
                continue;
            };
            if next == *state {
                continue;
            }
            let after = turned(book, &card, (&command, &values, ms), &came);
            typed_twice(&card, book, typed_in(&command, &values), &came);
            judge(&card, book, &command, &came, after, wires);
            let to = self.enter(next, after);
            self.ways[place].push(to);
        }
        assert!(!self.ways[place].is_empty() || self.ends.contains(&place), "no way on: {card:?}");
    }

    fn without_end(&self) -> usize {
        let mut back = vec![Vec::new(); self.ways.len()];
        for (from, tos) in self.ways.iter().enumerate() {
            tos.iter().for_each(|to| back[*to].push(from));
        }
        let mut reached = self.ends.clone();
        let mut queue: Vec<usize> = self.ends.iter().copied().collect();
        while let Some(place) = queue.pop() {
            for from in &back[place] {
                if reached.insert(*from) {
                    queue.push(*from);
                }
            }
        }
        self.ways.len() - reached.len()
    }
}

/// The story that was told decides nothing.
fn light(mut state: State) -> State {
    if let Some(open) = state.bed_mut(BED).and_then(|bed| bed.transport.as_mut()) {
        open.facts.looks = open.facts.looks.min(1);
        open.told.readings.drain(..open.told.readings.len().saturating_sub(2));
        open.told.looks.clear();
        open.told.hands.clear();
    }
    state
}

fn drawn(state: &State, card: &Facts) {
    let shown = view(state, at(0));
    let prepares =
        matches!(card.step, Step::Destination | Step::MriStop | Step::Pads | Step::Carry | Step::NotReady);
    assert_eq!(shown.safety.is_some(), !prepares, "NO BEATS and Something is wrong: {:?}", card.step);
    assert_eq!(has_safety(card), !prepares);
    let lesser = shown.safety.iter().flat_map(|safety| [&safety.wrong, &safety.slip]).flatten();
    for act in shown.answers.iter().chain(&shown.aside).chain(lesser) {
        let takes = act.with_fields || send(state, act.command.clone(), &[], at(0)).is_ok();
        assert!(takes, "a button that does nothing: {} on {card:?}", act.key);
    }
}

fn tapped(command: &Command) -> Option<Answer> {
    if let Command::Transport(answer) = command { Some(*answer) } else { None }
}

fn asked(state: &State) -> [Option<Dials>; 2] {
    [WIRE, OTHER].map(|wire| state.wire(BED, wire).and_then(|wire| wire.asked_again))
}

/// Which reading was typed; 0: none.
fn typed_in(command: &Command, values: &Values) -> u8 {
    let typed = values.iter().find(|(id, _)| *id == "output").map(|(_, text)| *text);
    let reading = READINGS.into_iter().find(|(text, _)| typed == Some(*text));
    reading.filter(|_| *command == Command::TransportTypedDials).map_or(0, |(_, reading)| reading)
}

/// On leaving, a reading that nothing is known to set beside, or far from what is known, is taken once it is the second
/// in a row; any other at once.
fn typed_twice(card: &Facts, book: Book, typed: u8, came: &Facts) {
    if card.step != Step::Read || typed == 0 {
        return;
    }
    let known = book.known[usize::from(card.wire)];
    let once_is_enough = card.leg != Leg::Leaving || known == COMPARED || known == typed;
    let wanted = if once_is_enough || book.typed == typed { Step::Margin } else { Step::Read };
    assert_eq!(came.step, wanted, "reading {typed} on {card:?}\n{book:?}");
}

fn turned(
    mut book: Book,
    card: &Facts,
    (command, values, ms): (&Command, &Values, i64),
    came: &Facts,
) -> Book {
    use Answer as A;
    use Step as S;
    match (card.step, command, tapped(command)) {
        (S::Destination, Command::TransportGoing, _) => book.going = came.step == S::Pads,
        (S::Pads, _, Some(A::Yes)) => book.pads = true,
        (S::Carry, _, Some(A::AllTrue)) => book.carry = true,
        (S::Read, Command::TransportTypedDials, _) if came.step == S::Read => {
            book.typed = typed_in(command, values);
        }
        (S::Margin, _, Some(A::AllTrue)) => {
            book.known[usize::from(card.wire)] = book.taken[usize::from(card.wire)];
            book.read_by_team |= 1 << card.wire;
        }
        (S::Change, _, Some(A::OtherTeam)) => (book.team, book.read_by_team) = (true, 0),
        (S::Initials, Command::TransportSigned, _) => book.team = false,
        (S::Read, Command::TransportTypedDials, _) => {
            book.taken[usize::from(card.wire)] = typed_in(command, values);
            let bit = 1 << card.wire;
            book.read |= bit;
            if book.names {
                book.read_here |= bit;
            }
        }
        (S::LookLeave, _, Some(A::Yes)) => book.left = true,
        (S::Change, _, Some(A::IntoVehicle)) => book.vehicle = true,
        (S::Change, _, Some(A::OutOfVehicle)) => book.vehicle = false,
        (S::SayNames, _, Some(A::Yes)) => (book.names, book.read_here) = (true, 0),
        (S::LookArrived, _, Some(A::Yes)) => book.seen_here = true,
        _ => {}
    }
    match (command, card.step, tapped(command)) {
        (Command::Woke { .. }, ..) => book.not_looked = true,
        (_, S::AwayLook, Some(A::Yes)) => book.not_looked = false,
        // Trouble is looked at the patient.
        (_, _, Some(A::BeatsAgain | A::EverySpikeMadeABeat)) => book.not_looked = false,
        _ => {}
    }
    if ms == LONG_MS && !book.left {
        book.read = 0;
    }
    if !matches!(came.step, S::Read | S::Wrong | S::AwayLook) {
        book.typed = 0;
    }
    // After trouble all of them are read again.
    if matches!(tapped(command), Some(A::BeatsAgain | A::EverySpikeMadeABeat)) {
        book.read_by_team = 0;
    }
    book.team &= came.leg == Leg::OnTheWay;
    // Taken back: what was said with it, too.
    if tapped(command) == Some(A::Slip) {
        book.team = came.hands && came.leg == Leg::OnTheWay;
        book.read_by_team = (1 << (came.wire + u8::from(came.step == S::Initials))) - 1;
        book.vehicle = came.in_vehicle;
        book.left &= came.leg != Leg::Leaving;
        book.names &= came.leg == Leg::Arriving && came.step != S::SayNames;
    } else if came.step == S::SayNames && card.leg != Leg::Arriving {
        (book.names, book.vehicle, book.read_here) = (false, false, 0);
    }
    if !book.team {
        book.read_by_team = 0;
    }
    if matches!(came.step, S::NoBeats | S::Maximum) {
        book.maximum = true;
    } else if came.step == S::Read {
        book.maximum = false;
    }
    book
}

fn judge(card: &Facts, book: Book, command: &Command, came: &Facts, after: Book, wires: u8) {
    let what = format!("{command:?} on {:?} opens {:?}\n{card:?}\n{book:?}", card.step, came.step);
    let all = (1_u8 << wires) - 1;
    if card.step == Step::Destination && matches!(command, Command::TransportGoing) {
        assert!(matches!(came.step, Step::Pads | Step::MriStop), "MRI stops, pads come first: {what}");
    }
    if came.step == Step::Carry {
        assert!(after.pads, "pads before what goes along: {what}");
    }
    if came.step == Step::OnTheWay && card.step == Step::LookLeave {
        // Read for this change of hands, and not before a long break.
        assert!(after.going && after.pads && after.carry && after.read == all, "not ready to leave: {what}");
    }
    if card.step == Step::Change {
        changed(tapped(command), came, &what);
    }
    if came.step == Step::OnTheWay {
        assert!(!after.team, "another team has not taken over yet: {what}");
    }
    if card.step == Step::Initials && *command == Command::TransportSigned && book.team {
        assert_eq!(book.read_by_team, all, "every wire is read before they sign: {what}");
    }
    if after.not_looked {
        let is_first =
            matches!(came.step, Step::AwayLook | Step::Wrong | Step::Maximum) || trouble(came.step);
        assert!(is_first, "after a break the patient comes first: {what}");
    }
    assert_eq!(came.in_vehicle, after.vehicle, "{what}");
    if tapped(command) == Some(Answer::NoBeats) && !trouble(card.step) {
        let wanted = if card.step == Step::Maximum { Step::StandbyNow } else { Step::NoBeats };
        assert_eq!(came.step, wanted, "the first safe act: {what}");
    }
    if matches!(command, Command::Woke { .. }) {
        assert_eq!(came.step, Step::AwayLook, "the patient first: {what}");
    }
}

/// Each answer to what has changed has its own act.
fn changed(answer: Option<Answer>, came: &Facts, what: &str) {
    use Answer as A;
    match answer {
        Some(A::AnotherBed | A::IntoVehicle | A::OutOfVehicle) => {
            assert_eq!(came.step, Step::Unchanged, "capture and pulse are looked at: {what}");
        }
        Some(A::OtherTeam) => {
            let wanted = (Step::Read, 0, true);
            assert_eq!((came.step, came.wire, came.hands), wanted, "their dials are read: {what}");
        }
        Some(A::Back | A::Slip) => {}
        _ => assert_ne!(came.step, Step::OnTheWay, "nothing else leads past it: {what}"),
    }
}

fn trouble(step: Step) -> bool {
    matches!(step, Step::NoBeats | Step::StandbyNow | Step::Emergency | Step::Arrest)
}

/// On arrival with everything done, or before anybody left.
fn ended(card: &Facts, book: Book, wires: u8, command: &Command, state: &State) {
    let what = format!("{command:?} on {card:?}\n{book:?}");
    let all = (1_u8 << wires) - 1;
    if card.leg == Leg::Leaving {
        assert!(!book.left, "left: {what}");
        return;
    }
    assert!(book.names && book.read_here == all, "names said, every wire read on arrival: {what}");
    let due = state.wire(BED, WIRE).unwrap().due_now;
    let wanted = match (card.no_beats, card.shock) {
        (true, _) => DueNow::NoBeats,
        (false, true) => DueNow::Shock,
        (false, false) => DueNow::Moved,
    };
    assert_eq!(due, Some(wanted), "{what}");
}

#[test]
fn pads_first_dials_at_each_change_of_hands_no_threshold_on_the_way_and_always_an_end() {
    let wards = [
        ("one wire", ward(1), false, true),
        ("one wire", ward(1), true, false),
        ("one wire, handed over and compared", compared_ward(), false, true),
        ("two wires", ward(2), false, false),
    ];
    for (name, ward, slips, troubles) in wards {
        let bound = Bound { slips, troubles };
        let walk = Walk::over(&ward, bound);
        println!("{name}, {bound:?}: {} states, {} answers taken", walk.ways.len(), walk.answers);
        assert_eq!(walk.without_end(), 0, "states from which a transport cannot end");
        let cards = Step::ALL.iter().filter(|step| **step != Step::Ended);
        let unmet: Vec<_> = cards.filter(|step| !walk.steps.contains(step)).collect();
        assert!(unmet.is_empty() || !troubles, "no state of {unmet:?}");
    }
}
