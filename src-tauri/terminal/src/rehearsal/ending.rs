//! The end of a rehearsal as data: what was found, what was planned, where the dials stand.

use domain::check::facts::{Found, Own, Why};
use domain::command::Language;
use domain::contract::Shape;
use domain::ending;
use domain::handover::drawing::unpacked;
use domain::record::Record;
use domain::say::Say;
use domain::state::bed::Names;
use domain::state::screen::Screen;
use domain::units::OutputUnit;
use observer::{Dial, Reading};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

use super::fault::RehearsalFault;
use super::log::{Log, printed};
use super::room::Room;
use super::summary::{self, number, why_code};

/// How a check ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub enum Outcome {
    /// To the result.
    Finished,
    /// To the result, after Stop.
    Stopped,
    /// Help took over on the emergency card.
    Emergency,
    /// Something of the ready list was not true.
    Blocked,
    /// It was another patient.
    NewPatient,
    /// Left before a dial was turned.
    Left,
}

/// See the module.
#[derive(Debug)]
pub struct Ending {
    pub outcome: Outcome,
    /// Of the check that ended; where help took over, what the open one knows.
    pub record: Option<Record>,
    /// Where the three dials truly stand.
    pub stays: Reading,
    pub turns: Vec<String>,
    pub restore: Option<Vec<String>>,
    /// The place in the script of the first act for which no card came.
    pub never: Option<usize>,
    pub code_lines: Vec<String>,
    /// Rows of '0' and '1', without the quiet zone.
    pub code_modules: Vec<String>,
    unit: OutputUnit,
    plan: Value,
    read_back: Value,
    refusals: Vec<Value>,
    flags: Vec<Value>,
    whys: Map<String, Value>,
}

pub fn ending(
    mut room: Room,
    log: Log,
    stays: Reading,
    unit: OutputUnit,
    handed_over: bool,
) -> Result<Ending, RehearsalFault> {
    let outcome = outcome(&room, &log, handed_over);
    let ended = matches!(outcome, Outcome::Finished | Outcome::Stopped);
    let record = match outcome {
        Outcome::Finished | Outcome::Stopped => room.records().last().cloned(),
        Outcome::Emergency => so_far(&mut room),
        Outcome::Blocked | Outcome::NewPatient | Outcome::Left => None,
    };
    let (code_lines, code_modules) = if ended { code(&mut room)? } else { (Vec::new(), Vec::new()) };
    let whys = record.as_ref().map_or_else(|| unstarted(outcome), |record| whys(record, outcome));
    let flags = record.iter().flat_map(|record| record.flags.iter().map(|flag| flag.say()));
    Ok(Ending {
        outcome,
        plan: plan(&log, unit),
        read_back: read_back(&log, unit),
        refusals: refusals(&log, record.as_ref(), &whys)?,
        flags: flags.map(|flag| said(&flag, "flag", "Flag")).collect::<Result<_, _>>()?,
        whys,
        record,
        stays,
        unit,
        turns: log.turns,
        restore: log.restore,
        never: None,
        code_lines,
        code_modules,
    })
}

/// What the check that is open would leave if it ended now.
fn so_far(room: &mut Room) -> Option<Record> {
    let now = room.clock.now();
    let (.., wire, open) = room.state.check_on_screen()?;
    ending::record(&room.state, wire, open, &open.facts, &Names::default(), now)
}

fn outcome(room: &Room, log: &Log, handed_over: bool) -> Outcome {
    let screen = room.state.screen;
    if handed_over {
        Outcome::Emergency
    } else if matches!(screen, Screen::NewPatient { .. }) {
        Outcome::NewPatient
    } else if matches!(screen, Screen::Result { .. }) {
        if log.stopped { Outcome::Stopped } else { Outcome::Finished }
    } else if log.blocked.is_some() {
        Outcome::Blocked
    } else {
        Outcome::Left
    }
}

impl Ending {
    /// The last object of `rehearse --json`.
    pub fn json(&self) -> Value {
        json!({
            "outcome": self.outcome,
            "thresholds": self.thresholds(),
            "plan": self.plan,
            "flags": self.flags,
            "refusals": self.refusals,
            "stays": dials(self.unit, |dial| Some(printed(&self.stays, dial).to_owned())),
            "readback": self.read_back,
            "code": self.code_lines,
        })
    }

    /// A threshold that was not found is null, with its `why`.
    fn thresholds(&self) -> Value {
        let mut found = Map::new();
        let record = self.record.as_ref();
        let (slowest, fastest) = record.and_then(|record| record.own).unzip();
        let capture = format!("capture_{}", self.unit.symbol());
        let text = |text: Option<&String>| text.map_or(Value::Null, |text| number(text));
        let kind = |of: fn(&Record) -> Found, kind: Found| {
            record.filter(|r| of(r) != Found::Nothing).map_or(Value::Null, |r| json!(of(r) == kind))
        };
        found.insert("own_slowest_per_min".into(), json!(slowest));
        found.insert("own_fastest_per_min".into(), json!(fastest));
        found.insert("sensing_mV".into(), text(record.and_then(|r| r.sensing_text.as_ref())));
        found.insert("sensing_at_least".into(), kind(|r| r.sensing, Found::AtLeast));
        found.insert("sensing_not_raised".into(), kind(|r| r.sensing, Found::SeenWhereItStood));
        found.insert(capture.clone(), text(record.and_then(|r| r.capture_text.as_ref())));
        found.insert("capture_at_most".into(), kind(|r| r.capture, Found::AtMost));
        found.insert(
            format!("capture_going_down_{}", self.unit.symbol()),
            record.and_then(Record::held_going_down).map_or(Value::Null, number),
        );
        found.insert(
            format!("capture_lost_at_{}", self.unit.symbol()),
            text(record.filter(|r| r.capture == Found::Bracket).and_then(|r| r.capture_low_text.as_ref())),
        );
        found.insert("why".into(), Value::Object(self.whys.clone()));
        Value::Object(found)
    }
}

