//! Every word of Holdfast: what the domain wants said, said in a language.
//!
//! `domain::say::Say` is the closed list of sentences; a catalogue holds one message for each, under the
//! variant's name in kebab-case, with the variant's arguments. Figures arrive as finished strings.

mod catalogue;
mod fault;
mod name;
mod pseudo;

pub use domain::command::Language;
use domain::contract::View;
use domain::say::Say;

pub use catalogue::say;
pub use fault::WordsFault;

/// Says every text of a view.
///
/// # Errors
/// The first text that the catalogue cannot say as it should.
pub fn render(view: &View<Say>, language: Language) -> Result<View<String>, WordsFault> {
    view.try_map(&mut |text| say(text, language))
}
