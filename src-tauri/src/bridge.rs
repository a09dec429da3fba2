//! The page's five commands. Each passes something on and returns nothing but "taken" or a code.

use domain::contract::{Sent, View};
use session::NotTaken;
use tauri::ipc::{Channel, InvokeBody, Request};
use tauri::{State, command};

use crate::bedside::Bedside;

type Taken = Result<(), &'static str>;

/// An act on a card. Its effect comes as a view.
#[command]
pub fn send(bedside: State<'_, Bedside>, sent: Sent) -> Taken {
    bedside.send(sent).map_err(code)
}

/// Every view from now on, the present one first. The newest page takes the place of the one before.
#[command]
pub fn watch(bedside: State<'_, Bedside>, channel: Channel<View<String>>) -> Taken {
    bedside.watch(move |view| channel.send(view).is_ok()).map_err(code)
}

/// Every twentieth of a second of a simulated patient's strip from now on, its bytes in hexadecimal. As plain bytes a
/// message reaches the page as a list of numbers in a script of its own, and what the engine keeps of these scripts
/// came to megabytes within minutes.
#[command]
pub fn watch_strip(bedside: State<'_, Bedside>, channel: Channel<String>) -> Taken {
    let digits = |bytes: Vec<u8>| bytes.iter().map(|byte| format!("{byte:02x}")).collect();
    bedside.watch_strip(move |bytes| channel.send(digits(bytes)).is_ok()).map_err(code)
}

/// The page has drawn this card.
#[command]
pub fn painted(bedside: State<'_, Bedside>, card: u32) {
    bedside.painted(card);
}

/// A file's bytes, its kind in the header `kind`.
#[command]
pub fn hand_in(bedside: State<'_, Bedside>, request: Request<'_>) -> Taken {
    let kind = request.headers().get("kind").and_then(|kind| kind.to_str().ok()).ok_or("no-kind")?;
    match request.body() {
        InvokeBody::Raw(bytes) => bedside.hand_in(kind, bytes).map_err(code),
        InvokeBody::Json(_) => Err("no-bytes"),
    }
}

fn code(fault: NotTaken) -> &'static str {
    match fault {
        NotTaken::Busy => "busy",
        NotTaken::Ended => "ended",
        NotTaken::NotAskedFor => "not-asked-for",
    }
}
