//! Folding events into the state. May not fail, computes nothing clinical.

mod beds;
mod checks;
mod handed;
mod leaving;
mod practice;
mod swaps;
mod transports;
mod wires;

use crate::event::{Event, What};
use crate::moment::Moment;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::taught;

pub fn apply(mut state: State, event: &Event) -> State {
    apply_to(&mut state, event);
    state
}

/// As [`apply`], to a state that somebody goes on holding.
pub fn apply_to(state: &mut State, event: &Event) {
    let at = event.at;
    // What is taken out while the app is closed is no sign of its life: the gap by which a check goes on stays long.
    if !matches!(event.what, What::TakenOut(_)) {
        state.last = Some(at);
    }
    happen(state, &event.what, at);
    if opens_card(&event.what) {
        state.card = state.card.wrapping_add(1);
        state.card_at = Some(at);
        state.good_at = None;
    }
    if good_opened(&event.what) {
        state.good_at = Some(at);
    }
}

fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::LibraryAdopted { rules, generators, .. } => {
            state.rules = (**rules).clone();
            state.generators.clone_from(generators);
        }
        What::Offered(offered) => state.offered = Some(offered.clone()),
        What::OfferPutAside => state.offered = None,
        What::RulesApproved { rules, let_in } => {
            state.rules = (**rules).clone();
            state.rules_let_in = Some(let_in.clone());
            state.offered = None;
        }
        What::GeneratorApproved { profile, let_in } => {
            state.generators.push((**profile).clone());
            state.generators_let_in.insert(profile.id.clone(), let_in.clone());
            state.offered = None;
        }
        What::Welcomed => state.welcomed = true,
        What::LightSet(light) => state.look.light = *light,
        What::TextSet(percent) => state.look.text_percent = *percent,
        What::HandSet(hand) => state.look.hand = *hand,
        What::StillSet(still) => state.look.still = *still,
        What::LanguageSet(language) => state.language = *language,
        What::Went(screen) => went(state, *screen),
        What::Taught(taught) => taught::happen(&mut state.teaching, taught, at),
        What::BedAdded { .. }
        | What::PatientArrived { .. }
        | What::BedEmptied { .. }
        | What::BedRemoved { .. }
        | What::WireAdded { .. }
        | What::WireRemoved { .. } => beds::happen(state, what, at),
        What::WirePlugged { .. }
        | What::MadeDue { .. }
        | What::OwedAskedAgain { .. }
        | What::ReadingAskedAgain { .. }
        | What::OwedRead { .. } => wires::happen(state, what, at),
        What::CheckOpened { .. }
        | What::Answered(_)
        | What::CheckEnded { .. }
        | What::CheckLeft { .. }
        | What::AskedAgain { .. } => checks::happen(state, what, at),
        What::PracticeBegan { .. }
        | What::Practised(_)
        | What::DialTaken(_)
        | What::Befell { .. }
        | What::PracticePaused(_)
        | What::PracticeWentOn { .. }
        | What::PracticeEnded { .. }
        | What::PracticeJudged { .. }
        | What::PracticeNotJudged { .. } => practice::happen(state, what, at),
        What::KeyWanted
        | What::KeyKnown(_)
        | What::KeyLost(_)
        | What::CodeMade { .. }
        | What::LoadBegun { .. }
        | What::LoadEnded { .. }
        | What::HandoverTaken { .. }
        | What::DialsCompared { .. }
        | What::TabletNamed { .. }
        | What::TabletForgotten { .. } => handed::happen(state, what, at),
        What::WritingAsked(_)
        | What::Wrote { .. }
        | What::TakenOut(_)
        | What::BackupRead(_)
        | What::RestoreAsked
        | What::Restored(_)
        | What::EraseAsked(_)
        | What::Folded(_)
        | What::Erased(_) => leaving::happen(state, what, at),
        What::SwapOpened { .. } | What::SwapAnswered(_) | What::SwapEnded { .. } => {
            swaps::happen(state, what, at);
        }
        What::TransportOpened { .. } | What::TransportAnswered(_) | What::TransportEnded { .. } => {
            transports::happen(state, what, at);
        }
        What::ClockJumped { by_ms } => clock_jumped(state, *by_ms, at),
        What::Started => {}
    }
}

/// The times that an open check has noted were of the clock before.
fn clock_jumped(state: &mut State, by_ms: i64, at: Moment) {
    let wires = state.beds.iter_mut().flat_map(|bed| &mut bed.wires);
    for check in wires.filter_map(|wire| wire.check.as_mut()) {
        check.clock_jump_ms = check.clock_jump_ms.saturating_add(by_ms);
        check.clock_jumped = Some(at);
    }
}

/// A code is made anew whenever it is opened, and not between its two faces. Leaving while a code is read ends
/// the reading.
fn went(state: &mut State, screen: Screen) {
    let is_code = |screen| matches!(screen, Screen::Code { .. } | Screen::CodeCopy { .. });
    state.code_wanted = is_code(screen) && (state.code_wanted || !is_code(state.screen));
    if state.loading.as_ref().is_some_and(|loading| loading.outcome.is_none()) && screen != Screen::Reading {
        state.loading = None;
    }
    taught::went(&mut state.teaching, screen);
    leaving::looked_away(state, screen);
    state.screen = screen;
}

fn good_opened(what: &What) -> bool {
    matches!(what, What::Answered(answered) if answered.good_opened)
        || matches!(what, What::SwapAnswered(answered) if answered.good_opened)
}

fn opens_card(what: &What) -> bool {
    if let What::SwapAnswered(answered) = what {
        return answered.new_card;
    }
    if let What::TransportAnswered(answered) = what {
        return answered.new_card;
    }
    if let What::Answered(answered) = what {
        return answered.new_card;
    }
    // What a worker brings, or the session does by itself, comes in front of whatever card stands.
    !matches!(
        what,
        What::ClockJumped { .. }
            | What::OwedAskedAgain { .. }
            | What::Practised(_)
            | What::DialTaken(_)
            | What::Befell { .. }
            | What::Taught(_)
            | What::KeyWanted
            | What::KeyKnown(_)
            | What::KeyLost(_)
            | What::CodeMade { .. }
            | What::Wrote { .. }
            | What::TakenOut(_)
            | What::Folded(_)
            | What::Erased(_)
    )
}
