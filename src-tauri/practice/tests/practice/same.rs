//! The same exercise, seed and entries: the same bytes, on every machine and in every build of one engine.

use std::fmt::Write as _;
use std::path::Path;

use domain::check::facts::{Dial, Dials};
use practice::{
    ENGINE, Entry, Exercise, ExerciseId, Judgement, Pause, Run, Said, Threshold, exercises, judge,
};
use proof::practise;
use sha2::{Digest, Sha256};

use crate::script::{SEED, Script, exercise};

const SAMPLES_S: u64 = 60;

fn hex(digest: impl AsRef<[u8]>) -> String {
    digest.as_ref().iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").unwrap();
        text
    })
}

/// Turns that fit every exercise, apart from whatever the check leads to: a kept judgement hangs on simulator and
/// judge alone.
fn turns() -> Vec<Entry> {
    let turned = |(tenths, dial, to): (u64, Dial, u8)| Entry::Turned { at_us: tenths * 100_000, dial, to };
    let turns = [
        (240, Dial::Rate, 35),
        (368, Dial::Rate, 25),
        (496, Dial::Rate, 15),
        (1_000, Dial::Output, 0),
        (1_120, Dial::Mv, 16),
        (1_200, Dial::Mv, 8),
        (1_260, Dial::Output, 58),
        (1_320, Dial::Rate, 42),
        (1_400, Dial::Output, 24),
        (1_480, Dial::Output, 12),
        (1_510, Dial::Output, 78),
        (1_580, Dial::Rate, 41),
    ];
    let said = Said {
        capture: Threshold::exactly(16),
        sensing: Threshold::exactly(23),
        stays: Some(Dials { output: 78, rate: 41, mv: 8 }),
    };
    let at_us = 190_000_000;
    turns.map(turned).into_iter().chain([Entry::Said { at_us, said }, Entry::Ended { at_us }]).collect()
}

/// The strip of the first minute, with its marks and turns.
fn strip(exercise: &Exercise, entries: &[Entry]) -> String {
    let mut run = Run::new(exercise, SEED).unwrap();
    let mut hash = Sha256::new();
    let mut turns = entries.iter().peekable();
    while run.now_us() < SAMPLES_S * 1_000_000 {
        while let Some(entry) = turns.next_if(|entry| entry.at_us() <= run.now_us()) {
            if let Entry::Turned { dial, to, .. } = entry {
                run.turn(*dial, *to).unwrap();
            }
        }
        let batch = run.next_batch().unwrap();
        hash.update(batch.bytes());
        batch.marks.iter().for_each(|(at, mark)| hash.update([&[*at], mark.letters().as_bytes()].concat()));
    }
    hex(hash.finalize())
}

fn bytes(judgement: &Judgement) -> Vec<u8> {
    serde_json::to_vec(judgement).unwrap()
}

/// `UPDATE=1` writes the digests anew: only with another `ENGINE`, since a judgement names the engine it was made by.
#[test]
fn same_seed_and_engine_give_the_same_bytes() {
    let mut lines = format!("engine {ENGINE}\n");
    for exercise in exercises().unwrap() {
        let entries = turns();
        let judged = judge(exercise, SEED, &entries).unwrap();
        let (id, strip) = (exercise.id.id(), strip(exercise, &entries));
        writeln!(lines, "{id} strip {strip}\n{id} judgement {}", hex(Sha256::digest(bytes(&judged))))
            .unwrap();
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kept/digests.txt");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &lines).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), lines);
}

#[test]
fn a_judgement_is_made_again_byte_for_byte_and_other_seeds_differ() {
    let quiet = exercise(ExerciseId::Quiet);
    let entries = Script::careful(ExerciseId::Quiet).entries;
    let once = judge(quiet, SEED, &entries).unwrap();
    assert_eq!(bytes(&once), bytes(&judge(quiet, SEED, &entries).unwrap()));
    assert_ne!(bytes(&once), bytes(&judge(quiet, SEED + 1, &entries).unwrap()));
    let back: Judgement = serde_json::from_slice(&bytes(&once)).unwrap();
    assert_eq!(back, once);
}

/// Nobody is judged on a strip that stood still.
#[test]
fn pauses_change_no_judgement() {
    for exercise in exercises().unwrap() {
        let entries = practise(exercise, SEED).unwrap().entries;
        let paused: Vec<Entry> = entries
            .iter()
            .flat_map(|entry| {
                let at_us = entry.at_us();
                let why = [Pause::Asked, Pause::Stall, Pause::Sleep, Pause::Restart];
                let pause = Entry::Paused { at_us, why: why[at_us as usize / 400_000 % 4], ms: 90_000 };
                [pause, *entry]
            })
            .collect();
        let judged = |entries: &[Entry]| bytes(&judge(exercise, SEED, entries).unwrap());
        assert_eq!(judged(&entries), judged(&paused), "{:?}", exercise.id);
    }
}

/// Without cards the turns, and what is said at the end, are all there is: they are judged as with them.
#[test]
fn guided_and_alone_are_judged_alike_but_for_the_answers() {
    for id in ExerciseId::ALL {
        let guided = judge(exercise(*id), SEED, &Script::guided(*id).entries).unwrap();
        let alone = judge(exercise(*id), SEED, &Script::careful(*id).entries).unwrap();
        let but_answers = guided.acts.iter().filter(|one| one.act != practice::Act::AnsweredAsSeen);
        assert_eq!(but_answers.copied().collect::<Vec<_>>(), alone.acts, "{id:?}");
    }
}
