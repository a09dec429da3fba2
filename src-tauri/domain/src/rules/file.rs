//! The rule file: read with every refusal, and written.

use serde_json::{Map, Value, json};

use super::numbers::{BAND, NUMBERS, NumberRule, PERCENT_PER_WHOLE};
use super::{Approval, OutputRule, Rules, RulesFault, SensingRule, Source};
use crate::document::{Node, Why};
use crate::units::{self, MICRO_PER_MILLI};

const FIELDS: [&str; 9] = [
    "id",
    "example",
    "approval",
    "sensing_rule",
    "output_rule",
    "band_below_double_by",
    "going_up",
    "margin_check",
    "half_rate_in_sensing",
];

pub(super) fn read(value: &Value) -> Result<Rules, RulesFault> {
    let root = Node::root(value);
    let numbers = NUMBERS.iter().map(|number| number.name);
    root.only(&FIELDS.into_iter().chain(numbers).collect::<Vec<_>>())?;
    let mut rules = Rules::bare(root.field("id")?.name()?);
    read_approval(&root, &mut rules)?;
    read_choices(&root, &mut rules)?;
    for number in &NUMBERS {
        let node = if number.may_lack { root.maybe(number.name)? } else { Some(root.field(number.name)?) };
        number.store(&mut rules, node.map_or(Ok(0), |node| read_number(&node, number))?);
    }
    agree(&root, &rules)?;
    Ok(rules)
}

fn read_approval(root: &Node<'_>, rules: &mut Rules) -> Result<(), RulesFault> {
    rules.example = root.field("example")?.yes()?;
    rules.approval = root.maybe("approval")?.map(|node| Approval::read(&node)).transpose()?;
    if rules.example == rules.approval.is_none() {
        return Ok(());
    }
    Err(root.field("example")?.fault(Why::Contradicts { other: "approval".to_owned() }))
}

fn read_choices(root: &Node<'_>, rules: &mut Rules) -> Result<(), RulesFault> {
    let names = SensingRule::ALL.map(|rule| (rule.name(), rule));
    rules.sensing_rule = root.field("sensing_rule")?.one_of(&names)?;
    read_output_rule(&root.field("output_rule")?, rules)?;
    rules.band_below_double_by =
        root.maybe("band_below_double_by")?.map(|node| node.name().map(str::to_owned)).transpose()?;
    rules.going_up = root.field("going_up")?.yes()?;
    rules.margin_check = root.field("margin_check")?.yes()?;
    rules.half_rate_in_sensing = root.field("half_rate_in_sensing")?.yes()?;
    Ok(())
}

fn read_output_rule(node: &Node<'_>, rules: &mut Rules) -> Result<(), RulesFault> {
    let bounds = BAND.iter().map(|bound| bound.name);
    node.only(&["name", "aim"].into_iter().chain(bounds).collect::<Vec<_>>())?;
    let all = [OutputRule::EXAMPLE, OutputRule::Double, OutputRule::DoublePlusOne];
    rules.output_rule = node.field("name")?.one_of(&all.map(|rule| (rule.name(), rule)))?;
    if rules.output_rule == OutputRule::EXAMPLE {
        return read_band(node, rules);
    }
    node.only(&["name"])
}

fn read_band(node: &Node<'_>, rules: &mut Rules) -> Result<(), RulesFault> {
    for bound in &BAND {
        bound.store(rules, read_number(&node.field(bound.name)?, bound)?);
    }
    let OutputRule::Band { low_percent, high_percent, aim_percent, .. } = &mut rules.output_rule else {
        return Ok(());
    };
    let aim = node.maybe("aim")?;
    *aim_percent = aim.as_ref().map_or(Ok(*high_percent), percent)?;
    let text = |percent: u16| units::shortest(percent.into(), PERCENT_PER_WHOLE);
    let (low, high) = (text(*low_percent), text(*high_percent));
    if low_percent > high_percent {
        return Err(node.fault(Why::BandReversed { low, high }));
    }
    if !(*low_percent..=*high_percent).contains(aim_percent) {
        let place = aim.unwrap_or_else(|| node.clone());
        return Err(place.fault(Why::AimOutsideBand { aim: text(*aim_percent), low, high }));
    }
    Ok(())
}

fn percent(node: &Node<'_>) -> Result<u16, RulesFault> {
    let text = node.text()?;
    let percent = units::scaled(text, PERCENT_PER_WHOLE).and_then(|percent| u16::try_from(percent).ok());
    percent.ok_or_else(|| node.fault(Why::NotAsPrinted { found: text.to_owned() }))
}

