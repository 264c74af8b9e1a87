//! What is known about a fault: its cause, its signs, the check that confirms it, the right responses.
//! The page `scenarios/FAULTS.md` is written from these.

use super::onset::Onset;
use super::remedy::{AllowedFor, PutRight, Remedy};
use super::report::{FaultPlace, Response};

/// What is known about a fault, whatever its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// The fault's name, as a scenario writes it. The table of faults fills it in.
    pub name: &'static str,
    /// Where it sits: what a remark about it must name.
    pub place: FaultPlace,
    /// Whether it can come about while the work goes on.
    pub arises: Arises,
    /// What it is called in a sentence.
    pub title: &'static str,
    /// Every response to it that is right.
    pub right: &'static [Response],
    /// What it does, in a line for whoever writes a scenario.
    pub in_short: &'static str,
    /// What is physically wrong.
    pub cause: &'static str,
    /// What a careful operator can see, hear or feel of it.
    pub sign: &'static str,
    /// What makes sure of it.
    pub check: &'static str,
    /// When it usually begins.
    pub begins: Onset,
    /// Whether it can be noticed in its usual size.
    pub noticed: Noticed,
    /// What shows that it was put right, also where nobody said so.
    pub put_right: PutRight,
    /// What shows that it was allowed for.
    pub allowed_for: AllowedFor,
    /// How a session would have gone without it.
    pub remedy: Remedy,
    /// Names of faults that cannot be there beside it.
    pub contradicts: &'static [&'static str],
    /// Names of faults that nobody on the roof can tell from it: naming one of these is as right.
    pub alike: &'static [&'static str],
    /// Whether the cause can be told on the roof. If it cannot, "not known yet" is the whole answer.
    pub cause_shows: bool,
}

/// When a fault can come about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arises {
    /// At any time, also while the work goes on; then it stays.
    AtAnyTime,
    /// At any time, and it can go and come again.
    ComesAndGoes,
    /// Only before the trainee arrives.
    FromTheStart,
    /// Only while the work goes on: what is there on arrival is undone by the work itself.
    DuringWork,
    /// Only during a run, while nobody is there.
    DuringRun,
}

/// Whether a fault of its usual size can be noticed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Noticed {
    /// By at least one unit that can be read, or at sight.
    Readably,
    /// Not during a calibration, and why.
    Never(&'static str),
}

impl Sheet {
    /// The sheet of a fault at this place, to be filled in: it comes at any time and stays, begins
    /// before the trainee arrives, can be noticed, and leaves no trace of having been put right.
    pub(super) const fn of(place: FaultPlace) -> Self {
        Self {
            name: "",
            place,
            arises: Arises::AtAnyTime,
            title: "",
            right: &[],
            in_short: "",
            cause: "",
            sign: "",
            check: "",
            begins: Onset::Start,
            noticed: Noticed::Readably,
            put_right: PutRight::Unknown,
            allowed_for: AllowedFor::Unknown,
            remedy: Remedy::Absence,
            contradicts: &[],
            alike: &[],
            cause_shows: true,
        }
    }
}
