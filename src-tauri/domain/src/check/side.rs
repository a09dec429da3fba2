//! Cards that open over another: something is wrong, a slip, a dial found elsewhere, away.

use super::answer::{Answer, Gap};
use super::facts::{Dial, Dials, Facts, Marks, NONE, Phase, Row};
use super::set::AS_READ;
use super::setup::Setup;
use super::step::{Stage, Step};
use super::turn::{ask, turn};
use super::{conclude, restore, trouble};
use crate::profile::Position;

pub fn answer(setup: &Setup<'_>, before: Option<&Facts>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let under = return_to(facts);
    Some(match (facts.step, answer) {
        (S::Wrong, Answer::NoPulse) => trouble::no_beats(setup, under),
        (S::Wrong, Answer::FastWide) => trouble::arrest(under),
        (S::Wrong, Answer::ShockGiven) => trouble::after_shock(setup, under),
        (S::Wrong, Answer::SomethingElse) => Facts { step: S::WrongMore, ..*facts },
        (S::WrongMore, Answer::DialElsewhere) => Facts { step: S::Elsewhere, ..*facts },
        (S::Wrong | S::WrongMore | S::Elsewhere | S::Slip, Answer::Back) => under,
        (S::WrongMore, seen) => return Some(seen_under(setup, before, under, seen)),
        (S::Elsewhere, Answer::Read(dials)) => elsewhere(setup, under, dials),
        (S::Slip, Answer::StandsAt(position)) => return slip_stands(setup, before, facts, position),
        (S::Away, Answer::Yes) => under,
        (S::Away, Answer::No) => Facts { step: S::Elsewhere, ..*facts },
        (S::AwayRead, Answer::Read(dials)) => away_read(setup, *facts, dials),
        _ => return None,
    })
}

/// Opens a side card over this one.
pub fn over(facts: Facts, step: Step) -> Facts {
    let from = if facts.step.is_side() { facts.from } else { facts.step };
    Facts { step, from, ..facts }
}

/// Back to the card below: what was being watched is watched anew.
fn return_to(facts: &Facts) -> Facts {
    let phase = if facts.phase == Phase::Open && facts.to != NONE { Phase::Watching } else { facts.phase };
    Facts { step: facts.from, phase, ..*facts }
}

/// The card below knows some of these answers itself; the rest lead to its way back.
fn seen_under(setup: &Setup<'_>, before: Option<&Facts>, under: Facts, seen: Answer) -> Facts {
    if seen == Answer::NotTolerated {
        return trouble::not_tolerated(setup, under);
    }
    if let Some(next) = super::by_stage(setup, before, &under, seen) {
        return next;
    }
    match seen {
        Answer::SpikeWithoutABeat if under.step.stage() == Some(Stage::Sensing) => {
            restore::open(setup, under)
        }
        Answer::SpikeWithoutABeat => trouble::spike_without_a_beat(setup, under),
        Answer::BeatNotMarked => number_missed(setup, under),
        Answer::Pause => restore::open(setup, Facts { marks: under.marks.and(Marks::PAUSES), ..under }),
        Answer::ExtraBeatNotMarked => Facts { marks: under.marks.and(Marks::EXTRA_BEAT_UNMARKED), ..under },
        _ => under,
    }
}

fn number_missed(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    next.missed_at(facts.current(Dial::Mv));
    restore::open(setup, next)
}

/// A dial stands elsewhere than asked: the card is recomputed from where it stands; evidence stays.
fn elsewhere(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
    let again = facts.elsewhere > 0;
    let asked = facts;
    let next = Facts {
        stand: dials,
        to: NONE,
        phase: Phase::Open,
        elsewhere: facts.elsewhere.saturating_add(1),
        touched: true,
        ..facts
    };
    if again { restore::open(setup, next) } else { recomputed(setup, asked, next) }
}

