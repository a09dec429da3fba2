//! What was typed, and what is done for it.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use domain::say::Say;
use proof::Scatter;
use terminal::rehearsal::{CardSeen, rehearse};
use terminal::spoken::spoken;
use terminal::{backup, bedside, code, export, practise, print, prove, scenario, sense, signoff, verify};

/// For `prove`, which makes and drops millions of cards.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Each as it is typed, its name first.
const COMMANDS: [&str; 13] = [
    "rehearse FILE [--json]",
    "bedside [--data FOLDER]",
    "prove --checks N --seed S",
    "prove --replay SEED",
    "prove --scatter N --seed S --svg FILE",
    "practise FILE --seed N [--out FOLDER]",
    "signoff verify FILE [FOLDER]",
    "sense --signal FILE.csv --hz N --from mV --to mV --step mV --blank-ms N [--json]",
    "verify FOLDER",
    "code FOLDER",
    "export FOLDER INTO [--backup]",
    "backup FOLDER FILE",
    "restore FILE FOLDER [--aside OTHER]",
];

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match run(&words) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

fn run(words: &[&str]) -> Result<(), String> {
    match words {
        ["help"] | [.., "--help" | "-h"] => tell(&COMMANDS.join("\n")),
        ["rehearse", file] => rehearse_file(Path::new(file), false),
        ["rehearse", file, "--json"] | ["rehearse", "--json", file] => rehearse_file(Path::new(file), true),
        ["bedside"] => bedside::bedside(&data_folder()?),
        ["bedside", "--data", folder] => bedside::bedside(Path::new(folder)),
        ["verify", folder] => verify::verify(Path::new(folder)).map(|holds| println!("{holds}")),
        ["prove", "--checks", checks, "--seed", seed] => closed_loop(number(checks)?, number(seed)?),
        ["practise", file, "--seed", seed] => practise_file(file, seed, "practice"),
        ["practise", file, "--seed", seed, "--out", folder] => practise_file(file, seed, folder),
        ["prove", "--scatter", checks, "--seed", seed, "--svg", file] => {
            scattered(number(checks)?, number(seed)?, Path::new(file))
        }
        ["prove", "--replay", seed] => tell(&prove::replay(number(seed)?)?.join("\n")),
        ["sense", options @ ..] => tell(&sense::run(options).map_err(|fault| fault.to_string())?),
        ["code", folder] => code::codes(Path::new(folder)).and_then(|lines| tell(&lines)),
        ["export", folder, into] => export_files(Path::new(folder), Path::new(into)),
        ["export", folder, into, "--backup"] => {
            export_files(Path::new(folder), Path::new(into))?;
            let file = Path::new(into).join("record.holdfast");
            backup::back_up(Path::new(folder), &file).and_then(|said| tell(&said))
        }
        ["signoff", "verify", file] => signoff::verify(Path::new(file), None).and_then(|said| tell(&said)),
        ["signoff", "verify", file, folder] => {
            signoff::verify(Path::new(file), Some(Path::new(folder))).and_then(|said| tell(&said))
        }
        ["backup", folder, file] => {
            backup::back_up(Path::new(folder), Path::new(file)).and_then(|said| tell(&said))
        }
        ["restore", file, folder] => {
            backup::restore(Path::new(file), Path::new(folder), None).and_then(|said| tell(&said))
        }
        ["restore", file, folder, "--aside", aside] => {
            let said = backup::restore(Path::new(file), Path::new(folder), Some(Path::new(aside)))?;
            tell(&said)
        }
        ["practise"] => Err(lacks("practise", "FILE")),
        ["practise", _] | ["practise", _, "--seed"] | ["practise", _, "--out", _] => {
            Err(lacks("practise", "--seed N"))
        }
        ["practise", _, "--seed", _, "--out"] => Err(lacks("practise --out", "DIR")),
        ["signoff"] => Err(lacks("signoff", "verify")),
        ["signoff", "verify"] => Err(lacks(&words.join(" "), "FILE")),
        [] => Err(spoken(&Say::CommandMissing)),
        [first, ..] => Err(spoken(&match typed_as(first) {
            typed if typed.is_empty() => Say::CommandUnknown { typed: words.join(" ") },
            allowed => Say::CommandMisused { allowed },
        })),
    }
}

