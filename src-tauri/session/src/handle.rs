//! The session as others hold it.

use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::{
    Receiver, RecvTimeoutError, Sender, SyncSender, TryRecvError, TrySendError, channel, sync_channel,
};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use domain::command::Command;
use domain::contract::{Sent, View};
use domain::event::What;
use domain::leaving::{BACKUP_KIND, Way};
use domain::library::{HandedIn, Paper};
use domain::moment::Moment;
use domain::{Event, State};
use journal::{Fault, Record, Unreadable, Verified};
use seal::Effort;

use crate::attention::Attention;
use crate::background::Background;
use crate::clock::{Clock, SharedClock, SystemClock};
use crate::desk::{Aside, Desk, moment};
use crate::fold::Fold;
use crate::input::{Input, NotTaken, QUEUE};
use crate::judging::Judging;
use crate::patient::Patient;
use crate::pins;
use crate::screen::Screen;
use crate::signing::Signing;
use crate::trouble::OpenFault;

/// The first cards come before the long reading.
const AFTER_THE_START: Duration = Duration::from_secs(2);

/// How a session runs.
pub struct Options {
    pub clock: Box<dyn Clock>,
    /// How hard a guess at an educator's PIN is made for keys that are locked from now on.
    pub effort: Effort,
}

impl Options {
    /// By the device's clocks.
    pub fn new() -> Result<Options, OpenFault> {
        let clock = SystemClock::new().map_err(|_| OpenFault::NoClock)?;
        Ok(Options::by(Box::new(clock)))
    }

    /// By this clock, as shipped otherwise.
    pub fn by(clock: Box<dyn Clock>) -> Options {
        Options { clock, effort: Effort::SHIPPED }
    }
}

/// A running session on one data folder. Dropping it closes it.
pub struct Session {
    inbox: SyncSender<Input>,
    attention: Arc<Attention>,
    thread: Option<JoinHandle<()>>,
    behind: Option<Behind>,
}

/// The reading of the whole record behind the first cards. It ends when `wanted` is dropped, and is waited for:
/// a reader that outlived its session would hold the files of a folder that may be another's by then.
struct Behind {
    wanted: Sender<()>,
    thread: JoinHandle<()>,
}

impl Session {
    /// Opens the record in `folder`, verifies its snapshot and tail, and starts. The rest of the
    /// record is verified in the background; a break there is shown on the card.
    pub fn open(folder: &Path, options: Options) -> Result<Session, OpenFault> {
        let (mut fold, alive) = Fold::open(folder)?;
        let now = moment(&*options.clock, fresh()?);
        let mut started = Some(Command::Started { alive });
        // What stood open may be hours old: it is shown again only once this start stands in the record.
        if fold.state.is_at_work()
            && let Some(started) = started.take()
        {
            fold.begin(started, now)?;
        }
        let attention = Arc::new(Attention::default());
        let screen = Screen { sink: None, attention: Arc::clone(&attention) };
        let clock = SharedClock::new(options.clock);
        let patient =
            Patient::start(clock.clone()).map_err(|error| OpenFault::NoThread(error.to_string()))?;
        let (inbox, taken) = sync_channel(QUEUE);
        let (background, workers) = Background::start(&inbox)?;
        let signing = Signing::new(background.hands(), folder.to_owned(), options.effort);
        let judging = Judging::new(background.hands());
        let aside = Aside { patient, judging, signing, background };
        let desk = Desk::new(fold, Box::new(clock), screen, aside, now);
        let thread = spawn("session", move || {
            desk.run(&taken, started);
            drop(taken);
            workers.join();
        })?;
        let mut session = Session { inbox, attention, thread: Some(thread), behind: None };
        session.behind = Some(verify_behind(folder, session.inbox.clone())?);
        Ok(session)
    }

    /// Puts an act into the queue. Its effect comes as a view.
    pub fn send(&self, mut sent: Sent) -> Result<(), NotTaken> {
        let pins = pins::taken_out(&mut sent);
        self.put(Input::Sent(sent, pins))
    }

    /// Sends every view from now on, the present one first, to `sink`; the sink before gets none.
    /// `sink` answers `false` when nobody is there any more.
    pub fn watch(&self, sink: impl FnMut(View<String>) -> bool + Send + 'static) -> Result<(), NotTaken> {
        self.inbox.send(Input::Watch(Box::new(sink))).map_err(|_| NotTaken::Ended)
    }

    /// Sends every batch of a simulated patient's strip from now on to `sink`; the sink before gets none.
    pub fn watch_strip(&self, sink: impl FnMut(Vec<u8>) -> bool + Send + 'static) -> Result<(), NotTaken> {
        self.inbox.send(Input::WatchStrip(Box::new(sink))).map_err(|_| NotTaken::Ended)
    }

    /// The page has put this card on the glass.
    pub fn painted(&self, card: u32) {
        self.attention.painted(card);
    }

    /// The page's process is gone, and another is being started.
    pub fn page_died(&self) {
        self.attention.page_died();
        // Only wakes the session: where the queue is full it is awake, and an ended one has nobody to wake.
        let _ = self.inbox.try_send(Input::PageDied);
    }

    /// How long a view has been waiting for the glass; `None` when none is. A page that stays
    /// silent for 2 s while its window can be seen is dead: load it again.
    pub fn silent_for(&self) -> Option<Duration> {
        self.attention.silent_for()
    }

