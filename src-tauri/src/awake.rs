//! Keeps the screen lit while a check is open, where the desktop lets us ask.

use std::cell::Cell;
use std::sync::Arc;

/// Hears true when the screen may sleep although it should not.
pub type Tell = Arc<dyn Fn(bool) + Send + Sync>;

/// The wish of one page, given back when dropped.
pub struct Screen {
    lit: Cell<bool>,
    wish: Cell<Option<desktop::Hold>>,
    tell: Tell,
}

impl Screen {
    pub fn new(tell: Tell) -> Screen {
        Screen { lit: Cell::default(), wish: Cell::default(), tell }
    }

    /// Wishes the screen lit, or gives it back. A wish for what already holds costs nothing.
    pub fn keep_lit(&self, lit: bool) {
        if self.lit.replace(lit) != lit {
            self.wish.set(lit.then(|| desktop::Hold::ask(&self.tell)).flatten());
        }
    }
}

#[cfg(target_os = "linux")]
mod desktop {
    use std::sync::Arc;
    use std::sync::mpsc::{Receiver, Sender, channel};
    use std::thread;

    use domain::say::Say;
    use gtk::gio::{BusType, Cancellable, DBusCallFlags, DBusConnection, bus_get_sync};
    use gtk::glib::{Error, FileError, Variant};
    use words::Language;

    use super::Tell;

    const SCREEN: &str = "org.freedesktop.ScreenSaver";
    const SCREEN_PATH: &str = "/org/freedesktop/ScreenSaver";
    const PATIENCE_MS: i32 = 2_000;

    /// Held until dropped. Asked for on a thread of its own: a slow desktop must not hold up a card.
    pub struct Hold {
        _until_dropped: Sender<()>,
    }

    impl Hold {
        pub fn ask(tell: &Tell) -> Option<Hold> {
            let (held, dropped) = channel();
            let tell = Arc::clone(tell);
            let asking = thread::Builder::new().name("screen".into()).spawn(move || hold(&dropped, &tell));
            asking.ok().map(|_| Hold { _until_dropped: held })
        }
    }

    fn hold(dropped: &Receiver<()>, tell: &Tell) {
        if let Err(fault) = hold_while(dropped, tell) {
            eprintln!("Holdfast: the desktop does not keep the screen lit ({fault}).");
            tell(true);
        }
    }

    fn hold_while(dropped: &Receiver<()>, tell: &Tell) -> Result<(), Error> {
        let bus = bus_get_sync(BusType::Session, Cancellable::NONE)?;
        let why = words::say(&Say::ScreenKeptLit, Language::English)
            .map_err(|unsaid| Error::new(FileError::Failed, &unsaid.to_string()))?;
        let cookie = call(&bus, "Inhibit", &Variant::from(("Holdfast", why)))?;
        tell(false);
        // Nothing is ever sent: the wait ends when the hold is dropped.
        if dropped.recv().is_err() {
            call(&bus, "UnInhibit", &cookie)?;
        }
        Ok(())
    }

    /// The answer to `Inhibit`, a tuple of one cookie, is what `UnInhibit` takes.
    fn call(bus: &DBusConnection, method: &str, with: &Variant) -> Result<Variant, Error> {
        bus.call_sync(
            Some(SCREEN),
            SCREEN_PATH,
            SCREEN,
            method,
            Some(with),
            None,
            DBusCallFlags::NONE,
            PATIENCE_MS,
            Cancellable::NONE,
        )
    }
}

#[cfg(not(target_os = "linux"))]
mod desktop {
    use super::Tell;

    /// Nothing is asked for on other platforms yet, and the card says so.
    pub struct Hold;

    impl Hold {
        pub fn ask(tell: &Tell) -> Option<Hold> {
            tell(true);
            None
        }
    }
}
