//! A summary as lines.

use domain::rules::Chamber;
use domain::state::bed::{Polarity, WireKind};
use domain::units::OutputUnit;

use super::phrase::{Phrase, Table, filled};
use domain::handover::figure::Figure;
use domain::handover::summary::{
    Capture, Check, DialsAt, Mention, Next, Origin, OwnBeats, Sensing, Summary, WireFacts,
};

/// The lines, one below the other, without a signature. Says nothing of earlier checks.
pub fn written(summary: &Summary, table: Table) -> String {
    let write = Writer { table };
    let mut lines = write.opening(summary);
    lines.extend(write.check(&summary.newest));
    lines.push(write.line(Phrase::LabelNext, &write.next(summary)));
    lines.extend(write.flags(&summary.newest));
    lines.extend(summary.others.iter().cloned());
    let left_out = write.say(Phrase::LeftOut, &[&summary.left_out.to_string()]);
    lines.extend((summary.left_out > 0).then(|| write.line(Phrase::LabelShortened, &left_out)));
    lines.join("\n")
}

struct Writer {
    table: Table,
}

impl Writer {
    fn say(&self, phrase: Phrase, with: &[&str]) -> String {
        filled((self.table)(phrase), with)
    }

    fn line(&self, label: Phrase, value: &str) -> String {
        format!("{}: {value}", (self.table)(label))
    }

    /// What marks the code comes before any figure.
    fn opening(&self, summary: &Summary) -> Vec<String> {
        let mut lines = vec![self.line(Phrase::LabelHead, &self.wire(summary.wire))];
        if summary.origin == Origin::Practice {
            lines.push(self.line(Phrase::LabelPractice, &self.say(Phrase::NotAPatient, &[])));
        }
        if summary.newest.example_rules {
            lines.push(self.line(Phrase::LabelExampleRules, &self.say(Phrase::LocalRulesFirst, &[])));
        }
        lines.push(self.line(Phrase::LabelCheck, &format!("{:08X}", summary.newest.id)));
        lines.push(self.line(Phrase::LabelDials, &self.read(summary)));
        lines.push(self.line(Phrase::LabelWritten, &self.age(summary)));
        lines
    }

    fn wire(&self, wire: WireFacts) -> String {
        let chamber = match wire.chamber {
            Chamber::Atrium => Phrase::Atrial,
            Chamber::Ventricle => Phrase::Ventricular,
        };
        let kind = match wire.kind {
            WireKind::Epicardial => Phrase::Epicardial,
            WireKind::Transvenous => Phrase::Transvenous,
        };
        let polarity = match wire.polarity {
            Polarity::Bipolar => Phrase::Bipolar,
            Polarity::Unipolar => Phrase::Unipolar,
        };
        self.say(Phrase::Wire, &[chamber, kind, polarity].map(self.table))
    }

    fn read(&self, summary: &Summary) -> String {
        let (check, place) = (&summary.newest, summary.place);
        let (ended, offset) = (place.stamp(check.ended), place.text());
        match check.read_later {
            _ if check.read => self.say(Phrase::DialsRead, &[&ended, &offset]),
            Some(later) => self.say(Phrase::DialsReadLater, &[&ended, &offset, &later.to_string()]),
            None => self.say(Phrase::DialsNotRead, &[&ended, &offset]),
        }
    }

    fn age(&self, summary: &Summary) -> String {
        let (hours, minutes) = (summary.age_min / 60, summary.age_min % 60);
        match hours {
            0 => self.say(Phrase::AgeMinutes, &[&minutes.to_string()]),
            _ => self.say(Phrase::AgeHours, &[&hours.to_string(), &minutes.to_string()]),
        }
    }

    fn check(&self, check: &Check) -> Vec<String> {
        let mut lines = check.dials.as_ref().map(|dials| self.dials(dials, check.unit)).unwrap_or_default();
        lines.push(self.line(Phrase::LabelCapture, &self.capture(check)));
        let margin = |margin| self.line(Phrase::LabelMargin, &self.margin(check, margin));
        lines.extend(check.margin.as_ref().map(margin));
        lines.push(self.line(Phrase::LabelSensing, &self.sensing(&check.sensing)));
        lines.push(self.line(Phrase::LabelOwn, &self.own(&check.own)));
        let width = |width: &Figure| self.say(Phrase::Milliseconds, &[width.text()]);
        lines.extend(check.pulse_width.as_ref().map(|ms| self.line(Phrase::LabelPulseWidth, &width(ms))));
        lines
    }

    fn dials(&self, dials: &DialsAt, unit: OutputUnit) -> Vec<String> {
        let number = match &dials.mv {
            Some(number) => number.to_string(),
            None => self.say(Phrase::Asynchronous, &[]),
        };
        vec![
            self.line(Phrase::LabelRate, &self.say(Phrase::PerMinute, &[dials.rate.text()])),
            self.line(Phrase::LabelOutput, &format!("{} {}", dials.output, unit.symbol())),
            self.line(Phrase::LabelNumber, &number),
        ]
    }

    fn capture(&self, check: &Check) -> String {
        let unit = check.unit.symbol();
        match &check.capture {
            Capture::NotTested => self.say(Phrase::NotTested, &[]),
            Capture::Exact { at } => self.say(Phrase::CaptureExact, &[at.text(), unit]),
            Capture::Bracket { low, high } => {
                self.say(Phrase::CaptureBracket, &[low.text(), high.text(), unit])
            }
            Capture::AtMost { at } => self.say(Phrase::CaptureAtMost, &[at.text(), unit]),
            Capture::Held { at } => self.say(Phrase::CaptureHeld, &[at.text(), unit]),
        }
    }

