//! What must never happen, N1 to N15, looked at from outside: which dial a card asks, from where to
//! where, and what was answered before.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Found, NONE, Phase, Row, Why};
use domain::check::restore::{self, Line};
use domain::check::setup::Setup;
use domain::check::step::{Stage, Step};
use domain::check::{self, offer};
use domain::rules::Chamber;

use super::ledger::{Blindness, Ledger, is_after_trouble, under};
use super::{oracle, table as restore_table};

/// The first property broken, with what broke it.
pub type Breach = (&'static str, String);
type Held = Result<(), Breach>;

fn hold(name: &'static str, holds: bool, said: impl FnOnce() -> String) -> Held {
    if holds { Ok(()) } else { Err((name, said())) }
}

/// One state: a card, and the book beside it.
pub struct Seen<'a> {
    pub setup: &'a Setup<'a>,
    pub card: &'a Facts,
    pub book: &'a Ledger,
    pub restore: Dials,
    pub plan: Dials,
    /// What Stop opens here.
    pub stopped: Option<Facts>,
}

impl<'a> Seen<'a> {
    pub fn new(setup: &'a Setup<'a>, card: &'a Facts, book: &'a Ledger) -> Seen<'a> {
        let restore = restore_table::target(setup, book, card);
        let plan = restore_table::plan(setup, book, card);
        let stopped = check::answer(setup, None, card, Answer::Stop).ok();
        Seen { setup, card, book, restore, plan, stopped }
    }

    fn asks(&self, dial: Dial) -> Option<u8> {
        let open = !self.card.step.is_side() && self.card.step != Step::Restore;
        (open && self.card.asks(dial)).then_some(self.card.to)
    }

    fn range(&self, dial: Dial) -> (u8, u8) {
        let (low, high) = self.book.range(self.card, dial);
        if self.card.asks(dial) && self.card.phase != Phase::Turning {
            return (self.card.to, self.card.to);
        }
        (low, high)
    }

    /// Before this card turns it.
    fn stood(&self, dial: Dial) -> (u8, u8) {
        self.book.at(dial).map_or((0, NONE), |at| (at, at))
    }

    fn touches_a_dial(&self) -> bool {
        let over = matches!(under(self.card), Step::Done | Step::Ended | Step::Blocked)
            || is_after_trouble(self.card);
        self.book.found.is_some() && !over
    }
}

