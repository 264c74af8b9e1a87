//! Reports of faults held against the faults in force: which report is about which fault, and which are
//! about nothing.

use super::evidence::{At, Evidence};
use super::faults::{faults_in_force, wrong_by_other_means};
use crate::fault::Fault;
use crate::session::fault_report::{FaultReport, SuspectedCause};

/// What a report says about the cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum CauseNamed {
    /// The cause, or one that cannot be told from it.
    Right,
    /// Nothing yet.
    NotYet,
    /// Another one.
    Wrong,
}

/// A report, and what it is about.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ReportHeld<'a> {
    /// When it was made.
    pub at: At<'a>,
    /// The report.
    pub report: &'a FaultReport,
    /// The fault that it is about.
    pub about: About,
}

/// What a report is about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum About {
    /// A fault in force.
    Fault(Fault, CauseNamed),
    /// Something that was wrong there, although the scenario has no such fault.
    OtherMeans,
    /// Nothing: it is a false alarm.
    Nothing,
}

/// Every report that stands, and what it is about. Of several about the same cause at the same place
/// the last one stands. No fault takes two reports, so that more reports at a place than there are
/// faults are false alarms.
pub(crate) fn reports_held<'a>(evidence: &Evidence<'a>) -> Vec<ReportHeld<'a>> {
    let mut held: Vec<ReportHeld<'a>> = Vec::new();
    for (at, report) in evidence.remarks() {
        held.retain(|earlier| {
            earlier.report.place != report.place || earlier.report.cause != report.cause
        });
        held.push(ReportHeld { at, report, about: About::Nothing });
    }
    let mut open = faults_in_force(evidence);
    for named in [CauseNamed::Right, CauseNamed::NotYet] {
        hand_out(&mut held, &mut open, named);
    }
    for one in held.iter_mut().filter(|one| one.about == About::Nothing) {
        if wrong_by_other_means(evidence, one.report, one.at) {
            one.about = About::OtherMeans;
        }
    }
    hand_out(&mut held, &mut open, CauseNamed::Wrong);
    held
}

/// The reports that are about nothing that was wrong: false alarms.
pub(crate) fn false_alarms<'a>(evidence: &Evidence<'a>) -> Vec<ReportHeld<'a>> {
    reports_held(evidence).into_iter().filter(|one| one.about == About::Nothing).collect()
}

/// Gives each fault that is still open the first report that names its cause in this way.
fn hand_out(held: &mut [ReportHeld<'_>], open: &mut Vec<Fault>, named: CauseNamed) {
    open.retain(|fault| {
        let fits = |one: &&mut ReportHeld<'_>| {
            one.about == About::Nothing
                && one.report.place == fault.place()
                && cause_named(&one.report.cause, fault) == named
        };
        match held.iter_mut().find(fits) {
            Some(one) => {
                one.about = About::Fault(*fault, named);
                false
            }
            None => true,
        }
    });
}

/// What a cause says about a fault.
fn cause_named(cause: &SuspectedCause, fault: &Fault) -> CauseNamed {
    match cause {
        SuspectedCause::Known(kind) => {
            let alike = fault.sheet().alike.contains(&kind.sheet().name);
            if *kind == fault.kind() || alike { CauseNamed::Right } else { CauseNamed::Wrong }
        }
        SuspectedCause::NotKnownYet => CauseNamed::NotYet,
        SuspectedCause::SomethingElse(_) => CauseNamed::Wrong,
    }
}
