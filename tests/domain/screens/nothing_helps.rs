//! Where no dial helps any more the check calls and says so; it asks for nothing that only looks like help.

use domain::check::answer::{Answer, Gap};
use domain::check::facts::{
    ASYNCHRONOUS, Asynchronous, Dial, Dials, Facts, FirstLook, Found, Marks, Phase, Row, Turned, Why,
};
use domain::check::step::Step;
use domain::check::{self, restore, target};
use domain::ending;
use domain::flags::Flag;
use domain::profile::{Position, Profile};
use domain::rules::{OutputRule, Rules};
use domain::state::bed::Names;

use crate::made::{
    at, dials, fine, mv, open_check, output, profile, rate, record, state_with, whole_check, wire_with, with,
};

fn given(profile: &Profile, facts: &Facts, answer: Answer) -> Facts {
    with(profile, |setup| check::answer(setup, None, facts, answer)).expect("the card takes it")
}

fn flags(profile: Profile, facts: Facts) -> Vec<Flag> {
    let state = state_with(profile);
    let wire = wire_with(&state, 1, &[]);
    record(&state, &wire, facts, &Names::default(), at(0)).flags
}

/// The last look, everything at maximum, where no spike makes a beat.
fn lost_at_maximum(profile: &Profile) -> Facts {
    let found = dials(profile, "6.0", "80", "2.0");
    let maximum = profile.output_last();
    Facts {
        found,
        back_to: Dials { output: maximum, ..found },
        stand: Dials { output: maximum, ..found },
        lost: maximum,
        first_look: FirstLook::SpikesWithoutBeats,
        ..Facts::new(Step::Confirm)
    }
}

/// Own beats have a pulse here, else it is NO BEATS: asynchronous at full output would fall among them.
#[test]
fn spikes_that_make_no_beats_at_maximum_are_called_for_and_not_answered_by_the_emergency_again() {
    let p = fine();
    let stays = given(&p, &lost_at_maximum(&p), Answer::SpikeWithoutABeat);
    assert_eq!((stays.step, stays.from), (Step::Stays, Step::Confirm));
    assert_eq!(given(&p, &stays, Answer::AllTrue).step, Step::Guarded);
    let ended = Facts { step: Step::Done, ..stays };
    assert!(flags(p.clone(), ended).contains(&Flag::NoCaptureAtMaximum));
    let after_an_emergency = Facts {
        lost: domain::check::facts::NONE,
        marks: Marks::EMERGENCY.and(Marks::NO_CAPTURE_AT_MAXIMUM),
        ..lost_at_maximum(&p)
    };
    assert_eq!(given(&p, &after_an_emergency, Answer::SpikeWithoutABeat).step, Step::Stays);
    // An emergency's asynchronous is left first: own beats are there.
    let mut asynchronous = after_an_emergency;
    asynchronous.stand.mv = ASYNCHRONOUS;
    asynchronous.back_to.mv = ASYNCHRONOUS;
    asynchronous.asynchronous = Asynchronous::SetInEmergency;
    let number = given(&p, &asynchronous, Answer::SpikeWithoutABeat);
    assert_eq!((number.step, number.dial), (Step::SetMv, Dial::Mv));
    assert_ne!(number.to, ASYNCHRONOUS);
}

#[test]
fn a_spike_without_a_beat_that_is_new_there_is_an_emergency() {
    let p = fine();
    let captured = Facts { lost: domain::check::facts::NONE, ..lost_at_maximum(&p) };
    assert_eq!(given(&p, &captured, Answer::SpikeWithoutABeat).step, Step::Emergency);
}

/// RATE above own beats that are not seen, at the highest test rate of the example rules.
fn at_the_highest_rate(profile: &Profile) -> Facts {
    let found = dials(profile, "6.0", "80", "2.0");
    let highest = rate(profile, "110");
    Facts {
        found,
        back_to: found,
        stand: Dials { rate: highest, ..found },
        touched: true,
        first_look: FirstLook::OnlyOwn,
        missed: found.mv,
        own_slowest: 72,
        own_fastest: 72,
        marks: Marks::DID_NOT_SEE_AS_FOUND,
        turned: Turned::NONE.and(Dial::Rate),
        dial: Dial::Rate,
        to: highest,
        phase: Phase::Open,
        ..Facts::new(Step::BlindRateUp)
    }
}

