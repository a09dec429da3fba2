//! The one writer.

use std::collections::BTreeSet;
use std::path::Path;

use rusqlite::{Connection, Transaction, TransactionBehavior};

use crate::alive::{Alive, AliveFile};
use crate::chain::{self, Break, Head, Record, Unreadable, Walk};
use crate::fault::Fault;
use crate::folder::{Lock, Paths};
use crate::reserve::Reserve;
use crate::{replace, rows, schema};

/// The record of one data folder, open for writing. Holds the folder's lock until dropped.
pub struct Journal {
    paths: Paths,
    connection: Connection,
    head: Head,
    alive: AliveFile,
    reserve: Reserve,
    /// The first fault after which the disk may hold something else than is believed.
    latched: Option<Fault>,
    /// Erased bodies may still stand in the write-ahead log.
    wipe_owed: bool,
    /// Or on pages of the file.
    rewrite_owed: bool,
    // Last: the lock goes after the connection.
    _lock: Lock,
}

/// What stood beside the chain when it was opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// `None` also when it was damaged: a cache, the chain makes it again.
    pub snapshot: Option<Snapshot>,
    /// The last alive time written; `None` also when it cannot be read.
    pub alive: Option<Vec<u8>>,
}

/// The caller's fold of the chain up to `head`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snapshot {
    pub head: Head,
    pub state: Vec<u8>,
}

impl Journal {
    /// Opens the record in `folder`, or makes both. Proves nothing yet: see [`Journal::replay`].
    pub fn open(folder: &Path) -> Result<(Journal, Kept), Fault> {
        let paths = Paths::of(folder);
        let lock = Lock::take(&paths)?;
        let mut reserve = Reserve::open(&paths.reserve())?;
        let parts = Parts::open(&paths).or_else(|fault| {
            // SQLite reports a full disk in several ways while it opens.
            let may_be_full = matches!(fault, Fault::DiskFull | Fault::Device(_));
            if may_be_full && reserve.spend()? { Parts::open(&paths) } else { Err(fault) }
        })?;
        reserve.fill_unless_spent()?;
        let Parts { connection, head, file, alive, snapshot, wipe_owed, rewrite_owed } = parts;
        let journal = Journal {
            paths,
            connection,
            head,
            alive: file,
            reserve,
            latched: None,
            wipe_owed,
            rewrite_owed,
            _lock: lock,
        };
        Ok((journal, Kept { snapshot, alive: alive.map(|alive| alive.body) }))
    }

    /// The disk is full, or so nearly that no room could be put by: finish the check, free space.
    pub fn room_is_short(&self) -> bool {
        !self.reserve.is_full()
    }

    /// The last record.
    pub fn head(&self) -> Head {
        self.head
    }

