//! What a phone shows.

use domain::units::OutputUnit;
use handover::lines::{MOST_TEXT_BYTES, TABLES, VERSION, read, shortened, table as table_of, written};
use handover::{Check, Next, Origin, Place, Summary};

use crate::made::{
    beyond_limits, figure, key, longest, longest_of_a_patient, read_later, signed, summary, table, text,
};

#[test]
fn one_fact_a_line_with_its_unit_and_age() {
    let expected = "\
HOLDFAST 1 en: ventricular epicardial wire, bipolar
EXAMPLE RULES: local rules first
Check: 3F9A27C1
Dials: read 2026-11-24 21:40 +01:00
Written: 6 min later
RATE: 80 /min
OUTPUT: 3.6 mA
mV: 2.0
Capture threshold: 1.2 mA, going up
Margin: 3 x
Sensing threshold: 5.0 mV
Own beats: 52 /min
Pulse width: 1.2 ms
Next check: 2026-11-25 09:40";
    assert_eq!(text(&summary()), expected);
}

/// The whole text of a fixed key and a fixed summary: it changes only with a new format version.
#[test]
fn the_last_line_signs_the_bytes_before_it() {
    let code = signed(&summary());
    let (before, last) = code.rsplit_once('\n').unwrap();
    assert_eq!(before, text(&summary()));
    let packed = seal::base45::decode(last.strip_prefix("SIG ").unwrap().as_bytes()).unwrap();
    assert_eq!((last.len(), packed.len()), (148, 96));
    assert_eq!(&packed[..32], key().public().bytes());
    let signature: seal::Signature = packed[32..].try_into().unwrap();
    assert!(key().public().verifies(format!("{before}\n").as_bytes(), &signature));
}

#[test]
fn the_longest_handover_says_what_it_is_and_that_it_is_short() {
    let said = text(&longest());
    assert!(said.len() <= MOST_TEXT_BYTES);
    let expected = "\
HOLDFAST 1 en: ventricular transvenous lead, unipolar
PRACTICE: not a patient
EXAMPLE RULES: local rules first
Check: FFFFFFFF
Dials: NOT read 2026-11-24 21:40 +01:00
Written: 167 h 59 min later
RATE: 100 /min
OUTPUT: 100.125 mA
mV: asynchronous
Capture threshold: 100.125 to 100.125 mA, going down";
    assert_eq!(said.lines().take(10).collect::<Vec<_>>().join("\n"), expected);
    assert!(said.lines().last().unwrap().starts_with("SHORTENED: "), "{said}");
}

/// The order in which facts go: least urgent flags, pulse width, margin, the last flag.
#[test]
fn facts_are_left_out_in_a_fixed_order() {
    let mut last = summary();
    last.newest.flags = longest().newest.flags;
    let mut stages: Vec<String> = (1..MOST_TEXT_BYTES)
        .map(|bytes| {
            // A byte longer each time, by a line that is never left out.
            last.others = vec![format!("x: {}", "4".repeat(bytes))];
            let short = shortened(&last, table());
            short.map_or("too long".to_owned(), |short| {
                let Check { flags, pulse_width, margin, .. } = short.newest;
                format!("{} {} {}", flags.len(), pulse_width.is_some(), margin.is_some())
            })
        })
        .collect();
    stages.dedup();
    let flags = ["3 true true", "2 true true", "1 true true"];
    let rest = ["1 false true", "1 false false", "0 false false", "too long"];
    assert_eq!(stages, [&flags[..], &rest[..]].concat());
    let mut short = summary();
    short.newest.flags = longest().newest.flags;
    let left = shortened(&short, table()).unwrap();
    assert_eq!(left.newest.flags, short.newest.flags[..left.newest.flags.len()], "most urgent first");
    assert_eq!(usize::from(left.left_out), 18 - left.newest.flags.len());
    assert!(left.newest.pulse_width.is_some() && left.newest.flags.len() > 1);
}

