//! Breadth first over every state that a swap can reach, each answer of the whole alphabet tried at each.

use std::collections::{HashMap, HashSet, VecDeque};

use domain::check::facts::{ASYNCHRONOUS, Dial, Dials};
use domain::command::Command;
use domain::contract::Shape;
use domain::profile::Profile;
use domain::say::Say;
use domain::state::bed::DueNow;
use domain::state::swap::Outcome;
use domain::swap::answer::Answer;
use domain::swap::facts::{Facts, Place};
use domain::swap::offer::has_safety;
use domain::swap::step::Step;
use domain::{State, due, view};

use super::book::{AT_FIRST, Book, Pins, Said};
use crate::made::{BED, OTHER, TAPS, WIRE, WORLDS, World, at, before, facts, send};

/// With what a slip goes back to, on both sides.
type Key = (Facts, Option<Facts>, Book, Option<Book>, u8);

/// What is done to a card, as a command with its fields.
type Deed = (Said, Command, Vec<(&'static str, String)>);

/// The book, the one before the last answer, and how many slips and sleeps there were.
type Known = (Book, Option<Book>, u8);

/// What is tried beside the plain answers: all together the states grow past what a test can wait for.
#[derive(Clone, Copy, Debug)]
struct Bound {
    slips: bool,
    sleeps: bool,
    /// Slips and sleeps of one walk.
    most: u8,
}

impl Bound {
    fn takes(self, said: Said, spent: u8) -> bool {
        match said {
            Said::Slept { .. } => self.sleeps && spent < self.most,
            Said::Tapped(Answer::Slip) => self.slips && spent < self.most,
            Said::Tapped(_) | Said::ReadRight | Said::ReadOther | Said::Picked | Said::Time => true,
        }
    }
}

struct Walk {
    world: World,
    bound: Bound,
    seen: HashMap<Key, usize>,
    /// From each state where one can go; `None` at the end.
    ways: Vec<Vec<usize>>,
    ends: HashSet<usize>,
    steps: HashSet<Step>,
    queue: VecDeque<(State, Known, usize)>,
    answers: usize,
}

impl Walk {
    fn over(world: World, bound: Bound) -> Walk {
        let mut walk = Walk {
            world,
            bound,
            seen: HashMap::new(),
            ways: Vec::new(),
            ends: HashSet::new(),
            steps: HashSet::new(),
            queue: VecDeque::new(),
            answers: 0,
        };
        walk.enter(world.begun(), (AT_FIRST, None, 0));
        while let Some((state, known, place)) = walk.queue.pop_front() {
            walk.visit(&state, known, place);
        }
        walk
    }

    fn enter(&mut self, state: State, (book, earlier, spent): Known) -> usize {
        let before = before(&state).filter(|_| self.bound.slips && spent < self.bound.most);
        let key = (facts(&state).unwrap(), before, book, earlier.filter(|_| before.is_some()), spent);
        if let Some(known) = self.seen.get(&key) {
            return *known;
        }
        let place = self.ways.len();
        self.steps.insert(key.0.step);
        self.seen.insert(key, place);
        self.ways.push(Vec::new());
        self.queue.push_back((state, (book, earlier, spent), place));
        place
    }

    fn visit(&mut self, state: &State, (book, earlier, spent): Known, place: usize) {
        let card = facts(state).unwrap();
        self.safety(state, &card);
        let mut acted = false;
        for (said, command, values) in self.deeds(state, &card) {
            if !self.bound.takes(said, spent) {
                continue;
            }
            let pairs: Vec<_> = values.iter().map(|(k, v)| (*k, v.as_str())).collect();
            let now = match said {
                Said::Time => due(state).map_or(0, |due| due - at(0).boot_ms),
                Said::Slept { long } => {
                    if long {
                        900_000
                    } else {
                        20_000
                    }
                }
                Said::Tapped(_) | Said::ReadRight | Said::ReadOther | Said::Picked => 0,
            };
            let Ok(next) = send(state, command, &pairs, at(now)) else { continue };
            self.answers += 1;
            let Some(came) = facts(&next) else {
                assert!(!book.is_off() || ended_safe(&card), "ended without a box: {card:?} {said:?}");
                the_other_wire_is_owed(&next, book);
                self.ends.insert(place);
                acted = true;
                continue;
            };
            if came == card && before(&next) == before(state) {
                continue;
            }
            acted |= !matches!(said, Said::Slept { .. } | Said::Time);
            let after = book.turned(earlier, &card, said, &came);
            judge(&card, book, said, &came, after, self.tops(state));
            let deviates = matches!(said, Said::Slept { .. } | Said::Tapped(Answer::Slip));
            // Any number is not counted.
            let counts = deviates && self.bound.most < u8::MAX;
            let spent = spent + u8::from(counts);
            let to = self.enter(next, (after, kept(book, earlier, (&card, &came), said), spent));
            self.ways[place].push(to);
        }
        assert!(acted, "a card without a way on: {card:?}");
    }

    fn safety(&self, state: &State, card: &Facts) {
        let shown = view(state, at(0));
        let no_beats = Command::Swap(Answer::NoBeats);
        let as_answer = shown.answers.iter().any(|act| act.command == no_beats);
        let touches = !matches!(card.step, Step::Look | Step::UseBox | Step::Blocked);
        assert_eq!(shown.safety.is_some(), touches, "NO BEATS and Something is wrong: {:?}", card.step);
        assert_eq!(has_safety(card), touches);
        assert!(card.step != Step::Look || as_answer, "NO BEATS at the first look");
        let lesser = shown.safety.iter().flat_map(|safety| [&safety.wrong, &safety.slip]).flatten();
        if let (Step::Guarded, Place::New, Shape::List(list)) = (card.step, card.place, &shown.shape) {
            let off = list.items.iter().any(|item| item.text == Say::SwapOldOff);
            assert_eq!(off, !card.shared, "the old box goes off, but not under another wire");
        }
        for act in shown.answers.iter().chain(lesser) {
            let typed = act.with_fields || send(state, act.command.clone(), &[], at(0)).is_ok();
            assert!(typed, "a button that does nothing: {:?} on {card:?}", act.key);
        }
    }

    /// The whole alphabet, as commands.
    fn deeds(&self, state: &State, card: &Facts) -> Vec<Deed> {
        let tap = |answer: Answer| match (card.step, answer) {
            (Step::Order | Step::Reason, Answer::Yes) => {
                let values = [("name", "Dr Example"), ("reason", "The dial is covered")];
                let values = values.map(|(id, text)| (id, text.to_owned())).to_vec();
                (Said::Tapped(answer), Command::SwapNamed(answer), values)
            }
            (_, Answer::Picked) => {
                (Said::Picked, Command::SwapPicked, vec![("generator", self.world.new.to_owned())])
            }
            _ => (Said::Tapped(answer), Command::Swap(answer), Vec::new()),
        };
        let mut deeds: Vec<_> =
            TAPS.into_iter().filter(|tap| !matches!(tap, Answer::Time(_))).map(tap).collect();
        deeds.push((Said::Time, Command::TimePassed, Vec::new()));
        deeds.push((Said::Slept { long: false }, Command::Woke { alive: at(0) }, Vec::new()));
        deeds.push((Said::Slept { long: true }, Command::Woke { alive: at(0) }, Vec::new()));
        deeds.extend(self.readings(state, card));
        let both = Said::Tapped(Answer::Yes);
        deeds.retain(|(said, ..)| self.world.shares || (card.step, *said) != (Step::Shared, both));
        deeds
    }

    fn readings(&self, state: &State, card: &Facts) -> Vec<Deed> {
        let printed = |profile: &Profile, dials: Dials| {
            let mv = match dials.mv {
                ASYNCHRONOUS => "asynchronous".to_owned(),
                at => profile.mv_text(at).to_owned(),
            };
            let (output, rate) = (profile.output_text(dials.output), profile.rate_text(dials.rate));
            vec![("output", output.to_owned()), ("rate", rate.to_owned()), ("mv", mv)]
        };
        let on_new = card.step == Step::ReadNew || card.place == Place::New;
        let profile = state.generator(if on_new { self.world.new } else { self.world.old }).unwrap();
        let found = self.found(state);
        let lower = |at: u8| if at == 0 { 1 } else { at - 1 };
        let beside =
            |dials: Dials| dials.with(Dial::Output, lower(dials.output)).with(Dial::Rate, lower(dials.rate));
        // Two readings of each box, no more: else the dials drift through every position.
        let (right, other) = match (on_new, card.old) {
            (true, _) => (card.new, beside(card.new)),
            (false, old) if old == beside(found) => (old, found),
            (false, _) => (found, beside(found)),
        };
        let typed = |said, dials| (said, Command::SwapTypedDials, printed(profile, dials));
        let readings = [typed(Said::ReadRight, right), typed(Said::ReadOther, other)];
        let once = card.old == Dials::UNREAD && !on_new;
        readings.into_iter().take(if once { 1 } else { 2 }).collect()
    }

    fn found(&self, state: &State) -> Dials {
        let old = state.generator(self.world.old).unwrap();
        let [output, rate, mv] = self.world.found;
        let mv = if mv == "asynchronous" { ASYNCHRONOUS } else { old.read_mv(mv).unwrap() };
        Dials { output: old.read_output(output).unwrap(), rate: old.read_rate(rate).unwrap(), mv }
    }

    /// The highest OUTPUT position of both boxes.
    fn tops(&self, state: &State) -> (u8, u8) {
        let top = |id| state.generator(id).unwrap().output_last();
        (top(self.world.old), top(self.world.new))
    }

    /// Backward from the ends.
    fn without_end(&self) -> usize {
        let mut back = vec![Vec::new(); self.ways.len()];
        for (from, tos) in self.ways.iter().enumerate() {
            tos.iter().for_each(|to| back[*to].push(from));
        }
        let mut reached = self.ends.clone();
        let mut queue: Vec<usize> = self.ends.iter().copied().collect();
        while let Some(place) = queue.pop() {
            for from in &back[place] {
                if reached.insert(*from) {
                    queue.push(*from);
                }
            }
        }
        self.ways.len() - reached.len()
    }
}

/// What a slip goes back to: a slip and a break use it up; a side card and time keep it.
fn kept(book: Book, earlier: Option<Book>, (card, came): (&Facts, &Facts), said: Said) -> Option<Book> {
    match said {
        Said::Slept { .. } | Said::Tapped(Answer::Slip) => None,
        Said::Time | Said::Tapped(Answer::Wrong) => earlier,
        Said::Tapped(Answer::Back) if card.step == Step::Wrong => earlier,
        _ if came == card => earlier,
        _ => Some(book),
    }
}

/// The last card was a reading, or the pins were said to be in a running box.
fn ended_safe(card: &Facts) -> bool {
    !card.is_off()
}

/// A wire in the box that was opened, or turned up in trouble: its dials are owed and a check is due; no other's.
fn the_other_wire_is_owed(ended: &State, book: Book) {
    let Some(other) = ended.wire(BED, OTHER) else { return };
    let record = ended.wire(BED, WIRE).unwrap().swaps.last().unwrap();
    let opened = record.outcome != Outcome::NothingChanged;
    assert!(!opened || book.shared || other.owed.is_none(), "owed of a wire in another box: {record:?}");
    assert!(!(opened && book.shared) || other.owed.is_some(), "not read, and not owed: {record:?}");
    assert_eq!(other.due_now, other.owed.map(|_| DueNow::SharedBox), "{record:?}");
}

/// What must hold of one answer and the card that came.
fn judge(card: &Facts, book: Book, said: Said, came: &Facts, after: Book, tops: (u8, u8)) {
    let what = format!("{said:?} on {:?} opens {:?}\n{card:?}\n{book:?}\n{after:?}", card.step, came.step);
    opens_nothing_without_standby(card, (book, after), came, tops, &what);
    first_safe_act(card, book, said, came, tops, &what);
    if came.step == Step::Move && card.step != Step::Move {
        let only_back = matches!(card.step, Step::Wrong | Step::AwayLook);
        assert!(after.new_read || only_back, "the new box runs, is set and was read: {what}");
        assert!(book.old_runs || card.is_off(), "the old box runs: {what}");
    }
    shared_box(card, (book, after), said, came, &what);
    if matches!(said, Said::Slept { .. }) {
        assert_eq!(came.step, Step::AwayLook, "the patient first: {what}");
    }
    if after.pins_unknown {
        assert!(waits_for_the_pins(came.step), "goes on with pins that nobody has traced: {what}");
    }
    if came.step == Step::Guarded {
        assert!(!after.is_off(), "the old box is switched off beside a box that runs: {what}");
    }
    if matches!(came.step, Step::NewRate | Step::NewOutput | Step::NewMv) {
        assert!(after.old_read, "N1: a dial is set before the old ones were read: {what}");
    }
    if matches!(card.step, Step::NewRate | Step::NewOutput | Step::NewMv | Step::ReadNew | Step::Sound) {
        let elsewhere = !matches!(book.pins, Pins::Old);
        assert!(!elsewhere, "the new box is set while the pins are in the old one: {what}");
    }
}

/// A box in which another wire is. N14: never are both without a running box but over own beats without a spike of
/// either, with standby pacing; the old box is not switched off under the other.
fn shared_box(card: &Facts, (book, after): (Book, Book), said: Said, came: &Facts, what: &str) {
    assert_eq!(came.shared, after.shared, "which wires are in the box: {what}");
    if !after.shared {
        return;
    }
    let goes_back = matches!(card.step, Step::Wrong | Step::AwayLook | Step::BatteryOut);
    if came.step == Step::BatteryOut && !goes_back {
        assert!(after.own && after.is_covered(), "N14: both wires stop under a paced patient: {what}");
    }
    if (card.step, said) == (Step::Guarded, Said::Tapped(Answer::AllTrue)) {
        assert_eq!(after.old_runs, book.old_runs, "the old box is switched off under the other wire: {what}");
        assert_eq!(came.old_on, card.old_on, "{what}");
    }
}

/// Trouble is met at once, wherever the pins are; all else waits until they were traced.
fn waits_for_the_pins(step: Step) -> bool {
    use Step as S;
    matches!(
        step,
        S::AwayLook
            | S::AwayWhere
            | S::Wrong
            | S::NoBeats
            | S::Maximum
            | S::StandbyNow
            | S::Emergency
            | S::Arrest
            | S::BackToOld
            | S::BatteryBack
            | S::BoxDead
    )
}

/// A card that asks for a connection to be opened: standby pacing covers this patient, or nothing paces there: no
/// box runs, or its maximum has just made no beats.
fn opens_nothing_without_standby(
    card: &Facts,
    (book, after): (Book, Book),
    came: &Facts,
    tops: (u8, u8),
    what: &str,
) {
    let unplugs = match came.step {
        Step::Move | Step::BatteryOut => came.step != card.step,
        // Found in neither box, they are not unplugged any more.
        Step::BackToOld => book.pins == Pins::New && card.step != Step::AwayWhere,
        _ => false,
    };
    let gave_all = book.maximum || card.new.output == tops.1 || card.step == Step::StandbyNow;
    let paces_nothing = book.is_off() || (after.lost && gave_all);
    assert!(!unplugs || after.is_covered() || paces_nothing, "unplugs without standby pacing: {what}");
}

/// The table of first acts, written a second time: by where the pins are and what was already tried.
fn first_safe_act(card: &Facts, book: Book, said: Said, came: &Facts, tops: (u8, u8), what: &str) {
    let is_there_already =
        matches!(card.step, Step::NoBeats | Step::StandbyNow | Step::Emergency | Step::Arrest);
    if said != Said::Tapped(Answer::NoBeats) || is_there_already {
        return;
    }
    let stands = if book.pins == Pins::New { card.new.output } else { card.old.output };
    let at_top = book.maximum || stands == if book.pins == Pins::New { tops.1 } else { tops.0 };
    let wanted = match (book.is_off(), at_top) {
        (false, false) => Step::NoBeats,
        (true, _) | (false, true) => Step::StandbyNow,
    };
    assert_eq!(came.step, wanted, "the first safe act: {what}");
}

const PLAIN: Bound = Bound { slips: false, sleeps: false, most: 0 };
const SLIPS: Bound = Bound { slips: true, sleeps: false, most: 1 };
const SLEEPS: Bound = Bound { slips: false, sleeps: true, most: 1 };

fn walk(worlds: &[(World, Bound)]) -> HashSet<Step> {
    let mut steps = HashSet::new();
    for (world, bound) in worlds {
        let walk = Walk::over(*world, *bound);
        println!("{world:?} {bound:?}: {} states, {} answers taken", walk.ways.len(), walk.answers);
        assert_eq!(walk.without_end(), 0, "states from which a swap cannot end");
        steps.extend(walk.steps);
    }
    steps
}

#[test]
fn no_way_without_end_nothing_unplugged_without_standby_the_first_act_always() {
    let [same_unit, _, to_volts, refused, battery, _] = WORLDS;
    let worlds = [
        (same_unit, SLIPS),
        (same_unit, SLEEPS),
        (to_volts, PLAIN),
        (refused, PLAIN),
        (battery, PLAIN),
        (same_unit.shared(), PLAIN),
        (battery.shared(), PLAIN),
    ];
    let steps = walk(&worlds);
    let unmet: Vec<_> = ALL.into_iter().filter(|step| !steps.contains(step)).collect();
    assert!(unmet.is_empty(), "no state of {unmet:?}");
}

#[test]
fn nothing_unplugged_without_standby_after_a_slip() {
    let [same_unit, ..] = WORLDS;
    walk(&[(same_unit, SLIPS)]);
}

#[test]
#[ignore = "minutes: make prove"]
fn every_world_with_slips_and_with_sleeps() {
    let any = |bound: Bound| Bound { most: u8::MAX, ..bound };
    let [same_unit, .., battery, _] = WORLDS;
    let shared = [same_unit.shared(), battery.shared()];
    let wide = WORLDS.into_iter().chain(shared).flat_map(|world| [(world, any(SLIPS)), (world, any(SLEEPS))]);
    walk(&wide.collect::<Vec<_>>());
}

const ALL: [Step; 37] = {
    use Step::*;
    [
        Look,
        Shared,
        Order,
        UseBox,
        ReadOld,
        PickBox,
        Sound,
        NewOn,
        NewMode,
        NewRate,
        NewOutput,
        NewMv,
        ReadNew,
        NewDiffers,
        Standby,
        Ready,
        Move,
        LookNew,
        BatteryOut,
        BatteryBack,
        LookBattery,
        BoxDead,
        Guarded,
        ReadEnd,
        EndDiffers,
        Reason,
        NoBeats,
        Maximum,
        StandbyNow,
        BackToOld,
        LookBack,
        Emergency,
        Arrest,
        Wrong,
        AwayLook,
        AwayWhere,
        Blocked,
    ]
};
