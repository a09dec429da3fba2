//! What must hold of every card, every answer and every end.

use domain::command::Command;
use domain::contract::Shape;
use domain::say::Say;
use domain::state::bed::DueNow;
use domain::swap::answer::Answer;
use domain::swap::facts::{Facts, Place};
use domain::swap::offer::has_safety;
use domain::swap::step::Step;
use domain::{State, view};

use super::book::{Book, Pins, Said};
use crate::made::{BED, OTHER, WIRE, at, send};

/// What every card shows for safety, and no button on it that does nothing.
pub fn safety(state: &State, card: &Facts) {
    let shown = view(state, at(0));
    let no_beats = Command::Swap(Answer::NoBeats);
    let as_answer = shown.answers.iter().any(|act| act.command == no_beats);
    let touches = !matches!(card.step, Step::Look | Step::UseBox | Step::Blocked);
    assert_eq!(shown.safety.is_some(), touches, "NO BEATS and Something is wrong: {:?}", card.step);
    assert_eq!(has_safety(card), touches);
    assert!(card.step != Step::Look || as_answer, "NO BEATS at the first look");
    let lesser = shown.safety.iter().flat_map(|safety| [&safety.wrong, &safety.slip]).flatten();
    if let (Step::Guarded, Place::New, Shape::List(list)) = (card.step, card.place, &shown.shape) {
        let off = list.items.iter().any(|item| item.text == Say::SwapOldOff);
        assert_eq!(off, !card.shared, "the old box goes off, but not under another wire");
    }
    for act in shown.answers.iter().chain(lesser) {
        let typed = act.with_fields || send(state, act.command.clone(), &[], at(0)).is_ok();
        assert!(typed, "a button that does nothing: {:?} on {card:?}", act.key);
    }
}

/// The last card was a reading, or the pins were said to be in a running box.
pub fn ended_safe(card: &Facts) -> bool {
    !card.is_off()
}

/// Of a wire in the box that was opened, or turned up in trouble, the dials are owed and a check is due; of no other.
pub fn the_other_wire_is_owed(ended: &State, book: Book) {
    let Some(other) = ended.wire(BED, OTHER) else { return };
    let record = ended.wire(BED, WIRE).unwrap().swaps.last().unwrap();
    let touched = book.shared && (book.opened || book.trouble);
    assert_eq!(other.owed.is_some(), touched, "{record:?}\n{book:?}");
    assert_eq!(other.due_now, other.owed.map(|_| DueNow::SharedBox), "{record:?}");
}

/// What must hold of one answer and the card that came.
pub fn judge(card: &Facts, book: Book, said: Said, came: &Facts, after: Book, tops: (u8, u8)) {
    let what = format!("{said:?} on {:?} opens {:?}\n{card:?}\n{book:?}\n{after:?}", card.step, came.step);
    opens_nothing_without_standby(card, (book, after), came, tops, &what);
    first_safe_act(card, book, said, came, tops, &what);
    if came.step == Step::Move && card.step != Step::Move {
        let only_back = matches!(card.step, Step::Wrong | Step::AwayLook);
        assert!(after.new_read || only_back, "the new box runs, is set and was read: {what}");
        assert!(book.old_runs || card.is_off(), "the old box runs: {what}");
    }
    shared_box(card, (book, after), said, came, &what);
    if matches!(said, Said::Slept { .. }) {
        assert_eq!(came.step, Step::AwayLook, "the patient first: {what}");
    }
    if after.pins_unknown {
        assert!(waits_for_the_pins(came.step), "goes on with pins that nobody has traced: {what}");
    }
    if came.step == Step::Guarded {
        assert!(!after.is_off(), "the old box is switched off beside a box that runs: {what}");
    }
    if matches!(came.step, Step::NewRate | Step::NewOutput | Step::NewMv) {
        assert!(after.old_read, "N1: a dial is set before the old ones were read: {what}");
    }
    if matches!(card.step, Step::NewRate | Step::NewOutput | Step::NewMv | Step::ReadNew | Step::Sound) {
        let elsewhere = !matches!(book.pins, Pins::Old);
        assert!(!elsewhere, "the new box is set while the pins are in the old one: {what}");
    }
}

/// A box in which another wire is. N14: never are both without a running box but over own beats without a spike of
/// either, with standby pacing; the old box is not switched off under the other.
fn shared_box(card: &Facts, (book, after): (Book, Book), said: Said, came: &Facts, what: &str) {
    assert_eq!(came.shared, after.shared, "which wires are in the box: {what}");
    if !after.shared {
        return;
    }
    let goes_back = matches!(card.step, Step::Wrong | Step::AwayLook | Step::BatteryOut);
    if came.step == Step::BatteryOut && !goes_back {
        assert!(after.own && after.is_covered(), "N14: both wires stop under a paced patient: {what}");
    }
    if (card.step, said) == (Step::Guarded, Said::Tapped(Answer::AllTrue)) {
        assert_eq!(after.old_runs, book.old_runs, "the old box is switched off under the other wire: {what}");
        assert_eq!(came.old_on, card.old_on, "{what}");
    }
}

/// Trouble is met at once, wherever the pins are; all else waits until they were traced.
fn waits_for_the_pins(step: Step) -> bool {
    use Step as S;
    matches!(
        step,
        S::AwayLook
            | S::AwayWhere
            | S::Wrong
            | S::NoBeats
            | S::Maximum
            | S::StandbyNow
            | S::Emergency
            | S::Arrest
            | S::BackToOld
            | S::BatteryBack
            | S::BoxDead
    )
}

/// A card that asks for a connection to be opened: standby pacing covers this patient, or nothing paces there: no
/// box runs, or its maximum has just made no beats.
fn opens_nothing_without_standby(
    card: &Facts,
    (book, after): (Book, Book),
    came: &Facts,
    tops: (u8, u8),
    what: &str,
) {
    let unplugs = match came.step {
        Step::Move | Step::BatteryOut => came.step != card.step,
        // Found in neither box, they are not unplugged any more.
        Step::BackToOld => book.pins == Pins::New && card.step != Step::AwayWhere,
        _ => false,
    };
    let gave_all = book.maximum || card.new.output == tops.1 || card.step == Step::StandbyNow;
    let paces_nothing = book.is_off() || (after.lost && gave_all);
    assert!(!unplugs || after.is_covered() || paces_nothing, "unplugs without standby pacing: {what}");
}

/// The table of first acts, written a second time: by where the pins are and what was already tried.
fn first_safe_act(card: &Facts, book: Book, said: Said, came: &Facts, tops: (u8, u8), what: &str) {
    let is_there_already =
        matches!(card.step, Step::NoBeats | Step::StandbyNow | Step::Emergency | Step::Arrest);
    if said != Said::Tapped(Answer::NoBeats) || is_there_already {
        return;
    }
    let stands = if book.pins == Pins::New { card.new.output } else { card.old.output };
    let at_top = book.maximum || stands == if book.pins == Pins::New { tops.1 } else { tops.0 };
    let wanted = match (book.is_off(), at_top) {
        (false, false) => Step::NoBeats,
        (true, _) | (false, true) => Step::StandbyNow,
    };
    assert_eq!(came.step, wanted, "the first safe act: {what}");
}