#[test]
fn every_line_is_ascii_and_every_label_stands_once() {
    for summary in [summary(), longest()] {
        let said = text(&summary);
        assert!(said.is_ascii());
        let labels: Vec<&str> = said.lines().map(|line| line.split_once(": ").unwrap().0).collect();
        let mut once = labels.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), labels.len());
    }
}

#[test]
fn volts_are_never_written_as_milliamperes() {
    let mut volts = summary();
    volts.newest.unit = OutputUnit::Volt;
    let said = text(&volts);
    assert!(
        said.contains("OUTPUT: 3.6 V\n") && said.contains("Capture threshold: 1.2 V, going up"),
        "{said}"
    );
    let mixed = said.replace("OUTPUT: 3.6 V", "OUTPUT: 3.6 mA");
    assert_eq!(read(&mixed, table()), None, "two units in one code");
}

#[test]
fn lines_under_unknown_labels_are_shown_and_known_ones_out_of_place_are_refused() {
    let said = text(&summary());
    let more = format!("{said}\nLead: moved by 1 cm");
    let read_back = read(&more, table()).unwrap();
    assert_eq!(read_back.others, ["Lead: moved by 1 cm"]);
    assert_eq!(written(&read_back, table()), more);
    for again in ["RATE: 90 /min", "mV: 5.0", "no label", "Lead: \u{1b}", "PRACTICE: not a patient"] {
        assert_eq!(read(&format!("{said}\n{again}"), table()), None, "{again}");
    }
    let lines: Vec<&str> = said.lines().collect();
    for skip in 0..lines.len() {
        let without: Vec<&str> =
            lines.iter().enumerate().filter(|(at, _)| *at != skip).map(|(_, l)| *l).collect();
        let optional = ["EXAMPLE", "Margin", "Pulse"].iter().any(|label| lines[skip].starts_with(label));
        assert_eq!(read(&without.join("\n"), table()).is_some(), optional, "without {}", lines[skip]);
    }
}

#[test]
fn other_ways_to_write_a_value_are_refused() {
    for (from, to) in [
        ("OUTPUT: 3.6 mA", "OUTPUT: 3,6 mA"),
        ("OUTPUT: 3.6 mA", "OUTPUT: 03.6 mA"),
        ("OUTPUT: 3.6 mA", "OUTPUT: .6 mA"),
        ("OUTPUT: 3.6 mA", "OUTPUT: 3.6mA"),
        ("OUTPUT: 3.6 mA", "OUTPUT: 3.6 MA"),
        ("OUTPUT: 3.6 mA", "OUTPUT:  3.6 mA"),
        ("RATE: 80 /min", "RATE: +80 /min"),
        ("Check: 3F9A27C1", "Check: 3f9a27c1"),
        ("Check: 3F9A27C1", "Check: +F9A27C1"),
        ("21:40 +01:00", "21:40 +1:00"),
        ("21:40 +01:00", "21:40 +00:60"),
        ("2026-11-24", "2026-11-31"),
        ("21:40", "21:60"),
        ("Written: 6 min later", "Written: 06 min later"),
        ("Written: 6 min later", "Written: 0 h 6 min later"),
        ("Margin: 3 x", "Margin: at least 3 x"),
        ("52 /min", "52 to 52 /min"),
        ("Next check: 2026-11-25 09:40", "Next check: later"),
    ] {
        let said = text(&summary());
        assert!(said.contains(from), "{from}");
        assert_eq!(read(&said.replacen(from, to, 1), table()), None, "{to}");
    }
}

#[test]
fn an_age_of_days_and_a_due_check_are_said() {
    let late = Summary { age_min: 3 * 1440 + 5, next: Next::Now, ..summary() };
    assert!(text(&late).contains("Written: 72 h 5 min later"));
    assert!(text(&late).contains("Next check: now"));
    let west = Summary { place: Place::new(-210).unwrap(), ..summary() };
    assert!(text(&west).contains("read 2026-11-24 17:10 -03:30"), "{}", text(&west));
}

