//! What can reach the session: a closed list.

use domain::contract::{Sent, View};
use domain::library::HandedIn;
use domain::teaching::ReadFile;
use journal::{Fault, Verified};
use signoff::Pins;

use crate::background::Done;

/// Draws views; `false` when nobody is there any more.
pub type Sink = Box<dyn FnMut(View<String>) -> bool + Send>;

/// Takes each twentieth of a second of a simulated patient's strip; `false` when nobody is there any more.
pub type StripSink = Box<dyn FnMut(Vec<u8>) -> bool + Send>;

#[expect(clippy::large_enum_variant, reason = "made one at a time, never kept in numbers")]
pub(crate) enum Input {
    /// An act of the person, and the PINs that were typed for it.
    Sent(Sent, Pins),
    /// A file for the card that asks for one.
    HandedIn(HandedIn),
    /// A signed file for the card that asks for one, its signature looked at.
    SignedFile(ReadFile),
    /// A picture file, for the card that asks for one.
    Picture(Vec<u8>),
    /// A picture of the camera.
    Frame(Vec<u8>),
    /// A worker has looked so often of so many times at the picture of this load.
    Looked {
        load: u32,
        done: u32,
        of: u32,
    },
    /// A backup file, for the card that asks for one.
    Backup(Vec<u8>),
    /// A worker has done something.
    Done(Done),
    /// A page that wants every view from now on. The newest takes the place of the one before.
    Watch(Sink),
    /// A page that wants the strip of a simulated patient.
    WatchStrip(StripSink),
    /// The page's process is gone: looked at as every input is, which finds it out.
    PageDied,
    /// The record has been read to its beginning in the background.
    Verified(Result<Verified, Fault>),
    /// The desktop does not keep the screen lit, or does again.
    ScreenMaySleep(bool),
    Close,
}

/// Inputs waiting at most. A person cannot tap so fast; a page that does is told.
pub(crate) const QUEUE: usize = 64;

/// Why an act was not taken. Nothing was done, nothing recorded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotTaken {
    /// The queue is full: tap again.
    Busy,
    /// The session has ended.
    Ended,
    /// No card ever asks for a file of this kind.
    NotAskedFor,
}
