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
pub mod event;
pub mod flags;
pub mod handover_lines;
pub mod library;
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
pub mod teaching;
pub mod trend;
pub mod units;
mod view;

pub use apply::apply;
pub use decide::decide;
pub use due::due;
pub use event::Event;
pub use refusal::Refusal;
pub use state::State;
pub use view::view;
