//! The words and the weight of each answer, on the card it is given to.

use super::Card;
use crate::check::facts::Dial;
use crate::command::Command;
use crate::contract::{Act, Tone};
use crate::say::{Say, dial_name};
use crate::swap::answer::Answer;
use crate::swap::facts::Own;
use crate::swap::offer::is_named;
use crate::swap::step::Step;
use crate::view::figures;

/// The button for one answer; `None` for what is typed or comes by itself.
pub fn answer(card: &Card<'_>, answer: Answer) -> Option<Act<Say>> {
    let (key, label, tone) = words(card, answer)?;
    let named = is_named(card.facts, answer);
    let command = if named { Command::SwapNamed(answer) } else { Command::Swap(answer) };
    Some(Act { key: key.into(), label, note: None, tone, command, with_fields: named })
}

fn words(card: &Card<'_>, answer: Answer) -> Option<(&'static str, Say, Tone)> {
    use Tone::{Alarm, Bad, Good, Plain, Strong};
    let step = card.facts.step;
    Some(match answer {
        Answer::NoBeats => ("look-no-beats", Say::NoBeats, Alarm),
        Answer::Yes if step == Step::Shared => ("yes", Say::SwapSharedYes, Strong),
        Answer::No if step == Step::Shared => ("no", Say::SwapSharedNo, Strong),
        Answer::Yes => ("yes", yes(card), Good),
        Answer::No => ("no", no(step), Bad),
        Answer::AllTrue => ("all-true", all_true(step), Good),
        Answer::Stands => ("stands", stands(card), Good),
        Answer::Back => ("back", back(step), if step == Step::NewDiffers { Good } else { Plain }),
        Answer::Close => ("close", Say::SwapClose, Strong),
        Answer::OtherBox => ("other-box", Say::SwapOtherBox, Good),
        Answer::Paced if card.facts.shared => ("paced", Say::SwapSeenASpike, Strong),
        Answer::OnlyOwn if card.facts.shared && step == Step::Look => {
            ("only-own", Say::SwapSeenNoSpike, Strong)
        }
        Answer::Paced => ("paced", Say::SwapSeenPaced, Strong),
        Answer::OnlyOwn => ("only-own", Say::SwapSeenOnlyOwn, Strong),
        Answer::SpikesWithoutBeats => ("spikes-without-beats", spikes(step), Bad),
        Answer::NoSpikesCame => ("no-spikes", Say::NoBeatsNoSpikes, Strong),
        Answer::EverySpikeMadeABeat => ("every-spike", Say::AnswerEverySpike, Good),
        Answer::SpikeWithoutABeat => ("spike-without-beat", Say::AnswerSpikeWithoutBeat, Bad),
        Answer::BeatsAgain => ("beats-again", beats_again(step), Good),
        Answer::StillNoBeats => ("still-no-beats", Say::SwapStillNoBeats, Bad),
        Answer::NoPulse => ("no-pulse", Say::AnswerNoPulse, Alarm),
        Answer::FastWide => ("fast-wide", Say::AnswerFastWide, Bad),
        Answer::ShockGiven => ("shock", Say::AnswerShock, Strong),
        Answer::StandbyLost => ("standby-lost", Say::SwapStandbyLost, Bad),
        Answer::PinsOld => ("pins-old", Say::SwapPinsInOld, Strong),
        Answer::PinsNew => ("pins-new", Say::SwapPinsInNew, Strong),
        Answer::PinsNeither => ("pins-neither", Say::SwapPinsNeither, Bad),
        Answer::Stop
        | Answer::Wrong
        | Answer::Slip
        | Answer::Picked
        | Answer::Read(_)
        | Answer::Time(_)
        | Answer::Woke(_) => return None,
    })
}

fn yes(card: &Card<'_>) -> Say {
    match card.facts.step {
        Step::Order => Say::OrderYes,
        Step::Reason => Say::ReasonDone,
        Step::NewOn => Say::SwapRunsYes,
        Step::NewMode => Say::SwapStandsYes,
        Step::Standby if card.facts.own == Own::Shown => Say::SwapStandbyYes,
        Step::Standby => Say::SwapCapturesYes,
        _ => Say::SwapBeatsYes,
    }
}

fn no(step: Step) -> Say {
    match step {
        Step::Order => Say::OrderNo,
        Step::NewOn => Say::SwapRunsNo,
        Step::NewMode => Say::SwapModeNo,
        Step::Standby => Say::SwapStandbyNo,
        Step::Move | Step::BackToOld => Say::SwapPinNo,
        Step::BatteryOut | Step::BatteryBack => Say::SwapStaysOff,
        Step::ReadEnd => Say::NotReadNow,
        _ => Say::ListNotTrue,
    }
}

fn all_true(step: Step) -> Say {
    match step {
        Step::Move => Say::SwapPinsYes,
        Step::BackToOld => Say::SwapPinsBackYes,
        Step::BatteryOut | Step::BatteryBack => Say::SwapBoxIsOn,
        Step::Guarded => Say::GuardedDone,
        Step::EndDiffers => Say::SwapDiffersStays,
        _ => Say::ListAllTrue,
    }
}

fn back(step: Step) -> Say {
    match step {
        Step::NewDiffers => Say::SwapSetAgain,
        Step::EndDiffers => Say::DiffersCorrected,
        Step::Blocked => Say::BlockedPutRight,
        _ => Say::AnswerBack,
    }
}

fn spikes(step: Step) -> Say {
    if step == Step::NoBeats { Say::NoBeatsSpikes } else { Say::SeenSpikesWithoutBeats }
}

fn beats_again(step: Step) -> Say {
    match step {
        Step::Emergency => Say::EmergencyBeats,
        Step::Arrest => Say::ArrestBeats,
        _ => Say::AnswerBeatsAgain,
    }
}

fn stands(card: &Card<'_>) -> Say {
    let setup = card.setup;
    let (profile, dial, at) = match card.facts.step {
        Step::NewRate => (setup.new, Dial::Rate, card.facts.new.rate),
        Step::NewMv => (setup.new, Dial::Mv, card.facts.new.mv),
        Step::NewOutput => (setup.new, Dial::Output, card.facts.new.output),
        _ => {
            let profile = setup.box_of(card.facts);
            (profile, Dial::Output, profile.output_last())
        }
    };
    Say::DialStandsAt { dial: dial_name(dial), figure: Box::new(figures::printed(profile, dial, at)) }
}
