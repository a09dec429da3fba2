//! The pseudo-language: English with accents, a third longer, to prove that a layout has room.

use std::borrow::Cow;

/// Printed on the dials and after figures; the same in every language.
const KEPT: [&str; 8] = ["OUTPUT", "RATE", "mV", "mA", "V", "s", "min", "h"];
const GROWTH_PERCENT: usize = 30;
const MOST_REPEATS: usize = 2;

/// Lengthens one piece of text of a message. Fluent hands over text only, never an argument.
pub(crate) fn lengthened(text: &str) -> Cow<'_, str> {
    let mut out = String::with_capacity(text.len() * 2);
    let mut owed = 0;
    for word in text.split_inclusive(char::is_whitespace) {
        owed += word.chars().count() * GROWTH_PERCENT;
        let bare = word.trim_matches(|letter: char| !letter.is_alphanumeric());
        if KEPT.contains(&bare) || bare.contains(|letter: char| letter.is_ascii_digit()) {
            out.push_str(word);
        } else {
            owed = stretch(word, owed, &mut out);
        }
    }
    Cow::Owned(out)
}

/// Writes the word with accents, its vowels repeated as far as the growth owed allows.
fn stretch(word: &str, mut owed: usize, out: &mut String) -> usize {
    let mut vowels_left = word.chars().filter(|letter| accented(*letter).is_some()).count();
    for letter in word.chars() {
        let Some(accent) = accented(letter) else {
            out.push(letter);
            continue;
        };
        let more = (owed / 100).div_ceil(vowels_left).min(MOST_REPEATS);
        vowels_left -= 1;
        owed -= more * 100;
        out.extend(std::iter::repeat_n(accent, more + 1));
    }
    owed
}

fn accented(letter: char) -> Option<char> {
    Some(match letter {
        'a' => 'á',
        'e' => 'é',
        'i' => 'í',
        'o' => 'ó',
        'u' => 'ú',
        'A' => 'Á',
        'E' => 'É',
        'I' => 'Í',
        'O' => 'Ó',
        'U' => 'Ú',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::lengthened;

    #[test]
    fn words_grow_and_dials_units_and_figures_stay() {
        assert_eq!(lengthened("Turn OUTPUT down to "), "Túúrn OUTPUT dóóówn tóóó ");
        assert_eq!(lengthened("120 s, 3rd mV"), "120 s, 3rd mV");
        assert_eq!(lengthened(""), "");
    }

    #[test]
    fn a_long_text_grows_by_thirty_percent() {
        let text = "Does each spike straight away make a beat unlike the own beats, and a pulse?";
        let (before, after) = (text.chars().count() * 130, lengthened(text).chars().count() * 100);
        assert!(before.abs_diff(after) <= 200, "{before} {after}");
    }
}
