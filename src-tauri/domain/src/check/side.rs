//! Cards that open over another: something is wrong, a slip, a dial found elsewhere, away.

use super::answer::{Answer, Gap};
use super::facts::{Dial, Dials, Doubt, Facts, Marks, NONE, Phase, Row, Why};
use super::setup::Setup;
use super::step::{Stage, Step};
use super::turn::{ask, turn};
use super::{capture, conclude, offer, reading, restore, sensing, set, slip, trouble};

pub fn answer(setup: &Setup<'_>, before: Option<&Facts>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let under = return_to(setup, facts);
    let broken = restore::broken_off(setup, below(*facts));
    Some(match (facts.step, answer) {
        (S::Wrong, Answer::NoPulse) => trouble::no_beats(setup, broken),
        (S::Wrong, Answer::FastWide) => trouble::arrest(broken),
        (S::Wrong, Answer::ShockGiven) => trouble::after_shock(setup, broken),
        (S::Wrong, Answer::SomethingElse) => Facts { step: S::WrongMore, ..*facts },
        (S::WrongMore, Answer::DialElsewhere) => Facts { step: S::Elsewhere, ..*facts },
        (S::Wrong | S::WrongMore | S::Elsewhere | S::Slip, Answer::Back) => under,
        (S::WrongMore, seen) => return Some(seen_under(setup, before, under, seen)),
        (S::Elsewhere, Answer::Read(dials)) if read_anew(&under) => set::read_after(under, dials),
        (S::Elsewhere, Answer::Read(dials)) => elsewhere(setup, under, dials),
        (S::Slip, Answer::Read(dials)) => slip::taken_back(setup, *before?, facts, slip::Said::All(dials)),
        (S::Slip, Answer::StandsAt(position)) => return slip::stands(setup, before, facts, position),
        (S::Away, Answer::Yes) => under,
        (S::Away, Answer::No) => Facts { step: S::Elsewhere, ..*facts },
        (S::AwayRead, Answer::Read(dials)) => away_read(setup, *facts, dials),
        _ => return None,
    })
}

/// Opens a side card over this one.
#[inline]
pub fn over(facts: Facts, step: Step) -> Facts {
    let from = if facts.step.is_side() { facts.from } else { facts.step };
    Facts { step, from, ..facts }
}

/// The card a side card lies on; any other card is its own.
#[inline]
pub fn below(facts: Facts) -> Facts {
    if facts.step.is_side() { Facts { step: facts.from, from: facts.came_from, ..facts } } else { facts }
}

/// Back to the card below: what was being watched is watched anew.
fn return_to(setup: &Setup<'_>, facts: &Facts) -> Facts {
    capture::unless_too_old(setup, watched_anew(below(*facts)))
}

pub(super) fn watched_anew(card: Facts) -> Facts {
    let has_a_watch = card.to != NONE || card.step.is_watched_question();
    let phase = if card.phase == Phase::Open && has_a_watch { Phase::Watching } else { card.phase };
    Facts { phase, ..card }
}

/// The card below knows some of these answers itself; the rest lead to its way back.
fn seen_under(setup: &Setup<'_>, before: Option<&Facts>, under: Facts, seen: Answer) -> Facts {
    if seen == Answer::NotTolerated {
        return trouble::not_tolerated(setup, under);
    }
    let among_own = under.step == Step::BlindRateUp && seen == Answer::SpikeWithoutABeat;
    if among_own && under.phase == Phase::Turning {
        return under;
    }
    let asked = offer::is_open(setup, &under, seen) || among_own;
    if let Some(next) = super::by_stage(setup, before, &under, seen).filter(|_| asked) {
        return next;
    }
    match seen {
        Answer::SpikeWithoutABeat if under.step.stage() == Some(Stage::Sensing) => {
            spike_in_sensing(setup, restore::broken_off(setup, under))
        }
        Answer::SpikeWithoutABeat => capture::fails(setup, restore::broken_off(setup, under)),
        Answer::BeatNotMarked => number_missed(setup, under),
        Answer::Pause => {
            let mut paused = under.paused();
            paused.not_tested(Why::Pauses);
            restore::open(setup, paused)
        }
        Answer::ExtraBeatNotMarked => Facts { marks: under.marks.and(Marks::EXTRA_BEAT_UNMARKED), ..under },
        Answer::MarkWithoutBeat => sensing::marks_alone(setup, under),
        _ => under,
    }
}

/// Own beats are there: the way back in its order, to an output that is not the one that failed.
fn spike_in_sensing(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    if !facts.in_doubt(Dial::Output) {
        next.lost_at(facts.stand.output);
    }
    next.not_tested(Why::SpikeWithoutBeat);
    restore::open(setup, next)
}

