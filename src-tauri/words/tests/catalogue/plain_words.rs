use crate::tree::english;

/// What no sentence may contain, and why.
const BANNED: [(&str, &str); 16] = [
    ("sensitiv", "used both ways in print (common practice, no source); say which way the mV number goes"),
    ("no own rhythm", "nobody can see that; say down to which rate none was seen"),
    ("pacing round", "the check is a pacing check"),
    ("please", "short and calm"),
    ("sorry", "short and calm"),
    ("!", "short and calm"),
    ("invalid", "say what is allowed"),
    ("error", "say what happened and the next act"),
    ("fail", "say what was seen"),
    ("user", "a person"),
    ("you must", "cards ask"),
    ("click", "a finger taps"),
    ("is captured", "the app cannot see it"),
    ("is sensing", "the app cannot see it"),
    ("seed", "not a word of the bedside"),
    ("...", "a sentence is finished"),
];

#[test]
fn no_sentence_uses_a_banned_word() {
    for message in english() {
        let text = message.text.to_lowercase();
        for (banned, why) in BANNED {
            assert!(!text.contains(banned), "{}: \"{banned}\": {why}", message.name);
        }
    }
}

/// Figures reach the catalogue as finished strings: a language's own decimal sign must not stand beside a
/// dial that prints a point.
#[test]
fn no_message_formats_a_number_or_a_date() {
    for message in english() {
        assert!(message.functions.is_empty(), "{}: {:?}", message.name, message.functions);
        assert_eq!(message.attributes, 0, "{}", message.name);
        let text: Vec<char> = message.text.chars().collect();
        let decimal = text.windows(3).any(|three| {
            three[0].is_ascii_digit() && matches!(three[1], '.' | ',') && three[2].is_ascii_digit()
        });
        assert!(!decimal, "{}: a dial position is an argument, not text", message.name);
    }
}

/// Big is good in sensing, small is good in capture, and the number's direction says what it sees.
#[test]
fn the_directions_are_said_once_and_right() {
    let text = |name: &str| english().into_iter().find(|message| message.name == name).unwrap().text;
    assert_eq!(text("sees-less"), "mV number up: sees less");
    assert_eq!(text("sees-more"), "mV number down: sees more");
    assert_eq!(text("small-is-good"), "small is good");
    assert_eq!(text("big-is-good"), "big is good");
}