#[test]
fn own_beats_among_the_spikes_at_every_rate_bring_rate_back_and_are_called_for() {
    let p = fine();
    let card = at_the_highest_rate(&p);
    let wrong = Facts { step: Step::WrongMore, from: card.step, ..card };
    for (said_on, answer) in [(card, Answer::OwnAmongThem), (wrong, Answer::SpikeWithoutABeat)] {
        let back = given(&p, &said_on, answer);
        assert_eq!((back.step, back.row), (Step::Restore, Row::Blind));
        let listed = with(&p, |setup| restore::lines(setup, &back, back.row));
        assert_eq!(listed.first().map(|line| (line.dial, line.to)), Some((Dial::Rate, rate(&p, "80"))));
        assert!(flags(p.clone(), Facts { step: Step::Done, ..back }).contains(&Flag::NotPacedOver));
    }
}

#[test]
fn below_the_highest_rate_it_goes_on_up() {
    let p = fine();
    let slower = Dials { rate: rate(&p, "90"), ..at_the_highest_rate(&p).stand };
    let facts = Facts { stand: slower, to: slower.rate, ..at_the_highest_rate(&p) };
    let up = given(&p, &facts, Answer::OwnAmongThem);
    assert_eq!((up.step, up.to), (Step::BlindRateUp, rate(&p, "100")));
}

/// Check 5: the rule is in mA, the dial in volts.
#[test]
fn output_stays_where_the_unit_s_rule_is_for_another_unit() {
    let p = profile("example-volts");
    let mut rules = Rules::example();
    rules.output_rule = OutputRule::DoublePlusOne;
    let found = Dials { output: output(&p, "5.0"), rate: 0, mv: 0 };
    let at = |printed: &str| -> Position { output(&p, printed) };
    let facts = Facts {
        back_to: found,
        found,
        stand: found,
        proved: at("1.8"),
        lost: at("1.6"),
        capture: Found::Exact,
        capture_at: at("1.8"),
        ..Facts::new(Step::Done)
    };
    with(&p, |setup| {
        let setup = domain::check::setup::Setup { rules: &rules, ..*setup };
        assert_eq!(target::plan(&setup, &facts).output, found.output);
    });
    let state = state_with(p);
    let wire = wire_with(&state, 1, &[]);
    let mut open = open_check(facts, crate::made::at(0));
    *open.rules = rules;
    let made = ending::record(&state, &wire, &open, &facts, &Names::default(), crate::made::at(0));
    let flags = made.expect("the generator is known").flags;
    assert!(flags.contains(&Flag::RuleOfOtherUnit) && !flags.contains(&Flag::NoRuleSatisfied), "{flags:?}");
}

#[test]
fn a_number_below_the_unit_s_lowest_is_said_to_see_too_much() {
    let p = fine();
    let mut facts = whole_check(&p);
    facts.found.mv = mv(&p, "0.6");
    facts.back_to = facts.found;
    facts.stand.mv = mv(&p, "0.6");
    assert_eq!(flags(p, facts), [Flag::NumberBelowLowest]);
}

#[test]
fn a_bracket_that_was_not_narrowed_is_told_with_its_ends() {
    let p = fine();
    let mut facts = whole_check(&p);
    (facts.capture, facts.capture_at, facts.capture_low) =
        (Found::Bracket, output(&p, "6.0"), output(&p, "2.0"));
    let ends = Flag::NotNarrowed { low: "2.0".to_owned(), high: "6.0".to_owned() };
    assert!(flags(p.clone(), facts).contains(&ends));
    facts.capture_low = output(&p, "6.0") - 1;
    assert!(!flags(p, facts).iter().any(|flag| matches!(flag, Flag::NotNarrowed { .. })));
}

#[test]
fn pauses_and_a_sleep_after_a_loss_leave_their_reason() {
    let p = fine();
    let found = dials(&p, "6.0", "80", "2.0");
    let slower = rate(&p, "70");
    let searching = Facts {
        found,
        back_to: found,
        stand: found,
        first_look: FirstLook::EveryBeatPaced,
        dial: Dial::Rate,
        to: slower,
        phase: Phase::Watching,
        ..Facts::new(Step::OwnDown)
    };
    let wrong = Facts { step: Step::WrongMore, from: Step::OwnDown, ..searching };
    let paused = given(&p, &wrong, Answer::Pause);
    assert_eq!((paused.why_sensing, paused.why_capture), (Why::Pauses, Why::Pauses));
    let lost = Facts {
        step: Step::CaptureUp,
        dial: Dial::Output,
        to: output(&p, "2.0"),
        capture: Found::Nothing,
        ..searching
    };
    assert_eq!(given(&p, &lost, Answer::Woke(Gap::LimitPassed)).why_capture, Why::Away);
}
