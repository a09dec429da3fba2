//! Records of patients, as a type.

use domain::record::Record;
use domain::rules::Chamber;
use domain::state::bed::{Polarity, Wire, WireKind};

/// One ended check on a patient, with the wire it was made on. There is no other way to make one than from a
/// record that is not practice.
///
/// ```compile_fail
/// fn exported(record: &domain::record::Record) -> Result<Vec<u8>, export::CsvFault> {
///     export::csv(&[record])
/// }
/// ```
///
/// A run of practice is none:
///
/// ```compile_fail
/// fn exported(run: &domain::practice::PracticeRun) -> Result<Vec<u8>, export::CsvFault> {
///     export::csv(&[run])
/// }
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Care<'a> {
    record: &'a Record,
    wire: &'a Wire,
}

impl<'a> Care<'a> {
    /// `None` for practice.
    pub fn of(wire: &'a Wire, record: &'a Record) -> Option<Care<'a>> {
        (!record.practice).then_some(Care { record, wire })
    }

    /// Every check of the wire that was made on a patient, oldest first.
    pub fn of_wire(wire: &'a Wire) -> Vec<Care<'a>> {
        wire.records.iter().filter_map(|record| Care::of(wire, record)).collect()
    }

    pub fn record(&self) -> &'a Record {
        self.record
    }

    pub(crate) fn chamber(&self) -> Chamber {
        self.wire.chamber
    }

    pub(crate) fn wire(&self) -> &'a Wire {
        self.wire
    }
}

pub(crate) fn chamber_word(wire: &Wire) -> &'static str {
    match wire.chamber {
        Chamber::Atrium => "atrium",
        Chamber::Ventricle => "ventricle",
    }
}

pub(crate) fn kind_word(wire: &Wire) -> &'static str {
    match wire.kind {
        WireKind::Epicardial => "epicardial",
        WireKind::Transvenous => "transvenous",
    }
}

pub(crate) fn polarity_word(wire: &Wire) -> &'static str {
    match wire.polarity {
        Polarity::Bipolar => "bipolar",
        Polarity::Unipolar => "unipolar",
    }
}
