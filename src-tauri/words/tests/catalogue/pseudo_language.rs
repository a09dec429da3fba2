use words::Language;

use crate::said::every_sentence;

#[test]
fn the_pseudo_language_is_about_thirty_percent_longer() {
    let length = |language| -> usize {
        let said = |sentence| words::say(sentence, language).unwrap().chars().count();
        every_sentence().iter().map(said).sum()
    };
    let (english, pseudo) = (length(Language::English), length(Language::Pseudo));
    assert!((english * 125..=english * 135).contains(&(pseudo * 100)), "{english} to {pseudo}");
}

#[test]
fn the_pseudo_language_keeps_every_figure_and_dial_name() {
    let kept = |text: &str| -> Vec<String> {
        let words = text.split_whitespace().map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()));
        let fixed = |word: &&str| {
            word.contains(|c: char| c.is_ascii_digit()) || ["OUTPUT", "RATE", "mV"].contains(word)
        };
        words.filter(fixed).map(str::to_owned).collect()
    };
    for sentence in every_sentence() {
        let [english, pseudo] =
            [Language::English, Language::Pseudo].map(|l| words::say(&sentence, l).unwrap());
        assert_eq!(kept(&english), kept(&pseudo), "{english} / {pseudo}");
    }
}
