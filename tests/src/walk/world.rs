//! Small generators and unit rules for the exhaustive walk.

use domain::check::facts::{Dials, NONE};
use domain::check::guard::Guards;
use domain::check::setup::Setup;
use domain::profile::Profile;
use domain::rules::{Chamber, Rules};
use serde_json::json;

/// One configuration: a generator, a unit's rules, a chamber, and what is remembered.
#[derive(Clone, Debug)]
pub struct World {
    pub name: String,
    pub profile: Profile,
    pub rules: Rules,
    pub chamber: Chamber,
    pub last_capture: u8,
    pub last_seen: u8,
    /// Settings at which the check may find the dials; empty: every one.
    pub found: Vec<Dials>,
    pub guards: Guards,
    /// The one property that is looked at, where a guard is switched off.
    pub only: Option<&'static str>,
}

impl World {
    pub fn new(name: &str, profile: Profile, rules: Rules, chamber: Chamber) -> World {
        World {
            name: name.to_owned(),
            profile,
            rules,
            chamber,
            last_capture: NONE,
            last_seen: NONE,
            found: Vec::new(),
            guards: Guards::ALL_ON,
            only: None,
        }
    }

    pub fn setup(&self) -> Setup<'_> {
        Setup {
            profile: &self.profile,
            rules: &self.rules,
            chamber: self.chamber,
            history: false,
            needs_acceptance: true,
            last_capture: self.last_capture,
            last_seen: self.last_seen,
            guards: self.guards,
        }
    }
}

/// 2 rates, 3 outputs, 2 numbers and asynchronous.
pub fn tiny(rates: &[&str; 2], outputs: &[&str; 3], rules: Rules) -> World {
    let profile = generator(rates, "mA", outputs, &["1.0", "3.0"], "position");
    World::new("2 x 3 x 2", profile, rules, Chamber::Ventricle)
}

/// A generator with just these positions. `asynchronous`: "none", "position" or "switch".
pub fn generator(
    rates: &[&str],
    unit: &str,
    outputs: &[&str],
    numbers: &[&str],
    asynchronous: &str,
) -> Profile {
    let modes =
        if asynchronous == "none" { json!(["VVI", "AAI"]) } else { json!(["VVI", "AAI", "VOO", "AOO"]) };
    let file = json!({
        "id": "walked", "name": "Made for the walk", "example": true, "control": "dial",
        "rate_per_min": rates,
        "output": { "unit": unit, "positions": outputs },
        "sensitivity_mV": { "positions": numbers, "asynchronous": asynchronous },
        "pulse_width_us": 1000, "auto_lock_s": null, "modes": modes,
    });
    Profile::from_json(&file.to_string()).unwrap()
}