    fn margin(&self, check: &Check, margin: &Figure) -> String {
        let at_least = matches!(check.capture, Capture::AtMost { .. });
        let phrase = if at_least { Phrase::MarginAtLeast } else { Phrase::Margin };
        self.say(phrase, &[margin.text()])
    }

    fn sensing(&self, sensing: &Sensing) -> String {
        match sensing {
            Sensing::NotTested => self.say(Phrase::NotTested, &[]),
            Sensing::Exact { at } => self.say(Phrase::SensingExact, &[at.text()]),
            Sensing::AtLeast { at } => self.say(Phrase::SensingAtLeast, &[at.text()]),
            Sensing::AsFound { at } => self.say(Phrase::SensingAsFound, &[at.text()]),
            Sensing::NoneSaw => self.say(Phrase::SensingNone, &[]),
        }
    }

    fn own(&self, own: &OwnBeats) -> String {
        match own {
            OwnBeats::NotLooked => self.say(Phrase::OwnNotLooked, &[]),
            OwnBeats::Unmeasured => self.say(Phrase::OwnUnmeasured, &[]),
            OwnBeats::NoneSeen { limit } => self.say(Phrase::OwnNoneSeen, &[limit.text()]),
            OwnBeats::Seen { slowest, fastest } => {
                self.rates(Phrase::OwnSeen, Phrase::OwnRange, *slowest, *fastest)
            }
            OwnBeats::ThenLost { slowest, fastest } => {
                self.rates(Phrase::OwnLost, Phrase::OwnRangeLost, *slowest, *fastest)
            }
        }
    }

    fn rates(&self, one: Phrase, range: Phrase, slowest: u8, fastest: u8) -> String {
        let (low, high) = (slowest.to_string(), fastest.to_string());
        if slowest == fastest { self.say(one, &[&low]) } else { self.say(range, &[&low, &high]) }
    }

    fn next(&self, summary: &Summary) -> String {
        match summary.next {
            Next::Now => self.say(Phrase::NextNow, &[]),
            Next::At(minute) => self.say(Phrase::NextAt, &[&summary.place.stamp(minute)]),
        }
    }

    fn flags(&self, check: &Check) -> Option<String> {
        let said: Vec<String> = check.flags.iter().map(|flag| self.flag(flag, check.unit)).collect();
        (!said.is_empty()).then(|| self.line(Phrase::LabelFlags, &said.join(SEPARATOR)))
    }

    fn flag(&self, flag: &Mention, unit: OutputUnit) -> String {
        let (phrase, figure) = phrase_of(flag);
        self.say(phrase, &[figure.map_or("", Figure::text), unit.symbol()])
    }
}

/// Between two flags. Stands in no pattern of a flag.
pub(super) const SEPARATOR: &str = "; ";

/// The phrase of a flag, and the figure in it.
pub(super) fn phrase_of(flag: &Mention) -> (Phrase, Option<&Figure>) {
    let plain = match flag {
        Mention::NoCaptureAtMaximum => Phrase::FlagNoCaptureAtMaximum,
        Mention::NoRuleSatisfied => Phrase::FlagNoRuleSatisfied,
        Mention::StillBlind => Phrase::FlagStillBlind,
        Mention::SeesNothing => Phrase::FlagSeesNothing,
        Mention::WrongChamber => Phrase::FlagWrongChamber,
        Mention::NoBeats => Phrase::FlagNoBeats,
        Mention::Shock => Phrase::FlagShock,
        Mention::Fibrillation => Phrase::FlagFibrillation,
        Mention::LostUnsought => Phrase::FlagLostUnsought,
        Mention::NotPacedOver => Phrase::FlagNotPacedOver,
        Mention::NumberBelowLowest => Phrase::FlagNumberBelowLowest,
        Mention::FoundDidNotCapture => Phrase::FlagFoundDidNotCapture,
        Mention::DidNotSeeAsFound => Phrase::FlagDidNotSeeAsFound,
        Mention::NumberRefused => Phrase::FlagNumberRefused,
        Mention::CaptureAboveLimit { limit } => return (Phrase::FlagCaptureAboveLimit, Some(limit)),
        Mention::SignalBelowLimit { limit } => return (Phrase::FlagSignalBelowLimit, Some(limit)),
        Mention::FoundMargin { multiple } => return (Phrase::FlagFoundMargin, Some(multiple)),
        Mention::LeftAsRead => Phrase::FlagLeftAsRead,
        Mention::BlockFromRate => Phrase::FlagBlockFromRate,
        Mention::Pauses => Phrase::FlagPauses,
        Mention::ExtraBeatUnmarked => Phrase::FlagExtraBeatUnmarked,
        Mention::MarksWithoutBeats => Phrase::FlagMarksWithoutBeats,
        Mention::Doubled { was } => return (Phrase::FlagDoubled, Some(was)),
        Mention::SignalHalved { was } => return (Phrase::FlagSignalHalved, Some(was)),
        Mention::FoundAsynchronous => Phrase::FlagFoundAsynchronous,
        Mention::NotTolerated => Phrase::FlagNotTolerated,
        Mention::SpikeAtMinimum => Phrase::FlagSpikeAtMinimum,
    };
    (plain, None)
}
