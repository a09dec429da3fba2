//! What the terminal says of its own, in the words of the catalogue.

use domain::command::Language;
use domain::say::Say;

/// The sentence; where the catalogue cannot say it, what stands against it.
pub fn spoken(say: &Say) -> String {
    words::say(say, Language::English).unwrap_or_else(|unsaid| unsaid.to_string())
}
