//! RFC 4180, read back by its own library and by eye (`tests/kept/checks.csv`).

use std::collections::BTreeSet;

use domain::record::Record;
use domain::rules::Chamber;
use export::{COLUMNS, Care, csv};

use crate::made::{every_flag, record, ventricle, wire};

fn rows(text: &[u8]) -> Vec<Vec<String>> {
    let mut reader = ::csv::ReaderBuilder::new().has_headers(false).from_reader(text);
    reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

fn cell(row: &[String], column: &str) -> String {
    let at = COLUMNS.iter().position(|name| *name == column).unwrap();
    row[at].clone()
}

#[test]
fn one_check_a_row_under_one_header() {
    let wire = ventricle();
    let bytes = csv(&Care::of_wire(&wire)).unwrap();
    assert!(bytes.ends_with(b"\r\n") && !bytes.windows(2).any(|two| two[1] == b'\n' && two[0] != b'\r'));
    let rows = rows(&bytes);
    assert_eq!(rows.len(), 6);
    assert_eq!(rows[0], COLUMNS);
    assert_eq!(cell(&rows[1], "ended"), "2026-11-24T21:40:00+01:00");
    assert_eq!(cell(&rows[1], "sensitivity_mV"), "2.0", "as the dial prints it");
    assert_eq!((cell(&rows[2], "capture_low"), cell(&rows[2], "capture_high")), ("1.1".into(), "1.2".into()));
    assert_eq!(
        (cell(&rows[3], "capture_low"), cell(&rows[3], "capture_high")),
        (String::new(), "1.2".into())
    );
    assert_eq!(
        (cell(&rows[4], "sensitivity_mV"), cell(&rows[4], "asynchronous")),
        (String::new(), "yes".into())
    );
    assert_eq!(cell(&rows[5], "output_unit"), "V");
    assert_eq!(cell(&rows[1], "flags"), "");
    assert_eq!(cell(&rows[5], "flags"), "capture_above_limit; signal_below_limit");
}

#[test]
fn every_flag_has_a_name_of_its_own() {
    let flags = every_flag();
    let count = flags.len();
    let wire = wire(Chamber::Ventricle, vec![Record { flags, ..record(1, 0) }]);
    let named = cell(&rows(&csv(&Care::of_wire(&wire)).unwrap())[1], "flags");
    let names: BTreeSet<&str> = named.split("; ").collect();
    assert_eq!(names.len(), count, "{named}");
    let plain = |name: &&str| name.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_');
    assert!(names.iter().all(plain), "{named}");
}

#[test]
fn practice_and_typed_names_stay_on_the_tablet() {
    let practice = Record { practice: true, ..record(7, 0) };
    let wire = wire(Chamber::Ventricle, vec![record(1, 0), practice]);
    let checks = Care::of_wire(&wire);
    assert_eq!(checks.len(), 1);
    assert!(Care::of(&wire, &wire.records[1]).is_none());
    let text = String::from_utf8(csv(&checks).unwrap()).unwrap();
    assert!(!text.contains("Clinician") && !text.contains("00000007"));
}

#[test]
fn what_people_typed_is_quoted_and_never_a_formula() {
    let odd = |id: &str| {
        let wire = wire(Chamber::Ventricle, vec![Record { rules_id: id.into(), ..record(1, 0) }]);
        cell(&rows(&csv(&Care::of_wire(&wire)).unwrap())[1], "rules")
    };
    assert_eq!(odd("ours, \"2026\"\nsecond"), "ours, \"2026\"\nsecond");
    for formula in ["=1+1", "+1", "-1", "@x"] {
        assert_eq!(odd(formula), format!("'{formula}"));
    }
}

#[test]
fn no_check_is_a_header_alone() {
    assert_eq!(rows(&csv(&[]).unwrap()).len(), 1);
}
