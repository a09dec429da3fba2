//! What leaves the tablet as a file. Pure: records in, bytes out.
//!
//! Only [`Care`] is exported, and a record made in practice cannot become one: exporting practice as care does
//! not compile.

mod care;
mod csv_file;
mod fhir;
mod pdf;
mod time;

pub use care::Care;
pub use csv_file::{COLUMNS, CsvFault, csv};
pub use fhir::{BundleFault, bundle};
pub use pdf::{PdfFault, pdf};
