//! What people's marks are worth as one HTML page: no script, nothing from outside.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::super::plots::{
    BothSittingsPlot, DecisionCurvePlot, InformationPlot, MarkHistogramPlot, Plot, PlotColors,
    PlotStyle,
};
use super::figures::{PeopleScenario, PeopleTrial};
use super::tables;

/// How the page looks: as the page of a trial.
const STYLE: &str = include_str!("../trial/page.css");
/// Width of a plot, in units of a page in which text has 13.
const WIDTH: u32 = 640;

/// The page.
///
/// # Errors
///
/// When a plot cannot be drawn.
pub fn page(trial: &PeopleTrial) -> Result<String, String> {
    let settings = &trial.settings;
    let mut scenarios = Vec::new();
    for scenario in &trial.scenarios {
        scenarios.push(of_scenario(scenario)?);
    }
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { "Trial with people" }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { "What the marks are worth" }
                    p class="result" {
                        (settings.people) " people in each of " (trial.scenarios.len()) " scenarios"
                    }
                    p {
                        "Program " (trial.program) ", seed " (settings.seed) ". "
                        (format!("{:.0}", 100.0 * settings.careless)) " % of the people are careless. "
                        "Their abilities are assumed, not measured: DEVELOPERS.md states them. Each person "
                        "sat each scenario twice; all figures are of the first sitting but those that compare "
                        "both. Intervals hold the true figure 95 times in 100."
                    }
                    @if let Some(caution) = &trial.caution { p { strong { (caution) } } }
                }
                main {
                    h2 { "All scenarios" }
                    (tables::overview(trial))
                    (tables::volumes(&trial.together.volumes))
                    @for scenario in scenarios { (scenario) }
                }
            }
        }
    };
    Ok(markup.into_string())
}

fn of_scenario(scenario: &PeopleScenario) -> Result<Markup, String> {
    let figures = &scenario.figures;
    let histogram = drawn(MarkHistogramPlot::of(figures).map(Plot::MarkHistogram))?;
    let sittings = drawn(BothSittingsPlot::of(figures).map(Plot::BothSittings))?;
    let information = drawn(InformationPlot::of(figures).map(Plot::Information))?;
    let curve = drawn(DecisionCurvePlot::of(figures).map(Plot::DecisionCurve))?;
    Ok(html! {
        h2 { (scenario.title) }
        p class="hash" { (scenario.file) }
        h3 { "Marks" }
        (histogram)
        (tables::groups(figures))
        h3 { "Reliability" }
        (sittings)
        (tables::reliability(figures))
        h3 { "Volumes and the pass mark" }
        (curve)
        (tables::volumes(&figures.volumes))
        (tables::proposed(figures))
        h3 { "Rules" }
        (information)
        (tables::items(figures))
    })
}

/// A plot, or nothing where there is nothing to be shown.
fn drawn(plot: Option<Plot>) -> Result<Markup, String> {
    let Some(plot) = plot else { return Ok(html! {}) };
    let style = PlotStyle::new(WIDTH, plot.height(WIDTH), PlotColors::PAGE);
    let svg = plot.svg(&style)?;
    Ok(html! { figure { (PreEscaped(svg)) } })
}
