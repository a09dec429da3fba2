//! What a request leads to. May say no; changes nothing itself.

#![allow(clippy::wildcard_enum_match_arm, reason = "few commands carry an answer to a card")]

mod beds;
mod check;
mod handed;
mod leaving;
mod library;
mod practice;
mod session;
mod swaps;
mod teaching;
mod transports;
mod typed;
mod wards;

pub use beds::LABEL_MOST;
pub use check::{NAME_MOST, far_from_last, last_known, setup, with_setup};
pub use handed::{arrived, may_compare};
pub use leaving::erasable_ms;
pub use swaps::with_swap;
pub use teaching::{LEARNER_MOST, REASON_MOST, can_revoke, pin_wait};
pub use typed::ASYNCHRONOUS_VALUE;

use crate::check::answer::Answer;
use crate::command::Command;
use crate::contract::Sent;
use crate::event::{Event, What};
use crate::moment::Moment;
use crate::refusal::Refusal;
use crate::state::State;
use crate::state::screen::Screen;
use crate::swap::answer as swap;
use crate::transport::answer as transport;

/// The second half of a double tap lands within this time of a card's first view.
pub const DOUBLE_TAP_MS: i64 = 300;
/// A wall clock that moves against the boot clock by more than this is recorded.
const CLOCK_JUMP_MS: i64 = 2 * 60 * 1000;

/// The events a request leads to, in order; or why it is not taken.
pub fn decide(state: &State, sent: &Sent, now: Moment) -> Result<Vec<Event>, Refusal> {
    let mut whats = clock_jump(state, now);
    if let Command::AtStrip { at_us, asked } = &sent.command {
        let asked = Sent { command: (**asked).clone(), ..sent.clone() };
        refuse_unless_fresh(state, &asked, now)?;
        whats.extend(practice::at_strip(state, *at_us, &asked, now)?);
    } else {
        refuse_unless_fresh(state, sent, now)?;
        whats.extend(command(state, sent, now)?);
    }
    Ok(whats.into_iter().map(|what| Event { at: now, what }).collect())
}

/// What the session asks for has no card. An exercise is staged on the card that asked for it.
fn refuse_unless_fresh(state: &State, sent: &Sent, now: Moment) -> Result<(), Refusal> {
    let staged = matches!(sent.command, Command::Staged(_));
    if sent.command.is_by_session() && !staged { Ok(()) } else { refuse_stale(state, sent, now) }
}

/// N9: a tap on an older card never changes the newer one. NO BEATS alone means the same on every card of
/// the open check, stands in the same place, and is taken from an older one too: a second tap adds nothing.
fn refuse_stale(state: &State, sent: &Sent, now: Moment) -> Result<(), Refusal> {
    let no_beats = match &sent.command {
        Command::Answer(Answer::NoBeats) => state.check_on_screen().is_some(),
        Command::Swap(swap::Answer::NoBeats) => state.swap_on_screen().is_some(),
        Command::Transport(transport::Answer::NoBeats) => state.transport_on_screen().is_some(),
        _ => false,
    };
    if sent.card != state.card && !no_beats {
        return Err(Refusal::Stale);
    }
    if sent.stood_ms.is_some_and(|stood| i64::from(stood) < DOUBLE_TAP_MS) || is_young(state, sent, now) {
        return Err(Refusal::Stale);
    }
    Ok(())
}

/// By the session's own clock. The page's count is the truer one: a slow disk ages a tap that waits in the
/// queue. NO BEATS, Stop and Something is wrong mean the same on the card before, and are not held up.
fn is_young(state: &State, sent: &Sent, now: Moment) -> bool {
    let urgent = matches!(
        sent.command,
        Command::Answer(Answer::NoBeats | Answer::Stop | Answer::Wrong)
            | Command::Swap(swap::Answer::NoBeats | swap::Answer::Stop | swap::Answer::Wrong)
            | Command::Transport(
                transport::Answer::NoBeats | transport::Answer::Stop | transport::Answer::Wrong
            )
    );
    let young = |since: Option<Moment>| {
        since.and_then(|shown| now.since(shown)).is_some_and(|age| (0..DOUBLE_TAP_MS).contains(&age))
    };
    !urgent && (young(state.card_at) || (is_good(state, &sent.command) && young(state.good_at)))
}

fn is_good(state: &State, command: &Command) -> bool {
    match command {
        Command::Answer(answer) => check::is_good_on_screen(state, *answer),
        Command::Swap(answer) => swaps::is_good_on_screen(state, *answer),
        _ => false,
    }
}

fn clock_jump(state: &State, now: Moment) -> Vec<What> {
    let Some(last) = state.last else { return Vec::new() };
    let Some(elapsed) = now.since(last) else { return Vec::new() };
    let by_ms = (now.wall_ms - last.wall_ms) - elapsed;
    if by_ms.abs() > CLOCK_JUMP_MS { vec![What::ClockJumped { by_ms }] } else { Vec::new() }
}

