use std::fmt;

/// What a person at the bedside cannot do: the card and the bedside do not fit together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Puzzled {
    /// The card asks for a position that the generator does not have.
    NoSuchPosition { dial: &'static str, asked: String },
    /// The simulated generator does not accept the dials.
    Generator(String),
    /// A card with no question that a person could answer.
    UnknownCard { said: String },
    /// The card does not have the button that fits what was seen.
    NoSuchButton { card: u32, key: String, buttons: Vec<String> },
    /// A field whose name says nothing to a person.
    UnknownField { id: String },
}

impl fmt::Display for Puzzled {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Puzzled::NoSuchPosition { dial, asked } => {
                write!(out, "the card asks for {dial} {asked}; the generator has no such position")
            }
            Puzzled::Generator(why) => write!(out, "the simulated generator: {why}"),
            Puzzled::UnknownCard { said } => write!(out, "nothing on this card can be answered: {said}"),
            Puzzled::NoSuchButton { card, key, buttons } => {
                write!(out, "card {card} has no button {key}; it has {}", buttons.join(", "))
            }
            Puzzled::UnknownField { id } => write!(out, "nobody knows what to type into {id}"),
        }
    }
}

impl std::error::Error for Puzzled {}
