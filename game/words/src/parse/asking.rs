//! Asking, and ending.

use sim_core::session::action::Action;

use super::form::{Form, form, one};
use super::trouble::but;
use crate::request::Request;
use crate::topic::Topic;

pub(super) const FORMS: &[Form] = &[
    form(
        &["ask <ask>", "<ask>", "can you? <ask>"],
        &["ask what now", "ask why", "ask show me", "ask for calculations", "ask for plot"],
        "help with the work; your request is logged",
        |caught, _| one(Action::AskHelp { topic: caught.ask()? }),
    ),
    form(
        &[
            "leave roof?",
            "go|climb|come down ladder?",
            "leave because weather",
            "get|go|come off|down roof? <reason>",
            "leave roof <reason>",
            "go|climb down ladder? because <text>",
            "get|go|come off roof?",
            "stop work and leave roof",
        ],
        &["leave roof"],
        "because the work cannot continue",
        |_, _| one(Action::LeaveRoof),
    ),
    form(
        &["sign field? book? anyway|regardless", "sign field? book? as it is", "sign off? anyway"],
        &["sign anyway"],
        "without being asked about what is still undone",
        |_, _| Ok(Request::Anyway(vec![Action::Sign])),
    ),
    form(&["leave site anyway"], &["leave site anyway"], "the same", |_, _| {
        Ok(Request::Anyway(vec![Action::LeaveSite]))
    }),
    form(
        &[
            "what is still? missing|undone|open|left|lacking",
            "what is left to do|undone",
            "what have i forgotten",
            "is anything missing|left|undone",
            "anything left|missing|undone",
        ],
        &["what is still missing"],
        "blank entries, and what is not put back",
        |_, _| Ok(Request::Undone),
    ),
    form(
        &[
            "undo",
            "undo it|that|this|last|everything",
            "undo last action|step|entry|thing",
            "take that|it back",
            "cancel that|it?",
            "revert",
        ],
        &[],
        "",
        |_, _| {
            but(
                "what is done is done, as on any roof. An entry can be struck out: say `strike point 3`, \
                 `strike point 3 chart` or `strike temperature`, and write it again. Anything else is \
                 done the other way round, such as `close lid` after `open lid`",
            )
        },
    ),
    form(
        &["sign|sign-off off? field? book?"],
        &["sign"],
        "the field book, which ends the session",
        |_, _| one(Action::Sign),
    ),
    form(
        &["show|read|open? field? book", "look at? field? book"],
        &["book"],
        "what you have written",
        |_, _| Ok(Request::Book),
    ),
    form(
        &[
            "show|read|open? sampler? history",
            "show|read|open? history sampler",
            "show|read|open? control chart",
            "look at? sampler? history",
            "look at? control chart",
        ],
        &["history"],
        "the sampler's record and its control chart, with your check of today",
        |_, _| Ok(Request::History),
    ),
    form(&["again", "repeat"], &["again"], "repeat your last sentence", |_, _| Ok(Request::Again)),
    form(&["help"], &["help"], "the overview", |_, _| Ok(Request::Help(None))),
    form(&["help on|with? quit|exit|sign|leaving|ending"], &["help quit"], "", |_, _| {
        Ok(Request::Help(Some(Topic::Asking)))
    }),
    form(
        &["help on|with? <topic>"],
        &["help manometer", "help all", "help musts"],
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
