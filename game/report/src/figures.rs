//! The figures of a report: each number once, with its unit, as it is written everywhere. Debrief,
//! page, PDF and JSON all take them from here.

use serde::Serialize;
use sim_core::marking::Marks;
use sim_core::marking::added_filters::AddedCompared;
use sim_core::marking::compared::{CheckCompared, Compared, LineCompared};
use sim_core::marking::cost::Costs;
use sim_core::scenario::setup::CheckedLine;

use super::names::part_name;
use super::number_format::{NumberFormat, UNKNOWN};

/// A number as it is written in every report.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// Its name, which stays the same from version to version.
    pub id: String,
    /// Its row in tables.
    pub row: String,
    /// Its column in tables.
    pub column: &'static str,
    /// As it is written.
    pub text: String,
    /// The same as a number: what is written and no more.
    pub value: f64,
    /// Its unit; empty for a pure number.
    pub unit: &'static str,
}

/// The column of what the trainee wrote.
pub const AS_WRITTEN: &str = "as written";
/// The column of what follows from the trainee's readings without rounding.
pub const RECALCULATED: &str = "recalculated";
/// The column of what was true.
pub const TRUE_VALUE: &str = "true";

/// Every figure of a session but its readings.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(transparent)]
pub struct Figures(Vec<Figure>);

impl Figures {
    /// The figures of a session.
    pub fn of(marks: &Marks, compared: &Compared, costs: &Costs) -> Self {
        let mut figures = Self(Vec::new());
        figures.marks(marks);
        figures.decided(compared);
        figures.ordered(compared);
        if let Some(check) = &compared.check {
            figures.check(check);
        }
        if let Some(added) = &compared.added_filters {
            figures.added_filters(added);
        }
        figures.volumes(costs);
        figures.errors(marks, compared, costs);
        figures
    }

    /// Every figure, in order.
    pub fn iter(&self) -> impl Iterator<Item = &Figure> {
        self.0.iter()
    }

    /// The figure of that name as it is written, or a dash.
    pub fn text(&self, id: &str) -> String {
        let found = self.0.iter().find(|figure| figure.id == id);
        found.map_or_else(|| UNKNOWN.to_owned(), |figure| figure.text.clone())
    }

