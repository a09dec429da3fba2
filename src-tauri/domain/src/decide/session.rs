//! What the session itself reports: a start, a sleep, an instant that has come.

use super::check::{self, Step};
use super::{swaps, transports};
use crate::check::answer::{Answer, Gap};
use crate::event::What;
use crate::moment::Moment;
use crate::rules::Rules;
use crate::state::State;
use crate::state::bed::OpenCheck;
use crate::state::screen::Screen;
use crate::swap::answer as swap;
use crate::transport::answer as transport;

const SHORT_MS: i64 = 60 * 1000;
const LONG_MS: i64 = 15 * 60 * 1000;

/// First start: the shipped examples are adopted. Every start: open checks learn how long nobody looked.
pub fn started(state: &State, alive: Option<Moment>, now: Moment) -> Vec<What> {
    let mut whats = if state.generators.is_empty() { adopt_examples() } else { Vec::new() };
    whats.push(What::Started);
    whats.extend(super::teaching::started(state, now));
    whats.extend(super::practice::restarted(state, alive, now));
    whats.extend(gaps(state, alive, now));
    whats
}

pub fn woke(state: &State, alive: Moment, now: Moment) -> Vec<What> {
    gaps(state, Some(alive), now)
}

fn adopt_examples() -> Vec<What> {
    let generators = crate::profile::shipped().unwrap_or_default();
    let rules = Rules::example();
    let hash = rules.id.clone();
    vec![What::LibraryAdopted { rules: Box::new(rules), generators, hash }]
}

/// The most urgent open check comes to the screen first.
fn gaps(state: &State, alive: Option<Moment>, now: Moment) -> Vec<What> {
    let (mut whats, swap) = swap_gaps(state, alive, now);
    let mut urgent: Option<(u8, u32, u32)> = None;
    for (bed, wire, _, open) in state.open_checks() {
        let (gap, away_ms) = gap(state, bed, wire, open, alive, now);
        if let Ok(answered) = check::step(state, bed, wire, Step::woke(gap, away_ms), now) {
            whats.push(What::Answered(Box::new(answered)));
        }
        let rank = u8::from(open.facts.touched);
        if urgent.is_none_or(|(best, ..)| rank > best) {
            urgent = Some((rank, bed, wire));
        }
    }
    let check = urgent.map(|(_, bed, wire)| Screen::Check { bed, wire });
    let (moved, way) = transport_gaps(state, alive, now);
    whats.extend(moved);
    whats.extend(swap.or(check).or(way).map(What::Went));
    whats
}

/// A transport on its way is shown where nothing else is open.
fn transport_gaps(state: &State, alive: Option<Moment>, now: Moment) -> (Vec<What>, Option<Screen>) {
    let mut whats = Vec::new();
    let mut shown = None;
    for (bed, open) in state.open_transports() {
        let (away, away_ms) = away(alive, open.last, now);
        let gap = if away { transport::Gap::Long } else { transport::Gap::Short };
        whats.extend(transports::woke(bed, open, gap, away_ms));
        shown = shown.or(Some(Screen::Transport { bed: bed.id }));
    }
    (whats, shown)
}

/// Open swaps learn it too; one is shown before any check: a connection may be open.
fn swap_gaps(state: &State, alive: Option<Moment>, now: Moment) -> (Vec<What>, Option<Screen>) {
    let mut whats = Vec::new();
    let mut shown: Option<(bool, Screen)> = None;
    for (bed, wire, _, open) in state.open_swaps() {
        let (away, away_ms) = away(alive, open.last, now);
        let gap = if away { swap::Gap::Long } else { swap::Gap::Short };
        whats.extend(swaps::woke(state, bed, wire, gap, away_ms, now));
        let off = open.facts.is_off();
        if shown.is_none_or(|(known_off, _)| off && !known_off) {
            shown = Some((off, Screen::Swap { bed, wire }));
        }
    }
    (whats, shown.map(|(_, screen)| screen))
}

/// A minute and more; so is a new boot, or a clock gone back. With the time nobody looked, ms.
fn away(alive: Option<Moment>, last: Moment, now: Moment) -> (bool, i64) {
    let last = later_of(alive, last);
    let by_wall = now.wall_ms - last.wall_ms;
    let elapsed = now.since(last).filter(|_| by_wall >= 0);
    (elapsed.is_none_or(|away| away >= SHORT_MS), elapsed.unwrap_or(by_wall))
}

fn later_of(alive: Option<Moment>, last: Moment) -> Moment {
    alive.filter(|alive| alive.wall_ms > last.wall_ms).unwrap_or(last)
}

/// Now less the later of the last event and the alive time; a new boot or a clock gone back is the longest gap.
fn gap(
    state: &State,
    bed: u32,
    wire: u32,
    open: &OpenCheck,
    alive: Option<Moment>,
    now: Moment,
) -> (Gap, i64) {
    let last = later_of(alive, open.last);
    let by_wall = now.wall_ms - last.wall_ms;
    let Some(elapsed) = now.since(last) else { return (Gap::TooLong, by_wall) };
    if by_wall < 0 || elapsed > LONG_MS {
        return (Gap::TooLong, elapsed);
    }
    let passed =
        check::with_setup(state, bed, wire, |setup, open| open.times.limit_passed(setup, &open.facts, now));
    let gap = match (elapsed >= SHORT_MS, passed.unwrap_or(false)) {
        (true, _) => Gap::Long,
        (false, true) => Gap::LimitPassed,
        (false, false) => Gap::Short,
    };
    (gap, elapsed)
}

/// Time itself acts: watches end, limits pass.
pub fn time_passed(state: &State, now: Moment) -> Vec<What> {
    let mut whats = checks_passed(state, now);
    whats.extend(swaps::time_passed(state, now));
    whats
}

fn checks_passed(state: &State, now: Moment) -> Vec<What> {
    state
        .open_checks()
        .chain(state.practised_check())
        .filter_map(|(bed, wire, _, _)| {
            let (at, up) =
                check::with_setup(state, bed, wire, |setup, open| open.times.due(setup, &open.facts))??;
            if at > now.boot_ms {
                return None;
            }
            let answered = check::step(state, bed, wire, Step::plain(Answer::Time(up)), now).ok()?;
            Some(What::Answered(Box::new(answered)))
        })
        .collect()
}
