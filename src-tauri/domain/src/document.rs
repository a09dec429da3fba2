//! Reads a unit's rule file or a generator file. A fault is data: where in the file, what was
//! found, what is allowed; the words for it are made elsewhere.

use std::fmt;
use std::rc::Rc;

use serde_json::{Map, Value};
use sha2::{Digest, Sha256};

mod fault;
mod kinds;
mod said;
mod strict;

pub use fault::{Fault, Kind, Why};
pub use kinds::{NAME_OR_GROUP, from_json};

/// Longest file accepted, in bytes.
pub const LONGEST: usize = 65_536;
/// Longest single text accepted, in characters.
pub const LONGEST_TEXT: usize = 200;
/// Longest name accepted, in characters: it stands in one line of a card.
pub const LONGEST_NAME: usize = 60;

/// SHA-256 of a file's text in hexadecimal digits: the name by which it is known for ever.
pub fn hash(text: &str) -> String {
    Sha256::digest(text).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// One value of a file and the way to it ("output.positions[3]").
#[derive(Clone)]
pub(crate) struct Node<'a> {
    value: &'a Value,
    /// "output.positions", which all its items share; `None` for what lies in the root.
    within: Option<Rc<str>>,
    step: Step<'a>,
}

#[derive(Clone, Copy)]
enum Step<'a> {
    Root,
    Field(&'a str),
    Item(usize),
}

/// The whole text as JSON.
pub(crate) fn parse(text: &str) -> Result<Value, Fault> {
    if text.len() > LONGEST {
        return Err(Fault::at("", Why::FileTooLong { most: LONGEST }));
    }
    parse_any(text)
}

/// However long it is.
fn parse_any(text: &str) -> Result<Value, Fault> {
    let strict: Result<strict::Strict, _> = serde_json::from_str(text);
    strict.map(|strict| strict.0).map_err(|e| {
        let (line, column) = (e.line(), e.column());
        let repeated = e.classify() == serde_json::error::Category::Data;
        Fault::at(
            "",
            if repeated { Why::RepeatedField { line, column } } else { Why::NotJson { line, column } },
        )
    })
}

impl<'a> Node<'a> {
    pub(crate) fn root(value: &'a Value) -> Self {
        Self { value, within: None, step: Step::Root }
    }

    pub(crate) fn fault(&self, why: Why) -> Fault {
        Fault::at(&self.place(), why)
    }

    /// Refuses fields that are not in `allowed`: a misspelt rule must not be silently absent.
    pub(crate) fn only(&self, allowed: &[&str]) -> Result<(), Fault> {
        let stranger = self.object()?.keys().find(|key| !allowed.contains(&key.as_str()));
        stranger.map_or(Ok(()), |key| {
            let allowed = allowed.iter().map(|&name| name.to_owned()).collect();
            Err(Fault::at(&self.place_of(key), Why::NoSuchField { allowed }))
        })
    }

    /// A field that must be there; null counts as absent.
    pub(crate) fn field(&self, name: &str) -> Result<Node<'a>, Fault> {
        self.maybe(name)?.ok_or_else(|| Fault::at(&self.place_of(name), Why::Missing))
    }

    /// A field that may be absent or null.
    pub(crate) fn maybe(&self, name: &str) -> Result<Option<Node<'a>>, Fault> {
        let field = self.object()?.get_key_value(name).filter(|(_, value)| !value.is_null());
        Ok(field.map(|(name, value)| Node { value, within: self.as_parent(), step: Step::Field(name) }))
    }

    pub(crate) fn items(&self) -> Result<Vec<Node<'a>>, Fault> {
        let list = self.value.as_array().ok_or_else(|| self.wrong(Kind::List))?;
        let within = self.as_parent();
        let node = |(i, value)| Node { value, within: within.clone(), step: Step::Item(i) };
        Ok(list.iter().enumerate().map(node).collect())
    }

    /// Text that is not empty and not beyond `LONGEST_TEXT`.
    pub(crate) fn text(&self) -> Result<&'a str, Fault> {
        self.text_of(LONGEST_TEXT)
    }

    /// A figure in quotes, as a dial prints it: the text of it.
    pub(crate) fn printed(&self) -> Result<&'a str, Fault> {
        if self.value.is_string() { self.text() } else { Err(self.wrong(Kind::Printed)) }
    }

    /// Text that is not empty and not beyond `LONGEST_NAME`.
    pub(crate) fn name(&self) -> Result<&'a str, Fault> {
        self.text_of(LONGEST_NAME)
    }

    fn text_of(&self, most: usize) -> Result<&'a str, Fault> {
        let text = self.value.as_str().ok_or_else(|| self.wrong(Kind::Text))?;
        if text.trim().is_empty() || text.chars().count() > most {
            return Err(self.fault(Why::TextLength { most }));
        }
        Ok(text)
    }

    pub(crate) fn whole(&self) -> Result<u32, Fault> {
        let number = self.value.as_u64().and_then(|n| u32::try_from(n).ok());
        number.ok_or_else(|| self.wrong(Kind::WholeNumber))
    }

    pub(crate) fn yes(&self) -> Result<bool, Fault> {
        self.value.as_bool().ok_or_else(|| self.wrong(Kind::YesNo))
    }

    /// One of a closed list of names.
    pub(crate) fn one_of<T: Copy>(&self, names: &[(&str, T)]) -> Result<T, Fault> {
        let found = self.text()?;
        let hit = names.iter().find(|(name, _)| *name == found);
        hit.map(|(_, value)| *value).ok_or_else(|| {
            let allowed = names.iter().map(|(name, _)| (*name).to_owned()).collect();
            self.fault(Why::NotOneOf { found: found.to_owned(), allowed })
        })
    }

    /// As the file writes it.
    pub(crate) fn written(&self) -> String {
        self.value.to_string()
    }

    pub(crate) fn is_group(&self) -> bool {
        self.value.is_object()
    }

    fn object(&self) -> Result<&'a Map<String, Value>, Fault> {
        self.value.as_object().ok_or_else(|| self.wrong(Kind::Object))
    }

    fn place(&self) -> String {
        let within = self.within.as_deref().unwrap_or_default();
        match self.step {
            Step::Root => String::new(),
            Step::Field(name) if within.is_empty() => name.to_owned(),
            Step::Field(name) => format!("{within}.{name}"),
            Step::Item(item) => format!("{within}[{item}]"),
        }
    }

    fn as_parent(&self) -> Option<Rc<str>> {
        (!matches!(self.step, Step::Root)).then(|| self.place().into())
    }

    fn place_of(&self, name: &str) -> String {
        let place = self.place();
        if place.is_empty() { name.to_owned() } else { format!("{place}.{name}") }
    }

    fn wrong(&self, wanted: Kind) -> Fault {
        self.fault(Why::WrongKind { found: self.written(), wanted })
    }
}

/// For developers; what a person reads is made from the fault by the words.
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {:?}", self.place, self.why)
    }
}

impl std::error::Error for Fault {}
