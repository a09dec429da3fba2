//! Practice: exercises, a simulated patient beside the cards that can least spare room, what the judge found.

use super::screens::{Named, named, show};
use super::worlds::{CARD, NAME, at, on, tablet, tell};
use domain::State;
use domain::check::answer::Answer;
use domain::check::facts::{Dial, Dials, Facts, Found, Known, NONE, Own, Phase, Row};
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::View;
use domain::practice::{
    Act, Agreement, Compared, ExerciseId, Judged, Judgement, Pause, Reason, SpikeOnT, Staged, Threshold,
    Verdict,
};
use domain::rules::{Chamber, Rules};
use domain::say::Say;
use domain::state::screen::Screen;

const FOUND: Dials = Dials { output: 40, rate: 41, mv: 4 };

fn staged(guided: bool) -> Command {
    Command::Staged(Box::new(Staged {
        exercise: ExerciseId::Quiet,
        hash: "0123456789abcdef".repeat(4),
        engine: "golden".to_owned(),
        seed: 7,
        guided,
        chamber: Chamber::Ventricle,
        generator: "example-fine-current".to_owned(),
        found: FOUND,
        rules: Box::new(Rules::example()),
    }))
}

fn begun(guided: bool) -> State {
    let state = tablet(Rules::example(), domain::profile::shipped().unwrap());
    on(tell(state, staged(guided), &[], at(0)), Screen::Practising)
}

/// What is asked while a practice is open comes with its instant.
fn asked(state: State, command: Command, values: &[(&str, &str)]) -> State {
    let command = Command::AtStrip { at_us: 61_000_000, asked: Box::new(command) };
    let state = tell(state, command, values, at(2_000));
    State { card: CARD, card_at: None, good_at: None, ..state }
}

fn facts(step: Step) -> Facts {
    Facts {
        found: FOUND,
        back_to: FOUND,
        stand: FOUND.with(Dial::Output, 18),
        touched: true,
        proved: 18,
        own: Own::Shown,
        own_slowest: 62,
        own_fastest: 62,
        saw: 14,
        found_sees: Known::Yes,
        found_captures: Known::Yes,
        from: Step::CaptureDown,
        ..Facts::new(step)
    }
}

fn turning(step: Step, dial: Dial, to: u8, phase: Phase) -> Facts {
    Facts { dial, to, phase, ..facts(step) }
}

/// A guided run on this card, the hand on the dial that it asks for.
fn card(facts: Facts) -> View<Say> {
    let mut state = begun(true);
    if let Some(open) = state.practice.as_mut() {
        open.turning = if facts.to == NONE { Dial::Output } else { facts.dial };
        open.dials = open.dials.with(Dial::Output, 18);
        if let Some(check) = open.wire.check.as_mut() {
            check.facts = facts;
        }
    }
    domain::view(&state, at(1_500))
}

/// What was found is said; the dials are still to be read.
fn found() -> State {
    let said = [
        ("capture", "1.6"),
        ("capture-how", "between"),
        ("capture-low", "1.4"),
        ("sensing", "5.0"),
        ("sensing-how", "exactly"),
    ];
    asked(on(begun(false), Screen::PracticeFound), Command::SaidFound, &said)
}

fn ended() -> State {
    asked(found(), Command::SaidDials, &[("output", "3.6"), ("rate", "80"), ("mv", "1.2")])
}

fn reason(verdict: Verdict) -> Option<Reason> {
    match verdict {
        Verdict::Late => Some(Reason::After { seconds: 12 }),
        Verdict::Missed => Some(Reason::Watched { at: 38, seconds: 2, asked: 10 }),
        Verdict::Done | Verdict::Unsafe => None,
    }
}

fn judgement() -> Judgement {
    let verdicts = [Verdict::Done, Verdict::Late, Verdict::Missed, Verdict::Unsafe];
    let acts = Act::ALL.iter().zip(verdicts.iter().cycle()).zip(1..).take(26);
    let judged = |((act, verdict), minute): ((&Act, &Verdict), u64)| Judged {
        act: *act,
        verdict: *verdict,
        at_us: minute * 60_000_000,
        dials: FOUND,
        reason: reason(*verdict),
    };
    Judgement {
        exercise: ExerciseId::Quiet,
        seed: 7,
        engine: "golden".to_owned(),
        ended_us: 754_000_000,
        passed: false,
        acts: acts.map(judged).collect(),
        capture: Compared {
            said: Threshold { found: Found::Bracket, at: 14, low: 12 },
            truth: Some(15),
            agreement: Agreement::OffBy(-1),
        },
        sensing: Compared { said: Threshold::exactly(18), truth: Some(18), agreement: Agreement::Equal },
        without_beats_us: 7_400_000,
        longest_pause_us: 4_100_000,
        spikes_on_t: vec![SpikeOnT { at_us: 90_000_000, captured: true }],
    }
}

fn judged() -> State {
    let state = ended();
    let command = Command::Judged { run: state.runs[0].id, judgement: Box::new(judgement()) };
    tell(state, command, &[], at(3_000))
}

pub fn practising() -> Named {
    let state = judged();
    let run = state.runs[0].id;
    let of_run = |screen| show(state.clone(), screen);
    let mut all = named([
        ("practice", show(begun(false), Screen::Practice)),
        ("practice-begin", show(state.clone(), Screen::PracticeBegin { exercise: ExerciseId::CaptureLost })),
        ("practising-alone", show(begun(false), Screen::Practising)),
        ("practice-found", show(begun(false), Screen::PracticeFound)),
        ("practice-read", show(found(), Screen::PracticeRead)),
        (
            "practising-paused",
            show(
                asked(begun(true), Command::StoodStill { why: Pause::Restart, for_ms: 0 }, &[]),
                Screen::Practising,
            ),
        ),
        ("practice-runs", of_run(Screen::PracticeRuns)),
        ("practice-result", of_run(Screen::PracticeResult { run })),
        ("practice-result-judging", domain::view(&ended(), at(2_500))),
        ("practice-acts", of_run(Screen::PracticeActs { run, from: 0 })),
        ("practice-acts-more", of_run(Screen::PracticeActs { run, from: 12 })),
        ("look-again", of_run(Screen::LookAgain { run, act: 3 })),
    ]);
    all.extend(cards());
    all
}

/// The cards of the check beside the patient: the first, and those that say or ask most.
fn cards() -> Named {
    let unread =
        Facts { found: Dials::UNREAD, stand: Dials::UNREAD, touched: false, ..facts(Step::ReadFound) };
    let order = asked(begun(true), Command::Named(Answer::Yes), &[("name", NAME)]);
    named([
        ("practising-order", domain::view(&begun(true), at(1_500))),
        ("practising-list", domain::view(&order, at(3_500))),
        ("practising-read-found", card(unread)),
        ("practising-first-look", card(facts(Step::FirstLook))),
        ("practising-rate", card(turning(Step::OwnDown, Dial::Rate, 35, Phase::Open))),
        ("practising-number", card(turning(Step::SenseUp, Dial::Mv, 9, Phase::Turning))),
        ("practising-output", card(turning(Step::CaptureDown, Dial::Output, 15, Phase::Turning))),
        ("practising-output-open", card(turning(Step::CaptureDown, Dial::Output, 15, Phase::Open))),
        ("practising-restore", card(Facts { row: Row::CaptureAfterLoss, ..facts(Step::Restore) })),
        ("practising-emergency", card(Facts { from: Step::NoSpikes, ..facts(Step::Emergency) })),
        ("practising-wrong", card(facts(Step::WrongMore))),
        ("practising-read-back", card(facts(Step::ReadBack))),
    ])
}
