use serde_json::json;

use super::check;
use crate::scenarios::{all, ending};

/// Check value 3, source ACCCN (V): from 80 in steps of 10 to 50; still pacing there: stop, the initial
/// settings, test neither threshold.
#[test]
fn from_80_down_to_50_and_back_and_neither_test() {
    let ending = check(|patient| patient["heart"]["atrium"] = json!({ "rhythm": "silent" }));
    assert_eq!(ending.turns, ["RATE 70", "RATE 60", "RATE 50", "RATE 80"]);
    let last = ending.json();
    assert_eq!(last["thresholds"]["sensing_mV"], json!(null));
    assert_eq!(last["thresholds"]["capture_mA"], json!(null));
    let why = json!({ "own": "not-seen", "sensing": "no-own-beats", "capture": "no-own-beats" });
    assert_eq!(last["thresholds"]["why"], why);
    let found = json!({ "rate_per_min": 80, "output_mA": 6.0, "sensitivity_mV": 2.0, "asynchronous": false });
    assert_eq!(last["stays"], found);
    assert_eq!(last["readback"], found);
}

/// Check value 8, source PLOS Table 3 (V): seven published cut-offs for dependence, with the seconds an own
/// rhythm must hold where the row gives them. The eighth row is no rate (no conduction at 6 months).
const CUT_OFFS: &[(&str, u16, u16)] = &[
    ("Feldman 1992", 50, 30),
    ("Glikson 1997", 50, 30),
    ("Onalan 2008", 30, 30),
    ("Huynh 2009", 30, 30),
    ("Merin 2009", 40, 40),
    ("Raza 2011", 40, 30),
    ("Rene 2013", 30, 10),
];

#[test]
fn an_escape_of_35_is_dependent_at_50_and_40_and_not_at_30() {
    for (who, cut_off, hold_s) in CUT_OFFS {
        let ending = check(|patient| {
            let rules = json!({ "own_limit": cut_off, "own_hold_s": hold_s });
            patient["rules_changed"] = rules;
            patient["heart"]["atrium"] = json!({ "rhythm": "sinus", "rate_per_min": 90 });
            patient["heart"]["complete_block"] = json!(true);
            patient["heart"]["escape"] = json!({ "rate_per_min": 35 });
        });
        let record = ending.record.unwrap();
        let dependent = record.own.is_none();
        assert_eq!(dependent, *cut_off > 35, "{who}: own {:?}", record.own);
        if !dependent {
            assert_eq!(record.own, Some((35, 35)), "{who}");
        }
    }
}

/// Check value 12, source SHOCK (V): after a shock thresholds rise six-fold and fall again within a day: a check
/// is due at once.
#[test]
fn after_a_shock_a_check_is_due_now() {
    let (name, ready) = all().into_iter().find(|(name, _)| name == "shock-in-check").unwrap();
    let record = ending(&name, &ready).record.unwrap();
    assert_eq!(record.due_ms, record.ended.wall_ms);
}
