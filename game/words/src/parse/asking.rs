//! Asking, and ending.

use sim_core::session::action::Action;

use super::form::{Form, form, one};
use crate::request::Request;
use crate::topic::Topic;

pub(super) const FORMS: &[Form] = &[
    form(
        &["ask <ask>", "<ask>"],
        &["ask what now", "ask why", "ask show me", "ask for calculations", "ask for plot"],
        "help with the work; your request is logged",
        |caught, _| one(Action::AskHelp { topic: caught.ask()? }),
    ),
    form(
        &["leave roof?", "go down ladder?", "leave because weather"],
        &["leave roof"],
        "because the work cannot continue",
        |_, _| one(Action::LeaveRoof),
    ),
    form(&["sign field? book?"], &["sign"], "the field book, which ends the session", |_, _| {
        one(Action::Sign)
    }),
    form(
        &["show|read|open? field? book", "look at? field? book"],
        &["book"],
        "what you have written",
        |_, _| Ok(Request::Book),
    ),
    form(&["again", "repeat"], &["again"], "repeat your last sentence", |_, _| Ok(Request::Again)),
    form(&["help"], &["help"], "the overview", |_, _| Ok(Request::Help(None))),
    form(&["help on|with? quit|exit|sign|leaving|ending"], &["help quit"], "", |_, _| {
        Ok(Request::Help(Some(Topic::Asking)))
    }),
    form(
        &["help on|with? <topic>"],
        &["help manometer", "help all"],
        "the sentences of one topic, or all",
        |caught, _| Ok(Request::Help(Some(caught.topic()?))),
    ),
    form(
        &["quit", "exit", "bye"],
        &["quit"],
        "leave; with a journal you can resume later",
        |_, _| Ok(Request::Quit),
    ),
];
