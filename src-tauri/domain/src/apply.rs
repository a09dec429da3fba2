//! Folding events into the state. May not fail, computes nothing clinical.

use crate::event::{Answered, Event, What};
use crate::moment::Moment;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Names, OpenCheck, Wire};
use crate::state::screen::Screen;

pub fn apply(mut state: State, event: &Event) -> State {
    let at = event.at;
    state.last = Some(at);
    match &event.what {
        What::LibraryAdopted { rules, generators, .. } => {
            state.rules = (**rules).clone();
            state.generators.clone_from(generators);
        }
        What::Welcomed => state.welcomed = true,
        What::LightSet(light) => state.look.light = *light,
        What::TextSet(percent) => state.look.text_percent = *percent,
        What::HandSet(hand) => state.look.hand = *hand,
        What::StillSet(still) => state.look.still = *still,
        What::LanguageSet(language) => state.language = *language,
        What::Went(screen) => state.screen = *screen,
        What::BedAdded { bed, label, patient } => {
            state.next_bed = bed + 1;
            state.beds.push(Bed {
                id: *bed,
                label: label.clone(),
                patient: *patient,
                patient_since: at,
                wires: Vec::new(),
                next_wire: 1,
            });
        }
        What::PatientArrived { bed, patient } => {
            if let Some(found) = state.beds.iter_mut().find(|b| b.id == *bed) {
                found.patient = *patient;
                found.patient_since = at;
                found.wires.clear();
                found.next_wire = 1;
            }
        }
        What::WireAdded { bed, wire, chamber, kind, polarity, generator } => {
            if let Some(found) = state.beds.iter_mut().find(|b| b.id == *bed) {
                found.next_wire = wire + 1;
                found.wires.push(Wire {
                    id: *wire,
                    chamber: *chamber,
                    kind: *kind,
                    polarity: *polarity,
                    generator: generator.clone(),
                    added: at,
                    check: None,
                    records: Vec::new(),
                    owed: None,
                    due_now: None,
                });
            }
        }
        What::CheckOpened { bed, wire, check, facts } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.check = Some(OpenCheck {
                    id: *check,
                    opened: at,
                    facts: *facts,
                    before: None,
                    times: Default::default(),
                    last: at,
                    names: Names::default(),
                    answers: 0,
                    away_ms: 0,
                    asked_again: None,
                });
            }
            state.screen = Screen::Check { bed: *bed, wire: *wire };
        }
        What::Answered(answered) => answer(&mut state, answered, at),
        What::CheckEnded { bed, wire, record } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.check = None;
                found.due_now = None;
                found.owed = (!record.read).then_some(at);
                found.records.push((**record).clone());
            }
            state.screen = Screen::Result { bed: *bed, wire: *wire, back: 0 };
        }
        What::CheckLeft { bed, wire, .. } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.check = None;
                if found.due_now.is_none() && found.records.is_empty() {
                    found.due_now = Some(DueNow::NotFinished);
                }
            }
            state.screen = Screen::Bed { bed: *bed };
        }
        What::AskedAgain { bed, wire, dials } => {
            if let Some(check) = state.wire_mut(*bed, *wire).and_then(|w| w.check.as_mut()) {
                check.asked_again = Some(*dials);
            }
        }
        What::ClockJumped { .. } | What::Started => {}
    }
    if opens_card(&event.what) {
        state.card = state.card.wrapping_add(1);
        state.card_at = Some(at);
        state.good_at = None;
    }
    if matches!(&event.what, What::Answered(answered) if answered.good_opened) {
        state.good_at = Some(at);
    }
    state
}

fn opens_card(what: &What) -> bool {
    if let What::Answered(answered) = what {
        return answered.new_card;
    }
    !matches!(what, What::ClockJumped { .. } | What::AskedAgain { .. })
}

fn answer(state: &mut State, answered: &Answered, at: Moment) {
    if let Some(check) = state.wire_mut(answered.bed, answered.wire).and_then(|w| w.check.as_mut()) {
        check.facts = answered.facts;
        check.before = answered.before;
        check.times = answered.times;
        check.names = answered.names.clone();
        if !matches!(answered.answer, crate::check::answer::Answer::Woke(_)) {
            check.last = at;
        }
        check.answers += 1;
        check.away_ms = answered.away_ms;
    }
}
