use observer::{Bedside, Reading};
use serde_json::json;
use terminal::scenario::read;

use super::{check, patient, turned};

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
    let (rate, output) = (turned(&ending, "RATE 46"), turned(&ending, "OUTPUT 0.1"));
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

/// The first spike that follows a beat once no beat is marked any more, and the second: how long after the beat
/// before it, ms.
fn spikes_behind_missed_beats(rate: &str) -> [u64; 2] {
    let ready = read(&patient().to_string()).unwrap();
    let found = Reading { output: "0.1".into(), rate: rate.into(), mv: Some("2.0".into()) };
    let port = simulator::Chamber::Ventricle;
    let mut bedside =
        Bedside::new(simulator::Heart::sinus(72), ready.profile, port, found.clone(), 1).unwrap();
    bedside.pass(5_000);
    assert!(bedside.strip().spikes(0).next().is_none(), "every own beat is marked");
    bedside.set(Reading { mv: Some("20.0".into()), ..found }).unwrap();
    bedside.pass(5_000);
    let beats = bedside.strip().beats(port, 0);
    let behind = |spike: &u64| {
        let before = beats.iter().rev().find(|(at, _)| at < spike).unwrap();
        (spike - before.0) / 1_000
    };
    let spikes: Vec<u64> = bedside.strip().spikes(0).collect();
    [behind(&spikes[0]), behind(&spikes[1])]
}

/// CICM13 (C): with the rate 10 below an own 72 a missed beat puts the first spike 134 ms behind it, on muscle that
/// cannot answer yet; the second comes 269 ms behind its beat, on the T wave. At 46 the first comes 471 ms behind.
#[test]
fn a_missed_beat_at_62_puts_its_spikes_on_muscle_and_t_wave_and_one_at_46_behind_both() {
    assert_eq!(spikes_behind_missed_beats("62"), [134, 268]);
    assert_eq!(spikes_behind_missed_beats("46")[0], 471);
}

/// At 46, where the minimum captures, the first spike tells so.
#[test]
fn where_the_minimum_captures_the_first_spike_at_46_tells() {
    let ending = check(|patient| {
        patient["heart"]["capture"] = json!({ "going_down": 0.1, "going_up": 0.1 });
        patient["found"]["output"] = json!("1.5");
    });
    assert!(turned(&ending, "RATE 46") < turned(&ending, "OUTPUT 0.1"), "{:?}", ending.turns);
    let flags = terminal::rehearsal::summary::flags(&ending.record.unwrap());
    assert!(flags.contains(&"spike-at-minimum".to_owned()), "{flags:?}");
}
