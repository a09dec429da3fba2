//! A story of educators and sign-off, every card and refusal of it. All names are inventions.

use std::collections::BTreeMap;

use domain::command::Command;
use domain::contract::View;
use domain::library::LetIn;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::teaching::ask::{Ask, NotWritten};
use domain::teaching::draft::Subject;
use domain::teaching::item::Item;
use domain::teaching::paper::{Finding, Work};
use domain::teaching::pin::PinShape;
use domain::teaching::place::Place;
use domain::teaching::{PinDone, Read, ReadFile};

use crate::wander::Walk;

const LEARNER: (&str, &str) = ("learner", "L. E. (invented)");
const GOOD: (&str, &str) = ("pin", "good");

struct Story<'s> {
    walk: Walk,
    show: &'s mut dyn FnMut(&View<Say>),
}

impl Story<'_> {
    fn go(&mut self, place: Place) {
        self.walk.go(Screen::Teaching(place));
        (self.show)(&self.walk.view());
    }

    fn ask(&mut self, ask: Ask, fields: &[(&str, &str)]) {
        let values: BTreeMap<_, _> = fields.iter().map(|(f, v)| ((*f).to_owned(), (*v).to_owned())).collect();
        self.walk.tap(Command::Teach(ask), values);
        (self.show)(&self.walk.view());
    }

    fn done(&mut self, done: PinDone) {
        self.ask(Ask::PinDone(done), &[]);
    }

    fn signed(&mut self) {
        self.done(PinDone::Opened { token: Some("00".into()), locked: Some("00".into()) });
    }

    fn enrol(&mut self, name: &str, key: &str) {
        self.go(Place::Enrol);
        let pins = [("new-pin", "good"), ("new-pin-again", "good"), ("new-key", key), ("name", name)];
        self.ask(Ask::Enrol, &pins);
        self.signed();
    }
}

pub fn every_card_of_sign_off(show: &mut dyn FnMut(&View<Say>)) {
    let mut story = Story { walk: checked(), show };
    refused_pins(&mut story);
    educators(&mut story);
    form(&mut story);
    entries(&mut story);
    practice(&mut story);
    files(&mut story);
}

/// A tablet on which some check has ended.
fn checked() -> Walk {
    let mut walk = Walk::steady(3);
    let ended =
        |walk: &Walk| walk.state.beds.iter().flat_map(|bed| &bed.wires).any(|wire| !wire.records.is_empty());
    for _ in 0..20_000 {
        if ended(&walk) {
            return walk;
        }
        walk.go_on();
    }
    panic!("no check ended");
}

fn refused_pins(story: &mut Story<'_>) {
    for place in [Place::Roster { from: 0 }, Place::Educators, Place::ToSign, Place::Enrol] {
        story.go(place);
    }
    for shape in PinShape::ALL {
        story.ask(
            Ask::Enrol,
            &[("name", "E. Example"), ("new-pin", shape.id()), ("new-pin-again", shape.id())],
        );
    }
    story.enrol("E. Example", "ab");
    story.enrol("E. Example", "ab");
    story.done(PinDone::Failed);
}

fn educators(story: &mut Story<'_>) {
    story.enrol("F. Example", "cd");
    story.enrol("G. Example", "ef");
    story.walk.state.rules_let_in = Some(LetIn {
        by: "Dr Example".into(),
        role: "charge nurse".into(),
        hash: "ab".repeat(32),
        at: now(story),
    });
    story.go(Place::ApproverVouch { at: 2 });
    story.ask(Ask::ApproverVouch { at: 2 }, &[("name", "somebody else")]);
    story.ask(Ask::ApproverVouch { at: 2 }, &[("name", "Dr Example")]);
    story.go(Place::Vouch { at: 0 });
    story.ask(Ask::Vouch { at: 0 }, &[("educator", "1"), GOOD]);
    story.ask(Ask::Vouch { at: 0 }, &[("educator", "2"), GOOD]);
    story.done(PinDone::Failed);
    story.ask(Ask::Vouch { at: 0 }, &[("educator", "2"), GOOD]);
    story.signed();
    story.go(Place::Renew { at: 1 });
    let pins = [("new-pin", "good"), ("new-pin-again", "good"), ("new-key", "98"), ("educator", "0"), GOOD];
    story.ask(Ask::Renew { at: 1 }, &pins);
    story.signed();
    story.go(Place::Educator { at: 1 });
    story.go(Place::Educators);
}

