//! The walk calls `check::answer`. Here whole checks go the way of the app, by taps through `decide` and
//! `apply`: what `check::answer` takes and refuses, they take and refuse, each event holds what it says, and a
//! tap on an older card changes nothing.

use std::collections::BTreeMap;

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, NONE};
use domain::check::guard::Guards;
use domain::check::setup::Setup;
use domain::check::slip::doubtful_dial;
use domain::check::step::Step;
use domain::check::{self, kept_before};
use domain::command::Command;
use domain::contract::Sent;
use domain::event::What;
use domain::moment::Moment;
use domain::profile::{Position, Profile};
use domain::record::Record;
use domain::rules::Rules;
use domain::state::bed::OpenCheck;
use domain::{State, apply_to, decide, due};

use super::random::{Chance, choose};
use super::units;

const BED: u32 = 1;
const WIRE: u32 = 1;
const LONGEST: usize = 120;
const START: Moment =
    Moment { wall_ms: 1_795_552_800_000, offset_min: 60, boot_ms: 1_000_000, boot: 1, fresh: [3; 16] };

/// A tablet's surroundings: the unit's rules, and what an earlier check on the wire left.
struct World<'p> {
    profile: &'p Profile,
    chamber: &'static str,
    rules: Rules,
    /// Capture threshold, and the number that was left, where it saw every own beat.
    earlier: Option<(Position, Position)>,
}

/// What became of the answers of one check, or of many.
#[derive(Default)]
struct Tally {
    taken: usize,
    refused: usize,
    asked_again: usize,
    by_time: usize,
}

impl Tally {
    fn add(&mut self, other: &Tally) {
        self.taken += other.taken;
        self.refused += other.refused;
        self.asked_again += other.asked_again;
        self.by_time += other.by_time;
    }
}

struct Tablet<'p> {
    world: &'p World<'p>,
    state: State,
    now: Moment,
    tally: Tally,
}

impl<'p> Tablet<'p> {
    fn new(world: &'p World<'p>) -> Tablet<'p> {
        let generators = vec![world.profile.clone()];
        let state = State { generators, rules: world.rules.clone(), welcomed: true, ..State::default() };
        let mut tablet = Tablet { world, state, now: START, tally: Tally::default() };
        let wire = [
            ("chamber", world.chamber),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", &world.profile.id),
        ];
        tablet.ask(Command::AddBed, &[("label", "Bed of the walk")]);
        tablet.ask(Command::AddWire { bed: BED }, &wire);
        tablet.state.beds[0].wires[0].records =
            world.earlier.map_or(Vec::new(), |left| earlier_records(world, left));
        tablet.ask(Command::Begin { bed: BED, wire: WIRE }, &[]);
        tablet
    }

    fn open(&self) -> Option<&OpenCheck> {
        self.state.wire(BED, WIRE)?.check.as_ref()
    }

    fn setup(&self) -> Setup<'_> {
        let (last_capture, last_seen) = self.world.earlier.unwrap_or((NONE, NONE));
        Setup {
            profile: self.world.profile,
            rules: &self.world.rules,
            chamber: self.state.wire(BED, WIRE).unwrap().chamber,
            history: self.world.earlier.is_some(),
            needs_acceptance: self.world.rules.approval.is_none(),
            last_capture,
            last_seen,
            guards: Guards::ALL_ON,
        }
    }

    /// What no card of a check asks for; never refused here.
    fn ask(&mut self, command: Command, values: &[(&str, &str)]) {
        let sent = self.tapped(command, values);
        for event in decide(&self.state, &sent, self.now).unwrap() {
            apply_to(&mut self.state, &event);
        }
    }

    /// Sends an answer, first as if it had been given on the card before.
    fn take(&mut self, answer: Answer, command: Command, values: &[(&str, &str)]) {
        let sent = self.tapped(command, values);
        let stale = Sent { card: self.state.card.wrapping_sub(1), ..sent.clone() };
        let urgent = answer == Answer::NoBeats;
        assert!(urgent || decide(&self.state, &stale, self.now).is_err(), "N9: {answer:?} on an older card");
        self.follow(&sent, Some(answer));
    }

    fn tapped(&mut self, command: Command, values: &[(&str, &str)]) -> Sent {
        self.now = later(self.now, 400);
        let values = values.iter().map(|(field, typed)| ((*field).to_owned(), (*typed).to_owned())).collect();
        Sent { card: self.state.card, command, values, stood_ms: None }
    }

    /// Refused or not, what `decide` says is what `check::answer` says. `None`: time.
    fn follow(&mut self, sent: &Sent, given: Option<Answer>) {
        let events = match (decide(&self.state, sent, self.now), given) {
            (Ok(events), _) => events,
            (Err(refusal), None) => panic!("time was refused: {refusal:?}"),
            (Err(refusal), Some(answer)) => {
                let taken = self.by_the_check(answer);
                assert!(taken.is_err(), "{answer:?}: {refusal:?}, and the check takes it: {taken:?}");
                self.tally.refused += 1;
                return;
            }
        };
        if let Some(answer) = given {
            self.answered_once(answer, events.iter().map(|event| &event.what));
        }
        for event in events {
            if let What::Answered(answered) = &event.what {
                let said = self.by_the_check(answered.answer).unwrap();
                assert_eq!((answered.facts, answered.before), said, "{:?}", answered.answer);
                self.tally.by_time += usize::from(given.is_none());
            }
            apply_to(&mut self.state, &event);
            if let (What::Answered(answered), Some(open)) = (&event.what, self.open()) {
                assert_eq!(open.facts, answered.facts);
            }
        }
    }

    /// The answer as it was given, once; only a first reading may be asked for once more instead.
    fn answered_once<'e>(&mut self, given: Answer, whats: impl Iterator<Item = &'e What>) {
        let (mut answered, mut again) = (Vec::new(), Vec::new());
        for what in whats {
            if let What::Answered(one) = what {
                answered.push(one.answer);
            } else if let What::AskedAgain { dials, .. } = what {
                again.push(Answer::Read(*dials));
            }
        }
        if answered.is_empty() && self.open().is_some_and(|open| open.facts.step == Step::ReadFound) {
            assert_eq!(again, [given]);
            self.tally.asked_again += 1;
        } else {
            assert_eq!((answered.as_slice(), again.len()), ([given].as_slice(), 0));
            self.tally.taken += 1;
        }
    }

    fn by_the_check(&self, answer: Answer) -> Result<(Facts, Option<Facts>), check::Refused> {
        let open = self.open().unwrap();
        let facts = check::answer(&self.setup(), open.before.as_ref(), &open.facts, answer)?;
        Ok((facts, kept_before(open.before, &open.facts, answer, &facts)))
    }

    /// Time goes on to the next instant at which it acts.
    fn wait(&mut self) {
        let Some(at) = due(&self.state) else { return };
        self.now = later(self.now, (at - self.now.boot_ms).max(0));
        let sent = Sent { card: 0, command: Command::TimePassed, values: BTreeMap::new(), stood_ms: None };
        self.follow(&sent, None);
    }
}

