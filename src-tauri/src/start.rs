//! From the command line to a running window, or to one sentence that says why not.

use std::env;
use std::path::PathBuf;
use std::process::ExitCode;

use domain::say::Say;
use tauri::{App, AppHandle, Manager, RunEvent, Wry};
use words::Language;

use crate::bedside::Bedside;
use crate::watchdog::LastLoad;
use crate::{bridge, folder, watchdog, window};

/// Exit code when there is no display to open a window on.
pub const NO_DISPLAY: u8 = 3;
/// Exit code when the app was asked for something it does not do, or could not start.
pub const REFUSED: u8 = 4;

/// Opens the window and stays until it is closed.
pub fn run() -> ExitCode {
    let named = match folder::named(env::args_os().skip(1), env::var_os("HOLDFAST_DATA")) {
        Ok(named) => named,
        Err(misasked) => {
            return refuse(spoken(&misasked.say()));
        }
    };
    if !display_is_there() {
        eprintln!("{}", spoken(&Say::NoDisplay));
        return ExitCode::from(NO_DISPLAY);
    }
    match build(named) {
        Ok(app) => {
            app.run(on_event);
            ExitCode::SUCCESS
        }
        Err(fault) => refuse(fault.to_string()),
    }
}

fn refuse(why: String) -> ExitCode {
    eprintln!("{}", spoken(&Say::DidNotStart { why }));
    ExitCode::from(REFUSED)
}

/// The sentence; where the catalogue cannot say it, the sentence's name and what stands against it.
fn spoken(say: &Say) -> String {
    words::say(say, Language::English).unwrap_or_else(|unsaid| format!("{say:?} ({unsaid})"))
}

fn build(named: Option<PathBuf>) -> tauri::Result<App<Wry>> {
    tauri::Builder::default()
        .invoke_handler(tauri::generate_handler![
            bridge::send,
            bridge::watch,
            bridge::watch_strip,
            bridge::painted,
            bridge::hand_in
        ])
        .setup(move |app| {
            let opened = open(app, named);
            // An error handed back here would abort with a trace instead of a sentence.
            if let Err(fault) = opened {
                refuse(fault.to_string());
                app.handle().exit(REFUSED.into());
            }
            Ok(())
        })
        .build(tauri::generate_context!())
}

fn open(app: &App<Wry>, named: Option<PathBuf>) -> tauri::Result<()> {
    let folder = named.map_or_else(|| app.path().app_local_data_dir(), Ok)?;
    app.manage(LastLoad::default());
    // The window first: the page's process comes up while the record is opened. On a desktop the page's calls come
    // by the loop that runs once this function has returned; elsewhere they may come at once.
    let record_first = cfg!(mobile);
    if record_first {
        app.manage(Bedside::open(&folder));
    }
    window::open(app)?;
    if !record_first {
        app.manage(Bedside::open(&folder));
    }
    watchdog::start(app.handle().clone())?;
    Ok(())
}

fn on_event(app: &AppHandle<Wry>, event: RunEvent) {
    if let RunEvent::Exit = event
        && let Some(bedside) = app.try_state::<Bedside>()
    {
        bedside.close();
    }
}

#[cfg(target_os = "linux")]
fn display_is_there() -> bool {
    gtk::init().is_ok()
}

#[cfg(not(target_os = "linux"))]
fn display_is_there() -> bool {
    true
}

#[cfg(mobile)]
#[tauri::mobile_entry_point]
fn mobile() {
    run();
}
