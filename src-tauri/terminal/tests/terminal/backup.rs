//! A record backed up and restored in a terminal; every no is one sentence, and everything is as it was.

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::Path;

    use domain::Event;
    use domain::event::What;
    use domain::moment::Moment;
    use journal::Journal;
    use terminal::backup::{back_up, restore};
    use uuid::Uuid;

    const AT: Moment =
        Moment { wall_ms: 1_795_552_800_000, offset_min: 60, boot_ms: 9_000, boot: 7, fresh: [9; 16] };
    const AHEAD_MS: i64 = 100 * 365 * 86_400_000;

    fn recorded(folder: &Path, labels: &[&str], at: Moment) {
        let added = |(label, bed): (&&str, u32)| Event {
            at,
            what: What::BedAdded { bed, label: (*label).to_owned(), patient: Uuid::from_u128(bed.into()) },
        };
        let bodies: Vec<Vec<u8>> =
            labels.iter().zip(1..).map(|bed| serde_json::to_vec(&added(bed)).unwrap()).collect();
        Journal::open(folder).unwrap().0.append(&bodies).unwrap();
    }

    fn labels(folder: &Path) -> Vec<String> {
        session::read(folder).unwrap().beds.into_iter().map(|bed| bed.label).collect()
    }

    #[test]
    fn a_backup_is_restored_where_nothing_stands_and_every_no_changes_nothing() {
        let room = tempfile::tempdir().unwrap();
        let at = |name: &str| room.path().join(name);
        let (first, file) = (at("first"), at("first.holdfast"));
        recorded(&first, &["Bay 1", "Bay 2"], AT);
        fs::write(at("first.holdfast.half"), b"left by a backup that died").unwrap();
        let said = back_up(&first, &file).unwrap();
        assert!(!at("first.holdfast.half").exists());
        assert!(said.contains("2 entries"), "{said}");
        let bytes = fs::read(&file).unwrap();
        assert!(back_up(&first, &file).unwrap_err().contains("there already"));
        assert_eq!(fs::read(&file).unwrap(), bytes, "not written over");

        let said = restore(&file, &at("second"), None).unwrap();
        assert!(said.contains("2 entries, verified"), "{said}");
        assert_eq!(labels(&at("second")), ["Bay 1", "Bay 2"]);

        fs::write(at("half"), &bytes[..bytes.len() / 2]).unwrap();
        let cut = restore(&at("half"), &at("third"), None).unwrap_err();
        assert!(cut.contains("cut short") && cut.contains("Nothing was changed"), "{cut}");
        assert!(!at("third").join("journal.sqlite3").exists());
        assert!(restore(&at("none"), &at("third"), None).unwrap_err().contains("was not read"));
    }

    #[test]
    fn newer_entries_are_put_aside_only_by_choice() {
        let room = tempfile::tempdir().unwrap();
        let at = |name: &str| room.path().join(name);
        let (folder, file) = (at("ward"), at("ward.holdfast"));
        recorded(&folder, &["Bay 1"], AT);
        back_up(&folder, &file).unwrap();
        let more = What::LightSet(domain::contract::Light::Day);
        let body = serde_json::to_vec(&Event { at: AT, what: more }).unwrap();
        Journal::open(&folder).unwrap().0.append(&[body]).unwrap();
        let newer = restore(&file, &folder, None).unwrap_err();
        assert!(newer.contains("2 entries more") && newer.contains("--aside"), "{newer}");
        let said = restore(&file, &folder, Some(&at("aside"))).unwrap();
        assert!(said.contains(&at("aside").display().to_string()), "{said}");
        assert_eq!(session::verify(&at("aside")).unwrap().head.seq, 3);
        assert_eq!(session::verify(&folder).unwrap().head.seq, 1);
    }

    /// Clocks apart: the record is restored, and it is said that this clock stands before its last entry.
    #[test]
    fn a_backup_from_ahead_of_this_clock_says_so() {
        let room = tempfile::tempdir().unwrap();
        let at = |name: &str| room.path().join(name);
        for (name, ahead_ms, is_said) in [("now", 0, false), ("ahead", AHEAD_MS, true)] {
            let file = at(&format!("{name}.holdfast"));
            recorded(&at(name), &["Bay 1"], Moment { wall_ms: AT.wall_ms + ahead_ms - AHEAD_MS / 2, ..AT });
            back_up(&at(name), &file).unwrap();
            let said = restore(&file, &at(&format!("{name}-restored")), None).unwrap();
            assert_eq!(said.contains("clock"), is_said, "{said}");
        }
    }
}
