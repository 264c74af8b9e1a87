//! Rules on the certificates in the box and the faults that concern them.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::Fault;
use crate::scenario::Scenario;
use crate::scenario::certificate::{CertificateEntry, CertificatePrint};
use crate::scenario::laboratory::BIAS;
use crate::scenario::setup::{CertificateHeading, LONGEST_AGE_DAYS};
use crate::scenario::spread::Spread;
use crate::time::Date;

/// No certificate from the future.
pub(super) const DATE: ScenarioRule = ScenarioRule {
    id: "certificate-not-from-future",
    about: "No certificate is dated after the day of the session.",
    find: date,
};

fn date(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let today = scenario.station.date;
    for (index, paper) in scenario.certificates.iter().enumerate() {
        let days = paper.date.days_since(today);
        if days > 0 {
            let days = if days == 1 { "1 day".to_owned() } else { format!("{days} days") };
            findings.add(
                format!("certificates[{index}].date"),
                format!(
                    "the certificate is dated {}, {days} after the session on {today}",
                    paper.date
                ),
                "date it on or before the day of the session",
            );
        }
    }
}

/// The certificate of the calibrator is in the box.
pub(super) const IN_BOX: ScenarioRule = ScenarioRule {
    id: "certificate-in-box",
    about: "The calibrator of the work order has a certificate in the box, unless the fault \
            CertificateOfAnother says that only the certificate of another calibrator is there.",
    find: in_box,
};

fn in_box(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let serial = &scenario.work_order.calibrator_serial;
    let there = scenario.certificates.iter().any(|paper| paper.serial == *serial);
    if !there && !has(scenario, &Fault::CertificateOfAnother) {
        findings.add(
            "work_order.calibrator_serial",
            format!("calibrator `{serial}` has no certificate in the box"),
            "add a certificate with this serial number, or the fault CertificateOfAnother",
        );
    }
}

/// If the certificate on top is for another calibrator, that fault is declared.
pub(super) const OWNER: ScenarioRule = ScenarioRule {
    id: "certificate-owner-declared",
    about: "The certificate on top is for another calibrator exactly when the fault \
            CertificateOfAnother is listed: marks are given for the faults that are listed.",
    find: owner,
};

fn owner(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(top) = scenario.certificates.first() else { return };
    let serial = &scenario.work_order.calibrator_serial;
    declared(
        scenario,
        findings,
        &Fault::CertificateOfAnother,
        (top.serial != *serial).then(|| {
            format!(
                "the certificate on top is for `{}`, and the calibrator is `{serial}`",
                top.serial
            )
        }),
        ("serial", &format!("the certificate on top is for this calibrator, `{serial}`")),
    );
}

/// If the certificate on top has expired, that fault is declared.
pub(super) const EXPIRY: ScenarioRule = ScenarioRule {
    id: "certificate-expiry-declared",
    about: "The certificate on top is older than a year exactly when the fault CertificateExpired \
            is listed (40 CFR Part 50, App. B, 9.2.17: recalibration every year).",
    find: expiry,
};

fn expiry(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(top) = scenario.certificates.first() else { return };
    let today = scenario.station.date;
    declared(
        scenario,
        findings,
        &Fault::CertificateExpired,
        older_than_a_year(top.date, today)
            .then(|| format!("the certificate on top, dated {}, is older than a year", top.date)),
        ("date", &format!("the certificate on top, dated {}, is not older than a year", top.date)),
    );
}

/// Whether more than a year has passed, even a leap year.
fn older_than_a_year(date: Date, today: Date) -> bool {
    today.days_since(date) > LONGEST_AGE_DAYS
}

/// If the certificate on top is printed misleadingly, that fault is declared.
pub(super) const PRINT: ScenarioRule = ScenarioRule {
    id: "certificate-print-declared",
    about: "The certificate on top prints its actual-conditions pair first, or has two digits \
            transposed, exactly when the fault of that name is listed.",
    find: print,
};

