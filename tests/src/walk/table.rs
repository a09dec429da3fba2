//! "Stop, restore", written a second time from the table of the specification: which dials, to what, in
//! which order. Compared with the product's list at every state the walk reaches.

use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Found, NONE, Phase};
use domain::check::restore::Line;
use domain::check::setup::Setup;
use domain::check::step::{Stage, Step};

use super::ledger::{AS_READ, Blindness, Ledger, index, under};
use super::oracle;

/// Restore by evidence: output the highest of found, proved and emergency; the number that sees; the
/// rate found, or what the emergency set.
pub fn by_evidence(setup: &Setup<'_>, book: &Ledger, card: &Facts) -> Dials {
    let found = book.found.unwrap_or(Dials::UNREAD);
    Dials {
        output: output(setup, book, found),
        rate: book.emergency_rate.unwrap_or(found.rate),
        mv: number(setup, book, card, found),
    }
}

fn output(setup: &Setup<'_>, book: &Ledger, found: Dials) -> u8 {
    [Some(found.output), book.evidence.good, book.emergency_output]
        .into_iter()
        .flatten()
        .filter(|output| *output != NONE && !book.evidence.fails(*output))
        .max()
        .unwrap_or(setup.profile.output_last())
}

fn number(setup: &Setup<'_>, book: &Ledger, card: &Facts, found: Dials) -> u8 {
    let blindest = if setup.has_asynchronous() { ASYNCHRONOUS } else { setup.profile.mv_last() };
    match book.asynchronous {
        Blindness::Ordered | Blindness::Pauses => return ASYNCHRONOUS,
        Blindness::Emergency => return blindest,
        Blindness::No => {}
    }
    if found.mv != ASYNCHRONOUS && !book.evidence.blind(found.mv) {
        return found.mv;
    }
    if found.mv == ASYNCHRONOUS && book.fallback.is_none() {
        return ASYNCHRONOUS;
    }
    let usable = |p: &u8| !book.evidence.blind(*p);
    rule(setup, card)
        .or(book.evidence.saw)
        .or(book.fallback.filter(usable))
        .or(Some(setup.starting_mv()).filter(usable))
        .unwrap_or_else(|| below_missed(setup, book))
}

/// Not below the unit's lowest; and nothing that saw less than a number that missed already. Out of asynchronous by
/// halves.
fn below_missed(setup: &Setup<'_>, book: &Ledger) -> u8 {
    let lowest = oracle::lowest_number(setup);
    let mv = |p: u8| setup.profile.mv_at(p);
    match book.evidence.missed {
        None => lowest,
        Some(missed) if missed <= lowest => missed,
        Some(missed) if book.found.is_some_and(|found| found.mv == ASYNCHRONOUS) => {
            (lowest..missed).find(|p| 2 * mv(*p) >= mv(missed)).unwrap_or(missed - 1)
        }
        Some(missed) => missed - 1,
    }
}

/// The unit's rule on the threshold that this check announces.
pub fn rule(setup: &Setup<'_>, card: &Facts) -> Option<u8> {
    let measured = matches!(card.sensing, Found::Exact | Found::AtLeast);
    measured.then(|| oracle::number_by_rule(setup, card.sensing_at)).flatten()
}

/// Where the dials are to stand at the end.
pub fn plan(setup: &Setup<'_>, book: &Ledger, card: &Facts) -> Dials {
    let restore = by_evidence(setup, book, card);
    let captured = matches!(card.capture, Found::Exact | Found::AtMost | Found::Bracket);
    let by_rule = captured.then(|| oracle::output_plan(setup, card.capture_at)).flatten();
    let output = by_rule.unwrap_or(restore.output);
    let floor = if book.no_beats { restore.output } else { 0 };
    let measured = matches!(card.sensing, Found::Exact | Found::AtLeast);
    let sensed = measured && restore.mv != ASYNCHRONOUS && !book.pauses;
    let saw = book.evidence.sees(restore.mv);
    let mv = if sensed { oracle::number_plan(setup, card.sensing_at, restore.mv, saw) } else { restore.mv };
    Dials { output: output.max(floor), rate: restore.rate, mv }
}

/// By evidence; from the answered OUTPUT card on, the plan as far as it was turned.
pub fn target(setup: &Setup<'_>, book: &Ledger, card: &Facts) -> Dials {
    let kept = by_evidence(setup, book, card);
    let plan = plan(setup, book, card);
    Dials {
        output: match book.set {
            AS_READ => kept.output,
            0 if matches!(card.capture, Found::Exact | Found::AtMost | Found::Bracket) => {
                kept.output.max(plan.output)
            }
            0 => kept.output,
            _ => plan.output.max(book.emergency_output.unwrap_or(0)),
        },
        rate: if (2..AS_READ).contains(&book.set) { plan.rate } else { kept.rate },
        mv: if book.set == 3 { plan.mv } else { kept.mv },
    }
}

