//! Making, opening and recognising the database file.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, OpenFlags};

use crate::fault::Fault;
use crate::folder::{self, Paths};

const SCHEMA: &str = include_str!("schema.sql");
/// Written into the file's header: "HOLD".
const APPLICATION: i64 = 0x484F_4C44;
/// Format of the file. A step up needs a migration here and a file of the old format in the tests.
pub(crate) const VERSION: i64 = 1;

/// Makes the journal of a new data folder. A crash midway leaves no journal, never an empty one.
pub(crate) fn ensure(paths: &Paths) -> Result<(), Fault> {
    if exists(&paths.journal())? {
        return Ok(());
    }
    if was_used(paths)? {
        return Err(Fault::Missing);
    }
    folder::remove(&paths.unfinished())?;
    create(&paths.unfinished())?;
    folder::name(&paths.unfinished(), &paths.journal())
}

/// A record has stood in this folder: the alive time and the filled reserve come after the first one.
fn was_used(paths: &Paths) -> Result<bool, Fault> {
    let filled = match fs::metadata(paths.reserve()) {
        Ok(reserve) => reserve.len() > 0,
        Err(error) if error.kind() == ErrorKind::NotFound => false,
        Err(error) => return Err(Fault::from_io(&error)),
    };
    Ok(filled || exists(&paths.alive())?)
}

/// Where a record stood, a file that is none is what is left of it: nobody may be sent to an empty folder.
fn left_of_ours(paths: &Paths, fault: Fault) -> Fault {
    if fault != Fault::NotAJournal {
        return fault;
    }
    match was_used(paths) {
        Ok(true) => Fault::Damaged("no record any more".to_owned()),
        Ok(false) => Fault::NotAJournal,
        Err(fault) => fault,
    }
}

fn exists(path: &Path) -> Result<bool, Fault> {
    path.try_exists().map_err(|error| Fault::from_io(&error))
}

fn create(path: &Path) -> Result<(), Fault> {
    let mut connection = Connection::open(path)?;
    connection.execute_batch("PRAGMA synchronous = EXTRA; PRAGMA fullfsync = ON;")?;
    let transaction = connection.transaction()?;
    transaction.execute_batch(SCHEMA)?;
    transaction.pragma_update(None, "application_id", APPLICATION)?;
    transaction.pragma_update(None, "user_version", VERSION)?;
    transaction.commit()?;
    connection.close().map_err(|(_, error)| error.into())
}

/// Nobody else writes; a reader in the way must not keep a tap waiting.
const PATIENCE: Duration = Duration::from_millis(100);

/// The one writer's connection.
pub(crate) fn connect(paths: &Paths) -> Result<Connection, Fault> {
    connect_to_write(paths).map_err(|fault| left_of_ours(paths, fault))
}

fn connect_to_write(paths: &Paths) -> Result<Connection, Fault> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(paths.journal(), flags)?;
    connection.busy_timeout(PATIENCE)?;
    recognise(&connection)?;
    write_ahead(&connection)?;
    connection.execute_batch(
        "PRAGMA foreign_keys = ON;
         PRAGMA recursive_triggers = ON;
         PRAGMA secure_delete = ON;
         PRAGMA fullfsync = ON;
         PRAGMA checkpoint_fullfsync = ON;
         PRAGMA trusted_schema = OFF;
         PRAGMA cell_size_check = ON;",
    )?;
    Ok(connection)
}

/// A commit is on the disk before anyone hears of it: both settings are read back.
fn write_ahead(connection: &Connection) -> Result<(), Fault> {
    let mode: String = connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    let synchronous: i64 = connection.pragma_query_value(None, "synchronous", |row| row.get(0))?;
    match (mode.as_str(), synchronous) {
        ("wal", 2) => Ok(()),
        _ => Err(Fault::Device(format!("journal_mode {mode}, synchronous {synchronous}"))),
    }
}

/// A connection that cannot write, beside a running app or alone.
pub(crate) fn connect_to_read(paths: &Paths) -> Result<Connection, Fault> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    if !exists(&paths.journal())? {
        return Err(if was_used(paths)? { Fault::Missing } else { Fault::NoRecord });
    }
    let connection = Connection::open_with_flags(paths.journal(), flags)?;
    match recognise(&connection).map_err(|fault| left_of_ours(paths, fault)) {
        // Without its -wal file nobody is writing, so it can be read as it lies.
        Err(Fault::Device(_) | Fault::ReadOnly) if !exists(&paths.wal())? => connect_as_it_lies(paths),
        Err(fault) => Err(fault),
        Ok(()) => Ok(connection),
    }
}

fn connect_as_it_lies(paths: &Paths) -> Result<Connection, Fault> {
    let flags =
        OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX | OpenFlags::SQLITE_OPEN_URI;
    let path = paths.journal().to_string_lossy().replace('%', "%25").replace('?', "%3f").replace('#', "%23");
    let connection = Connection::open_with_flags(format!("file:{path}?immutable=1"), flags)?;
    recognise(&connection).map_err(|fault| left_of_ours(paths, fault))?;
    Ok(connection)
}

fn recognise(connection: &Connection) -> Result<(), Fault> {
    let application: i64 = connection.pragma_query_value(None, "application_id", |row| row.get(0))?;
    if application != APPLICATION {
        return Err(Fault::NotAJournal);
    }
    let found: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    match found.cmp(&VERSION) {
        std::cmp::Ordering::Greater => Err(Fault::Newer { found, known: VERSION }),
        std::cmp::Ordering::Less => Err(Fault::UnknownVersion { found, known: VERSION }),
        std::cmp::Ordering::Equal => compare(connection),
    }
}

/// The file's tables and triggers are those this version makes, word for word.
fn compare(connection: &Connection) -> Result<(), Fault> {
    let ours = Connection::open_in_memory()?;
    ours.execute_batch(SCHEMA)?;
    let (found, made) = (objects(connection)?, objects(&ours)?);
    match found.iter().chain(&made).find(|object| !(found.contains(object) && made.contains(object))) {
        Some((name, _)) => Err(Fault::Altered(name.clone())),
        None => Ok(()),
    }
}

fn objects(connection: &Connection) -> Result<Vec<(String, Option<String>)>, Fault> {
    let mut query = connection.prepare("SELECT name, sql FROM sqlite_schema ORDER BY name")?;
    let rows = query.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// SQLite's own look at the structure of the file.
pub(crate) fn quick_check(connection: &Connection) -> Result<(), Fault> {
    let found: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if found == "ok" { Ok(()) } else { Err(Fault::Damaged(found)) }
}
