//! Codes and their words. Frozen: receivers map them.
//!
//! LOINC codes below were read in a copy of its directory (release 2.82); only those whose text names the temporary
//! pacemaker, or no kind of pacemaker, are used. The rest is text alone: a guessed code is worse than none. LOINC
//! is under the licence of the Regenstrief Institute. The mode's code (ISO/IEEE 11073-10103) is made for implanted
//! devices and is used for the mode only.

use domain::rules::Chamber;
use domain::units::OutputUnit;
use serde_json::{Value, json};

pub const URI: &str = "urn:ietf:rfc:3986";
pub const UCUM: &str = "http://unitsofmeasure.org";
const LOINC: &str = "http://loinc.org";
const MDC: &str = "urn:iso:std:iso:11073:10101";

pub const CHECK: &str = "Pacing check of a temporary wire";
pub const CHANGE_OF_BOX: &str = "Change of the external pulse generator of a temporary wire";
pub const CHANGE_OF_BATTERY: &str = "Change of the battery of an external pulse generator";
pub const TRANSPORT: &str = "Transport with temporary pacing wires";
pub const SUBJECT: &str = "Whose wire it is: the receiving system puts the patient in";
pub const GENERATOR: &str = "External pulse generator";

/// A code with its words; `code: None` = words alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    system: &'static str,
    code: Option<&'static str>,
    text: &'static str,
}

impl Term {
    pub fn concept(&self) -> Value {
        match self.code {
            Some(code) => json!({ "coding": [{ "system": self.system, "code": code }], "text": self.text }),
            None => json!({ "text": self.text }),
        }
    }

    pub fn text(&self) -> &'static str {
        self.text
    }
}

const fn loinc(code: &'static str, text: &'static str) -> Term {
    Term { system: LOINC, code: Some(code), text }
}

const fn words(text: &'static str) -> Term {
    Term { system: "", code: None, text }
}

pub const PROCEDURE_CATEGORY: Term = Term {
    system: "http://terminology.hl7.org/CodeSystem/observation-category",
    code: Some("procedure"),
    text: "Procedure",
};

pub const MODE: Term = loinc("99684-3", "Pacemaker mode");
pub const RATE: Term = words("Set rate");
pub const OWN_SLOWEST: Term = words("Own rhythm, slowest rate");
pub const OWN_FASTEST: Term = words("Own rhythm, fastest rate");
pub const SENSING: Term = words("Sensing threshold");
pub const MARGIN: Term = words("Set output divided by capture threshold");
pub const PULSE_WIDTH: Term = words("Pulse width");
pub const CAPTURE_LOW: Term = words("Highest output at which a spike made no beat");

/// The LOINC term of the atrial setting is for temporary pacing and in mA.
pub fn output(chamber: Chamber, unit: OutputUnit) -> Term {
    match (chamber, unit) {
        (Chamber::Atrium, OutputUnit::MilliAmp) => loinc("99679-3", "Atrial stimulation setting"),
        (Chamber::Atrium, OutputUnit::Volt) => words("Atrial stimulation setting"),
        (Chamber::Ventricle, _) => words("Ventricular stimulation setting"),
    }
}

/// As for the setting.
pub fn capture(chamber: Chamber, unit: OutputUnit) -> Term {
    match (chamber, unit) {
        (Chamber::Atrium, OutputUnit::MilliAmp) => loinc("99680-1", "Atrial stimulation threshold"),
        (Chamber::Atrium, OutputUnit::Volt) => words("Atrial stimulation threshold"),
        (Chamber::Ventricle, _) => words("Ventricular stimulation threshold"),
    }
}

pub fn sensitivity(chamber: Chamber) -> Term {
    match chamber {
        Chamber::Atrium => words("Atrial sensitivity setting"),
        Chamber::Ventricle => loinc("99691-8", "Ventricular sensitivity setting"),
    }
}

/// The modes a check can leave a wire in (NBG); the asynchronous ones have no verified code.
pub fn mode(chamber: Chamber, asynchronous: bool) -> Term {
    let mdc = |code, text| Term { system: MDC, code: Some(code), text };
    match (chamber, asynchronous) {
        (Chamber::Atrium, false) => mdc("754753", "AAI"),
        (Chamber::Ventricle, false) => mdc("754773", "VVI"),
        (Chamber::Atrium, true) => words("AOO"),
        (Chamber::Ventricle, true) => words("VOO"),
    }
}

/// UCUM, case as it must be: "mA" is milliampere, "MA" megaampere.
pub fn output_unit(unit: OutputUnit) -> &'static str {
    match unit {
        OutputUnit::MilliAmp => "mA",
        OutputUnit::Volt => "V",
    }
}

pub const PER_MINUTE: &str = "{beats}/min";
pub const MILLIVOLT: &str = "mV";
pub const MILLISECOND: &str = "ms";
pub const RATIO: &str = "1";
