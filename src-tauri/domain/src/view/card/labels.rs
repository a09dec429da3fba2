//! The words and the weight of each answer, on the card it is given to.

use super::{Card, typing};
use crate::check::answer::Answer;
use crate::check::set::differences;
use crate::check::step::Step;
use crate::command::Command;
use crate::contract::{Act, Tone};
use crate::say::Say;

/// The button for one answer; `None` for what is typed or comes by itself.
pub fn answer(card: &Card<'_>, answer: Answer) -> Option<Act<Say>> {
    let (key, label, tone) = words(card, answer)?;
    let key = if let Answer::Line(line) = answer { format!("line-{line:?}").into() } else { key.into() };
    let named = typing::needs_name(card.facts.step, answer);
    let command = if named { Command::Named(answer) } else { Command::Answer(answer) };
    Some(Act { key, label, note: None, tone, command, with_fields: named })
}

fn words(card: &Card<'_>, answer: Answer) -> Option<(&'static str, Say, Tone)> {
    use Tone::{Alarm, Bad, Good, Plain, Strong};
    let step = card.facts.step;
    Some(match answer {
        Answer::Yes => ("yes", yes(step), Good),
        Answer::No => ("no", no(step), if step == Step::Away { Strong } else { Bad }),
        Answer::AllTrue => ("all-true", all_true(step), Good),
        Answer::Line(line) => ("", super::listing::line(line, card.setup.rules.age_least), Strong),
        Answer::Back => ("back", back(card), Plain),
        Answer::ReasonAndName => ("reason", Say::ReasonDone, Good),
        Answer::EveryBeatPaced => ("every-beat-paced", Say::SeenEveryBeatPaced, Strong),
        Answer::OnlyOwn => ("only-own", only_own(step), Strong),
        Answer::BothSeen => ("both", both(step), Strong),
        Answer::SpikesWithoutBeats => ("spikes-without-beats", spikes_without(step), Bad),
        Answer::StillPaced => ("still-paced", Say::AnswerStillPaced, Good),
        Answer::OwnHeld => ("own-held", Say::OwnHoldYes, Good),
        Answer::EveryBeatMarked => ("every-beat-marked", marked(step), Good),
        Answer::BeatNotMarked => ("beat-not-marked", Say::AnswerBeatNotMarked, Bad),
        Answer::EverySpikeMadeABeat => ("every-spike", Say::AnswerEverySpike, Good),
        Answer::SpikeWithoutABeat => ("spike-without-beat", spike_without(step), Bad),
        Answer::OwnAmongThem => ("own-among", Say::AnswerOwnAmong, Strong),
        Answer::PWithoutQrs => ("p-without-qrs", Say::AnswerPWithoutQrs, Bad),
        Answer::WideBeat => ("wide-beat", Say::AnswerWideBeat, Bad),
        Answer::BeatsAgain => ("beats-again", beats_again(step), Good),
        Answer::NoSpikesCame => {
            ("no-spikes", no_spikes(step), if step == Step::NoBeats { Strong } else { Good })
        }
        Answer::SpikesNoneMadeABeat => ("spikes-no-beat", Say::AnswerSpikesNoBeat, Strong),
        Answer::SpikeMadeABeat => ("spike-made-beat", Say::AnswerSpikeMadeBeat, Bad),
        Answer::Pause => ("pause", pause(step), Bad),
        Answer::ExtraBeatNotMarked => ("extra-beat", Say::AnswerExtraBeat, Strong),
        Answer::MarkWithoutBeat => ("mark-alone", Say::AnswerMarkAlone, Strong),
        Answer::NotTolerated => ("not-tolerated", Say::AnswerNotTolerated, Bad),
        Answer::PWavesSeen => ("p-waves", Say::AtriumPWaves, Strong),
        Answer::FibrillationOrFlutter => ("fibrillation", Say::AtriumFibrillation, Strong),
        Answer::NoPWaves => ("no-p-waves", Say::AtriumNoPWaves, Strong),
        Answer::Fine => ("fine", fine(step), Good),
        Answer::SomethingElse => ("something-else", Say::AnswerSomethingElse, Strong),
        Answer::NoPulse => ("no-pulse", Say::AnswerNoPulse, Alarm),
        Answer::FastWide => ("fast-wide", Say::AnswerFastWide, Bad),
        Answer::ShockGiven => ("shock", Say::AnswerShock, Strong),
        Answer::DialElsewhere => ("elsewhere", Say::AnswerElsewhere, Strong),
        Answer::NoBeats
        | Answer::Stop
        | Answer::Wrong
        | Answer::Slip
        | Answer::Stands
        | Answer::StandsAt(_)
        | Answer::Read(_)
        | Answer::OwnRate { .. }
        | Answer::Time(_)
        | Answer::Woke(_) => return None,
    })
}

