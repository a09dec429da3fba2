//! Cards that open over another: something is wrong, a slip, a dial found elsewhere, away.

use super::answer::{Answer, Gap};
use super::facts::{ASYNCHRONOUS, Dial, Dials, Doubt, Facts, Marks, NONE, Phase, Row, Turned, Why};
use super::setup::Setup;
use super::step::{Stage, Step};
use super::turn::{ask, turn};
use super::{capture, conclude, offer, reading, restore, sensing, set, trouble};
use crate::profile::Position;

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
        (S::Slip, Answer::Read(dials)) => taken_back(setup, *before?, facts, Said::All(dials)),
        (S::Slip, Answer::StandsAt(position)) => return slip_stands(setup, before, facts, position),
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

fn watched_anew(card: Facts) -> Facts {
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
        Answer::Pause => restore::open(setup, under.paused()),
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

/// "That was a slip": the answer before this card is taken back; both entries stay in the record.
pub fn slip(setup: &Setup<'_>, before: Option<&Facts>, facts: Facts) -> Facts {
    match before {
        Some(earlier) if !facts.dials_read() => taken_back(setup, *earlier, &facts, Said::Nothing),
        // Read there, the list comes again with what still differs.
        None if below(facts).step == Step::Restore => over(facts, Step::Elsewhere),
        None if reads_all(&facts) => ask(restore::broken_off(setup, facts), Step::ReadAfter),
        None => over(facts, Step::Elsewhere),
        Some(earlier) if !reads_all(&facts) && doubtful_dial(earlier, &facts).is_none() => {
            taken_back(setup, *earlier, &facts, Said::Nothing)
        }
        Some(_) => over(facts, Step::Slip),
    }
}

/// More than one dial may have been turned on this card: a slip reads all three.
pub fn reads_all(facts: &Facts) -> bool {
    is_list(below(*facts).step) || facts.doubt != Doubt::NONE
}

/// Cards that list dials to turn, with no tap between them.
fn is_list(step: Step) -> bool {
    matches!(step, Step::Restore | Step::NoSpikes | Step::Emergency | Step::Arrest)
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
    Some(taken_back(setup, *earlier, facts, Said::One(dial, position)))
}

/// Where the dials stand now, as said with a slip.
#[derive(Clone, Copy)]
enum Said {
    Nothing,
    One(Dial, Position),
    All(Dials),
}

/// The evidence of the answer taken back goes; the card before opens again where the dials stand now.
fn taken_back(setup: &Setup<'_>, earlier: Facts, facts: &Facts, said: Said) -> Facts {
    let marks = earlier.marks.and(Marks::SLIP);
    let own_old = earlier.own_old || facts.own_old;
    let card = Facts { marks, own_old, turned: turned_since(setup, &earlier, facts, said), ..earlier };
    if !card.dials_read() {
        return card;
    }
    if let (true, Said::All(dials)) = (is_reading(card.step), said) {
        return read_again(setup, card, dials);
    }
    let now = put(setup, card, facts, said);
    if card.step == Step::ReadBack && now.stand.output < set::lowest_output(setup, &now) {
        return restore::open_row(now, Row::Set);
    }
    if is_first_act(card.step) {
        return first_act_again(card, now);
    }
    if is_list(card.step) || is_reading(card.step) {
        return reopened(card, now, card.to);
    }
    let stand = now.stand;
    let others_as_then = [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .filter(|dial| !card.asks(*dial))
        .all(|dial| stand.at(dial) == card.stand.at(dial));
    if !others_as_then {
        return reading_owed(conclude::restore_or_stay(setup, now));
    }
    // RATE is never raised in sensing.
    let to = match card.step {
        Step::SenseRate => card.to.min(stand.rate),
        step if is_search(step) || step == Step::CaptureCount => {
            safer(card.dial, card.to, stand.at(card.dial))
        }
        Step::SenseOutputOut | Step::CaptureOut => {
            reading::kept(setup, &now, stand.with(Dial::Output, card.to)).output
        }
        _ => card.to,
    };
    capture::unless_too_old(setup, reopened(card, now, to))
}

/// What was turned meanwhile was turned, whatever is taken back.
fn turned_since(setup: &Setup<'_>, earlier: &Facts, facts: &Facts, said: Said) -> Turned {
    let turned = earlier.turned.with_all(restore::broken_off(setup, below(*facts)).turned);
    let asked_elsewhere = facts.asks(Dial::Output) && facts.stand.output != facts.to;
    let is_there = matches!(said, Said::One(Dial::Output, at) if at == facts.to);
    if asked_elsewhere && is_there { turned.and(Dial::Output) } else { turned }
}

/// The earlier card's facts, with the dials where they stand now. Of a list nobody knows which were turned;
/// what was read by a slip is not known.
fn put(setup: &Setup<'_>, card: Facts, facts: &Facts, said: Said) -> Facts {
    let list = restore::broken_off(setup, card);
    let as_then = is_list(card.step) || is_reading(card.step);
    let (stand, doubt) = if as_then { (card.stand, list.doubt) } else { (facts.now(), card.doubt) };
    let doubt = undone_turn(card, doubt);
    let (stand, doubt) = match said {
        Said::Nothing => (stand, doubt),
        Said::One(dial, position) => (stand.with(dial, position), doubt.less(dial)),
        Said::All(dials) => (dials, Doubt::NONE),
    };
    Facts { doubt, ..card.standing(stand) }
}

/// Only the answer taken back said that the earlier card's dial was turned.
fn undone_turn(card: Facts, doubt: Doubt) -> Doubt {
    if card.to != NONE && card.phase != Phase::Turning {
        return doubt.less(card.dial);
    }
    if card.to == NONE || card.stand.at(card.dial) == card.to {
        return doubt;
    }
    let asynchronous = card.dial == Dial::Mv && card.stand.mv.max(card.to) == ASYNCHRONOUS;
    let doubt = doubt.and(card.dial);
    if asynchronous { doubt.and_asynchronous() } else { doubt }
}

/// OUTPUT goes up, or stays where it was said to stand: it is not turned down before beats are there.
fn first_act_again(card: Facts, now: Facts) -> Facts {
    let to = if card.to == NONE { NONE } else { safer(card.dial, card.to, now.stand.at(card.dial)) };
    let opened = reopened(card, now, to);
    if card.step == Step::NoBeats { Facts { emergency_output: to, ..opened } } else { opened }
}

/// The earlier card again, with a new watch: its dial to `to`, or its question.
fn reopened(card: Facts, now: Facts, to: Position) -> Facts {
    if card.to == NONE {
        return watched_anew(Facts { phase: card.phase, ..now });
    }
    let opened = turn(now, card.step, card.dial, to);
    Facts { from: card.from, came_from: card.came_from, ..opened }
}

/// The reading said with the slip is the one that the earlier card asks for.
fn read_again(setup: &Setup<'_>, card: Facts, dials: Dials) -> Facts {
    match card.step {
        Step::AwayRead => away_read(setup, card, dials),
        Step::ReadAfter => set::read_after(card, dials),
        _ => set::compare(setup, card, dials),
    }
}

fn is_reading(step: Step) -> bool {
    matches!(step, Step::ReadBack | Step::ReadAfter | Step::AwayRead)
}

/// Cards whose act comes before anything else, wherever the other dials stand.
fn is_first_act(step: Step) -> bool {
    use Step::*;
    matches!(step, NoBeats | AfterShock | CaptureMaximum | FirstMaximum | CaptureRestore)
}

/// Cards that try one position after another: after a slip the safer one is watched.
fn is_search(step: Step) -> bool {
    use Step::*;
    matches!(step, OwnDown | BlindRateUp | SenseUp | SenseDown | CaptureDown | CaptureBack | CaptureUp)
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
    // What was asked before the first reading may have changed: asked anew.
    if !facts.dials_read() && facts.step.stage() == Some(Stage::Ready) && gap == Gap::TooLong {
        let first = if setup.history { S::SamePatient } else { S::Order };
        return ask(Facts { marks: facts.marks.and(Marks::AWAY), blocked: None, ..facts }, first);
    }
    if quiet || !facts.dials_read() {
        return facts;
    }
    let marks = facts.marks.and(Marks::AWAY);
    let next = Facts { marks, ..facts };
    match gap {
        Gap::LimitPassed | Gap::Long if read_anew(&facts) => next,
        Gap::Short => over(next, Step::Away),
        Gap::LimitPassed => restore::open(setup, next),
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
fn away_read(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
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
fn reading_owed(next: Facts) -> Facts {
    if next.step == Step::Stays {
        Facts { from: Step::Restore, came_from: Step::Restore, ..next }
    } else {
        next
    }
}
