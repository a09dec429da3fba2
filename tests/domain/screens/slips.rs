//! Slips, pauses and dials found elsewhere: what the exhaustive walk has found wrong once, by hand.

use domain::check;
use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Asynchronous, Dial, Facts, Phase, Row};
use domain::check::step::Step;
use domain::check::{offer, restore};
use domain::profile::Profile;
use domain::state::State;
use domain::state::screen::Screen;
use domain::view;

use crate::made::{at, bed, dials, fine, mv, open_check, output, rate, state_with, wire, with};

/// Found 6.0 mA, 80/min, 2.0 mV; nothing tested yet.
fn begun(profile: &Profile, step: Step) -> Facts {
    let found = dials(profile, "6.0", "80", "2.0");
    Facts { step, found, back_to: found, stand: found, touched: true, ..Facts::new(step) }
}

/// N7: after a spike without a beat OUTPUT only goes up.
#[test]
fn a_slip_after_a_loss_does_not_turn_output_down() {
    let profile = fine();
    let (low, restore, high) = (output(&profile, "1.0"), output(&profile, "6.0"), output(&profile, "10.0"));
    for (step, after) in [(Step::CaptureRestore, Step::CaptureCount), (Step::CaptureCount, Step::CaptureUp)] {
        let card = begun(&profile, step);
        let stand = card.stand.with(Dial::Output, low);
        let before = Facts { stand, to: restore, phase: Phase::Turning, lost: low, loss_open: true, ..card };
        let slip = Facts { step: Step::Slip, from: after, phase: Phase::Watching, ..before };
        let opened =
            with(&profile, |setup| check::answer(setup, Some(&before), &slip, Answer::StandsAt(high)));
        let opened = opened.expect("a slip says where the dial stands");
        assert_eq!((opened.step, opened.dial, opened.to), (step, Dial::Output, high));
    }
}

/// A RATE that was not turned yet would make the next step twice the rule's.
#[test]
fn own_beats_are_said_once_rate_stands() {
    let profile = fine();
    let asked = Facts { dial: Dial::Rate, to: rate(&profile, "70"), ..begun(&profile, Step::OwnDown) };
    with(&profile, |setup| {
        for answer in [Answer::OnlyOwn, Answer::BothSeen] {
            let open_in = |phase| offer::is_open(setup, &Facts { phase, ..asked }, answer);
            assert_eq!([Phase::Turning, Phase::Watching].map(open_in), [false, true], "{answer:?}");
        }
        let turning = Facts { phase: Phase::Turning, ..asked };
        assert!(offer::is_open(setup, &turning, Answer::NotTolerated));
    });
}

/// Restore target: asynchronous only where it was set for pauses; out of it to a number, then pauses.
#[test]
fn pauses_after_a_sleep_lead_back_to_asynchronous() {
    let profile = fine();
    let mut card = begun(&profile, Step::WrongMore);
    card.back_to.mv = ASYNCHRONOUS;
    card.found.mv = ASYNCHRONOUS;
    let card = Facts {
        from: Step::AwayRead,
        came_from: Step::AsynchronousOff,
        fallback_mv: mv(&profile, "2.0"),
        ..card
    };
    with(&profile, |setup| {
        let opened = check::answer(setup, None, &card, Answer::Pause).expect("a pause is said anywhere");
        assert_eq!((opened.step, opened.asynchronous), (Step::Restore, Asynchronous::SetForPauses));
        assert_eq!(restore::target(setup, &opened).mv, ASYNCHRONOUS);
    });
}

/// N2: OUTPUT is not raised over own beats while the number stands too high, in the capture search too.
#[test]
fn a_number_found_too_high_in_capture_goes_down_before_output_goes_up() {
    let profile = fine();
    let mut card = begun(&profile, Step::Restore);
    (card.stand.output, card.stand.mv) = (output(&profile, "1.0"), ASYNCHRONOUS);
    with(&profile, |setup| {
        for row in [Row::CaptureFoundFaster, Row::CaptureOwnFaster] {
            let lines = restore::lines(setup, &card, row);
            assert_eq!(lines.first().map(|line| line.dial), Some(Dial::Mv), "{row:?}: {lines:?}");
        }
        let after_a_loss = restore::lines(setup, &card, Row::CaptureAfterLoss);
        assert_eq!(after_a_loss.first().map(|line| line.dial), Some(Dial::Output));
    });
}

