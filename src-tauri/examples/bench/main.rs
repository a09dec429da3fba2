//! What the bench needs from Rust: `fill FOLDER EVENTS` writes a record of that length;
//! `commits FOLDER COUNT` prints the milliseconds of each raw durable commit.

use std::error::Error;
use std::path::Path;
use std::time::Instant;

use domain::command::Command;
use domain::contract::{Light, Sent};
use domain::moment::Moment;
use domain::state::State;
use journal::Journal;
use rusqlite::Connection;

type Done = Result<(), Box<dyn Error>>;

/// Events a transaction while filling.
const TOGETHER: usize = 200;
const BEDS: u32 = 8;
/// A body is about as long as an answer in the record.
const BODY: [u8; 300] = [b'x'; 300];

fn main() -> Done {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [what, folder, count] = arguments.as_slice() else {
        return Err("fill FOLDER EVENTS, or commits FOLDER COUNT".into());
    };
    let count = count.parse()?;
    match what.as_str() {
        "fill" => fill(Path::new(folder), count),
        "commits" => commits(Path::new(folder), count),
        other => Err(format!("{other}: not known").into()),
    }
}

/// Some beds with a wire each, then the light turned from night to day and back.
fn fill(folder: &Path, events: usize) -> Done {
    let (mut journal, _) = Journal::open(folder)?;
    let mut ward = Ward { state: State::default(), boot_ms: 0, bodies: Vec::new() };
    ward.put(Command::Started { alive: None }, &[])?;
    ward.put(Command::Welcomed, &[])?;
    for bed in 1..=BEDS {
        ward.put(Command::AddBed, &[("label", &format!("Bay {bed}"))])?;
        let wire = [
            ("chamber", "ventricle"),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", "example-fine-current"),
        ];
        ward.put(Command::AddWire { bed }, &wire)?;
    }
    ward.put(Command::Go(domain::state::screen::Screen::Beds), &[])?;
    while ward.bodies.len() < events {
        let light = if ward.bodies.len().is_multiple_of(2) { Light::Day } else { Light::Night };
        ward.put(Command::SetLight(light), &[])?;
    }
    for chunk in ward.bodies.chunks(TOGETHER) {
        journal.append(chunk)?;
    }
    Ok(())
}

struct Ward {
    state: State,
    boot_ms: i64,
    bodies: Vec<Vec<u8>>,
}

impl Ward {
    fn put(&mut self, command: Command, values: &[(&str, &str)]) -> Done {
        self.boot_ms += 1_000;
        let wall_ms = 1_790_000_000_000 + self.boot_ms;
        let now = Moment { wall_ms, offset_min: 0, boot_ms: self.boot_ms, boot: 1, fresh: [7; 16] };
        let values = values.iter().map(|(id, value)| ((*id).to_owned(), (*value).to_owned())).collect();
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        let events =
            domain::decide(&self.state, &sent, now).map_err(|refusal| format!("{sent:?}: {refusal:?}"))?;
        for event in events {
            self.bodies.push(serde_json::to_vec(&event)?);
            domain::apply_to(&mut self.state, &event);
        }
        Ok(())
    }
}

/// One row a transaction, as durable as the record's.
fn commits(folder: &Path, count: usize) -> Done {
    let database = Connection::open(folder.join("commits.sqlite"))?;
    database.execute_batch(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE t (body BLOB) STRICT;",
    )?;
    for _ in 0..count {
        let begun = Instant::now();
        database.execute("INSERT INTO t VALUES (?1)", [BODY.as_slice()])?;
        println!("{:.3}", begun.elapsed().as_secs_f64() * 1_000.0);
    }
    Ok(())
}
