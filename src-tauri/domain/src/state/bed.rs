//! Beds, patients, wires, open checks, records.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::swap::{OpenSwap, SwapRecord};
use super::times::Times;
use super::transport::{OpenTransport, TransportRecord};
use crate::check::facts::{Dials, Facts};
use crate::handover::code::MadeCode;
use crate::handover::history::{Arrival, HandedCheck};
use crate::leaving::Left;
use crate::moment::Moment;
use crate::record::{Printed, Record};
use crate::rules::{Chamber, Rules};

/// A bed is a label, not an identity: a new patient in it starts empty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bed {
    pub id: u32,
    pub label: String,
    /// The patient in it now, without a name.
    pub patient: Uuid,
    pub patient_since: Moment,
    pub wires: Vec<Wire>,
    pub next_wire: u32,
    /// What of this patient has left the tablet.
    #[serde(default)]
    pub left: Vec<Left>,
    #[serde(default)]
    pub transport: Option<OpenTransport>,
    /// Of this patient, oldest first.
    #[serde(default)]
    pub transports: Vec<TransportRecord>,
}

impl Bed {
    /// Wires that may be in the same box as this one: those in one of its kind, else, since what is written may be
    /// wrong, all others.
    pub fn may_share(&self, wire: &Wire) -> Vec<&Wire> {
        let others = || self.wires.iter().filter(|other| other.id != wire.id);
        let alike: Vec<&Wire> = others().filter(|other| other.generator == wire.generator).collect();
        if alike.is_empty() { others().collect() } else { alike }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum WireKind {
    Epicardial,
    Transvenous,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Polarity {
    Bipolar,
    Unipolar,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wire {
    pub id: u32,
    pub chamber: Chamber,
    pub kind: WireKind,
    pub polarity: Polarity,
    /// The generator it is plugged into now, by profile id.
    pub generator: String,
    pub added: Moment,
    pub check: Option<OpenCheck>,
    /// Oldest first.
    pub records: Vec<Record>,
    /// Dials not read since.
    pub owed: Option<Moment>,
    /// Something since the last check makes one due now.
    pub due_now: Option<DueNow>,
    #[serde(default)]
    pub due_since: Option<Moment>,
    /// A reading after the last check, where it was unlike what that check left.
    #[serde(default)]
    pub standing: Option<Standing>,
    /// When an owed reading found the dials as the last check left them.
    #[serde(default)]
    pub read_since: Option<Moment>,
    /// A reading that was asked for once more: an owed one unlike what the last check left, or the first of a swap or
    /// a transport.
    #[serde(default)]
    pub asked_again: Option<Dials>,
    /// The reading before that one, where the two differ.
    #[serde(default)]
    pub asked_before: Option<Dials>,
    /// Its codes as they were last made.
    #[serde(default)]
    pub code: Option<MadeCode>,
    /// Checks that other tablets made, oldest first.
    #[serde(default)]
    pub handed: Vec<HandedCheck>,
    /// The last handover taken in.
    #[serde(default)]
    pub arrival: Option<Arrival>,
    /// Plugged into another box since the newest check: its thresholds say nothing there.
    #[serde(default)]
    pub another_box: bool,
    #[serde(default)]
    pub swap: Option<OpenSwap>,
    /// Its polarity was exchanged: before that it was tested otherwise.
    #[serde(default)]
    pub exchanged: Option<Moment>,
    /// Oldest first.
    #[serde(default)]
    pub swaps: Vec<SwapRecord>,
}

impl Wire {
    /// Two readings in a row are of one card.
    pub fn forget_asked(&mut self) {
        (self.asked_again, self.asked_before) = (None, None);
    }

    /// Nothing is known of it yet.
    pub fn new(
        id: u32,
        chamber: Chamber,
        kind: WireKind,
        polarity: Polarity,
        generator: String,
        added: Moment,
    ) -> Wire {
        Wire {
            id,
            chamber,
            kind,
            polarity,
            generator,
            added,
            check: None,
            records: Vec::new(),
            owed: None,
            due_now: None,
            due_since: None,
            standing: None,
            read_since: None,
            asked_again: None,
            asked_before: None,
            code: None,
            handed: Vec::new(),
            arrival: None,
            another_box: false,
            swap: None,
            exchanged: None,
            swaps: Vec::new(),
        }
    }

    /// Its own checks since its polarity was last exchanged, oldest first: like is compared with like.
    pub fn alike(&self) -> &[Record] {
        let is_before = |record: &Record| {
            self.exchanged.is_some_and(|exchanged| record.opened.wall_ms < exchanged.wall_ms)
        };
        let first = self.records.iter().rposition(is_before).map_or(0, |last| last + 1);
        &self.records[first..]
    }

    /// Nothing is open on it.
    pub fn is_free(&self) -> bool {
        self.check.is_none() && self.swap.is_none()
    }
}

/// Where the dials of a wire were read to stand outside a check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Standing {
    pub dials: Dials,
    pub printed: Printed,
    pub at: Moment,
}

/// Why a check is due before its time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum DueNow {
    Shock,
    NoBeats,
    NotFinished,
    /// A lead or wire has moved.
    LeadMoved,
    Potassium,
    RhythmDrug,
    /// Plugged into another generator.
    Generator,
    /// Read to stand elsewhere than the last check left them.
    Dials,
    /// Handed over from another tablet.
    Arrived,
    Battery,
    /// Unplugged, and back in the same generator.
    Reconnected,
    /// The patient was moved.
    Moved,
    /// Its box was opened or unplugged for another wire.
    SharedBox,
    /// Plus and minus were exchanged, or one of them was taken to another electrode.
    Polarity,
}

/// A check that somebody has begun and nobody has ended.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OpenCheck {
    pub id: Uuid,
    pub opened: Moment,
    pub facts: Facts,
    /// The card whose answer opened the present one, for a slip.
    pub before: Option<Facts>,
    pub times: Times,
    pub last: Moment,
    pub names: Names,
    pub answers: u32,
    /// How long the tablet was away, last time.
    pub away_ms: i64,
    /// How far the wall clock has jumped since the check began (on is positive), and when it last did.
    #[serde(default)]
    pub clock_jump_ms: i64,
    #[serde(default)]
    pub clock_jumped: Option<Moment>,
    /// The dials as first read, asked for once more: far from the last set, or with nothing known beside them.
    pub asked_again: Option<Dials>,
    /// The reading before that one, where the two differ.
    #[serde(default)]
    pub asked_before: Option<Dials>,
    /// The rules it began under: they hold to its end, whatever is approved meanwhile.
    #[serde(default)]
    pub rules: Box<Rules>,
    #[serde(default)]
    pub rules_hash: String,
    #[serde(default)]
    pub origin: Origin,
}

impl OpenCheck {
    /// Just begun on a patient, under no rules yet.
    pub fn new(id: Uuid, facts: Facts, opened: Moment) -> OpenCheck {
        OpenCheck {
            id,
            opened,
            facts,
            before: None,
            times: Times::default(),
            last: opened,
            names: Names::default(),
            answers: 0,
            away_ms: 0,
            clock_jump_ms: 0,
            clock_jumped: None,
            asked_again: None,
            asked_before: None,
            rules: Box::default(),
            rules_hash: String::new(),
            origin: Origin::Care,
        }
    }
}

/// On whom a check is made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Origin {
    /// A patient.
    #[default]
    Care,
    /// A simulated one.
    Practice,
}

/// Who was named in a check, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Names {
    pub accepted_by: Option<String>,
    pub clinician: Option<String>,
    pub ordered_by: Option<String>,
    pub reason: Option<String>,
    pub told: Option<String>,
    /// The reason stands for a reading that was not done, not for one that differed.
    #[serde(default)]
    pub not_read: bool,
}