fn print(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(top) = scenario.certificates.first() else { return };
    for (fault, print, what) in [
        (Fault::CertificateActualFirst, CertificatePrint::ActualFirst, "ActualFirst"),
        (Fault::CertificateDigitsExchanged, CertificatePrint::DigitsExchanged, "DigitsExchanged"),
    ] {
        declared(
            scenario,
            findings,
            &fault,
            (top.print == print).then(|| format!("the certificate on top is printed {what}")),
            ("print", &format!("the certificate on top is not printed {what}")),
        );
    }
}

/// If a certification is far from the one before, that fault is declared.
pub(super) const CHANGE: ScenarioRule = ScenarioRule {
    id: "certificate-change-declared",
    about: "With every seed, the certificate on top and the next older one with the same serial \
            number below it differ by at least 2 % exactly when the fault CertificateFarFromLast is \
            listed, and otherwise by at most 1 %.",
    find: change,
};

/// From this difference on, two certifications of one calibrator are far apart, percent (what a
/// transfer standard is asked for).
const FAR_PCT: f64 = 2.0;
/// Up to this difference they agree, percent.
const NEAR_PCT: f64 = 1.0;

fn change(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(top) = scenario.certificates.first() else { return };
    let same = |other: &&CertificateEntry| other.serial == top.serial && other.date < top.date;
    let older = scenario.certificates.iter().skip(1).filter(same).max_by_key(|paper| paper.date);
    let declared = scenario.faults.iter().any(|entry| entry.fault == Fault::CertificateFarFromLast);
    let (least, most) = older.map_or((0.0, 0.0), |older| apart_pct(top, older));
    let path = "certificates[0]";
    if declared && older.is_none() {
        findings.add(
            path,
            "the fault CertificateFarFromLast is listed, but there is no older certificate with this serial number below",
            "add last year's certificate, or remove the fault",
        );
    } else if declared && least < FAR_PCT {
        findings.add(
            path,
            format!("the fault CertificateFarFromLast is listed, but the two certificates may differ by only {least:.1} %"),
            "give the first certificate `orifice_differs_pct: Fixed(8)`, or remove the fault",
        );
    } else if !declared && most > NEAR_PCT {
        findings.add(
            path,
            format!("this certificate and the older one below it may differ by {most:.1} %"),
            "add `(fault: CertificateFarFromLast)`, or make the difference smaller",
        );
    }
}

/// The least and the most by which two certificates of one serial number differ, percent of the flow.
fn apart_pct(one: &CertificateEntry, other: &CertificateEntry) -> (f64, f64) {
    match (one.slope, other.slope) {
        (Some(one), Some(other)) => {
            let apart = 100.0 * (one / other - 1.0).abs();
            (apart, apart)
        }
        (None, None) => {
            let bounds = |paper: &CertificateEntry| {
                paper.orifice_differs_pct.map_or((0.0, 0.0), Spread::bounds)
            };
            let ((low, high), (other_low, other_high)) = (bounds(one), bounds(other));
            let most = (high - other_low).abs().max((other_high - low).abs());
            let least = (low - other_high).max(other_low - high).max(0.0);
            // One laboratory has the same bias in both; two differ by as much as they may.
            let bias = |paper: &CertificateEntry| {
                let (low, high) = paper.laboratory_bias_pct.unwrap_or(BIAS.usual).bounds();
                low.abs().max(high.abs())
            };
            let apart = match one.is_of_same_laboratory(other) {
                true => 0.0,
                false => bias(one) + bias(other),
            };
            ((least - apart).max(0.0), most + apart)
        }
        // A given slope beside a simulated one: the difference depends on the seed, and is left to
        // the trainer.
        _ => (FAR_PCT, NEAR_PCT),
    }
}

