//! What must hold after a death, told from the record and the next start alone.

use std::path::Path;

use domain::State;
use domain::check::facts::Facts;
use domain::check::step::{Stage, Step};

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;
use crate::recording::events;

/// What the child had said when it died.
pub struct Acknowledged {
    /// The newest card on the glass.
    pub card: Option<u32>,
    /// No clock of the child can have stood later.
    pub latest_ms: i64,
}

impl Acknowledged {
    pub fn read(said: &str, start_ms: i64) -> Acknowledged {
        // The last line may be torn; only what a line end closes was said.
        let whole = said.rsplit_once('\n').map_or("", |(whole, _)| whole);
        let last = |word: &str| whole.lines().filter_map(|line| line.strip_prefix(word)).next_back();
        Acknowledged {
            card: last("card ").map(|card| card.parse().unwrap()),
            latest_ms: last("until ").map_or(start_ms + 400, |until| until.parse().unwrap()),
        }
    }
}

fn state(folder: &Path) -> State {
    events(folder).iter().fold(State::default(), domain::apply)
}

/// The record holds, lacks nothing that was shown, and the next start says what it must. Whether
/// the death fell into an open check with its dials read.
pub fn expect_recovered(folder: &Path, acknowledged: &Acknowledged, gap_ms: i64) -> bool {
    let clock = HandClock::at(acknowledged.latest_ms + gap_ms);
    let before = if folder.join("journal.sqlite3").exists() { state(folder) } else { State::default() };
    if let Some(card) = acknowledged.card {
        assert!(before.card >= card, "card {card} was shown; the record ends at card {}", before.card);
    }
    let nurse = Nurse::start(folder, &clock);
    let shown = nurse.view.card;
    nurse.session.close();
    let after = state(folder);
    assert_eq!(shown, after.card);
    let open = before.open_checks().next().map(|(bed, wire, _, open)| (bed, wire, open.facts));
    let Some((bed, wire, facts)) = open else { return false };
    let resumed = after.check_on_screen().map(|(bed, wire, _, open)| (bed, wire, open.facts.step));
    let Some((on_bed, on_wire, step)) = resumed else {
        panic!("an open check, and another screen: {:?}", after.screen)
    };
    assert_eq!((on_bed, on_wire), (bed, wire));
    // Too long before the first reading: what was asked is asked anew.
    if !facts.dials_read() && gap_ms > 900_000 && facts.step.stage() == Some(Stage::Ready) {
        assert!(matches!(step, Step::Order | Step::SamePatient), "from {:?}: {step:?}", facts.step);
        return false;
    }
    if !facts.dials_read() || stands_by_itself(facts.step) {
        assert_eq!(step, facts.step, "nothing to resume");
        return facts.dials_read();
    }
    let right = if gap_ms < 60_000 {
        !is_search(step)
    } else if gap_ms > 900_000 {
        step == Step::ReadAfter
    } else if reads_anew(&facts) {
        // A reading that commands no dial is still owed as it was.
        step == facts.step
    } else {
        step == Step::AwayRead
    };
    assert!(right, "away {gap_ms} ms from {:?}: {step:?}", facts.step);
    true
}

/// Cards that already say the first act, or that the check has ended on.
fn stands_by_itself(step: Step) -> bool {
    use Step::{Arrest, Done, Emergency, Ended, NoBeats, NoSpikes};
    matches!(step, Done | Ended | NoBeats | NoSpikes | Emergency | Arrest)
}

/// The dials are being read as they stand: on this card, or on the one under it.
fn reads_anew(facts: &Facts) -> bool {
    let (step, from) =
        if facts.step.is_side() { (facts.from, facts.came_from) } else { (facts.step, facts.from) };
    step == Step::ReadAfter || (step == Step::Reason && from == Step::ReadAfter)
}

/// Cards that go on with a test: never the first one after somebody was away.
fn is_search(step: Step) -> bool {
    use Step::*;
    matches!(
        step,
        OwnDown
            | BlindRateUp
            | BlindMvDown
            | OwnHold
            | SenseRate
            | SenseMinimum
            | SenseUp
            | SenseDown
            | CaptureRate
            | CaptureDown
            | CaptureUp
            | CaptureCount
            | MarginOne
            | MarginHalf
    )
}
