//! Lines back to a summary, by the table they were written with.

use domain::rules::Chamber;
use domain::state::bed::{Polarity, WireKind};
use domain::units::OutputUnit;

use super::phrase::{Phrase, Table, matched};
use super::write::{SEPARATOR, phrase_of, written};
use domain::handover::figure::Figure;
use domain::handover::stamp::{Minute, Place};
use domain::handover::summary::{
    Capture, Check, DialsAt, Mention, Next, Origin, OwnBeats, Sensing, Summary, WireFacts,
};

/// Unknown lines at most, and bytes in each.
const MOST_OTHERS: usize = 8;
const MOST_OTHER_BYTES: usize = 80;

/// The summary of which `written` makes exactly this text; `None` when there is none. A text without a
/// signature proves nothing: `load` is the way in.
pub fn read(text: &str, table: Table) -> Option<Summary> {
    let lines = text.split('\n').collect::<Vec<_>>();
    let summary = Reader { table, lines: &lines, at: 0, unit: None }.summary()?;
    (written(&summary, table) == text).then_some(summary)
}

struct Reader<'a> {
    table: Table,
    lines: &'a [&'a str],
    at: usize,
    /// The first output unit that was read; a second one must be the same.
    unit: Option<OutputUnit>,
}

impl<'a> Reader<'a> {
    fn summary(mut self) -> Option<Summary> {
        let wire = self.wire()?;
        let practice = self.taken(Phrase::LabelPractice).is_some();
        let example_rules = self.taken(Phrase::LabelExampleRules).is_some();
        let id = u32::from_str_radix(self.taken(Phrase::LabelCheck)?, 16).ok()?;
        let (read, read_later, ended, place) = self.read_at()?;
        let age_min = self.age()?;
        let dials = self.dials()?;
        let capture = self.capture()?;
        let margin = self.maybe(Phrase::LabelMargin, Reader::margin)?;
        let sensing = self.sensing()?;
        let own = self.own()?;
        let pulse_width = self.maybe(Phrase::LabelPulseWidth, Reader::pulse_width)?;
        let next = self.next(place)?;
        let flags = self.maybe(Phrase::LabelFlags, Reader::flags)?.unwrap_or_default();
        let others = self.others()?;
        let left_out = self.maybe(Phrase::LabelShortened, Reader::left_out)?.unwrap_or_default();
        let unit = self.unit.unwrap_or(OutputUnit::MilliAmp);
        let newest = Check {
            id,
            example_rules,
            ended,
            read,
            read_later,
            dials,
            unit,
            capture,
            margin,
            sensing,
            own,
            pulse_width,
            flags,
        };
        let origin = if practice { Origin::Practice } else { Origin::Care };
        let done = self.at == self.lines.len();
        let earlier = Vec::new();
        done.then_some(Summary { origin, wire, place, age_min, newest, next, earlier, left_out, others })
    }

