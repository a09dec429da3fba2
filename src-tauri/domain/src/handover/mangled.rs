//! What the keyboard of another country makes of a code that a scanner types.

/// `HOLDFAST` and `HFC1` to `HFC3` as keyboards of other countries write them: French, Russian, Ukrainian, those of
/// Slavic languages that follow the sound, Greek (layouts from memory).
const LIKE: [&str; 21] = [
    "HOLDFAST",
    "HFC1",
    "HFC2",
    "HFC3",
    "HOLDFQST",
    "HFC&",
    "HFC\u{c9}",
    "HFC\"",
    "РЩДВАФЫЕ",
    "РЩДВАФІЕ",
    "РАС1",
    "РАС2",
    "РАС3",
    "ХОЛДФАСТ",
    "ХФЦ1",
    "ХФЦ2",
    "ХФЦ3",
    "ΗΟΛΔΦΑΣΤ",
    "ΗΦΨ1",
    "ΗΦΨ2",
    "ΗΦΨ3",
];

/// Begins like a code of ours, but in letters of another keyboard: `HOLDFAST` in other capitals or in what a
/// country's keys make of it, or letters that no code has.
pub fn is_mangled(text: &str) -> bool {
    const OURS: [&str; 6] = ["HOLDFAST 1 ", "HOLDFAST 2 ", "HOLDFAST 3 ", "HFC1:", "HFC2:", "HFC3:"];
    let start: String = text.trim_start().chars().take(8).collect::<String>().to_uppercase();
    let alike = LIKE.iter().any(|like| start.starts_with(like));
    let as_ours = OURS.iter().any(|start| text.starts_with(start));
    alike && (!as_ours || !text.is_ascii() || !text.contains(':'))
}