/// Spikes may fall through own beats: RATE above them, then the number. At minimum output the number first.
pub fn number_missed(setup: &Setup<'_>, facts: Facts) -> Facts {
    let was_set = matches!(facts.step, Step::SetMv | Step::Confirm);
    let mut next = if was_set { set::not_back_to_asynchronous(setup, facts) } else { facts };
    next.missed_at(facts.current(Dial::Mv));
    next.marks = next.marks.and(Marks::DID_NOT_SEE_AS_FOUND);
    next.not_tested(Why::DidNotSee);
    let row = restore::row(setup, &next);
    if row == Row::SensingMinimum || read_anew(&next) {
        return restore::open(setup, next);
    }
    restore::open_row(restore::broken_off(setup, next), Row::Blind)
}

/// A dial stands elsewhere than asked: the card is recomputed from where it stands; evidence stays.
fn elsewhere(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
    let again = facts.elsewhere > 0;
    let asked = facts;
    let elsewhere = facts.elsewhere.saturating_add(1);
    let next = Facts { elsewhere, touched: true, ..facts.standing(dials) };
    if again { restore::open(setup, next) } else { recomputed(setup, asked, next) }
}

/// The card that fits the dials as they stand now.
pub fn recomputed(setup: &Setup<'_>, asked: Facts, now: Facts) -> Facts {
    let others_as_asked = [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .filter(|dial| !asked.asks(*dial))
        .all(|dial| now.stand.at(dial) == asked.stand.at(dial));
    let same_card = others_as_asked && asked.to != NONE;
    let is_capture = asked.step.stage() == Some(Stage::Capture);
    // A RATE or number that is left as it reads has no card of its own: where it stays is said.
    let to = || reading::kept(setup, &now, now.stand.with(asked.dial, asked.to)).at(asked.dial);
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
            if same_card && (asked.dial == Dial::Output || to() == asked.to) =>
        {
            turn(now, asked.step, asked.dial, to())
        }
        _ if output_too_low(setup, &asked, &now) => {
            let row = if now.spike_lost && is_capture { Row::CaptureAfterLoss } else { Row::Set };
            restore::open_row(Facts { step: asked.step, ..now }, row)
        }
        _ => conclude::restore_or_stay(setup, Facts { step: asked.step, ..now }),
    }
}

/// Outside sensing, and where spikes do not fall through own beats, OUTPUT comes first.
fn output_too_low(setup: &Setup<'_>, asked: &Facts, now: &Facts) -> bool {
    let lowest = set::lowest_output(setup, now);
    let sensing = asked.step.stage() == Some(Stage::Sensing);
    now.stand.output < lowest && !sensing && !restore::is_blind(now)
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

/// The tablet slept or died: what is asked depends on how long.
pub fn woke(setup: &Setup<'_>, facts: Facts, gap: Gap) -> Facts {
    use Step as S;
    let quiet =
        matches!(facts.step, S::Done | S::Ended | S::NoBeats | S::NoSpikes | S::Emergency | S::Arrest);
    // What was asked before the first reading may have changed: asked anew.
    if !facts.dials_read() && facts.step.stage() == Some(Stage::Ready) && gap == Gap::TooLong {
        let first = if setup.history { S::SamePatient } else { S::Order };
        return ask(Facts { marks: facts.marks.and(Marks::AWAY), blocked: None, ..facts }, first);
    }
    if quiet || !facts.dials_read() {
        return facts;
    }
    let marks = facts.marks.and(Marks::AWAY);
    let mut next = Facts { marks, ..facts };
    match gap {
        Gap::LimitPassed | Gap::Long if read_anew(&facts) => next,
        Gap::Short => over(next, Step::Away),
        Gap::LimitPassed => {
            next.not_tested(Why::Away);
            restore::open(setup, next)
        }
        Gap::Long => away(setup, next, S::AwayRead),
        Gap::TooLong => away(setup, next, S::ReadAfter),
    }
}

/// After trouble or a long sleep the dials are read as they stand: there is no old setting to go back to.
#[inline]
pub fn read_anew(facts: &Facts) -> bool {
    let under = below(*facts);
    let reads = |step| matches!(step, Step::ReadAfter | Step::ReadLower);
    reads(under.step) || (under.step == Step::Reason && reads(under.from))
}

/// Look at the patient, read the dials: others may have changed them.
fn away(setup: &Setup<'_>, facts: Facts, step: Step) -> Facts {
    let mut next = restore::broken_off(setup, facts);
    next.clear_own();
    next.not_tested(Why::Away);
    next.doubt = Doubt::ALL;
    next.touched = true;
    if below(next).step == Step::AwayRead { Facts { step, ..below(next) } } else { ask(next, step) }
}

/// An OUTPUT that somebody has raised meanwhile is not turned down again.
pub(super) fn away_read(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
    let mut next = facts.standing(dials);
    if dials.output > restore::target(setup, &next).output {
        next.emergency_output = dials.output;
    }
    let row = restore::row(setup, &next);
    if restore::lines(setup, &next, row).is_empty() {
        return reading_owed(ask(next, Step::Stays));
    }
    restore::open_row(next, row)
}

/// Dials stand elsewhere than when they were read: what stays is read again, also where the last look was.
pub(super) fn reading_owed(next: Facts) -> Facts {
    if next.step == Step::Stays {
        Facts { from: Step::Restore, came_from: Step::Restore, ..next }
    } else {
        next
    }
}
