//! Keeps the screen lit while a check is open, where the desktop lets us ask.

use std::sync::mpsc::{Receiver, Sender, channel};

use gtk::gio::{BusType, Cancellable, DBusCallFlags, DBusConnection, bus_get_sync};
use gtk::glib::{Error, Variant, VariantTy};

const SCREEN: &str = "org.freedesktop.ScreenSaver";
const SCREEN_PATH: &str = "/org/freedesktop/ScreenSaver";
const PATIENCE_MS: i32 = 2_000;

/// Asks on a thread of its own: a slow desktop must not hold up a card.
pub struct Screen(Sender<bool>);

impl Screen {
    /// `tell` hears true when the desktop did not agree and the screen may sleep.
    pub fn new(tell: impl Fn(bool) + Send + 'static) -> std::io::Result<Screen> {
        let (wishes, heard) = channel();
        std::thread::Builder::new().name("screen".into()).spawn(move || follow(&heard, tell))?;
        Ok(Screen(wishes))
    }

    /// Wishes the screen lit, or gives it back. A wish for what already holds costs nothing.
    pub fn keep_lit(&self, lit: bool) {
        // The thread ends only with the program; then there is nothing left to light.
        self.0.send(lit).ok();
    }
}

fn follow(heard: &Receiver<bool>, tell: impl Fn(bool)) {
    let mut held = None;
    let mut before = false;
    while let Ok(lit) = heard.recv() {
        if lit == before {
            continue;
        }
        before = lit;
        held = if lit { Hold::ask().ok() } else { None };
        tell(lit && held.is_none());
    }
}

/// The desktop's promise, given back when dropped.
struct Hold {
    bus: DBusConnection,
    cookie: u32,
}

impl Hold {
    fn ask() -> Result<Hold, Error> {
        let bus = bus_get_sync(BusType::Session, Cancellable::NONE)?;
        let wish = Variant::from(("Holdfast", "A pacing check is open"));
        let answer = call(&bus, "Inhibit", &wish, Some("(u)"))?;
        let (cookie,) = answer.get::<(u32,)>().unwrap_or_default();
        Ok(Hold { bus, cookie })
    }
}

impl Drop for Hold {
    fn drop(&mut self) {
        if let Err(fault) = call(&self.bus, "UnInhibit", &Variant::from((self.cookie,)), None) {
            eprintln!("{fault}");
        }
    }
}

fn call(bus: &DBusConnection, method: &str, with: &Variant, answer: Option<&str>) -> Result<Variant, Error> {
    let answer = answer.and_then(|kind| VariantTy::new(kind).ok());
    bus.call_sync(
        Some(SCREEN),
        SCREEN_PATH,
        SCREEN,
        method,
        Some(with),
        answer,
        DBusCallFlags::NONE,
        PATIENCE_MS,
        Cancellable::NONE,
    )
}
