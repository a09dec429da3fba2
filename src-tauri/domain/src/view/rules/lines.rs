//! Every figure and switch of a rule file as a line of its own.

use crate::rules::{Chamber, NumberRule, OutputRule, Rules, Source, Status};
use crate::say::{Say, figure};
use crate::units::{OutputUnit, shortest};
use crate::view::pieces::boxed;
use crate::view::rule_names;

/// What a line is about, what it says, where that comes from.
pub struct Line {
    pub label: Say,
    pub value: Say,
    pub source: Option<Say>,
}

/// The same lines in the same order for all rules, so that two files can be laid side by side.
pub fn lines(rules: &Rules) -> Vec<Line> {
    let parts =
        [chosen(rules), searching(rules), numbers(rules), limits(rules), watching(rules), switched(rules)];
    parts.into_iter().flatten().collect()
}

fn chosen(rules: &Rules) -> Vec<Line> {
    vec![
        line(rules, Say::RowOutputRule, rule_names::output(rules, OutputUnit::MilliAmp), "output_rule"),
        line(rules, Say::RowOutputAim, aim(rules), "output_rule"),
        plain(Say::RowBelowDouble, rules.band_below_double_by.as_ref().map_or(Say::NobodyNamed, figure)),
        line(rules, Say::RowSensingRule, rule_names::sensing(rules), "sensing_rule"),
    ]
}

/// The named rules aim at what they name.
fn aim(rules: &Rules) -> Say {
    match rules.output_rule {
        OutputRule::Band { aim_percent, .. } => {
            Say::TimesThreshold { multiple: shortest(u32::from(aim_percent), 100) }
        }
        OutputRule::Double | OutputRule::DoublePlusOne => rule_names::output(rules, OutputUnit::MilliAmp),
    }
}

fn searching(rules: &Rules) -> Vec<Line> {
    let number = |name: &str| text(rules, name);
    let search = Say::RuleOwnSearch { step: number("own_step"), limit: number("own_limit") };
    let watch = Say::RuleOwnWatch { watch: number("own_watch_s"), hold: number("own_hold_s") };
    let rates = Say::RuleTestRates { sensing: number("sensing_offset"), capture: number("capture_offset") };
    let highest = Say::RuleRate { rate: number("highest_test_rate") };
    vec![
        line(rules, Say::RowOwnSearch, search, "own_limit"),
        line(rules, Say::RowOwnWatch, watch, "own_hold_s"),
        line(rules, Say::RowTestRates, rates, "capture_offset"),
        line(rules, Say::RowHighestRate, highest, "highest_test_rate"),
    ]
}

fn numbers(rules: &Rules) -> Vec<Line> {
    let lowest = pair(rules, "lowest_ventricle_mV", "lowest_atrium_mV");
    let starting = pair(rules, "starting_ventricle_mV", "starting_atrium_mV");
    let strides = Say::RuleStrides {
        sensing: text(rules, "sensing_stride_percent"),
        capture: text(rules, "capture_stride_percent"),
    };
    vec![
        line(rules, Say::RowLowestNumbers, lowest, "lowest_ventricle_mV"),
        line(rules, Say::RowStartingNumbers, starting, "starting_ventricle_mV"),
        line(rules, Say::RowStrides, strides, "capture_stride_percent"),
    ]
}

/// Of its own accord a unit may set each of the four.
fn limits(rules: &Rules) -> Vec<Line> {
    let said = |limit: Option<(u32, String)>| boxed(limit.map_or(Say::NoLimit, |(_, text)| figure(text)));
    let either = |label: Say, set: bool, value: Say, field: &str| {
        if set { line(rules, label, value, field) } else { plain(label, Say::NoLimit) }
    };
    let [current, volts] = [OutputUnit::MilliAmp, OutputUnit::Volt].map(|unit| rules.capture_limit(unit));
    let [ventricle, atrium] =
        [Chamber::Ventricle, Chamber::Atrium].map(|chamber| rules.signal_limit(chamber));
    let (capture_set, signal_set) =
        (current.is_some() || volts.is_some(), ventricle.is_some() || atrium.is_some());
    let capture = Say::RuleCaptureLimits { current: said(current), volts: said(volts) };
    let signal = Say::RuleSignalLimits { ventricle: said(ventricle), atrium: said(atrium) };
    vec![
        either(Say::RowCaptureLimit, capture_set, capture, "capture_limit_mA"),
        either(Say::RowSignalLimit, signal_set, signal, "signal_limit_ventricle_mV"),
    ]
}

