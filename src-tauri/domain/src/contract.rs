//! What a screen shows, as data. Generic over its text: the domain makes `View<Say>`, the words
//! crate makes `View<String>`, the page draws that and knows nothing else.
//!
//! Every text is finished in Rust; every act carries the command it sends back, opaque to the page.

mod acts;
mod practice;
#[cfg(test)]
mod written;

pub use acts::{Act, Safety, Sent, Strip, Tone};
pub use practice::{Keys, Knob, Monitor, Practice};

use serde::{Deserialize, Serialize};

/// Bytes of a file that the page hands in at most: a longer one it cuts here. What comes so long is refused, by the
/// sentence of its card that says 20 MB.
pub const FILE_MOST: u32 = 20_000_000;

/// One screen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct View<T> {
    /// Identifies the card. Sent back with each act; an act on an older card is refused.
    pub card: u32,
    /// Session time of this push, ms since boot. The page sets its running clocks by it.
    pub now_ms: i64,
    pub look: Look,
    pub head: Head<T>,
    /// The stages of a check, on cards of a check.
    pub rail: Option<Rail>,
    /// Example rules, practice: shown on every screen they touch.
    pub marks: Vec<T>,
    pub shape: Shape<T>,
    /// The answers in the thumb's reach, in drawing order: bad ones first, the good one last.
    pub answers: Vec<Act<T>>,
    /// Lesser acts, drawn smaller under the answers.
    pub aside: Vec<Act<T>>,
    /// Present on every card that touches a dial.
    pub safety: Option<Box<Safety<T>>>,
    /// A refusal or a fault, with the next act. Stays until the next view.
    pub notice: Option<T>,
    /// What a screen reader says once when the card changes.
    pub spoken: T,
    /// On screens of practice: they are framed, and no patient stands behind them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub practice: Option<Box<Practice<T>>>,
    /// Of slow work that the card waits for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub progress: Option<Box<Progress<T>>>,
}

/// So many of so many parts are done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Progress<T> {
    pub label: T,
    pub done: u32,
    pub of: u32,
}

/// How the person likes the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Look {
    pub light: Light,
    /// 100, 150 or 200.
    pub text_percent: u16,
    pub hand: Hand,
    pub still: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub enum Light {
    Day,
    Night,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub enum Hand {
    Left,
    Right,
}

/// Bed, wire and stage, and one labelled clock.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Head<T> {
    /// The bed, or the name of the screen.
    pub title: T,
    /// Wire, chamber, stage.
    pub subtitle: Option<T>,
    pub clock: Option<Clock<T>>,
    /// Local wall clock with its label ("clock 21:40"), where no running clock is shown.
    pub wall: Option<T>,
}

/// A running m:ss beside its label.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Clock<T> {
    pub label: T,
    /// Session time it counts from, ms since boot.
    pub since_ms: i64,
    pub urgent: bool,
}

/// Progress through the stages: `now` counts from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Rail {
    pub of: u8,
    pub now: u8,
}

/// The forms a card can take. A stage, a rule, a trouble step adds none.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Shape<T> {
    /// One dial to one position, then a question.
    Turn(Turn<T>),
    /// A question with answers.
    Ask(Ask<T>),
    /// Numbered or plain lines; in restore the first one large.
    List(List<T>),
    /// Fields to fill; digits by the card's own keypad.
    Form(Form<T>),
    /// What was found, with scales and flags.
    Result(Outcome<T>),
    /// A QR code with the same lines readable.
    Code(Code<T>),
    /// Values over days.
    Chart(Trend<T>),
    /// The first screen: one row a wire, what needs a person first.
    Beds(Beds<T>),
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Turn<T> {
    /// "Turn OUTPUT down to"
    pub instruction: T,
    /// The dial position as printed, "1.6".
    pub figure: T,
    pub unit: T,
    /// "from 2.0 mA"
    pub from: Option<T>,
    /// "small is good", "sees less"
    pub hint: Option<T>,
    /// The rule behind the figure; the only line that may scroll.
    pub reason: Option<T>,
    pub scale: Option<Scale<T>>,
    /// What to look for once the dial stands.
    pub question: T,
    pub watch: Option<Watch<T>>,
    /// Where the other dials go or stay.
    pub others: Vec<Small<T>>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ask<T> {
    pub question: T,
    pub lines: Vec<T>,
    pub reason: Option<T>,
    pub watch: Option<Watch<T>>,
    pub scale: Option<Scale<T>>,
    pub others: Vec<Small<T>>,
}

/// A plain bar that fills from `from_ms` to `until_ms`; the good answer comes with a later view.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Watch<T> {
    /// "time for 5 beats"
    pub label: T,
    pub from_ms: i64,
    pub until_ms: i64,
}

