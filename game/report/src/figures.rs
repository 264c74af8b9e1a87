//! The figures of a report: each number once, with its unit, as it is written everywhere. Debrief,
//! HTML, PDF, CSV and JSON all take them from here.

use serde::Serialize;
use sim_core::field_book::Field;
use sim_core::marking::compared::{CheckCompared, Compared, LineCompared};
use sim_core::marking::cost::Costs;
use sim_core::marking::{Marks, ReadingJudged};

use super::text::part_name;

/// A number as it is written in every report.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// Its name, which stays the same from version to version.
    pub id: String,
    /// The row in which it stands.
    pub row: String,
    /// The column in which it stands.
    pub column: &'static str,
    /// As it is written.
    pub text: String,
    /// The same as a number: what is written and no more.
    pub value: f64,
    /// Its unit; empty for a pure number.
    pub unit: &'static str,
}

/// How a number is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Digits {
    /// With so many decimals.
    Plain(usize),
    /// With so many decimals and its sign; what rounds to nothing has none.
    Signed(usize),
}

impl Digits {
    /// Writes a number.
    pub fn write(self, value: f64) -> String {
        let (text, decimals) = match self {
            Self::Plain(decimals) => (format!("{value:.decimals$}"), decimals),
            Self::Signed(decimals) => (format!("{value:+.decimals$}"), decimals),
        };
        let nothing = !text.contains(|digit: char| ('1'..='9').contains(&digit));
        if nothing && value.is_finite() { format!("{:.decimals$}", 0.0) } else { text }
    }
}

/// Columns of what was decided and what was true.
pub const OWN: &str = "as written";
/// See [`OWN`].
pub const REDONE: &str = "sums done again";
/// See [`OWN`].
pub const TRUE: &str = "truth";