/// How the commands of this name are typed; empty where there is none.
fn typed_as(name: &str) -> String {
    let named = COMMANDS.into_iter().filter(|command| command.split(' ').next() == Some(name));
    named.collect::<Vec<_>>().join(", ")
}

fn export_files(folder: &Path, into: &Path) -> Result<(), String> {
    let files = export::export(folder, into)?;
    files.iter().try_for_each(|file| tell(&file.display().to_string()))
}

/// `HOLDFAST_DATA`, as the app reads it.
fn data_folder() -> Result<PathBuf, String> {
    let named = std::env::var_os("HOLDFAST_DATA").filter(|folder| !folder.is_empty());
    named.map(PathBuf::from).ok_or_else(|| spoken(&Say::NoFolderNamed))
}

fn lacks(command: &str, missing: &str) -> String {
    spoken(&Say::CommandLacks { command: command.to_owned(), missing: missing.to_owned() })
}

fn number(text: &str) -> Result<u64, String> {
    text.parse().map_err(|_| spoken(&Say::NotAWholeNumber { typed: text.to_owned() }))
}

/// Any harm, and any check that came to no end, is a failure.
fn closed_loop(checks: u64, seed: u64) -> Result<(), String> {
    let tally = prove::prove(checks, seed);
    tell(tally.to_string().trim_end())?;
    let clean = tally.is_clean() && tally.checks == checks;
    clean.then_some(()).ok_or_else(|| spoken(&Say::HarmSeen))
}

/// A place that takes no file is told before the work; a check that came to no end is a failure.
fn scattered(checks: u64, seed: u64, file: &Path) -> Result<(), String> {
    prove::draw(&Scatter::begun(), file)?;
    let scatter = prove::scatter(checks, seed);
    tell(scatter.to_string().trim_end())?;
    prove::draw(&scatter, file)?;
    tell(&file.display().to_string())?;
    scatter.is_complete(checks).then_some(()).ok_or_else(|| spoken(&Say::HarmSeen))
}

/// Writes the three files and names the folder; of an exercise also the judgement, in words.
fn practise_file(file: &str, seed: &str, folder: &str) -> Result<(), String> {
    if let Some(exercise) = practise::exercise_in(Path::new(file)) {
        let exercise = exercise.map_err(|fault| fault.to_string())?;
        let (practised, judged) = practise::exercise(&exercise, number(seed)?)?;
        practised.write_into(Path::new(folder)).map_err(|error| format!("{folder}: {error}."))?;
        return tell(&judged).and_then(|()| tell(folder));
    }
    let ready = scenario::read_file(Path::new(file)).map_err(|fault| fault.to_string())?;
    let practised = practise::practise(&ready, number(seed)?)?;
    practised.write_into(Path::new(folder)).map_err(|error| format!("{folder}: {error}."))?;
    tell(folder)
}

fn rehearse_file(file: &Path, json: bool) -> Result<(), String> {
    let ready = scenario::read_file(file).map_err(|fault| fault.to_string())?;
    let mut broken = None;
    let mut each = |seen: &CardSeen| {
        let text =
            if json { print::card_json(seen).map(|card| card.to_string()) } else { Ok(print::card(seen)) };
        let told = text.map_err(|error| error.to_string()).and_then(|text| tell(&text));
        broken = broken.take().or(told.err());
    };
    let ending = rehearse(&ready, &mut each).map_err(|fault| fault.to_string())?;
    if let Some(broken) = broken {
        return Err(broken);
    }
    tell(&if json { ending.json().to_string() } else { print::ending(&ending) })?;
    match ready.scenario.expect.differences(&ending) {
        differences if differences.is_empty() => Ok(()),
        differences => {
            Err(spoken(&Say::NotAsExpected { differences: format!("\n{}", differences.join("\n")) }))
        }
    }
}

/// One piece to the output; a reader who has gone is no reason to panic.
fn tell(text: &str) -> Result<(), String> {
    writeln!(std::io::stdout(), "{text}")
        .map_err(|error| spoken(&Say::OutputClosed { fault: error.to_string() }))
}