fn read_number(node: &Node<'_>, number: &NumberRule) -> Result<u32, RulesFault> {
    let range = Range {
        bounds: &|| [number.least, number.greatest].map(|bound| number.unit.text(bound)),
        unit: number.unit.symbol(),
        source: number.source,
    };
    let value = number.unit.scale().map_or_else(|| node.whole(), |scale| Ok(range.figure(node, scale)?.0))?;
    if number.allows(value) {
        return Ok(value);
    }
    let found = node.text().map_or_else(|_| value.to_string(), str::to_owned);
    Err(range.misses(node, found))
}

/// What a place allows, for the sentence of its fault.
struct Range<'a> {
    bounds: &'a dyn Fn() -> [String; 2],
    unit: &'a str,
    source: Source,
}

impl Range<'_> {
    /// Text as the dial prints it: "5,0" and "5 mA" lie in the range and are no such text.
    fn figure<'a>(&self, node: &Node<'a>, scale: u32) -> Result<(u32, &'a str), RulesFault> {
        let read = node.text().ok().and_then(|text| Some((units::scaled(text, scale)?, text)));
        read.ok_or_else(|| {
            let ([least, greatest], unit, source) = self.told();
            node.fault(Why::NotAFigure { found: node.written(), least, greatest, unit, source })
        })
    }

    fn misses(&self, node: &Node<'_>, found: String) -> RulesFault {
        let ([least, greatest], unit, source) = self.told();
        node.fault(Why::OutOfRange { found, least, greatest, unit, source })
    }

    fn told(&self) -> ([String; 2], String, String) {
        ((self.bounds)(), self.unit.to_owned(), self.source.keys.to_owned())
    }
}

/// What one number alone cannot show to be wrong.
fn agree(root: &Node<'_>, rules: &Rules) -> Result<(), RulesFault> {
    not_below(root, rules, "starting_ventricle_mV", "lowest_ventricle_mV")?;
    not_below(root, rules, "starting_atrium_mV", "lowest_atrium_mV")?;
    not_below(root, rules, "check_every_h", "check_every_narrow_h")?;
    not_below(root, rules, "beats_threshold", "beats_down")?;
    not_below(root, rules, "beats_confirm", "beats_threshold")?;
    if rules.output_rule.begins_below_double() && rules.band_below_double_by.is_none() {
        let low = root.field("output_rule")?.field("low")?;
        return Err(low.fault(Why::BelowDoubleUnapproved { low: low.text()?.to_owned() }));
    }
    Ok(())
}

fn not_below(root: &Node<'_>, rules: &Rules, name: &str, other: &str) -> Result<(), RulesFault> {
    let pair = NumberRule::named(name).zip(NumberRule::named(other));
    let (number, bound) = pair.ok_or_else(|| root.fault(Why::Missing))?;
    let (found, least) = (number.load(rules), bound.load(rules));
    if found >= least {
        return Ok(());
    }
    let [found, least] = [found, least].map(|value| number.unit.text(value));
    Err(root.field(name)?.fault(Why::BelowOther { found, other: other.to_owned(), least }))
}

pub(super) fn write(rules: &Rules) -> Value {
    let mut map = Map::new();
    let mut put = |name: &str, value: Value| map.insert(name.to_owned(), value);
    put("id", json!(rules.id));
    put("example", json!(rules.example));
    put("approval", rules.approval.as_ref().map_or(Value::Null, Approval::write));
    put("sensing_rule", json!(rules.sensing_rule.name()));
    put("output_rule", write_output_rule(rules.output_rule));
    put("band_below_double_by", json!(rules.band_below_double_by));
    put("going_up", json!(rules.going_up));
    put("margin_check", json!(rules.margin_check));
    put("half_rate_in_sensing", json!(rules.half_rate_in_sensing));
    for number in &NUMBERS {
        let value = number.load(rules);
        if value > 0 || !number.may_lack {
            put(number.name, write_number(number, value));
        }
    }
    Value::Object(map)
}

fn write_number(number: &NumberRule, value: u32) -> Value {
    if number.unit.scale().is_some() { json!(number.unit.text(value)) } else { json!(value) }
}

fn write_output_rule(rule: OutputRule) -> Value {
    let OutputRule::Band { low_percent, high_percent, aim_percent, floor_ua } = rule else {
        return json!({ "name": rule.name() });
    };
    let [low, high, aim] =
        [low_percent, high_percent, aim_percent].map(|p| units::shortest(p.into(), PERCENT_PER_WHOLE));
    json!({ "name": rule.name(), "low": low, "high": high, "aim": aim, "floor_mA": units::shortest(floor_ua, MICRO_PER_MILLI) })
}