const RATE_FIRST: [Dial; 3] = [Dial::Rate, Dial::Mv, Dial::Output];
const NUMBER_FIRST: [Dial; 3] = [Dial::Mv, Dial::Output, Dial::Rate];
const OWN_FASTER: [Dial; 3] = [Dial::Rate, Dial::Output, Dial::Mv];
/// Out of asynchronous before the rate is lowered.
const NUMBER_THEN_RATE: [Dial; 3] = [Dial::Mv, Dial::Rate, Dial::Output];
const OUTPUT_FIRST: [Dial; 3] = [Dial::Output, Dial::Rate, Dial::Mv];
/// After beats came back at the emergency output: it is not touched before the number is right.
const AFTER_NO_BEATS: [Dial; 3] = [Dial::Output, Dial::Mv, Dial::Rate];

fn order(setup: &Setup<'_>, book: &Ledger, card: &Facts) -> [Dial; 3] {
    let step = under(card);
    match step.stage() {
        Some(Stage::OwnRhythm) => RATE_FIRST,
        Some(Stage::Sensing) if step == Step::SenseRate && !output_low(setup, book, card) => RATE_FIRST,
        Some(Stage::Sensing) => NUMBER_FIRST,
        Some(Stage::Capture) => capture_order(setup, book, step),
        Some(Stage::Ready | Stage::Set | Stage::Read | Stage::Confirm | Stage::Done) => OUTPUT_FIRST,
        None if matches!(step, Step::NoBeats | Step::NoSpikes | Step::Emergency | Step::Arrest) => {
            AFTER_NO_BEATS
        }
        None if step == Step::AfterShock => AFTER_NO_BEATS,
        None => OUTPUT_FIRST,
    }
}

fn output_low(setup: &Setup<'_>, book: &Ledger, card: &Facts) -> bool {
    book.range(card, Dial::Output).0 < target(setup, book, card).output
}

/// Spikes without beats, trouble, and the searches for own beats and for sensing have an order of their own.
fn no_spike_has_failed(book: &Ledger, step: Step) -> bool {
    match step.stage() {
        None | Some(Stage::OwnRhythm | Stage::Sensing) => false,
        Some(Stage::Capture) => !book.lost_in_capture && !is_margin(step),
        Some(_) => !matches!(step, Step::FirstMaximum | Step::FirstConnections),
    }
}

fn is_margin(step: Step) -> bool {
    matches!(step, Step::MarginAsk | Step::MarginOne | Step::MarginHalf | Step::MarginBack)
}

/// The fastest place that was last said or asked.
fn fastest_in_doubt(book: &Ledger, card: &Facts) -> u8 {
    let asked = if card.asks(Dial::Rate) { card.to } else { 0 };
    book.last[1].max(asked)
}

/// The highest place at which a dial may stand; of a dial in doubt nothing is known.
fn stands_at_most(book: &Ledger, card: &Facts, dial: Dial) -> Option<u8> {
    if card.asks(dial) && card.phase != Phase::Turning {
        return Some(card.to);
    }
    Some(book.range(card, dial).1).filter(|most| *most != NONE)
}

fn capture_order(setup: &Setup<'_>, book: &Ledger, step: Step) -> [Dial; 3] {
    let found = book.found.map_or(0, |found| setup.profile.rate_at(found.rate));
    let own_faster = book.own.is_some_and(|(_, fastest)| u16::from(fastest) > found);
    if own_faster && !book.lost_in_capture && !is_margin(step) { OWN_FASTER } else { OUTPUT_FIRST }
}

/// Spikes fell through own beats and nothing says that the number as it stands sees them.
fn is_blind(book: &Ledger, card: &Facts) -> bool {
    let (_, highest) = book.range(card, Dial::Mv);
    book.evidence.missed.is_some() && !book.evidence.sees(highest)
}

/// Above the own beats: the found rate if every beat was paced there, else a step above both, as far as a test may go;
/// `None` where that does not pace above them.
fn above_own(setup: &Setup<'_>, book: &Ledger) -> Option<u8> {
    let found = book.found.map_or(0, |found| found.rate);
    let own_is_slower = book.own.is_none_or(|(_, own)| u16::from(own) <= setup.profile.rate_at(found));
    if book.paced_at_found && own_is_slower {
        return Some(found);
    }
    let own = book.own.map_or(0, |(_, fastest)| u16::from(fastest)).max(setup.profile.rate_at(found));
    let allowed = |p: &u8| setup.profile.rate_at(*p) <= setup.rules.highest_test_rate;
    let places = || (0..=setup.profile.rate_last()).filter(allowed);
    let a_step_above = places().find(|p| setup.profile.rate_at(*p) >= own + setup.rules.own_step);
    a_step_above.or(places().next_back().filter(|p| setup.profile.rate_at(*p) > own))
}

