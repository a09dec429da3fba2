//! The rules in force: each figure with its source.

use super::pieces::{go, head, plain, row};
use super::{Screenful, rule_names};
use crate::contract::{Outcome, Row, Shape, Tone};
use crate::moment::{Moment, date_text};
use crate::rules::{Approval, NumberRule, Rules, Source, Status};
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::units::{OutputUnit, shortest};

pub fn rules(state: &State, now: Moment) -> Screenful {
    let rules = &state.rules;
    let headline =
        if rules.example { Say::RulesTitleExample } else { Say::RulesTitle { name: rules.id.clone() } };
    let outcome = Outcome {
        headline: headline.clone(),
        rows: rows(rules),
        scales: Vec::new(),
        flags: overdue(rules, now).into_iter().collect(),
        note: Some(rules.approval.as_ref().map_or(Say::RulesNotApproved, approved)),
    };
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Settings)],
        ..plain(head(Say::Settings, now), Shape::Result(outcome), headline)
    }
}

fn approved(approval: &Approval) -> Say {
    Say::RulesApproved {
        name: approval.by.clone(),
        document: approval.document.clone(),
        date: approval.on.to_string(),
        review: approval.review.to_string(),
    }
}

fn overdue(rules: &Rules, now: Moment) -> Option<Say> {
    let approval = rules.approval.as_ref()?;
    let today = date_text(now.wall_ms, now.offset_min).parse().ok()?;
    approval.review_overdue(today).then(|| Say::RulesReviewOverdue { review: approval.review.to_string() })
}

fn rows(rules: &Rules) -> Vec<Row<Say>> {
    let number = |name: &str| text(rules, name);
    let line = |label, value, field: &str| row(label, value, rules.source_of(field).map(said));
    vec![
        line(Say::RowOutputRule, rule_names::output(rules, OutputUnit::MilliAmp), "output_rule"),
        line(Say::RowSensingRule, rule_names::sensing(rules), "sensing_rule"),
        line(
            Say::RowOwnSearch,
            Say::RuleOwnSearch { step: number("own_step"), limit: number("own_limit") },
            "own_limit",
        ),
        line(
            Say::RowOwnWatch,
            Say::RuleOwnWatch { watch: number("own_watch_s"), hold: number("own_hold_s") },
            "own_hold_s",
        ),
        line(
            Say::RowTestRates,
            Say::RuleTestRates { sensing: number("sensing_offset"), capture: number("capture_offset") },
            "capture_offset",
        ),
        line(Say::RowHighestRate, Say::RuleRate { rate: number("highest_test_rate") }, "highest_test_rate"),
        line(
            Say::RowLowestNumbers,
            pair(rules, "lowest_ventricle_mV", "lowest_atrium_mV"),
            "lowest_ventricle_mV",
        ),
        line(
            Say::RowStartingNumbers,
            pair(rules, "starting_ventricle_mV", "starting_atrium_mV"),
            "starting_ventricle_mV",
        ),
        line(
            Say::RowStrides,
            Say::RuleStrides {
                sensing: number("sensing_stride_percent"),
                capture: number("capture_stride_percent"),
            },
            "capture_stride_percent",
        ),
        line(Say::RowBeatsWatched, beats(rules), "beats_down"),
        line(
            Say::RowMinimumTime,
            Say::RuleSeconds { seconds: number("minimum_output_s") },
            "minimum_output_s",
        ),
        line(
            Say::RowAfterLoss,
            Say::RuleAfterLoss { ups: number("after_loss_ups"), seconds: number("after_loss_s") },
            "after_loss_s",
        ),
        line(Say::RowChecks, checks(rules), "check_every_h"),
        line(Say::RowEmergencyRate, Say::RuleRate { rate: number("emergency_rate") }, "emergency_rate"),
        line(Say::RowAge, Say::RuleYears { years: number("age_least") }, "age_least"),
        row(Say::RowMarginCheck, if rules.margin_check { Say::SwitchedOn } else { Say::SwitchedOff }, None),
    ]
}

fn text(rules: &Rules, name: &str) -> String {
    NumberRule::named(name).map(|number| number.unit.text(number.load(rules))).unwrap_or_default()
}

fn pair(rules: &Rules, ventricle: &str, atrium: &str) -> Say {
    Say::RulePair { ventricle: text(rules, ventricle), atrium: text(rules, atrium) }
}

fn beats(rules: &Rules) -> Say {
    Say::RuleBeats {
        down: text(rules, "beats_down"),
        threshold: text(rules, "beats_threshold"),
        confirm: text(rules, "beats_confirm"),
    }
}

fn checks(rules: &Rules) -> Say {
    Say::RuleChecks {
        hours: text(rules, "check_every_h"),
        narrow: text(rules, "check_every_narrow_h"),
        multiple: shortest(u32::from(rules.narrow_multiple_percent), 100),
    }
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