    /// Verifies every record after `from` and hands over those whose body stands, in order.
    pub fn replay(
        &self,
        from: Head,
        mut each: impl FnMut(Record<'_>) -> Result<(), Unreadable>,
    ) -> Result<Head, Fault> {
        let mut walk = Walk::from(from);
        rows::each_after(&self.connection, from.seq, |row| {
            let Some(record) = walk.step(&row)? else { return Ok(()) };
            each(record).map_err(|Unreadable| Break::Unreadable { seq: row.seq }.into())
        })?;
        Ok(walk.finish()?)
    }

    /// Appends all bodies or none. When it returns `Ok`, they are on the disk.
    pub fn append(&mut self, bodies: &[Vec<u8>]) -> Result<Head, Fault> {
        self.write(|transaction, head| {
            bodies
                .iter()
                .try_fold(head, |head, body| rows::insert(transaction, head, &chain::event_body(body)))
        })
    }

    /// Takes away the bodies of `erased` and appends the record that says so, in one transaction.
    /// The snapshot goes with them, since it may repeat what they said.
    pub fn erase(&mut self, erased: &BTreeSet<u32>, body: &[u8]) -> Result<Head, Fault> {
        let stored = chain::erasure_body(erased, body);
        let head = self.write(|transaction, head| {
            erased.iter().try_for_each(|seq| erasable(transaction, *seq))?;
            let head = rows::insert(transaction, head, &stored)?;
            rows::erase(transaction, head, erased)?;
            rows::drop_snapshot(transaction)?;
            Ok(head)
        })?;
        self.wipe_owed = true;
        self.scrub()?;
        Ok(head)
    }

    /// Puts the record of the folder `prepared`, closed and on the same disk, in the place of this one.
    ///
    /// # Errors
    /// Before the record is moved in, the old one stands; after any fault it must be opened anew.
    pub fn adopt(&mut self, prepared: &Path) -> Result<Kept, Fault> {
        self.adopted(prepared).inspect_err(|fault| self.latched = Some(fault.clone()))
    }

    fn adopted(&mut self, prepared: &Path) -> Result<Kept, Fault> {
        rows::empty_log(&self.connection)?;
        // Closes the file, with its log, before another takes its name.
        self.connection = Connection::open_in_memory()?;
        replace::swap(&self.paths, prepared)?;
        let Parts { connection, head, file, alive, snapshot, wipe_owed, rewrite_owed } =
            Parts::open(&self.paths)?;
        (self.connection, self.head, self.alive) = (connection, head, file);
        (self.wipe_owed, self.rewrite_owed) = (wipe_owed, rewrite_owed);
        Ok(Kept { snapshot, alive: alive.map(|alive| alive.body) })
    }

    /// Keeps the caller's fold of the whole chain, so that the next start need not make it again.
    pub fn snapshot(&mut self, state: &[u8]) -> Result<(), Fault> {
        self.write(|transaction, head| rows::put_snapshot(transaction, head, state).map(|()| head))?;
        self.tidy()
    }

    /// Writes the alive time (at most 1,024 bytes) and the head it belongs to; on the disk when it returns.
    pub fn alive(&mut self, body: &[u8]) -> Result<(), Fault> {
        self.alive.write(&Alive { head: self.head, body: body.to_owned() })
    }

    /// Rewrites the file and empties its log, where that is still owed. Erased bytes are off the disk when this returns
    /// `true`.
    pub fn wipe(&mut self) -> Result<bool, Fault> {
        if self.rewrite_owed {
            self.scrub()?
        } else {
            self.tidy()?
        }
        Ok(!self.is_wipe_owed())
    }

    /// Erased bytes may still stand in the file or in its log: a reader was in the way, or the disk was full.
    pub fn is_wipe_owed(&self) -> bool {
        self.wipe_owed || self.rewrite_owed
    }

    /// A page may keep a trace of what stood on it before it was divided, so the whole file is written anew.
    fn scrub(&mut self) -> Result<(), Fault> {
        self.rewrite_owed = match rows::rewrite(&self.connection) {
            Ok(()) => false,
            Err(fault) if fault.leaves_disk_known() => true,
            Err(fault) => return Err(self.latch(fault)),
        };
        self.tidy()
    }

    fn tidy(&mut self) -> Result<(), Fault> {
        let emptied = rows::empty_log(&self.connection);
        match emptied {
            Ok(emptied) => self.wipe_owed &= !emptied,
            Err(fault) => return Err(self.latch(fault)),
        }
        Ok(())
    }

    fn write(&mut self, act: impl Fn(&Transaction<'_>, Head) -> Result<Head, Fault>) -> Result<Head, Fault> {
        if let Some(first) = &self.latched {
            return Err(Fault::Latched(Box::new(first.clone())));
        }
        let mut done = transact(&mut self.connection, self.head, &act);
        if done == Err(Fault::DiskFull) && self.reserve.spend()? {
            done = transact(&mut self.connection, self.head, &act);
        }
        match done {
            Ok(head) => self.head = head,
            Err(fault) => return Err(self.latch(fault)),
        }
        Ok(self.head)
    }

    fn latch(&mut self, fault: Fault) -> Fault {
        if !fault.leaves_disk_known() {
            self.latched = Some(fault.clone());
        }
        fault
    }
}

/// What opening yields beside the lock and the reserve.
struct Parts {
    connection: Connection,
    head: Head,
    file: AliveFile,
    alive: Option<Alive>,
    snapshot: Option<Snapshot>,
    wipe_owed: bool,
    rewrite_owed: bool,
}

impl Parts {
    fn open(paths: &Paths) -> Result<Parts, Fault> {
        schema::ensure(paths)?;
        let connection = schema::connect(paths)?;
        let rewrite_owed = owes_a_rewriting(&connection)?;
        let wipe_owed = !rows::empty_log(&connection)?;
        let head = rows::head(&connection)?;
        let (file, alive) = AliveFile::open(&paths.alive())?;
        anchor(&connection, head, alive.as_ref())?;
        let snapshot = rows::snapshot(&connection)?.map(|(head, state)| Snapshot { head, state });
        Ok(Parts { connection, head, file, alive, snapshot, wipe_owed, rewrite_owed })
    }
}

/// A start in the middle of an erasure: its record stands, the rewriting may not have come to its end. `true` where it
/// cannot be done now.
fn owes_a_rewriting(connection: &Connection) -> Result<bool, Fault> {
    if !rows::ends_with_an_erasure(connection)? {
        return Ok(false);
    }
    match rows::rewrite(connection) {
        Ok(()) => Ok(false),
        Err(fault) if fault.leaves_disk_known() => Ok(true),
        Err(fault) => Err(fault),
    }
}

fn transact(
    connection: &mut Connection,
    head: Head,
    act: impl Fn(&Transaction<'_>, Head) -> Result<Head, Fault>,
) -> Result<Head, Fault> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let head = act(&transaction, head)?;
    transaction.commit()?;
    Ok(head)
}

fn erasable(connection: &Connection, seq: u32) -> Result<(), Fault> {
    match rows::erasable(connection, seq)? {
        true => Ok(()),
        false => Err(Fault::NotErasable { seq }),
    }
}

/// The chain still holds the record on which the tablet was last seen alive.
pub(crate) fn anchor(connection: &Connection, head: Head, alive: Option<&Alive>) -> Result<(), Fault> {
    let Some(Alive { head: stood, .. }) = alive else { return Ok(()) };
    if stood.seq > head.seq {
        return Err(Break::Shortened { had: stood.seq, has: head.seq }.into());
    }
    match rows::stands_on(connection, *stood)? {
        true => Ok(()),
        false => Err(Break::Replaced { seq: stood.seq }.into()),
    }
}
