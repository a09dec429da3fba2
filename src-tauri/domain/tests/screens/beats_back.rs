//! After an emergency: own beats under asynchronous pacing, beats that stop again; and a number is never turned up
//! because it missed.

use domain::check::answer::Answer;
use domain::check::facts::{
    ASYNCHRONOUS, AtrialRhythm, Dial, Dials, Facts, FirstLook, Found, Marks, NONE, Own, Phase,
};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{self, restore};
use domain::profile::Profile;
use domain::rules::Chamber;

use crate::made::{dials, fine, largest, mv, with};

fn given(profile: &Profile, facts: &Facts, answer: Answer) -> Facts {
    with(profile, |setup| check::answer(setup, None, facts, answer)).expect("the card takes it")
}

fn stood(profile: &Profile, facts: &Facts) -> Facts {
    let watching = given(profile, facts, Answer::Stands);
    Facts { phase: Phase::Open, ..watching }
}

/// Through the emergency card and the reading behind it, to the last look.
fn after_an_emergency(profile: &Profile, mv: u8) -> Facts {
    let found = dials(profile, profile.output_text(60), profile.rate_text(40), profile.mv_text(9));
    let look = Facts { found, back_to: found, stand: found, ..Facts::new(Step::FirstLook) };
    let called = given(profile, &look, Answer::NoBeats);
    assert_eq!(called.step, Step::Emergency);
    let read = given(profile, &called, Answer::BeatsAgain);
    let stands = Dials { output: profile.output_last(), rate: 50, mv };
    given(profile, &read, Answer::Read(stands))
}

#[test]
fn own_beats_among_asynchronous_spikes_lead_to_a_number_that_sees_at_once() {
    let profile = largest();
    let look = after_an_emergency(&profile, ASYNCHRONOUS);
    assert_eq!(look.step, Step::Confirm);
    let turn = given(&profile, &look, Answer::OwnAmongThem);
    let starting = mv(&profile, "2.0");
    assert_eq!(
        (turn.step, turn.dial, turn.to),
        (Step::SetMv, Dial::Mv, starting),
        "the unit's starting number"
    );
    assert_eq!(turn.stand.rate, look.stand.rate, "RATE is not touched");
    let set = given(&profile, &stood(&profile, &turn), Answer::Fine);
    let read = given(&profile, &set, Answer::AllTrue);
    let looked = given(&profile, &read, Answer::Read(Dials { mv: starting, ..look.stand }));
    assert_eq!((looked.step, looked.stand.mv), (Step::Confirm, starting));
}

#[test]
fn asynchronous_that_somebody_ordered_stays() {
    let profile = largest();
    let mut look = after_an_emergency(&profile, ASYNCHRONOUS);
    look.asynchronous = check::facts::Asynchronous::OrderedToday;
    assert!(with(&profile, |setup| check::answer(setup, None, &look, Answer::OwnAmongThem)).is_err());
}

/// The last look is not looked for for ever: somebody is called, and the check can end.
#[test]
fn beats_that_stop_again_in_the_last_look_are_called_for() {
    let profile = fine();
    let again = |look: &Facts| {
        let up = given(&profile, look, Answer::NoBeats);
        let beats = given(&profile, &up, Answer::BeatsAgain);
        let read = given(&profile, &beats, Answer::AllTrue);
        assert_eq!(read.step, Step::ReadBack);
        let stands = with(&profile, |setup| check::set::expected(setup, &read));
        given(&profile, &read, Answer::Read(stands))
    };
    let found = dials(&profile, "6.0", "80", "2.0");
    let look = Facts { found, back_to: found, stand: found, ..Facts::new(Step::Confirm) };
    let once = again(&look);
    assert_eq!(once.step, Step::Confirm);
    let twice = again(&once);
    assert_eq!((twice.step, twice.from), (Step::Stays, Step::Confirm));
    assert!(twice.marks.has(Marks::NO_BEATS_AGAIN));
    assert_eq!(given(&profile, &twice, Answer::AllTrue).step, Step::Guarded);
}

