//! How sentences are put together.

/// Joins names: `a`, `a and b`, `a, b and c`.
pub(crate) fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A sentence with a capital first letter and a full stop.
pub(crate) fn sentence(text: &str) -> String {
    format!("{}.", capital(text))
}

/// A text with a capital first letter.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

/// Several texts as sentences one after the other.
pub(crate) fn sentences(texts: &[String]) -> String {
    texts.iter().map(|text| sentence(text)).collect::<Vec<_>>().join(" ")
}
