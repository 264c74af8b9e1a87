//! The tables of the page.

use maud::{Markup, html};
use sim_core::trial::people::estimate::{Estimate, Share};
use sim_core::trial::people::items::ItemFigures;
use sim_core::trial::people::volumes::VolumeFigures;
use sim_core::trial::people::{PeopleFigures, PersonGroup};

use super::super::number_format::{NumberFormat, UNKNOWN};
use super::figures::PeopleTrial;

/// One row for each scenario.
pub fn overview(trial: &PeopleTrial) -> Markup {
    html! {
        table {
            thead {
                tr {
                    th { "scenario" } th class="n" { "passed, %" } th class="n" { "marks" } th class="n" { "alpha" }
                    th class="n" { "KR-20" } th class="n" { "both sittings" } th class="n" { "kappa" }
                    th class="n" { "of those who pass: off by more than 5 %, %" } th class="n" { "pass mark" }
                    th class="n" { "least loss at" }
                }
            }
            tbody {
                @for scenario in &trial.scenarios {
                    @let figures = &scenario.figures;
                    @let found = &figures.reliability;
                    tr {
                        td { (scenario.title) }
                        td class="n" { (share(&figures.marks.passed)) }
                        td class="n" { (format!("{:.1} ± {:.1}", figures.marks.mean, figures.marks.sd)) }
                        td class="n" { (value(found.alpha, 2)) }
                        td class="n" { (value(found.kr20, 2)) }
                        td class="n" { (value(found.parallel, 2)) }
                        td class="n" { (value(found.kappa, 2)) }
                        td class="n" { (figures.volumes.get(1).map_or_else(unknown, |one| share(&one.passed_off))) }
                        td class="n" { (NumberFormat::Plain(0).write_known(figures.pass_mark)) }
                        td class="n" { (value(figures.proposed.map(|one| one.pass_mark), 0)) }
                    }
                }
            }
        }
    }
}

/// The marks of all people and of each group.
pub fn groups(figures: &PeopleFigures) -> Markup {
    let all = [("all people", &figures.marks)].into_iter();
    let rows = all.chain(figures.groups.iter().map(|group| match group.group {
        PersonGroup::Trained => ("trained", &group.marks),
        PersonGroup::Careless => ("careless", &group.marks),
    }));
    html! {
        table {
            thead {
                tr {
                    th { "people" } th class="n" { "passed, %" } th class="n" { "of" } th class="n" { "marks" }
                    @for percent in [5, 25, 50, 75, 95] { th class="n" { (percent) " % below" } }
                }
            }
            tbody {
                @for (name, marks) in rows {
                    tr {
                        td { (name) }
                        td class="n" { (share(&marks.passed)) }
                        td class="n" { (marks.passed.of) }
                        td class="n" { (format!("{:.1} ± {:.1}", marks.mean, marks.sd)) }
                        @for index in 0..5 {
                            td class="n" {
                                (NumberFormat::Plain(1).write_known(marks.percentiles.and_then(|all| all.get(index).copied())))
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Reliability of marks and decision.
pub fn reliability(figures: &PeopleFigures) -> Markup {
    let found = &figures.reliability;
    let kr20 = format!("KR-20 over {} rules, {} people", found.kr20_items, found.kr20_people);
    let rows = [
        ("Cronbach's alpha over the six parts".to_owned(), value(found.alpha, 2)),
        (kr20, value(found.kr20, 2)),
        ("correlation of both sittings".to_owned(), value(found.parallel, 2)),
        (
            "standard error of measurement between sittings, marks".to_owned(),
            value(found.error_by_sittings, 1),
        ),
        (
            "standard error of measurement by alpha, marks".to_owned(),
            NumberFormat::Plain(1).write_known(found.error_by_alpha),
        ),
        ("the same decision in both sittings, %".to_owned(), share(&found.agreement)),
        ("Cohen's kappa of the decision".to_owned(), value(found.kappa, 2)),
    ];
    html! {
        table {
            tbody {
                @for (name, value) in rows { tr { td { (name) } td class="n" { (value) } } }
            }
        }
    }
}

/// False passes and false fails.
pub fn volumes(volumes: &[VolumeFigures]) -> Markup {
    html! {
        table {
            thead {
                tr {
                    th class="n" { "volume off by more than, %" }
                    th class="n" { "of those who pass, %" } th class="n" { "who pass" }
                    th class="n" { "of those whose volume is not: fail, %" } th class="n" { "whose volume is not" }
                }
            }
            tbody {
                @for one in volumes {
                    tr {
                        td class="n" { (format!("{:.0}", one.off_by_more_than_pct)) }
                        td class="n" { (share(&one.passed_off)) }
                        td class="n" { (one.passed_off.of) }
                        td class="n" { (share(&one.good_failed)) }
                        td class="n" { (one.good_failed.of) }
                    }
                }
            }
        }
    }
}

/// The pass mark that costs least.
pub fn proposed(figures: &PeopleFigures) -> Markup {
    let Some(proposed) = &figures.proposed else {
        return html! { p { "No volume follows from any sitting, so no pass mark can be proposed." } };
    };
    html! {
        p {
            "The loss is least at a pass mark of " strong { (value(Some(proposed.pass_mark), 0)) } ": "
            (format!("{:.3}", proposed.loss)) " for each person; at the scenario's own it is "
            (format!("{:.3}", proposed.loss_at_own)) "."
        }
    }
}

/// Every rule that tells people apart.
pub fn items(figures: &PeopleFigures) -> Markup {
    let apart = |item: &&ItemFigures| item.discrimination.is_some();
    html! {
        p {
            "Difficulty: share of those who reached the rule and kept it. Discrimination: correlation with the "
            "marks, without the parts to which the rule contributes. Slope, location and information are those "
            "of the two-parameter logistic model of " (figures.items.fitted_people) " people; information at the "
            "ability that the pass mark asks for. Rules that all kept, or none, tell nobody apart and are left out."
        }
        table {
            thead {
                tr {
                    th { "rule" } th class="n" { "reached" } th class="n" { "difficulty" }
                    th class="n" { "discrimination" } th class="n" { "slope" } th class="n" { "location" }
                    th class="n" { "information" }
                }
            }
            tbody {
                @for item in figures.items.items.iter().filter(apart) {
                    tr {
                        td { (item.title) div class="hash" { (item.rule) } }
                        td class="n" { (item.reached) }
                        td class="n" { (format!("{:.3}", item.difficulty.interval.share)) }
                        td class="n" { (value(item.discrimination, 2)) }
                        td class="n" { (NumberFormat::Signed(2).write_known(item.slope)) }
                        td class="n" { (NumberFormat::Signed(2).write_known(item.location)) }
                        td class="n" { (NumberFormat::Plain(2).write_known(item.information)) }
                    }
                }
            }
        }
    }
}

fn unknown() -> String {
    UNKNOWN.to_owned()
}

/// A share with its interval, in percent.
fn share(share: &Share) -> String {
    let interval = share.interval;
    if share.of == 0 {
        return unknown();
    }
    let [at, low, high] =
        [interval.share, interval.low, interval.high].map(|one| format!("{:.1}", 100.0 * one));
    format!("{at} ({low} to {high})")
}

/// A figure with its interval.
fn value(estimate: Option<Estimate>, decimals: usize) -> String {
    let write = |value: f64| NumberFormat::Plain(decimals).write(value);
    match estimate {
        None => unknown(),
        Some(Estimate { value, low: Some(low), high: Some(high) }) => {
            format!("{} ({} to {})", write(value), write(low), write(high))
        }
        Some(Estimate { value, .. }) => write(value),
    }
}