/// Every property of one card.
const OF_A_CARD: [fn(&Seen<'_>) -> Held; 15] =
    [n1, n2_number_up, n2_output_up, n3, n4, table, n6, n7, n10, n11, n12, n13, n15, reading, test_rate];

/// Everything that is to hold on one card; the first breach.
pub fn on_card(seen: &Seen<'_>, only: Only) -> Held {
    OF_A_CARD.iter().map(|property| property(seen)).find(|held| counts(held, only)).unwrap_or(Ok(()))
}

/// With a guard switched off, the breaches of its own property alone are looked for.
pub type Only = Option<&'static str>;

fn counts(held: &Held, only: Only) -> bool {
    held.as_ref().is_err_and(|(name, _)| only.is_none_or(|only| only == *name))
}

/// A dial is asked for only when the found settings are known, and restore is in view.
fn n1(seen: &Seen<'_>) -> Held {
    let turns = seen.card.to != NONE;
    hold("N1", !turns || seen.book.found.is_some(), || "a dial before the reading".into())?;
    let known = seen.restore.output <= seen.setup.profile.output_last()
        && seen.restore.rate <= seen.setup.profile.rate_last()
        && (seen.restore.mv <= seen.setup.profile.mv_last() || seen.restore.mv == ASYNCHRONOUS);
    hold("N1", !turns || known, || format!("no restore in view: {:?}", seen.restore))
}

/// The number goes above restore and rule only with RATE below own and OUTPUT at minimum, seen harmless.
fn n2_number_up(seen: &Seen<'_>) -> Held {
    let Some(to) = seen.asks(Dial::Mv) else { return Ok(()) };
    let rule = restore_table::rule(seen.setup, seen.card);
    let above_both = to > seen.restore.mv && rule.is_none_or(|rule| to > rule);
    if !above_both || to <= seen.stood(Dial::Mv).0 {
        return Ok(());
    }
    let slowest = seen.book.own.map_or(0, |(slowest, _)| slowest);
    let most = oracle::sensing_rate(seen.setup, slowest);
    let rate_down = most.is_some_and(|most| seen.range(Dial::Rate).1 <= most);
    let output_down = seen.range(Dial::Output) == (0, 0);
    let harmless = !seen.book.minimum_made_beat;
    hold("N2", rate_down && output_down && harmless, || {
        format!("number up to {to}: rate down {rate_down}, output down {output_down}, harmless {harmless}")
    })?;
    hold("N2", first_spike_is_foreseen(seen), || format!("number up to {to}: a spike may fall on a T wave"))
}

/// Of a ventricular wire whose capture threshold no earlier check tells.
fn first_spike_is_foreseen(seen: &Seen<'_>) -> bool {
    if seen.setup.chamber == Chamber::Atrium || seen.setup.last_capture != NONE {
        return true;
    }
    let (low, high) = seen.range(Dial::Rate);
    let late =
        |own| [low, high].iter().all(|at| oracle::spike_is_off_t_waves(seen.setup.profile.rate_at(*at), own));
    seen.book.own.is_some_and(late)
}

/// OUTPUT is not raised over own beats while the number stands above restore or rule.
fn n2_output_up(seen: &Seen<'_>) -> Held {
    if seen.card.step == Step::Restore {
        return n2_list(seen, &restore::lines(seen.setup, seen.card, seen.card.row));
    }
    let exempt = matches!(seen.card.step, Step::NoBeats | Step::AfterShock);
    let Some(to) = seen.asks(Dial::Output) else { return Ok(()) };
    if exempt || !seen.book.own_now || to <= seen.stood(Dial::Output).0 {
        return Ok(());
    }
    let highest = seen.range(Dial::Mv).1;
    hold("N2", highest <= number_allowed(seen), || format!("output up with the number at {highest}"))
}

/// The restore list goes back to the restore number, which saw every own beat, whatever the rule.
/// A number in doubt counts as last said: a list leads from there to restore.
fn n2_list(seen: &Seen<'_>, lines: &[Line]) -> Held {
    let mut number = seen.book.at(Dial::Mv).unwrap_or(seen.book.last[2]);
    for line in lines {
        let up = line.dial == Dial::Output && line.to > seen.range(Dial::Output).0;
        let allowed = !(up && seen.book.own_now) || number <= seen.restore.mv;
        hold("N2", allowed, || format!("{lines:?} raises OUTPUT with the number at {number}"))?;
        if line.dial == Dial::Mv {
            number = line.to;
        }
    }
    Ok(())
}

fn number_allowed(seen: &Seen<'_>) -> u8 {
    let rule = restore_table::rule(seen.setup, seen.card).unwrap_or(NONE);
    seen.restore.mv.min(rule)
}

/// OUTPUT goes where it may lose capture only on an own rhythm shown in this check and still fresh.
fn n3(seen: &Seen<'_>) -> Held {
    let Some(to) = seen.asks(Dial::Output) else { return Ok(()) };
    let below = to < seen.restore.output && to < seen.plan.output && to < seen.stood(Dial::Output).1;
    let up = matches!(seen.card.step, Step::CaptureBack | Step::CaptureUp);
    let margin = matches!(seen.card.step, Step::MarginOne | Step::MarginHalf);
    if !below || up || seen.card.phase != Phase::Turning {
        return Ok(());
    }
    if margin {
        return hold("N3", seen.setup.rules.margin_check, || "margin not switched on".into());
    }
    let fresh = !seen.book.own_old || seen.card.step.stage() != Some(Stage::Capture);
    hold("N3", seen.book.own_shown && fresh, || {
        format!("output down to {to}: own shown {}, old {}", seen.book.own_shown, seen.book.own_old)
    })
}

/// One action opens restore; from the emergency, a reading.
fn n4(seen: &Seen<'_>) -> Held {
    if !seen.touches_a_dial() {
        return Ok(());
    }
    match seen.stopped {
        None => Err(("N4", "restore is not open".into())),
        Some(Facts { step: Step::Restore, .. }) => Ok(()),
        Some(opened) => {
            let over = matches!(under(seen.card), Step::Emergency | Step::NoSpikes | Step::Arrest);
            hold("N4", over && opened.step == Step::ReadAfter, || format!("restore opens {:?}", opened.step))
        }
    }
}

/// The list that restore opens is the table's.
fn table(seen: &Seen<'_>) -> Held {
    let opened = seen.stopped.filter(|opened| opened.step == Step::Restore && seen.touches_a_dial());
    let Some(opened) = opened else { return Ok(()) };
    if under(seen.card) == Step::Restore || seen.card.from == Step::Restore {
        return Ok(());
    }
    let shown = restore::lines(seen.setup, &opened, opened.row);
    let wanted = restore_table::lines(seen.setup, seen.book, seen.card);
    hold("table", shown == wanted, || format!("shows {shown:?}, table {wanted:?} ({:?})", opened.row))
}

/// The plan is a position that obeys the unit's rule.
fn n6(seen: &Seen<'_>) -> Held {
    let card = seen.card;
    match card.step {
        Step::SetOutput => {
            hold("N6", card.to == seen.plan.output, || format!("OUTPUT {} plan {:?}", card.to, seen.plan))
        }
        Step::SetRate => {
            hold("N6", card.to == seen.plan.rate, || format!("RATE {} plan {:?}", card.to, seen.plan))
        }
        Step::SetMv => hold("N6", card.to == seen.plan.mv, || format!("mV {} plan {:?}", card.to, seen.plan)),
        _ => Ok(()),
    }
}

/// After a spike without a beat only up, a count, or the emergency.
fn n7(seen: &Seen<'_>) -> Held {
    let card = seen.card;
    if !seen.book.loss_open || card.step.stage() != Some(Stage::Capture) {
        return Ok(());
    }
    let last = seen.setup.profile.output_last();
    let said = seen.book.at(Dial::Output).is_none_or(|at| card.to >= at);
    let above = said && (card.doubt.has(Dial::Output) || card.to >= card.stand.output);
    let higher = card.to == last || (above && !seen.book.evidence.fails(card.to));
    let up = card.to != NONE && card.dial == Dial::Output && higher;
    let count = card.step == Step::CaptureCount && (card.to == NONE || up);
    hold("N7", up || count, || format!("{:?} asks {:?} to {}", card.step, card.dial, card.to))
}

/// Outside a search OUTPUT does not stand below both restore and plan, unless it is what is asked.
fn n10(seen: &Seen<'_>) -> Held {
    let card = seen.card;
    let over = matches!(
        card.step,
        Step::SetRate
            | Step::SetMv
            | Step::Stays
            | Step::Differs
            | Step::Confirm
            | Step::Guarded
            | Step::Done
            | Step::MarginAsk
            | Step::OwnBack
            | Step::SetOutput
            | Step::CaptureOut
    );
    let low = seen.range(Dial::Output).0;
    let unread_for_a_reason = card.step == Step::Done && card.from == Step::Reason;
    let below = !unread_for_a_reason && low < seen.restore.output && low < seen.plan.output;
    let raised = seen.asks(Dial::Output).is_some_and(|to| to >= seen.restore.output.min(seen.plan.output));
    hold("N10", !over || !below || raised, || {
        format!("{:?} with output at {low}, restore {:?}, plan {:?}", card.step, seen.restore, seen.plan)
    })
}

/// Restore leads to nothing that this check has shown unsafe.
fn n11(seen: &Seen<'_>) -> Held {
    if !seen.touches_a_dial() {
        return Ok(());
    }
    let to = restore::target(seen.setup, seen.card);
    let evidence = &seen.book.evidence;
    let maximum = to.output == seen.setup.profile.output_last();
    hold("N11", maximum || !evidence.fails(to.output), || format!("output {to:?} {evidence:?}"))?;
    let lowest = to.mv <= oracle::lowest_number(seen.setup);
    let emergency = seen.book.asynchronous == Blindness::Emergency;
    hold("N11", lowest || emergency || !evidence.blind(to.mv), || format!("number {to:?} {evidence:?}"))?;
    let meant = seen.book.asynchronous != Blindness::No
        || (seen.book.found.is_some_and(|found| found.mv == ASYNCHRONOUS) && seen.book.fallback.is_none());
    hold("N11", to.mv != ASYNCHRONOUS || meant, || "asynchronous without an order".into())
}

/// The rate is not lowered while asynchronous and not raised in sensing.
fn n12(seen: &Seen<'_>) -> Held {
    if seen.card.step == Step::Restore {
        let lines = restore::lines(seen.setup, seen.card, seen.card.row);
        return n12_list(seen, &lines);
    }
    let Some(to) = seen.asks(Dial::Rate) else { return Ok(()) };
    let (low, high) = seen.stood(Dial::Rate);
    let blind = may_be_asynchronous(seen, seen.range(Dial::Mv).1);
    hold("N12", !blind || to >= highest_rate(seen, high), || {
        format!("rate down to {to} while asynchronous")
    })?;
    let sensing = seen.card.step.stage() == Some(Stage::Sensing);
    hold("N12", !sensing || to <= low, || format!("rate up to {to} in sensing"))
}

fn may_be_asynchronous(seen: &Seen<'_>, number: u8) -> bool {
    let doubtful = number == NONE && seen.book.maybe_asynchronous;
    number == ASYNCHRONOUS || (doubtful && seen.setup.has_asynchronous())
}

/// A rate in doubt counts as the one to go back to: that is where it was asynchronous before.
fn highest_rate(seen: &Seen<'_>, high: u8) -> u8 {
    if high == NONE { seen.restore.rate } else { high }
}

fn n12_list(seen: &Seen<'_>, lines: &[Line]) -> Held {
    let mut number = seen.range(Dial::Mv).1;
    for line in lines {
        let (_, high) = seen.range(Dial::Rate);
        let down = line.dial == Dial::Rate && line.to < highest_rate(seen, high);
        hold("N12", !(down && may_be_asynchronous(seen, number)), || {
            format!("{lines:?} lowers RATE asynchronous")
        })?;
        if line.dial == Dial::Mv {
            number = line.to;
        }
    }
    Ok(())
}

/// A refusal or skip has said where each dial stays before the result.
fn n13(seen: &Seen<'_>) -> Held {
    let refused = seen.card.why_sensing != Why::None || seen.card.why_capture != Why::None;
    let result = seen.card.step == Step::Done;
    let unread = seen.card.from == Step::Reason;
    hold("N13", !(refused && result) || seen.book.said == 7 || unread, || {
        format!("said {:03b}", seen.book.said)
    })
}

/// What was read, or said of a dial, is not undone on the word of an earlier reading: outside the searches no card,
/// no list and no reading that differs asks OUTPUT down, RATE anywhere or mV up, unless this check has shown that safe.
fn reading(seen: &Seen<'_>) -> Held {
    let card = seen.card;
    let lines = match card.step {
        Step::Restore => restore::lines(seen.setup, card, card.row),
        Step::Differs => check::set::differences(seen.setup, card).put_right,
        Step::SenseMinimum | Step::CaptureDown | Step::MarginOne | Step::MarginHalf => return Ok(()),
        _ if card.step.is_side() || !card.asks(Dial::Output) => return Ok(()),
        _ => vec![Line { dial: Dial::Output, to: card.to }],
    };
    lines.iter().try_for_each(|line| {
        let known = seen.book.at(line.dial).filter(|at| *at != line.to);
        let blind = card.row == Row::Blind && line.dial == Dial::Rate;
        let may = known.is_none_or(|at| {
            blind || restore_table::may_be_asked_back(seen.setup, seen.book, card, *line, at)
        });
        hold("reading", may, || format!("{:?} asks {line:?} from {known:?}: {:?}", card.step, seen.book))
    })
}

/// Capture is not tested faster than the unit allows.
fn test_rate(seen: &Seen<'_>) -> Held {
    let asked = seen.asks(Dial::Rate).filter(|_| seen.card.step == Step::CaptureRate);
    let most = seen.setup.rules.highest_test_rate;
    let allowed = asked.is_none_or(|to| seen.setup.profile.rate_at(to) <= most);
    hold("test-rate", allowed, || format!("RATE to {asked:?} to test capture"))
}

/// Every card that touches a dial takes NO BEATS.
fn n15(seen: &Seen<'_>) -> Held {
    let open = offer::is_open(seen.setup, seen.card, Answer::NoBeats);
    hold("N15", !seen.touches_a_dial() || open, || format!("{:?} without NO BEATS", seen.card.step))
}

/// What is offered acts: only NO BEATS on its own card, Stop on its own list, and a slip on the reading that it
/// leads to where there is nothing to take back, are there already.
pub fn acts(seen: &Seen<'_>, answer: Answer, only: Only) -> Held {
    let already = matches!(
        (seen.card.step, answer),
        (Step::NoBeats, Answer::NoBeats) | (Step::ReadAfter, Answer::Slip)
    ) || (answer == Answer::Stop && under(seen.card) == Step::Restore);
    let by_itself = matches!(answer, Answer::Time(_) | Answer::Woke(_));
    let held = hold("acts", already || by_itself, || {
        format!("{:?} takes {answer:?} and changes nothing", seen.card.step)
    });
    if counts(&held, only) { held } else { Ok(()) }
}

/// A result that is announced is borne out by the answers.
fn n6_results(from: &Facts, opened: &Facts, book: &Ledger) -> Held {
    let measured = matches!(opened.capture, Found::Exact | Found::AtMost | Found::Bracket);
    let evidence = &book.evidence;
    if measured && (opened.capture, opened.capture_at) != (from.capture, from.capture_at) {
        let borne = evidence.good.is_some_and(|good| opened.capture_at >= good);
        hold("N6", borne, || format!("capture at {} was not shown: {evidence:?}", opened.capture_at))?;
    }
    let sensed = matches!(opened.sensing, Found::Exact | Found::AtLeast | Found::SeenWhereItStood);
    if sensed && (opened.sensing, opened.sensing_at) != (from.sensing, from.sensing_at) {
        hold("N6", evidence.sees(opened.sensing_at), || {
            format!("number {} was not shown to see: {evidence:?}", opened.sensing_at)
        })?;
    }
    Ok(())
}

/// Everything that is to hold of one answer; the first breach.
pub fn on_answer(from: &Seen<'_>, answer: Answer, opened: &Facts, book: &Ledger, only: Only) -> Held {
    let held = [
        in_its_time(from, answer),
        n2_no_beats(answer, opened),
        n6_results(from.card, opened, book),
        n5(from, opened, book),
    ];
    held.into_iter().find(|held| counts(held, only)).unwrap_or(Ok(()))
}

fn in_its_time(from: &Seen<'_>, answer: Answer) -> Held {
    let offer = offer::offer(from.setup, from.card);
    let good = [offer.good, offer.also_good].contains(&Some(answer));
    let waited = from.book.watched || from.card.phase == Phase::Open && from.card.to == NONE;
    hold("watch", !good || waited, || format!("{answer:?} before its time"))
}

fn n2_no_beats(answer: Answer, opened: &Facts) -> Held {
    let said = matches!(answer, Answer::NoBeats | Answer::NoPulse);
    let first = opened.step == Step::Emergency
        || (opened.step == Step::NoBeats && opened.dial == Dial::Output && opened.to != NONE);
    hold("N2", !said || first, || format!("no beats opens {:?}", opened.step))
}

fn n5(from: &Seen<'_>, opened: &Facts, book: &Ledger) -> Held {
    let ends = matches!(opened.step, Step::Done | Step::Ended) && from.card.step != Step::Done;
    hold("N5", !ends || from.book.found.is_none() || !book.owed, || "ended without a reading".into())
}
