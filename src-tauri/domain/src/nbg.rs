//! The generic pacemaker code, up to five letters (Bernstein AD et al. PACE 2002;25:260-264).

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::rules::Chamber;

/// A decoded code. Positions IV and V are absent when only three or four letters were given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Code {
    pub paced: Where,
    pub sensed: Where,
    pub response: Response,
    pub rate_modulation: Option<bool>,
    pub multisite: Option<Where>,
}

/// Letters O, A, V, D of positions I, II and V.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Where {
    None,
    Atrium,
    Ventricle,
    Dual,
}

/// Letters O, T, I, D of position III.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Response {
    None,
    Triggered,
    Inhibited,
    Dual,
}

/// Why a text is no code.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotACode {
    /// Three letters are always given, five at most.
    Length {
        found: usize,
    },
    /// The digit zero where the letter O belongs; places count from 1.
    DigitZero {
        place: usize,
    },
    /// "S" is a makers' letter, not one of the code.
    MakersLetter {
        place: usize,
    },
    Letter {
        place: usize,
        found: char,
        allowed: String,
    },
}

/// What a mode means for a check on one wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum CheckMode {
    /// AAI on an atrial wire, VVI on a ventricular one.
    Demand,
    /// AOO or VOO.
    Asynchronous,
    DualChamber,
    Triggered,
    /// Another chamber, no pacing at all, or rate modulation.
    Other,
}

const PLACES: [&str; 5] = ["OAVD", "OAVD", "OTID", "OR", "OAVD"];

impl Code {
    /// Capital letters only, nothing around them.
    pub fn decode(text: &str) -> Result<Code, NotACode> {
        let letters: Vec<char> = text.chars().collect();
        if !(3..=5).contains(&letters.len()) {
            return Err(NotACode::Length { found: letters.len() });
        }
        let at = |i: usize| letters.get(i).map(|&letter| letter_index(i, letter)).transpose();
        Ok(Code {
            paced: at(0)?.map_or(Where::None, Where::of),
            sensed: at(1)?.map_or(Where::None, Where::of),
            response: at(2)?.map_or(Response::None, Response::of),
            rate_modulation: at(3)?.map(|index| index == 1),
            multisite: at(4)?.map(Where::of),
        })
    }

    pub fn for_check(self, wire: Chamber) -> CheckMode {
        let own = Where::from(wire);
        match (self.paced, self.sensed, self.response) {
            (Where::Dual, _, _) | (_, Where::Dual, _) | (_, _, Response::Dual) => CheckMode::DualChamber,
            (_, _, Response::Triggered) => CheckMode::Triggered,
            _ if self.paced != own || self.rate_modulation == Some(true) => CheckMode::Other,
            (_, sensed, Response::Inhibited) if sensed == own => CheckMode::Demand,
            (_, Where::None, Response::None) => CheckMode::Asynchronous,
            (_, Where::None | Where::Atrium | Where::Ventricle, Response::None | Response::Inhibited) => {
                CheckMode::Other
            }
        }
    }
}

fn letter_index(i: usize, letter: char) -> Result<usize, NotACode> {
    let allowed = PLACES.get(i).copied().unwrap_or("");
    allowed.find(letter).ok_or_else(|| match letter {
        '0' => NotACode::DigitZero { place: i + 1 },
        'S' => NotACode::MakersLetter { place: i + 1 },
        found => NotACode::Letter { place: i + 1, found, allowed: allowed.to_owned() },
    })
}

impl Where {
    fn of(index: usize) -> Self {
        match index {
            1 => Self::Atrium,
            2 => Self::Ventricle,
            3 => Self::Dual,
            _ => Self::None,
        }
    }

    fn letter(self) -> char {
        match self {
            Self::None => 'O',
            Self::Atrium => 'A',
            Self::Ventricle => 'V',
            Self::Dual => 'D',
        }
    }
}

impl From<Chamber> for Where {
    fn from(chamber: Chamber) -> Self {
        match chamber {
            Chamber::Atrium => Self::Atrium,
            Chamber::Ventricle => Self::Ventricle,
        }
    }
}

impl Response {
    fn of(index: usize) -> Self {
        match index {
            1 => Self::Triggered,
            2 => Self::Inhibited,
            3 => Self::Dual,
            _ => Self::None,
        }
    }

    fn letter(self) -> char {
        match self {
            Self::None => 'O',
            Self::Triggered => 'T',
            Self::Inhibited => 'I',
            Self::Dual => 'D',
        }
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}{}", self.paced.letter(), self.sensed.letter(), self.response.letter())?;
        if let Some(modulated) = self.rate_modulation {
            write!(f, "{}", if modulated { 'R' } else { 'O' })?;
        }
        self.multisite.map_or(Ok(()), |site| write!(f, "{}", site.letter()))
    }
}

impl fmt::Display for NotACode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

impl TryFrom<String> for Code {
    type Error = NotACode;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        Code::decode(&text)
    }
}

impl From<Code> for String {
    fn from(code: Code) -> Self {
        code.to_string()
    }
}
