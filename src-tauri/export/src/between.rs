//! What befell a patient's wire between its checks, as a type.

use crate::care::chamber_word;
use domain::State;
use domain::handover::compare::{Beside, Compared};
use domain::state::bed::{Bed, Wire};
use domain::state::swap::{Outcome, SwapRecord};
use domain::state::transport::{Reading, TransportRecord};
use domain::swap::facts::Work;
use domain::transport::answer::Target;
use domain::units::OutputUnit;

/// One ended change of box or battery, or one ended transport. Made from a bed alone: the wire of a practice stands
/// in none.
#[derive(Clone, Copy, Debug)]
pub enum Between<'a> {
    Change {
        wire: &'a Wire,
        record: &'a SwapRecord,
        /// Of OUTPUT on the box before, and on the one after.
        units: (Option<OutputUnit>, Option<OutputUnit>),
    },
    Way {
        bed: &'a Bed,
        record: &'a TransportRecord,
    },
}

impl<'a> Between<'a> {
    /// Of one wire, and the journeys of its patient.
    pub fn of_wire(state: &'a State, bed: &'a Bed, wire: &'a Wire) -> Vec<Between<'a>> {
        changes(state, wire).chain(ways(bed)).collect()
    }

    /// Of every wire of a bed, each journey once.
    pub fn of_bed(state: &'a State, bed: &'a Bed) -> Vec<Between<'a>> {
        bed.wires.iter().flat_map(|wire| changes(state, wire)).chain(ways(bed)).collect()
    }
}

fn changes<'a>(state: &'a State, wire: &'a Wire) -> impl Iterator<Item = Between<'a>> {
    let unit = |id: &str| state.generator(id).map(|profile| profile.output_unit());
    wire.swaps.iter().map(move |record| {
        let units = (unit(&record.from), unit(&record.to));
        Between::Change { wire, record, units }
    })
}

fn ways(bed: &Bed) -> impl Iterator<Item = Between<'_>> {
    bed.transports.iter().map(move |record| Between::Way { bed, record })
}

/// Frozen words: receivers sort by them.
pub fn work_word(work: Work) -> &'static str {
    match work {
        Work::Box => "box",
        Work::Battery => "battery",
    }
}

pub fn outcome_word(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::NothingChanged => "nothing_changed",
        Outcome::Moved => "moved",
        Outcome::BatteryChanged => "battery_changed",
        Outcome::BackInTheOld => "back_in_the_old_box",
    }
}

pub fn target_word(target: Target) -> &'static str {
    match target {
        Target::Unit => "unit",
        Target::Theatre => "theatre",
        Target::Imaging => "imaging",
        Target::OtherHospital => "other_hospital",
        Target::Mri => "mri",
    }
}

/// Each dial of each wire that both teams saw to stand elsewhere than it was said to, in the order of the readings.
pub fn differed(bed: &Bed, record: &TransportRecord) -> Vec<String> {
    record.told.readings.iter().filter(|reading| reading.seen).flat_map(|one| unlike(bed, one)).collect()
}

fn unlike(bed: &Bed, reading: &Reading) -> Vec<String> {
    let wire = bed.wires.iter().find(|wire| wire.id == reading.wire);
    // The wire is out since: which it was is not known here any more.
    let chamber = wire.map_or("wire since removed", chamber_word);
    let dials = dials(&reading.compared);
    dials.into_iter().flatten().map(|dial| format!("{chamber} {dial}")).collect()
}

fn dials(compared: &Compared) -> [Option<String>; 3] {
    let (printed, unit) = (&compared.printed, compared.unit.symbol());
    let mv = printed.mv.as_deref().unwrap_or("asynchronous");
    [
        instead("OUTPUT", &format!("{} {unit}", printed.output), &compared.output, |said| {
            format!("{said} {unit}")
        }),
        instead("RATE", &printed.rate, &compared.rate, str::to_owned),
        instead("mV", mv, &compared.mv, str::to_owned),
    ]
}

fn instead(dial: &str, stood: &str, beside: &Beside, written: impl Fn(&str) -> String) -> Option<String> {
    let said = match beside {
        Beside::NotSaid | Beside::Same => return None,
        Beside::Differs { said } => said.as_deref().map_or("asynchronous".to_owned(), written),
        Beside::OtherUnit { said, unit } => format!("{said} {}", unit.symbol()),
    };
    Some(format!("{dial} {stood} instead of {said}"))
}