/// A miscopied certificate is headed as a copy, and its original is in the box.
pub(super) const COPY: ScenarioRule = ScenarioRule {
    id: "certificate-copy-has-original",
    about: "A certificate with transposed digits is headed as a copy, and the original with the same \
            serial number and date is below it, so that the slip can be discovered.",
    find: copy,
};

fn copy(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, paper) in scenario.certificates.iter().enumerate() {
        if paper.print != CertificatePrint::DigitsExchanged {
            continue;
        }
        let path = format!("certificates[{index}]");
        if paper.heading != CertificateHeading::Copy {
            findings.add(
                format!("{path}.heading"),
                "a certificate with transposed digits is not headed as a copy",
                "write `heading: \"copy of certificate\"`",
            );
        }
        let mut below = scenario.certificates.iter().skip(index + 1);
        if !below.any(|other| {
            (&other.serial, other.date) == (&paper.serial, paper.date)
                && other.print != CertificatePrint::DigitsExchanged
        }) {
            findings.add(
                path,
                "the original of this copy is not in the box",
                "add a certificate with the same serial number and date below it, without `print`",
            );
        }
    }
}

/// Reports a state of the certificate on top whose fault is not listed, and a fault whose state is
/// missing.
fn declared(
    scenario: &Scenario,
    findings: &mut ScenarioFindings<'_>,
    fault: &Fault,
    state: Option<String>,
    (field, no_state): (&str, &str),
) {
    let name = fault.name();
    let at = scenario.faults.iter().position(|entry| entry.fault == *fault);
    match (state, at) {
        (Some(what), None) => findings.add(
            format!("certificates[0].{field}"),
            format!("{what}, but the fault {name} is not listed"),
            format!("add `(fault: {name})` to the faults, or put another certificate on top"),
        ),
        (None, Some(index)) => findings.add(
            format!("faults[{index}]"),
            format!("the fault {name} is listed, but {no_state}"),
            format!("change `{field}` of the first certificate, or remove the fault"),
        ),
        _ => {}
    }
}

/// The numbers of a certificate are complete.
pub(super) const NUMBERS: ScenarioRule = ScenarioRule {
    id: "certificate-numbers-whole",
    about: "A certificate gives slope and intercept together, or neither. Two certificates with the \
            same serial number and date are copies of one certification: only their print may differ.",
    find: numbers,
};

fn numbers(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, paper) in scenario.certificates.iter().enumerate() {
        let path = format!("certificates[{index}]");
        match (paper.slope, paper.intercept) {
            (Some(_), None) | (None, Some(_)) => findings.add(
                path,
                "slope and intercept are not given together",
                "give both, or leave both out for a simulated certification",
            ),
            (None, None) if paper.correlation.is_some() => findings.add(
                path,
                "a correlation is given without a slope",
                "give slope and intercept too, or leave the correlation out",
            ),
            (Some(_), Some(_)) if paper.orifice_differs_pct.is_some() => findings.add(
                path,
                "orifice_differs_pct has no effect when the slope is given",
                "leave out one of the two",
            ),
            (Some(_), Some(_)) if paper.laboratory_bias_pct.is_some() => findings.add(
                path,
                "laboratory_bias_pct has no effect when the slope is given",
                "leave out one of the two",
            ),
            _ => {
                let earlier = scenario.certificates.iter().take(index);
                let numbers = (paper.slope, paper.intercept, paper.correlation);
                let conflict = earlier
                    .filter(|other| (&other.serial, other.date) == (&paper.serial, paper.date))
                    .any(|other| {
                        (other.slope, other.intercept, other.correlation) != numbers
                            || other.orifice_differs_pct != paper.orifice_differs_pct
                    });
                if conflict {
                    findings.add(
                        path,
                        "two certificates with the same serial number and date give different numbers",
                        "give both the same numbers, or change one date",
                    );
                }
            }
        }
    }
}

fn has(scenario: &Scenario, fault: &Fault) -> bool {
    scenario.faults.iter().any(|entry| entry.fault == *fault)
}
