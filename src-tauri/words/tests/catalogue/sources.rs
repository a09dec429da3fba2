//! No sentence is written outside the catalogues: the sources are read token by token.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::str::FromStr;

use domain::say::SENTENCES;
use proc_macro2::{Delimiter, TokenStream, TokenTree};

const RUST: [&str; 6] = [
    "src-tauri/domain/src",
    "src-tauri/session/src",
    "src-tauri/terminal/src",
    "src-tauri/export/src",
    "src-tauri/practice/src",
    "src-tauri/src",
];
const PAGE: &str = "ui/src";

/// Literals of several words that no person at the bedside reads, and why they may stand in a source.
const NOT_SAID: &[(&str, &str)] = &[
    ("below half", "a rule's id in the unit's file"),
    ("half less 1 mV", "a rule's id in the unit's file"),
    ("one third", "a rule's id in the unit's file"),
    ("double plus 1 mA", "a rule's id in the unit's file"),
    ("repeated field", "the parser's own fault, shown as DocumentFault"),
    ("only a CSV written out in the exercise can be read here", FOR_WHO_WROTE_IT),
    ("wire since removed", CSV),
    ("{dial} {stood} instead of {said}", CSV),
    ("Another battery in {}", FHIR),
    ("Unplugged, and back in {}", FHIR),
    ("Nothing was unplugged", FHIR),
    ("The dials were not read at the end.", FHIR),
    ("The old generator paced another wire of this patient too.", FHIR),
    ("A time without beats was reported.", FHIR),
    ("A shock was given.", FHIR),
    ("Nobody was moved", FHIR),
    ("Handed from one team to another: {}", FHIR),
    ("Read unlike what was known: {dial}", FHIR),
    ("Example rules: local rules and the responsible clinician come first.", FHIR),
    ("The dials were not read at the end of this check.", FHIR),
    ("No number of the dial saw every own beat.", FHIR),
    ("at least {at} mV", FHIR),
    ("no number saw", FHIR),
    ("not tested", FHIR),
    ("{at} {unit}, going up", FHIR),
    ("{low} to {at} {unit}, going down", FHIR),
    ("at most {at} {unit}, going down", FHIR),
    ("Pacing check of a temporary wire", CODE),
    ("Change of the external pulse generator of a temporary wire", CODE),
    ("Change of the battery of an external pulse generator", CODE),
    ("Transport with temporary pacing wires", CODE),
    ("Whose wire it is: the receiving system puts the patient in", CODE),
    ("External pulse generator", CODE),
    ("Pacemaker mode", CODE),
    ("Set rate", CODE),
    ("Own rhythm, slowest rate", CODE),
    ("Own rhythm, fastest rate", CODE),
    ("Sensing threshold", CODE),
    ("Set output divided by capture threshold", CODE),
    ("Pulse width", CODE),
    ("Highest output at which a spike made no beat", CODE),
    ("Atrial stimulation setting", CODE),
    ("Ventricular stimulation setting", CODE),
    ("Atrial stimulation threshold", CODE),
    ("Ventricular stimulation threshold", CODE),
    ("Atrial sensitivity setting", CODE),
    ("Ventricular sensitivity setting", CODE),
    ("Simulated: {checks} checks at each number of beats; rule: double the threshold", PLOT),
    ("beats watched at the threshold, none missed", PLOT),
    ("misses left open: 1 - 0.05^(1/n)", PLOT),
    ("misses of 95 of 100 thresholds found, at most", PLOT),
    ("plans whose real margin is below the rule", PLOT),
    ("Holdfast: no key for this tablet: {trouble:?}", LOG),
    ("Holdfast: export: {fault:?}", LOG),
    ("Holdfast: backup: {fault}", LOG),
    ("Holdfast: export: {error}", LOG),
    ("Holdfast: card {} has no words: {fault}", LOG),
    ("Holdfast: card {} is {} bytes; {VIEW_BYTES} at most", LOG),
    ("Holdfast: card {} cannot be sent: {error}", LOG),
    ("Holdfast: no worker is left", LOG),
    ("Holdfast: a worker broke off", LOG),
    ("Holdfast: the page is back after {} ms", LOG),
    ("Holdfast: the strip of that moment cannot be made: {fault}", LOG),
    ("Holdfast: no thread for the strip of that moment: {fault}", LOG),
    ("Holdfast: a page asked for what only the session knows", LOG),
    ("Holdfast: record verified, {} entries, {} erased", LOG),
    ("Holdfast: the record does not hold: {fault}", LOG),
    ("Holdfast: the simulated patient cannot go on: {fault}", LOG),
    ("Holdfast: no snapshot at the end: {trouble:?}", LOG),
    ("Holdfast: the simulated patient stands still: {fault}", LOG),
    ("Holdfast: the tablet's key cannot be read: {error}", LOG),
    ("Holdfast: the record in the backup: {fault}", LOG),
    ("Holdfast: run {run} cannot be judged: {fault}", LOG),
    ("Holdfast: the session broke off", LOG),
    ("Holdfast: the reading of the record broke off", LOG),
    ("Holdfast: the log stays in {FILE}: {error}", LOG),
    ("Holdfast: the desktop does not keep the screen lit ({fault}).", LOG),
    ("Holdfast: the page ended ({reason:?}); loading it again.", LOG),
    ("rehearse FILE [--json]", TYPED),
    ("practise FILE --seed N [--out FOLDER]", TYPED),
    ("signoff verify FILE [FOLDER]", TYPED),
    ("verify FOLDER", TYPED),
    ("code FOLDER", TYPED),
    ("export FOLDER INTO [--backup]", TYPED),
    ("backup FOLDER FILE", TYPED),
    ("restore FILE FOLDER [--aside OTHER]", TYPED),
];