    /// The value of the line in turn, if it has this label.
    fn taken(&mut self, label: Phrase) -> Option<&'a str> {
        let line = self.lines.get(self.at)?;
        let value = line.strip_prefix((self.table)(label))?.strip_prefix(": ")?;
        self.at += 1;
        Some(value)
    }

    /// A line that may be absent; present, it must be sound.
    fn maybe<T>(&mut self, label: Phrase, read: fn(&mut Self, &'a str) -> Option<T>) -> Option<Option<T>> {
        match self.taken(label) {
            None => Some(None),
            Some(value) => read(self, value).map(Some),
        }
    }

    fn places<const N: usize>(&self, phrase: Phrase, value: &'a str) -> Option<[&'a str; N]> {
        matched((self.table)(phrase), value)
    }

    fn is(&self, phrase: Phrase, value: &str) -> bool {
        (self.table)(phrase) == value
    }

    fn figures<const N: usize>(&self, phrase: Phrase, value: &'a str) -> Option<[Figure; N]> {
        let places: [&str; N] = self.places(phrase, value)?;
        let figures: Option<Vec<Figure>> = places.iter().map(|text| Figure::new(text)).collect();
        figures?.try_into().ok()
    }

    fn wire(&mut self) -> Option<WireFacts> {
        let value = self.taken(Phrase::LabelHead)?;
        let [chamber, kind, polarity] = self.places(Phrase::Wire, value)?;
        let chambers = [(Phrase::Atrial, Chamber::Atrium), (Phrase::Ventricular, Chamber::Ventricle)];
        let kinds =
            [(Phrase::Epicardial, WireKind::Epicardial), (Phrase::Transvenous, WireKind::Transvenous)];
        let polarities = [(Phrase::Bipolar, Polarity::Bipolar), (Phrase::Unipolar, Polarity::Unipolar)];
        Some(WireFacts {
            chamber: self.one_of(&chambers, chamber)?,
            kind: self.one_of(&kinds, kind)?,
            polarity: self.one_of(&polarities, polarity)?,
        })
    }

    fn one_of<T: Copy>(&self, all: &[(Phrase, T)], value: &str) -> Option<T> {
        all.iter().find(|(phrase, _)| self.is(*phrase, value)).map(|(_, meant)| *meant)
    }

    fn read_at(&mut self) -> Option<(bool, Option<u32>, Minute, Place)> {
        let value = self.taken(Phrase::LabelDials)?;
        // A time holds a blank itself, so the second place is clock and offset.
        let (read, later, [date, rest]) = if let Some(places) = self.places(Phrase::DialsRead, value) {
            (true, None, places)
        } else if let Some([date, rest, later]) = self.places(Phrase::DialsReadLater, value) {
            (false, Some(later.parse().ok()?), [date, rest])
        } else {
            (false, None, self.places(Phrase::DialsNotRead, value)?)
        };
        let (clock, offset) = rest.rsplit_once(' ')?;
        let place = Place::read(offset)?;
        Some((read, later, place.minute(&format!("{date} {clock}"))?, place))
    }

    fn age(&mut self) -> Option<u32> {
        let value = self.taken(Phrase::LabelWritten)?;
        if let Some([hours, minutes]) = self.places(Phrase::AgeHours, value) {
            return hours.parse::<u32>().ok()?.checked_mul(60)?.checked_add(minutes.parse().ok()?);
        }
        let [minutes] = self.places(Phrase::AgeMinutes, value)?;
        minutes.parse().ok()
    }

    /// All three dials or none.
    fn dials(&mut self) -> Option<Option<DialsAt>> {
        let Some(rate) = self.taken(Phrase::LabelRate) else { return Some(None) };
        let [rate] = self.figures(Phrase::PerMinute, rate)?;
        let (output, unit) = self.taken(Phrase::LabelOutput)?.split_once(' ')?;
        self.set_unit(unit)?;
        let output = Figure::new(output)?;
        let number = self.taken(Phrase::LabelNumber)?;
        let asynchronous = self.is(Phrase::Asynchronous, number);
        let mv = if asynchronous { None } else { Some(Figure::new(number)?) };
        Some(Some(DialsAt { rate, output, mv }))
    }

    fn set_unit(&mut self, symbol: &str) -> Option<()> {
        let units = [OutputUnit::MilliAmp, OutputUnit::Volt];
        let unit = units.into_iter().find(|unit| unit.symbol() == symbol)?;
        (*self.unit.get_or_insert(unit) == unit).then_some(())
    }

    fn capture(&mut self) -> Option<Capture> {
        let value = self.taken(Phrase::LabelCapture)?;
        if self.is(Phrase::NotTested, value) {
            return Some(Capture::NotTested);
        }
        if let Some([at, unit]) = self.places(Phrase::CaptureHeld, value) {
            self.set_unit(unit)?;
            return Some(Capture::Held { at: Figure::new(at)? });
        }
        if let Some([at, unit]) = self.places(Phrase::CaptureAtMost, value) {
            self.set_unit(unit)?;
            return Some(Capture::AtMost { at: Figure::new(at)? });
        }
        if let Some([low, high, unit]) = self.places(Phrase::CaptureBracket, value) {
            self.set_unit(unit)?;
            return Some(Capture::Bracket { low: Figure::new(low)?, high: Figure::new(high)? });
        }
        let [at, unit] = self.places(Phrase::CaptureExact, value)?;
        self.set_unit(unit)?;
        Some(Capture::Exact { at: Figure::new(at)? })
    }

    /// "At least" follows from how the threshold was found: writing again checks it.
    fn margin(&mut self, value: &'a str) -> Option<Figure> {
        let either =
            self.figures(Phrase::MarginAtLeast, value).or_else(|| self.figures(Phrase::Margin, value));
        either.map(|[multiple]| multiple)
    }

    fn sensing(&mut self) -> Option<Sensing> {
        let value = self.taken(Phrase::LabelSensing)?;
        if self.is(Phrase::NotTested, value) {
            return Some(Sensing::NotTested);
        }
        if self.is(Phrase::SensingNone, value) {
            return Some(Sensing::NoneSaw);
        }
        if let Some([at]) = self.figures(Phrase::SensingAsFound, value) {
            return Some(Sensing::AsFound { at });
        }
        if let Some([at]) = self.figures(Phrase::SensingAtLeast, value) {
            return Some(Sensing::AtLeast { at });
        }
        self.figures(Phrase::SensingExact, value).map(|[at]| Sensing::Exact { at })
    }

    fn own(&mut self) -> Option<OwnBeats> {
        let value = self.taken(Phrase::LabelOwn)?;
        if self.is(Phrase::OwnNotLooked, value) {
            return Some(OwnBeats::NotLooked);
        }
        if self.is(Phrase::OwnUnmeasured, value) {
            return Some(OwnBeats::Unmeasured);
        }
        if let Some([limit]) = self.figures(Phrase::OwnNoneSeen, value) {
            return Some(OwnBeats::NoneSeen { limit });
        }
        if let Some((slowest, fastest)) = self.rates(Phrase::OwnLost, Phrase::OwnRangeLost, value) {
            return Some(OwnBeats::ThenLost { slowest, fastest });
        }
        let (slowest, fastest) = self.rates(Phrase::OwnSeen, Phrase::OwnRange, value)?;
        Some(OwnBeats::Seen { slowest, fastest })
    }

    fn rates(&self, one: Phrase, range: Phrase, value: &'a str) -> Option<(u8, u8)> {
        if let Some([low, high]) = self.figures(range, value) {
            return Some((low.text().parse().ok()?, high.text().parse().ok()?));
        }
        let [rate] = self.figures(one, value)?;
        let rate = rate.text().parse().ok()?;
        Some((rate, rate))
    }

    fn pulse_width(&mut self, value: &'a str) -> Option<Figure> {
        self.figures(Phrase::Milliseconds, value).map(|[ms]| ms)
    }

    fn next(&mut self, place: Place) -> Option<Next> {
        let value = self.taken(Phrase::LabelNext)?;
        if self.is(Phrase::NextNow, value) {
            return Some(Next::Now);
        }
        let [at] = self.places(Phrase::NextAt, value)?;
        place.minute(at).map(Next::At)
    }

    fn flags(&mut self, value: &'a str) -> Option<Vec<Mention>> {
        value.split(SEPARATOR).map(|flag| self.flag(flag)).collect()
    }

    fn flag(&mut self, text: &'a str) -> Option<Mention> {
        let plain = Mention::PLAIN.into_iter().find(|(_, flag)| self.is(phrase_of(flag).0, text));
        if let Some((_, flag)) = plain {
            return Some(flag);
        }
        if let Some([multiple]) = self.figures(Phrase::FlagFoundMargin, text) {
            return Some(Mention::FoundMargin { multiple });
        }
        if let Some([was]) = self.figures(Phrase::FlagSignalHalved, text) {
            return Some(Mention::SignalHalved { was });
        }
        if let Some([limit]) = self.figures(Phrase::FlagSignalBelowLimit, text) {
            return Some(Mention::SignalBelowLimit { limit });
        }
        if let Some([limit, unit]) = self.places(Phrase::FlagCaptureAboveLimit, text) {
            self.set_unit(unit)?;
            return Some(Mention::CaptureAboveLimit { limit: Figure::new(limit)? });
        }
        let [was, unit] = self.places(Phrase::FlagDoubled, text)?;
        self.set_unit(unit)?;
        Some(Mention::Doubled { was: Figure::new(was)? })
    }

    /// Lines of a label that this table does not have. One of a label it has stands out of its place.
    fn others(&mut self) -> Option<Vec<String>> {
        let mut others = Vec::new();
        while let Some(line) =
            self.lines.get(self.at).filter(|line| !self.has_label(Phrase::LabelShortened, line))
        {
            let known = LABELS.iter().any(|label| self.has_label(*label, line));
            let sound =
                line.contains(": ") && line.len() <= MOST_OTHER_BYTES && line.bytes().all(is_printable);
            if known || !sound || others.len() == MOST_OTHERS {
                return None;
            }
            others.push((*line).to_owned());
            self.at += 1;
        }
        Some(others)
    }

    fn has_label(&self, label: Phrase, line: &str) -> bool {
        line.strip_prefix((self.table)(label)).is_some_and(|rest| rest.starts_with(": "))
    }

    fn left_out(&mut self, value: &'a str) -> Option<u8> {
        let [count] = self.places(Phrase::LeftOut, value)?;
        count.parse().ok()
    }
}

fn is_printable(byte: u8) -> bool {
    (b' '..=b'~').contains(&byte)
}

const LABELS: [Phrase; 17] = [
    Phrase::LabelHead,
    Phrase::LabelPractice,
    Phrase::LabelExampleRules,
    Phrase::LabelCheck,
    Phrase::LabelDials,
    Phrase::LabelWritten,
    Phrase::LabelRate,
    Phrase::LabelOutput,
    Phrase::LabelNumber,
    Phrase::LabelCapture,
    Phrase::LabelMargin,
    Phrase::LabelSensing,
    Phrase::LabelOwn,
    Phrase::LabelPulseWidth,
    Phrase::LabelNext,
    Phrase::LabelFlags,
    Phrase::LabelShortened,
];
