//! Any order of acts and crashes against the simplest model of them: a list.

use std::collections::BTreeSet;

use journal::{Head, Journal};
use proptest::prelude::*;
use tempfile::TempDir;

use crate::desk::{check, copy, folder, open};

#[derive(Clone, Debug)]
enum Act {
    Append(Vec<Vec<u8>>),
    Erase(Vec<prop::sample::Index>),
    Snapshot,
    Alive,
    Reopen,
    Crash,
}

fn acts() -> impl Strategy<Value = Act> {
    let body = prop::collection::vec(any::<u8>(), 0..60);
    prop_oneof![
        6 => prop::collection::vec(body, 0..4).prop_map(Act::Append),
        2 => prop::collection::vec(any::<prop::sample::Index>(), 1..3).prop_map(Act::Erase),
        1 => Just(Act::Snapshot),
        1 => Just(Act::Alive),
        1 => Just(Act::Reopen),
        2 => Just(Act::Crash),
    ]
}

/// `None` once erased.
#[derive(Default)]
struct Model {
    bodies: Vec<Option<Vec<u8>>>,
    events: BTreeSet<u32>,
    snapshot: Option<u32>,
    alive: Option<Vec<u8>>,
}

impl Model {
    fn len(&self) -> u32 {
        self.bodies.len() as u32
    }

    fn append(&mut self, body: Vec<u8>) {
        self.bodies.push(Some(body));
        self.events.insert(self.len());
    }

    fn erase(&mut self, erased: &BTreeSet<u32>) {
        for seq in erased {
            self.bodies[*seq as usize - 1] = None;
            self.events.remove(seq);
        }
        self.bodies.push(Some(b"erased".to_vec()));
        self.snapshot = None;
    }

    fn standing(&self) -> Vec<(u32, Vec<u8>)> {
        (1..).zip(&self.bodies).filter_map(|(seq, body)| Some((seq, body.clone()?))).collect()
    }
}

struct Desk {
    folder: TempDir,
    journal: Option<Journal>,
    model: Model,
}

impl Desk {
    fn journal(&mut self) -> &mut Journal {
        self.journal.as_mut().unwrap()
    }

    fn act(&mut self, act: Act) {
        match act {
            Act::Append(bodies) => {
                self.journal().append(&bodies).unwrap();
                bodies.into_iter().for_each(|body| self.model.append(body));
            }
            Act::Erase(picked) => self.erase(&picked),
            Act::Snapshot => {
                let state = self.model.len().to_be_bytes();
                self.journal().snapshot(&state).unwrap();
                self.model.snapshot = Some(self.model.len());
            }
            Act::Alive => {
                let body = format!("alive on {}", self.model.len()).into_bytes();
                self.journal().alive(&body).unwrap();
                self.model.alive = Some(body);
            }
            Act::Reopen => {
                self.journal = None;
                self.open_again();
            }
            Act::Crash => {
                self.folder = copy(self.folder.path());
                self.open_again();
            }
        }
    }

    fn erase(&mut self, picked: &[prop::sample::Index]) {
        let events: Vec<u32> = self.model.events.iter().copied().collect();
        if events.is_empty() {
            return;
        }
        let erased: BTreeSet<u32> = picked.iter().map(|index| *index.get(&events)).collect();
        self.journal().erase(&erased, b"erased").unwrap();
        self.model.erase(&erased);
    }

    /// Everything a new start reads is what the model holds.
    fn open_again(&mut self) {
        let (journal, kept) = Journal::open(self.folder.path()).unwrap();
        assert_eq!(kept.alive, self.model.alive);
        assert_eq!(kept.snapshot.as_ref().map(|snapshot| snapshot.head.seq), self.model.snapshot);
        let from = kept.snapshot.map_or(Head::GENESIS, |snapshot| snapshot.head);
        assert_eq!(replayed(&journal, Head::GENESIS), self.model.standing());
        let tail = self.model.standing().into_iter().filter(|(seq, _)| *seq > from.seq).collect::<Vec<_>>();
        assert_eq!(replayed(&journal, from), tail);
        assert_eq!(check(self.folder.path()).unwrap().head, journal.head());
        self.journal = Some(journal);
    }
}

fn replayed(journal: &Journal, from: Head) -> Vec<(u32, Vec<u8>)> {
    let mut records = Vec::new();
    let each = |record: journal::Record<'_>| {
        records.push((record.seq, record.body.to_owned()));
        Ok(())
    };
    assert_eq!(journal.replay(from, each).unwrap(), journal.head());
    records
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_acts_and_crashes_keeps_what_the_model_keeps(acts in prop::collection::vec(acts(), 1..30)) {
        let folder = folder();
        let journal = Some(open(folder.path()));
        let mut desk = Desk { folder, journal, model: Model::default() };
        acts.into_iter().for_each(|act| desk.act(act));
        desk.act(Act::Crash);
        desk.act(Act::Reopen);
    }
}
