//! Which known name an unknown name may have been meant to be.

/// The nearest known name if one is near, otherwise all of them.
pub(super) fn suggest(found: &str, known: &[&str]) -> String {
    match near(found, known) {
        Some(name) => format!("write `{name}`"),
        None => format!("use one of {}", known.join(", ")),
    }
}

/// The nearest known name, if one is near enough to be meant.
pub(crate) fn near<'a>(found: &str, known: &[&'a str]) -> Option<&'a str> {
    let nearest = known.iter().map(|name| (distance(found, name), *name)).min();
    nearest.filter(|(far, name)| *far <= 2.max(name.len() / 3)).map(|(_, name)| name)
}

/// How many letters must be changed, added or removed to turn one name into the other
/// (Levenshtein). Only the first 64 letters count.
fn distance(one: &str, other: &str) -> usize {
    let other: Vec<char> = other.chars().take(64).collect();
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (i, c) in one.chars().take(64).enumerate() {
        let mut left = i + 1;
        let mut next = vec![left];
        for (j, d) in other.iter().enumerate() {
            let above = row.get(j + 1).copied().unwrap_or(usize::MAX - 1);
            let corner = row.get(j).copied().unwrap_or(usize::MAX - 1);
            left = (left + 1).min(above + 1).min(corner + usize::from(c != *d));
            next.push(left);
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}
