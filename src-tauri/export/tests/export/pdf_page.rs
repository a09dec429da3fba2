//! The page for the chart.

use std::path::Path;
use std::process::Command;

use domain::flags::Flag;
use domain::record::Record;
use domain::rules::Chamber;
use domain::state::State;
use domain::state::bed::Bed;
use export::{Care, PdfFault, pdf};
use uuid::Uuid;
use words::Language;

use crate::made::{every_flag, record, wire};

fn state(records: Vec<Record>) -> State {
    let wire = wire(Chamber::Ventricle, records);
    let (patient, patient_since) = (Uuid::nil(), wire.added);
    let bed = Bed {
        id: 1,
        label: "Bay 10".into(),
        patient,
        patient_since,
        wires: vec![wire],
        next_wire: 2,
        left: Vec::new(),
        transport: None,
        transports: Vec::new(),
    };
    State { beds: vec![bed], welcomed: true, ..State::default() }
}

fn flagged() -> Record {
    let doubled = Flag::Doubled { was: "0.6".into(), is: "1.2".into() };
    Record { flags: vec![Flag::FoundDidNotCapture, doubled], ..record(1, 0) }
}

fn page(state: &State, language: Language) -> Result<Vec<u8>, PdfFault> {
    let wire = &state.beds[0].wires[0];
    pdf(state, &Care::of(wire, wire.records.last().unwrap()).unwrap(), language)
}

fn count(bytes: &[u8], what: &[u8]) -> usize {
    bytes.windows(what.len()).filter(|window| *window == what).count()
}

#[test]
fn one_page_with_its_fonts_inside() {
    let bytes = page(&state(vec![flagged()]), Language::English).unwrap();
    assert!(bytes.starts_with(b"%PDF-1."));
    assert_eq!(count(&bytes, b"/Type/Page/") + count(&bytes, b"/Type /Page\n"), 1, "{} bytes", bytes.len());
    assert!(bytes.len() < 200_000, "{} bytes", bytes.len());
}

#[test]
fn the_longest_language_fits_one_page_too() {
    assert!(page(&state(vec![flagged()]), Language::Pseudo).is_ok());
}

/// No check raises all of them: a page that holds these holds any. A spike without a beat is said once, at the OUTPUT
/// found or elsewhere.
#[test]
fn every_flag_at_once_fits_one_page_in_the_longest_language() {
    let flags = every_flag().into_iter().filter(|flag| *flag != Flag::LostUnsought).collect();
    let state = state(vec![Record { flags, ..record(1, 0) }]);
    assert_eq!(page(&state, Language::Pseudo).err(), None);
}

#[test]
fn printed_twice_it_is_the_same() {
    let state = state(vec![flagged()]);
    assert_eq!(page(&state, Language::English), page(&state, Language::English));
}

#[test]
fn what_does_not_fit_or_is_not_here_makes_no_page() {
    let endless = Flag::Doubled { was: "1.2 ".repeat(4_000), is: "1.2".into() };
    let long = state(vec![Record { flags: vec![endless], ..record(1, 0) }]);
    assert_eq!(page(&long, Language::English), Err(PdfFault::TooLong));
    let elsewhere = wire(Chamber::Ventricle, vec![record(9, 0)]);
    let check = Care::of(&elsewhere, &elsewhere.records[0]).unwrap();
    assert_eq!(pdf(&state(vec![record(1, 0)]), &check, Language::English), Err(PdfFault::NoSuchCheck));
}

fn output(program: &str, arguments: &[&str]) -> Vec<u8> {
    let done = Command::new(program).args(arguments).output();
    let done = done.unwrap_or_else(|error| panic!("{program}: {error}"));
    assert!(done.status.success(), "{program}: {}", String::from_utf8_lossy(&done.stderr));
    done.stdout
}

/// The darkest pixel and how many are neither black nor white nor between: 0 in a page that prints in black.
fn colours(picture: &Path) -> (u8, usize) {
    let bytes = std::fs::read(picture).unwrap();
    let start = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n').nth(2).unwrap().0 + 1;
    let pixels = bytes[start..].chunks(3);
    let coloured = pixels.clone().filter(|rgb| rgb[0] != rgb[1] || rgb[1] != rgb[2]).count();
    (pixels.map(|rgb| rgb[0]).min().unwrap(), coloured)
}

#[test]
fn other_programs_read_the_page() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("page.pdf");
    std::fs::write(&file, page(&state(vec![flagged()]), Language::English).unwrap()).unwrap();
    let file = file.to_str().unwrap();
    let text = String::from_utf8(output("pdftotext", &["-layout", file, "-"])).unwrap();
    for said in ["Bay 10", "2026-11-24 21:40:00+01:00", "3.6 mA", "80", "5.0 mV", "Local rules"] {
        assert!(text.contains(said), "{said} is missing in:\n{text}");
    }
    assert!(!text.contains('?') && !text.contains('\u{fffd}'), "{text}");
    let fonts = String::from_utf8(output("pdffonts", &[file])).unwrap();
    assert!(fonts.lines().skip(2).count() >= 3 && !fonts.contains(" no  "), "{fonts}");
    let picture = folder.path().join("page");
    output("pdftoppm", &["-r", "72", "-singlefile", file, picture.to_str().unwrap()]);
    let (darkest, coloured) = colours(&picture.with_extension("ppm"));
    assert!(darkest < 60 && coloured == 0, "{darkest} {coloured}");
}

/// A figure with a gap in it, "5. 0", is two figures to a reader in a hurry.
#[test]
fn every_flag_is_read_from_the_page_as_it_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("page.pdf");
    for flag in every_flag() {
        let said = words::say(&flag.say(), Language::English).unwrap();
        let state = state(vec![Record { flags: vec![flag], ..record(1, 0) }]);
        std::fs::write(&file, page(&state, Language::English).unwrap()).unwrap();
        let text = String::from_utf8(output("pdftotext", &["-layout", file.to_str().unwrap(), "-"])).unwrap();
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(&said), "{said} is not in {text}");
    }
}
