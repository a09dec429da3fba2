//! What leaves the tablet as a file. Pure: records in, bytes out.
//!
//! Only [`Care`] and what befell a wire of a bed ([`Between`]) are exported, and a record made in practice cannot
//! become one: exporting practice as care does not compile.

mod between;
mod care;
mod csv_file;
mod fhir;
mod pdf;
mod time;

pub use between::Between;
pub use care::Care;
pub use csv_file::{BETWEEN_COLUMNS, COLUMNS, CsvFault, between_csv, csv};
pub use fhir::{BundleFault, bundle};
pub use pdf::{PdfFault, pdf};