/// A dial that is not being turned, or a line of the restore strip.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Small<T> {
    pub label: T,
    pub value: T,
}

/// The positions of one dial on a line, 0 (left) to 1 (right).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Scale<T> {
    pub ticks: Vec<Tick<T>>,
    /// The threshold lies between these.
    pub bracket: Option<(f32, f32)>,
    /// Where the rule allows the setting.
    pub band: Option<(f32, f32)>,
    /// The unit, at the right end.
    pub unit: T,
    /// The same drawing in words.
    pub words: T,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Tick<T> {
    pub at: f32,
    pub label: Option<T>,
    pub role: TickRole,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub enum TickRole {
    /// A position of the dial, not tried.
    Plain,
    /// Tried, and every beat was captured (or marked): drawn filled.
    Held,
    /// Tried, and a beat was lost (or not marked): drawn crossed.
    Missed,
    /// Where the dial is asked to stand now: ringed, with a pointer.
    Present,
    /// The threshold found.
    Threshold,
    /// The setting, or the restore position.
    Set,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct List<T> {
    pub instruction: T,
    pub items: Vec<Item<T>>,
    pub note: Option<T>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Item<T> {
    pub number: Option<u8>,
    pub text: T,
    /// A dial position, drawn large.
    pub figure: Option<T>,
    pub unit: Option<T>,
    pub large: bool,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Form<T> {
    pub question: T,
    pub lines: Vec<T>,
    pub fields: Vec<Field<T>>,
}

/// Own beats a minute that the fields for them take (both from memory).
pub const OWN_LEAST: u8 = 20;
pub const OWN_MOST: u8 = 250;

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Field<T> {
    /// Name under which the value is sent.
    pub id: String,
    pub label: T,
    pub unit: Option<T>,
    pub kind: FieldKind,
    /// What stands in it when the card opens (half-typed digits live in the page only).
    pub value: String,
    pub error: Option<T>,
    /// For `Choice`: each sends its own command at once. For `Digits` and `Text`: words that fill the field.
    pub choices: Vec<Choice<T>>,
    pub max_chars: u16,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub enum FieldKind {
    /// Digits and one point, by the card's keypad; a comma counts as a point.
    Digits,
    Text,
    /// Text of several lines: typed, pasted, or by a scanner that types.
    Lines,
    /// One of `choices`, held in the page and sent with the form.
    Pick,
    /// One of `choices`, each an act of its own.
    Choice,
    /// A file; its bytes go in by `hand_in`.
    File,
    /// A PIN: shown as dots, never kept; a finished view holds none.
    Secret,
    /// The tablet's camera, where there is one: pictures go in by `hand_in` until the card changes. Its choice
    /// holds the words for a tablet without one.
    Camera,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Choice<T> {
    /// The value put into the field.
    pub value: String,
    pub label: T,
    pub chosen: bool,
    /// For `FieldKind::Choice` only.
    pub act: Option<Act<T>>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Outcome<T> {
    pub headline: T,
    pub rows: Vec<Row<T>>,
    pub scales: Vec<Scale<T>>,
    /// One line each, ranked, with the act asked for.
    pub flags: Vec<T>,
    pub note: Option<T>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Row<T> {
    pub label: T,
    pub value: T,
    pub note: Option<T>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Code<T> {
    /// Modules on each side, without the quiet zone; 0 without a drawing.
    pub across: u16,
    /// Row by row as hexadecimal digits of four modules each; 1 is dark, the last digit is filled up with 0.
    pub modules: Vec<String>,
    pub rows: Vec<Row<T>>,
    pub note: T,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Trend<T> {
    pub headline: T,
    pub charts: Vec<Chart<T>>,
    pub rows: Vec<Row<T>>,
}

/// One quantity over days; 0 (left, low) to 1 (right, high).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Chart<T> {
    pub title: T,
    pub line: Vec<(f32, f32)>,
    /// What was set over the same days, where it is drawn.
    pub steps: Vec<(f32, f32)>,
    /// The set value's height and label.
    pub set: Option<(f32, T)>,
    pub last: Option<T>,
    /// Heights with labels, for the scale at the side.
    pub marks: Vec<(f32, T)>,
    /// The first and the last day, under the ends of the line.
    pub days: Option<(T, T)>,
    pub words: T,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Beds<T> {
    pub rows: Vec<BedRow<T>>,
    /// Shown when there are no rows.
    pub empty: T,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct BedRow<T> {
    pub title: T,
    /// "due 22:30", "dials not read since 21:15"
    pub due: Option<T>,
    pub urgent: bool,
    pub lines: Vec<T>,
    pub chart: Option<Chart<T>>,
    pub open: Act<T>,
}
