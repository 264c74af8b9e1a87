//! What a trainer writes; checking it; drawing one concrete bench from it and a seed.
//!
//! ```text
//! text -> check -> Scenario -> draw(seed) -> Drawn -> Setup::build -> Setup
//! ```
//!
//! The text is RON. [`check()`] reports every problem with its line and column; a scenario that
//! passes it can be drawn with any seed. The numbers drawn are kept in the journal.

mod apply;
pub mod build;
pub mod certificate;
pub mod certify;
pub mod check;
pub mod drawn;
pub mod flow_check;
pub mod instruments;
pub mod order;
pub mod parameters;
mod reading;
pub mod rules;
pub mod run;
pub mod setup;
pub mod spread;
pub mod text_places;
pub mod weather;

use serde::{Deserialize, Serialize};

pub use check::{ScenarioProblem, check};
pub use drawn::Drawn;
pub use rules::KnownRules;

use crate::fault::{Fault, Onset};
use crate::scenario::certificate::CertificateEntry;
use crate::scenario::flow_check::FlowCheckOrder;
use crate::scenario::instruments::Instruments;
use crate::scenario::order::OrderEntry;
use crate::scenario::run::RunEntry;
use crate::scenario::setup::{SessionTerms, StationCard};
use crate::scenario::weather::Weather;

/// The format that this program reads.
pub const FORMAT: u32 = 1;

/// A scenario as written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    /// The format's number, [`FORMAT`].
    pub format: u32,
    /// A short title, for lists.
    pub title: String,
    /// The one thing that it teaches.
    pub lesson: String,
    /// The habits that it is about, by the operators' names: whoever has one of them must not pass.
    #[serde(default)]
    pub about: Vec<String>,
    /// Where and when.
    pub station: StationCard,
    /// What is to be done.
    pub work_order: OrderEntry,
    /// Weather and mains.
    pub weather: Weather,
    /// What differs from the usual instruments.
    #[serde(default)]
    pub instruments: Instruments,
    /// The unattended run, if one is ordered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<RunEntry>,
    /// The check of the flow against a standard, if one is ordered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flow_check: Option<FlowCheckOrder>,
    /// The certificates in the box, the top one first.
    pub certificates: Vec<CertificateEntry>,
    /// What is wrong.
    #[serde(default)]
    pub faults: Vec<FaultEntry>,
    /// Help, marks and time.
    #[serde(default)]
    pub terms: SessionTerms,
}

/// A fault and when it begins.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FaultEntry {
    /// The fault and its size.
    pub fault: Fault,
    /// When it begins; left out, before the trainee arrives.
    #[serde(default)]
    pub onset: Onset,
}
