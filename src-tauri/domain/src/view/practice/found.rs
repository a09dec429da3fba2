//! What the judge found: thresholds beside the truth, acts, what the patient went through.

use uuid::Uuid;

use super::runs::verdict;
use super::told::{act_at, act_judged, act_reason, clock};
use super::{practice_head, run_name};
use crate::check::facts::{Dial, Found, NONE};
use crate::contract::{Act, Ask, BedRow, Beds, Outcome, Row, Shape, Tone};
use crate::moment::Moment;
use crate::practice::{Agreement, Compared, Judged, Judgement, PracticeRun, Verdict};
use crate::profile::{Position, Profile};
use crate::say::{Say, figure};
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::pieces::{boxed, go, plain, row};
use crate::view::{Screenful, beds, figures};

pub fn result(state: &State, run: Uuid, now: Moment) -> Screenful {
    let Some(run) = state.run(run) else { return beds::beds(state, now) };
    let headline = verdict(run);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: run.judgement.as_ref().map(|judgement| rows(state, run, judgement)).unwrap_or_default(),
        scales: Vec::new(),
        flags: run.judgement.as_ref().map(|judgement| flags(state, run, judgement)).unwrap_or_default(),
        note: Some(Say::PracticeNobody),
    };
    Screenful {
        answers: answers(run),
        aside: vec![go("runs", Say::PracticeRuns, Tone::Plain, Screen::PracticeRuns)],
        ..plain(practice_head(run_name(run), now), Shape::Result(outcome), headline)
    }
}

fn answers(run: &PracticeRun) -> Vec<Act<Say>> {
    let back = go("exercises", Say::PracticeChoose, Tone::Strong, Screen::Practice);
    let acts = go("acts", Say::PracticeActs, Tone::Good, Screen::PracticeActs { run: run.id, from: 0 });
    [Some(back), run.judgement.is_some().then_some(acts)].into_iter().flatten().collect()
}

/// What failed the run, the unsafe first.
fn flags(state: &State, run: &PracticeRun, judgement: &Judgement) -> Vec<Say> {
    let profile = state.generator(&run.staged.generator);
    let with = |verdict: Verdict| judgement.acts.iter().filter(move |one| one.verdict == verdict);
    let bad = with(Verdict::Unsafe).chain(with(Verdict::Missed)).chain(with(Verdict::Late));
    bad.map(|one| act_judged(profile, one)).collect()
}

fn rows(state: &State, run: &PracticeRun, judgement: &Judgement) -> Vec<Row<Say>> {
    let profile = state.generator(&run.staged.generator);
    let compared = |dial, label, compared: &Compared| {
        profile.map(|profile| row(label, said(profile, dial, compared), Some(truth(profile, dial, compared))))
    };
    let done = judgement.acts.iter().filter(|one| one.verdict == Verdict::Done).count();
    let count = |count: usize| figure(count.to_string());
    let captured = judgement.spikes_on_t.iter().filter(|one| one.captured).count();
    let mut rows: Vec<Row<Say>> = [
        compared(Dial::Output, Say::RowCapture, &judgement.capture),
        compared(Dial::Mv, Say::RowSensing, &judgement.sensing),
    ]
    .into_iter()
    .flatten()
    .collect();
    rows.extend([
        row(
            Say::RowActsDone,
            Say::OneOf { count: done.to_string(), of: judgement.acts.len().to_string() },
            None,
        ),
        row(Say::RowWithoutBeats, seconds(judgement.without_beats_us), Some(longest(judgement))),
        row(
            Say::RowSpikesOnT,
            count(judgement.spikes_on_t.len()),
            Some(Say::CapturedOnT { count: captured.to_string() }),
        ),
        row(Say::RowLasted, Say::MinutesSeconds { time: clock(judgement.ended_us) }, None),
    ]);
    rows
}

fn longest(judgement: &Judgement) -> Say {
    Say::LongestPause { seconds: tenths(judgement.longest_pause_us) }
}

fn seconds(us: u64) -> Say {
    Say::RuleSeconds { seconds: tenths(us) }
}

fn tenths(us: u64) -> String {
    format!("{}.{}", us / 1_000_000, us % 1_000_000 / 100_000)
}

