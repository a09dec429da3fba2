//! What stands behind the page: the running session, or the one sentence why there is none.

use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use domain::contract::{Sent, View};
use session::{NotTaken, OpenFault, Options, Session};

use crate::awake::{Screen, Tell};
use crate::refused;

pub struct Bedside {
    running: Running,
    refused: Option<View<String>>,
}

/// Empty when none could be opened, and once it is closed.
type Running = Arc<Mutex<Option<Session>>>;

impl Bedside {
    /// Opens the record in `folder`. Where that fails, the page shows why.
    pub fn open(folder: &Path) -> Bedside {
        let opened = options().and_then(|options| Session::open(folder, options));
        let refused = opened.as_ref().err().and_then(|fault| refused::view(fault, folder));
        Bedside { running: Arc::new(Mutex::new(opened.ok())), refused }
    }

    pub fn send(&self, sent: Sent) -> Result<(), NotTaken> {
        self.session().as_ref().ok_or(NotTaken::Ended)?.send(sent)
    }

    pub fn watch(&self, mut show: impl FnMut(View<String>) -> bool + Send + 'static) -> Result<(), NotTaken> {
        if let Some(view) = &self.refused {
            return show(view.clone()).then_some(()).ok_or(NotTaken::Ended);
        }
        let screen = Screen::new(tell(&self.running));
        self.session().as_ref().ok_or(NotTaken::Ended)?.watch(move |view| {
            screen.keep_lit(is_in_check(&view));
            show(view)
        })
    }

    pub fn watch_strip(&self, take: impl FnMut(Vec<u8>) -> bool + Send + 'static) -> Result<(), NotTaken> {
        self.session().as_ref().ok_or(NotTaken::Ended)?.watch_strip(take)
    }

    pub fn painted(&self, card: u32) {
        if let Some(session) = &*self.session() {
            session.painted(card);
        }
    }

    pub fn page_died(&self) {
        if let Some(session) = &*self.session() {
            session.page_died();
        }
    }

    pub fn hand_in(&self, kind: &str, bytes: &[u8]) -> Result<(), NotTaken> {
        self.session().as_ref().ok_or(NotTaken::Ended)?.hand_in(kind, bytes)
    }

    /// How long a view has been waiting for the page.
    pub fn silent_for(&self) -> Option<Duration> {
        self.session().as_ref().and_then(Session::silent_for)
    }

    /// Ends the session once what was sent before has been done.
    pub fn close(&self) {
        if let Some(session) = self.session().take() {
            session.close();
        }
    }

    fn session(&self) -> MutexGuard<'_, Option<Session>> {
        lock(&self.running)
    }
}

fn lock(running: &Running) -> MutexGuard<'_, Option<Session>> {
    running.lock().unwrap_or_else(PoisonError::into_inner)
}

fn tell(running: &Running) -> Tell {
    let running = Arc::clone(running);
    Arc::new(move |may_sleep| {
        // A session that has ended draws no card that could say it.
        if let Some(session) = &*lock(&running) {
            session.screen_may_sleep(may_sleep).ok();
        }
    })
}

fn is_in_check(view: &View<String>) -> bool {
    let practises = view.practice.as_ref().is_some_and(|practice| practice.monitor.is_some());
    practises || view.rail.is_some() || view.safety.is_some()
}

#[cfg(not(feature = "test-clock"))]
fn options() -> Result<Options, OpenFault> {
    Options::new()
}

/// `HOLDFAST_TEST_CLOCK` names how many times as fast as the world the session's clock runs, `HOLDFAST_TEST_AHEAD_DAYS`
/// how far its wall clock is set ahead; with `HOLDFAST_TEST_TRUE_TAPS` a double tap is as short as in the world.
#[cfg(feature = "test-clock")]
fn options() -> Result<Options, OpenFault> {
    let factor = std::env::var("HOLDFAST_TEST_CLOCK").ok().and_then(|text| text.parse().ok()).unwrap_or(20);
    let days =
        std::env::var("HOLDFAST_TEST_AHEAD_DAYS").ok().and_then(|text| text.parse().ok()).unwrap_or(0_i64);
    let clock = session::FastClock::new(factor).map_err(|_| OpenFault::NoClock)?;
    let true_taps = std::env::var_os("HOLDFAST_TEST_TRUE_TAPS").is_some();
    Ok(Options::by(Box::new(clock.set_ahead(days * 86_400_000).with_true_taps(true_taps))))
}
