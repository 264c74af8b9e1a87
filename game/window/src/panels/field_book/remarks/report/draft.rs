//! A report that is not in the journal yet, and the names of what is chosen in it.

use bevy::prelude::*;
use sim_core::session::action::{FaultKind, FaultPlace, FaultReport, Response, SuspectedCause};

/// Where faults are found, with their names.
pub const PLACES: [(FaultPlace, &str); 13] = [
    (FaultPlace::Manometer, "manometer"),
    (FaultPlace::Tube, "tubing"),
    (FaultPlace::Calibrator, "calibrator"),
    (FaultPlace::Certificate, "certificate"),
    (FaultPlace::Mounting, "nuts, gaskets, plates"),
    (FaultPlace::Blower, "blower and power supply"),
    (FaultPlace::FlowController, "flow controller"),
    (FaultPlace::Recorder, "recorder and chart"),
    (FaultPlace::Barometer, "barometer"),
    (FaultPlace::Thermometer, "thermometer"),
    (FaultPlace::Weather, "weather and roof"),
    (FaultPlace::Filter, "filter"),
    (FaultPlace::Timer, "timer"),
];

/// What is done about them.
pub const RESPONSES: [(Response, &str); 4] = [
    (Response::Repaired, "put right"),
    (Response::Corrected, "corrected in the calculations"),
    (Response::Rejected, "not used"),
    (Response::Noted, "noted only"),
];

/// What is suspected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suspected {
    /// One of the things that can be wrong at the place.
    Known(FaultKind),
    /// It is not known yet.
    NotKnownYet,
    /// Something that is not among them.
    SomethingElse,
}

impl Suspected {
    /// What can be suspected at a place, in the order in which it is offered.
    pub fn at(place: FaultPlace) -> impl Iterator<Item = Self> {
        let known = FaultKind::of_place(place).map(Self::Known);
        known.chain([Self::NotKnownYet, Self::SomethingElse])
    }

    /// As it is offered.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Known(kind) => kind.sheet().title,
            Self::NotKnownYet => "not known yet",
            Self::SomethingElse => "something else",
        }
    }
}

/// A report that is not in the journal yet.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub struct Draft {
    /// Where it is.
    pub place: Option<FaultPlace>,
    /// What is suspected.
    pub cause: Option<Suspected>,
    /// What is suspected where it is something else, as typed.
    pub other: String,
    /// What was seen, as typed.
    pub seen: String,
    /// What was done about it.
    pub response: Option<Response>,
}

/// What a report still lacks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lacks {
    /// Where it is.
    Place,
    /// What is suspected.
    Cause,
    /// What the something else is.
    Other,
    /// What was done about it.
    Response,
}

impl Lacks {
    /// What is said of it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Place => "Choose where the fault is, then report it.",
            Self::Cause => {
                "Choose what you suspect, then report it. If you cannot tell, choose not known yet."
            }
            Self::Other => "Write what you suspect, then report it.",
            Self::Response => "Choose what you did about it, then report it.",
        }
    }
}

impl Draft {
    /// Chooses the place. What was suspected elsewhere is not suspected here.
    pub fn choose_place(&mut self, place: FaultPlace) {
        if self.place != Some(place) {
            self.place = Some(place);
            self.cause = None;
        }
    }

    /// Whether what is suspected has to be put into words.
    pub fn needs_words(&self) -> bool {
        self.cause == Some(Suspected::SomethingElse)
    }

    /// The report, if it is complete.
    pub fn report(&self) -> Result<FaultReport, Lacks> {
        let place = self.place.ok_or(Lacks::Place)?;
        let cause = match self.cause.ok_or(Lacks::Cause)? {
            Suspected::Known(kind) => SuspectedCause::Known(kind),
            Suspected::NotKnownYet => SuspectedCause::NotKnownYet,
            Suspected::SomethingElse => match self.other.trim() {
                "" => return Err(Lacks::Other),
                words => SuspectedCause::SomethingElse(words.to_owned()),
            },
        };
        let response = self.response.ok_or(Lacks::Response)?;
        let seen = self.seen.trim().to_owned();
        Ok(FaultReport { place, cause, seen, shown_by: Vec::new(), response })
    }
}

/// A report as it is listed.
pub fn in_words(report: &FaultReport) -> String {
    let place = PLACES.iter().find(|(place, _)| *place == report.place).map_or("", |one| one.1);
    let response = RESPONSES.iter().find(|(response, _)| *response == report.response);
    format!("{place}: {} ({})", report.words(), response.map_or("", |one| one.1))
}
