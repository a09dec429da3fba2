use serde_json::json;

use super::{check, turned};

/// Check value 2, source CICM13 (V): own 72, test rate 62, here lower (see below); the output at its lowest before
/// the number rises; threshold 6.0, set to half: 3.0 mV.
#[test]
fn own_72_is_sensed_below_62_with_the_output_down_first_and_6_becomes_3() {
    let ending = check(|patient| {
        patient["rules_changed"] = json!({ "sensing_rule": "half" });
        patient["heart"]["signal"] = json!({ "own_mV": 6.0 });
        patient["found"]["mv"] = json!("5.0");
    });
    assert_eq!(ending.json()["thresholds"]["sensing_mV"], json!(6.0));
    assert_eq!(ending.stays.mv.as_deref(), Some("3.0"));
    let (rate, output) = (turned(&ending, "RATE 47"), turned(&ending, "OUTPUT 0.1"));
    let number = ending.turns.iter().position(|turn| turn.starts_with("mV")).unwrap();
    assert!(rate < output && output < number, "{:?}", ending.turns);
    // The way out: the number comes down before the output goes up (N2).
    assert!(turned(&ending, "mV 3.0") < turned(&ending, "OUTPUT 6.0"), "{:?}", ending.turns);
}

/// Check value 4, source ACCCN (V, C): half less 1 mV.
#[test]
fn half_less_one() {
    for (threshold, set) in [("10.0", "4.0"), ("8.0", "3.0"), ("6.0", "2.0"), ("4.0", "1.0"), ("3.0", "0.5")]
    {
        let ending = half_less_one_at(threshold);
        assert_eq!(ending.stays.mv.as_deref(), Some(set), "threshold {threshold}");
        let record = ending.record.unwrap();
        assert_eq!(record.sensing_text.as_deref(), Some(threshold));
    }
}

/// Check value 4, source ACCCN (C): at 2 mV half less 1 is nothing: refused, the number stays, said in a flag.
#[test]
fn half_less_one_refuses_at_2() {
    let ending = half_less_one_at("2.0");
    assert_eq!(ending.stays.mv.as_deref(), Some("2.0"));
    assert_eq!(terminal::rehearsal::summary::flags(&ending.record.unwrap()), ["number-refused"]);
}

fn half_less_one_at(threshold: &str) -> terminal::rehearsal::Ending {
    check(|patient| {
        patient["rules_changed"] = json!({ "sensing_rule": "half less 1 mV", "lowest_ventricle_mV": "0.5" });
        patient["heart"]["signal"] = json!({ "own_mV": threshold.parse::<f64>().unwrap() });
        patient["found"]["mv"] = json!(threshold);
    })
}

/// Arithmetic on CICM13 (C): with the rate 10 below an own 72 a missed beat puts the first spike 134 ms behind it,
/// on muscle that cannot answer yet; the second comes 269 ms behind its beat, on the T wave. At 47 the first comes
/// 443 ms behind, and where the minimum captures it tells so.
#[test]
fn a_missed_beat_at_47_puts_its_spike_443_ms_behind() {
    assert_eq!(60_000_000 / 62 - 60_000_000 / 72, 134_408);
    assert_eq!(2 * (60_000_000 / 62) - 2 * (60_000_000 / 72), 268_816);
    assert_eq!(60_000_000 / 47 - 60_000_000 / 72, 443_262);
    let ending = check(|patient| {
        patient["heart"]["capture"] = json!({ "going_down": 0.1, "going_up": 0.1 });
        patient["found"]["output"] = json!("1.5");
    });
    assert!(turned(&ending, "RATE 47") < turned(&ending, "OUTPUT 0.1"), "{:?}", ending.turns);
    let flags = terminal::rehearsal::summary::flags(&ending.record.unwrap());
    assert!(flags.contains(&"spike-at-minimum".to_owned()), "{flags:?}");
}
