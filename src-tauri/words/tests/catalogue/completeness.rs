use std::collections::{BTreeMap, BTreeSet};

use domain::say::{SENTENCES, Say};
use words::Language;

use crate::said::{every_sentence, kebab};
use crate::tree::english;

#[test]
fn every_sentence_has_one_message_with_its_own_arguments() {
    let wanted: BTreeMap<String, BTreeSet<String>> = SENTENCES
        .iter()
        .map(|(name, args)| (kebab(name), args.iter().map(|arg| (*arg).to_owned()).collect()))
        .collect();
    let mut written = BTreeMap::new();
    for message in english() {
        let twice = written.insert(message.name.clone(), message.args);
        assert!(twice.is_none(), "{} is written twice, the second time in {}", message.name, message.room);
    }
    let missing: Vec<_> = wanted.keys().filter(|name| !written.contains_key(*name)).collect();
    let extra: Vec<_> = written.keys().filter(|name| !wanted.contains_key(*name)).collect();
    assert!(missing.is_empty(), "no message for {missing:#?}");
    assert!(extra.is_empty(), "messages of no sentence {extra:#?}");
    let differ: Vec<_> = wanted.iter().filter(|(name, args)| written[*name] != **args).collect();
    assert!(differ.is_empty(), "the message does not use exactly these arguments {differ:#?}");
}

#[test]
fn every_sentence_can_be_said_in_every_language() {
    let silent = ["blank", "no-unit"];
    for sentence in every_sentence() {
        for language in [Language::English, Language::Pseudo] {
            let said = words::say(&sentence, language).unwrap_or_else(|fault| panic!("{fault}"));
            let may_be_silent = silent.contains(&kebab(sentence.name()).as_str());
            assert_eq!(said.is_empty(), may_be_silent, "{sentence:?}");
            assert_eq!(said.trim(), said, "{sentence:?}");
        }
    }
}

#[test]
fn a_figure_comes_out_as_it_went_in() {
    for figure in ["0.8", "88", "1,6", "٣", "Bay 2 \u{202e}x"] {
        let sentence = Say::Figure { text: figure.into() };
        assert_eq!(words::say(&sentence, Language::English).unwrap(), figure);
        assert_eq!(words::say(&sentence, Language::Pseudo).unwrap(), figure);
    }
}

#[test]
fn a_sentence_inside_a_sentence_is_said_in_the_same_language() {
    let inside = Say::WireAndStage { wire: Box::new(Say::AtrialWire), stage: Box::new(Say::StageCapture) };
    assert_eq!(words::say(&inside, Language::English).unwrap(), "Atrial wire · capture");
    assert_eq!(words::say(&inside, Language::Pseudo).unwrap(), "ÁÁtrííál wííré · cááptúúré");
}

#[test]
fn a_missing_unit_leaves_no_space_behind() {
    let from = Say::FromFigure { figure: "70".into(), unit: Box::new(Say::NoUnit) };
    assert_eq!(words::say(&from, Language::English).unwrap(), "from 70");
}
