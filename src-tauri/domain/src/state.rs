//! Everything the tablet knows: a fold of the journal, nothing else.

pub mod bed;
pub mod screen;
pub mod swap;
pub mod times;
pub mod transport;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::command::Language;
use crate::contract::{Hand, Light, Look};
use crate::handover::arrived::Loading;
use crate::handover::tablet::{KnownTablet, OwnKey, Tablet};
use crate::leaving::{Closed, Erasing, Erasure, NotRestorable, Restorable, Writing, Written};
use crate::library::{LetIn, Offered};
use crate::moment::Moment;
use crate::practice::{PRACTICE_BED, PRACTICE_WIRE, Practice, PracticeRun};
use crate::profile::Profile;
use crate::rules::Rules;
use crate::teaching::Teaching;
use bed::{Bed, OpenCheck, Wire};
use screen::Screen;
use swap::OpenSwap;
use transport::OpenTransport;

/// See the module.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct State {
    /// The first page (what this is, and is not) has been read.
    pub welcomed: bool,
    pub look: Look,
    pub language: Language,
    /// In force for checks that open from now on.
    pub rules: Rules,
    /// The shipped rules were let in by nobody.
    #[serde(default)]
    pub rules_let_in: Option<LetIn>,
    /// In the order in which they were let in; none is ever replaced: old records count its positions.
    pub generators: Vec<Profile>,
    /// By the id of the profile.
    #[serde(default)]
    pub generators_let_in: BTreeMap<String, LetIn>,
    /// Handed in, and waiting for a name.
    #[serde(default)]
    pub offered: Option<Offered>,
    /// Educators, and what they signed.
    #[serde(default)]
    pub teaching: Teaching,
    #[serde(default)]
    pub own_key: OwnKey,
    /// By the names that people here gave them, in the order in which they came.
    #[serde(default)]
    pub known_tablets: Vec<KnownTablet>,
    /// The code that is being loaded, until it is taken or left.
    #[serde(default)]
    pub loading: Option<Loading>,
    #[serde(default)]
    pub next_load: u32,
    /// The code on the screen is to be made anew.
    #[serde(default)]
    pub code_wanted: bool,
    /// Files asked for and not yet there.
    #[serde(default)]
    pub writing: Option<Writing>,
    /// How the last writing ended.
    #[serde(default)]
    pub written: Option<(Writing, Written)>,
    /// Patients who have left, longest ago first.
    #[serde(default)]
    pub closed: Vec<Closed>,
    #[serde(default)]
    pub erasing: Option<Erasing>,
    /// The proofs, oldest first.
    #[serde(default)]
    pub erased: Vec<Erasure>,
    /// A backup that was read, and waits for a yes.
    #[serde(default)]
    pub restorable: Option<Restorable>,
    /// The yes was said and it is not yet done.
    #[serde(default)]
    pub restoring: bool,
    /// Why the last restore left everything as it was.
    #[serde(default)]
    pub not_restored: Option<NotRestorable>,
    pub beds: Vec<Bed>,
    pub next_bed: u32,
    /// A simulated patient at hand. Never while a check on a patient is open.
    #[serde(default)]
    pub practice: Option<Box<Practice>>,
    /// Ended runs, oldest first.
    #[serde(default)]
    pub runs: Vec<PracticeRun>,
    pub screen: Screen,
    /// Identifies the card on the screen.
    pub card: u32,
    /// When this card was first shown; when its good answer opened.
    pub card_at: Option<Moment>,
    pub good_at: Option<Moment>,
    /// The last instant the journal knows.
    pub last: Option<Moment>,
}

impl Default for State {
    fn default() -> State {
        State {
            welcomed: false,
            look: Look { light: Light::Night, text_percent: 100, hand: Hand::Right, still: false },
            language: Language::English,
            rules: Rules::example(),
            rules_let_in: None,
            generators: Vec::new(),
            generators_let_in: BTreeMap::new(),
            offered: None,
            teaching: Teaching::default(),
            own_key: OwnKey::default(),
            known_tablets: Vec::new(),
            loading: None,
            next_load: 0,
            code_wanted: false,
            writing: None,
            written: None,
            closed: Vec::new(),
            erasing: None,
            erased: Vec::new(),
            restorable: None,
            restoring: false,
            not_restored: None,
            beds: Vec::new(),
            next_bed: 1,
            practice: None,
            runs: Vec::new(),
            screen: Screen::Welcome,
            card: 0,
            card_at: None,
            good_at: None,
            last: None,
        }
    }
}

impl State {
    pub fn bed(&self, bed: u32) -> Option<&Bed> {
        self.beds.iter().find(|b| b.id == bed)
    }

    pub fn wire(&self, bed: u32, wire: u32) -> Option<&Wire> {
        self.bed(bed)?.wires.iter().find(|w| w.id == wire)
    }

