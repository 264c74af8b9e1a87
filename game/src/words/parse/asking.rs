//! Reporting, asking, and ending.

use sim_core::session::action::{Action, Remark};

use super::form::{Form, but, form, one};
use super::sentence::unquoted;
use crate::words::Request;

pub(super) const FORMS: &[Form] = &[
    form(
        &["report <fault-place> <text> and? <response>"],
        &[
            "report manometer valve leaks, repaired",
            "report certificate a year too old, rejected",
            "report weather gusts move the water, noted",
            "report recorder zero half a division high, corrected",
        ],
        "where, what, and what was done about it",
        |caught, _| {
            let what = caught.text()?;
            let what = unquoted(what.trim_end_matches([',', ';', ' '])).to_owned();
            let (place, response) = (caught.fault_place()?, caught.response()?);
            one(Action::Report(Remark { place, what, response }))
        },
    ),
    form(&["report <fault-place> <text>", "report <fault-place>"], &[], "", |_, _| {
        but("say where, what, and what was done: end with repaired, corrected, rejected or noted")
    }),
    form(
        &["ask <ask>", "<ask>"],
        &["ask what now", "ask why", "ask show me", "ask for sums", "ask for plot"],
        "help with the work; it is logged",
        |caught, _| one(Action::AskHelp { topic: caught.ask()? }),
    ),
    form(
        &["leave roof?", "go down ladder?", "leave because weather"],
        &["leave roof"],
        "because the work cannot go on",
        |_, _| one(Action::LeaveRoof),
    ),
    form(&["sign field? book?"], &["sign"], "the field book; the session ends", |_, _| {
        one(Action::Sign)
    }),
    form(
        &["show|read|open? field? book", "look at? field? book"],
        &["book"],
        "what you have written",
        |_, _| Ok(Request::Book),
    ),
    form(&["again", "repeat"], &["again"], "the last sentence once more", |_, _| {
        Ok(Request::Again)
    }),
    form(&["help"], &["help"], "the overview", |_, _| Ok(Request::Help(None))),
    form(
        &["help on|with? <topic>"],
        &["help manometer", "help all"],
        "the sentences of one topic, or all",
        |caught, _| Ok(Request::Help(Some(caught.topic()?))),
    ),
    form(&["quit", "exit", "bye"], &["quit"], "leave the program; resume later", |_, _| {
        Ok(Request::Quit)
    }),
];