fn now(story: &Story<'_>) -> domain::moment::Moment {
    story.walk.state.last.unwrap()
}

fn subject(walk: &Walk) -> Subject {
    let wires = walk.state.beds.iter().flat_map(|bed| bed.wires.iter().map(move |wire| (bed.id, wire)));
    let found = wires.filter_map(|(bed, wire)| Some((bed, wire.id, wire.records.first()?.id))).next();
    let (bed, wire, check) = found.unwrap();
    Subject::Check { bed, wire, check }
}

fn filled(story: &mut Story<'_>) {
    story.go(Place::ToSign);
    story.ask(Ask::Begin(subject(&story.walk)), &[]);
    story.ask(Ask::NameLearner, &[]);
    story.ask(Ask::NameLearner, &[LEARNER]);
}

fn form(story: &mut Story<'_>) {
    filled(story);
    story.go(Place::SignPin);
    story.ask(Ask::Sign, &[("educator", "0"), GOOD]);
    story.go(Place::SignItem { item: Item::Parts });
    for item in Item::ALL {
        story.ask(Ask::Mark { item }, &[]);
        story.ask(Ask::Mark { item }, &[("how", "explained")]);
        let met = if item == Item::Battery { "not-met" } else { "met" };
        let how = if item == Item::Wires { "demonstrated" } else { "observed" };
        match item {
            Item::Modes => story.ask(Ask::Leave { item }, &[]),
            _ => story.ask(Ask::Mark { item }, &[("how", how), ("met", met), ("reason", "A remark")]),
        }
    }
    story.go(Place::ToSign);
    story.ask(Ask::Begin(subject(&story.walk)), &[]);
    story.go(Place::SignPin);
    for shape in PinShape::ALL {
        story.ask(Ask::Sign, &[("educator", "0"), ("pin", shape.id())]);
        story.done(PinDone::Wrong);
    }
    for _ in 0..9 {
        story.ask(Ask::Sign, &[("educator", "0"), GOOD]);
        story.done(PinDone::Wrong);
        story.walk.state.teaching.educators[0].tries.since = None;
    }
    story.ask(Ask::Sign, &[("educator", "0"), GOOD]);
    story.walk.tap(Command::Started { alive: None }, BTreeMap::new());
    (story.show)(&story.walk.view());
    story.walk.state.teaching.educators[0].tries.since = None;
    story.go(Place::SignPin);
    story.ask(Ask::Sign, &[("educator", "0"), GOOD]);
    story.signed();
}

fn entries(story: &mut Story<'_>) {
    let at = u32::try_from(story.walk.state.teaching.entries.len()).unwrap() - 1;
    for file in [Err(NotWritten::DiskFull), Err(NotWritten::Device("no room".into())), Ok("/a".to_owned())] {
        story.ask(Ask::FileWritten { entry: at, file }, &[]);
    }
    for months in [0, 12, 36] {
        story.walk.state.rules.sign_off_months = months;
        for place in [Place::Roster { from: 0 }, Place::Learner { entry: at }, Place::Entry { at }] {
            story.go(place);
        }
        story.walk.go(Screen::Rules);
        (story.show)(&story.walk.view());
    }
    for days in [350, 400] {
        let kept = &mut story.walk.state.teaching.entries[at as usize];
        kept.paper.at_ms -= days * 86_400_000;
        story.walk.state.rules.sign_off_months = 12;
        story.go(Place::Roster { from: 0 });
        story.go(Place::Learner { entry: at });
        story.walk.state.teaching.entries[at as usize].paper.at_ms += days * 86_400_000;
    }
    story.go(Place::Revoke { at });
    story.ask(Ask::Revoke { at }, &[("reason", "The wrong person"), ("educator", "0"), GOOD]);
    story.signed();
    story.go(Place::Entry { at });
    story.go(Place::Entry { at: 0 });
}

