//! Paths that a second reader walked by the cards: each ended, or went on, less safely than it does now.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::check::facts::{
    ASYNCHRONOUS, Asynchronous, Dial, Dials, Facts, FirstLook, Found, Marks, Own, Phase, Row,
};
use domain::check::step::Step;
use domain::check::{self, restore, set};
use domain::profile::Profile;

use crate::made::{dials, fine, mv, output, rate, with};

fn given(profile: &Profile, facts: &Facts, answer: Answer) -> Facts {
    with(profile, |setup| check::answer(setup, None, facts, answer)).expect("the card takes it")
}

/// In the sensing search: found 6.0, 80, 2.0; now at minimum OUTPUT, RATE 46, and the number asked up to 4.5.
fn searching(profile: &Profile) -> Facts {
    let found = dials(profile, "6.0", "80", "2.0");
    let stand = Dials { output: 0, rate: rate(profile, "46"), mv: mv(profile, "3.0") };
    Facts {
        found,
        back_to: found,
        stand,
        touched: true,
        first_look: FirstLook::OnlyOwn,
        own: Own::Shown,
        own_slowest: 70,
        own_fastest: 70,
        saw: mv(profile, "3.0"),
        dial: Dial::Mv,
        to: mv(profile, "4.5"),
        phase: Phase::Watching,
        ..Facts::new(Step::SenseUp)
    }
}

fn read_lower(profile: &Profile) -> Facts {
    let read = given(profile, &searching(profile), Answer::Woke(Gap::TooLong));
    assert_eq!(read.step, Step::ReadAfter);
    given(profile, &read, Answer::Read(Dials { mv: mv(profile, "4.5"), ..searching(profile).stand }))
}

#[test]
fn dials_read_lower_after_a_long_sleep_are_put_beside_what_they_were() {
    let profile = fine();
    let lower = read_lower(&profile);
    assert_eq!(lower.step, Step::ReadLower);
    let told = set::read_lower(&lower, lower.stand);
    assert_eq!(told.iter().map(|line| line.dial).collect::<Vec<_>>(), Dial::ALL);
    let again = given(&profile, &lower, Answer::Back);
    assert_eq!(again.step, Step::ReadAfter);
    let right = given(&profile, &again, Answer::Read(lower.found));
    assert_eq!((right.step, right.back_to), (Step::Confirm, lower.found));
}

#[test]
fn they_stay_so_only_for_a_reason_and_a_name() {
    let profile = fine();
    let lower = read_lower(&profile);
    let reason = given(&profile, &lower, Answer::No);
    assert_eq!((reason.step, given(&profile, &reason, Answer::Back).step), (Step::Reason, Step::ReadLower));
    let stays = given(&profile, &reason, Answer::ReasonAndName);
    assert_eq!((stays.step, stays.back_to, stays.set), (Step::Confirm, lower.stand, set::AS_READ));
    assert!(stays.marks.has(Marks::LEFT_AS_READ));
}

/// Asynchronous, as the emergency asked for it, is meant.
#[test]
fn what_an_emergency_set_is_not_lower() {
    let profile = fine();
    let facts = Facts { asynchronous: Asynchronous::SetInEmergency, ..searching(&profile) };
    let read = Dials { output: profile.output_last(), rate: rate(&profile, "90"), mv: ASYNCHRONOUS };
    assert!(set::read_lower(&facts, read).is_empty());
    assert_eq!(set::read_lower(&searching(&profile), read).len(), 1, "not asked for, it sees less");
}

#[test]
fn before_the_first_reading_a_long_sleep_asks_everything_anew() {
    let profile = fine();
    let list = Facts::new(Step::RightWire);
    for (gap, step) in [(Gap::Long, Step::RightWire), (Gap::TooLong, Step::Order)] {
        assert_eq!(given(&profile, &list, Answer::Woke(gap)).step, step);
    }
}

