//! A recorded rhythm in an exercise: read, played, judged; and recordings that are none, a plain sentence each.

use practice::{Exercise, Fault, HeartFile, Run, Verdict, judge};
use proof::{End, practise};
use serde_json::{Value, json};
use simulator::{AtrialRhythm, Chamber, Heart, Origin, Recording, What};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/recorded");

fn read(name: &str) -> String {
    std::fs::read_to_string(format!("{FOLDER}/{name}")).unwrap()
}

fn beside(name: &str) -> Result<String, String> {
    std::fs::read_to_string(format!("{FOLDER}/{name}")).map_err(|error| error.to_string())
}

fn sample() -> Value {
    serde_json::from_str(&read("quiet.json")).unwrap()
}

/// The sample with this recording.
fn with(recorded: &Value) -> String {
    let mut file = sample();
    file["heart"]["recorded"] = recorded.clone();
    file.to_string()
}

/// Written out in the exercise.
fn written(csv: &str) -> Result<Exercise, Fault> {
    Exercise::from_json(&with(&json!({ "source": "invented", "csv": csv })))
}

fn signal(csv: &str, hz: u32, level_mv: f64) -> Result<Exercise, Fault> {
    let recorded = json!({ "source": "invented", "csv": csv, "hz": hz, "level_mV": level_mv });
    Exercise::from_json(&with(&recorded))
}

fn recording(heart: &Heart) -> &Recording {
    let AtrialRhythm::Recorded(recording) = &heart.atrium else { panic!("{heart:?}") };
    recording
}

fn beats(exercise: &Exercise) -> Vec<(u64, Option<u32>)> {
    recording(&exercise.heart(0)).beats().iter().map(|beat| (beat.at_us, beat.signal_uv)).collect()
}

/// The ventricle's beats of the last batch.
fn ventricular(run: &Run) -> impl Iterator<Item = (u64, Origin)> + '_ {
    run.events().iter().filter_map(|event| {
        let What::Beat { chamber: Chamber::Ventricle, origin } = event.what else { return None };
        Some((event.at_us, origin))
    })
}

#[test]
fn the_beats_of_a_list_are_taken_as_they_stand() {
    let listed = written("second,mV\r\n0.5,7.25\r\n\r\n1.25;6\n2.0625\t8.001\n").unwrap();
    assert_eq!(beats(&listed), [(500_000, Some(7_250)), (1_250_000, Some(6_000)), (2_062_500, Some(8_001))]);
    let marked = written("\u{feff}second,mV\n0.5,7.25\n1.25,6\n2.0625,8.001\n").unwrap();
    assert_eq!(beats(&marked), beats(&listed));
    let bare = written("0\n0.9\n1.7").unwrap();
    assert_eq!(beats(&bare), [(0, None), (900_000, None), (1_700_000, None)]);
}

/// At 10 samples a second: a rise to the level is a beat, its signal the largest of 250 ms, and nothing else is
/// looked for in them. The last rise is cut off by the end.
#[test]
fn the_beats_of_a_signal_are_its_rises_to_the_level() {
    let samples = [0.0, 0.9, 1.0, 0.2, 2.0, 0.1, 0.0, 1.5, 1.0, 1.4, 1.2, 0.0, -1.0, 3.0, 0.0, 0.0, 0.0, 1.1];
    let csv = samples.map(|mv| mv.to_string()).join("\n");
    let read = signal(&csv, 10, 1.0).unwrap();
    let seen = [(200_000, Some(2_000)), (700_000, Some(1_500)), (1_300_000, Some(3_000))];
    assert_eq!(beats(&read), seen);
    // Above the level from the first sample on is no rise.
    let read = signal(&format!("2\n{csv}\n0\n0\n0"), 10, 1.0).unwrap();
    assert_eq!(beats(&read)[0].0, 300_000);
    assert_eq!(beats(&read)[3], (1_800_000, Some(1_100)));
}

#[test]
fn where_nothing_is_paced_a_run_beats_as_recorded() {
    let exercise = Exercise::from_json_beside(&read("quiet.json"), &beside).unwrap();
    let recorded: Vec<u64> = beats(&exercise).iter().map(|beat| beat.0).collect();
    // Slower than any recorded interval, so that nothing is paced.
    let mut file = sample();
    file["found"]["rate"] = json!("50");
    let exercise = Exercise::from_json_beside(&file.to_string(), &beside).unwrap();
    let mut own = Vec::new();
    for seed in [1, 7] {
        let mut run = Run::new(&exercise, seed).unwrap();
        own.clear();
        while run.now_us() < recorded.last().unwrap() + 100_000 {
            let batch = run.next_batch().unwrap();
            assert_eq!(batch.at_us() + 50_000, run.now_us());
            own.extend(ventricular(&run));
        }
        assert_eq!(own, recorded.iter().map(|at| (*at, Origin::Own)).collect::<Vec<_>>());
    }
}