/// What stands where a number is not known.
pub const UNKNOWN: &str = "–";

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
        if let Some(check) = &compared.check {
            figures.check(check);
        }
        figures.volumes(costs);
        figures.errors(marks, compared, costs);
        figures
    }

    /// Every one, in order.
    pub fn iter(&self) -> impl Iterator<Item = &Figure> {
        self.0.iter()
    }

    /// The one of that name as it is written, or a dash.
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
        (digits, unit): (Digits, &'static str),
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
            let one = Digits::Plain(1);
            self.add((&format!("marks.{name}"), name, "got"), Some(part.got), (one, ""));
            let of = format!("marks.{name}.of");
            self.add((&of, name, "of"), Some(part.weight), (Digits::Plain(0), ""));
        }
        self.add(("marks.total", "total", "got"), Some(marks.total), (Digits::Plain(1), ""));
        self.add(("marks.total.of", "total", "of"), Some(100.0), (Digits::Plain(0), ""));
        self.add(("marks.needed", "needed", "of"), Some(marks.pass_mark), (Digits::Plain(0), ""));
    }

    fn decided(&mut self, compared: &Compared) {
        let lines = [
            ("own", OWN, compared.own_line),
            ("redone", REDONE, compared.redone_line),
            ("true", TRUE, compared.true_line),
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
                self.add((&name, row, column), value, (Digits::Plain(decimals), unit));
            }
        }
        let set_points = [
            ("own", OWN, compared.own_set_point),
            ("redone", REDONE, compared.redone_set_point),
            ("true", TRUE, compared.true_set_point),
        ];
        for (which, column, value) in set_points {
            let name = format!("set_point.{which}");
            self.add((&name, "set point", column), value, (Digits::Plain(1), "divisions"));
        }
    }

    fn check(&mut self, check: &CheckCompared) {
        let [own, redone] = check.standard_std_m3_min;
        let [own_line, redone_line] = check.line_std_m3_min;
        let [own_off, redone_off] = check.difference_pct;
        let flow = (Digits::Plain(3), "m³/min");
        let percent = (Digits::Signed(2), "%");
        let rows = [
            ("standard", "check: flow by standard", [own, redone, check.true_std_m3_min], flow),
            ("line", "check: flow by the line", [own_line, redone_line, None], flow),
            (
                "difference",
                "check: line off",
                [own_off, redone_off, check.true_difference_pct],
                percent,
            ),
        ];
        for (id, row, values, written) in rows {
            for ((which, column), value) in
                [("own", OWN), ("redone", REDONE), ("true", TRUE)].into_iter().zip(values)
            {
                self.add((&format!("check.{id}.{which}"), row, column), value, written);
            }
        }
        let within = Some(check.within_pct);
        self.add(
            ("check.within", "check: line off, at most", "value"),
            within,
            (Digits::Plain(1), "%"),
        );
    }

    fn volumes(&mut self, costs: &Costs) {
        let volumes = [
            ("own", OWN, costs.own_volume_m3),
            ("redone", REDONE, costs.sums_redone_m3),
            ("true", TRUE, costs.true_volume_m3),
        ];
        for (which, column, value) in volumes {
            let name = format!("volume.{which}");
            self.add((&name, "volume of a day", column), value, (Digits::Plain(1), "m³"));
        }
    }

    fn errors(&mut self, marks: &Marks, compared: &Compared, costs: &Costs) {
        let percent = (Digits::Signed(2), "%");
        let run = marks.run.as_ref();
        let scatter = compared.scatter;
        let two = |unit| (Digits::Plain(2), unit);
        let rows = [
            (
                "error.set_point_flow",
                "volumes at the ordered flow, by the own line",
                marks.set_point_flow_error_pct,
                percent,
            ),
            ("error.together", "all slips and faults together cost", costs.together_pct, percent),
            ("error.remaining", "left with all of it undone", costs.remaining_pct, percent),
            (
                "error.interaction",
                "single costs added, less all together",
                costs.interaction_pct,
                percent,
            ),
            (
                "run.volume",
                "volume of the run as written",
                run.and_then(|run| run.volume_std_m3),
                (Digits::Plain(1), "m³"),
            ),
            (
                "run.volume.true",
                "volume of the run, truly drawn",
                run.map(|run| run.truth.volume_std_m3),
                (Digits::Plain(1), "m³"),
            ),
            (
                "run.error",
                "volume of the run as written, off the true one",
                run.and_then(|run| run.error_pct),
                percent,
            ),
            (
                "run.error.perfect_trace",
                "the same by the own line, trace read perfectly",
                run.and_then(|run| run.perfect_trace_error_pct),
                percent,
            ),
            (
                "scatter.slope",
                "standard error of the slope, own readings",
                scatter.map(|scatter| scatter.se_slope),
                two("divisions per m³/min"),
            ),
            (
                "scatter.intercept",
                "standard error of the intercept, own readings",
                scatter.map(|scatter| scatter.se_intercept),
                two("divisions"),
            ),
            (
                "scatter.residual",
                "standard deviation of the residuals, own readings",
                scatter.map(|scatter| scatter.residual_sd),
                two("divisions"),
            ),
            (
                "scatter.flow",
                "flow by the own line, half of the 95 % interval",
                scatter.and_then(|scatter| scatter.flow_pct),
                two("%"),
            ),
        ];
        for (id, row, value, written) in rows {
            self.add((id, row, "value"), value, written);
        }
    }
}

/// The columns of the readings, as every report has them.
pub const READING_COLUMNS: [&str; 7] =
    ["time", "reading", "unit", "written", "to be seen", "undisturbed", "off, divisions"];

/// A reading as every report writes it, without its time and name: written, to be seen,
/// undisturbed, and how far off in divisions.
pub fn reading(reading: &ReadingJudged) -> [String; 4] {
    let two = Digits::Plain(2);
    [
        two.write(reading.written),
        two.write(reading.seen),
        two.write(reading.undisturbed),
        super::text::off(reading),
    ]
}

/// A field's name without its unit, which has a column of its own.
pub fn reading_name(field: Field) -> String {
    let name = words::field_name(field);
    name.split(", ").next().unwrap_or(&name).to_owned()
}

#[cfg(test)]
mod tests {
    use super::Digits;

    #[test]
    fn a_number_is_written_once_and_nothing_has_no_sign() {
        assert_eq!(Digits::Signed(2).write(-0.001), "0.00");
        assert_eq!(Digits::Signed(2).write(1.005), "+1.00");
        assert_eq!(Digits::Plain(1).write(-12.34), "-12.3");
        assert_eq!(Digits::Plain(0).write(80.0), "80");
    }
}
