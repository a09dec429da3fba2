//! Published values, asked of a whole rehearsal: card, nurse, generator, heart. The source stands beside each
//! check with its status: V read, C calculated from it.

mod capture;
mod own_rhythm;
mod sensing;
mod timing;

use serde_json::{Value, json};
use terminal::rehearsal::{Ending, rehearse};
use terminal::scenario::read;

/// A generator with every position a published value needs; invented.
fn every_position() -> Value {
    json!({
        "id": "outside", "name": "Every position (invented)", "example": true, "control": "dial",
        "rate_per_min": [{ "from": "30", "to": "93", "step": "1" }],
        "output": { "unit": "mA", "positions": [
            { "from": "0.1", "to": "10.0", "step": "0.1" },
            { "from": "10.5", "to": "20.0", "step": "0.5" },
        ] },
        "sensitivity_mV": {
            "positions": [{ "from": "0.5", "to": "20.0", "step": "0.5" }],
            "asynchronous": "none",
        },
        "pulse_width_us": 1000, "auto_lock_s": null, "modes": ["VVI", "AAI"],
    })
}

/// Own rhythm 72, paced at 80, on a dial with every position.
fn patient() -> Value {
    json!({
        "invented": true, "title": "Outside check", "story": "A published value.", "chamber": "ventricle",
        "generator": every_position(), "rules": "example", "rules_changed": {},
        "found": { "output": "6.0", "rate": "80", "mv": "2.0" },
        "heart": {
            "atrium": { "rhythm": "sinus", "rate_per_min": 72 },
            "signal": { "own_mV": 8.0 },
            "capture": { "going_down": 1.6, "going_up": 1.6 },
        },
        "expect": { "outcome": "finished", "flags": [], "because": "" },
    })
}

/// The whole check of a patient changed in some points.
fn check(change: impl FnOnce(&mut Value)) -> Ending {
    let mut scenario = patient();
    change(&mut scenario);
    let ready = read(&scenario.to_string()).unwrap_or_else(|fault| panic!("{fault}"));
    rehearse(&ready, &mut |_| {}).unwrap_or_else(|fault| panic!("{fault}"))
}

/// Where in the list of turns one stands.
fn turned(ending: &Ending, turn: &str) -> usize {
    let at = ending.turns.iter().position(|turned| turned == turn);
    at.unwrap_or_else(|| panic!("{turn} is not among {:?}", ending.turns))
}
