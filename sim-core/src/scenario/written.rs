//! A scenario as written.

use serde::{Deserialize, Serialize};

use super::certificate::CertificateEntry;
use super::flow_check::FlowCheckOrder;
use super::history::HistoryEntry;
use super::instruments::Instruments;
use super::order::OrderEntry;
use super::run::RunEntry;
use super::setup::{SessionTerms, StationCard};
use super::weather::Weather;
use crate::fault::{Fault, Onset};

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
    /// What the visit is for, and what anybody would see on arrival; never what is wrong. It stands on
    /// the card by which the scenario is chosen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub situation: Option<String>,
    /// The one thing that it teaches. It is told when the work is done.
    pub lesson: String,
    /// The habits that it is about, by the names of the operators: an operator with any of these
    /// habits must not pass.
    #[serde(default)]
    pub about: Vec<String>,
    /// Where and when.
    pub station: StationCard,
    /// The job.
    pub work_order: OrderEntry,
    /// Weather and mains.
    pub weather: Weather,
    /// What differs from the usual instruments.
    #[serde(default)]
    pub instruments: Instruments,
    /// The unattended run, if one is ordered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<RunEntry>,
    /// The flow check against a standard, if one is ordered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flow_check: Option<FlowCheckOrder>,
    /// The history of the sampler, if the trainee keeps its control chart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub history: Option<HistoryEntry>,
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
    /// When it begins; if left out, before the trainee arrives.
    #[serde(default)]
    pub onset: Onset,
}
