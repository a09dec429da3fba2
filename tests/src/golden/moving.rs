//! Every card of a change of box or battery and of a transport, by nothing but what each view offers: of each kind
//! the longest.

use std::collections::{BTreeMap, HashSet, VecDeque};

use domain::check::facts::{ASYNCHRONOUS, Dials};
use domain::command::Command;
use domain::contract::{Act, Row, Sent, Shape, View};
use domain::moment::Moment;
use domain::profile::Profile;
use domain::record::Record;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::swap::facts::{Facts as Swap, Place, Work};
use domain::swap::step::Step;
use domain::transport::facts::Facts as Transport;
use domain::{State, apply, decide, due, view};

use super::limits::acts;
use super::pick::{kebab, length};
use super::screens::{Named, named, show};
use super::ward::{checked, longest};
use super::worlds::{CARD, NAME, add_wire, at, tell};

const PLACE: &str = "Cardiac theatre 4, level 2, west wing";

type Values = Vec<(&'static str, String)>;

/// Where a swap or a transport stands: what goes on from here.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Stand {
    Swap(Swap),
    /// With whether the wire was read to stand elsewhere.
    Transport(Transport, bool),
}

pub fn moving(records: &[Record]) -> Named {
    let record = longest(records);
    let ward = || checked(std::slice::from_ref(&record));
    let mut longest_of: BTreeMap<String, (usize, View<Say>)> = BTreeMap::new();
    let mut keep = |name: String, view: View<Say>| {
        let size = length(&view);
        if longest_of.get(&name).is_none_or(|(known, _)| size > *known) {
            longest_of.insert(name, (size, view));
        }
    };
    // Of the second and third the box may pace another wire too.
    let shared = || add_wire(ward(), 1, "atrium", &record.generator);
    for (begun, work, new) in [
        (ward(), Work::Box, "example-volts"),
        (shared(), Work::Box, "example-mixed-current"),
        (shared(), Work::Battery, "example-volts"),
    ] {
        let begun = tell(begun, Command::BeginSwap { bed: 1, wire: 1, work }, &[], at(0));
        search(begun, new, &mut keep);
    }
    search(tell(ward(), Command::BeginTransport { bed: 1 }, &[], at(0)), "", &mut keep);
    let mut views = named([
        ("new-swap", show(ward(), Screen::NewSwap { bed: 1, wire: 1 })),
        ("bed-on-the-way", bed_on_the_way(ward())),
        ("beds-on-the-way", View { card: CARD, ..beds_on_the_way(ward()) }),
    ]);
    views.extend(longest_of.into_iter().map(|(name, (_, view))| (format!("screen-{name}"), view)));
    views
}

fn on_the_way(state: State) -> State {
    let state = tell(state, Command::BeginTransport { bed: 1 }, &[], at(0));
    tell(state, Command::TransportGoing, &[("target", "theatre"), ("destination", PLACE)], at(0))
}

fn bed_on_the_way(state: State) -> View<Say> {
    show(on_the_way(state), Screen::Bed { bed: 1 })
}

fn beds_on_the_way(state: State) -> View<Say> {
    show(on_the_way(state), Screen::Beds)
}

fn search(begun: State, new: &str, keep: &mut impl FnMut(String, View<Say>)) {
    let mut seen = HashSet::new();
    let mut troubled = HashSet::new();
    let mut queue = VecDeque::from([begun]);
    while let Some(state) = queue.pop_front() {
        let Some(stand) = stand(&state) else {
            let history = show(state, Screen::History { bed: 1, wire: 1 });
            if let Some(name) = told(&history) {
                keep(name, View { card: CARD, ..history });
            }
            continue;
        };
        if !seen.insert(stand) {
            continue;
        }
        let shown = view(&state, at(1_500));
        let name = name(stand, &shown);
        // Trouble, a slip and a sleep once on each kind of card: their cards read little of what came before.
        let first = troubled.insert(name.clone());
        keep(name, View { card: CARD, ..shown.clone() });
        for act in acts(&shown).into_iter().filter(|act| first || !is_trouble(&act.command)) {
            for values in fillings(&state, stand, act, new) {
                queue.extend(tapped(&state, &act.command, &values, at(4_000)));
            }
        }
        let time = due(&state).map(|due| due - at(0).boot_ms);
        queue.extend(time.and_then(|ms| tapped(&state, &Command::TimePassed, &Values::new(), at(ms))));
        let slept =
            first.then(|| tapped(&state, &Command::Woke { alive: at(0) }, &Values::new(), at(20 * 60_000)));
        queue.extend(slept.flatten());
    }
}

fn is_trouble(command: &Command) -> bool {
    use domain::{swap::answer::Answer as Swap, transport::answer::Answer as Transport};
    matches!(
        command,
        Command::Swap(Swap::NoBeats | Swap::Wrong | Swap::Slip | Swap::Stop)
            | Command::Transport(Transport::NoBeats | Transport::Wrong | Transport::Slip | Transport::Stop)
    )
}

