//! The words and the weight of each answer, on the card it is given to.

use super::Card;
use crate::command::Command;
use crate::contract::{Act, Tone};
use crate::say::Say;
use crate::transport::answer::Answer;
use crate::transport::step::Step;
use crate::view::act;

/// The button for one answer; `None` for what is typed or comes by itself.
pub fn answer(card: &Card<'_>, answer: Answer) -> Option<Act<Say>> {
    let (key, label, tone) = words(card, answer)?;
    Some(act(key, label, tone, Command::Transport(answer)))
}

fn words(card: &Card<'_>, answer: Answer) -> Option<(&'static str, Say, Tone)> {
    use Tone::{Alarm, Bad, Good, Plain, Strong};
    let step = card.facts.step;
    Some(match answer {
        Answer::Yes => ("yes", yes(step), Good),
        Answer::No => ("no", no(step), Bad),
        Answer::AllTrue => ("all-true", all_true(card), Good),
        Answer::Back => ("back", back(step), if step == Step::Margin { Strong } else { Plain }),
        Answer::Close => ("close", Say::TransportClose, Strong),
        Answer::Changed => ("changed", Say::WayChanged, Strong),
        Answer::AnotherBed => ("another-bed", Say::ChangeBed, Strong),
        Answer::IntoVehicle => ("into-vehicle", Say::ChangeInto, Strong),
        Answer::OutOfVehicle => ("out-of-vehicle", Say::ChangeOut, Strong),
        Answer::OtherTeam => ("other-team", Say::ChangeTeam, Strong),
        Answer::DialChanged => ("dial-changed", Say::DialChanged, Strong),
        Answer::Arrived => ("arrived", Say::WayArrived, Good),
        Answer::NoPulse => ("no-pulse", Say::AnswerNoPulse, Alarm),
        Answer::FastWide => ("fast-wide", Say::AnswerFastWide, Bad),
        Answer::ShockGiven => ("shock", Say::AnswerShock, Strong),
        Answer::SpikesWithoutBeats if step == Step::NoBeats => {
            ("spikes-without-beats", Say::NoBeatsSpikes, Bad)
        }
        Answer::SpikesWithoutBeats => ("spikes-without-beats", Say::SeenSpikesWithoutBeats, Bad),
        Answer::NoSpikesCame => ("no-spikes", Say::NoBeatsNoSpikes, Strong),
        Answer::BeatsAgain => ("beats-again", beats_again(step), Good),
        Answer::StillNoBeats => ("still-no-beats", Say::SwapStillNoBeats, Bad),
        Answer::EverySpikeMadeABeat => ("every-spike", Say::AnswerEverySpike, Good),
        Answer::SpikeWithoutABeat => ("spike-without-beat", Say::AnswerSpikeWithoutBeat, Bad),
        Answer::NoBeats
        | Answer::Stop
        | Answer::Wrong
        | Answer::Slip
        | Answer::Going(_)
        | Answer::Read
        | Answer::Signed
        | Answer::Woke(_) => return None,
    })
}

fn yes(step: Step) -> Say {
    match step {
        Step::Pads => Say::PadsYes,
        Step::SayNames => Say::NamesYes,
        Step::Unchanged => Say::UnchangedYes,
        Step::AwayLook => Say::SwapBeatsYes,
        _ => Say::CapturePulseYes,
    }
}

fn no(step: Step) -> Say {
    match step {
        Step::Pads => Say::PadsNo,
        Step::Carry => Say::ListNotTrue,
        _ => Say::CapturePulseNo,
    }
}

fn all_true(card: &Card<'_>) -> Say {
    match card.facts.step {
        Step::Margin if card.differs() => Say::MarginStays,
        Step::Margin => Say::MarginGoOn,
        _ => Say::ListAllTrue,
    }
}

fn back(step: Step) -> Say {
    match step {
        Step::MriStop => Say::MriOther,
        Step::Margin => Say::MarginReadAgain,
        Step::NotReady => Say::BlockedPutRight,
        _ => Say::AnswerBack,
    }
}

fn beats_again(step: Step) -> Say {
    match step {
        Step::Emergency => Say::EmergencyBeats,
        Step::Arrest => Say::ArrestBeats,
        _ => Say::AnswerBeatsAgain,
    }
}
