//! Why a test was not done: no fault, one sentence, the same on the card and in the record.

use crate::check::facts::Why;
use crate::record::Record;
use crate::say::Say;

/// What the sentence may name: the limit of the search as the dial or the rule prints it, the time it was
/// reached, and the own rate in beats per minute.
pub struct Looked {
    pub limit: String,
    pub time: String,
    pub slowest: u8,
    pub fastest: u8,
    /// The unit's highest test rate; 0 in records of before, which do not name it.
    pub highest: String,
}

pub fn of_record(record: &Record, why: Why) -> Option<Say> {
    let (slowest, fastest) = record.own.unwrap_or((0, 0));
    let looked = Looked {
        limit: record.limit.clone(),
        time: record.ended.clock(),
        slowest,
        fastest,
        highest: record.highest_test_rate.to_string(),
    };
    self::why(&looked, why)
}

pub fn why(looked: &Looked, why: Why) -> Option<Say> {
    Some(match why {
        Why::None => return None,
        Why::OrderedAsynchronous => Say::WhyOrderedAsynchronous,
        Why::Pauses => Say::WhyPauses,
        Why::NoOwnBeats => Say::WhyNoOwnBeats { limit: looked.limit.clone(), time: looked.time.clone() },
        Why::OwnBelowLimit => {
            Say::WhyOwnBelowLimit { own: looked.slowest.to_string(), limit: looked.limit.clone() }
        }
        Why::OwnNotHeld => Say::WhyOwnNotHeld,
        Why::NotTolerated => Say::WhyNotTolerated,
        Why::DidNotSee => Say::WhyDidNotSee,
        Why::AtrialFibrillation => Say::WhyAtrialFibrillation,
        Why::NoPWaves => Say::WhyNoPWaves,
        Why::OwnTooFast => Say::WhyOwnTooFast { own: looked.fastest.to_string() },
        Why::FoundTooFast => Say::WhyFoundTooFast { highest: looked.highest.clone() },
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
        Why::SpikeMayFallOnT => Say::WhySpikeMayFallOnT,
    })
}
