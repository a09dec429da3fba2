//! Cards of a swap that are lists: what must be true, the pins, what differs, the trouble.

use super::Card;
use crate::check::facts::{Dial, Dials};
use crate::contract::{Item, List, Shape};
use crate::profile::{AsynchronousBy, Profile};
use crate::say::{Say, dial_name};
use crate::swap::facts::{Place, Work};
use crate::swap::step::Step;
use crate::swap::{expected, read_on};
use crate::view::figures;

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    use Step as S;
    let battery = card.facts.work == Work::Battery;
    let local = Some(Say::SwapLocalFirst);
    match card.facts.step {
        S::Sound if battery => plain(Say::SwapBatteryTitle, new_battery(), None),
        S::Sound => plain(Say::SwapSoundTitle, new_box(), None),
        S::NewDiffers => plain(Say::DiffersTitle, differs(card, card.facts.new), None),
        S::EndDiffers => {
            let asked = expected(card.facts).unwrap_or(card.facts.read);
            plain(Say::DiffersTitle, differs(card, asked), None)
        }
        S::Ready => plain(Say::SwapReadyTitle, ready(card), None),
        S::Move => ordered(move_title(card), vec![Say::SwapMovePlus, Say::SwapMoveMinus], local),
        S::BatteryOut => ordered(Say::SwapBatteryOutTitle, battery_acts(), local),
        S::BatteryBack => ordered(Say::SwapBatteryBackTitle, battery_acts(), local),
        S::BoxDead => ordered(Say::SwapBoxDeadTitle, box_dead(), local),
        S::Guarded => plain(Say::GuardedTitle, guarded(card), None),
        S::StandbyNow => ordered(Say::SwapStandbyNowTitle, standby_now(card), Some(Say::EmergencyLocal)),
        S::BackToOld => ordered(Say::SwapBackTitle, back(), local),
        S::Arrest => plain(
            Say::ArrestTitle,
            vec![Say::ArrestCpr, Say::ArrestTrace, Say::ArrestOutput],
            Some(Say::EmergencyLocal),
        ),
        _ => ordered(Say::EmergencyTitle, emergency(card), Some(Say::EmergencyLocal)),
    }
}

fn item(text: Say) -> Item<Say> {
    Item { number: None, text, figure: None, unit: None, large: false }
}

fn plain(instruction: Say, lines: Vec<Say>, note: Option<Say>) -> Shape<Say> {
    Shape::List(List { instruction, items: lines.into_iter().map(item).collect(), note })
}

/// Numbered, the first one large; no tap between them.
fn ordered(instruction: Say, lines: Vec<Say>, note: Option<Say>) -> Shape<Say> {
    let numbered = |(text, number)| Item { number: Some(number), large: number == 1, ..item(text) };
    Shape::List(List { instruction, items: lines.into_iter().zip(1_u8..).map(numbered).collect(), note })
}

fn new_box() -> Vec<Say> {
    vec![Say::SwapBoxBattery, Say::SwapBoxWhole, Say::SwapCableFits]
}

fn new_battery() -> Vec<Say> {
    vec![Say::SwapBatteryType, Say::SwapBatteryWay, Say::SwapBatteryManual]
}

fn ready(card: &Card<'_>) -> Vec<Say> {
    let shared = card.facts.shared;
    let (old, own) = match card.facts.work {
        Work::Box if shared => (vec![Say::SwapOtherStays { wire: card.other() }], Say::SwapPinsTraced),
        Work::Box => (vec![Say::SwapOldRuns], Say::SwapPinsTraced),
        Work::Battery if shared => {
            (vec![Say::SwapOtherStops { wire: card.other() }, Say::SwapSecondPerson], Say::SwapBatteryInHand)
        }
        Work::Battery => (vec![Say::SwapSecondPerson], Say::SwapBatteryInHand),
    };
    old.into_iter().chain([Say::SwapStandbyOn, own, Say::SwapPulseInView]).collect()
}

/// Two pairs of pins are in a box that paces two wires.
fn move_title(card: &Card<'_>) -> Say {
    if card.facts.shared { Say::SwapMoveTitleOf { wire: card.this() } } else { Say::SwapMoveTitle }
}

fn battery_acts() -> Vec<Say> {
    vec![Say::SwapBatteryOut, Say::SwapBatteryIn, Say::SwapBoxOn]
}

fn box_dead() -> Vec<Say> {
    vec![Say::SwapStandbyIfNeeded, Say::EmergencyCall, Say::SwapFetchBox]
}

fn back() -> Vec<Say> {
    vec![Say::SwapBackPlus, Say::SwapBackMinus, Say::SwapStandbyIfNeeded]
}

/// The old box stays until the threshold is taken on the new one.
fn guarded(card: &Card<'_>) -> Vec<Say> {
    let old = (card.facts.place == Place::New).then(|| old_box(card));
    let rest = [Say::SwapPadsStay, Say::GuardedAlarms, Say::GuardedDials, Say::GuardedWires];
    old.into_iter().chain(rest).collect()
}

/// Never switched off under another wire.
fn old_box(card: &Card<'_>) -> Say {
    match (card.facts.shared, card.facts.old_on) {
        (false, _) => Say::SwapOldOff,
        (true, true) => Say::SwapOldPacesOther { wire: card.other() },
        (true, false) => Say::SwapOtherInDeadBox { wire: card.other() },
    }
}

fn standby_now(card: &Card<'_>) -> Vec<Say> {
    let keep = card.facts.old_on && card.facts.place != Place::Old;
    let mut lines = vec![Say::SwapStandbyUp, Say::EmergencyCall, Say::EmergencyCpr];
    lines.extend(keep.then_some(Say::SwapOldStaysOn));
    lines
}

fn emergency(card: &Card<'_>) -> Vec<Say> {
    let profile = card.setup.box_of(card.facts);
    let wanted = i32::from(card.setup.rules.emergency_rate);
    let rate = profile.rate_at_or_above(wanted).unwrap_or(profile.rate_last());
    vec![
        Say::EmergencyCall,
        Say::EmergencyCpr,
        Say::SwapStandbyPace,
        Say::EmergencyOutput,
        blind(profile),
        Say::EmergencyRate { figure: figures::text(profile, Dial::Rate, rate) },
        Say::SwapPinsTight,
    ]
}

fn blind(profile: &Profile) -> Say {
    if profile.asynchronous() == AsynchronousBy::None {
        return Say::SwapNumberHighest { figure: figures::text(profile, Dial::Mv, profile.mv_last()) };
    }
    Say::EmergencyAsynchronous
}

fn differs(card: &Card<'_>, asked: Dials) -> Vec<Say> {
    let read = card.facts.read;
    let profile = match card.facts.step {
        Step::NewDiffers => card.setup.new,
        _ => read_on(card.setup, card.facts),
    };
    [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .filter(|dial| read.at(*dial) != asked.at(*dial))
        .map(|dial| Say::DiffersLine {
            dial: dial_name(dial),
            read: Box::new(figures::with_unit(profile, dial, read.at(dial))),
            expected: Box::new(figures::with_unit(profile, dial, asked.at(dial))),
        })
        .collect()
}