fn said(profile: &Profile, dial: Dial, compared: &Compared) -> Say {
    let at = |position: Position| boxed(figures::with_unit(profile, dial, position));
    let threshold = compared.said;
    if threshold.at == NONE {
        return Say::NotTested;
    }
    match threshold.found {
        Found::AtLeast => Say::AtLeast { figure: at(threshold.at) },
        Found::AtMost => Say::AtMost { figure: at(threshold.at) },
        Found::Bracket if threshold.low != NONE => {
            Say::Between { low: figures::text(profile, dial, threshold.low), high: at(threshold.at) }
        }
        Found::Nothing | Found::Exact | Found::Bracket | Found::SeenWhereItStood | Found::SeenAtNone => {
            figures::with_unit(profile, dial, threshold.at)
        }
    }
}

fn truth(profile: &Profile, dial: Dial, compared: &Compared) -> Say {
    let truth = compared.truth.map_or(Say::TruthNone, |at| figures::with_unit(profile, dial, at));
    let truth = boxed(truth);
    match compared.agreement {
        Agreement::NotTested if compared.said.found != Found::Nothing => Say::TruthNotTested { truth },
        Agreement::NotTested => Say::TruthIs { truth },
        Agreement::Equal => Say::TruthEqual,
        Agreement::Contains => Say::TruthWithin { truth },
        Agreement::OffBy(by) if by > 0 => Say::TruthAbove { count: by.to_string(), truth },
        Agreement::OffBy(by) => Say::TruthBelow { count: by.unsigned_abs().to_string(), truth },
        Agreement::Untrue => Say::TruthOther { truth },
    }
}

/// Rows of one page: a view is small enough to cross the bridge in one piece.
const ROWS_MOST: u8 = 12;

/// Each act with the instant to look at again.
pub fn acts(state: &State, run: Uuid, from: u8, now: Moment) -> Screenful {
    let Some((run, judgement)) = state.run(run).and_then(|run| Some((run, run.judgement.as_deref()?))) else {
        return beds::beds(state, now);
    };
    let page = (0..).zip(&judgement.acts).skip(usize::from(from)).take(usize::from(ROWS_MOST));
    let rows = page.map(|(place, one)| act_row(state, run, place, one)).collect();
    let next = from.saturating_add(ROWS_MOST);
    let more = go("more", Say::MoreActs, Tone::Strong, Screen::PracticeActs { run: run.id, from: next });
    let back = go("result", Say::Back, Tone::Strong, Screen::PracticeResult { run: run.id });
    let has_more = usize::from(next) < judgement.acts.len();
    let shape = Shape::Beds(Beds { rows, empty: Say::NotTested });
    Screenful {
        answers: [Some(back), has_more.then_some(more)].into_iter().flatten().collect(),
        ..plain(practice_head(run_name(run), now), shape, Say::PracticeActs)
    }
}

fn act_row(state: &State, run: &PracticeRun, place: u8, one: &Judged) -> BedRow<Say> {
    let profile = state.generator(&run.staged.generator);
    BedRow {
        title: one.act.say(),
        due: Some(one.verdict.say()),
        urgent: matches!(one.verdict, Verdict::Unsafe | Verdict::Missed),
        lines: act_reason(profile, one).into_iter().chain([at(state, run, one)]).collect(),
        chart: None,
        open: go(
            format!("look-{place}"),
            Say::LookAgain,
            Tone::Plain,
            Screen::LookAgain { run: run.id, act: place },
        ),
    }
}

fn at(state: &State, run: &PracticeRun, one: &Judged) -> Say {
    let profile = state.generator(&run.staged.generator);
    profile.map_or_else(|| figure(clock(one.at_us)), |profile| act_at(profile, one))
}

/// The strip of that instant, still.
pub fn look_again(state: &State, run: Uuid, act: u8, now: Moment) -> Screenful {
    let found = state.run(run).and_then(|run| {
        let one = run.judgement.as_ref()?.acts.get(usize::from(act))?;
        Some((run, one))
    });
    let Some((run, one)) = found else { return beds::beds(state, now) };
    let judged = act_judged(state.generator(&run.staged.generator), one);
    let shape = Shape::Ask(Ask {
        question: judged.clone(),
        lines: vec![at(state, run, one)],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    });
    Screenful {
        answers: vec![go(
            "acts",
            Say::Back,
            Tone::Strong,
            Screen::PracticeActs { run: run.id, from: page_of(act) },
        )],
        ..plain(practice_head(run_name(run), now), shape, judged)
    }
}

/// The page of the list on which this act stands.
fn page_of(act: u8) -> u8 {
    act / ROWS_MOST * ROWS_MOST
}
