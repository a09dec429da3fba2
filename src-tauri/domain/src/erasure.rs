//! Which entries of a record hold something of which patient, and the state without one.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use crate::event::{Event, What};
use crate::state::State;
use crate::state::screen::Screen;

/// Is shown every entry that stands, in order.
#[derive(Debug, Default)]
pub struct Scope {
    /// Who lies in which bed at this point of the record.
    beds: BTreeMap<u32, Uuid>,
    entries: BTreeMap<Uuid, BTreeSet<u32>>,
    /// Whole states: each holds everybody there was.
    folded: BTreeSet<u32>,
    /// Codes that came, by their number: nobody's until they are taken in.
    loads: BTreeMap<u32, BTreeSet<u32>>,
    /// The newest of them.
    load: Option<u32>,
}

impl Scope {
    pub fn see(&mut self, seq: u32, event: &Event) {
        match (&event.what, event.what.bed()) {
            (What::Folded(state), _) => {
                self.folded.insert(seq);
                self.beds = state.beds.iter().map(|bed| (bed.id, bed.patient)).collect();
                self.load = state.loading.as_ref().map(|loading| loading.id);
            }
            (What::LoadBegun { load, .. } | What::LoadEnded { load, .. }, _) => {
                self.loads.entry(*load).or_default().insert(seq);
                self.load = Some(*load);
            }
            (What::HandoverTaken { .. }, Some(bed)) => {
                self.holds(bed, seq);
                let taken = self.load.take().and_then(|load| self.loads.remove(&load));
                taken.into_iter().flatten().for_each(|seq| self.holds(bed, seq));
            }
            (What::BedAdded { patient, .. }, Some(bed)) => {
                self.beds.insert(bed, *patient);
                self.holds(bed, seq);
            }
            (What::PatientArrived { patient, .. } | What::BedEmptied { patient, .. }, Some(bed)) => {
                self.beds.insert(bed, *patient);
            }
            (_, Some(bed)) => self.holds(bed, seq),
            (_, None) => {}
        }
    }

    fn holds(&mut self, bed: u32, seq: u32) {
        if let Some(patient) = self.beds.get(&bed) {
            self.entries.entry(*patient).or_default().insert(seq);
        }
    }

    /// Every entry that goes with this patient; whole states before `newest`, the one that takes their place; and
    /// codes that nobody took in, which may be of anybody.
    pub fn of(&self, patient: Uuid, newest: u32) -> BTreeSet<u32> {
        let own = self.entries.get(&patient).into_iter().flatten().copied();
        let loads = self.loads.values().flatten().copied();
        own.chain(self.folded.iter().copied().filter(|seq| *seq < newest)).chain(loads).collect()
    }
}

/// The state as it is once nothing of this patient is kept: closed or, in a record older than the erasure, still in
/// a bed. That bed goes as a whole, since its label was typed for them and whatever it holds is theirs.
pub fn without(mut state: State, patient: Uuid) -> State {
    state.closed.retain(|closed| closed.patient != patient);
    let beds = state.beds.len();
    state.beds.retain(|bed| bed.patient != patient);
    if state.beds.len() < beds {
        // The card may have been of that bed. A practice stands in none.
        state.screen = Screen::Beds;
    }
    state
}