const FOR_WHO_WROTE_IT: &str = "stands inside a fault of an exercise file, as those of FOR_AUTHORS";
const TYPED: &str =
    "a command as it is typed, said inside a sentence of the catalogue or on a line of its own";
const CSV: &str = "a value of an exported CSV, whose English is fixed: receivers sort by it";
const FHIR: &str = "a note or narrative of the exported FHIR bundle, an exchange format whose English is fixed and kept \
                    byte for byte in export/tests/kept: it must not change with the tablet's language";
const LOG: &str =
    "a line of the program's log, for whoever maintains the tablet: no person at the bedside sees it";
const PLOT: &str = "on the plot of a proof, for engineers, as the table beside it";
const CODE: &str =
    "the text of a code in that bundle, as its directory prints it, or ours where no directory has one";

/// What stands against a scenario or exercise file is said to whoever wrote it, in its own language.
const FOR_AUTHORS: [&str; 1] = ["fault.rs"];

/// Compiled by tests alone: it writes the page's types.
const ONLY_TESTS: &str = "contract/written.rs";

/// What this macro writes goes to whoever compiles it. What goes to the program's log is listed above, line by line:
/// the same macro also speaks to whoever starts the program.
const FOR_COMPILERS: [&str; 1] = ["compile_error"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

fn sources(folder: &Path, endings: &[&str], found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
        if path.is_dir() {
            sources(&path, endings, found);
        } else if endings.contains(&ending) {
            found.push(path);
        }
    }
}

/// Two words or more, one after the other.
fn is_sentence(text: &str) -> bool {
    let is_word = |part: &str| {
        let bare = part.trim_matches(|letter: char| ".,:;?!()\"".contains(letter));
        bare.chars().count() >= 2 && bare.chars().all(|letter| letter.is_alphabetic() || letter == '\'')
    };
    let parts: Vec<_> = text.split_whitespace().collect();
    parts.windows(2).any(|two| is_word(two[0]) && is_word(two[1]))
}

/// Keys of published sources, in a row: "ACCCN, CTS, NK".
fn is_keys(text: &str) -> bool {
    text.split(", ")
        .all(|key| key.chars().all(|letter| letter.is_ascii_uppercase() || letter.is_ascii_digit()))
}

