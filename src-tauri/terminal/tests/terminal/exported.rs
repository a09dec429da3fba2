//! What a rehearsal found leaves in every file, with what somebody must act on. The files stay in
//! `target/tmp/exported`, for the validators of `tests/outside`.

#[cfg(test)]
mod tests {
    use std::path::{Path, PathBuf};
    use std::process::Command;

    use domain::Event;
    use domain::event::What;
    use domain::moment::Moment;
    use domain::record::Record;
    use domain::rules::Chamber;
    use domain::state::bed::{Polarity, WireKind};
    use journal::Journal;
    use serde_json::Value;
    use terminal::rehearsal::rehearse;
    use terminal::scenario::{ChamberName, Ready, read_file};
    use uuid::Uuid;

    const AT: Moment =
        Moment { wall_ms: 1_795_552_800_000, offset_min: 60, boot_ms: 9_000, boot: 7, fresh: [9; 16] };

    fn record_in(folder: &Path, ready: &Ready, record: &Record) {
        let chamber = match ready.scenario.chamber {
            ChamberName::Ventricle => Chamber::Ventricle,
            ChamberName::Atrium => Chamber::Atrium,
        };
        let (rules, generator) = (ready.rules.clone(), ready.profile.clone());
        let (kind, polarity, named) = (WireKind::Epicardial, Polarity::Bipolar, generator.id.clone());
        let hash = rules.id.clone();
        let events = [
            What::LibraryAdopted { rules: Box::new(rules), generators: vec![generator], hash },
            What::BedAdded { bed: 1, label: "Bed 1 (invented)".into(), patient: Uuid::from_u128(5) },
            What::WireAdded { bed: 1, wire: 1, chamber, kind, polarity, generator: named },
            What::CheckEnded { bed: 1, wire: 1, record: Box::new(record.clone()), due: None },
        ];
        let bodies: Vec<Vec<u8>> =
            events.map(|what| serde_json::to_vec(&Event { at: AT, what }).unwrap()).into();
        Journal::open(folder).unwrap().0.append(&bodies).unwrap();
    }

    fn exported(scenario: &str) -> (PathBuf, Record) {
        let file = format!("{}/../../scenarios/{scenario}.json", env!("CARGO_MANIFEST_DIR"));
        let ready = read_file(Path::new(&file)).unwrap();
        let record = rehearse(&ready, &mut |_| {}).unwrap().record.unwrap();
        let folder = tempfile::tempdir().unwrap();
        record_in(folder.path(), &ready, &record);
        let into = Path::new(env!("CARGO_TARGET_TMPDIR")).join("exported").join(scenario);
        if into.exists() {
            std::fs::remove_dir_all(&into).unwrap();
        }
        let done =
            Command::new(env!("CARGO_BIN_EXE_terminal")).arg("export").args([folder.path(), &into]).output();
        let done = done.unwrap();
        assert!(done.status.success(), "{scenario}: {}", String::from_utf8_lossy(&done.stderr));
        (into, record)
    }

    #[test]
    fn every_flag_of_a_rehearsal_stands_in_bundle_and_table() {
        let mut seen = Vec::new();
        for scenario in [
            "beyond-limits",
            "plain-v",
            "plain-a",
            "plain-volts",
            "bracket",
            "doubled",
            "irregular-v",
            "asynchronous-forgotten",
            "output-misread",
            "dials-not-read",
            "stop-after-loss",
        ] {
            let (folder, record) = exported(scenario);
            let bundle = std::fs::read_to_string(folder.join("bundle.json")).unwrap();
            let bundle: Value = serde_json::from_str(&bundle).unwrap();
            let observation = &bundle["entry"][1]["resource"];
            let notes = observation["note"].to_string();
            let table = std::fs::read_to_string(folder.join("checks.csv")).unwrap();
            let named = table.lines().nth(1).unwrap().rsplit(',').next().unwrap();
            let names = named.split("; ").filter(|name| !name.is_empty()).count();
            assert_eq!(names, record.flags.len(), "{scenario}: {named}");
            for flag in &record.flags {
                let said = words::say(&flag.say(), words::Language::English).unwrap();
                let not_read = !record.read && notes.contains("The dials were not read");
                assert!(notes.contains(&said) || not_read, "{scenario}: {said} is not in {notes}");
            }
            assert!(std::fs::read(folder.join("bed-1-wire-1.pdf")).unwrap().starts_with(b"%PDF"));
            seen.extend(record.flags);
        }
        assert!(seen.len() > 5, "{seen:?}");
    }
}
