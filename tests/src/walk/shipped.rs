//! The walk calls `check::answer`. Here whole checks go the way of the app, by taps through `decide` and
//! `apply`: each event must hold what `check::answer` says, and a tap on an older card must change nothing.

use std::collections::BTreeMap;

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dials, Facts, NONE};
use domain::check::guard::Guards;
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{self, kept_before};
use domain::command::Command;
use domain::contract::Sent;
use domain::event::What;
use domain::moment::Moment;
use domain::profile::Profile;
use domain::rules::Rules;
use domain::state::bed::OpenCheck;
use domain::{State, apply_to, decide, due};

use super::random::{Chance, choose};

const BED: u32 = 1;
const WIRE: u32 = 1;
const LONGEST: usize = 120;

struct Tablet<'p> {
    profile: &'p Profile,
    rules: Rules,
    state: State,
    now: Moment,
}

impl<'p> Tablet<'p> {
    fn new(profile: &'p Profile, chamber: &str) -> Tablet<'p> {
        let state = State { generators: vec![profile.clone()], welcomed: true, ..State::default() };
        let now = Moment {
            wall_ms: 1_795_552_800_000,
            offset_min: 60,
            boot_ms: 1_000_000,
            boot: 1,
            fresh: [3; 16],
        };
        let mut tablet = Tablet { profile, rules: state.rules.clone(), state, now };
        let wire = [
            ("chamber", chamber),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", &profile.id),
        ];
        tablet.take(Command::AddBed, &[("label", "Bed of the walk")]);
        tablet.take(Command::AddWire { bed: BED }, &wire);
        tablet.take(Command::Begin { bed: BED, wire: WIRE }, &[]);
        tablet
    }

    fn open(&self) -> Option<&OpenCheck> {
        self.state.wire(BED, WIRE)?.check.as_ref()
    }

    /// The first check on a wire knows of no earlier one.
    fn setup(&self) -> Setup<'_> {
        Setup {
            profile: self.profile,
            rules: &self.rules,
            chamber: self.state.wire(BED, WIRE).unwrap().chamber,
            history: false,
            needs_acceptance: true,
            last_capture: NONE,
            last_seen: NONE,
            guards: Guards::ALL_ON,
        }
    }

    /// Sends a tap, first as if it had been made on the card before.
    fn take(&mut self, command: Command, values: &[(&str, &str)]) {
        let values: BTreeMap<String, String> =
            values.iter().map(|(field, typed)| ((*field).to_owned(), (*typed).to_owned())).collect();
        let stale = Sent {
            card: self.state.card.wrapping_sub(1),
            command: command.clone(),
            values: values.clone(),
            stood_ms: None,
        };
        let urgent = command == Command::Answer(Answer::NoBeats);
        assert!(urgent || decide(&self.state, &stale, self.now).is_err(), "N9: {command:?} on an older card");
        self.now = later(self.now, 400);
        let sent = Sent { card: self.state.card, ..stale };
        self.follow(&sent);
    }

    /// Refused or not, what `decide` says is what `check::answer` says.
    fn follow(&mut self, sent: &Sent) {
        let Ok(events) = decide(&self.state, sent, self.now) else { return };
        for event in events {
            if let What::Answered(answered) = &event.what {
                let (facts, before) = self.by_the_check(answered.answer);
                assert_eq!((answered.facts, answered.before), (facts, before), "{:?}", answered.answer);
            }
            apply_to(&mut self.state, &event);
            if let (What::Answered(answered), Some(open)) = (&event.what, self.open()) {
                assert_eq!(open.facts, answered.facts);
            }
        }
    }

    fn by_the_check(&self, answer: Answer) -> (Facts, Option<Facts>) {
        let open = self.open().unwrap();
        let facts = check::answer(&self.setup(), open.before.as_ref(), &open.facts, answer).unwrap();
        (facts, kept_before(open.before, &open.facts, answer, &facts))
    }

    /// Time goes on to the next instant at which it acts.
    fn wait(&mut self) {
        let Some(at) = due(&self.state) else { return };
        self.now = later(self.now, (at - self.now.boot_ms).max(0));
        let sent = Sent { card: 0, command: Command::TimePassed, values: BTreeMap::new(), stood_ms: None };
        self.follow(&sent);
    }
}

fn later(now: Moment, by_ms: i64) -> Moment {
    Moment { wall_ms: now.wall_ms + by_ms, boot_ms: now.boot_ms + by_ms, ..now }
}

/// The tap or the typing that gives this answer; time and sleep are not a person's.
fn give(tablet: &mut Tablet<'_>, step: Step, answer: Answer) {
    let profile = tablet.profile;
    const NAMES: [(&str, &str); 2] = [("name", "R. Example"), ("reason", "another dial in use")];
    let named = matches!(step, Step::Order | Step::Accept | Step::AsynchronousOrdered | Step::MarginAsk);
    match answer {
        Answer::Time(_) | Answer::Woke(_) => tablet.wait(),
        Answer::Read(Dials { output, rate, mv }) => {
            let number = if mv == ASYNCHRONOUS { "asynchronous" } else { profile.mv_text(mv) };
            let typed =
                [("output", profile.output_text(output)), ("rate", profile.rate_text(rate)), ("mv", number)];
            tablet.take(Command::TypedDials, &typed);
            // With nothing to set it beside, the first reading is taken once it was typed twice.
            if step == Step::ReadFound && tablet.open().is_some_and(|open| open.facts.step == step) {
                tablet.take(Command::TypedDials, &typed);
            }
        }
        Answer::OwnRate { slowest, fastest } => {
            let (slowest, fastest) = (slowest.to_string(), fastest.to_string());
            tablet.take(Command::TypedOwnRate, &[("slowest", &slowest), ("fastest", &fastest)]);
        }
        Answer::StandsAt(place) => {
            let place = place.min(profile.output_last());
            tablet.take(Command::TypedOneDial, &[("where", profile.output_text(place))]);
        }
        Answer::ReasonAndName => tablet.take(Command::Named(answer), &NAMES),
        Answer::Yes if named => tablet.take(Command::Named(answer), &NAMES),
        _ => tablet.take(Command::Answer(answer), &[]),
    }
}

/// Until the dials are read every line is true: else most checks would end there.
fn ready(step: Step) -> Option<Answer> {
    match step {
        Step::Order | Step::Accept | Step::PulseTrace | Step::Standby | Step::RightWire => Some(Answer::Yes),
        Step::ListFirst | Step::ListSecond => Some(Answer::AllTrue),
        _ => None,
    }
}

/// The answers one check took.
fn one_check(profile: &Profile, chamber: &str, number: u64) -> usize {
    let mut chance = Chance(number);
    let mut tablet = Tablet::new(profile, chamber);
    for taken in 0..LONGEST {
        let Some(facts) = tablet.open().map(|open| open.facts) else { return taken };
        let answer = match ready(facts.step) {
            Some(yes) => yes,
            None => choose(&mut chance, &tablet.setup(), &facts, 12),
        };
        give(&mut tablet, facts.step, answer);
    }
    LONGEST
}

#[test]
fn taps_through_decide_and_apply_do_what_the_check_says() {
    let mut answers = 0;
    for profile in domain::profile::shipped().unwrap() {
        for chamber in ["ventricle", "atrium"] {
            answers += (0..150).map(|number| one_check(&profile, chamber, number)).sum::<usize>();
        }
    }
    println!("{answers} answers");
    assert!(answers > 20_000);
}