/// Where the dials are meant to stand, by the last restore strip.
fn plan(log: &Log, unit: OutputUnit) -> Value {
    let Some(strip) = &log.strip else { return Value::Null };
    dials(unit, |dial| {
        let small = strip.dials.iter().find(|small| Dial::named(&small.label) == Some(dial))?;
        if let Say::FigureUnit { figure, .. } | Say::Figure { text: figure } = &small.value {
            return Some(figure.clone());
        }
        None
    })
}

fn read_back(log: &Log, unit: OutputUnit) -> Value {
    let Some(typed) = &log.read_back else { return Value::Null };
    dials(unit, |dial| {
        let field = match dial {
            Dial::Output => "output",
            Dial::Rate => "rate",
            Dial::Mv => "mv",
        };
        typed.get(field).cloned()
    })
}

/// The three dials as numbers; asynchronous is said, and its number is null.
fn dials(unit: OutputUnit, text: impl Fn(Dial) -> Option<String>) -> Value {
    let figure = |dial: Dial| text(dial).map_or(Value::Null, |text| number(&text));
    let mut map = Map::new();
    map.insert("rate_per_min".into(), figure(Dial::Rate));
    map.insert(format!("output_{}", unit.symbol()), figure(Dial::Output));
    map.insert("sensitivity_mV".into(), figure(Dial::Mv));
    map.insert("asynchronous".into(), json!(figure(Dial::Mv).is_null()));
    Value::Object(map)
}

/// Why each threshold is null: the test was not done, or found none.
fn whys(record: &Record, outcome: Outcome) -> Map<String, Value> {
    let test = |found: Found, why: Why| match found {
        Found::Nothing => Some(code_of(why, outcome)),
        Found::SeenAtNone => Some(json!("seen-at-none")),
        Found::Exact | Found::AtLeast | Found::AtMost | Found::Bracket | Found::SeenWhereItStood => None,
    };
    let own = record.own.is_none().then(|| match record.facts.own {
        Own::NotSeen => json!("not-seen"),
        Own::NotLooked | Own::Shown | Own::Cleared => json!("not-looked-for"),
    });
    let tests = [
        ("own", own),
        ("sensing", test(record.sensing, record.why_sensing)),
        ("capture", test(record.capture, record.why_capture)),
    ];
    tests.into_iter().filter_map(|(test, why)| Some((test.to_owned(), why?))).collect()
}

/// Nothing was tested.
fn unstarted(outcome: Outcome) -> Map<String, Value> {
    ["own", "sensing", "capture"].map(|test| (test.to_owned(), json!(outcome))).into_iter().collect()
}

/// Where the check itself has no reason, how it ended is the reason.
fn code_of(why: Why, outcome: Outcome) -> Value {
    if why == Why::None { json!(outcome) } else { json!(why_code(why)) }
}

/// Tests refused, a check refused, and entries that were not taken.
fn refusals(
    log: &Log,
    record: Option<&Record>,
    whys: &Map<String, Value>,
) -> Result<Vec<Value>, RehearsalFault> {
    let refused = |(test, _): &(&String, &Value)| match (test.as_str(), record) {
        ("sensing", Some(record)) => record.sensing == Found::Nothing,
        ("capture", Some(record)) => record.capture == Found::Nothing,
        _ => false,
    };
    let tests = whys.iter().filter(refused).map(|(test, why)| Ok(json!({ "of": test, "why": why })));
    let check = log.blocked.iter().map(|blocked| refusal("check", blocked));
    let entries = log.refused.iter().map(|(_, said)| refusal("entry", said));
    tests.chain(check).chain(entries).collect()
}

fn refusal(of: &str, why: &Say) -> Result<Value, RehearsalFault> {
    let mut value = said(why, "why", "")?;
    if let Value::Object(map) = &mut value {
        map.insert("of".into(), json!(of));
    }
    Ok(value)
}

fn said(say: &Say, name: &str, less: &str) -> Result<Value, RehearsalFault> {
    let code = summary::kebab(say.name().trim_start_matches(less));
    Ok(json!({ name: code, "said": words::say(say, Language::English)? }))
}

/// The very text of the code, and its drawing.
fn code(room: &mut Room) -> Result<(Vec<String>, Vec<String>), RehearsalFault> {
    let view = room.code()?;
    let Shape::Code(shown) = view.shape else { return Ok((Vec::new(), Vec::new())) };
    let text = room.code_text().unwrap_or_default();
    Ok((text.lines().map(str::to_owned).collect(), unpacked(shown.across, &shown.modules)))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    /// No scenario ends so.
    #[test]
    fn a_number_that_saw_nothing_is_a_reason_and_no_refusal() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/plain-v.json");
        let ready = crate::scenario::read_file(Path::new(path)).unwrap();
        let ended = crate::rehearsal::rehearse(&ready, &mut |_| {}).unwrap();
        let mut record = ended.record.unwrap();
        (record.sensing, record.sensing_text) = (Found::SeenAtNone, None);
        let whys = whys(&record, Outcome::Finished);
        assert_eq!(Value::Object(whys.clone()), json!({ "sensing": "seen-at-none" }));
        assert!(refusals(&Log::default(), Some(&record), &whys).unwrap().is_empty());
    }
}
