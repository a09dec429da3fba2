//! Generators and rules made for a test.

use domain::profile::{Profile, shipped};
use domain::rules::{OutputRule, Rules, SensingRule};
use serde_json::{Value, json};

/// A generator file that is right in every place.
pub fn generator(rate: &Value, output_unit: &str, output: &Value, numbers: &Value) -> Value {
    json!({
        "id": "made", "name": "Made for a test", "example": true, "control": "dial",
        "rate_per_min": rate,
        "output": { "unit": output_unit, "positions": output },
        "sensitivity_mV": { "positions": numbers, "asynchronous": "position" },
        "pulse_width_us": 1000, "auto_lock_s": null, "modes": ["VVI", "VOO"],
    })
}

pub fn read(file: &Value) -> Profile {
    Profile::from_json(&file.to_string()).unwrap()
}

/// An mA dial with just these outputs.
pub fn with_outputs(unit: &str, positions: &[&str]) -> Profile {
    read(&generator(&json!(["60", "70", "80"]), unit, &json!(positions), &json!(["1.0", "2.0"])))
}

/// A sensitivity dial with just these numbers.
pub fn with_numbers(positions: &[&str]) -> Profile {
    read(&generator(&json!(["60", "70", "80"]), "mA", &json!(["1.0", "2.0"]), &json!(positions)))
}

pub fn every_shipped() -> Vec<Profile> {
    shipped().unwrap()
}

pub fn output_rules() -> Vec<OutputRule> {
    let band = |low_percent, high_percent, aim_percent, floor_ua| OutputRule::Band {
        low_percent,
        high_percent,
        aim_percent,
        floor_ua,
    };
    vec![
        OutputRule::EXAMPLE,
        OutputRule::WIDE,
        OutputRule::Double,
        OutputRule::DoublePlusOne,
        band(200, 300, 300, 0),
        band(200, 300, 250, 1_000),
        band(150, 200, 150, 500),
        band(300, 300, 300, 1_000),
    ]
}

pub fn with_output_rule(rule: OutputRule) -> Rules {
    let mut rules = Rules::example();
    rules.output_rule = rule;
    rules
}

pub fn with_sensing_rule(rule: SensingRule) -> Rules {
    let mut rules = Rules::example();
    rules.sensing_rule = rule;
    rules
}
