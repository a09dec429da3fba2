//! The catalogues, each room read once and kept.

use std::collections::HashMap;
use std::sync::{LazyLock, OnceLock};

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use domain::command::Language;
use domain::say::{Arg, Say};

use crate::fault::WordsFault;
use crate::{name, pseudo};

type Bundle = FluentBundle<FluentResource>;

/// A part of the English catalogue, by the cards it is spoken on: a screen takes the words of a few.
struct Room {
    name: &'static str,
    text: &'static str,
    in_english: OnceLock<Result<Bundle, WordsFault>>,
    in_pseudo: OnceLock<Result<Bundle, WordsFault>>,
}

macro_rules! rooms {
    ($($room:literal),* $(,)?) => {
        static ROOMS: [Room; [$($room),*].len()] =
            [$(Room::new($room, include_str!(concat!("../english/", $room, ".ftl")))),*];
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

/// Where each message stands. A name that stands twice has no room, and cannot be said.
static ROOM_OF: LazyLock<HashMap<&'static str, Option<&'static Room>>> = LazyLock::new(|| {
    let mut room_of = HashMap::new();
    for room in &ROOMS {
        for message in room.messages() {
            room_of.entry(message).and_modify(|room| *room = None).or_insert(Some(room));
        }
    }
    room_of
});

impl Room {
    const fn new(name: &'static str, text: &'static str) -> Room {
        Room { name, text, in_english: OnceLock::new(), in_pseudo: OnceLock::new() }
    }

    /// Names at the beginning of a line: what belongs to a message is indented.
    fn messages(&self) -> impl Iterator<Item = &'static str> {
        let begins = |line: &&str| line.starts_with(|first: char| first.is_ascii_lowercase());
        self.text.lines().filter(begins).filter_map(|line| line.split_once(" =")).map(|(message, _)| message)
    }

    /// Read with its first sentence, and kept.
    fn bundle(&self, language: Language) -> &Result<Bundle, WordsFault> {
        let read = match language {
            Language::English => &self.in_english,
            Language::Pseudo => &self.in_pseudo,
        };
        read.get_or_init(|| self.read(language))
    }

    fn read(&self, language: Language) -> Result<Bundle, WordsFault> {
        let fault = |what: String| WordsFault::Catalogue { room: self.name, what };
        let english = LanguageIdentifier::from_bytes(b"en").map_err(|error| fault(error.to_string()))?;
        let mut bundle = Bundle::new_concurrent(vec![english]);
        bundle.set_use_isolating(false);
        if language == Language::Pseudo {
            bundle.set_transform(Some(pseudo::lengthened));
        }
        let resource = FluentResource::try_new(self.text.to_owned())
            .map_err(|(_, errors)| fault(format!("{errors:?}")))?;
        bundle.add_resource(resource).map_err(|errors| fault(format!("{errors:?}")))?;
        Ok(bundle)
    }
}

/// Says one sentence.
///
/// # Errors
/// The catalogue has no such message, or it cannot be formatted with the sentence's own arguments.
pub fn say(sentence: &Say, language: Language) -> Result<String, WordsFault> {
    let (variant, args) = sentence.parts();
    let mut given = FluentArgs::with_capacity(args.len());
    for (arg, value) in args {
        given.set(arg, spoken(value, language)?);
    }
    format(variant, &given, language)
}

fn spoken(arg: Arg, language: Language) -> Result<FluentValue<'static>, WordsFault> {
    Ok(match arg {
        Arg::Text(text) => FluentValue::String(text.into()),
        Arg::Count(count) => FluentValue::from(count),
        Arg::Said(sentence) => FluentValue::String(say(&sentence, language)?.into()),
    })
}

fn format(sentence: &'static str, args: &FluentArgs<'_>, language: Language) -> Result<String, WordsFault> {
    let message = name::message(sentence);
    let Some(room) = ROOM_OF.get(message.as_str()).copied().flatten() else {
        return Err(WordsFault::Unsaid { sentence });
    };
    let bundle = room.bundle(language).as_ref().map_err(Clone::clone)?;
    let pattern = bundle.get_message(&message).and_then(|message| message.value());
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
