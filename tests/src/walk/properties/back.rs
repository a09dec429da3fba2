//! The ways back: N4, N11, N15, the restore table, and what a reading undoes.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, Row};
use domain::check::restore::{self, Line};
use domain::check::step::Step;
use domain::check::{self, offer};

use super::{Held, Seen, hold};
use crate::walk::ledger::{Blindness, under};
use crate::walk::{oracle, table as restore_table};

/// One action opens restore; from the emergency, a reading.
pub(super) fn n4(seen: &Seen<'_>) -> Held {
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
pub(super) fn table(seen: &Seen<'_>) -> Held {
    let opened = seen.stopped.filter(|opened| opened.step == Step::Restore && seen.touches_a_dial());
    let Some(opened) = opened else { return Ok(()) };
    if under(seen.card) == Step::Restore || seen.card.from == Step::Restore {
        return Ok(());
    }
    let shown = restore::lines(seen.setup, &opened, opened.row);
    let wanted = restore_table::lines(seen.setup, seen.book, seen.card);
    hold("table", shown == wanted, || format!("shows {shown:?}, table {wanted:?} ({:?})", opened.row))
}

/// Restore leads to nothing that this check has shown unsafe.
pub(super) fn n11(seen: &Seen<'_>) -> Held {
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

/// What was read, or said of a dial, is not undone on the word of an earlier reading: nothing asks OUTPUT down, RATE
/// back or mV up, unless this check has shown that safe (`may_be_asked_back`). Looked at are OUTPUT on every card
/// outside the searches, and all three dials on lists and at a reading that differs; RATE and mV on cards of their
/// own are not.
pub(super) fn reading(seen: &Seen<'_>) -> Held {
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
        // Spikes fall through own beats: RATE goes above these by what is seen now, whatever was read.
        let blind = card.row == Row::Blind && line.dial == Dial::Rate;
        let may = known.is_none_or(|at| {
            blind || restore_table::may_be_asked_back(seen.setup, seen.book, card, *line, at)
        });
        hold("reading", may, || format!("{:?} asks {line:?} from {known:?}: {:?}", card.step, seen.book))
    })
}

/// Every card that touches a dial takes NO BEATS.
pub(super) fn n15(seen: &Seen<'_>) -> Held {
    let open = offer::is_open(seen.setup, seen.card, Answer::NoBeats);
    hold("N15", !seen.touches_a_dial() || open, || format!("{:?} without NO BEATS", seen.card.step))
}
