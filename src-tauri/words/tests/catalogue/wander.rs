//! Walks from card to card by whatever a card offers, so that its words are read where they stand.

use std::collections::BTreeMap;

use domain::State;
use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts};
use domain::command::Command;
use domain::contract::{Act, Field, Form, Sent, Shape, View};
use domain::handover::compare::Compared;
use domain::handover::known::Source;
use domain::moment::Moment;
use domain::profile::Profile;
use domain::rules::Chamber;
use domain::say::Say;
use domain::state::bed::{DueNow, Wire};
use domain::state::screen::Screen;
use domain::state::transport::{Look, Reading};
use domain::swap::{self, facts::Work};
use domain::transport::facts::{Facts as WayFacts, Leg};

/// What comes later than this is met by chance only.
const LONGEST_WATCH_MS: i64 = 35_000;

/// SplitMix64 (Steele, Lea, Flood 2014): a walk is its seed.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ (mixed >> 31)) % u64::try_from(sides).unwrap()).unwrap()
    }

    fn percent(&mut self, chance: usize) -> bool {
        self.roll(100) < chance
    }
}

pub struct Walk {
    pub state: State,
    /// Chance in percent of the good answer, and of waiting until it opens.
    steady: usize,
    dice: Dice,
    now: Moment,
    refused: Option<Say>,
}

impl Walk {
    pub fn new(seed: u64) -> Walk {
        let now =
            Moment { wall_ms: 1_795_561_200_000, offset_min: 60, boot_ms: 1_000, boot: 1, fresh: [0; 16] };
        let mut walk = Walk { state: State::default(), steady: 60, dice: Dice(seed), now, refused: None };
        walk.send(Command::Started { alive: None }, BTreeMap::new());
        walk
    }

    /// Check after check by somebody who answers well most of the time.
    pub fn steady(seed: u64) -> Walk {
        Walk { steady: 92, ..Walk::new(seed) }
    }

    pub fn go(&mut self, screen: Screen) {
        self.tap(Command::Go(screen), BTreeMap::new());
    }

    /// A first check just begun, on one wire.
    pub fn into_a_check(chamber: &str, generator: usize) -> Walk {
        let mut walk = Walk::new(0);
        let typed = |pairs: &[(&str, &str)]| {
            pairs.iter().map(|(field, value)| ((*field).to_owned(), (*value).to_owned())).collect()
        };
        walk.tap(Command::Welcomed, BTreeMap::new());
        walk.tap(Command::AddBed, typed(&[("label", "Bay 2")]));
        let generator = walk.state.generators[generator].id.clone();
        let kind = [
            ("chamber", chamber),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", &generator),
        ];
        walk.tap(Command::AddWire { bed: 1 }, typed(&kind));
        walk.tap(Command::Begin { bed: 1, wire: 1 }, BTreeMap::new());
        assert!(walk.state.check_on_screen().is_some(), "no check began");
        walk
    }

    /// A swap just begun on one wire that hangs on this generator.
    pub fn into_a_swap(generator: usize, work: Work) -> Walk {
        let mut walk = Walk::into_a_check("ventricle", generator);
        walk.tap(Command::Answer(Answer::Stop), BTreeMap::new());
        walk.tap(Command::BeginSwap { bed: 1, wire: 1, work }, BTreeMap::new());
        assert!(walk.state.swap_on_screen().is_some(), "no swap began");
        walk
    }

    /// In the same bed, in a box of the same kind; the box was changed for the first.
    pub fn with_another_wire(&mut self) {
        let bed = self.state.bed_mut(1).unwrap();
        let other = Wire { id: 2, chamber: Chamber::Atrium, swap: None, ..bed.wires[0].clone() };
        bed.wires.push(Wire { due_now: Some(DueNow::SharedBox), owed: None, ..other });
    }