/// Oldest first: the one that is remembered, one that found nothing, one left where it was not seen to see, and one on
/// another generator. Of the first a higher number saw too: that is the threshold, and is not gone to.
fn earlier_records(world: &World<'_>, (capture, left): (Position, Position)) -> Vec<Record> {
    let ended = ended_check(world);
    let last = (world.profile.output_last(), world.profile.mv_last());
    let found = |capture: Option<Position>, left, saw| Record {
        capture_text: capture.map(|at| world.profile.output_text(at).to_owned()),
        stays_at: Dials { mv: left, ..ended.stays_at },
        facts: Facts { saw, ..ended.facts },
        ..ended.clone()
    };
    let elsewhere = Record { generator: "another".to_owned(), ..found(Some(last.0), last.1, last.1) };
    vec![found(Some(capture), left, last.1), found(None, left, NONE), found(None, last.1, 0), elsewhere]
}

/// The record of some check that came to its end.
fn ended_check(world: &World<'_>) -> Record {
    let first = World { earlier: None, rules: world.rules.clone(), ..*world };
    let mut ended = (0..1_000).filter_map(|number| {
        let tablet = carried_on(&first, number);
        tablet.state.wire(BED, WIRE)?.records.first().cloned()
    });
    ended.next().unwrap()
}

fn later(now: Moment, by_ms: i64) -> Moment {
    Moment { wall_ms: now.wall_ms + by_ms, boot_ms: now.boot_ms + by_ms, ..now }
}

