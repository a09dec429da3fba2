//! The unit rules that are walked: every named rule, every switch, the extremes of the numbers.

use domain::rules::{NUMBERS, NumberRule, OutputRule, Rules, SensingRule};

fn changed(change: impl FnOnce(&mut Rules)) -> Rules {
    let mut rules = Rules::example();
    change(&mut rules);
    rules
}

/// Named rules and switches, each against the example.
pub fn named() -> Vec<(String, Rules)> {
    let mut sets = vec![("example".to_owned(), Rules::example())];
    for rule in SensingRule::ALL {
        sets.push((rule.name().to_owned(), changed(|rules| rules.sensing_rule = rule)));
    }
    for rule in [OutputRule::Double, OutputRule::DoublePlusOne] {
        sets.push((rule.name().to_owned(), changed(|rules| rules.output_rule = rule)));
    }
    sets.push((
        "1.5 to 3 times".to_owned(),
        changed(|rules| {
            rules.output_rule = OutputRule::WIDE;
            rules.band_below_double_by = Some("Dr Example".to_owned());
        }),
    ));
    sets.push(("no going up".to_owned(), changed(|rules| rules.going_up = false)));
    sets.push(("margin check".to_owned(), changed(|rules| rules.margin_check = true)));
    sets.push(("half the own rate".to_owned(), changed(|rules| rules.half_rate_in_sensing = true)));
    sets
}

/// All numbers at their least, and at their greatest.
pub fn extremes() -> Vec<(String, Rules)> {
    let mut least = serde_json::from_str::<serde_json::Value>(&Rules::example().to_json()).unwrap();
    let mut greatest = least.clone();
    for number in &NUMBERS {
        least[number.name] = written(number, number.least);
        greatest[number.name] = written(number, number.greatest);
    }
    [("least", least), ("greatest", greatest)]
        .map(|(name, file)| (name.to_owned(), Rules::from_json(&agreeing(file).to_string()).unwrap()))
        .to_vec()
}

/// In mV, mA and V as text, else as a number.
fn written(number: &NumberRule, value: u32) -> serde_json::Value {
    if number.unit.scale().is_some() { number.unit.text(value).into() } else { value.into() }
}

/// Some numbers bound each other; the bounds of each alone cannot all hold at once.
fn agreeing(mut file: serde_json::Value) -> serde_json::Value {
    file["check_every_narrow_h"] = 4.into();
    file
}