/// As a run would fill the form.
fn practice(story: &mut Story<'_>) {
    filled(story);
    let draft = story.walk.state.teaching.draft.as_mut().unwrap();
    draft.work = Work::Practice {
        run: Default::default(),
        exercise: "quiet".into(),
        exercise_hash: "ab".repeat(32),
        seed: 7,
        engine: "1".into(),
        record: "ab".repeat(32),
        judgement: "ab".repeat(32),
        passed: false,
        ended_ms: 1_795_561_200_000,
    };
    let found = [Finding::Done, Finding::Late, Finding::Missed, Finding::Unsafe];
    draft.judged = Item::ALL.into_iter().zip(found).collect();
    for item in Item::ALL.into_iter().take(found.len()) {
        story.go(Place::SignItem { item });
        story.ask(Ask::Mark { item }, &[("how", "observed"), ("met", "met")]);
        story.ask(Ask::Mark { item }, &[("how", "observed"), ("met", "met"), ("reason", "Seen")]);
    }
    story.go(Place::SignItems);
    story.go(Place::SignPin);
    story.ask(Ask::Sign, &[("educator", "2"), GOOD]);
    story.signed();
    let at = u32::try_from(story.walk.state.teaching.entries.len()).unwrap() - 1;
    story.go(Place::Learner { entry: at });
    story.go(Place::Roster { from: 0 });
    let own = [("learner", "E. Example")];
    story.go(Place::ToSign);
    story.ask(Ask::Begin(subject(&story.walk)), &[]);
    story.ask(Ask::NameLearner, &own);
    story.ask(Ask::Mark { item: Item::Parts }, &[("how", "observed"), ("met", "met")]);
    story.go(Place::SignPin);
    story.ask(Ask::Sign, &[("educator", "0"), GOOD]);
    let by = &mut story.walk.state.teaching.educators[2];
    by.enrolled.wall_ms += 86_400_000;
    story.ask(Ask::Sign, &[("educator", "2"), GOOD]);
    story.walk.state.teaching.educators[2].enrolled.wall_ms -= 86_400_000;
    story.ask(Ask::PutAside, &[]);
}

fn files(story: &mut Story<'_>) {
    for file in [ReadFile::TooLong, ReadFile::NotOurs, ReadFile::Altered, ReadFile::Newer] {
        story.go(Place::NewFile);
        story.ask(Ask::FileRead(file), &[]);
    }
    let kept = story.walk.state.teaching.entries.last().unwrap().clone();
    let mut paper = kept.paper.clone();
    for (name, key, ahead_ms) in
        [("E. Example", "77", 0), ("X. Example", "77", 86_400_000), ("G. Example", "ef", -1)]
    {
        paper.educator = name.into();
        paper.at_ms = if ahead_ms < 0 { 0 } else { kept.paper.at_ms + ahead_ms };
        let read = Read { paper: paper.clone(), key: key.into(), token: "01".into(), hash: "cd".repeat(32) };
        story.go(Place::NewFile);
        story.ask(Ask::FileRead(ReadFile::Sound(Box::new(read))), &[]);
        story.go(Place::FileVouch);
    }
    story.go(Place::FileRead);
    story.ask(Ask::KeepRead, &[]);
    let read = Read { paper, key: "ef".into(), token: "01".into(), hash: "cd".repeat(32) };
    story.go(Place::NewFile);
    story.ask(Ask::FileRead(ReadFile::Sound(Box::new(read))), &[]);
    story.ask(Ask::KeepRead, &[]);
}