    /// A transport just begun.
    pub fn into_a_transport(generator: usize) -> Walk {
        let mut walk = Walk::into_a_check("ventricle", generator);
        walk.tap(Command::Answer(Answer::Stop), BTreeMap::new());
        walk.tap(Command::BeginTransport { bed: 1 }, BTreeMap::new());
        let now = walk.now;
        let look = Look { at: now, leg: Leg::OnTheWay, in_vehicle: false };
        let open = walk.state.bed_mut(1).and_then(|bed| bed.transport.as_mut()).unwrap();
        open.told.destination = Some("Cardiac theatre 4, level 2, west wing".to_owned());
        open.told.looks = vec![look];
        open.away_ms = 25_000;
        walk
    }

    /// Puts another card of the transport on the screen.
    pub fn read_on_the_way(&mut self, by: Option<Source>, compared: Compared) {
        let open = self.state.bed_mut(1).and_then(|bed| bed.transport.as_mut()).unwrap();
        open.told.readings = vec![Reading { wire: 1, leg: Leg::Leaving, by, compared, seen: false }];
    }

    pub fn place_transport(&mut self, facts: WayFacts) {
        let open = self.state.bed_mut(1).and_then(|bed| bed.transport.as_mut()).unwrap();
        open.facts = facts;
        self.state.screen = Screen::Transport { bed: 1 };
    }

    /// Puts another card of the swap on the screen, its watch half over.
    pub fn place_swap(&mut self, facts: swap::facts::Facts, new: usize) {
        let new = self.state.generators[new].id.clone();
        let boot_ms = self.now.boot_ms;
        let open = self.state.wire_mut(1, 1).and_then(|wire| wire.swap.as_mut()).unwrap();
        open.new = Some(new);
        open.facts = facts;
        open.times.boot = self.now.boot;
        (open.times.watch_from, open.times.watch_until) = (Some(boot_ms), Some(boot_ms + 4_000));
        open.away_ms = 75_000;
        self.state.screen = Screen::Swap { bed: 1, wire: 1 };
    }

    pub fn tap(&mut self, command: Command, values: BTreeMap<String, String>) {
        self.now.boot_ms += 1_000;
        self.send(command, values);
    }

    /// Puts another card of the check on the screen, its watch half over.
    pub fn place(&mut self, facts: Facts) {
        let now = self.now;
        let open = self.state.wire_mut(1, 1).and_then(|wire| wire.check.as_mut()).unwrap();
        open.before = Some(Facts { dial: Dial::Output, to: 3, ..facts });
        open.facts = facts;
        open.times.boot = now.boot;
        (open.times.watch_from, open.times.watch_until) = (Some(now.boot_ms), Some(now.boot_ms + 4_000));
        open.away_ms = 75_000;
    }

    pub fn view(&self) -> View<Say> {
        let view = domain::view(&self.state, self.now);
        View { notice: self.refused.clone().or(view.notice.clone()), ..view }
    }

    /// One tap, or time passing.
    pub fn go_on(&mut self) {
        self.now.boot_ms += 700;
        self.now.wall_ms += 700;
        let soon = domain::due(&self.state).filter(|due| due - self.now.boot_ms < LONGEST_WATCH_MS);
        if let Some(due) = soon.filter(|_| self.dice.percent(self.steady)) {
            self.wait_until(due);
            return self.send(Command::TimePassed, BTreeMap::new());
        }
        if self.dice.percent(1) && self.dice.percent(100 - self.steady) {
            return self.sleep();
        }
        let view = domain::view(&self.state, self.now);
        if let Some(act) = self.choose(&view) {
            let values = self.fill(&view);
            self.send(act.command, values);
        }
    }

    fn wait_until(&mut self, due: i64) {
        let wait = (due - self.now.boot_ms).max(0);
        self.now.boot_ms += wait;
        self.now.wall_ms += wait;
    }

    fn sleep(&mut self) {
        let alive = self.now;
        let slept = [20_000, 90_000, 1_200_000][self.dice.roll(3)];
        self.wait_until(alive.boot_ms + slept);
        self.send(Command::Woke { alive }, BTreeMap::new());
    }

    fn send(&mut self, command: Command, values: BTreeMap<String, String>) {
        let number = u64::try_from(self.now.boot_ms).unwrap() ^ self.dice.0;
        self.now.fresh[..8].copy_from_slice(&number.to_le_bytes());
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        match domain::decide(&self.state, &sent, self.now) {
            Ok(events) => {
                self.refused = None;
                events.iter().for_each(|event| domain::apply_to(&mut self.state, event));
            }
            Err(refusal) => self.refused = refusal.say(),
        }
    }

