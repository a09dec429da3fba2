//! Who approved a unit's rules, from which document, until when.

use chrono::NaiveDate;
use serde_json::{Value, json};

use super::RulesFault;
use crate::document::{Node, Why};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Approval {
    pub by: String,
    pub document: String,
    pub on: NaiveDate,
    pub review: NaiveDate,
    /// No check begins after that date; else it is only said.
    pub blocks_when_overdue: bool,
}

impl Approval {
    pub(super) fn read(node: &Node<'_>) -> Result<Self, RulesFault> {
        node.only(&["by", "document", "on", "review", "blocks_when_overdue"])?;
        let (on, review) = (node.field("on")?, node.field("review")?);
        let approval = Self {
            by: node.field("by")?.name()?.to_owned(),
            document: node.field("document")?.text()?.to_owned(),
            on: date(&on)?,
            review: date(&review)?,
            blocks_when_overdue: node.maybe("blocks_when_overdue")?.map_or(Ok(false), |node| node.yes())?,
        };
        if approval.review > approval.on { Ok(approval) } else { Err(review_too_early(&review, approval.on)) }
    }

    pub(super) fn write(&self) -> Value {
        json!({
            "by": self.by,
            "document": self.document,
            "on": self.on.to_string(),
            "review": self.review.to_string(),
            "blocks_when_overdue": self.blocks_when_overdue,
        })
    }

    /// On the day of the review the rules are still good.
    pub fn review_overdue(&self, today: NaiveDate) -> bool {
        today > self.review
    }
}

fn review_too_early(review: &Node<'_>, on: NaiveDate) -> RulesFault {
    let found = review.text().unwrap_or_default().to_owned();
    review.fault(Why::BelowOther { found, other: "approval.on".to_owned(), least: on.to_string() })
}

/// "2026-11-24" and no other form.
fn date(node: &Node<'_>) -> Result<NaiveDate, RulesFault> {
    let text = node.text()?;
    let date = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok().filter(|date| date.to_string() == text);
    date.ok_or_else(|| node.fault(Why::NotADate { found: text.to_owned() }))
}