fn watching(rules: &Rules) -> Vec<Line> {
    let number = |name: &str| text(rules, name);
    let beats = Say::RuleBeats {
        down: number("beats_down"),
        threshold: number("beats_threshold"),
        confirm: number("beats_confirm"),
    };
    let minimum = Say::RuleSeconds { seconds: number("minimum_output_s") };
    let loss = Say::RuleAfterLoss { ups: number("after_loss_ups"), seconds: number("after_loss_s") };
    let checks = Say::RuleChecks {
        hours: number("check_every_h"),
        narrow: number("check_every_narrow_h"),
        multiple: shortest(u32::from(rules.narrow_multiple_percent), 100),
    };
    vec![
        line(rules, Say::RowBeatsWatched, beats, "beats_down"),
        line(rules, Say::RowMinimumTime, minimum, "minimum_output_s"),
        line(rules, Say::RowAfterLoss, loss, "after_loss_s"),
        line(rules, Say::RowChecks, checks, "check_every_h"),
        line(
            rules,
            Say::RowEmergencyRate,
            Say::RuleRate { rate: number("emergency_rate") },
            "emergency_rate",
        ),
        line(rules, Say::RowAge, Say::RuleYears { years: number("age_least") }, "age_least"),
        sign_off(rules),
        line(rules, Say::RowErase, erase(rules), "erase_after_days"),
    ]
}

fn erase(rules: &Rules) -> Say {
    match rules.erase_after_days {
        0 => Say::EraseNever,
        days => Say::EraseAfter { days: u32::from(days) },
    }
}

fn sign_off(rules: &Rules) -> Line {
    match rules.sign_off_after() {
        Some(months) => {
            let value = Say::RuleMonths { months: months.to_string() };
            line(rules, Say::RowSignOff, value, "sign_off_months")
        }
        None => plain(Say::RowSignOff, Say::NoSignOffRule),
    }
}

fn switched(rules: &Rules) -> Vec<Line> {
    let switch = |on: bool| if on { Say::SwitchedOn } else { Say::SwitchedOff };
    vec![
        plain(Say::RowGoingUp, switch(rules.going_up)),
        plain(Say::RowHalfRate, switch(rules.half_rate_in_sensing)),
        plain(Say::RowMarginCheck, switch(rules.margin_check)),
        plain(Say::RowReviewBlocks, switch(rules.blocks_when_overdue())),
    ]
}

fn line(rules: &Rules, label: Say, value: Say, field: &str) -> Line {
    Line { label, value, source: rules.source_of(field).map(said) }
}

fn plain(label: Say, value: Say) -> Line {
    Line { label, value, source: None }
}

fn text(rules: &Rules, name: &str) -> String {
    NumberRule::named(name).map(|number| number.unit.text(number.load(rules))).unwrap_or_default()
}

fn pair(rules: &Rules, ventricle: &str, atrium: &str) -> Say {
    Say::RulePair { ventricle: text(rules, ventricle), atrium: text(rules, atrium) }
}

fn said(source: Source) -> Say {
    let keys = source.keys.to_owned();
    match source.status {
        Status::Read => Say::SourceRead { keys },
        Status::Calculated => Say::SourceCalculated { keys },
        Status::Practice => Say::SourcePractice,
        Status::Memory => Say::SourceMemory,
    }
}