    /// Mostly an answer, mostly the good one.
    fn choose(&mut self, view: &View<Say>) -> Option<Act<Say>> {
        let safety: Vec<_> = view.safety.iter().flat_map(|safety| safety.acts()).cloned().collect();
        let rows = match &view.shape {
            Shape::Beds(beds) => beds.rows.iter().map(|row| row.open.clone()).collect(),
            Shape::Form(form) => form
                .fields
                .iter()
                .flat_map(|field| field.choices.iter().filter_map(|c| c.act.clone()))
                .collect(),
            _ => Vec::new(),
        };
        if let Some(act) = self.forward(&view.answers) {
            return Some(act);
        }
        let (_, acts) = [(2, safety), (10, view.aside.clone()), (40, rows), (100, view.answers.clone())]
            .into_iter()
            .filter(|(_, acts)| !acts.is_empty())
            .find(|(chance, _)| self.dice.percent(*chance))?;
        let at = if self.dice.percent(self.steady) { acts.len() - 1 } else { self.dice.roll(acts.len()) };
        acts.get(at).cloned()
    }

    /// Own beats, seen and tolerated: the way into sensing and capture.
    fn forward(&mut self, answers: &[Act<Say>]) -> Option<Act<Say>> {
        let own = answers.iter().find(|act| act.key == "only-own")?;
        self.dice.percent(self.steady * 2 / 3).then(|| own.clone())
    }

    fn fill(&mut self, view: &View<Say>) -> BTreeMap<String, String> {
        let Shape::Form(Form { fields, .. }) = &view.shape else { return BTreeMap::new() };
        fields.iter().map(|field| (field.id.clone(), self.value(field))).collect()
    }

    fn value(&mut self, field: &Field<Say>) -> String {
        if self.dice.percent(3) {
            return ["", "36", "0.85", "1,0", "999"][self.dice.roll(5)].to_owned();
        }
        match field.id.as_str() {
            "slowest" => ["45", "72", "84", "92", "118"][self.dice.roll(5)].to_owned(),
            "fastest" => String::new(),
            "label" => format!("Bay {}", self.dice.roll(9)),
            "output" => self.dial(Dial::Output),
            "rate" => self.dial(Dial::Rate),
            "mv" => self.dial(Dial::Mv),
            "where" => ["1.0", "80", "2.0"][self.dice.roll(3)].to_owned(),
            _ if field.choices.is_empty() => "Example Name".to_owned(),
            _ => field.choices[self.dice.roll(field.choices.len())].value.clone(),
        }
    }

    /// As it stands, mostly; before it was read, somewhere in the middle.
    fn dial(&mut self, dial: Dial) -> String {
        let Some((_, _, wire, open)) = self.state.check_on_screen() else { return String::new() };
        let profile = self.state.generator(&wire.generator).unwrap().clone();
        let stands = open.facts.now();
        let read = open.facts.dials_read() && self.dice.percent(90);
        let at = if read { stands.at(dial) } else { self.somewhere(&profile).at(dial) };
        match (dial, at) {
            (Dial::Mv, ASYNCHRONOUS) => "asynchronous".to_owned(),
            (Dial::Mv, at) => profile.mv_text(at).to_owned(),
            (Dial::Output, at) => profile.output_text(at).to_owned(),
            (Dial::Rate, at) => profile.rate_text(at).to_owned(),
        }
    }

    fn somewhere(&mut self, profile: &Profile) -> Dials {
        let mut within = |last: u8| {
            let middle = usize::from(last) / 2;
            u8::try_from(middle / 2 + self.dice.roll(middle.max(1))).unwrap()
        };
        let dials = Dials {
            output: within(profile.output_last()),
            rate: within(profile.rate_last() / 2),
            mv: within(profile.mv_last()),
        };
        if self.dice.percent(5) { dials.with(Dial::Mv, ASYNCHRONOUS) } else { dials }
    }
}
