//! What is printed on work order, certificates and weather sheet, row by row.

use content::names::weekday;
use sim_core::scenario::run::ScheduledTime;
use sim_core::scenario::setup::{Certificate, CertificatePair, WorkOrder};
use sim_core::session::SitePapers;
use sim_core::session::action::Sight;
use sim_core::session::view::run::WeatherLine;

use super::typeset::Row;

pub(super) fn rows(sight: Sight, papers: &SitePapers, weather: &[WeatherLine]) -> Vec<Row> {
    match sight {
        Sight::WeatherSheet => weather_rows(weather),
        Sight::Certificate(number) => match papers.certificates.get(usize::from(number)) {
            Some(certificate) => certificate_rows(certificate),
            None => vec![Row::Text("There is no other paper in the box.".to_owned())],
        },
        _ => order_rows(papers.work_order, papers),
    }
}

fn order_rows(order: &WorkOrder, papers: &SitePapers) -> Vec<Row> {
    let pair = |name: &str, value: String| Row::Pair(name.to_owned(), value);
    let mut rows = vec![
        Row::Heading("Work order".to_owned()),
        pair("number", order.number.clone()),
        pair("date", papers.station.date.to_string()),
        pair("station", papers.station.name.clone()),
        pair("sampler", papers.station.sampler_serial.clone()),
        pair("elevation", format!("{:.0} m", papers.station.elevation_m)),
        Row::Rule,
    ];
    rows.extend(order.text.lines().map(|line| Row::Text(line.to_owned())));
    rows.extend([
        Row::Rule,
        pair("calibrator", order.calibrator_serial.clone()),
        pair(
            "points",
            match order.filter_in_place {
                true => format!("{}, filter in place", order.points),
                false => order.points.to_string(),
            },
        ),
        pair(
            "target flow",
            match order.target_flow_actual_m3_min {
                Some(design) => format!("{design} m³/min, actual"),
                None => format!("{} std m³/min", order.target_flow_std_m3_min),
            },
        ),
        Row::Small("expected air during the run".to_owned()),
        pair("pressure", format!("{} mmHg", order.run_pressure_mmhg)),
        pair("temperature", format!("{} °C", order.run_temperature_c)),
    ]);
    if let Some(averages) = order.averages {
        rows.push(Row::Small("averages of the season, for the line".to_owned()));
        rows.push(pair("pressure Pa", format!("{} mmHg", averages.pressure_mmhg)));
        rows.push(pair("temperature Ta", format!("{} °C", averages.temperature_c)));
    }
    if let Some(run) = &order.run {
        let at = |name: &str, moment: ScheduledTime| {
            let date = papers.station.date.later(i64::from(moment.day));
            let day: String = weekday(date.weekday()).chars().take(3).collect();
            pair(name, format!("{day} {date} {}", minutes(&moment.at.to_string())))
        };
        rows.push(Row::Small("24-hour run".to_owned()));
        rows.extend([at("on", run.on), at("off", run.off), at("return", run.back)]);
        if let Some(next) = run.next {
            rows.push(Row::Small("next run, to be set up".to_owned()));
            rows.extend([at("on", next.on), at("off", next.off)]);
        }
        if let Some(added) = run.added_filters {
            let sheets = if added.sheets == 1 { "a second filter" } else { "a second and a third" };
            rows.push(pair("controller test", sheets.to_owned()));
            rows.push(pair("held within", format!("{} %", added.within_pct)));
        }
        for filter in &run.filters {
            rows.push(pair("filter", format!("{}, {:.4} g", filter.number, filter.mass_g)));
        }
    }
    if let Some(last) = &order.last_line {
        rows.extend([
            Row::Small(format!("last calibration, {}", last.date)),
            pair("slope", signed(last.slope, 3)),
            pair("intercept", signed(last.intercept, 3)),
        ]);
    }
    rows
}

/// The sheet on which the station's logger prints the weather, hour by hour.
fn weather_rows(weather: &[WeatherLine]) -> Vec<Row> {
    let mut rows = vec![Row::Heading("Weather".to_owned())];
    if weather.is_empty() {
        rows.push(Row::Text("Nothing has been printed yet.".to_owned()));
    }
    rows.push(Row::Pair("time".to_owned(), "mmHg      \u{b0}C".to_owned()));
    let mut day = None;
    for line in weather {
        if day != Some(line.date) {
            day = Some(line.date);
            rows.push(Row::Small(line.date.to_string()));
        }
        let read = format!("{:.1}    {:>5.1}", line.pressure_mmhg, line.temperature_c);
        rows.push(Row::Pair(minutes(&line.time.to_string()).to_owned(), read));
    }
    rows
}

/// A time of day without its seconds.
fn minutes(time: &str) -> &str {
    time.rsplit_once(':').map_or(time, |(minutes, _)| minutes)
}

/// A certificate as one table: the pair for standard conditions beside the pair for actual conditions.
fn certificate_rows(paper: &Certificate) -> Vec<Row> {
    let (standard, actual) = (("standard", &paper.standard), ("actual", &paper.actual));
    let [(first, one), (second, other)] =
        if paper.actual_first { [actual, standard] } else { [standard, actual] };
    let cells = |name: &str, of: fn(&CertificatePair) -> f64| {
        Row::Cells(name.to_owned(), [one, other].map(|pair| signed(of(pair), 5)))
    };
    vec![
        Row::Heading(capitalised(paper.heading.printed())),
        Row::Small("orifice calibrator".to_owned()),
        Row::Pair("serial number".to_owned(), paper.serial.clone()),
        Row::Pair("calibrated on".to_owned(), paper.date.to_string()),
        Row::Rule,
        Row::ColumnHeads("conditions".to_owned(), [first, second].map(str::to_owned)),
        cells("slope m", |pair| pair.slope),
        cells("intercept b", |pair| pair.intercept),
        Row::Rule,
        Row::Pair("correlation r".to_owned(), format!("{:.5}", paper.correlation)),
        Row::Rule,
        Row::Text("Standard conditions: 298 K and 760 mmHg.".to_owned()),
    ]
}

/// A number with so many decimals and a true minus sign.
fn signed(value: f64, decimals: usize) -> String {
    let size = format!("{:.decimals$}", value.abs());
    if value < 0.0 { format!("−{size}") } else { size }
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
