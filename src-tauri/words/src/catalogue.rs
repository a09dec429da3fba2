//! The catalogues, read once and kept.

use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use domain::command::Language;
use domain::say::{Arg, Say};

use crate::fault::WordsFault;
use crate::{name, pseudo};

type Bundle = FluentBundle<FluentResource>;

macro_rules! rooms {
    ($($room:literal),* $(,)?) => {
        /// Each room of the English catalogue, by the cards it is spoken on.
        pub(crate) const ENGLISH: &[(&str, &str)] =
            &[$(($room, include_str!(concat!("../english/", $room, ".ftl")))),*];
    };
}

rooms![
    "pieces",
    "dials",
    "ready",
    "own",
    "sensing",
    "capture",
    "settle",
    "trouble",
    "why",
    "refusals",
    "record",
    "screens",
    "wards",
    "swap",
    "transport",
    "result",
    "handed",
    "settings",
    "library",
    "teaching",
    "flags",
    "keeping",
    "practice",
    "practising",
    "terminal",
];

static IN_ENGLISH: LazyLock<Result<Bundle, WordsFault>> = LazyLock::new(|| bundle(Language::English));
static IN_PSEUDO: LazyLock<Result<Bundle, WordsFault>> = LazyLock::new(|| bundle(Language::Pseudo));

fn bundle(language: Language) -> Result<Bundle, WordsFault> {
    let english = LanguageIdentifier::from_bytes(b"en")
        .map_err(|error| WordsFault::Catalogue { room: "", what: error.to_string() })?;
    let mut bundle = Bundle::new_concurrent(vec![english]);
    bundle.set_use_isolating(false);
    if language == Language::Pseudo {
        bundle.set_transform(Some(pseudo::lengthened));
    }
    for &(room, text) in ENGLISH {
        let fault = |what: String| WordsFault::Catalogue { room, what };
        let resource =
            FluentResource::try_new(text.to_owned()).map_err(|(_, errors)| fault(format!("{errors:?}")))?;
        bundle.add_resource(resource).map_err(|errors| fault(format!("{errors:?}")))?;
    }
    Ok(bundle)
}

/// Reads the catalogue, so that the first sentence need not wait for it. A fault shows with that sentence.
pub fn read(language: Language) {
    LazyLock::force(read_once(language));
}

fn read_once(language: Language) -> &'static LazyLock<Result<Bundle, WordsFault>> {
    match language {
        Language::English => &IN_ENGLISH,
        Language::Pseudo => &IN_PSEUDO,
    }
}

/// Says one sentence.
///
/// # Errors
/// The catalogue has no such message, or it cannot be formatted with the sentence's own arguments.
pub fn say(sentence: &Say, language: Language) -> Result<String, WordsFault> {
    let bundle = LazyLock::force(read_once(language));
    let (variant, args) = sentence.parts();
    let mut given = FluentArgs::with_capacity(args.len());
    for (arg, value) in args {
        given.set(arg, spoken(value, language)?);
    }
    format(bundle.as_ref().map_err(Clone::clone)?, variant, &given)
}

fn spoken(arg: Arg, language: Language) -> Result<FluentValue<'static>, WordsFault> {
    Ok(match arg {
        Arg::Text(text) => FluentValue::String(text.into()),
        Arg::Count(count) => FluentValue::from(count),
        Arg::Said(sentence) => FluentValue::String(say(&sentence, language)?.into()),
    })
}

fn format(bundle: &Bundle, sentence: &'static str, args: &FluentArgs<'_>) -> Result<String, WordsFault> {
    let pattern = bundle.get_message(&name::message(sentence)).and_then(|message| message.value());
    let Some(pattern) = pattern else { return Err(WordsFault::Unsaid { sentence }) };
    let mut errors = Vec::new();
    let text = bundle.format_pattern(pattern, Some(args), &mut errors);
    if errors.is_empty() {
        Ok(if has_gap(args) { closed(&text) } else { text.into_owned() })
    } else {
        Err(WordsFault::Formatting { sentence, what: format!("{errors:?}") })
    }
}

/// A figure may come without a unit.
fn has_gap(args: &FluentArgs<'_>) -> bool {
    args.iter().any(|(_, value)| matches!(value, FluentValue::String(text) if text.is_empty()))
}

/// Without the spaces around a word that is not there.
fn closed(text: &str) -> String {
    text.replace(" .", ".").replace("  ", " ").trim_end().to_owned()
}
