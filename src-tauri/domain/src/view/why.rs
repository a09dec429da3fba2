//! Why a test was not done, from the record: no fault, one sentence.

use crate::check::facts::Why;
use crate::record::Record;
use crate::say::Say;

pub fn why(record: &Record, why: Why) -> Option<Say> {
    let limit = record.limit.clone();
    let (slowest, fastest) = record.own.unwrap_or((0, 0));
    Some(match why {
        Why::None => return None,
        Why::OrderedAsynchronous => Say::WhyOrderedAsynchronous,
        Why::Pauses => Say::WhyPauses,
        Why::NoOwnBeats => Say::WhyNoOwnBeats { limit, time: record.ended.clock() },
        Why::OwnBelowLimit => Say::WhyOwnBelowLimit { own: slowest.to_string(), limit },
        Why::OwnNotHeld => Say::WhyOwnNotHeld,
        Why::NotTolerated => Say::WhyNotTolerated,
        Why::DidNotSee => Say::WhyDidNotSee,
        Why::AtrialFibrillation => Say::WhyAtrialFibrillation,
        Why::NoPWaves => Say::WhyNoPWaves,
        Why::OwnTooFast => Say::WhyOwnTooFast { own: fastest.to_string() },
        Why::OwnTooOld => Say::WhyOwnTooOld,
        Why::NumberNotSeen => Say::WhyNumberNotSeen,
        Why::FoundDoesNotCapture => Say::WhyFoundDoesNotCapture,
        Why::NoCaptureAtMaximum => Say::WhyNoCaptureAtMaximum,
        Why::BlockFromRate => Say::WhyBlockFromRate,
        Why::WrongChamber => Say::WhyWrongChamber,
        Why::OwnAmongSpikes => Say::WhyOwnAmongSpikes,
        Why::Stopped => Say::WhyStopped,
        Why::NoBeats => Say::WhyNoBeats,
        Why::Shock => Say::WhyShock,
        Why::Fibrillation => Say::WhyFibrillation,
        Why::Away => Say::WhyAway,
        Why::SpikeWithoutBeat => Say::WhySpikeWithoutBeat,
        Why::Elsewhere => Say::WhyElsewhere,
        Why::OwnTooSlowForDial | Why::NoSuchRate => Say::WhyNoSuchRate,
    })
}