/// A nurse called away with "Something is wrong" open leaves no wire at its minimum.
#[test]
fn the_time_at_minimum_runs_on_under_another_card() {
    let profile = fine();
    let wrong = given(&profile, &searching(&profile), Answer::Wrong);
    let up = given(&profile, &wrong, Answer::Time(TimeUp::Minimum));
    assert_eq!((up.step, up.dial), (Step::SenseMvOut, Dial::Mv));
    let loss = Facts {
        step: Step::CaptureUp,
        dial: Dial::Output,
        to: output(&profile, "1.2"),
        phase: Phase::Turning,
        loss_open: true,
        lost: output(&profile, "1.0"),
        proved: output(&profile, "1.4"),
        ..searching(&profile)
    };
    let over = given(&profile, &loss, Answer::Wrong);
    assert_eq!(given(&profile, &over, Answer::Time(TimeUp::Loss)).step, Step::CaptureRestore);
}

/// Where a list lies open, it comes again with what still differs.
#[test]
fn a_slip_on_the_restore_list_reads_the_dials_and_comes_back() {
    let profile = fine();
    let list = given(&profile, &searching(&profile), Answer::Woke(Gap::LimitPassed));
    assert_eq!(list.step, Step::Restore);
    let reading = given(&profile, &list, Answer::Slip);
    assert_eq!(reading.step, Step::Elsewhere);
    let read = given(&profile, &reading, Answer::Read(searching(&profile).stand));
    assert_eq!((read.step, read.back_to), (Step::Restore, list.found));
}

#[test]
fn own_beats_too_fast_to_pace_above_have_their_number_lowered_first() {
    let profile = fine();
    let found = dials(&profile, "6.0", "80", "5.0");
    let asks = Facts {
        found,
        back_to: found,
        stand: found,
        first_look: FirstLook::OnlyOwn,
        ..Facts::new(Step::FirstOwn)
    };
    let blind = given(&profile, &asks, Answer::No);
    assert_eq!(blind.step, Step::OwnRate);
    let slower = given(&profile, &blind, Answer::OwnRate { slowest: 92, fastest: 92 });
    assert_eq!((slower.step, slower.to), (Step::BlindRateUp, rate(&profile, "105")));
    let near = given(&profile, &blind, Answer::OwnRate { slowest: 105, fastest: 105 });
    assert_eq!(
        (near.step, near.to),
        (Step::BlindRateUp, rate(&profile, "110")),
        "above them, and still allowed"
    );
    let fast = given(&profile, &blind, Answer::OwnRate { slowest: 150, fastest: 150 });
    assert_eq!((fast.step, fast.to, fast.stand.rate), (Step::BlindMvDown, mv(&profile, "2.0"), found.rate));
    let stands = Facts { phase: Phase::Open, ..given(&profile, &fast, Answer::Stands) };
    assert_eq!(
        given(&profile, &stands, Answer::Fine).step,
        Step::FirstOwn,
        "looked at once more, RATE as it is"
    );
}

/// Where nothing is sought any more, a pause leads back, but not below the rule on what was just measured.
#[test]
fn output_does_not_go_back_below_the_rule_on_this_checks_threshold() {
    let profile = fine();
    let found = dials(&profile, "2.0", "80", "2.0");
    let facts = Facts {
        found,
        back_to: found,
        stand: Dials { output: output(&profile, "3.6"), rate: rate(&profile, "90"), mv: found.mv },
        capture: Found::Exact,
        capture_at: output(&profile, "1.2"),
        proved: output(&profile, "1.2"),
        touched: true,
        ..Facts::new(Step::SetOutput)
    };
    let target = with(&profile, |setup| {
        (restore::target(setup, &facts).output, check::target::plan(setup, &facts).output)
    });
    assert_eq!(target.0, target.1);
    assert!(target.0 > found.output);
    let untested = Facts { capture: Found::Nothing, ..facts };
    assert_eq!(with(&profile, |setup| restore::target(setup, &untested).output), found.output);
}

