//! The papers, printed as they are: station card, work order, certificates.

use sim_core::calibration::AirConditions;
use sim_core::scenario::setup::{CheckedLine, FlowCheckOrder, FlowOfRun, StationCard, WorkOrder};
use sim_core::session::SitePapers;

use crate::printable::{printable, printable_lines};

/// The card at the station, on one line.
pub(super) fn station_card(papers: &SitePapers) -> String {
    let StationCard { name, elevation_m, sampler_serial, .. } = papers.station;
    let (name, sampler) = (printable(name), printable(sampler_serial));
    format!("Station {name}, {elevation_m:.0} m above sea level, sampler {sampler}.")
}

/// The work order.
pub(super) fn work_order(papers: &SitePapers) -> String {
    let order = papers.work_order;
    let mut lines = vec![
        format!("Work order {}", printable(&order.number)),
        printable_lines(&order.text),
        format!("Calibrator to use: serial number {}", printable(&order.calibrator_serial)),
        if order.at_controlled_flow().is_some() {
            "No points: no line is made, and one flow alone is calibrated".to_owned()
        } else if order.is_check_alone() {
            "No points: the calibration line stands, and only the flow is checked".to_owned()
        } else if order.filter_in_place {
            format!("Points required: {}, with a filter in place", order.points)
        } else {
            format!("Points required: {}", order.points)
        },
        match order.target_flow_actual_m3_min {
            Some(design) => format!(
                "Flow to set: {design:.3} m3/min at the conditions of the run, the design flow of the \
                 size-selective inlet"
            ),
            None => format!("Flow to set: {}", both_flows(order)),
        },
        format!(
            "Expected during the run: station pressure {:.1} mmHg, air temperature {:.1} degrees Celsius",
            order.run_pressure_mmhg, order.run_temperature_c
        ),
    ];
    if let Some(averages) = order.averages {
        lines.push(format!(
            "Averages of the season, to be built into the calibration line: station pressure Pa {:.1} mmHg, air \
             temperature Ta {:.1} degrees Celsius",
            averages.pressure_mmhg, averages.temperature_c
        ));
    }
    if let Some(last) = &order.last_line {
        let form = if order.averages.is_some() { ", with these averages built in" } else { "" };
        lines.push(format!(
            "Last calibration {}: slope {:.3}, intercept {:.3}{form}",
            last.date, last.slope, last.intercept
        ));
    }
    lines.extend(super::run::order(papers));
    lines.extend(order.flow_check.map(flow_check));
    lines.extend(order.history.as_ref().map(|_| {
        "The history of the sampler, with its control chart, is in the field book".to_owned()
    }));
    lines.push(match papers.certificates.len() {
        0 => "There is no certificate in the box beside it.".to_owned(),
        1 => "There is one certificate in the box beside it.".to_owned(),
        count => format!("There are {count} certificates in the box beside it."),
    });
    lines.join("\n")
}

/// The ordered flow in both volumes: it is set at standard conditions, and the range of the method is
/// one of actual volume.
fn both_flows(order: &WorkOrder) -> String {
    let standard = order.target_flow_std_m3_min;
    let text = format!("{standard:.3} m3/min at 298 K, 760 mmHg");
    match AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c) {
        Ok(air) => format!(
            "{text}, which is {:.3} m3/min in the air of the run",
            standard / air.to_standard()
        ),
        Err(_) => text,
    }
}

/// The check of the flow.
fn flow_check(check: FlowCheckOrder) -> String {
    let FlowCheckOrder { readings, within_pct, line, last_good, flow_of_run } = check;
    let made = format!(
        "{readings} readings of the standard and the pen, above a filter, on the flow controller"
    );
    let compared = |of: &str| {
        format!("Flow check: {made}; {of} must give the flow by the standard within {within_pct} %")
    };
    let mut text = match line {
        CheckedLine::Own => compared("your calibration line"),
        CheckedLine::Last => compared("the calibration line of the last calibration"),
        CheckedLine::ControlledFlow => format!(
            "Calibration at the controlled flow alone: {made}, once the controller is trimmed until the \
             standard shows the target flow within {within_pct} %"
        ),
    };
    if let Some(date) = last_good {
        text.push_str(&format!("; last passed {date}"));
    }
    if flow_of_run == FlowOfRun::Check {
        text.push_str(
            "\nThe flow of the run is the flow by the standard, multiplied by the change of the flow from \
             the calibration line since the start reading. Leave the controller's screw as it was at \
             the check.",
        );
    }
    text
}

/// One certificate; `index` counts from 0.
pub(super) fn certificate(papers: &SitePapers, index: u8) -> String {
    let Some(paper) = papers.certificates.get(usize::from(index)) else {
        return match papers.certificates.len() {
            0 => "There is no certificate in the box.".to_owned(),
            1 => "There is one certificate in the box, and no other.".to_owned(),
            count => format!("There are {count} certificates in the box, and no others."),
        };
    };
    let standard = (
        "Standard conditions (298 K, 760 mmHg), flow Qstd in m3/min:",
        "sqrt(dH P/760 298/T) = slope x Qstd + intercept",
        paper.standard,
    );
    let actual = (
        "Actual conditions, flow Qa in m3/min:",
        "sqrt(dH T/P) = slope x Qa + intercept",
        paper.actual,
    );
    let (number, count) = (u16::from(index) + 1, papers.certificates.len());
    let pairs = if paper.actual_first { [actual, standard] } else { [standard, actual] };
    let mut lines = vec![
        paper.heading.printed().to_uppercase(),
        format!("Orifice calibrator, serial number {}", printable(&paper.serial)),
        format!("Date of calibration {}", paper.date),
    ];
    for (conditions, relation, pair) in pairs {
        lines.push(String::new());
        lines.push(conditions.to_owned());
        lines.push(format!("  {relation}"));
        lines.push(format!("  slope      {:>9.5}", pair.slope));
        lines.push(format!("  intercept  {:>9.5}", pair.intercept));
    }
    lines.push(String::new());
    lines.push(format!("Correlation coefficient {:.5}", paper.correlation));
    lines.push("dH inches of water, P mmHg, T kelvin".to_owned());
    lines.push(String::new());
    lines.push(match count {
        1 => "It is the only certificate in the box.".to_owned(),
        _ => format!("Certificate {number} of {count} in the box."),
    });
    lines.join("\n")
}
