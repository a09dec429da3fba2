//! Every sentence with sample arguments.

use domain::say::{SENTENCES, Say};
use serde_json::{Value, json};

/// As the catalogue names it: "TurnDownTo" is "turn-down-to".
pub fn kebab(variant: &str) -> String {
    let parted: String = variant
        .chars()
        .map(
            |letter| {
                if letter.is_uppercase() { format!("-{}", letter.to_lowercase()) } else { letter.into() }
            },
        )
        .collect();
    parted.trim_start_matches('-').to_owned()
}

/// Each sentence twice: with counts of one and of two.
pub fn every_sentence() -> Vec<Say> {
    SENTENCES.iter().flat_map(|(name, args)| [1, 2].map(|count| sample(name, args, count))).collect()
}

/// A text, a count and a sentence each fit one kind of argument only, so the first that fits is right.
pub fn sample(name: &str, args: &[&str], count: u32) -> Say {
    let kinds = [json!("1.6"), json!(count), json!("output")];
    let ways = kinds.len().pow(u32::try_from(args.len()).unwrap());
    (0..ways).find_map(|way| serde_json::from_value(filled(name, args, &kinds, way)).ok()).unwrap_or_else(
        || {
            panic!("{name}: an argument is neither a text, a count nor a sentence");
        },
    )
}

fn filled(name: &str, args: &[&str], kinds: &[Value], mut way: usize) -> Value {
    if args.is_empty() {
        return json!(kebab(name));
    }
    let mut fields = serde_json::Map::new();
    for arg in args {
        fields.insert((*arg).into(), kinds[way % kinds.len()].clone());
        way /= kinds.len();
    }
    json!({ kebab(name): fields })
}
