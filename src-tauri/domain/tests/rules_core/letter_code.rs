//! The generic code (NBG, V): which letter may stand in which place. Check 1.

use domain::nbg::{CheckMode, Code, NotACode, Response, Where};
use domain::rules::Chamber;

const WHERE: [(char, Where); 4] =
    [('O', Where::None), ('A', Where::Atrium), ('V', Where::Ventricle), ('D', Where::Dual)];
const RESPONSE: [(char, Response); 4] =
    [('O', Response::None), ('T', Response::Triggered), ('I', Response::Inhibited), ('D', Response::Dual)];
const MODULATION: [(char, bool); 2] = [('O', false), ('R', true)];

/// Every code the source allows, by nested loops over its table.
fn allowed() -> Vec<(String, Code)> {
    let mut codes = Vec::new();
    for (one, paced) in WHERE {
        for (two, sensed) in WHERE {
            for (three, response) in RESPONSE {
                let code = Code { paced, sensed, response, rate_modulation: None, multisite: None };
                codes.push((format!("{one}{two}{three}"), code));
                for (four, modulated) in MODULATION {
                    let code = Code { rate_modulation: Some(modulated), ..code };
                    codes.push((format!("{one}{two}{three}{four}"), code));
                    for (five, site) in WHERE {
                        let code = Code { multisite: Some(site), ..code };
                        codes.push((format!("{one}{two}{three}{four}{five}"), code));
                    }
                }
            }
        }
    }
    codes
}

#[test]
fn every_allowed_code_is_read_and_written_back() {
    let codes = allowed();
    assert_eq!(codes.len(), 64 * (1 + 2 + 8));
    for (text, code) in codes {
        assert_eq!(Code::decode(&text), Ok(code), "{text}");
        assert_eq!(code.to_string(), text);
    }
}

/// Every text of one to five characters from the code's letters and likely mistakes.
#[test]
fn nothing_else_is_read() {
    let known: std::collections::HashSet<String> = allowed().into_iter().map(|(text, _)| text).collect();
    let mut texts = vec![String::new()];
    let mut accepted = 0;
    for _ in 0..5 {
        texts = texts.iter().flat_map(|t| "OAVDTIRS0ov".chars().map(move |c| format!("{t}{c}"))).collect();
        for text in &texts {
            let read = Code::decode(text).is_ok();
            assert_eq!(read, known.contains(text), "{text}");
            accepted += usize::from(read);
        }
    }
    assert_eq!(accepted, known.len());
}

#[test]
fn mistakes_are_told_apart() {
    let letter = |place, found, allowed: &str| NotACode::Letter { place, found, allowed: allowed.to_owned() };
    let mistakes = [
        ("V0O", NotACode::DigitZero { place: 2 }),
        ("VO0", NotACode::DigitZero { place: 3 }),
        ("SSI", NotACode::MakersLetter { place: 1 }),
        ("VV", NotACode::Length { found: 2 }),
        ("VVIROO", NotACode::Length { found: 6 }),
        ("", NotACode::Length { found: 0 }),
        ("VVR", letter(3, 'R', "OTID")),
        ("VVIA", letter(4, 'A', "OR")),
        ("vvi", letter(1, 'v', "OAVD")),
        ("VVI ", letter(4, ' ', "OR")),
        ("VÖO", letter(2, 'Ö', "OAVD")),
    ];
    for (text, expected) in mistakes {
        assert_eq!(Code::decode(text), Err(expected), "{text}");
    }
}

/// What a check on one wire makes of a mode; the blocks of the check name dual-chamber and triggered.
#[test]
fn a_check_knows_its_modes() {
    let modes = [
        ("VVI", CheckMode::Other, CheckMode::Demand),
        ("AAI", CheckMode::Demand, CheckMode::Other),
        ("VOO", CheckMode::Other, CheckMode::Asynchronous),
        ("AOO", CheckMode::Asynchronous, CheckMode::Other),
        ("VVIO", CheckMode::Other, CheckMode::Demand),
        ("VVIR", CheckMode::Other, CheckMode::Other),
        ("VVT", CheckMode::Triggered, CheckMode::Triggered),
        ("AAT", CheckMode::Triggered, CheckMode::Triggered),
        ("DDD", CheckMode::DualChamber, CheckMode::DualChamber),
        ("DOO", CheckMode::DualChamber, CheckMode::DualChamber),
        ("VDD", CheckMode::DualChamber, CheckMode::DualChamber),
        ("OOO", CheckMode::Other, CheckMode::Other),
        ("VAI", CheckMode::Other, CheckMode::Other),
        ("VVO", CheckMode::Other, CheckMode::Other),
    ];
    for (text, atrium, ventricle) in modes {
        let code = Code::decode(text).unwrap();
        assert_eq!(code.for_check(Chamber::Atrium), atrium, "{text} on an atrial wire");
        assert_eq!(code.for_check(Chamber::Ventricle), ventricle, "{text} on a ventricular wire");
    }
}