    pub fn wire_mut(&mut self, bed: u32, wire: u32) -> Option<&mut Wire> {
        self.beds.iter_mut().find(|b| b.id == bed)?.wires.iter_mut().find(|w| w.id == wire)
    }

    pub fn generator(&self, id: &str) -> Option<&Profile> {
        self.generators.iter().find(|profile| profile.id == id)
    }

    /// The name that somebody here gave that tablet.
    pub fn name_of(&self, tablet: &Tablet) -> Option<&str> {
        self.known_tablets.iter().find(|known| known.tablet == *tablet).map(|known| known.name.as_str())
    }

    /// The hash of the rules in force; their name where nobody has let them in.
    pub fn rules_hash(&self) -> &str {
        self.rules_let_in.as_ref().map_or(&self.rules.id, |let_in| &let_in.hash)
    }

    /// The wire a check is made on: a patient's, or that of the practice.
    pub fn checked_wire(&self, bed: u32, wire: u32) -> Option<&Wire> {
        if bed == PRACTICE_BED { self.practice.as_ref().map(|open| &open.wire) } else { self.wire(bed, wire) }
    }

    pub fn checked_wire_mut(&mut self, bed: u32, wire: u32) -> Option<&mut Wire> {
        if bed == PRACTICE_BED {
            return self.practice.as_mut().map(|open| &mut open.wire);
        }
        self.wire_mut(bed, wire)
    }

    /// The open check on the screen, with where it is.
    #[allow(clippy::wildcard_enum_match_arm, reason = "two screens show a check")]
    pub fn check_on_screen(&self) -> Option<(u32, u32, &Wire, &OpenCheck)> {
        let (bed, wire) = match self.screen {
            Screen::Check { bed, wire } if bed != PRACTICE_BED => (bed, wire),
            Screen::Practising => (PRACTICE_BED, PRACTICE_WIRE),
            _ => return None,
        };
        let found = self.checked_wire(bed, wire)?;
        Some((bed, wire, found, found.check.as_ref()?))
    }

    /// The check of a practice that is not paused.
    pub fn practised_check(&self) -> Option<(u32, u32, &Wire, &OpenCheck)> {
        let open = self.practice.as_ref().filter(|open| open.paused.is_none())?;
        Some((PRACTICE_BED, PRACTICE_WIRE, &open.wire, open.wire.check.as_ref()?))
    }

    pub fn run(&self, id: uuid::Uuid) -> Option<&PracticeRun> {
        self.runs.iter().find(|run| run.id == id)
    }

    /// Nothing of a patient, a unit or a learner is or was on it: a backup may take its place.
    pub fn is_untouched(&self) -> bool {
        let unit = self.rules_let_in.is_some() || !self.generators_let_in.is_empty();
        let taught = !self.teaching.educators.is_empty() || !self.runs.is_empty() || self.practice.is_some();
        let handed = !self.known_tablets.is_empty() || self.loading.is_some() || self.next_load > 0;
        self.next_bed == 1 && !unit && !taught && !handed
    }

    /// The open swap on the screen, with where it is.
    pub fn swap_on_screen(&self) -> Option<(u32, u32, &Wire, &OpenSwap)> {
        let Screen::Swap { bed, wire } = self.screen else { return None };
        let found = self.wire(bed, wire)?;
        Some((bed, wire, found, found.swap.as_ref()?))
    }

    /// Every open swap on the tablet.
    pub fn open_swaps(&self) -> impl Iterator<Item = (u32, u32, &Wire, &OpenSwap)> {
        self.beds.iter().flat_map(|bed| {
            bed.wires.iter().filter_map(|wire| Some((bed.id, wire.id, wire, wire.swap.as_ref()?)))
        })
    }

    /// The open transport on the screen, with its bed.
    pub fn transport_on_screen(&self) -> Option<(&Bed, &OpenTransport)> {
        let Screen::Transport { bed } = self.screen else { return None };
        let found = self.bed(bed)?;
        Some((found, found.transport.as_ref()?))
    }

    /// Every open transport on the tablet.
    pub fn open_transports(&self) -> impl Iterator<Item = (&Bed, &OpenTransport)> {
        self.beds.iter().filter_map(|bed| Some((bed, bed.transport.as_ref()?)))
    }

    pub fn bed_mut(&mut self, bed: u32) -> Option<&mut Bed> {
        self.beds.iter_mut().find(|b| b.id == bed)
    }

    /// A person is in the middle of something that the tablet must come back to.
    pub fn is_at_work(&self) -> bool {
        self.open_checks().next().is_some()
            || self.open_swaps().next().is_some()
            || self.open_transports().next().is_some()
    }

    /// Every open check on a patient.
    pub fn open_checks(&self) -> impl Iterator<Item = (u32, u32, &Wire, &OpenCheck)> {
        self.beds.iter().flat_map(|bed| {
            bed.wires.iter().filter_map(|wire| Some((bed.id, wire.id, wire, wire.check.as_ref()?)))
        })
    }
}
