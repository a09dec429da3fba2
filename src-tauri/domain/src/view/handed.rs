//! Codes that come from other tablets: loading, what they say, whose they are, the dials beside them.

mod arrived;
mod checks;
pub mod compared;
mod load;
mod tablets;
mod taking;

pub use arrived::{arrived, arrived_list};
pub use checks::{history_row, in_unit, summary_lines};
pub use compared::{compare, compared, sees};
pub use load::{CAMERA_FIELD, PICTURE_FIELD, load, looked, progress, reading};
pub use tablets::{name_tablet, tablet, tablets};
pub use taking::take_in;
