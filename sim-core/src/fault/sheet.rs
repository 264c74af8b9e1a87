//! What is known about each fault: its cause, its signs, the check that confirms it, the right
//! responses, and the size that it usually has. One file for each place; the page
//! `scenarios/FAULTS.md` is written from here.

pub(super) mod blower;
pub(super) mod calibrator;
pub(super) mod certificate;
pub(super) mod filter;
pub(super) mod flow_controller;
pub(super) mod manometer;
pub(super) mod mounting;
pub(super) mod recorder;
pub(super) mod surroundings;
pub(super) mod timer;
pub(super) mod tube;

use super::{Fault, FaultPlace, Onset, Response};

/// What is known about a fault, whatever its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// Its name, as a scenario writes it.
    pub name: &'static str,
    /// Where it sits: what a remark about it must name.
    pub place: FaultPlace,
    /// Whether it can come about while the work goes on.
    pub arises: Arises,
    /// What it is called in a sentence.
    pub title: &'static str,
    /// Every response to it that is right.
    pub right: &'static [Response],
    /// What is physically wrong.
    pub cause: &'static str,
    /// What somebody who works carefully can see, hear or feel of it.
    pub sign: &'static str,
    /// What makes sure of it.
    pub check: &'static str,
    /// The fault in its usual size (CHOSEN: a size met in the trade, small enough to be overlooked).
    pub usual: Fault,
    /// When it usually begins.
    pub begins: Onset,
    /// Whether that size can be noticed.
    pub noticed: Noticed,
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

/// The sheet of every fault, place by place, in the order of the work.
pub fn sheets() -> impl Iterator<Item = &'static Sheet> {
    [
        certificate::ALL,
        surroundings::ALL,
        mounting::ALL,
        calibrator::ALL,
        manometer::ALL,
        tube::ALL,
        blower::ALL,
        flow_controller::ALL,
        recorder::ALL,
        filter::ALL,
        timer::ALL,
    ]
    .into_iter()
    .flatten()
    .copied()
}