    /// The rows that have figures in these columns, each with its unit and its cells.
    pub fn rows<const N: usize>(
        &self,
        columns: [&'static str; N],
    ) -> Vec<(String, &'static str, [String; N])> {
        let mut rows: Vec<(String, &'static str, [String; N])> = Vec::new();
        for figure in &self.0 {
            let Some(at) = columns.iter().position(|column| *column == figure.column) else {
                continue;
            };
            let known = rows.iter().position(|(row, ..)| *row == figure.row);
            let index = known.unwrap_or_else(|| {
                let dashes = [(); N].map(|()| UNKNOWN.to_owned());
                rows.push((figure.row.clone(), figure.unit, dashes));
                rows.len() - 1
            });
            if let Some(cell) = rows.get_mut(index).and_then(|(.., cells)| cells.get_mut(at)) {
                cell.clone_from(&figure.text);
            }
        }
        rows
    }

    fn add(
        &mut self,
        (id, row, column): (&str, &str, &'static str),
        value: Option<f64>,
        (digits, unit): (NumberFormat, &'static str),
    ) {
        let Some(value) = value.filter(|value| value.is_finite()) else { return };
        let text = digits.write(value);
        // What was just written is a number.
        let value = text.parse().unwrap_or(value);
        let (id, row) = (id.to_owned(), row.to_owned());
        self.0.push(Figure { id, row, column, text, value, unit });
    }

    fn marks(&mut self, marks: &Marks) {
        for part in &marks.parts {
            let name = part_name(part.name);
            let (one, got) = (NumberFormat::Plain(1), part.assessed.then_some(part.got));
            self.add((&format!("marks.{name}"), name, "marks"), got, (one, ""));
            let of = format!("marks.{name}.of");
            self.add((&of, name, "of"), Some(part.weight), (NumberFormat::Plain(0), ""));
        }
        let (one, whole) = (NumberFormat::Plain(1), NumberFormat::Plain(0));
        self.add(("marks.total", "total", "marks"), Some(marks.total), (one, ""));
        self.add(("marks.total.of", "total", "of"), Some(marks.of), (whole, ""));
        // The share of a total that is not of a hundred is no whole number of marks.
        let needed = if marks.needed.fract().abs() < 0.05 { whole } else { one };
        self.add(("marks.needed", "needed to pass", "of"), Some(marks.needed), (needed, ""));
    }

    fn decided(&mut self, compared: &Compared) {
        let lines = [
            ("own", AS_WRITTEN, compared.own_line),
            ("redone", RECALCULATED, compared.redone_line),
            ("true", TRUE_VALUE, compared.true_line),
        ];
        type Get = fn(&LineCompared) -> Option<f64>;
        let of_line: [(&str, &str, Get, usize, &str); 3] = [
            ("slope", "slope M", |line| Some(line.slope), 2, "divisions per m³/min"),
            ("intercept", "intercept B", |line| Some(line.intercept), 2, "divisions"),
            ("r", "correlation r", |line| line.r, 4, ""),
        ];
        for (id, row, get, decimals, unit) in of_line {
            for (which, column, line) in &lines {
                let value = line.as_ref().and_then(get);
                let name = format!("line.{id}.{which}");
                self.add((&name, row, column), value, (NumberFormat::Plain(decimals), unit));
            }
        }
        let set_points = [
            ("own", AS_WRITTEN, compared.own_set_point),
            ("redone", RECALCULATED, compared.redone_set_point),
            ("true", TRUE_VALUE, compared.true_set_point),
        ];
        for (which, column, value) in set_points {
            let name = format!("set_point.{which}");
            self.add((&name, "set point", column), value, (NumberFormat::Plain(1), "divisions"));
        }
    }

    fn check(&mut self, check: &CheckCompared) {
        let [own, redone] = check.standard_std_m3_min;
        let [own_line, redone_line] = check.line_std_m3_min;
        let [own_off, redone_off] = check.difference_pct;
        let flow = (NumberFormat::Plain(3), "m³/min");
        let percent = (NumberFormat::Signed(2), "%");
        let rows = [
            (
                "standard",
                "flow check: flow from the calibrator",
                [own, redone, check.true_std_m3_min],
                flow,
            ),
            (
                "line",
                match check.of {
                    CheckedLine::ControlledFlow => "flow check: ordered flow",
                    CheckedLine::Own | CheckedLine::Last => {
                        "flow check: flow from the calibration line"
                    }
                },
                [own_line, redone_line, None],
                flow,
            ),
            (
                "difference",
                "flow check: percent difference",
                [own_off, redone_off, check.true_difference_pct],
                percent,
            ),
        ];
        for (id, row, values, written) in rows {
            for ((which, column), value) in
                [("own", AS_WRITTEN), ("redone", RECALCULATED), ("true", TRUE_VALUE)]
                    .into_iter()
                    .zip(values)
            {
                self.add((&format!("check.{id}.{which}"), row, column), value, written);
            }
        }
        let within = Some(check.within_pct);
        self.add(
            ("check.within", "flow check: percent difference allowed", "value"),
            within,
            (NumberFormat::Plain(1), "%"),
        );
    }

    /// The test of the flow controller with added filters.
    fn added_filters(&mut self, added: &AddedCompared) {
        let percent = (NumberFormat::Signed(1), "%");
        for change in &added.changes {
            let (id, row) = match change.sheets {
                1 => ("second", "added filters: change of the flow with the second"),
                _ => ("third", "added filters: change of the flow with the third"),
            };
            let values = [
                ("own", AS_WRITTEN, change.written_pct),
                ("redone", RECALCULATED, change.redone_pct),
                ("true", TRUE_VALUE, change.true_pct),
            ];
            for (which, column, value) in values {
                self.add((&format!("added_filters.{id}.{which}"), row, column), value, percent);
            }
        }
        let row = "added filters: filters with which the flow is held";
        let held =
            [("own", AS_WRITTEN, added.held), ("true", TRUE_VALUE, added.true_held.map(f64::from))];
        for (which, column, value) in held {
            let name = format!("added_filters.held.{which}");
            self.add((&name, row, column), value, (NumberFormat::Plain(0), ""));
        }
        self.add(
            ("added_filters.within", "added filters: change that counts as held", "value"),
            Some(added.within_pct),
            (NumberFormat::Plain(1), "%"),
        );
    }

    fn volumes(&mut self, costs: &Costs) {
        let volumes = [
            ("own", AS_WRITTEN, costs.own_volume_m3),
            ("redone", RECALCULATED, costs.sums_redone_m3),
            ("true", TRUE_VALUE, costs.true_volume_m3),
        ];
        for (which, column, value) in volumes {
            let name = format!("volume.{which}");
            self.add((&name, "24-hour volume", column), value, (NumberFormat::Plain(1), "m³"));
        }
    }

    /// The ordered flow in both volumes: the rule for the run is one of actual volume.
    fn ordered(&mut self, compared: &Compared) {
        let three = |unit| (NumberFormat::Plain(3), unit);
        self.add(
            ("target.std", "ordered flow at 298 K and 760 mmHg", "value"),
            Some(compared.target_flow_std_m3_min),
            three("std m³/min"),
        );
        self.add(
            ("target.actual", "ordered flow in the air of the run", "value"),
            compared.target_flow_actual_m3_min,
            three("m³/min"),
        );
    }

    fn errors(&mut self, marks: &Marks, compared: &Compared, costs: &Costs) {
        let percent = (NumberFormat::Signed(2), "%");
        let run = marks.run.as_ref();
        let scatter = compared.scatter;
        let two = |unit| (NumberFormat::Plain(2), unit);
        let rows = [
            (
                "error.set_point_flow",
                "volume error at the ordered flow, from your line",
                marks.set_point_flow_error_pct,
                percent,
            ),
            (
                "error.together",
                "cost of all slips and faults together",
                costs.together_pct,
                percent,
            ),
            ("error.remaining", "left with every slip corrected", costs.remaining_pct, percent),
            (
                "error.laboratory",
                "bias of the certificate, which nobody on the roof can know",
                Some(compared.laboratory_bias_pct).filter(|bias| bias.abs() > 0.0),
                percent,
            ),
            (
                "error.interaction",
                "sum of the single costs less the cost of all together",
                costs.interaction_pct,
                percent,
            ),
            (
                "run.volume",
                "volume of the run, as written",
                run.and_then(|run| run.volume_std_m3),
                (NumberFormat::Plain(1), "m³"),
            ),
            (
                "run.volume.true",
                "volume of the run, actually sampled",
                run.map(|run| run.truth.volume_std_m3),
                (NumberFormat::Plain(1), "m³"),
            ),
            (
                "run.error",
                "error of the volume as written",
                run.and_then(|run| run.error_pct),
                percent,
            ),
            (
                "run.error.perfect_trace",
                "error with your line and a perfectly read trace",
                run.and_then(|run| run.perfect_trace_error_pct),
                percent,
            ),
            (
                "scatter.slope",
                "standard error of the slope, your readings",
                scatter.map(|scatter| scatter.se_slope),
                two("divisions per m³/min"),
            ),
            (
                "scatter.intercept",
                "standard error of the intercept, your readings",
                scatter.map(|scatter| scatter.se_intercept),
                two("divisions"),
            ),
            (
                "scatter.residual",
                "standard deviation of the residuals, your readings",
                scatter.map(|scatter| scatter.residual_sd),
                two("divisions"),
            ),
            (
                "scatter.flow",
                "flow from your line, half-width of the 95 % interval",
                scatter.and_then(|scatter| scatter.flow_pct),
                two("%"),
            ),
        ];
        for (id, row, value, written) in rows {
            self.add((id, row, "value"), value, written);
        }
    }
}