fn tapped(state: &State, command: &Command, values: &Values, now: Moment) -> Option<State> {
    let values = values.iter().map(|(id, text)| ((*id).to_owned(), text.clone())).collect();
    let sent = Sent { card: state.card, command: command.clone(), values, stood_ms: None };
    let calm = State { card_at: None, good_at: None, ..state.clone() };
    let events = decide(&calm, &sent, now).ok()?;
    Some(events.iter().fold(calm, apply))
}

fn stand(state: &State) -> Option<Stand> {
    match state.screen {
        Screen::Swap { .. } => state.swap_on_screen().map(|(.., open)| Stand::Swap(open.facts)),
        Screen::Transport { .. } => state.transport_on_screen().map(|(_, open)| {
            let differs = open.told.reading(1).is_some_and(|reading| !reading.compared.is_same());
            Stand::Transport(Transport { looks: open.facts.looks.min(1), ..open.facts }, differs)
        }),
        _ => None,
    }
}

/// What the history says of it, by the sentence of its newest row; of what was left open, nothing yet.
fn told(view: &View<Say>) -> Option<String> {
    let Shape::Chart(trend) = &view.shape else { panic!("a history is a chart: {:?}", view.shape) };
    let befell = |row: &&Row<Say>| {
        use Say::*;
        let swap = matches!(
            row.value,
            HistorySwapBox { .. } | HistorySwapBattery { .. } | HistorySwapBack { .. } | HistorySwapNothing
        );
        let way =
            matches!(row.value, HistoryWay { .. } | HistoryWayNotLeft { .. } | HistoryWayBegun | HistoryMri);
        swap || way
    };
    trend.rows.iter().find(befell).map(|row| kebab(row.value.name()))
}

/// Cards that say more, under the same title, where the box paces two wires.
const OF_TWO: [Step; 4] = [Step::Look, Step::Ready, Step::LookBattery, Step::Guarded];

/// By its step, and by the first sentence where that is another.
fn name(stand: Stand, view: &View<Say>) -> String {
    let asks = match &view.shape {
        Shape::Turn(turn) => turn.instruction.name(),
        Shape::Ask(ask) => ask.question.name(),
        Shape::List(list) => list.instruction.name(),
        Shape::Form(form) => form.question.name(),
        Shape::Result(_) | Shape::Code(_) | Shape::Chart(_) | Shape::Beds(_) => "",
    };
    match stand {
        Stand::Swap(facts) => {
            let other = facts.shared && OF_TWO.contains(&facts.step);
            let of_two = if other { "-of-two" } else { "" };
            format!("swap-{}-{}{of_two}", kebab(&format!("{:?}", facts.step)), kebab(asks))
        }
        Stand::Transport(facts, _) => {
            format!("transport-{}-{}", kebab(&format!("{:?}", facts.step)), kebab(asks))
        }
    }
}

fn fillings(state: &State, stand: Stand, act: &Act<Say>, new: &str) -> Vec<Values> {
    match act.command {
        Command::SwapPicked => vec![vec![("generator", new.to_owned())]],
        Command::SwapTypedDials => readings(state, stand, new),
        Command::TransportTypedDials => readings(state, stand, new),
        Command::TransportGoing => ["theatre", "mri"]
            .map(|to| vec![("target", to.to_owned()), ("destination", PLACE.to_owned())])
            .to_vec(),
        Command::TransportSigned => vec![vec![("from", "WW-M".to_owned()), ("to", "MMW".to_owned())]],
        _ => vec![vec![("name", NAME.to_owned())]],
    }
}

/// As known, and with every dial elsewhere.
fn readings(state: &State, stand: Stand, new: &str) -> Vec<Values> {
    let Some(wire) = state.wire(1, 1) else { return Vec::new() };
    let old = wire.generator.as_str();
    let known = wire.records.last().map_or(Dials { output: 3, rate: 3, mv: 3 }, |record| record.stays_at);
    let (id, asked) = match stand {
        Stand::Swap(facts) if facts.step == Step::ReadNew => (new, facts.new),
        Stand::Swap(facts) if facts.place == Place::New => (new, facts.new),
        Stand::Swap(_) | Stand::Transport(..) => (old, known),
    };
    let Some(profile) = state.generator(id) else { return Vec::new() };
    // Two readings of each box, no more: else the dials drift through every position.
    let beside = |at: u8| if at == 0 { 1 } else { at - 1 };
    let mv = if asked.mv == ASYNCHRONOUS { 0 } else { beside(asked.mv) };
    let elsewhere = Dials { output: beside(asked.output), rate: beside(asked.rate), mv };
    [asked, elsewhere].map(|dials| typed(profile, dials)).to_vec()
}

fn typed(profile: &Profile, dials: Dials) -> Values {
    let mv = match dials.mv {
        ASYNCHRONOUS => "asynchronous".to_owned(),
        at => profile.mv_text(at).to_owned(),
    };
    vec![
        ("output", profile.output_text(dials.output).to_owned()),
        ("rate", profile.rate_text(dials.rate).to_owned()),
        ("mv", mv),
    ]
}
