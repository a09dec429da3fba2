//! Dial positions as printed.

use crate::check::facts::{ASYNCHRONOUS, Dial};
use crate::profile::{Position, Profile};
use crate::say::{Say, figure};
use crate::units::OutputUnit;

/// The position as the dial prints it; asynchronous in words.
pub fn printed(profile: &Profile, dial: Dial, at: Position) -> Say {
    if at == ASYNCHRONOUS { Say::Asynchronous } else { figure(text(profile, dial, at)) }
}

pub fn text(profile: &Profile, dial: Dial, at: Position) -> String {
    match dial {
        Dial::Output => profile.output_text(at),
        Dial::Rate => profile.rate_text(at),
        Dial::Mv => profile.mv_text(at),
    }
    .to_owned()
}

pub fn unit(profile: &Profile, dial: Dial) -> Say {
    match dial {
        Dial::Output => output_unit(profile.output_unit()),
        Dial::Rate => Say::PerMinute,
        Dial::Mv => Say::MilliVolt,
    }
}

pub fn output_unit(unit: OutputUnit) -> Say {
    match unit {
        OutputUnit::MilliAmp => Say::MilliAmp,
        OutputUnit::Volt => Say::Volt,
    }
}

/// "6.0 mA", "80 /min", "asynchronous": figure and unit in one. The mV dial is named by its unit.
pub fn with_unit(profile: &Profile, dial: Dial, at: Position) -> Say {
    if at == ASYNCHRONOUS {
        return Say::Asynchronous;
    }
    let figure = text(profile, dial, at);
    if dial == Dial::Mv {
        return Say::Figure { text: figure };
    }
    Say::FigureUnit { figure, unit: Box::new(unit(profile, dial)) }
}