fn literals(tokens: TokenStream, found: &mut Vec<String>) {
    let tokens: Vec<_> = tokens.into_iter().collect();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        at += 1;
        match token {
            // Attributes: documentation, and what only tests compile.
            TokenTree::Punct(mark) if mark.as_char() == '#' => at += skipped(&tokens[at..]),
            TokenTree::Ident(name) if FOR_COMPILERS.contains(&name.to_string().as_str()) => at += 2,
            TokenTree::Group(group) => literals(group.stream(), found),
            TokenTree::Literal(literal) => found.extend(text_of(&literal.to_string())),
            TokenTree::Ident(_) | TokenTree::Punct(_) => {}
        }
    }
}

/// Tokens from the `#` on to leave out: the attribute, and for `cfg(test)` the item it stands on.
fn skipped(tokens: &[TokenTree]) -> usize {
    let brackets = tokens.iter().position(
        |token| matches!(token, TokenTree::Group(group) if group.delimiter() == Delimiter::Bracket),
    );
    let Some(attribute) = brackets.filter(|&at| at <= 1) else { return 0 };
    if tokens[attribute].to_string().replace(' ', "") != "[cfg(test)]" {
        return attribute + 1;
    }
    let ends_item = |token: &TokenTree| match token {
        TokenTree::Group(group) => group.delimiter() == Delimiter::Brace,
        TokenTree::Punct(mark) => mark.as_char() == ';',
        TokenTree::Ident(_) | TokenTree::Literal(_) => false,
    };
    tokens.iter().position(ends_item).map_or(tokens.len(), |end| end + 1)
}

fn text_of(literal: &str) -> Option<String> {
    let is_text = ["\"", "r\"", "r#", "b\"", "c\""].iter().any(|opening| literal.starts_with(opening));
    is_text.then(|| {
        let text = literal.trim_start_matches(['r', 'b', 'c', '#']).trim_end_matches('#');
        text.trim_matches('"').replace("\\n", " ")
    })
}

fn sentences_in_rust(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    literals(TokenStream::from_str(text).unwrap(), &mut found);
    unsaid(found)
}

/// Those that belong in a catalogue.
fn unsaid(mut found: Vec<String>) -> Vec<String> {
    let said = |literal: &String| NOT_SAID.iter().any(|(allowed, _)| allowed == literal);
    found.retain(|literal| is_sentence(literal) && !is_keys(literal) && !said(literal));
    found
}

#[test]
fn no_sentence_stands_in_the_rust_sources() {
    let mut files = Vec::new();
    for folder in RUST {
        sources(&root().join(folder), &["rs"], &mut files);
    }
    assert!(files.len() > 40, "only {} files read", files.len());
    let read = files.iter().filter(|file| !is_left_out(file));
    let found: Vec<_> = read
        .flat_map(|file| {
            let sentences = sentences_in_rust(&std::fs::read_to_string(file).unwrap());
            sentences.into_iter().map(move |sentence| format!("{}: {sentence}", file.display()))
        })
        .collect();
    assert!(found.is_empty(), "these belong in a catalogue: {found:#?}");
}

/// A sentence that has gone from the sources goes from the list.
#[test]
fn each_exception_still_stands_in_a_source() {
    let mut files = Vec::new();
    for folder in RUST {
        sources(&root().join(folder), &["rs"], &mut files);
    }
    let mut found = Vec::new();
    for file in &files {
        literals(TokenStream::from_str(&std::fs::read_to_string(file).unwrap()).unwrap(), &mut found);
    }
    let gone = |(literal, _): &&(&str, &str)| !found.iter().any(|one| one == literal);
    let gone: Vec<_> = NOT_SAID.iter().filter(gone).collect();
    assert!(gone.is_empty(), "these stand nowhere any more: {gone:#?}");
}

