//! The handover of one wire between tablets: what a code says, what was made, what came, and how it stands
//! beside the dials. Signing and reading of codes are the `handover` crate's; keys never come here.

pub mod arrived;
pub mod code;
pub mod compare;
pub mod drawing;
pub mod figure;
pub mod history;
pub mod known;
pub mod mangled;
pub mod stamp;
pub mod summary;
pub mod tablet;
