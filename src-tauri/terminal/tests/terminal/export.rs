//! A record on a disk, exported.

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::process::Command;

    use domain::Event;
    use domain::check::facts::{Dials, Facts, Found, Own};
    use domain::check::step::Step;
    use domain::ending;
    use domain::event::What;
    use domain::leaving::Way;
    use domain::moment::Moment;
    use domain::profile::shipped;
    use domain::record::{Printed, Record};
    use domain::rules::Chamber;
    use domain::say::Say;
    use domain::state::State;
    use domain::state::bed::{DueNow, Names, OpenCheck, Polarity, Standing, WireKind};
    use journal::Journal;
    use terminal::backup::back_up;
    use terminal::code::codes;
    use terminal::export::export;
    use uuid::Uuid;

    use crate::tools::is_there;

    const AT: Moment =
        Moment { wall_ms: 1_795_552_800_000, offset_min: 60, boot_ms: 9_000, boot: 7, fresh: [9; 16] };

    /// A bed and a wire, as events.
    fn beginning() -> Vec<What> {
        let generator = shipped().unwrap()[0].id.clone();
        let (chamber, kind, polarity) = (Chamber::Ventricle, WireKind::Epicardial, Polarity::Bipolar);
        vec![
            What::BedAdded { bed: 1, label: "Bay 2".into(), patient: Uuid::from_u128(5) },
            What::WireAdded { bed: 1, wire: 1, chamber, kind, polarity, generator },
        ]
    }

    fn checked(state: &State, number: u128) -> Record {
        let mut facts = Facts::new(Step::Done);
        facts.found = Dials { output: 5, rate: 5, mv: 3 };
        facts.stand = facts.found;
        (facts.own, facts.own_slowest, facts.own_fastest) = (Own::Shown, 52, 52);
        (facts.capture, facts.capture_at) = (Found::Exact, 2);
        let open = OpenCheck::new(Uuid::from_u128(number), facts, AT);
        ending::record(state, &state.beds[0].wires[0], &open, &facts, &Names::default(), AT).unwrap()
    }

    /// One check on a patient and one of practice.
    fn recorded(folder: &Path) {
        let state = State { generators: shipped().unwrap(), ..State::default() };
        let event = |what: What| Event { at: AT, what };
        let mut events: Vec<Event> = beginning().into_iter().map(event).collect();
        let state = events.iter().fold(state, domain::apply);
        let practice = Record { practice: true, ..checked(&state, 0xBAD) };
        for record in [practice, checked(&state, 0xCAFE)] {
            events.push(event(What::CheckEnded { bed: 1, wire: 1, record: Box::new(record), due: None }));
        }
        let bodies: Vec<Vec<u8>> = events.iter().map(|event| serde_json::to_vec(event).unwrap()).collect();
        Journal::open(folder).unwrap().0.append(&bodies).unwrap();
    }

    #[test]
    fn every_file_is_written_once_and_practice_in_none() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        let into = folder.path().join("out");
        let files = export(folder.path(), &into).unwrap();
        let names: Vec<_> = files.iter().map(|file| file.file_name().unwrap().to_str().unwrap()).collect();
        assert_eq!(names, ["checks.csv", "between.csv", "bundle.json", "bed-1-wire-1.pdf"]);
        let [csv, between, bundle] = [0, 1, 2].map(|at| std::fs::read_to_string(&files[at]).unwrap());
        for text in [&csv, &bundle] {
            assert!(text.contains("cafe") && !text.contains("0bad"), "{text}");
        }
        assert_eq!(between.lines().count(), 1, "nothing befell the wire between its checks: {between}");
        assert!(between.starts_with(export::BETWEEN_COLUMNS[0]), "{between}");
        assert!(std::fs::read(&files[3]).unwrap().starts_with(b"%PDF"));
    }

    #[test]
    fn a_backup_is_written_beside_the_files_where_it_is_asked_for() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        let into = folder.path().join("new").join("out");
        let terminal = |words: &[&str]| {
            let mut run = Command::new(env!("CARGO_BIN_EXE_terminal"));
            run.arg("export").args([folder.path(), &into]).args(words).output().unwrap()
        };
        let done = terminal(&["--backup"]);
        let said = String::from_utf8(done.stdout).unwrap();
        assert!(done.status.success(), "{said}");
        let backup = into.join("record.holdfast");
        let last = said.lines().last().unwrap();
        assert!(last.contains(&backup.display().to_string()) && last.contains("entries"), "{said}");
        assert_eq!(said.lines().count(), 5, "{said}");
        let again = folder.path().join("again");
        terminal::backup::restore(&backup, &again, None).unwrap();
        assert_eq!(session::read(&again).unwrap().beds[0].label, "Bay 2");
        assert_eq!(left(folder.path()), [(Way::Files, 1), (Way::Backup, 1)]);
        assert!(!terminal(&["--backup"]).status.success(), "what is there already is not written over");
        assert!(backup.exists() && into.join("checks.csv").exists());
    }

    /// A power cut takes back a name whose folder was not synced.
    #[cfg(target_os = "linux")]
    #[test]
    fn each_name_is_on_the_disk_before_it_is_told() {
        let room = tempfile::tempdir().unwrap();
        let at = |name: &str| room.path().join(name);
        recorded(&at("data"));
        for (command, into, folder, files) in
            [("export", at("out"), at("out"), 4), ("backup", at("ward.holdfast"), room.path().to_owned(), 1)]
        {
            let mut traced = Command::new("strace");
            traced.args(["-f", "-qq", "-y", "-e", "trace=/^rename,fsync", "-o"]).arg(at("trace"));
            traced.arg(env!("CARGO_BIN_EXE_terminal")).arg(command).args([at("data"), into]);
            let traced = traced.output().is_ok_and(|done| done.status.success());
            if !is_there(traced, "strace", "counting syncs needs strace, and it did not run here") {
                return;
            }
            let trace = std::fs::read_to_string(at("trace")).unwrap();
            let calls: Vec<&str> = trace.lines().collect();
            let named = |call: &&[&str]| call[0].contains("rename") && call[0].contains(".half");
            let named: Vec<_> = calls.windows(2).filter(named).collect();
            assert_eq!(named.len(), files, "{trace}");
            let synced = format!("<{}>)", folder.display());
            assert!(
                named.iter().all(|call| call[1].contains("fsync(") && call[1].contains(&synced)),
                "{trace}"
            );
        }
    }

    fn left(folder: &Path) -> Vec<(Way, u32)> {
        session::read(folder).unwrap().beds[0].left.iter().map(|left| (left.way, left.times)).collect()
    }

    /// An erasure's proof lists it then.
    #[test]
    fn what_leaves_by_the_terminal_stands_in_the_record() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        let at = |name: &str| folder.path().join(name);
        assert!(codes(folder.path()).is_err(), "no key, no code");
        assert_eq!(left(folder.path()), []);
        export(folder.path(), &at("first")).unwrap();
        export(folder.path(), &at("second")).unwrap();
        back_up(folder.path(), &at("ward.holdfast")).unwrap();
        std::fs::write(at("tablet.key"), [7; 32]).unwrap();
        assert!(codes(folder.path()).unwrap().starts_with("HOLDFAST"));
        assert_eq!(left(folder.path()), [(Way::Files, 2), (Way::Backup, 1), (Way::Code, 1)]);
    }

    /// The wire has a check, and since then its dials were read to stand elsewhere.
    #[test]
    fn why_there_is_no_code_is_said_as_the_app_says_it() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        let printed = Printed { output: "5.0".into(), rate: "80".into(), mv: None };
        let standing = Standing { dials: Dials { output: 6, rate: 5, mv: 3 }, printed, at: AT };
        let what = What::OwedRead { bed: 1, wire: 1, standing, due: Some(DueNow::Dials) };
        let body = serde_json::to_vec(&Event { at: AT, what }).unwrap();
        Journal::open(folder.path()).unwrap().0.append(&[body]).unwrap();
        let said = codes(folder.path()).unwrap_err();
        assert_eq!(said, words::say(&Say::CodeDialsDiffer, words::Language::English).unwrap());
    }

    /// The app alone writes to its record: what it cannot be told of does not leave.
    #[test]
    fn beside_a_running_app_nothing_new_leaves() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("tablet.key"), [7; 32]).unwrap();
        let running = Journal::open(folder.path()).unwrap();
        let told = [
            export(folder.path(), &at("out")).unwrap_err(),
            back_up(folder.path(), &at("ward.holdfast")).unwrap_err(),
            codes(folder.path()).unwrap_err(),
        ];
        assert!(told.iter().all(|said| said.contains("already runs")), "{told:?}");
        drop(running);
        assert_eq!(left(folder.path()), []);
        assert!(!at("out").exists(), "no empty folder is left of it");
        assert!(!at("ward.holdfast").exists() && !at("ward.holdfast.half").exists());
    }

    #[test]
    fn a_file_that_is_there_is_not_written_over() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        let into = folder.path().join("out");
        std::fs::create_dir(&into).unwrap();
        std::fs::write(into.join("bundle.json"), "mine").unwrap();
        let told = export(folder.path(), &into).unwrap_err();
        assert!(told.contains("bundle.json is there already"), "{told}");
        assert_eq!(std::fs::read_to_string(into.join("bundle.json")).unwrap(), "mine");
        assert!(!into.join("checks.csv").exists());
    }

    #[test]
    fn without_a_record_nothing_is_written() {
        let folder = tempfile::tempdir().unwrap();
        let into = folder.path().join("out");
        assert!(export(folder.path(), &into).is_err());
        assert!(!into.exists());
    }

    /// A small file system of its own, which only root can make.
    struct Small(tempfile::TempDir);

    impl Small {
        fn mounted(options: &str) -> Option<Small> {
            let folder = tempfile::tempdir().unwrap();
            let mount = ["-t", "tmpfs", "-o", options, "tmpfs"];
            let made = Command::new("mount").args(mount).arg(folder.path()).status();
            let made = made.is_ok_and(|status| status.success());
            is_there(made, "mount", "a disk of its own could not be mounted").then_some(Small(folder))
        }

        fn files(&self) -> usize {
            std::fs::read_dir(self.0.path()).unwrap().count()
        }
    }

    impl Drop for Small {
        fn drop(&mut self) {
            let left = Command::new("umount").arg(self.0.path()).status();
            assert!(left.is_ok_and(|status| status.success()) || std::thread::panicking());
        }
    }

    /// The table fits, the page does not.
    #[test]
    fn what_does_not_fit_or_may_not_be_written_leaves_nothing_half_written() {
        let folder = tempfile::tempdir().unwrap();
        recorded(folder.path());
        for (options, said) in [("size=16k", "No room on the tablet"), ("ro", "takes no files")] {
            let Some(disk) = Small::mounted(options) else { return };
            let told = export(folder.path(), disk.0.path()).unwrap_err();
            assert!(told.contains(said) && told.contains("was not written"), "{told}");
            let told = export(folder.path(), &disk.0.path().join("new").join("newer")).unwrap_err();
            assert!(told.contains(said) && told.contains("was not written"), "{told}");
            let told = back_up(folder.path(), &disk.0.path().join("ward.holdfast")).unwrap_err();
            assert!(told.contains(said) && told.contains("ward.holdfast was not written"), "{told}");
            assert_eq!(disk.files(), 0, "{options}");
        }
        session::verify(folder.path()).unwrap();
    }
}