/// Faults of scenario and exercise files, and modules that only tests compile, in files of their own.
fn is_left_out(file: &Path) -> bool {
    let for_authors = ["terminal", "practice"];
    let is_theirs = file.components().any(|part| for_authors.iter().any(|room| part.as_os_str() == *room));
    file.ends_with(ONLY_TESTS)
        || (is_theirs && FOR_AUTHORS.iter().any(|name| file.ends_with(name)))
        || file.file_stem().is_some_and(|stem| stem == "tests")
        || file.components().any(|part| part.as_os_str() == "tests")
}

/// Quoted texts, templates and text between tags of a page source.
fn sentences_in_page(text: &str) -> Vec<String> {
    let code = without_comments(text);
    let quoted = ['"', '\'', '`']
        .into_iter()
        .flat_map(|quote| code.split(quote).skip(1).step_by(2).map(str::to_owned).collect::<Vec<_>>());
    let between =
        code.split('>').skip(1).map(|part| part.split(['<', '{']).next().unwrap_or_default().to_owned());
    let looks = |text: &String| is_sentence(text) && text.trim().starts_with(char::is_uppercase);
    let plain = |text: &String| !text.contains(['=', ';', '|', '(', '&']);
    quoted.chain(between).filter(|text| looks(text) && plain(text)).collect()
}

fn without_comments(text: &str) -> String {
    let mut code = String::new();
    for (at, part) in text.split("/*").enumerate() {
        code.push_str(if at == 0 { part } else { part.split_once("*/").map_or("", |(_, rest)| rest) });
    }
    code.lines().map(|line| line.split("//").next().unwrap_or_default()).collect::<Vec<_>>().join("\n")
}

#[test]
fn no_sentence_stands_in_the_page() {
    let mut files = Vec::new();
    sources(&root().join(PAGE), &["ts", "tsx"], &mut files);
    assert!(files.len() > 10, "only {} files read", files.len());
    for file in files {
        let found = sentences_in_page(&std::fs::read_to_string(&file).unwrap());
        assert!(found.is_empty(), "{}: {found:#?} belong in a catalogue", file.display());
    }
}

#[test]
fn the_reader_finds_a_sentence_where_there_is_one() {
    assert_eq!(
        sentences_in_rust(r#"fn say() -> &'static str { "Turn the dial down" }"#),
        ["Turn the dial down"]
    );
    assert_eq!(sentences_in_rust(r##"const A: &str = r#"Look again"#;"##), ["Look again"]);
    assert_eq!(sentences_in_rust("#[doc = \"Not said here\"] fn f() { x(\"below half\") }"), [""; 0]);
    assert_eq!(
        sentences_in_rust("#[cfg(test)] mod tests { const A: &str = \"Only in tests\"; } fn f() {}"),
        [""; 0]
    );
    assert_eq!(sentences_in_rust("fn f() { eprintln!(\"It did not start\") }"), ["It did not start"]);
    assert_eq!(sentences_in_rust("compile_error!(\"not in a release\");"), [""; 0]);
    assert_eq!(
        sentences_in_page("return <p class=\"big red\">Turn it down</p>; // Not this one"),
        ["Turn it down"]
    );
    assert_eq!(sentences_in_page("label = \"Look again\""), ["Look again"]);
}

/// Sentences of parts that are still to come; an entry here is a debt.
const NOT_YET_SAID: [&str; 0] = [];

#[test]
fn every_sentence_is_said_somewhere() {
    let mut files = Vec::new();
    for folder in RUST {
        sources(&root().join(folder), &["rs"], &mut files);
    }
    let code: String = files.iter().map(|file| std::fs::read_to_string(file).unwrap()).collect();
    let said: BTreeSet<&str> = code
        .split("Say::")
        .skip(1)
        .map(|rest| rest.split(|letter: char| !letter.is_alphanumeric()).next().unwrap_or_default())
        .collect();
    let silent: Vec<_> = SENTENCES
        .iter()
        .map(|(name, _)| *name)
        .filter(|name| said.contains(name) == NOT_YET_SAID.contains(name))
        .collect();
    assert!(silent.is_empty(), "said nowhere, or said and still in NOT_YET_SAID: {silent:?}");
}