    /// Whether the tablet may turn its screen off in a check: said on each dial card.
    pub fn screen_may_sleep(&self, may: bool) -> Result<(), NotTaken> {
        self.inbox.send(Input::ScreenMaySleep(may)).map_err(|_| NotTaken::Ended)
    }

    /// A file for the card that asks for one; what stands against it comes as a sentence on that card.
    ///
    /// # Errors
    /// `NotAskedFor` where no card ever asks for this kind. A file that is too long, or no text, is taken
    /// and answered in words.
    pub fn hand_in(&self, kind: &str, bytes: &[u8]) -> Result<(), NotTaken> {
        match kind {
            domain::PICTURE_FIELD => return self.put(Input::Picture(bytes.to_vec())),
            domain::CAMERA_FIELD => return self.put(Input::Frame(bytes.to_vec())),
            BACKUP_KIND => return self.put(Input::Backup(bytes.to_vec())),
            _ => {}
        }
        let paper = Paper::of_kind(kind).ok_or(NotTaken::NotAskedFor)?;
        self.put(match paper {
            Paper::SignedOff => Input::SignedFile(signoff::read(bytes)),
            Paper::Rules | Paper::Generator => Input::HandedIn(HandedIn::new(paper, bytes)),
        })
    }

    fn put(&self, input: Input) -> Result<(), NotTaken> {
        self.inbox.try_send(input).map_err(|error| match error {
            TrySendError::Full(_) => NotTaken::Busy,
            TrySendError::Disconnected(_) => NotTaken::Ended,
        })
    }

    /// Ends the session once what was sent before has been done.
    pub fn close(mut self) {
        self.end();
    }

    /// The reader first: whoever closes the record last puts its log away, and only the session may write.
    fn end(&mut self) {
        self.end_reading();
        let Some(thread) = self.thread.take() else { return };
        // A session that ended by itself is closed already.
        let _ = self.inbox.send(Input::Close);
        if thread.join().is_err() {
            eprintln!("Holdfast: the session broke off");
        }
    }

    fn end_reading(&mut self) {
        let Some(Behind { wanted, thread }) = self.behind.take() else { return };
        drop(wanted);
        if thread.join().is_err() {
            eprintln!("Holdfast: the reading of the record broke off");
        }
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        self.end();
    }
}

/// Reads a whole record without writing, also beside a running session: the chain holds, and every
/// entry that stands can be read.
pub fn verify(folder: &Path) -> Result<Verified, Fault> {
    journal::verify(folder, can_be_read)
}

fn can_be_read(record: Record<'_>) -> Result<(), Unreadable> {
    serde_json::from_slice::<Event>(record.body).map(|_| ()).map_err(|_| Unreadable)
}

/// Reads a whole record without writing, also beside a running session, and what it amounts to.
pub fn read(folder: &Path) -> Result<State, Fault> {
    read_with_head(folder).map(|(state, _)| state)
}

pub(crate) fn read_with_head(folder: &Path) -> Result<(State, Verified), Fault> {
    let mut state = State::default();
    let verified = journal::verify(folder, |record| {
        let event: Event = serde_json::from_slice(record.body).map_err(|_| Unreadable)?;
        domain::apply_to(&mut state, &event);
        Ok(())
    })?;
    Ok((state, verified))
}

/// Records that something of this record leaves the tablet, and not through the app.
///
/// # Errors
/// `InUse` beside a running app, which alone writes then; and whatever a record can refuse.
pub fn record_leaving(folder: &Path, way: Way) -> Result<(), OpenFault> {
    let (mut fold, _) = Fold::open(folder)?;
    Ok(fold.record(&[Event { at: now()?, what: What::TakenOut(way) }])?)
}

/// This instant, by the device's clocks.
///
/// # Errors
/// The device gives no clock or no random bytes.
pub fn now() -> Result<Moment, OpenFault> {
    Ok(moment(&*Options::new()?.clock, fresh()?))
}

fn fresh() -> Result<[u8; 16], OpenFault> {
    let mut fresh = [0; 16];
    getrandom::fill(&mut fresh).map_err(|_| OpenFault::NoClock)?;
    Ok(fresh)
}

fn verify_behind(folder: &Path, inbox: SyncSender<Input>) -> Result<Behind, OpenFault> {
    let folder = folder.to_owned();
    let (wanted, until) = channel();
    let thread = spawn("verify", move || {
        if until.recv_timeout(AFTER_THE_START) == Err(RecvTimeoutError::Timeout)
            && let Some(verified) = verified_until(&folder, &until)
        {
            // Nobody hears it when the session has ended meanwhile.
            let _ = inbox.send(Input::Verified(verified));
        }
    })?;
    Ok(Behind { wanted, thread })
}

/// `None` where it was no longer wanted.
fn verified_until(folder: &Path, until: &Receiver<()>) -> Option<Result<Verified, Fault>> {
    let mut wanted = true;
    let verified = journal::verify(folder, |record| {
        wanted = until.try_recv() != Err(TryRecvError::Disconnected);
        if wanted { can_be_read(record) } else { Err(Unreadable) }
    });
    wanted.then_some(verified)
}

pub(crate) fn spawn(name: &str, work: impl FnOnce() + Send + 'static) -> Result<JoinHandle<()>, OpenFault> {
    thread::Builder::new()
        .name(name.into())
        .spawn(work)
        .map_err(|error| OpenFault::NoThread(error.to_string()))
}