/// The tap or the typing that gives this answer; time and sleep are not a person's.
fn give(tablet: &mut Tablet<'_>, step: Step, answer: Answer) {
    let profile = tablet.world.profile;
    const NAMES: [(&str, &str); 2] = [("name", "R. Example"), ("reason", "another dial in use")];
    let named = matches!(step, Step::Order | Step::Accept | Step::AsynchronousOrdered | Step::MarginAsk);
    match answer {
        Answer::Time(_) | Answer::Woke(_) => tablet.wait(),
        Answer::Read(Dials { output, rate, mv }) => {
            let typed = [
                ("output", typed(profile, Dial::Output, output)),
                ("rate", typed(profile, Dial::Rate, rate)),
                ("mv", typed(profile, Dial::Mv, mv)),
            ];
            tablet.take(answer, Command::TypedDials, &typed);
            // Doubted, the first reading is taken once it was typed twice.
            if step == Step::ReadFound && tablet.open().is_some_and(|open| open.facts.step == step) {
                tablet.take(answer, Command::TypedDials, &typed);
            }
        }
        Answer::OwnRate { slowest, fastest } => {
            let (slowest, fastest) = (slowest.to_string(), fastest.to_string());
            let typed = [("slowest", slowest.as_str()), ("fastest", &fastest)];
            tablet.take(answer, Command::TypedOwnRate, &typed);
        }
        Answer::StandsAt(place) => {
            let open = tablet.open().unwrap();
            let dial = open.before.as_ref().and_then(|earlier| doubtful_dial(earlier, &open.facts)).unwrap();
            tablet.take(answer, Command::TypedOneDial, &[("where", typed(profile, dial, place))]);
        }
        Answer::ReasonAndName => tablet.take(answer, Command::Named(answer), &NAMES),
        Answer::Yes if named => tablet.take(answer, Command::Named(answer), &NAMES),
        _ => tablet.take(answer, Command::Answer(answer), &[]),
    }
}

/// As the dial prints it; beyond its end something that it does not print.
fn typed(profile: &Profile, dial: Dial, place: Position) -> &str {
    match dial {
        Dial::Output if place <= profile.output_last() => profile.output_text(place),
        Dial::Rate if place <= profile.rate_last() => profile.rate_text(place),
        Dial::Mv if place == ASYNCHRONOUS => "asynchronous",
        Dial::Mv if place <= profile.mv_last() => profile.mv_text(place),
        Dial::Output | Dial::Rate | Dial::Mv => "no position",
    }
}

/// Until the dials are read every line is true: else most checks would end there.
fn ready(step: Step) -> Option<Answer> {
    match step {
        Step::SamePatient | Step::Order | Step::Accept => Some(Answer::Yes),
        Step::PulseTrace | Step::Standby | Step::RightWire => Some(Answer::Yes),
        Step::ListFirst | Step::ListSecond => Some(Answer::AllTrue),
        _ => None,
    }
}

/// One check, to its end or to the bound.
fn carried_on<'p>(world: &'p World<'p>, number: u64) -> Tablet<'p> {
    let mut chance = Chance(number);
    let mut tablet = Tablet::new(world);
    for _ in 0..LONGEST {
        let Some(facts) = tablet.open().map(|open| open.facts) else { break };
        let answer = match ready(facts.step) {
            Some(yes) => yes,
            None => choose(&mut chance, &tablet.setup(), &facts, 12),
        };
        give(&mut tablet, facts.step, answer);
    }
    tablet
}

/// The rules as a unit's own.
fn approved(rules: &Rules) -> Rules {
    let mut file = serde_json::from_str::<serde_json::Value>(&rules.to_json()).unwrap();
    file["example"] = false.into();
    file["approval"] = serde_json::json!({
        "by": "Dr Example", "document": "Invented 1", "on": "2026-01-01", "review": "2027-12-31",
    });
    Rules::from_json(&file.to_string()).unwrap()
}

/// The example and every named rule, as shipped and as approved, in both chambers, after nothing and after
/// checks in which the lowest OUTPUT captured, or one in mid-dial.
fn worlds(profile: &Profile) -> impl Iterator<Item = World<'_>> {
    let rules: Vec<Rules> =
        units::named().into_iter().flat_map(|(_, rules)| [approved(&rules), rules]).collect();
    let earlier = [None, Some((0, 0)), Some((profile.output_last() / 2, profile.mv_last() / 2))];
    rules.into_iter().flat_map(move |rules| {
        ["ventricle", "atrium"].into_iter().flat_map(move |chamber| {
            let rules = rules.clone();
            earlier.map(|earlier| World { profile, chamber, rules: rules.clone(), earlier })
        })
    })
}

#[test]
fn taps_through_decide_and_apply_do_what_the_check_says() {
    let mut all = Tally::default();
    for profile in domain::profile::shipped().unwrap() {
        for world in worlds(&profile) {
            (0..15).for_each(|number| all.add(&carried_on(&world, number).tally));
        }
    }
    let Tally { taken, refused, asked_again, by_time } = all;
    println!("{taken} answers taken, {refused} refused, {asked_again} asked again, {by_time} by time");
    assert!(taken > 40_000 && refused > 4_000 && asked_again > 400 && by_time > 4_000);
}