fn yes(step: Step) -> Say {
    match step {
        Step::SamePatient => Say::SamePatientYes,
        Step::Order => Say::OrderYes,
        Step::Accept => Say::AcceptYes,
        Step::PulseTrace => Say::PulseTraceYes,
        Step::Standby => Say::StandbyYes,
        Step::RightWire => Say::RightWireYes,
        Step::AsynchronousOrdered => Say::AsynchronousOrderedYes,
        Step::MarginAsk => Say::MarginYes,
        Step::Away => Say::AwayYes,
        _ => Say::FirstOwnYes,
    }
}

fn no(step: Step) -> Say {
    match step {
        Step::SamePatient => Say::SamePatientNo,
        Step::Order => Say::OrderNo,
        Step::Accept => Say::AcceptNo,
        Step::ListFirst | Step::ListSecond => Say::ListNotTrue,
        Step::PulseTrace => Say::PulseTraceNo,
        Step::Standby => Say::StandbyNo,
        Step::RightWire => Say::RightWireNo,
        Step::AsynchronousOrdered => Say::AsynchronousOrderedNo,
        Step::MarginAsk => Say::MarginNo,
        Step::Away => Say::AwayNo,
        Step::ReadBack | Step::ReadAfter => Say::NotReadNow,
        Step::Differs | Step::ReadLower => Say::DiffersReason,
        _ => Say::FirstOwnNo,
    }
}

fn all_true(step: Step) -> Say {
    match step {
        Step::Blocked => Say::BlockedClose,
        Step::FirstConnections => Say::ConnectionsDone,
        Step::Stays => Say::StaysDone,
        Step::Guarded => Say::GuardedDone,
        Step::Restore => Say::RestoreDone,
        _ => Say::ListAllTrue,
    }
}

fn back(card: &Card<'_>) -> Say {
    match card.facts.step {
        Step::Blocked => Say::BlockedPutRight,
        Step::Differs if differences(card.setup, card.facts).put_right.is_empty() => Say::LeftAloneReadAgain,
        Step::Differs | Step::ReadLower => Say::DiffersCorrected,
        _ => Say::AnswerBack,
    }
}

fn only_own(step: Step) -> Say {
    if step == Step::FirstLook { Say::SeenOnlyOwn } else { Say::AnswerOnlyOwn }
}

fn both(step: Step) -> Say {
    if step == Step::FirstLook { Say::SeenBoth } else { Say::AnswerBoth }
}

fn spikes_without(step: Step) -> Say {
    match step {
        Step::NoBeats => Say::NoBeatsSpikes,
        Step::NoSpikes => Say::NoSpikesStill,
        _ => Say::SeenSpikesWithoutBeats,
    }
}

fn spike_without(step: Step) -> Say {
    match step {
        Step::CaptureBack | Step::CaptureUp | Step::CaptureRestore => Say::AnswerStillNoBeat,
        _ => Say::AnswerSpikeWithoutBeat,
    }
}

fn marked(step: Step) -> Say {
    if step == Step::SenseRate { Say::OwnHoldYes } else { Say::AnswerEveryBeatMarked }
}

fn beats_again(step: Step) -> Say {
    match step {
        Step::Emergency | Step::NoSpikes => Say::EmergencyBeats,
        Step::Arrest => Say::ArrestBeats,
        _ => Say::AnswerBeatsAgain,
    }
}

fn no_spikes(step: Step) -> Say {
    match step {
        Step::NoBeats => Say::NoBeatsNoSpikes,
        Step::NoSpikes => Say::NoSpikesNone,
        _ => Say::AnswerNoSpikes,
    }
}

fn pause(step: Step) -> Say {
    match step {
        Step::AsynchronousOff | Step::BlindMvDown | Step::SetMv => Say::PausesSeen,
        _ => Say::AnswerPause,
    }
}

fn fine(step: Step) -> Say {
    match step {
        Step::AsynchronousOff | Step::BlindMvDown | Step::SetMv => Say::PacedOnTimeYes,
        Step::SenseOutputOut => Say::OwnWithPulseYes,
        Step::AfterShock => Say::AnswerEverySpike,
        Step::Confirm => Say::ConfirmYes,
        _ => Say::AnswerFine,
    }
}
