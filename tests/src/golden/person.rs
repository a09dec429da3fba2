//! Everything that can be done to a card: what its view offers, what can be typed, and time.

use std::collections::BTreeMap;

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Phase};
use domain::check::offer::{Typed, offer};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{restore, set};
use domain::command::Command;
use domain::contract::{Act, Sent, View};
use domain::moment::Moment;
use domain::profile::Profile;
use domain::say::Say;

use super::worlds::{NAME, Printed, REASON};

/// One thing done, and how long after the card was shown.
pub struct Deed {
    pub sent: Sent,
    pub after_ms: i64,
    /// Off the straight way: the search goes less deep behind it.
    pub deviates: bool,
}

type Values = BTreeMap<String, String>;

/// Between the positions of every shipped dial.
const NO_POSITION: Printed = ("3.63", "80", "2.0");

const TAP_MS: i64 = 4_000;
/// Short, past the limits of a search, and past every limit.
const SLEEPS_MS: [i64; 3] = [25_000, 70_000, 20 * 60_000];

pub fn deeds(
    setup: &Setup<'_>,
    facts: &Facts,
    view: &View<Say>,
    found: &[Printed],
    now: Moment,
) -> Vec<Deed> {
    let typed = forms(setup, facts, found);
    let mut all = Vec::new();
    for (index, act) in view.answers.iter().enumerate() {
        let last = index + 1 == view.answers.len();
        all.extend(taps(view, act, &typed, !last && !is_of_the_story(facts.step, act)));
    }
    all.extend(view.aside.iter().flat_map(|act| taps(view, act, &[], true)));
    let always = view.safety.iter().flat_map(|safety| safety.acts());
    all.extend(always.flat_map(|act| taps(view, act, &[], true)));
    all.extend(SLEEPS_MS.map(|away| sleep(view, away, now)));
    all
}

/// Answers other than the last that belong to a check that goes well: each search ends with one.
fn is_of_the_story(step: Step, act: &Act<Say>) -> bool {
    let Command::Answer(answer) = act.command else { return false };
    match step {
        Step::OwnDown => answer == Answer::OnlyOwn,
        Step::SenseUp => answer == Answer::BeatNotMarked,
        Step::CaptureDown => answer == Answer::SpikeWithoutABeat,
        _ => false,
    }
}

fn taps(view: &View<Say>, act: &Act<Say>, typed: &[Values], deviates: bool) -> Vec<Deed> {
    let deed = |(index, values): (usize, &Values)| Deed {
        sent: Sent { card: view.card, command: act.command.clone(), values: values.clone(), stood_ms: None },
        after_ms: TAP_MS,
        deviates: deviates || index > 0,
    };
    let nothing = [Values::new()];
    let filled = if act.with_fields { typed } else { &nothing };
    filled.iter().enumerate().map(deed).collect()
}

fn sleep(view: &View<Say>, away_ms: i64, alive: Moment) -> Deed {
    let sent =
        Sent { card: view.card, command: Command::Woke { alive }, values: Values::new(), stood_ms: None };
    Deed { sent, after_ms: away_ms, deviates: true }
}

/// The watch that ends, the limit that passes.
pub fn time_passed(view: &View<Say>, facts: &Facts, due_ms: i64) -> Deed {
    let deviates = facts.phase != Phase::Watching;
    let sent = Sent { card: view.card, command: Command::TimePassed, values: Values::new(), stood_ms: None };
    Deed { sent, after_ms: due_ms - view.now_ms, deviates }
}

fn values(pairs: &[(&str, &str)]) -> Values {
    pairs.iter().map(|(id, value)| ((*id).to_owned(), (*value).to_owned())).collect()
}

fn forms(setup: &Setup<'_>, facts: &Facts, found: &[Printed]) -> Vec<Values> {
    match offer(setup, facts).typed {
        Typed::OwnRate => own_rates(setup, facts),
        Typed::OneDial => [&printed(setup.profile, facts.dial, 0), NO_POSITION.0]
            .map(|at| values(&[("where", at)]))
            .to_vec(),
        Typed::Dials if facts.step == Step::ReadFound => {
            found.iter().chain(&[NO_POSITION]).map(|(o, r, m)| typed_dials(o, r, m)).collect()
        }
        Typed::Dials => readings(setup, facts),
        Typed::Nothing => vec![values(&[("name", NAME), ("reason", REASON)]), Values::new()],
    }
}

fn typed_dials(output: &str, rate: &str, mv: &str) -> Values {
    values(&[("output", output), ("rate", rate), ("mv", mv)])
}

/// Regular, irregular, too fast for capture, slower than the generator would let it be.
fn own_rates(setup: &Setup<'_>, facts: &Facts) -> Vec<Values> {
    let set = setup.profile.rate_at(facts.current(Dial::Rate));
    [(set + 4, set + 4), (set + 4, set + 27), (118, 118), (set.saturating_sub(5), set)]
        .map(|(slowest, fastest)| {
            values(&[("slowest", &slowest.to_string()), ("fastest", &fastest.to_string())])
        })
        .to_vec()
}

/// As the cards asked; with OUTPUT lower; with every dial elsewhere and OUTPUT not lower; with OUTPUT alone higher.
fn readings(setup: &Setup<'_>, facts: &Facts) -> Vec<Values> {
    let right = match facts.step {
        Step::ReadBack => set::expected(setup, facts),
        _ if facts.stand == Dials::UNREAD => restore::target(setup, facts),
        _ => facts.now(),
    };
    let beside = |at: u8| if at == 0 { 1 } else { at - 1 };
    let lower = right.with(Dial::Output, beside(right.output));
    let output = (right.output + 1).min(setup.profile.output_last());
    let mv = if right.mv == ASYNCHRONOUS { 0 } else { beside(right.mv) };
    let elsewhere = Dials { output, rate: beside(right.rate), mv };
    let higher = right.with(Dial::Output, output);
    [right, lower, elsewhere, higher].map(|dials| reading(setup.profile, dials)).to_vec()
}

fn reading(profile: &Profile, dials: Dials) -> Values {
    let text = |dial| printed(profile, dial, dials.at(dial));
    typed_dials(&text(Dial::Output), &text(Dial::Rate), &text(Dial::Mv))
}

fn printed(profile: &Profile, dial: Dial, at: u8) -> String {
    match dial {
        Dial::Output => profile.output_text(at).to_owned(),
        Dial::Rate => profile.rate_text(at).to_owned(),
        Dial::Mv if at == ASYNCHRONOUS => "asynchronous".to_owned(),
        Dial::Mv => profile.mv_text(at).to_owned(),
    }
}