#[test]
fn marks_come_before_any_figure() {
    let practice = Summary { origin: Origin::Practice, ..summary() };
    let said = text(&practice);
    let at = |what: &str| said.find(what).unwrap();
    assert!(at("PRACTICE: not a patient") < at("EXAMPLE RULES"));
    assert!(at("EXAMPLE RULES") < at("Check"));
    let mut approved = summary();
    approved.newest.example_rules = false;
    assert!(!text(&approved).contains("EXAMPLE"));
}

#[test]
fn only_released_tables_exist() {
    assert!(table_of(VERSION, "en").is_some());
    for (version, language) in [(0, "en"), (VERSION + 1, "en"), (1, "EN"), (1, ""), (1, "de")] {
        assert!(table_of(version, language).is_none());
    }
    assert_eq!(figure("0.8").text(), "0.8");
}

/// The record says that the dials were not read at its end; the later reading stands beside it, in format 2.
#[test]
fn a_reading_after_the_check_is_said_beside_it() {
    let said = text(&read_later(summary()));
    let expected = "\
HOLDFAST 2 en: ventricular epicardial wire, bipolar
EXAMPLE RULES: local rules first
Check: 3F9A27C1
Dials: NOT read 2026-11-24 21:40 +01:00, read 45 min later
Written: 51 min later
RATE: 80 /min
OUTPUT: 3.6 mA";
    assert_eq!(said.lines().take(7).collect::<Vec<_>>().join("\n"), expected);
    assert!(text(&read_later(longest())).len() <= MOST_TEXT_BYTES);
    for (from, to) in [("45 min", "045 min"), ("45 min", "+45 min"), ("NOT read", "read")] {
        assert_eq!(read(&said.replacen(from, to, 1), TABLES[1].2), None, "{to}");
    }
    assert_eq!(read(&said.replace("HOLDFAST 2", "HOLDFAST 1"), table()), None, "format 1 cannot say it");
}

/// An older tablet cannot know them, so it is told that the code is of a newer version.
#[test]
fn limits_that_were_passed_are_said_in_format_3() {
    let said = text(&beyond_limits(summary()));
    let flags = "\nFlags: threshold above limit 5.0 mA; signal below limit 2.0 mV";
    assert!(said.starts_with("HOLDFAST 3 en: ") && said.contains(flags), "{said}");
    for version in [1, 2] {
        let older = said.replace("HOLDFAST 3", &format!("HOLDFAST {version}"));
        assert_eq!(read(&older, table_of(version, "en").unwrap()), None, "format {version}");
    }
    for (from, to) in [("5.0 mA", "5.0 V"), ("5.0 mA", "05.0 mA"), ("2.0 mV", "2.0 mA"), ("2.0 mV", "2.0")] {
        let other = said.replacen(&format!("limit {from}"), &format!("limit {to}"), 1);
        assert_eq!(read(&other, table_of(3, "en").unwrap()), None, "{to}");
    }
}

/// With the longest figures the first of the two stays; where more has to be said than any flag has room beside, the
/// code is one of an older format, as it would be without them.
#[test]
fn the_longest_of_format_3_is_shortened_as_any() {
    let said = text(&beyond_limits(longest_of_a_patient()));
    assert!(said.starts_with("HOLDFAST 3 en: ") && said.len() <= MOST_TEXT_BYTES, "{said}");
    assert!(said.contains("\nFlags: threshold above limit 5.0 mA\nSHORTENED: "), "{said}");
    for (whole, version) in [(longest(), 1), (read_later(longest()), 2)] {
        let said = text(&beyond_limits(whole));
        assert!(said.starts_with(&format!("HOLDFAST {version} en: ")) && !said.contains("Flags: "), "{said}");
        assert!(said.lines().last().unwrap().starts_with("SHORTENED: "), "{said}");
    }
}
