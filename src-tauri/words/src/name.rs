/// "AnswerPWithoutQrs" is said by the message "answer-p-without-qrs".
pub(crate) fn message(variant: &str) -> String {
    let mut name = String::with_capacity(variant.len() + 8);
    for letter in variant.chars() {
        if letter.is_ascii_uppercase() && !name.is_empty() {
            name.push('-');
        }
        name.push(letter.to_ascii_lowercase());
    }
    name
}

#[cfg(test)]
mod tests {
    use super::message;

    #[test]
    fn each_capital_begins_a_part() {
        assert_eq!(message("Mv"), "mv");
        assert_eq!(message("NoBeats"), "no-beats");
        assert_eq!(message("AnswerPWithoutQrs"), "answer-p-without-qrs");
    }
}