/// Byte for byte, whatever lies beside it; and another recording is another exercise.
#[test]
fn the_same_recording_is_the_same_strip_and_the_hash_holds_it() {
    let csv = read("invented-beats.csv");
    let beside_it = Exercise::from_json_beside(&read("quiet.json"), &beside).unwrap();
    let again = Exercise::from_json_beside(&read("quiet.json"), &beside).unwrap();
    let strip = |exercise: &Exercise| {
        let mut run = Run::new(exercise, 5).unwrap();
        (0..1_200).flat_map(|_| run.next_batch().unwrap().bytes()).collect::<Vec<_>>()
    };
    assert!(strip(&beside_it) == strip(&again));
    assert!(strip(&beside_it) == strip(&written(&csv).unwrap()));
    assert_eq!(beside_it.hash, again.hash);
    let other = |name: &str| beside(name).map(|text| text.replace("0.412", "0.413"));
    let changed = Exercise::from_json_beside(&read("quiet.json"), &other).unwrap();
    assert_ne!(beside_it.hash, changed.hash);
    assert!(strip(&beside_it) != strip(&changed));
}

#[test]
fn whoever_follows_the_cards_passes_every_act_on_a_recorded_rhythm() {
    let exercise = Exercise::from_json_beside(&read("quiet.json"), &beside).unwrap();
    for seed in 1..13 {
        let run = practise(&exercise, seed).unwrap();
        let judged = judge(&exercise, seed, &run.entries).unwrap();
        assert_eq!(run.played.end, End::Recorded);
        assert!(judged.passed && judged.acts.iter().all(|act| act.verdict == Verdict::Done), "{judged:?}");
        // The smallest recorded signal is 7.65 mV.
        assert_eq!(exercise.profile.mv_text(judged.sensing.said.at), "7.5");
        assert_eq!(exercise.profile.output_text(judged.capture.said.at), "1.8");
    }
}

#[test]
fn a_happening_that_names_another_rhythm_ends_the_recording() {
    let mut file = sample();
    file["found"]["rate"] = json!("50");
    file["happenings"] = json!([
        { "when": { "at_s": 4 }, "what": { "heart": { "signal": { "own_mV": 3 } } } },
        { "when": { "at_s": 10 }, "what": { "heart": { "atrium": { "rhythm": "silent" } } } },
        { "when": { "at_s": 20 }, "what": { "heart": { "recorded": { "source": "invented", "csv": "1\n2\n3" } } } }
    ]);
    let exercise = Exercise::from_json_beside(&file.to_string(), &beside).unwrap();
    let mut run = Run::new(&exercise, 1).unwrap();
    let mut own = Vec::new();
    while run.now_us() < 24_000_000 {
        run.next_batch().unwrap();
        own.extend(ventricular(&run).filter(|beat| beat.1 == Origin::Own).map(|beat| beat.0 / 1_000_000));
    }
    assert!(own.iter().any(|second| *second < 10) && !own.iter().any(|second| (10..20).contains(second)));
    assert!(own.iter().any(|second| *second >= 20), "{own:?}");
}

