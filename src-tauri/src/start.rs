//! From the command line to a running window, or to one sentence that says why not.

use std::process::ExitCode;

/// Exit code when there is no display to open a window on.
pub const NO_DISPLAY: u8 = 3;
/// Exit code when the app was asked for something it does not do.
pub const REFUSED: u8 = 4;

/// Opens the window and stays until it is closed.
pub fn run() -> ExitCode {
    if !display_is_there() {
        eprintln!("Holdfast: no display here. Without one, rehearse a check in a terminal.");
        return ExitCode::from(NO_DISPLAY);
    }
    match open() {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("Holdfast did not start: {fault}");
            ExitCode::from(REFUSED)
        }
    }
}

fn open() -> tauri::Result<()> {
    tauri::Builder::default()
        .setup(|app| Ok(crate::window::open(app)?))
        .run(tauri::generate_context!())
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
