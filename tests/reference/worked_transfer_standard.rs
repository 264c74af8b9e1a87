//! A transfer standard certified against a volume meter.

use bench_tests::{Mark, Row, Worst};
use sim_core::calibration::{
    AirConditions, StandardFit, StandardRun, fit_transfer_standard, standard_problems,
};
use sim_core::units::{Pressure, Temperature};

use super::{number, table};

fn certified() -> StandardFit {
    let runs: Vec<_> = table("worked_transfer_standard.csv")
        .iter()
        .map(|row| StandardRun {
            volume_m3: number(row, "Vm_m3"),
            minutes: number(row, "t_min"),
            pressure_drop_mmhg: number(row, "dP_mmHg"),
            delta_h_inh2o: number(row, "dH_inH2O"),
        })
        .collect();
    // Conditions and figures of the fit stand in the table's comment lines.
    let at = AirConditions::new(Pressure::from_mmhg(755.0), Temperature::from_k(295.0)).unwrap();
    fit_transfer_standard(&runs, at).unwrap()
}

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let source =
        "computed from the equations of 40 CFR Part 50, App. B, 9.2, with an independent tool";
    let fit = certified();
    let mut points = Worst::new();
    for (point, row) in fit.points.iter().zip(table("worked_transfer_standard.csv")) {
        points.relative(point.volume_std_m3, number(&row, "Vstd_m3"));
        points.relative(point.flow_std_m3_min, number(&row, "Qstd_m3min"));
        points.relative(point.root_term, number(&row, "y"));
    }
    let mut line = Worst::new();
    line.relative(fit.standard.slope(), 1.493_073_790_370);
    line.relative(fit.standard.intercept(), -0.005_500_246_166);
    line.relative(fit.line.r, 0.999_980_889_964);
    line.relative(fit.line.residual_sd, 0.003_348_951_756);
    vec![
        points.row(
            "transfer standard: volume, flow and root term of a run",
            source,
            Mark::Computed,
            "relative",
            1e-9,
        ),
        line.row("transfer standard: its line", source, Mark::Computed, "relative", 1e-9),
    ]
}

#[test]
fn a_certification() {
    let rows = rows();
    bench_tests::assert_rows(&rows);
    assert_eq!(rows[0].figures, 15);
    assert_eq!(standard_problems(&certified()), []);
}
