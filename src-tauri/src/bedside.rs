//! What stands behind the page: the running session, or the one sentence why there is none.

use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use domain::contract::{Sent, View};
use session::{NotTaken, OpenFault, Options, Session};

use crate::awake::Screen;
use crate::refused;

pub struct Bedside {
    session: Mutex<Option<Session>>,
    refused: Option<View<String>>,
}

impl Bedside {
    /// Opens the record in `folder`. Where that fails, the page shows why.
    pub fn open(folder: &Path) -> Bedside {
        match options().and_then(|options| Session::open(folder, options)) {
            Ok(session) => Bedside { session: Mutex::new(Some(session)), refused: None },
            Err(fault) => Bedside { session: Mutex::new(None), refused: refused::view(&fault) },
        }
    }

    pub fn send(&self, sent: Sent) -> Result<(), NotTaken> {
        self.session().as_ref().ok_or(NotTaken::Ended)?.send(sent)
    }

    pub fn watch(&self, mut show: impl FnMut(View<String>) -> bool + Send + 'static) -> Result<(), NotTaken> {
        if let Some(view) = &self.refused {
            return show(view.clone()).then_some(()).ok_or(NotTaken::Ended);
        }
        let screen = Screen::new();
        self.session().as_ref().ok_or(NotTaken::Ended)?.watch(move |view| {
            screen.keep_lit(is_in_check(&view));
            show(view)
        })
    }

    pub fn painted(&self, card: u32) {
        if let Some(session) = &*self.session() {
            session.painted(card);
        }
    }

    pub fn hand_in(&self, kind: &str, bytes: Vec<u8>) -> Result<(), NotTaken> {
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
        self.session.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn is_in_check(view: &View<String>) -> bool {
    view.rail.is_some() || view.safety.is_some()
}

#[cfg(not(feature = "test-clock"))]
fn options() -> Result<Options, OpenFault> {
    Options::new()
}

/// `HOLDFAST_TEST_CLOCK` names how many times as fast as the world the session's clock runs.
#[cfg(feature = "test-clock")]
fn options() -> Result<Options, OpenFault> {
    let factor = std::env::var("HOLDFAST_TEST_CLOCK").ok().and_then(|text| text.parse().ok()).unwrap_or(20);
    let clock = session::FastClock::new(factor).map_err(|_| OpenFault::NoClock)?;
    Ok(Options { clock: Box::new(clock), ..Options::new()? })
}