/// Found below the unit's lowest number, and it missed: the lowest sees less, not more.
#[test]
fn a_number_found_below_the_lowest_is_not_turned_up_to_it() {
    let profile = fine();
    let low = mv(&profile, "0.6");
    let found = dials(&profile, "6.0", "80", "0.6");
    let mut missed = Facts { found, back_to: found, stand: found, ..Facts::new(Step::Confirm) };
    missed = given(&profile, &missed, Answer::BeatNotMarked);
    assert_eq!(with(&profile, |setup| restore::target(setup, &missed).mv), low);
    assert_eq!((missed.step, missed.stand.mv), (Step::Stays, low), "it stays, and somebody is called");
}

/// At the found number a spike made a beat, at minimum OUTPUT with RATE below own: OUTPUT up would fire through own
/// beats, so RATE goes first.
#[test]
fn with_no_lower_number_left_rate_goes_above_own_before_output() {
    let profile = fine();
    let found = dials(&profile, "6.0", "80", "0.6");
    let low = found.mv;
    let out = Facts {
        found,
        back_to: found,
        stand: Dials { output: 0, rate: 10, mv: low + 1 },
        dial: Dial::Mv,
        to: low,
        phase: Phase::Open,
        touched: true,
        first_look: FirstLook::EveryBeatPaced,
        own: Own::Shown,
        own_slowest: 70,
        own_fastest: 70,
        saw: low,
        sensing: Found::SeenWhereItStood,
        sensing_at: low,
        ..Facts::new(Step::SenseMvOut)
    };
    let next = given(&profile, &out, Answer::BeatNotMarked);
    let lines = with(&profile, |setup| restore::lines(setup, &next, next.row));
    assert_eq!((next.step, lines[0].dial), (Step::Restore, Dial::Rate), "{lines:?}");
    assert!(lines.iter().any(|line| line.dial == Dial::Output));
}

/// Every beat paced by a wire labelled atrial, and wide: it lies on the ventricle.
#[test]
fn a_wide_beat_at_the_atrial_question_ends_the_check() {
    let profile = fine();
    let found = dials(&profile, "6.0", "80", "2.0");
    let asked = Facts { found, back_to: found, stand: found, ..Facts::new(Step::Atrium) };
    let stopped = with(&profile, |setup| {
        let atrial = Setup { chamber: Chamber::Atrium, ..*setup };
        check::answer(&atrial, None, &asked, Answer::WideBeat)
    })
    .expect("taken");
    assert!(stopped.marks.has(Marks::WRONG_CHAMBER));
    assert_eq!((stopped.own, stopped.atrium), (Own::NotLooked, AtrialRhythm::NotAsked), "nothing is tested");
    assert_eq!(stopped.step, Step::Restore);
}

/// Of an atrial wire not yet seen to pace, the first spike at minimum OUTPUT must fall behind the T wave: it may lie
/// on the ventricle. Own 100: 600 + 420 ms, 58 a minute.
#[test]
fn an_atrial_wire_is_searched_late_until_it_was_seen_to_pace() {
    let profile = fine();
    let found = dials(&profile, "6.0", "80", "2.0");
    let rate_asked = |captures| {
        let facts = Facts {
            found,
            back_to: found,
            stand: found,
            first_look: FirstLook::OnlyOwn,
            found_captures: captures,
            ..Facts::new(Step::OwnRate)
        };
        let own = Answer::OwnRate { slowest: 100, fastest: 100 };
        let next = with(&profile, |setup| {
            let atrial = Setup { chamber: Chamber::Atrium, last_capture: NONE, ..*setup };
            check::answer(&atrial, None, &facts, own)
        })
        .expect("taken");
        (next.step, profile.rate_at(next.to))
    };
    assert_eq!(rate_asked(check::facts::Known::Unknown), (Step::SenseRate, 58));
    assert_eq!(rate_asked(check::facts::Known::Yes), (Step::SenseRate, 80));
}
