//! How long each card watches, worked out by hand: example rules, RATE at 50, 60, 85 or 90.

use domain::check::facts::{Dials, Facts, NONE};
use domain::check::guard::Guards;
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::watch::length_ms;
use domain::rules::{Chamber, Rules};
use serde_json::json;

use crate::made::{generator, read};

/// Card, position of RATE, slowest own rate (0: not known), ms.
const WATCHES: [(Step, u8, u8, i64); 17] = [
    // Seconds of the rule, whatever beats.
    (Step::OwnDown, 0, 0, 10_000),
    (Step::OwnDown, 3, 52, 10_000),
    (Step::OwnHold, 0, 52, 30_000),
    // Three spikes or ten seconds.
    (Step::SenseMinimum, 0, 52, 10_000),
    // Five beats: the longer of own beats and set intervals.
    (Step::SenseRate, 0, 62, 6_000),
    (Step::SenseUp, 0, 72, 6_000),
    (Step::SenseUp, 3, 62, 4_840),
    (Step::SenseUp, 1, 60, 5_000),
    (Step::CaptureDown, 2, 0, 3_530),
    (Step::CaptureRate, 3, 0, 3_335),
    (Step::SetOutput, 3, 72, 4_170),
    // Three on the way out.
    (Step::SenseMvOut, 0, 72, 3_600),
    (Step::SenseOutputOut, 0, 40, 4_500),
    // Ten at a threshold, twenty to confirm.
    (Step::CaptureCount, 2, 0, 7_060),
    (Step::AsynchronousOff, 1, 0, 10_000),
    (Step::Confirm, 3, 0, 13_340),
    (Step::Confirm, 1, 45, 26_680),
];

#[test]
fn each_card_watches_as_long_as_worked_out_by_hand() {
    let rates = json!(["50", "60", "85", "90"]);
    let profile = read(&generator(&rates, "mA", &json!(["1.0", "2.0"]), &json!(["3.0", "6.0"])));
    let rules = Rules::example();
    let setup = Setup {
        profile: &profile,
        rules: &rules,
        chamber: Chamber::Ventricle,
        history: false,
        needs_acceptance: true,
        last_capture: NONE,
        last_seen: NONE,
        guards: Guards::ALL_ON,
    };
    for (step, rate, own_slowest, ms) in WATCHES {
        let stand = Dials { output: 0, rate, mv: 0 };
        let facts = Facts { stand, found: stand, own_slowest, ..Facts::new(step) };
        assert_eq!(length_ms(&setup, &facts), ms, "{step:?}, RATE position {rate}, own {own_slowest}");
    }
}
