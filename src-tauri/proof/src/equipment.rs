//! Random generators and unit rules. They go in as files and are checked as files are.

use std::sync::LazyLock;

use domain::document::Fault;
use domain::profile::Profile;
use domain::rules::{NUMBERS, NumberRule, Rules, SensingRule};
use serde_json::{Value, json};

use crate::draw::Draw;

/// Tenths of mA or V, and tenths of mV.
const LEAST_OUTPUT: (u32, u32) = (1, 5);
const MOST_OUTPUT: (u32, u32) = (100, 250);
const LEAST_MV: (u32, u32) = (2, 8);
const MOST_MV: (u32, u32) = (100, 200);

/// The file of the example rules.
static EXAMPLE: LazyLock<Value> = LazyLock::new(|| Value::from(Rules::example()));

/// A dial whose positions lie between 5 and 35 % apart, in mA or V; one in five of the unequal kind.
///
/// # Errors
/// A generator was drawn that no file may describe.
pub fn profile(draw: &mut Draw) -> Result<Profile, Fault> {
    let asynchronous = draw.one_of(&["none", "position", "switch"]).unwrap_or("none");
    let modes =
        if asynchronous == "none" { json!(["VVI", "AAI"]) } else { json!(["VVI", "AAI", "VOO", "AOO"]) };
    let file = json!({
        "id": "drawn",
        "name": "Drawn (invented)",
        "example": true,
        "control": draw.one_of(&["dial", "keys"]),
        "rate_per_min": rates(draw),
        "output": { "unit": draw.one_of(&["mA", "mA", "V"]), "positions": dial(draw, LEAST_OUTPUT, MOST_OUTPUT) },
        "sensitivity_mV": { "positions": dial(draw, LEAST_MV, MOST_MV), "asynchronous": asynchronous },
        "pulse_width_us": draw.between(4, 20) * 100,
        "auto_lock_s": null,
        "modes": modes,
    });
    Profile::try_from(file)
}

fn rates(draw: &mut Draw) -> Vec<String> {
    let step = draw.between(1, 10);
    let (first, last) = (draw.between(30, 45), draw.between(110, 160));
    let step = step.max((last - first).div_ceil(60));
    (0..64).map(|n| first + n * step).take_while(|rate| *rate <= last).map(|rate| rate.to_string()).collect()
}

fn dial(draw: &mut Draw, least: (u32, u32), most: (u32, u32)) -> Vec<String> {
    let (mut at, last) = (draw.between(least.0, least.1), draw.between(most.0, most.1));
    let apart = draw.between(8, 35);
    let unequal = draw.percent(20);
    let mut positions = Vec::new();
    while at <= last {
        positions.push(format!("{}.{}", at / 10, at % 10));
        let percent = if unequal { draw.between(8, 60) } else { apart };
        at += (at * percent / 100).max(1);
    }
    positions
}

/// Every number that a check depends on (a sign-off runs out beside any check) somewhere in its range, often at an end of it; one in four the example rules.
///
/// # Errors
/// Rules were drawn that no unit may have.
pub fn rules(draw: &mut Draw) -> Result<Rules, Fault> {
    if draw.percent(25) {
        return Ok(Rules::example());
    }
    let mut file = EXAMPLE.clone();
    // What came later and no check reads keeps its example, so that a seed stays the same patient.
    for number in NUMBERS.iter().filter(|number| !number.may_lack) {
        file[number.name] = number_value(number, number_drawn(number, draw));
    }
    agree(&mut file);
    let rule = draw.one_of(&SensingRule::ALL).unwrap_or(SensingRule::BelowHalf);
    file["sensing_rule"] = json!(rule.name());
    file["output_rule"] = output_rule(draw);
    file["band_below_double_by"] = json!("A. Example (invented)");
    file["going_up"] = json!(draw.percent(75));
    file["half_rate_in_sensing"] = json!(draw.percent(10));
    Rules::try_from(file)
}

fn number_drawn(number: &NumberRule, draw: &mut Draw) -> u32 {
    let step = number.unit.scale().map_or(1, |scale| scale / 10);
    match draw.between(0, 5) {
        0 => number.least,
        1 => number.greatest,
        2 | 3 => number.example,
        _ => draw.between(number.least / step, number.greatest / step) * step,
    }
}

fn number_value(number: &NumberRule, value: u32) -> Value {
    if number.unit.scale().is_some() { json!(number.unit.text(value)) } else { json!(value) }
}

/// Numbers that may not lie below others are raised to them.
fn agree(file: &mut Value) {
    for (number, least) in [
        ("starting_ventricle_mV", "lowest_ventricle_mV"),
        ("starting_atrium_mV", "lowest_atrium_mV"),
        ("check_every_h", "check_every_narrow_h"),
        ("beats_threshold", "beats_down"),
        ("beats_confirm", "beats_threshold"),
    ] {
        let figure = |value: &Value| value.as_f64().or_else(|| value.as_str()?.parse().ok()).unwrap_or(0.0);
        let bound = file.get(least).cloned().unwrap_or_default();
        if file.get(number).is_some_and(|value| figure(value) < figure(&bound)) {
            file[number] = bound;
        }
    }
}

fn output_rule(draw: &mut Draw) -> Value {
    match draw.between(0, 9) {
        0 => json!({ "name": "double" }),
        1 => json!({ "name": "double plus 1 mA" }),
        _ => {
            let low = draw.between(15, 25);
            let high = draw.between(low.max(20), 30);
            let aim = draw.between(low, high);
            let text = |tenths: u32| format!("{}.{}", tenths / 10, tenths % 10);
            let floor = text(draw.between(0, 10));
            json!({ "name": "band", "low": text(low), "high": text(high), "aim": text(aim), "floor_mA": floor })
        }
    }
}
