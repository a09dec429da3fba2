//! The scenarios that must be kept, and what each must carry.

use terminal::rehearsal::Outcome;

use super::all;

const KEPT: &[&str] = &[
    "plain-v",
    "plain-a",
    "no-own-beats",
    "own-at-limit",
    "not-tolerated",
    "never-paced",
    "own-118",
    "found-rate-fast",
    "irregular-v",
    "irregular-a",
    "block-at-faster-rate",
    "atrial-wire-on-ventricle",
    "found-did-not-see",
    "asynchronous-ordered",
    "asynchronous-forgotten",
    "found-at-maximum",
    "spikes-without-beats",
    "seen-to-last",
    "half-less-one-refuses",
    "minimum-captures",
    "spike-at-minimum",
    "capture-near-top",
    "no-capture-at-maximum",
    "nothing-captures-no-own-beats",
    "lost-then-no-beats",
    "no-beats-at-minimum",
    "pressure-falls-by-pacing",
    "t-wave-seen",
    "extra-beats-unmarked",
    "doubled",
    "coarse-dial",
    "plain-volts",
    "slip",
    "killed-short",
    "killed-long",
    "shock-in-check",
    "new-patient",
    "emergency-raised-output",
    "asynchronous-switch",
    "stop-own-rhythm",
    "stop-sensing",
    "stop-capture",
    "stop-after-loss",
    "lost-for-good",
    "dial-elsewhere",
    "reading-differs",
    "first-reading-mistyped",
    "output-misread",
    "dials-not-read",
    "no-standby",
    "minimum-time-up",
    "margin-check",
    "bracket",
    "beyond-limits",
];

#[test]
fn none_of_them_is_missing() {
    let names: Vec<String> = all().into_iter().map(|(name, _)| name).collect();
    let missing: Vec<&&str> = KEPT.iter().filter(|kept| !names.iter().any(|name| name == *kept)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// A scenario that expects next to nothing would pass whatever the check did.
#[test]
fn each_says_what_it_teaches_and_expects_enough_to_fail() {
    for (name, ready) in all() {
        let scenario = &ready.scenario;
        let expect = &scenario.expect;
        assert!(scenario.invented && scenario.story.len() > 40, "{name}: story");
        assert!(expect.because.len() > 80, "{name}: because");
        assert!(expect.turns.is_some() || expect.restore.is_some(), "{name}: neither turns nor restore");
        if matches!(expect.outcome, Outcome::Finished | Outcome::Stopped) {
            assert!(expect.capture.is_some() && expect.stays.is_some(), "{name}: capture and stays");
        }
    }
}

/// No scenario names what a person could be known by.
#[test]
fn each_is_marked_on_every_screen_it_makes() {
    let (_, ready) = all().into_iter().find(|(name, _)| name == "plain-v").unwrap();
    let mut cards = 0;
    let mut each = |seen: &terminal::rehearsal::CardSeen| {
        cards += 1;
        assert!(seen.view.head.title.contains("invented"), "{}", seen.view.head.title);
        assert!(!seen.view.marks.is_empty(), "card {} has no mark of example rules", seen.view.card);
    };
    terminal::rehearsal::rehearse(&ready, &mut each).unwrap();
    assert!(cards > 40, "only {cards} cards");
}