/// The card that fits the dials as they stand now.
pub fn recomputed(setup: &Setup<'_>, asked: Facts, now: Facts) -> Facts {
    let others_as_asked = [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .filter(|dial| !asked.asks(*dial))
        .all(|dial| now.stand.at(dial) == asked.stand.at(dial));
    let same_card = others_as_asked && asked.to != NONE;
    match asked.step {
        Step::OwnDown if same_card && within_search(setup, &now) => {
            let at = now.stand.rate;
            turn(now, Step::OwnDown, Dial::Rate, at)
        }
        Step::CaptureDown if same_card => capture_from(setup, asked, now),
        Step::SetOutput
        | Step::SetRate
        | Step::SetMv
        | Step::SenseOutputOut
        | Step::SenseMvOut
        | Step::CaptureOut
            if same_card =>
        {
            turn(now, asked.step, asked.dial, asked.to)
        }
        _ => conclude::restore_or_stay(setup, Facts { step: asked.step, ..now }),
    }
}

fn within_search(setup: &Setup<'_>, now: &Facts) -> bool {
    setup.search_limit().is_some_and(|limit| now.stand.rate >= limit)
}

/// Below what held, OUTPUT goes up to it; otherwise the card asks about where it stands.
fn capture_from(setup: &Setup<'_>, asked: Facts, now: Facts) -> Facts {
    let stands = now.stand.output;
    if now.proved == NONE {
        return restore::open(setup, Facts { step: asked.step, ..now });
    }
    if stands < asked.to {
        let held = now.proved;
        return turn(now, Step::CaptureBack, Dial::Output, held);
    }
    turn(now, Step::CaptureDown, Dial::Output, stands)
}

/// "That was a slip": the answer before this card is taken back; both entries stay in the record.
pub fn slip(setup: &Setup<'_>, before: Option<&Facts>, facts: Facts) -> Facts {
    match before {
        None => over(facts, Step::Elsewhere),
        Some(earlier) if doubtful_dial(earlier, &facts).is_none() => taken_back(setup, *earlier, facts.now()),
        Some(_) => over(facts, Step::Slip),
    }
}

/// The dial whose place must be said after a slip: this card's if it may have been turned, else the last card's.
pub fn doubtful_dial(earlier: &Facts, facts: &Facts) -> Option<Dial> {
    if facts.to != NONE { Some(facts.dial) } else { (earlier.to != NONE).then_some(earlier.dial) }
}

fn slip_stands(
    setup: &Setup<'_>,
    before: Option<&Facts>,
    facts: &Facts,
    position: Position,
) -> Option<Facts> {
    let earlier = before?;
    let dial = doubtful_dial(earlier, facts)?;
    Some(taken_back(setup, *earlier, facts.now().with(dial, position)))
}

/// The evidence of the answer taken back goes; the card before opens again at the safer position.
fn taken_back(setup: &Setup<'_>, earlier: Facts, stand: Dials) -> Facts {
    let marks = earlier.marks.and(Marks::SLIP);
    let now = Facts { stand, to: NONE, marks, phase: Phase::Open, touched: true, ..earlier };
    let dials_as_then = [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .filter(|dial| !earlier.asks(*dial))
        .all(|dial| stand.at(dial) == earlier.stand.at(dial));
    if !dials_as_then {
        return conclude::restore_or_stay(setup, now);
    }
    if earlier.to == NONE {
        return Facts { phase: earlier.phase, touched: earlier.touched, ..now };
    }
    let safer = safer(earlier.dial, earlier.to, stand.at(earlier.dial));
    let opened = turn(now, earlier.step, earlier.dial, safer);
    Facts { from: earlier.from, ..opened }
}

/// More output, a faster rate, a number that sees more.
fn safer(dial: Dial, one: Position, other: Position) -> Position {
    match dial {
        Dial::Output | Dial::Rate => one.max(other),
        Dial::Mv => one.min(other),
    }
}

/// The tablet slept or died: what is asked depends on how long.
pub fn woke(setup: &Setup<'_>, facts: Facts, gap: Gap) -> Facts {
    use Step as S;
    let quiet =
        matches!(facts.step, S::Done | S::Ended | S::NoBeats | S::NoSpikes | S::Emergency | S::Arrest);
    if quiet || !facts.dials_read() {
        return facts;
    }
    let marks = facts.marks.and(Marks::AWAY);
    let next = Facts { marks, ..facts };
    match gap {
        Gap::Short => over(next, S::Away),
        Gap::LimitPassed => restore::open(setup, next),
        Gap::Long => away(setup, next),
        Gap::TooLong => ask(Facts { row: Row::NothingTurned, ..away(setup, next) }, S::ReadAfter),
    }
}

/// Look at the patient, read the dials: others may have changed them.
fn away(setup: &Setup<'_>, facts: Facts) -> Facts {
    let row = restore::row(setup, &facts);
    let from = if facts.step.is_side() { facts.from } else { facts.step };
    let mut next = facts;
    next.clear_own();
    next.not_tested(super::facts::Why::Away);
    next.row = row;
    next.from = from;
    next.phase = Phase::Open;
    next.to = NONE;
    next.step = Step::AwayRead;
    next
}

fn away_read(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
    let next = Facts { stand: dials, set: if facts.set == AS_READ { 0 } else { facts.set }, ..facts };
    let row = next.row;
    if restore::lines(setup, &next, row).is_empty() {
        return ask(next, Step::Stays);
    }
    Facts { row, from: facts.from, ..restore::open_row(next, row) }
}
