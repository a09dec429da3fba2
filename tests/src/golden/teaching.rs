//! Educators and sign-off. All names and keys are inventions; no view holds a PIN.

use domain::command::Command;
use domain::contract::View;
use domain::event::What;
use domain::library::LetIn;
use domain::record::Record;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::teaching::ask::{Ask, NotWritten};
use domain::teaching::draft::Draft;
use domain::teaching::educator::{Educator, Vouched};
use domain::teaching::item::{How, Item};
use domain::teaching::paper::{Finding, Marked, Says, SignOff, Work};
use domain::teaching::pin::Tries;
use domain::teaching::place::Place;
use domain::teaching::taught::Taught;
use domain::teaching::{Kept, Read, ReadFile, Task, Tried, Wanted, Why, paper};
use domain::{Event, State, apply};

use super::screens::{Named, named, refused, show};
use super::ward::ward;
use super::worlds::{NAME, at, on};

const DAY_MS: i64 = 86_400_000;
const LEARNER: &str = "Wilma W. Example-Mommsen (invented)";
const REASON: &str = "The strip stood still: what was shown counts (invented)";

pub fn teaching(records: &[Record]) -> Named {
    let mut all = Named::new();
    all.extend(roster(records));
    all.extend(educators(records));
    all.extend(form(records));
    all.extend(pins(records));
    all.extend(files(records));
    all
}

fn place(state: State, place: Place) -> View<Say> {
    show(state, Screen::Teaching(place))
}

fn roster(records: &[Record]) -> Named {
    let state = || signed(records);
    let mut unsaved = state();
    unsaved.teaching.not_written = Some((0, NotWritten::DiskFull));
    named([
        ("teaching-roster-empty", place(ward(records), Place::Roster { from: 0 })),
        ("teaching-roster", place(state(), Place::Roster { from: 0 })),
        ("teaching-learner", place(state(), Place::Learner { entry: 0 })),
        ("teaching-learner-practice", place(state(), Place::Learner { entry: 1 })),
        ("teaching-entry", place(state(), Place::Entry { at: 0 })),
        ("teaching-entry-practice", place(state(), Place::Entry { at: 1 })),
        ("teaching-entry-revoked", place(state(), Place::Entry { at: 2 })),
        ("teaching-entry-revokes", place(state(), Place::Entry { at: 3 })),
        ("teaching-entry-vouches", place(state(), Place::Entry { at: 4 })),
        ("teaching-entry-not-saved", place(unsaved, Place::Entry { at: 0 })),
    ])
}

fn educators(records: &[Record]) -> Named {
    let state = || signed(records);
    named([
        ("teaching-educators-none", place(ward(records), Place::Educators)),
        ("teaching-educators", place(state(), Place::Educators)),
        ("teaching-educator", place(state(), Place::Educator { at: 1 })),
        ("teaching-educator-not-vouched", place(state(), Place::Educator { at: 0 })),
        ("teaching-enrol", place(state(), Place::Enrol)),
        ("teaching-vouch", place(state(), Place::Vouch { at: 0 })),
        ("teaching-approver-vouch", place(state(), Place::ApproverVouch { at: 0 })),
        ("teaching-renew", place(state(), Place::Renew { at: 0 })),
    ])
}

fn form(records: &[Record]) -> Named {
    let half = |practice| State { teaching: half_filled(practice), ..signed(records) };
    let item = Place::SignItem { item: Item::Emergency };
    let on_item = || on(half(true), Screen::Teaching(item));
    let otherwise = [("how", "observed"), ("met", "met"), ("reason", "")];
    named([
        ("teaching-to-sign", place(signed(records), Place::ToSign)),
        ("teaching-to-sign-half", place(half(false), Place::ToSign)),
        ("teaching-sign-learner", place(half(false), Place::SignLearner)),
        ("teaching-sign-item", place(half(false), item)),
        ("teaching-sign-item-practice", place(half(true), item)),
        (
            "teaching-sign-item-no-reason",
            refused(on_item(), &Command::Teach(Ask::Mark { item: Item::Emergency }), &otherwise),
        ),
        ("teaching-sign-items", place(half(false), Place::SignItems)),
    ])
}

fn pins(records: &[Record]) -> Named {
    let half = || State { teaching: half_filled(false), ..signed(records) };
    let pin = Screen::Teaching(Place::SignPin);
    let mut wrong = half();
    wrong.teaching.tried = Some(tried(&wrong, Place::SignPin));
    wrong.teaching.educators[0].tries = Tries { count: 5, since: Some(at(0)), wait_ms: 120_000 };
    let sign = Command::Teach(Ask::Sign);
    let short = [("educator", "0"), ("pin", "short")];
    named([
        ("teaching-sign-pin", place(half(), Place::SignPin)),
        ("teaching-sign-pin-short", refused(on(half(), pin), &sign, &short)),
        ("teaching-sign-pin-wrong", place(wrong, Place::SignPin)),
        ("teaching-working", place(half(), Place::Working)),
        ("teaching-revoke", place(signed(records), Place::Revoke { at: 0 })),
    ])
}

fn tried(state: &State, back: Place) -> Tried {
    let by = &state.teaching.educators[0];
    let says = Says::Revoked { entry: "12".repeat(32), reason: REASON.to_owned() };
    let task = Task::Sign { by: 0, paper: Box::new(paper(by, says, at(0))) };
    Tried { wanted: Wanted { task, back: Screen::Teaching(back) }, why: Why::Wrong }
}

