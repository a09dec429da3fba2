//! Holdfast's domain: pure. No I/O, no clock, no randomness, no floats in decisions.

mod apply;
pub mod attention;
pub mod check;
pub mod command;
pub mod contract;
mod contract_map;
mod decide;
pub mod document;
mod due;
pub mod ending;
pub mod erasure;
pub mod event;
pub mod flags;
pub mod handover;
pub mod leaving;
pub mod library;
mod listed;
pub mod moment;
pub mod nbg;
pub mod plan;
pub mod practice;
pub mod profile;
pub mod record;
mod refusal;
pub mod rules;
pub mod say;
pub mod state;
pub mod swap;
pub mod teaching;
pub mod transport;
pub mod trend;
pub mod units;
mod view;
mod wanted;

pub use apply::{apply, apply_to};
pub use decide::decide;
pub use due::due;
pub use event::Event;
pub use refusal::Refusal;
pub use state::State;
pub use view::{
    CAMERA_FIELD, LANGUAGE_FIELD, PICTURE_FIELD, act_at, act_judged, befell, looked, not_restored, view,
    why_no_code,
};
pub use wanted::{Job, wanted};
