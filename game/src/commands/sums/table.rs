//! The results as a table for people.

use std::io::{Result, Write};

use sim_core::calibration::{Basis, Concern, Expression, RecorderScale};

use super::report::{Report, StandardReport, concerns};

/// Prints every result with its unit, and every limit that is exceeded.
pub fn print(report: &Report, out: &mut dyn Write) -> Result<()> {
    if let Some(standard) = &report.transfer_standard {
        print_standard(standard, out)?;
    }
    if let Some(expression) = report.expression {
        print_calibration(report, expression, out)?;
    }
    print_set_point(report, out)?;
    print_run(report, out)?;
    print_problems(report, out)
}

fn print_standard(standard: &StandardReport, out: &mut dyn Write) -> Result<()> {
    writeln!(out, "Transfer standard")?;
    if !standard.points.is_empty() {
        writeln!(out, "   run   volume std m3   flow std m3/min   root term")?;
    }
    for (index, point) in standard.points.iter().enumerate() {
        writeln!(
            out,
            "  {:>4}   {:>13.4}   {:>15.4}   {:>9.4}",
            index + 1,
            point.volume_std_m3,
            point.flow_std_m3_min,
            point.root_term
        )?;
    }
    write!(out, "  slope {:.5}   intercept {:.5}", standard.slope, standard.intercept)?;
    match standard.r {
        Some(r) => writeln!(out, "   r {r:.5}\n"),
        None => writeln!(out, "   (as given)\n"),
    }
}

fn print_calibration(report: &Report, expression: Expression, out: &mut dyn Write) -> Result<()> {
    let recorder = match expression.recorder {
        RecorderScale::SquareRoot => "square-root scale",
        RecorderScale::LinearInPressure => "linear in pressure",
        RecorderScale::MassFlow => "mass flow",
    };
    let basis = match expression.basis {
        Basis::Actual => "actual pressure and temperature",
        Basis::Averages(_) => "average pressure and temperature",
    };
    writeln!(out, "Calibration line ({recorder}, {basis})")?;
    if !report.points.is_empty() {
        writeln!(
            out,
            " point   dH inH2O    chart   flow std m3/min   corrected chart reading   residual m3/min"
        )?;
    }
    for (index, point) in report.points.iter().enumerate() {
        writeln!(
            out,
            "  {:>4}   {:>8.2}   {:>6.1}   {:>15.4}   {:>23.3}   {:>+15.4}",
            index + 1,
            point.delta_h_inh2o,
            point.chart,
            point.flow_std_m3_min,
            point.chart_term,
            point.residual_m3_min
        )?;
    }
    if let (Some(slope), Some(intercept)) = (report.slope, report.intercept) {
        write!(out, "  slope {slope:.4}")?;
        print_error(report.slope_se, out)?;
        write!(out, "   intercept {intercept:.4}")?;
        print_error(report.intercept_se, out)?;
    }
    match (report.r, report.residual_sd) {
        (Some(r), Some(sd)) => writeln!(out, "   r {r:.5}   residual SD {sd:.4}\n"),
        _ => writeln!(out, "   (as given)\n"),
    }
}

/// A standard error after its value.
fn print_error(error: Option<f64>, out: &mut dyn Write) -> Result<()> {
    match error {
        Some(error) => write!(out, " (SE {error:.4})"),
        None => Ok(()),
    }
}

fn print_set_point(report: &Report, out: &mut dyn Write) -> Result<()> {
    let flows = (report.target_flow_std_m3_min, report.target_flow_actual_m3_min);
    let (Some(chart), (Some(target), Some(actual))) = (report.set_point, flows) else {
        return Ok(());
    };
    writeln!(out, "Set point")?;
    writeln!(
        out,
        "  {chart:.2} chart divisions for {target:.3} std m3/min, which is {actual:.3} m3/min in the air of the run"
    )?;
    if let (Some(low), Some(high)) = (report.set_point_low, report.set_point_high) {
        writeln!(
            out,
            "  95 % of readings at that flow are expected between {low:.2} and {high:.2}"
        )?;
    }
    writeln!(out)
}

fn print_run(report: &Report, out: &mut dyn Write) -> Result<()> {
    let row = |out: &mut dyn Write, what: &str, pair: (Option<f64>, Option<f64>), digits: usize| {
        let (Some(standard), Some(actual)) = pair else { return Ok(()) };
        writeln!(out, "  {what:<20}   {standard:>10.digits$}   {actual:>10.digits$}")
    };
    let Some(minutes) = report.minutes else { return Ok(()) };
    writeln!(out, "Run of {minutes:.0} min             standard       actual")?;
    let flows = (report.mean_flow_std_m3_min, report.mean_flow_actual_m3_min);
    row(out, "mean flow, m3/min", flows, 4)?;
    row(out, "volume, m3", (report.volume_std_m3, report.volume_actual_m3), 1)?;
    row(out, "concentration, ug/m3", (report.tsp_ug_std_m3, report.tsp_ug_actual_m3), 2)?;
    writeln!(out)
}

fn print_problems(report: &Report, out: &mut dyn Write) -> Result<()> {
    if report.problems.is_empty() {
        return writeln!(out, "No limit is exceeded.");
    }
    writeln!(out, "Limits exceeded")?;
    for &problem in &report.problems {
        writeln!(out, "  {}: {problem}", concerns(problem).replace('_', " "))?;
    }
    if report.problems.iter().any(|problem| problem.concern() == Concern::Calibration) {
        writeln!(out, "Do not use this calibration.")?;
    }
    Ok(())
}
