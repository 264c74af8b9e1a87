//! The calculations of the field book, done for whoever asks, and a plot of its points.

use std::fmt::Write;

use content::own_sums::OwnSums;
use sim_core::calibration::{
    AirConditions, Basis, Calibration, Expression, PointReading, RecorderScale, TransferStandard,
    calibrate,
};
use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::scenario::setup::SeasonAverages;
use sim_core::units::{Pressure, Temperature};

/// Columns and rows of the plot.
const PLOT: (usize, usize) = (56, 16);

/// Flow and corrected chart reading of each point, and their line.
///
/// # Errors
///
/// What the book lacks for the calculations.
pub fn own_sums(book: &FieldBook, averages: Option<SeasonAverages>) -> Result<OwnSums, String> {
    let (numbers, done) = worked(book, averages)?;
    let points = numbers
        .iter()
        .zip(&done.points)
        .map(|(number, point)| (number.number(), point.flow_std_m3_min, point.chart_term))
        .collect();
    let line = &done.line;
    Ok(OwnSums { points, slope: line.slope, intercept: line.intercept, correlation: line.r })
}

/// The same as a text.
pub fn sums(book: &FieldBook, averages: Option<SeasonAverages>) -> String {
    let OwnSums { points, slope, intercept, correlation: r } = match own_sums(book, averages) {
        Ok(sums) => sums,
        Err(text) => return text,
    };
    let mut text = match expression(book, averages).basis {
        Basis::Actual => "From your readings, for a square-root chart:",
        Basis::Averages(_) => {
            "From your readings, for a square-root chart, with the averages of the order built in:"
        }
    }
    .to_owned();
    text.push_str("\n  point   flow, m3/min  corrected chart reading\n");
    // Writing into a String cannot fail.
    for (number, flow, term) in points {
        let _ = writeln!(text, "  {number:<5} {flow:>14.3} {term:>24.2}");
    }
    let _ = write!(text, "  slope {slope:.2}, intercept {intercept:.2}, correlation {r:.4}");
    text
}

/// The points on a grid of letters, corrected chart reading over flow.
pub fn plot(book: &FieldBook, averages: Option<SeasonAverages>) -> String {
    let (numbers, done) = match worked(book, averages) {
        Ok(worked) => worked,
        Err(text) => return text,
    };
    let span = |values: &[f64]| {
        let least = values.iter().copied().fold(f64::INFINITY, f64::min);
        let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        (least, (most - least).max(1e-9))
    };
    let flows: Vec<f64> = done.points.iter().map(|point| point.flow_std_m3_min).collect();
    let terms: Vec<f64> = done.points.iter().map(|point| point.chart_term).collect();
    let ((left, width), (bottom, height)) = (span(&flows), span(&terms));
    let (columns, rows) = PLOT;
    let place = |value: f64, from: f64, wide: f64, count: usize| {
        ((value - from) / wide * (count - 1) as f64).round().clamp(0.0, (count - 1) as f64) as usize
    };
    let mut grid = vec![vec![' '; columns]; rows];
    for ((number, flow), term) in numbers.iter().zip(&flows).zip(&terms) {
        let column = place(*flow, left, width, columns);
        let row = rows - 1 - place(*term, bottom, height, rows);
        let sign = char::from_digit(u32::from(number.number()), 36).unwrap_or('*');
        if let Some(cell) = grid.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = sign;
        }
    }
    let mut text = format!(
        "Corrected chart reading, {bottom:.1} to {:.1}, each point by its number\n",
        bottom + height
    );
    for row in grid {
        let row: String = row.into_iter().collect();
        let _ = writeln!(text, "  |{}", row.trim_end());
    }
    let _ = writeln!(text, "  +{}", "-".repeat(columns));
    let _ = write!(text, "   flow, {left:.2} to {:.2} m3/min", left + width);
    text
}

/// The expression for a square-root chart, with the averages of the season built in where the order asks
/// for them and the air in the book is near enough.
fn expression(book: &FieldBook, averages: Option<SeasonAverages>) -> Expression {
    let plain = Expression::actual(RecorderScale::SquareRoot);
    let air = book
        .number(Field::Pressure)
        .zip(book.number(Field::Temperature))
        .and_then(|(pressure, temperature)| AirConditions::as_read(pressure, temperature).ok());
    averages.zip(air).map_or(plain, |(averages, air)| averages.built_into(plain, air))
}

/// The calibration from the readings in the book, or what it lacks.
fn worked(
    book: &FieldBook,
    averages: Option<SeasonAverages>,
) -> Result<(Vec<PointNumber>, Calibration), String> {
    let number = |field, name: &str| {
        book.number(field)
            .ok_or_else(|| format!("The calculations need the {name} in the field book first."))
    };
    let pressure = Pressure::from_mmhg(number(Field::Pressure, "station pressure")?);
    let temperature = Temperature::from_c(number(Field::Temperature, "air temperature")?);
    let slope = number(Field::CertificateSlope, "certificate's slope")?;
    let intercept = number(Field::CertificateIntercept, "certificate's intercept")?;
    let wrong =
        |error: &dyn std::fmt::Display| format!("The calculations cannot be done: {error}.");
    let conditions = AirConditions::new(pressure, temperature).map_err(|error| wrong(&error))?;
    let standard = TransferStandard::new(slope, intercept).map_err(|error| wrong(&error))?;
    let read: Vec<(PointNumber, PointReading)> = book
        .points()
        .into_iter()
        .filter_map(|point| {
            let leg = |field| book.number(field).map(f64::abs);
            // The sum as written counts: it allows for a fluid other than water.
            let delta_h_inh2o = match (leg(Field::Up(point)), leg(Field::Down(point))) {
                (Some(up), Some(down)) => leg(Field::DeltaH(point)).unwrap_or(up + down),
                _ => leg(Field::DeltaH(point))?,
            };
            let chart = book.number(Field::Chart(point))?;
            Some((point, PointReading { delta_h_inh2o, chart, conditions }))
        })
        .collect();
    let (numbers, readings): (Vec<_>, Vec<_>) = read.into_iter().unzip();
    let expression = expression(book, averages);
    let done = calibrate(&readings, standard, expression).map_err(|error| wrong(&error))?;
    Ok((numbers, done))
}

#[cfg(test)]
mod tests {
    use super::*;
    use content::sample::book;

    #[test]
    fn sums_are_those_of_the_readings() {
        let text = sums(&book(), None);
        assert!(text.contains("1.250                    37.50"), "{text}");
        assert!(text.contains("slope 30.00, intercept"), "{text}");
        assert!(sums(&FieldBook::default(), None).contains("station pressure"));
    }

    #[test]
    fn averages_are_built_in_where_the_order_asks_for_them() {
        // The air of the book is near the first averages and more than 60 mmHg from the second.
        let book = book();
        let of = |pressure_mmhg, temperature_c| {
            sums(&book, Some(SeasonAverages { pressure_mmhg, temperature_c }))
        };
        assert!(of(740.0, 20.0).contains("with the averages of the order built in"));
        assert_eq!(of(680.0, 20.0), sums(&book, None));
    }

    #[test]
    fn the_plot_has_every_point() {
        let text = plot(&book(), None);
        let rows: Vec<&str> = text.lines().filter(|line| line.starts_with("  |")).collect();
        assert_eq!(rows.len(), PLOT.1);
        for number in ["1", "2", "3"] {
            assert_eq!(rows.iter().filter(|row| row.contains(number)).count(), 1, "{text}");
        }
    }
}
