//! What the loop once showed to be wrong in the guide, one patient each.

use domain::flags::Flag;
use domain::profile::shipped;
use domain::rules::Rules;
use observer::Reading;
use proof::{Case, End, Played, harms, play};
use simulator::{AtrialRhythm, Chamber, Heart, Signal};

fn case(heart: Heart, (output, rate, mv): (&str, &str, &str)) -> Case {
    let fine = shipped().unwrap().into_iter().find(|profile| profile.id == "example-fine-current");
    let found = Reading { output: output.to_owned(), rate: rate.to_owned(), mv: Some(mv.to_owned()) };
    Case {
        seed: 1,
        port: Chamber::Ventricle,
        profile: fine.unwrap(),
        rules: Rules::example(),
        heart,
        found,
        plain: true,
    }
}

fn led(case: &Case) -> Played {
    let played = play(case).unwrap();
    assert_eq!(harms(case, &played), []);
    played
}

/// A T wave seen at the found number makes pauses for ever: the check said so, read the dials, looked, and began
/// again without an end.
#[test]
fn pauses_that_stay_are_flagged_and_the_check_ends() {
    let signal = Signal { own_uv: 12_000, t_wave_uv: 3_000, ..Signal::default() };
    let played = led(&case(Heart { signal, ..Heart::silent() }, ("8.0", "70", "2.0")));
    assert_eq!(played.end, End::Recorded);
    assert!(played.record.unwrap().flags.contains(&Flag::Pauses));
    assert!(played.answers.len() < 60, "{} answers", played.answers.len());
}

/// A wire that stands on a fibrillating atrium captures at no output; where the number did not see either, the
/// list that asked for the maximum came back unchanged at every "a spike without a beat".
#[test]
fn spikes_without_beats_at_the_maximum_lead_on_from_the_list() {
    let atrium = AtrialRhythm::Fibrillating { fastest_us: 659_340, slowest_us: 882_352, wave_uv: 1_186 };
    let signal = Signal { own_uv: 9_200, far_field_uv: 100, ..Signal::default() };
    let mut led_on = 0;
    for seed in 0..200 {
        let heart = Heart { wire: Chamber::Atrium, atrium: atrium.clone(), signal, ..Heart::default() };
        let played = led(&Case { seed, plain: false, ..case(heart, ("8.0", "70", "6.0")) });
        assert!(!matches!(played.end, End::Stuck(_)), "{:?}", played.end);
        let list = |pair: &[proof::Answered]| {
            pair[0].asks == "RestoreTitle"
                && pair[0].key == "spike-without-beat"
                && pair[1].asks == "EmergencyTitle"
        };
        led_on += usize::from(played.answers.windows(2).any(list));
    }
    assert!(led_on > 0);
}