fn files(records: &[Record]) -> Named {
    let file = Screen::Teaching(Place::NewFile);
    let altered = Command::Teach(Ask::FileRead(ReadFile::Altered));
    let read = |key: &str| {
        let mut state = signed(records);
        let kept = state.teaching.entries[1].clone();
        let (token, hash) = (kept.token, "98".repeat(32));
        state.teaching.read = Some(Read { paper: kept.paper, key: key.to_owned(), token, hash });
        state
    };
    named([
        ("teaching-new-file", place(signed(records), Place::NewFile)),
        ("teaching-new-file-altered", refused(on(signed(records), file), &altered, &[])),
        ("teaching-file-read", place(read(&"cd".repeat(32)), Place::FileRead)),
        ("teaching-file-read-unknown", place(read(&"77".repeat(32)), Place::FileRead)),
        ("teaching-file-vouch", place(read(&"77".repeat(32)), Place::FileVouch)),
    ])
}

fn educator(name: &str, key: &str, vouched: Option<Vouched>, locked: bool) -> Educator {
    Educator {
        name: name.to_owned(),
        key: key.repeat(32),
        locked: locked.then(|| "00".repeat(95)),
        enrolled: at(-400 * DAY_MS),
        retired: None,
        vouched,
        tries: Tries::default(),
    }
}

/// Three educators; a sign-off at a bed, one of practice, one that was taken back, one that has run out.
fn signed(records: &[Record]) -> State {
    let mut state = ward(records);
    state.rules_let_in = Some(LetIn {
        by: NAME.to_owned(),
        role: "charge nurse".to_owned(),
        hash: "ab".repeat(32),
        at: at(0),
    });
    let vouched = Vouched::Educator { name: "F. Example (invented)".to_owned(), entry: 4 };
    let teaching = &mut state.teaching;
    teaching.educators = vec![
        educator(NAME, "ab", None, true),
        educator("F. Example (invented)", "cd", Some(vouched.clone()), true),
        educator("G. Example of the other ward (invented)", "ef", Some(vouched), false),
    ];
    let papers = [
        (0, supervised(LEARNER), 20),
        (1, practice("N. N. (invented)"), 350),
        (0, supervised("M. M. (invented)"), 10),
        (1, Says::Revoked { entry: hash(2), reason: REASON.to_owned() }, 9),
        (
            1,
            Says::Vouched {
                name: "G. Example of the other ward (invented)".to_owned(),
                key: "ef".repeat(32),
            },
            8,
        ),
        (1, supervised("O. O. (invented)"), 390),
    ];
    for (index, (by, says, days)) in papers.into_iter().enumerate() {
        let by = state.teaching.educators[by].clone();
        let kept = Kept {
            paper: paper(&by, says, at(-days * DAY_MS)),
            key: by.key,
            token: "00".repeat(400),
            hash: hash(index),
            elsewhere: index == 5,
            file: (index == 0).then(|| "/tablet/Exports/sign-off-2026-11-04-00000000.holdfast".to_owned()),
        };
        let what = What::Taught(Taught::Signed { kept: Box::new(kept), ends_draft: false });
        state = apply(state, &Event { at: at(0), what });
    }
    state
}

fn hash(index: usize) -> String {
    format!("{index:02}").repeat(32)
}

fn marks(judge: Option<Finding>) -> Vec<Marked> {
    let all = Item::ALL.into_iter().zip(How::ALL.into_iter().cycle());
    all.map(|(item, how)| {
        let met = item != Item::Battery;
        let judge = judge.filter(|_| item == Item::Emergency || item == Item::SensingTest);
        let reason = (judge.is_some() || !met).then(|| REASON.to_owned());
        Marked { item, how, met, judge, reason }
    })
    .collect()
}

fn supervised(learner: &str) -> Says {
    let check = uuid();
    let work = Work::Supervised { check, record: "12".repeat(32), ended_ms: at(-21 * DAY_MS).wall_ms };
    Says::SignedOff(SignOff { learner: learner.to_owned(), work, marks: marks(None) })
}

fn practice(learner: &str) -> Says {
    let marks = marks(Some(Finding::Missed));
    Says::SignedOff(SignOff { learner: learner.to_owned(), work: run(), marks })
}

fn run() -> Work {
    Work::Practice {
        run: uuid(),
        exercise: "no-own-beats".to_owned(),
        exercise_hash: "34".repeat(32),
        seed: 7,
        engine: "1".to_owned(),
        record: "56".repeat(32),
        judgement: "78".repeat(32),
        passed: false,
        ended_ms: at(-DAY_MS).wall_ms,
    }
}

fn uuid() -> uuid::Uuid {
    uuid::Uuid::from_bytes([5; 16])
}

/// All items but the last were looked at.
fn half_filled(practice: bool) -> domain::teaching::Teaching {
    let work = match supervised(LEARNER) {
        Says::SignedOff(sign_off) if !practice => sign_off.work,
        _ => run(),
    };
    let judged = if practice { vec![(Item::Emergency, Finding::Unsafe)] } else { Vec::new() };
    let looked = marks(None).into_iter().take(Item::ALL.len() - 1);
    let marks = looked.map(|mark| (mark.item, (mark.item != Item::Modes).then_some(mark))).collect();
    let draft = Some(Draft { learner: LEARNER.to_owned(), work, judged, marks });
    domain::teaching::Teaching { draft, ..signed_teaching() }
}

fn signed_teaching() -> domain::teaching::Teaching {
    let educators =
        vec![educator(NAME, "ab", None, true), educator("F. Example (invented)", "cd", None, true)];
    domain::teaching::Teaching { educators, ..Default::default() }
}