/// What is wrong, and what the sentence must name.
fn cases() -> Vec<(Value, &'static [&'static str])> {
    let listed = |csv: &str| json!({ "source": "invented", "csv": csv });
    let drawn = |csv: &str| json!({ "source": "invented", "csv": csv, "hz": 250, "level_mV": 0.8 });
    let hz = |hz: u32| json!({ "source": "invented", "csv": "0\n1\n", "hz": hz, "level_mV": 0.8 });
    let level = |level: f64| json!({ "source": "invented", "csv": "0\n1\n", "hz": 250, "level_mV": level });
    vec![
        (listed(""), &["heart.recorded", "no figure", "one on each line"]),
        (drawn(""), &["heart.recorded", "no figure"]),
        (drawn("mV\n"), &["no figure"]),
        (drawn("mV\n0.1\nNaN\n"), &["line 3", "\"NaN\"", "a figure is allowed"]),
        (drawn("nan\n0.1\n"), &["line 1", "\"nan\""]),
        (listed("0\ninf\n"), &["line 2", "\"inf\""]),
        (listed("0\n1\nlots\n"), &["line 3", "\"lots\""]),
        (listed("0,7\n1,\n"), &["line 2", "\"\""]),
        (hz(0), &["hz: 0 stands there", "1 to 100000"]),
        (hz(100_001), &["hz: 100001", "1 to 100000"]),
        (level(0.0), &["level_mV: 0 stands there", "0.001 to 100"]),
        (level(-1.0), &["level_mV: -1"]),
        (level(101.0), &["level_mV: 101"]),
        (json!({ "source": "invented", "csv": "0\n1", "hz": 250 }), &["level_mV: nothing stands there"]),
        (json!({ "source": "invented", "csv": "0\n1", "level_mV": 1 }), &["hz: nothing stands there"]),
        (drawn("t,mV\n0,0.1\n"), &["line 1: 2 figures", "one, in mV"]),
        (drawn("0.1\n0.2,0.3\n"), &["line 2: 2 figures"]),
        (listed("0,7,1\n"), &["line 1: 3 figures", "the second of a beat", "needs hz"]),
        (listed("0,7\n1\n2,7\n"), &["beat 2", "with every beat or with none"]),
        (drawn("0\n0.5\n0.79\n0.2\n"), &["no beat found", "0.8 mV"]),
        (drawn(&"0\n1\n0\n".repeat(30)), &["too short: beats found: 1", "3 or more"]),
        (listed("0\n1\n"), &["too short: beats found: 2"]),
        (listed("0\n50\n14401\n"), &["too long", "4 hours"]),
        (drawn(&"0\n".repeat(250 * 14_400 + 2)), &["too long"]),
        (listed("0\n1\n1.1\n"), &["beat 3 comes at 1.1 s", "at 1 s", "0.15 s to 60 s"]),
        (listed("0\n1\n0.5\n"), &["beat 3 comes at 0.5 s"]),
        (listed("0\n1\n61.1\n"), &["beat 3 comes at 61.1 s"]),
        (listed("60.1\n61\n62\n"), &["beat 1 comes at 60.1 s", "up to 60 s"]),
        (listed("-1\n1\n2\n"), &["line 1", "below zero"]),
        (listed("0,5\n1,-5\n2,5\n"), &["line 2", "below zero"]),
        (listed("0,5\n1,100.5\n2,5\n"), &["line 2: 100.5", "100 mV"]),
        (drawn("0\n4000\n"), &["line 2: 4000", "100 mV"]),
        (listed("0\n1\n1.2\n"), &["heart.recorded: 0.2 stands there", "0.25 to 60 s"]),
        (json!({ "source": " ", "csv": "0\n1\n2" }), &["source: nothing stands there", "invented"]),
        (json!({ "csv": "0\n1\n2" }), &["source"]),
        (json!({ "source": "invented" }), &["one of file", "csv"]),
        (json!({ "source": "invented", "csv": "0", "file": "a.csv" }), &["one of file"]),
        (json!({ "source": "invented", "file": "../quiet.json" }), &["file: \"../quiet.json\"", "beside"]),
        (json!({ "source": "invented", "file": "" }), &["file: \"\""]),
        (json!({ "source": "invented", "file": "none.csv" }), &["none.csv cannot be read"]),
        (json!({ "source": "invented", "csv": "0", "colour": 1 }), &["colour"]),
    ]
}

#[test]
fn a_recording_that_is_no_rhythm_is_refused_in_a_sentence() {
    for (recorded, names) in cases() {
        let refused = Exercise::from_json_beside(&with(&recorded), &beside);
        let said = refused.map(|exercise| exercise.id).unwrap_err().to_string();
        for name in names {
            assert!(said.contains(name), "{said:?} does not name {name:?}");
        }
        assert!(said.ends_with('.'), "{said:?}");
    }
}

/// It would beat by a rhythm that the file does not name.
#[test]
fn a_heart_whose_recording_was_not_read_does_not_beat() {
    let file = json!({ "recorded": { "source": "invented", "csv": "0\n1\n2\n" } });
    let mut heart: HeartFile = serde_json::from_value(file).unwrap();
    let said = heart.loaded().map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("recorded: the recording has not been read"), "{said}");
    heart.load(&beside).unwrap();
    assert!(heart.loaded().is_ok());
}

#[test]
fn two_own_rhythms_and_files_that_nobody_can_read_are_refused() {
    let mut both = sample();
    both["heart"]["atrium"] = json!({ "rhythm": "sinus", "rate_per_min": 72 });
    let said = Exercise::from_json_beside(&both.to_string(), &beside).map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("heart.recorded: atrium stands there too"), "{said}");
    let mut varied = sample();
    varied["varies"] = json!({ "signal": { "step": 0.5, "lower": 1, "higher": 1 } });
    let said = Exercise::from_json_beside(&varied.to_string(), &beside).map(|_| ()).unwrap_err().to_string();
    assert_eq!(said, "varies.signal: says the opposite of heart.recorded. Make them agree.");
    let alone = Exercise::from_json(&read("quiet.json")).map(|_| ()).unwrap_err().to_string();
    assert!(alone.contains("invented-beats.csv cannot be read") && alone.contains("written out"), "{alone}");
    let mut later = sample();
    later["happenings"] = json!([{ "when": { "at_s": 1 }, "what": { "heart": {
        "recorded": { "source": "invented", "csv": "0\n1\n" } } } }]);
    let said = Exercise::from_json_beside(&later.to_string(), &beside).map(|_| ()).unwrap_err().to_string();
    assert!(said.starts_with("happenings[0].what.heart.recorded: too short"), "{said}");
}