/// Before "OUTPUT stands at": it may stand at its minimum still.
#[test]
fn a_beat_not_marked_on_the_way_up_asks_for_output_too() {
    let profile = fine();
    let facts = Facts {
        step: Step::SenseOutputOut,
        dial: Dial::Output,
        to: output(&profile, "6.0"),
        phase: Phase::Turning,
        ..searching(&profile)
    };
    let list = given(&profile, &facts, Answer::BeatNotMarked);
    assert_eq!(list.step, Step::Restore);
    let lines = with(&profile, |setup| restore::lines(setup, &list, list.row));
    assert!(lines.iter().any(|line| line.dial == Dial::Output), "{lines:?}");
    let stands = Facts { phase: Phase::Watching, ..facts };
    assert_eq!(given(&profile, &stands, Answer::BeatNotMarked).step, Step::BlindRateUp);
}

#[test]
fn a_shock_at_a_raised_number_opens_the_list() {
    let profile = fine();
    let wrong = given(&profile, &searching(&profile), Answer::Wrong);
    let list = given(&profile, &wrong, Answer::ShockGiven);
    assert_eq!((list.step, list.row), (Step::Restore, Row::AfterShock));
    let lines = with(&profile, |setup| restore::lines(setup, &list, list.row));
    let turned: Vec<_> = lines.iter().map(|line| (line.dial, line.to)).take(2).collect();
    assert_eq!(turned, [(Dial::Output, profile.output_last()), (Dial::Mv, list.found.mv)]);
}

/// Nobody can say any more from when the generator counts.
#[test]
fn marks_where_no_beat_is_end_the_way_up() {
    let profile = fine();
    let under =
        Facts { phase: Phase::Turning, step: Step::WrongMore, from: Step::SenseUp, ..searching(&profile) };
    let out = given(&profile, &under, Answer::MarkWithoutBeat);
    assert_eq!((out.step, out.sensing), (Step::SenseMvOut, Found::AtLeast));
}

/// A question with a watch is watched anew after a card that lay over it.
#[test]
fn a_count_that_was_broken_into_begins_again() {
    let profile = fine();
    let count = Facts {
        step: Step::CaptureCount,
        to: domain::check::facts::NONE,
        phase: Phase::Open,
        ..searching(&profile)
    };
    let wrong = given(&profile, &count, Answer::Wrong);
    let back = given(&profile, &wrong, Answer::Back);
    assert_eq!((back.step, back.phase), (Step::CaptureCount, Phase::Watching));
}

#[test]
fn beats_missed_under_asynchronous_that_was_merely_read_lead_to_a_number() {
    let profile = fine();
    let found = Dials { mv: ASYNCHRONOUS, ..dials(&profile, "6.0", "80", "2.0") };
    let look = Facts { found, back_to: found, stand: found, touched: true, ..Facts::new(Step::Confirm) };
    let more = Facts { step: Step::WrongMore, from: Step::Confirm, ..look };
    let list = given(&profile, &more, Answer::BeatNotMarked);
    let wanted = with(&profile, |setup| restore::wanted(setup, &list, list.row));
    assert_eq!((list.step, wanted.mv), (Step::Restore, mv(&profile, "2.0")));
}

/// Out of asynchronous every spike may fall on a T wave until a number sees: each that misses is halved.
#[test]
fn a_number_that_misses_out_of_asynchronous_is_halved() {
    let profile = fine();
    let read = Dials { mv: ASYNCHRONOUS, ..dials(&profile, "20.0", "80", "2.0") };
    let look = Facts {
        found: dials(&profile, "6.0", "80", "2.0"),
        back_to: read,
        stand: read,
        touched: true,
        marks: Marks::EMERGENCY,
        set: set::AS_READ,
        ..Facts::new(Step::Confirm)
    };
    let first = given(&profile, &look, Answer::OwnAmongThem);
    assert_eq!((first.step, first.to), (Step::SetMv, mv(&profile, "2.0")));
    let stands = given(&profile, &first, Answer::Stands);
    let second = given(&profile, &stands, Answer::BeatNotMarked);
    assert_eq!((second.step, second.to), (Step::SetMv, mv(&profile, "1.0")));
}
