//! A trial as one self-contained HTML page: no script, nothing from outside.

mod figures;
mod plots;

use maud::{DOCTYPE, Markup, PreEscaped, html};
use sim_core::trial::{RuleFigures, TrialVerdict};

use super::names::part_name;
use super::number_format::NumberFormat;

pub use figures::{
    FaultFigures, Figures, MeanSd, OperatorFigures, PARTS, PartFigures, ScenarioFigures,
    TrialEntry, figures,
};

/// How the page looks, on a screen, on a telephone and on paper.
const STYLE: &str = include_str!("trial/page.css");

/// The page.
///
/// # Errors
///
/// When a plot cannot be drawn.
pub fn page(figures: &Figures) -> Result<String, String> {
    let rates = plots::pass_rates(figures)?;
    let marks = plots::marks(figures)?;
    let rules = told_apart(&figures.rules);
    let scatter = plots::rules(&rules)?;
    let last = figures.first_seed + figures.runs - 1;
    let proven = |one: &&ScenarioFigures| one.judged.verdict == TrialVerdict::Proven;
    let count = figures.scenarios.iter().filter(proven).count();
    let scenarios = match figures.scenarios.len() {
        1 => "1 scenario".to_owned(),
        many => format!("{many} scenarios"),
    };
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { "Trial" }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { "Trial of " (scenarios) }
                    p class="result" { (count) " of " (figures.scenarios.len()) " proven" }
                    p { "Program " (figures.program) ", seeds " (figures.first_seed) " to " (last)
                        " for each operator in each scenario." }
                    @if let Some(caution) = &figures.caution { p { strong { (caution) } } }
                }
                main {
                    (verdicts(figures))
                    h2 { "Pass rates" }
                    figure {
                        (PreEscaped(rates))
                        figcaption {
                            "Dot: share of seeds that passed. Bar: Wilson interval at 95 %. Filled dots: the careful "
                            "operator; hollow dots: the others. Dashed lines: 5 % and 99 %."
                        }
                    }
                    h2 { "Marks per part" }
                    figure {
                        (PreEscaped(marks))
                        figcaption { "Mean marks, from left to right: safety, readings, fit, procedure, judgement, record." }
                    }
                    (parts(figures))
                    h2 { "Rules" }
                    figure {
                        (PreEscaped(scatter))
                        figcaption {
                            "Difficulty: share of sessions that followed the rule. Discrimination: point-biserial correlation "
                            "with the marks, without the parts to which the rule contributes. Over the sessions of this "
                            "trial that came to the rule; the numbers are those of the table. Rules that all sessions followed, or none, cannot "
                            "discriminate and are left out."
                        }
                    }
                    (rule_table(&rules))
                }
            }
        }
    };
    Ok(markup.into_string())
}

/// The rules that tell sessions apart.
fn told_apart(rules: &[RuleFigures]) -> Vec<RuleFigures> {
    rules.iter().filter(|rule| rule.discrimination.is_some()).copied().collect()
}

fn verdicts(figures: &Figures) -> Markup {
    html! {
        h2 { "Verdicts" }
        table {
            thead { tr { th { "scenario" } th { "verdict" } th { "objections" } th { "faults noticed by the careful operator" } } }
            tbody {
                @for scenario in &figures.scenarios {
                    tr {
                        td { (scenario.title) div class="hash" { (scenario.file) } }
                        td { strong { (scenario.judged.verdict.words()) } }
                        td { (objections(scenario)) }
                        td { (noticed(scenario)) }
                    }
                }
            }
        }
    }
}

/// The objections, each with the session that shows it and with what to change.
fn objections(scenario: &ScenarioFigures) -> Markup {
    html! {
        @for reason in &scenario.judged.reasons {
            div { (reason) }
            @for detail in scenario.details.iter().filter(|detail| detail.reason == *reason) {
                div class="detail" {
                    (detail.operator) " with seed " (detail.seed) ", at " (detail.time.to_string()) ", " (detail.phase)
                    ": " (detail.about) ": " (detail.what) ". It saw: “" (detail.saw) "” "
                    strong { (detail.change.sentence()) }
                }
            }
        }
    }
}

fn noticed(scenario: &ScenarioFigures) -> Markup {
    let careful = scenario.operators.iter().find(|one| one.operator == "careful");
    html! {
        @for fault in careful.iter().flat_map(|one| &one.faults) {
            div { (fault.fault) ": " (fault.noticed) " of " (fault.ways.in_force) }
        }
    }
}

fn parts(figures: &Figures) -> Markup {
    let first = figures.scenarios.iter().flat_map(|one| &one.operators).next();
    html! {
        table {
            thead {
                tr {
                    th { "scenario" } th { "operator" } th class="n" { "passed, %" } th class="n" { "total" }
                    @for part in first.iter().flat_map(|one| &one.parts) {
                        th class="n" { (part_name(part.part)) }
                    }
                    th { "failed most often by" }
                }
            }
            tbody {
                @for scenario in &figures.scenarios {
                    @for one in &scenario.operators { (operator_row(scenario, one)) }
                }
            }
        }
    }
}

fn operator_row(scenario: &ScenarioFigures, one: &OperatorFigures) -> Markup {
    let rate = one.pass_rate;
    let percent = |share: f64| format!("{:.1}", 100.0 * share);
    html! {
        tr {
            td { (scenario.title) }
            td { (one.operator) }
            td class="n" { (percent(rate.share)) " (" (percent(rate.low)) " to " (percent(rate.high)) ")" }
            td class="n" { (format!("{:.1} ± {:.1}", one.total.mean, one.total.sd)) }
            @for part in &one.parts {
                td class="n" { (format!("{:.1} ± {:.1}", part.marks.mean, part.marks.sd)) }
            }
            td { (one.decided_by().unwrap_or_default()) }
        }
    }
}

fn rule_table(rules: &[RuleFigures]) -> Markup {
    html! {
        table {
            thead {
                tr {
                    th class="n" { "number" } th { "rule" } th { "title" } th class="n" { "difficulty" }
                    th class="n" { "discrimination" } th class="n" { "followed" } th class="n" { "sessions" }
                }
            }
            tbody {
                @for (number, rule) in rules.iter().enumerate() {
                    tr {
                        td class="n" { (number + 1) }
                        td { (rule.rule) }
                        td { (rule.title) }
                        td class="n" { (format!("{:.3}", rule.difficulty)) }
                        td class="n" { (NumberFormat::Signed(3).write_known(rule.discrimination)) }
                        td class="n" { (rule.kept) }
                        td class="n" { (rule.of) }
                    }
                }
            }
        }
    }
}
