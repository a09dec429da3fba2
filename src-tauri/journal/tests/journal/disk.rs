//! Files by name: new or not at all, and durable once they are told.

use std::fs;

use journal::disk;

#[test]
fn a_file_is_put_where_none_is_and_takes_the_place_of_one_by_its_name() {
    let room = tempfile::tempdir().unwrap();
    let at = |name: &str| room.path().join(name);
    disk::put(&at("half"), b"new").unwrap();
    let taken = disk::put(&at("half"), b"other").unwrap_err();
    assert_eq!(taken.kind(), std::io::ErrorKind::AlreadyExists);
    assert_eq!(fs::read(at("half")).unwrap(), b"new", "it stays as it was");
    fs::write(at("whole"), "old").unwrap();
    disk::name(&at("half"), &at("whole")).unwrap();
    assert_eq!((fs::read(at("whole")).unwrap().as_slice(), at("half").exists()), (&b"new"[..], false));
    disk::remove(&at("whole")).unwrap();
    disk::remove(&at("whole")).unwrap();
    assert!(disk::put(&at("none/half"), b"").is_err());
}

#[test]
fn folders_that_were_made_for_nothing_go_and_others_stay() {
    let room = tempfile::tempdir().unwrap();
    let at = |name: &str| room.path().join(name);
    let new = disk::missing(&at("a/b/c"));
    assert_eq!(new, [at("a/b/c"), at("a/b"), at("a")]);
    disk::make_private(&at("a/b/c")).unwrap();
    assert!(disk::missing(&at("a/b/c")).is_empty());
    fs::write(at("a/kept"), "somebody's").unwrap();
    new.iter().for_each(|folder| disk::remove_empty(folder));
    assert!(!at("a/b").exists() && at("a/kept").exists());
}

#[cfg(unix)]
#[test]
fn a_backup_is_unpacked_where_nobody_else_may_look() {
    use std::os::unix::fs::PermissionsExt as _;
    let room = tempfile::tempdir().unwrap();
    let (data, into, file) = (room.path().join("data"), room.path().join("a/b"), room.path().join("backup"));
    crate::desk::filled(&data, 2);
    journal::back_up(&data, &file).unwrap();
    journal::unpack(&fs::read(file).unwrap(), &into).unwrap();
    for folder in [data, room.path().join("a"), into] {
        assert_eq!(
            fs::metadata(&folder).unwrap().permissions().mode() & 0o777,
            0o700,
            "{}",
            folder.display()
        );
    }
}