/// Every dial that stands, or may stand, elsewhere than restore, in the order to turn them.
pub fn lines(setup: &Setup<'_>, book: &Ledger, card: &Facts) -> Vec<Line> {
    let mut to = target(setup, book, card);
    let as_found =
        [Dial::Output, Dial::Rate, Dial::Mv].iter().all(|dial| book.at(*dial) == Some(to.at(*dial)));
    if !book.asked && as_found {
        return Vec::new();
    }
    to = left_where_read(setup, book, card, to);
    let paced_over = !book.not_paced_over;
    if under(card).stage() == Some(Stage::OwnRhythm) && is_blind(book, card) && paced_over {
        let now = stands_at_most(book, card, Dial::Rate).unwrap_or(fastest_in_doubt(book, card));
        to.rate = to.rate.max(above_own(setup, book).unwrap_or(0)).max(now);
    }
    let fastest = stands_at_most(book, card, Dial::Rate);
    if to.mv == ASYNCHRONOUS {
        to.rate = to.rate.max(fastest.unwrap_or(0));
    }
    let mut order = order(setup, book, card);
    let number = stands_at_most(book, card, Dial::Mv);
    let none_failed = no_spike_has_failed(book, under(card));
    let output_low = output_low(setup, book, card) || is_turning(book, card, Dial::Output);
    let output_known = stands_at_most(book, card, Dial::Output).is_some();
    let too_high = number.map_or(output_known || book.last[2] > to.mv, |n| n > to.mv);
    if none_failed && too_high && output_low {
        order = NUMBER_FIRST;
    }
    let maybe_asynchronous =
        number.map_or(book.maybe_asynchronous && setup.has_asynchronous(), |number| number == ASYNCHRONOUS);
    let lowers = fastest.is_none_or(|fastest| fastest > to.rate) || is_turning(book, card, Dial::Rate);
    if maybe_asynchronous && to.mv != ASYNCHRONOUS && lowers {
        order = if order == NUMBER_FIRST {
            NUMBER_FIRST
        } else if order[0] == Dial::Output {
            AFTER_NO_BEATS
        } else {
            NUMBER_THEN_RATE
        };
    }
    order
        .into_iter()
        .map(|dial| Line { dial, to: to.at(dial) })
        .filter(|line| may_differ(book, card, *line))
        .collect()
}

/// Somebody may have turned a dial to where it was read: one that this check cannot ask back safely stays there.
fn left_where_read(setup: &Setup<'_>, book: &Ledger, card: &Facts, wanted: Dials) -> Dials {
    let book_then = book.with_this_card(card);
    let stays = |dial: Dial| {
        let line = Line { dial, to: wanted.at(dial) };
        let at = stands_after_a_break(book, card, dial).filter(|at| *at != line.to)?;
        (!may_be_asked_back(setup, &book_then, card, line, at)).then_some(at)
    };
    let dials = [Dial::Output, Dial::Rate, Dial::Mv];
    dials.into_iter().fold(wanted, |to, dial| stays(dial).map_or(to, |at| to.with(dial, at)))
}

/// Where a dial stands once this card is left without an answer; `None`: nobody knows.
fn stands_after_a_break(book: &Ledger, card: &Facts, dial: Dial) -> Option<u8> {
    let asked = card.asks(dial).then_some(card.to);
    match asked {
        Some(to) if card.phase != Phase::Turning => Some(to),
        Some(to) => book.at(dial).filter(|at| *at == to),
        None => book.at(dial),
    }
}

/// From `at` a dial is asked to `line.to` only where this check has shown that to be safe: OUTPUT down to the plan on
/// a threshold, or to where it was turned and captured; RATE if a card has had it turned, else up alone and not above
/// the highest test rate; mV up to the rule on a threshold, to where it was turned and saw, or away from pauses.
pub fn may_be_asked_back(setup: &Setup<'_>, book: &Ledger, card: &Facts, line: Line, at: u8) -> bool {
    let turned = book.turned[index(line.dial)];
    match line.dial {
        Dial::Output if line.to < at => {
            let measured = matches!(card.capture, Found::Exact | Found::AtMost | Found::Bracket);
            let planned = measured && line.to >= plan(setup, book, card).output;
            planned || (turned && book.evidence.good.is_some_and(|good| good <= line.to))
        }
        Dial::Rate => {
            let up = at < line.to && setup.profile.rate_at(line.to) <= setup.rules.highest_test_rate;
            turned || book.emergency_rate.is_some() || up
        }
        Dial::Mv if line.to > at && line.to != ASYNCHRONOUS => {
            let by_rule = rule(setup, card).is_some_and(|rule| line.to <= rule);
            by_rule || (turned && (book.pauses || book.evidence.sees(line.to)))
        }
        Dial::Output | Dial::Mv => true,
    }
}

/// Once something breaks in, nobody knows where the dial stands: the number first costs nothing then.
fn is_turning(book: &Ledger, card: &Facts, dial: Dial) -> bool {
    card.asks(dial) && card.phase == Phase::Turning && book.at(dial) != Some(card.to)
}

fn may_differ(book: &Ledger, card: &Facts, line: Line) -> bool {
    let asked = card.asks(line.dial).then_some(card.to);
    let (now, turned) = (book.at(line.dial), card.phase != Phase::Turning);
    match (now, asked) {
        (None, _) => true,
        (Some(_), Some(to)) if turned => to != line.to,
        (Some(at), Some(to)) => at != line.to || to != line.to,
        (Some(at), None) => at != line.to,
    }
}
