//! What may be asked of a dial: N1, N2, N3, N10, N12, asynchronous, and the test rate.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, NONE, Phase};
use domain::check::restore::{self, Line};
use domain::check::set;
use domain::check::step::{Stage, Step};
use domain::rules::Chamber;

use super::{Held, Seen, hold};
use crate::walk::ledger::{Blindness, index};
use crate::walk::{oracle, table as restore_table};

/// A dial is asked for only when the found settings are known, and restore is in view.
pub(super) fn n1(seen: &Seen<'_>) -> Held {
    let turns = seen.card.to != NONE;
    hold("N1", !turns || seen.book.found.is_some(), || "a dial before the reading".into())?;
    let known = seen.restore.output <= seen.setup.profile.output_last()
        && seen.restore.rate <= seen.setup.profile.rate_last()
        && (seen.restore.mv <= seen.setup.profile.mv_last() || seen.restore.mv == ASYNCHRONOUS);
    hold("N1", !turns || known, || format!("no restore in view: {:?}", seen.restore))
}

/// The number goes above restore and rule only with RATE below own and OUTPUT at minimum, seen harmless.
pub(super) fn n2_number_up(seen: &Seen<'_>) -> Held {
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

/// Of an atrial wire too, unless paced beats were looked at first: it may lie on the ventricle.
fn first_spike_is_foreseen(seen: &Seen<'_>) -> bool {
    let on_the_atrium = seen.setup.chamber == Chamber::Atrium && seen.book.paced_at_first;
    if on_the_atrium {
        return true;
    }
    let (low, high) = seen.range(Dial::Rate);
    let late =
        |own| [low, high].iter().all(|at| oracle::spike_is_off_t_waves(seen.setup.profile.rate_at(*at), own));
    !seen.book.marks_alone && seen.book.own.is_some_and(late)
}

/// OUTPUT is not raised over own beats while the number stands above restore or rule.
pub(super) fn n2_output_up(seen: &Seen<'_>) -> Held {
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
pub(super) fn n3(seen: &Seen<'_>) -> Held {
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

/// Outside a search OUTPUT does not stand below both restore and plan, unless it is what is asked.
pub(super) fn n10(seen: &Seen<'_>) -> Held {
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

/// The rate is not lowered while asynchronous and not raised in sensing.
pub(super) fn n12(seen: &Seen<'_>) -> Held {
    if seen.card.step == Step::Restore {
        let lines = restore::lines(seen.setup, seen.card, seen.card.row);
        return n12_list(seen, &lines);
    }
    if seen.card.step == Step::Differs {
        return n12_list(seen, &set::differences(seen.setup, seen.card).put_right);
    }
    if matches!(seen.card.step, Step::Emergency | Step::NoSpikes) {
        return n12_emergency(seen);
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

/// Over own beats asynchronous is asked for only by an order, or where the number was seen to make pauses.
pub(super) fn asynchronous(seen: &Seen<'_>) -> Held {
    let allowed = matches!(seen.book.asynchronous, Blindness::Ordered | Blindness::Pauses);
    let asked = seen.asks(Dial::Mv) == Some(ASYNCHRONOUS);
    hold("asynchronous", !asked || allowed || !seen.book.own_now, || "asked for over own beats".into())
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

/// These lists ask for asynchronous, then for a RATE: not for one below where it was last said, or asked, to stand.
fn n12_emergency(seen: &Seen<'_>) -> Held {
    let asked = seen.card.emergency_rate;
    let known = seen.book.found.is_some() && asked != NONE;
    let last = seen.book.last[index(Dial::Rate)];
    hold("N12", !known || asked >= last, || format!("asynchronous, then RATE {last} down to {asked}"))
}

/// Capture is not tested faster than the unit allows.
pub(super) fn test_rate(seen: &Seen<'_>) -> Held {
    let asked = seen.asks(Dial::Rate).filter(|_| seen.card.step == Step::CaptureRate);
    let most = seen.setup.rules.highest_test_rate;
    let allowed = asked.is_none_or(|to| seen.setup.profile.rate_at(to) <= most);
    hold("test-rate", allowed, || format!("RATE to {asked:?} to test capture"))
}

pub(super) fn n2_no_beats(answer: Answer, opened: &Facts) -> Held {
    let said = matches!(answer, Answer::NoBeats | Answer::NoPulse);
    let first = opened.step == Step::Emergency
        || (opened.step == Step::NoBeats && opened.dial == Dial::Output && opened.to != NONE);
    hold("N2", !said || first, || format!("no beats opens {:?}", opened.step))
}
