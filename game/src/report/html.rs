//! The debrief as one self-contained HTML page: no script, nothing from outside.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use sim_core::marking::Marks;
use sim_core::marking::cost::Costs;
use sim_core::time::TimeOfDay;

use super::{cost_words, plots, waterfall, words};
use crate::commands::session_files::Ended;

/// How the page looks, on a screen, on a telephone and on paper.
const STYLE: &str = include_str!("page.css");

/// The page.
///
/// # Errors
///
/// When a plot cannot be drawn.
pub fn page(ended: &Ended) -> Result<String, String> {
    let Ended { signed, head, marks, costs } = ended;
    let setup = &signed.setup;
    let start = setup.station.start;
    let plot = plots::calibration(signed)?;
    let steps = waterfall::waterfall(costs)?;
    let title = format!("Debrief: {}, {}", setup.station.name, setup.station.date);
    let minutes = signed.end_tick.seconds() / 60.0;
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (title) }
                    p class="caution" { (words::CAUTION) }
                    p class=(if marks.passed { "result passed" } else { "result notyet" }) {
                        (words::result(marks))
                    }
                    p { (words::ending(signed.ended)) (format!(" after {minutes:.0} min on the bench.")) }
                }
                main {
                    (parts(marks))
                    h2 { "Points and line" }
                    figure {
                        (PreEscaped(plot))
                        figcaption {
                            "Points and thin line: as written in the field book, at the conditions written there. "
                            "Thick line: what a perfect reader of this rig would have found. "
                            "Dashed: 1.1 and 1.7 m³/min (40 CFR Part 50 App. B 7.2, 8.8)."
                        }
                    }
                    @if let Some(error) = marks.run.as_ref().and_then(|run| run.error_pct) {
                        p { "Volume of the run as written: " (format!("{error:+.2}")) " % off the true one." }
                    }
                    @if let Some(error) = marks.set_point_flow_error_pct {
                        p { "Flow at the ordered set point by the own line: "
                            strong { (format!("{error:+.2} %")) } " off the true one." }
                    }
                    (costs_of(costs, steps.as_deref()))
                    (findings(marks, start))
                    (faults(marks, start))
                    (readings(marks, start))
                }
                footer {
                    p { "Program " (sim_core::VERSION) " · seed " (signed.source.seed) }
                    p class="hash" { "scenario " (signed.source.sha256) }
                    p class="hash" { "journal " (head) }
                }
            }
        }
    };
    Ok(markup.into_string())
}

fn parts(marks: &Marks) -> Markup {
    html! {
        h2 { "Marks" }
        table {
            thead { tr { th { "part" } th class="n" { "got" } th class="n" { "of" } th { "why no more" } } }
            tbody {
                @for part in &marks.parts {
                    tr {
                        td { (words::part_name(part.name)) }
                        td class="n" { (format!("{:.1}", part.got)) }
                        td class="n" { (format!("{:.0}", part.weight)) }
                        td { @for reason in &part.reasons { div { (reason) } } }
                    }
                }
                tr class="sum" {
                    td { "total" }
                    td class="n" { (format!("{:.1}", marks.total)) }
                    td class="n" { "100" }
                    td { (format!("{:.0} needed", marks.pass_mark)) }
                }
            }
        }
    }
}

/// What each slip cost, with the waterfall where there is one.
fn costs_of(costs: &Costs, plot: Option<&str>) -> Markup {
    html! {
        h2 { "What each slip cost" }
        @if let Some(run) = &costs.run { p { (cost_words::of_run(run)) } }
        table {
            thead { tr { th { "volume" } th class="n" { "m³" } } }
            tbody {
                @for (name, volume) in cost_words::volumes(costs) {
                    tr { td { (name) } td class="n" { (cost_words::cubic_metres(volume)) } }
                }
            }
        }
        @if !costs.each.is_empty() {
            table {
                thead { tr { th { "what" } th class="n" { "cost, %" } th { "note" } } }
                tbody {
                    @for cost in &costs.each {
                        tr {
                            td { (cost_words::title(cost)) }
                            td class="n" { (cost_words::percent(cost.cost_pct)) }
                            td { (cost.note) }
                        }
                    }
                }
            }
        }
        @for sentence in cost_words::sentences(costs) { p { (sentence) } }
        @if let Some(plot) = plot {
            figure {
                (PreEscaped(plot))
                figcaption {
                    "From the volume by the own line to the true one: each bar is what changes when that "
                    "slip is undone as well, in percent of the true volume."
                }
            }
        }
    }
}

fn findings(marks: &Marks, start: TimeOfDay) -> Markup {
    html! {
        h2 { "Findings" }
        @if marks.findings.is_empty() { p { "None." } }
        @for finding in &marks.findings {
            section class="finding" {
                h3 {
                    (start.after(finding.tick))
                    @if let Some(point) = finding.point { ", point " (point) }
                    " · " (finding.title)
                    " " span class="tag" { (words::severity(finding.severity)) }
                }
                p { (finding.evidence) }
                p class="why" { (finding.why) }
                p class="source" { (words::source(finding)) }
            }
        }
    }
}

fn faults(marks: &Marks, start: TimeOfDay) -> Markup {
    html! {
        h2 { "Faults" }
        @if marks.faults.is_empty() { p { "Nothing was wrong, and nothing was reported." } }
        ul {
            @for fault in &marks.faults {
                li {
                    (fault.what) ": " strong { (words::verdict(fault.verdict)) }
                    " (" (words::reported(fault.reported, start)) ")"
                }
            }
        }
    }
}

fn readings(marks: &Marks, start: TimeOfDay) -> Markup {
    html! {
        h2 { "Readings" }
        table {
            thead {
                tr {
                    th { "time" } th { "what" } th class="n" { "written" } th class="n" { "to be seen" }
                    th class="n" { "undisturbed" } th class="n" { "off, divisions" }
                }
            }
            tbody {
                @for reading in &marks.readings {
                    tr {
                        td { (start.after(reading.tick)) }
                        td { (words::field_name(reading.field)) }
                        td class="n" { (format!("{:.2}", reading.written)) }
                        td class="n" { (format!("{:.2}", reading.seen)) }
                        td class="n" { (format!("{:.2}", reading.undisturbed)) }
                        td class="n" { (words::off(reading)) }
                    }
                }
            }
        }
    }
}