#[test]
fn a_card_that_blocks_the_check_takes_no_stop_that_it_does_not_show() {
    with(&fine(), |setup| {
        let blocked = Facts::new(Step::Blocked);
        assert!(!offer::is_open(setup, &blocked, Answer::Stop));
        assert!(offer::is_open(setup, &blocked, Answer::AllTrue));
    });
}

#[test]
fn no_dial_has_been_changed_goes_on_to_the_reading() {
    let profile = fine();
    let card = Facts { row: Row::NothingTurned, touched: false, ..begun(&profile, Step::Restore) };
    with(&profile, |setup| {
        assert!(restore::lines(setup, &card, card.row).is_empty());
        let opened = check::answer(setup, None, &card, Answer::AllTrue).expect("the one way on");
        assert_eq!(opened.step, Step::ReadBack);
    });
}

/// N5: a number moved by a slip on a list is read again before the end, also when the last look had begun.
#[test]
fn a_dial_moved_by_a_slip_after_the_last_look_is_read_again() {
    let profile = fine();
    let last_look = begun(&profile, Step::Confirm);
    let (found, lower) = (last_look.found, dials(&profile, "6.0", "80", "1.4"));
    let list = Facts { step: Step::Restore, row: Row::Set, ..last_look };
    with(&profile, |setup| {
        let asked = check::answer(setup, Some(&last_look), &list, Answer::Slip).expect("open on a list");
        assert_eq!(asked.step, Step::Slip);
        let said = check::answer(setup, Some(&last_look), &asked, Answer::Read(lower)).expect("three dials");
        assert_ne!(said.now(), found);
        let mut card = said;
        for _ in 0..4 {
            if card.step == Step::ReadBack {
                return;
            }
            assert_ne!(card.step, Step::Guarded, "the end without a reading");
            card = check::answer(setup, None, &card, Answer::AllTrue).expect("the way on");
        }
        panic!("no reading");
    });
}

/// The settings in view would prompt the reading of three dials; of one dial that may have been turned, not.
#[test]
fn the_way_back_is_hidden_where_all_three_dials_are_read() {
    let slip_from = |from| {
        let facts = Facts { step: Step::Slip, from, ..begun(&fine(), Step::Slip) };
        let mut one = wire(1, "example-fine-current");
        one.check = Some(open_check(facts, at(-10)));
        let screen = Screen::Check { bed: 1, wire: 1 };
        let state = State { beds: vec![bed(1, "Bay 2", vec![one])], screen, ..state_with(fine()) };
        view(&state, at(0)).safety.expect("a dial card").strip
    };
    assert!(slip_from(Step::Emergency).is_none());
    assert!(slip_from(Step::CaptureDown).is_some());
}

/// A spike without a beat, said on the list of a blind generator: first the list asks for the maximum; said again
/// there, the list would come back unchanged, so it is the emergency card.
#[test]
fn a_list_that_asks_for_the_maximum_leads_on() {
    let profile = fine();
    let mut list = begun(&profile, Step::Restore);
    list.row = Row::Blind;
    list.missed_at(list.stand.mv);
    let maximum = with(&profile, |setup| check::answer(setup, None, &list, Answer::SpikeWithoutABeat));
    let maximum = maximum.expect("the list takes it");
    let asked = with(&profile, |setup| restore::wanted(setup, &maximum, maximum.row).output);
    assert_eq!((maximum.step, maximum.row, asked), (Step::Restore, Row::Blind, profile.output_last()));
    let on = with(&profile, |setup| check::answer(setup, None, &maximum, Answer::SpikeWithoutABeat));
    assert_eq!(on.expect("the list takes it").step, Step::Emergency);
}
