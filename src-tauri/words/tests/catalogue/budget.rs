//! A dial card is read in one look: instruction, question, reason and watch are 32 English words at most, so
//! that another language stays under 40. Each part has its share.

use crate::tree::english;

fn words(text: &str) -> usize {
    text.lines()
        .map(|line| {
            line.split_whitespace()
                .filter(|word| word.chars().any(char::is_alphanumeric) || *word == "#")
                .count()
        })
        .max()
        .unwrap_or(0)
}

/// Longest text by the ending or the beginning of its name: words.
const SHARES: [(&str, usize); 6] =
    [("-reason", 14), ("ask-", 15), ("turn-", 5), ("time-for-", 5), ("stage-", 3), ("flag-", 18)];

#[test]
fn each_part_of_a_card_keeps_to_its_share() {
    for message in english() {
        for (part, most) in SHARES {
            let is_part = if part.starts_with('-') {
                message.name.ends_with(part)
            } else {
                message.name.starts_with(part)
            };
            let count = words(&message.text);
            assert!(!is_part || count <= most, "{}: {count} words, {most} at most", message.name);
        }
    }
}

/// An answer is a large button: two short lines.
#[test]
fn answers_are_short() {
    for message in english() {
        let answer = ["answer-", "seen-"].iter().any(|part| message.name.starts_with(part))
            || ["-yes", "-no", "-done"].iter().any(|part| message.name.ends_with(part));
        let length = message.text.chars().count();
        assert!(!answer || length <= 32, "{}: {length} characters", message.name);
    }
}
