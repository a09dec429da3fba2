//! Of all cards met, the longest of each kind.

use std::collections::{BTreeMap, BTreeSet};

use domain::check::facts::Phase;
use domain::check::offer::offer;
use domain::check::step::Step;
use domain::contract::{Shape, View};
use domain::say::Say;
use words::{Language, render};

use super::search::Met;
use super::{limits, texts};

/// A kind of card: step, phase, what it asks, what it offers, what was not taken on it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Kind {
    step: String,
    phase: &'static str,
    notice: Option<&'static str>,
    /// Sentence of the question or instruction, and of the reason.
    asks: Vec<&'static str>,
    offers: Vec<String>,
}

/// A view and the length of what it says.
#[derive(Clone)]
struct Kept {
    length: usize,
    view: View<Say>,
}

#[derive(Default)]
pub struct Picked {
    kinds: BTreeMap<Kind, Kept>,
    /// Every set of sentences of a kind, with the length of the longest figures and names put into it.
    wordings: BTreeMap<(Kind, Vec<&'static str>), usize>,
    /// Names of the steps, and of the rows of restore, that were met.
    pub steps: BTreeSet<String>,
    pub rows: BTreeSet<String>,
    pub faults: BTreeMap<String, usize>,
}

impl Picked {
    pub fn take(&mut self, met: &Met<'_>) {
        let kind = Kind::of(met);
        self.steps.insert(format!("{:?}", met.facts.step));
        if met.facts.step == Step::Restore {
            self.rows.insert(format!("{:?}", met.facts.row));
        }
        let (names, figures) = texts::names(met.view);
        let wording = (kind, names);
        let known = self.wordings.get(&wording).copied();
        if known.is_some_and(|known| known >= figures) {
            return;
        }
        if known.is_none() {
            self.judge(&wording.0, met);
        }
        self.keep(wording.0.clone(), Kept { length: length(met.view), view: met.view.clone() });
        self.wordings.insert(wording, figures);
    }

    /// What another search met as well.
    pub fn join(&mut self, other: Picked) {
        self.steps.extend(other.steps);
        self.rows.extend(other.rows);
        self.wordings.extend(other.wordings);
        for (fault, count) in other.faults {
            *self.faults.entry(fault).or_default() += count;
        }
        for (kind, kept) in other.kinds {
            self.keep(kind, kept);
        }
    }

    /// Every sentence that some card says.
    pub fn sentences(&self) -> BTreeSet<&'static str> {
        self.wordings.keys().flat_map(|(_, names)| names.iter().copied()).collect()
    }

    fn keep(&mut self, kind: Kind, kept: Kept) {
        let known = self.kinds.get(&kind).map(|known| known.length);
        if known.is_none_or(|known| kept.length > known) {
            self.kinds.insert(kind, kept);
        }
    }

    fn judge(&mut self, kind: &Kind, met: &Met<'_>) {
        let of_card = limits::missing(met).into_iter().chain(limits::idle(met)).chain(limits::lowered(met));
        let faults = limits::faults(met.view).into_iter().chain(of_card);
        for fault in faults {
            *self.faults.entry(format!("{}: {fault}", kind.name())).or_default() += 1;
        }
    }

    /// The longest of each kind by its name; numbered where there are several of one step and phase.
    pub fn named(&self) -> BTreeMap<String, View<Say>> {
        let mut several: BTreeMap<String, usize> = BTreeMap::new();
        let mut named = BTreeMap::new();
        for (kind, kept) in &self.kinds {
            let count = several.entry(kind.name()).or_default();
            *count += 1;
            let name = if *count == 1 { kind.name() } else { format!("{}-{count}", kind.name()) };
            named.insert(name, kept.view.clone());
        }
        named
    }
}

impl Kind {
    fn of(met: &Met<'_>) -> Kind {
        let watches = offer(met.setup, met.facts).good.is_some();
        let phase = match met.facts.phase {
            _ if met.facts.step.is_side() => "",
            Phase::Turning => "turning",
            Phase::Watching if watches => "watching",
            Phase::Open if watches => "open",
            Phase::Watching | Phase::Open => "",
        };
        Kind {
            step: kebab(&format!("{:?}", met.facts.step)),
            phase,
            notice: met.view.notice.as_ref().map(|said| said.name()),
            asks: asks(met.view, phase),
            offers: met.view.answers.iter().map(|act| without_place(&act.key).to_owned()).collect(),
        }
    }

    fn name(&self) -> String {
        let notice = self.notice.map(kebab);
        let parts = [Some(self.step.as_str()), Some(self.phase), notice.as_deref()];
        parts.into_iter().flatten().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
    }
}

/// "at-3" is a place on a dial, not another answer.
fn without_place(key: &str) -> &str {
    key.trim_end_matches(|letter: char| letter.is_ascii_digit())
}

/// The sentences that make it another card to the eye; which way to turn only while it is turned.
fn asks(view: &View<Say>, phase: &str) -> Vec<&'static str> {
    let name = |say: &Say| say.name();
    match &view.shape {
        Shape::Turn(turn) if phase == "turning" => vec![name(&turn.instruction), name(&turn.question)],
        Shape::Turn(turn) if turn.reason == Some(Say::OffCourseReason) => {
            vec![name(&Say::OffCourseReason), name(&turn.question)]
        }
        Shape::Turn(turn) => vec![name(&turn.question)],
        Shape::Ask(ask) => vec![name(&ask.question)],
        Shape::List(list) => vec![name(&list.instruction)],
        Shape::Form(form) => vec![name(&form.question)],
        Shape::Result(_) | Shape::Code(_) | Shape::Chart(_) | Shape::Beds(_) => Vec::new(),
    }
}

pub fn kebab(name: &str) -> String {
    let mut out = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !out.is_empty() {
            out.push('-');
        }
        out.extend(letter.to_lowercase());
    }
    out
}

/// Characters to read.
pub fn length(view: &View<Say>) -> usize {
    let rendered = render(view, Language::English).map(|said| texts::all(&said));
    rendered.map_or(1, |texts| texts.iter().map(|text| text.chars().count()).sum())
}
