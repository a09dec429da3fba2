//! A page can hang and leave its last card standing: after two seconds of silence it is loaded again.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use tauri::{AppHandle, Manager, Runtime};

use crate::bedside::Bedside;
use crate::window::{is_seen, load_again};

const LOOK_EVERY: Duration = Duration::from_millis(250);
/// The test clock's build is tried on machines that compile meanwhile.
const SILENCE: Duration = Duration::from_secs(if cfg!(feature = "test-clock") { 10 } else { 2 });
/// A page that has just been loaded gets this long to draw its first card.
const LOADING: Duration = Duration::from_secs(5);

/// When the page was last loaded again.
#[derive(Default)]
pub struct LastLoad(Mutex<Option<Instant>>);

impl LastLoad {
    pub fn is_now(&self) {
        *self.lock() = Some(Instant::now());
    }

    fn is_fresh(&self) -> bool {
        self.lock().is_some_and(|at| at.elapsed() < LOADING)
    }

    fn lock(&self) -> MutexGuard<'_, Option<Instant>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Starts looking; ends with the program.
pub fn start<R: Runtime>(app: AppHandle<R>) -> std::io::Result<()> {
    thread::Builder::new().name("watchdog".into()).spawn(move || look(&app))?;
    Ok(())
}

fn look<R: Runtime>(app: &AppHandle<R>) {
    loop {
        thread::sleep(LOOK_EVERY);
        let silent = app.state::<Bedside>().silent_for().is_some_and(|silence| silence >= SILENCE);
        let loading = app.state::<LastLoad>().is_fresh();
        let Some(window) = app.get_webview_window("main") else { return };
        if silent && !loading && is_seen(&window) {
            if let Err(fault) = load_again(&window) {
                eprintln!("Holdfast: {fault}");
            }
            app.state::<LastLoad>().is_now();
        }
    }
}
