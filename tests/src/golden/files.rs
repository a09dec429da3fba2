//! The files: written on request, compared otherwise.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use domain::contract::View;
use domain::say::Say;
use words::{Language, render};

use super::sheet::sheet;

const LANGUAGES: [(Language, &str); 2] = [(Language::English, "english"), (Language::Pseudo, "pseudo")];
const SHEET: &str = "cards.txt";

/// Named by `make views`.
const WRITE: &str = "HOLDFAST_WRITE_VIEWS";

fn folder() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/views"))
}

/// Names of the files that differ, are missing, or belong to no card.
pub fn differing(views: &BTreeMap<String, View<Say>>) -> Vec<String> {
    let made = rendered(views);
    if std::env::var_os(WRITE).is_some() {
        write(&made);
    }
    let kept = kept();
    let differs = made.iter().filter(|(name, text)| kept.get(*name) != Some(text)).map(|(name, _)| name);
    let stray = kept.keys().filter(|name| !made.contains_key(*name));
    differs.chain(stray).cloned().collect()
}

fn rendered(views: &BTreeMap<String, View<Say>>) -> BTreeMap<String, String> {
    let mut made = BTreeMap::new();
    for (language, ending) in LANGUAGES {
        let said: BTreeMap<String, View<String>> =
            views.iter().map(|(name, view)| (name.clone(), render(view, language).unwrap())).collect();
        if language == Language::English {
            made.insert(SHEET.to_owned(), sheet(&said));
        }
        made.extend(said.iter().map(|(name, view)| {
            (format!("{name}.{ending}.json"), format!("{}\n", serde_json::to_string(view).unwrap()))
        }));
    }
    made
}

fn kept() -> BTreeMap<String, String> {
    let named = |entry: fs::DirEntry| entry.file_name().into_string().unwrap();
    let read = |name: String| (name.clone(), fs::read_to_string(folder().join(name)).unwrap());
    fs::read_dir(folder()).unwrap().map(|entry| named(entry.unwrap())).map(read).collect()
}

fn write(made: &BTreeMap<String, String>) {
    for name in kept().keys().filter(|name| !made.contains_key(*name)) {
        fs::remove_file(folder().join(name)).unwrap();
    }
    for (name, text) in made {
        fs::write(folder().join(name), text).unwrap();
    }
}
