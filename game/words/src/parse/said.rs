//! Sentences said on the sample bench, for the tests.

use content::sample;
use sim_core::field_book::FieldBook;

use super::not_understood::NotUnderstood;
use super::read::parse;
use super::table::forms;
use crate::request::Request;
use crate::topic::Topic;

/// What a sentence asks for on the sample bench, with an empty field book.
pub(super) fn said(sentence: &str) -> Result<Request, NotUnderstood> {
    parse(sentence, &sample::view(), &FieldBook::default())
}

/// Every sentence that the help shows.
pub(super) fn examples() -> impl Iterator<Item = &'static str> {
    Topic::WORK.into_iter().flat_map(forms).flat_map(|form| form.examples).copied()
}
