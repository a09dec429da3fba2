use serde_json::{Value, json};
use terminal::rehearsal::Ending;

use super::{check, turned};

/// A heart that loses and catches at the same figure, found at 20 mA.
fn at(threshold: f64, output_rule: Value) -> Ending {
    check(|patient| {
        patient["rules_changed"] = json!({ "output_rule": output_rule });
        patient["heart"]["capture"] = json!({ "going_down": threshold, "going_up": threshold });
        patient["found"]["output"] = json!("20.0");
    })
}

/// Check value 6, source CICM13 (V): own 72, test rate 82; double: 1.2 becomes 2.4, 2.5 becomes 5.0.
#[test]
fn own_72_is_captured_at_82_and_the_threshold_doubled() {
    for (threshold, set) in [(1.2, "2.4"), (2.5, "5.0")] {
        let ending = at(threshold, json!({ "name": "double" }));
        let rate = turned(&ending, "RATE 82");
        assert!(ending.turns[rate + 1].starts_with("OUTPUT"), "{:?}", ending.turns);
        assert_eq!(ending.json()["thresholds"]["capture_mA"], json!(threshold));
        assert_eq!(ending.stays.output, set, "threshold {threshold}");
    }
}

/// Check value 5, source ACCCN (V, C): double plus 1 mA; check value 7 (C): inside 1.5 to 3 times, the band of
/// CTS, exactly from 1 mA up.
#[test]
fn double_plus_one() {
    for (threshold, set) in [(0.7, "2.4"), (1.0, "3.0"), (3.0, "7.0"), (5.0, "11.0"), (9.5, "20.0")] {
        let ending = at(threshold, json!({ "name": "double plus 1 mA" }));
        assert_eq!(ending.stays.output, set, "threshold {threshold}");
        let multiple = set.parse::<f64>().unwrap() / threshold;
        assert!(multiple >= 1.5);
        assert_eq!(multiple <= 3.0, threshold >= 1.0, "threshold {threshold}");
    }
}

/// Check value 5, source ACCCN (C): at 10 mA double plus 1 is beyond a dial of 20: no position, call.
#[test]
fn double_plus_one_refuses_at_10() {
    let ending = at(10.0, json!({ "name": "double plus 1 mA" }));
    assert_eq!(ending.stays.output, "20.0");
    let flags = terminal::rehearsal::summary::flags(&ending.record.unwrap());
    assert!(flags.contains(&"no-rule-satisfied".to_owned()), "{flags:?}");
}

/// CICM13, CTS (V): down to the loss, up until every spike makes a beat: that is the threshold. By strides of
/// 20 % from 6.0 the last that holds is 2.1; 1.7 is lost, 2.1 and 2.2 do not catch again, 2.3 does.
#[test]
fn the_threshold_is_the_figure_going_up() {
    let ending = check(|patient| {
        patient["heart"]["capture"] = json!({ "going_down": 2.0, "going_up": 2.3 });
    });
    let thresholds = ending.json()["thresholds"].clone();
    assert_eq!(thresholds["capture_mA"], json!(2.3));
    assert_eq!(thresholds["capture_going_down_mA"], json!(2.1));
    assert_eq!(thresholds["capture_at_most"], json!(false));
}
