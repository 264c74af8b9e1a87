//! Tables of names: what a person may say for a thing, and what the program says for it.

/// Names and what they name; the first name of a thing is the one that is said.
pub(crate) type Names<T> = &'static [(&'static str, T)];

/// The name by which a thing is said.
pub(crate) fn name<T: PartialEq>(names: Names<T>, value: &T) -> &'static str {
    names.iter().find(|(_, named)| named == value).map_or("it", |&(name, _)| name)
}