fn command(state: &State, sent: &Sent, now: Moment) -> Result<Vec<What>, Refusal> {
    match &sent.command {
        Command::Started { alive } => Ok(session::started(state, *alive, now)),
        Command::Woke { alive } => Ok(session::woke(state, *alive, now)),
        Command::TimePassed => Ok(session::time_passed(state, now)),
        Command::Welcomed => Ok(vec![What::Welcomed, What::Went(Screen::Beds)]),
        Command::SetLight(light) => Ok(vec![What::LightSet(*light)]),
        Command::SetText(percent) if matches!(percent, 100 | 150 | 200) => Ok(vec![What::TextSet(*percent)]),
        Command::SetText(_) => Err(Refusal::NotOpen),
        Command::SetHand(hand) => Ok(vec![What::HandSet(*hand)]),
        Command::SetStill(still) => Ok(vec![What::StillSet(*still)]),
        Command::SetLanguage(language) => Ok(vec![What::LanguageSet(*language)]),
        Command::Go(screen) => beds::go(state, *screen),
        Command::AddBed => beds::add_bed(state, &sent.values, now),
        Command::NewPatient { bed } => beds::new_patient(state, *bed, now),
        Command::AddWire { bed } => beds::add_wire(state, *bed, &sent.values),
        Command::EmptyBed { bed } => wards::empty_bed(state, *bed, now),
        Command::RemoveBed { bed } => wards::remove_bed(state, *bed),
        Command::RemoveWire { bed } => wards::remove_wire(state, *bed, &sent.values),
        Command::PlugInto { bed, wire } => wards::plug_into(state, *bed, *wire, &sent.values),
        Command::Happened { bed, why } => wards::happened(state, *bed, *why),
        Command::ReadOwed { bed, wire } => wards::read_owed(state, *bed, *wire, &sent.values, now),
        Command::BeginSwap { bed, wire, work } => swaps::begin(state, *bed, *wire, *work, now),
        Command::Swap(answer) => swaps::answer(state, *answer, now),
        Command::SwapNamed(answer) => swaps::named(state, *answer, &sent.values, now),
        Command::SwapTypedDials => swaps::typed_dials(state, &sent.values, now),
        Command::SwapPicked => swaps::picked(state, &sent.values, now),
        Command::BeginTransport { bed } => transports::begin(state, *bed, now),
        Command::Transport(answer) => transports::answer(state, *answer, now),
        Command::TransportGoing => transports::going(state, &sent.values, now),
        Command::TransportTypedDials => transports::typed_dials(state, &sent.values, now),
        Command::TransportSigned => transports::signed(state, &sent.values, now),
        Command::HandedIn(handed) => library::handed_in(state, handed),
        Command::Wrote { name, written } => leaving::wrote(state, name, written),
        Command::ReadBackup(read) => leaving::read_backup(state, read),
        Command::Restored(done) => Ok(leaving::restored(done)),
        Command::Export { bed, wire } => leaving::export(state, *bed, *wire, now),
        Command::BackUp => leaving::back_up(state, now),
        Command::Restore => leaving::restore(state),
        Command::Erase { at } => leaving::erase(state, *at, &sent.values, now),
        Command::ApproveOffered => library::approve(state, &sent.values, now),
        Command::PutAside => library::put_aside(state),
        Command::Teach(ask) => teaching::asked(state, ask, &sent.values, now),
        Command::KeyFound(tablet) => Ok(handed::key_found(state, tablet)),
        Command::KeyNotFound(lost) => Ok(handed::key_not_found(state, *lost)),
        Command::MakeKey => handed::make_key(state),
        Command::CodeMade { bed, wire, code } => handed::code_made(state, *bed, *wire, code),
        Command::LoadTyped { bed } => handed::load_typed(state, *bed, &sent.values),
        Command::PictureHandedIn { bytes } => handed::picture(state, *bytes),
        Command::CodeSeen(text) => handed::seen(state, text),
        Command::CodeRead { load, outcome } => handed::read(state, *load, outcome),
        Command::TakeIn { at } => handed::take_in(state, *at, &sent.values, now),
        Command::CompareDials { bed, wire } => handed::compare_dials(state, *bed, *wire, &sent.values, now),
        Command::NameTablet { at } => handed::name_tablet(state, *at, &sent.values),
        Command::ForgetTablet { at } => handed::forget_tablet(state, *at),
        Command::Begin { bed, wire } => check::begin(state, *bed, *wire, now),
        Command::Resume { bed, wire } => beds::go(state, Screen::Check { bed: *bed, wire: *wire }),
        Command::Answer(answer) => check::answer(state, *answer, &sent.values, now),
        Command::Named(answer) => check::named(state, *answer, &sent.values, now),
        Command::TypedDials => check::typed_dials(state, &sent.values, now),
        Command::TypedOwnRate => check::typed_own_rate(state, &sent.values, now),
        Command::TypedOneDial => check::typed_one_dial(state, &sent.values, now),
        Command::Staged(staged) => practice::begin(state, staged, now),
        Command::Judged { run, judgement } => practice::judged(state, *run, judgement),
        Command::NotJudged { run } => practice::not_judged(state, *run),
        // Without a simulated patient at hand they mean nothing; an exercise is begun by what the session stages.
        Command::Practise { .. }
        | Command::AtStrip { .. }
        | Command::TurnDial { .. }
        | Command::TakeDial(_)
        | Command::PausePractice
        | Command::GoOn
        | Command::SaidFound
        | Command::SaidDials
        | Command::EndPractice
        | Command::BreakOff
        | Command::StoodStill { .. }
        | Command::Befell { .. } => Err(Refusal::NotOpen),
    }
}
