//! After an emergency: own beats under asynchronous pacing, beats that stop again; and a number is never turned up
//! because it missed.

use domain::check::answer::Answer;
use domain::check::facts::{
    ASYNCHRONOUS, AtrialRhythm, Dial, Dials, Facts, FirstLook, Found, Marks, NONE, Own, Phase, Row,
};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{self, restore};
use domain::profile::Profile;
use domain::rules::Chamber;

use crate::made::{dials, fine, largest, mv, rate, with};

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

/// Where the number that ended it makes pauses it stays all the same, and somebody is called: own beats are there, and
/// asynchronous spikes would fall among them.
#[test]
fn pauses_at_that_number_are_called_for() {
    let profile = largest();
    let turn = given(&profile, &after_an_emergency(&profile, ASYNCHRONOUS), Answer::OwnAmongThem);
    let stays = given(&profile, &stood(&profile, &turn), Answer::Pause);
    assert_eq!((stays.step, stays.stand.mv), (Step::Stays, turn.to));
    assert!(stays.marks.has(Marks::PAUSES));
    let read = given(&profile, &stays, Answer::AllTrue);
    let look = given(&profile, &read, Answer::Read(stays.stand));
    let again = given(&profile, &look, Answer::Pause);
    assert_eq!((again.step, again.from), (Step::Stays, Step::Confirm), "not round and round");
}

fn takes(profile: &Profile, facts: &Facts, answer: Answer) -> bool {
    with(profile, |setup| check::answer(setup, None, facts, answer)).is_ok()
}

#[test]
fn asynchronous_that_somebody_ordered_or_that_no_emergency_left_stays() {
    let profile = largest();
    let look = after_an_emergency(&profile, ASYNCHRONOUS);
    assert!(takes(&profile, &look, Answer::OwnAmongThem));
    let ordered = Facts { marks: look.marks.and(Marks::ASYNCHRONOUS_ORDERED), ..look };
    assert!(!takes(&profile, &ordered, Answer::OwnAmongThem));
    let unasked = Facts { marks: Marks(0), ..look };
    assert!(!takes(&profile, &unasked, Answer::OwnAmongThem));
}

/// Emergency, fibrillation, shock: the list still asks for asynchronous, and own beats can still be said.
#[test]
fn after_a_shock_own_beats_can_be_said_under_asynchronous_pacing() {
    let profile = largest();
    let found = dials(&profile, profile.output_text(60), profile.rate_text(40), profile.mv_text(9));
    let look = Facts { found, back_to: found, stand: found, ..Facts::new(Step::FirstLook) };
    let called = given(&profile, &look, Answer::NoBeats);
    let shocked = given(&profile, &given(&profile, &called, Answer::FastWide), Answer::ShockGiven);
    let list = given(&profile, &stood(&profile, &shocked), Answer::Fine);
    let read = given(&profile, &list, Answer::AllTrue);
    let stands = with(&profile, |setup| check::set::expected(setup, &read));
    assert_eq!(stands.mv, ASYNCHRONOUS);
    let last = given(&profile, &read, Answer::Read(stands));
    let turn = given(&profile, &last, Answer::OwnAmongThem);
    assert_eq!((turn.step, turn.to), (Step::SetMv, found.mv), "found, and nothing says that it does not see");
}

/// Beats that stop again are called for, but not before own beats under asynchronous pacing were asked for.
#[test]
fn asynchronous_is_asked_about_although_beats_stopped_again() {
    let profile = largest();
    let look = after_an_emergency(&profile, ASYNCHRONOUS);
    let marks = look.marks.and(Marks::NO_BEATS_AGAIN);
    let read = Facts { marks, step: Step::ReadAfter, phase: Phase::Open, ..look };
    assert_eq!(given(&profile, &read, Answer::Read(look.stand)).step, Step::Confirm);
    let looked = Facts { step: Step::ReadBack, ..read };
    let expected = with(&profile, |setup| check::set::expected(setup, &looked));
    assert_eq!(given(&profile, &looked, Answer::Read(expected)).step, Step::Stays, "not round and round");
    let numbered = Dials { mv: 9, ..look.stand };
    assert_eq!(given(&profile, &read, Answer::Read(numbered)).step, Step::Stays);
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
    assert_eq!((missed.step, missed.stand.mv, missed.row), (Step::Restore, low, Row::Blind));
    let lines = with(&profile, |setup| restore::lines(setup, &missed, missed.row));
    let above = rate(&profile, "90");
    assert_eq!(lines, [restore::Line { dial: Dial::Rate, to: above }], "above own beats that nothing sees");
    let read = given(&profile, &missed, Answer::AllTrue);
    let look = given(&profile, &read, Answer::Read(Dials { rate: above, ..found }));
    assert_eq!(look.step, Step::Confirm);
    let stays = given(&profile, &look, Answer::BeatNotMarked);
    assert_eq!((stays.step, stays.stand.mv), (Step::Stays, low), "asked for once, and somebody is called");
}

/// It missed lower still, where somebody had turned it: there it stays.
#[test]
fn nor_to_a_number_above_one_that_missed() {
    let profile = fine();
    let found = dials(&profile, "6.0", "80", "2.0");
    let low = mv(&profile, "0.6");
    let mut facts =
        Facts { found, back_to: found, stand: Dials { mv: low, ..found }, ..Facts::new(Step::Confirm) };
    facts.missed_at(found.mv);
    let missed = given(&profile, &facts, Answer::BeatNotMarked);
    assert_eq!(with(&profile, |setup| restore::target(setup, &missed).mv), low);
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
/// on the ventricle. Own 100: 603 + 440 ms, 57 a minute.
#[test]
fn an_atrial_wire_is_searched_late_until_it_was_seen_to_pace() {
    let profile = fine();
    let found = dials(&profile, "6.0", "80", "2.0");
    let rate_asked = |first_look| {
        let facts = Facts { found, back_to: found, stand: found, first_look, ..Facts::new(Step::OwnRate) };
        let own = Answer::OwnRate { slowest: 100, fastest: 100 };
        let next = with(&profile, |setup| {
            let atrial = Setup { chamber: Chamber::Atrium, last_capture: NONE, ..*setup };
            check::answer(&atrial, None, &facts, own)
        })
        .expect("taken");
        (next.step, profile.rate_at(next.to))
    };
    assert_eq!(rate_asked(FirstLook::OnlyOwn), (Step::SenseRate, 57));
    assert_eq!(rate_asked(FirstLook::EveryBeatPaced), (Step::SenseRate, 80));
    assert_eq!(rate_asked(FirstLook::Both), (Step::SenseRate, 80));
}
