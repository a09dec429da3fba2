//! A figure as a dial prints it.

use std::fmt;

use serde::{Deserialize, Serialize};

/// One to six digits, and perhaps a point and one to six more; "0.8", never ".8" or "00.8".
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Figure(String);

impl Figure {
    /// `None` when the text is no such figure.
    pub fn new(text: &str) -> Option<Figure> {
        let (whole, fraction) = match text.split_once('.') {
            Some((whole, fraction)) => (whole, Some(fraction)),
            None => (text, None),
        };
        let no_zero_too_many = whole.len() == 1 || !whole.starts_with('0');
        let sound = is_digits(whole) && no_zero_too_many && fraction.is_none_or(is_digits);
        sound.then(|| Figure(text.to_owned()))
    }

    pub fn text(&self) -> &str {
        &self.0
    }
}

fn is_digits(text: &str) -> bool {
    (1..=6).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())
}

impl fmt::Display for Figure {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}
