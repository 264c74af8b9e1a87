//! Cases for loading, recovering, and the volume, on a session with a run.

use super::Case;
use crate::field_book::{Field, PointNumber};
use crate::procedure::test_bench::{TestSession, writes, writes_of_run};
use crate::rig::parts::{BlowerPlug, FilterSide, PartPlace, RigPart, Seat, TimerSwitch, Trip};
use crate::rig::recorder::RecorderKind;
use crate::session::action::{Action, Decision};
use crate::session::ground_truth::RunGroundTruth;

/// Changes the truth about the run before the operator left the site.
fn before_leaving(session: &mut TestSession, change: impl Fn(&mut RunGroundTruth)) {
    session.in_run(|run| {
        if !run.left {
            change(run);
        }
    });
}

/// Changes the rest of the truth at the moment of departure.
fn at_leaving(
    session: &mut TestSession,
    change: impl Fn(&mut crate::session::ground_truth::GroundTruth),
) {
    session.at(|action| matches!(action, Action::LeaveSite), change);
}

/// Changes what the run actually sampled.
fn drawn(
    session: &mut TestSession,
    change: impl Fn(&mut crate::session::ground_truth::SampleTruth),
) {
    session.in_run(|run| {
        if let Some(truth) = &mut run.truth {
            change(truth);
        }
    });
}

/// Lets nobody leave for a run, so that the filter stays on the holder.
fn not_made(session: &mut TestSession) {
    session.without(|action| matches!(action, Action::LeaveSite) || writes_of_run(action));
    session.in_run(|run| (run.left, run.back, run.truth) = (false, false, None));
    session.end.places[RigPart::Filter as usize] = PartPlace::Holder;
}

/// Scales a number that was written.
fn scale(session: &mut TestSession, field: Field, by: f64) {
    let number = session.book_number(field) * by;
    session.rewrite(field, &format!("{number:.1}"));
}

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "run-made",
        breaks: not_made,
        keeps: |session| {
            session.refuse();
            session.setup.faults.push((
                crate::fault::Fault::PlateWarped { leak_mm2: 10.0 },
                crate::fault::Onset::Start,
            ));
            session.always(|facts| {
                facts.faults = vec![crate::fault::Fault::PlateWarped { leak_mm2: 10.0 }];
            });
            session.report(
                crate::session::action::FaultPlace::Mounting,
                crate::session::action::Response::Rejected,
            );
            not_made(session);
        },
        also: &[],
    },
    Case {
        rule: "filter-fitted",
        breaks: |session| {
            at_leaving(session, |facts| facts.places[RigPart::Filter as usize] = PartPlace::Case);
        },
        keeps: |session| session.in_run(|run| run.sheet.number = 1),
        also: &[],
    },
    Case {
        rule: "filter-inspected",
        breaks: |session| session.in_run(|run| run.sheet.seen_through = false),
        keeps: |session| session.without(|action| matches!(action, Action::HoldToLight)),
        also: &[],
    },
    Case {
        rule: "filter-sound",
        breaks: |session| session.in_run(|run| run.sheet.holes_mm2 = 3.0),
        keeps: |session| session.in_run(|run| run.sheet.wetness = 1.05),
        also: &[],
    },
    Case {
        rule: "filter-by-edges",
        breaks: |session| session.in_run(|run| run.sheet.thumbs = 1),
        keeps: |session| {
            session.setup.work_order.run = session.setup.work_order.run.take();
        },
        also: &[],
    },
    Case {
        rule: "filter-rough-up",
        breaks: |session| {
            session.in_run(|run| {
                run.sheet.up = FilterSide::Smooth;
                run.sheet.folded_out = run.sheet.folded_out.map(|_| FilterSide::Rough);
            });
        },
        keeps: |session| {
            session.insert_after(|action| matches!(action, Action::HoldToLight), Action::TurnFilter)
        },
        also: &[],
    },
    Case {
        rule: "filter-centred",
        breaks: |session| session.in_run(|run| run.sheet.seat = Seat::Shifted),
        keeps: |session| {
            session
                .insert_after(|action| matches!(action, Action::HoldToLight), Action::CentreFilter)
        },
        also: &[],
    },
    Case {
        rule: "frame-tight",
        breaks: |session| at_leaving(session, |facts| facts.nut_turns[2] = 3),
        keeps: |session| at_leaving(session, |facts| facts.nut_turns[2] = 6),
        also: &[],
    },
    Case {
        rule: "set-on-warm-blower",
        breaks: |session| {
            session.at(|action| writes(action, Field::StartChart), |facts| facts.running_s = 90.0);
        },
        keeps: |session| {
            session.at(|action| writes(action, Field::StartChart), |facts| facts.running_s = 300.0);
        },
        also: &[],
    },
    Case {
        rule: "trimmed-to-set-point",
        breaks: |session| {
            let off = session.book_number(Field::StartChart) + 2.0;
            session.rewrite(Field::StartChart, &format!("{off:.1}"));
            session.at(|action| writes(action, Field::StartChart), |facts| facts.pen += 2.0);
        },
        keeps: |session| {
            let near = session.book_number(Field::StartChart) + 0.5;
            session.rewrite(Field::StartChart, &format!("{near:.1}"));
        },
        also: &[],
    },
    Case {
        rule: "timer-as-ordered",
        breaks: |session| before_leaving(session, |run| run.dial_ahead_min = -95.0),
        keeps: |session| {
            before_leaving(session, |run| {
                run.dial_ahead_min = 8.0;
                run.trippers = [(None, 0.0), (Some(2), 0.1)];
            })
        },
        also: &[],
    },
    Case {
        rule: "timer-in-charge",
        breaks: |session| before_leaving(session, |run| run.timer_switch = TimerSwitch::On),
        keeps: |session| {
            session.insert_after(
                |action| matches!(action, Action::SetTripper { trip: Trip::Off, .. }),
                Action::FastenTripper { trip: Trip::Off },
            );
            session.always(|facts| {
                if facts.blower_plug == BlowerPlug::Loose {
                    facts.blower_plug = BlowerPlug::Controller;
                }
            });
        },
        also: &[],
    },
    Case {
        rule: "chart-at-hour",
        breaks: |session| before_leaving(session, |run| run.chart_ahead_min = -25.0),
        keeps: |session| {
            before_leaving(session, |run| {
                run.chart_ahead_min = 9.0;
                run.chart_ink = 30;
            })
        },
        also: &[],
    },
    Case {
        rule: "pen-ready",
        breaks: |session| at_leaving(session, |facts| facts.on_paper = false),
        // At other moments it may be lifted.
        keeps: |session| {
            session.at(
                |action| matches!(action, Action::SetTripper { .. }),
                |facts| facts.on_paper = false,
            )
        },
        also: &[],
    },
    Case {
        rule: "doors-shut",
        breaks: |session| at_leaving(session, |facts| facts.lid_open = true),
        keeps: |session| {
            session.at(
                |action| matches!(action, Action::SetTripper { .. }),
                |facts| facts.lid_open = true,
            )
        },
        also: &[],
    },
    Case {
        rule: "meter-before",
        breaks: |session| before_leaving(session, |run| run.meter_min += 6.0),
        keeps: |session| before_leaving(session, |run| run.meter_min += 0.4),
        also: &[],
    },
    Case {
        rule: "meter-after",
        breaks: |session| {
            scale(session, Field::MeterAfter, 1.003);
            scale(session, Field::RunMinutes, 1447.3 / 1440.0);
            scale(session, Field::Volume, 1447.3 / 1440.0);
            scale(session, Field::Concentration, 1440.0 / 1447.3);
        },
        keeps: |session| scale(session, Field::MeterAfter, 1.0002),
        also: &[],
    },
    Case {
        rule: "end-reading",
        breaks: |session| {
            session.at(|action| writes(action, Field::EndChart), |facts| facts.running_s = 20.0);
        },
        keeps: |session| {
            session.at(|action| writes(action, Field::EndChart), |facts| facts.running_s = 300.0);
        },
        also: &[],
    },
    Case {
        rule: "chart-kept",
        breaks: |session| session.in_run(|run| run.chart_kept = false),
        keeps: |session| session.without(|action| matches!(action, Action::TakeChart)),
        also: &[],
    },
    Case {
        rule: "filter-folded",
        breaks: |session| {
            session.in_run(|run| {
                run.sheet.folded_out = run.sheet.folded_out.map(|_| FilterSide::Rough);
            })
        },
        keeps: |session| session.without(|action| matches!(action, Action::FoldFilter { .. })),
        also: &[],
    },
    Case {
        rule: "custody-written",
        breaks: |session| session.rewrite(Field::FilterNumber, "F-2"),
        keeps: |session| session.rewrite(Field::FilterNumber, "f-1 "),
        also: &[],
    },
    Case {
        rule: "run-minutes",
        breaks: |session| {
            session.in_run(|run| {
                if run.left {
                    run.meter_min -= 20.0;
                }
            });
            drawn(session, |truth| truth.powered_min -= 20.0);
            session.rewrite(Field::MeterAfter, "2420.0");
        },
        keeps: |session| scale(session, Field::RunMinutes, 1.0005),
        also: &[],
    },
    Case {
        rule: "mean-chart",
        breaks: |session| drawn(session, |truth| truth.mean_pen -= 1.5),
        keeps: |session| drawn(session, |truth| truth.mean_pen -= 0.9),
        also: &[],
    },
    Case {
        rule: "run-air",
        breaks: |session| drawn(session, |truth| truth.mean_temperature_c -= 4.0),
        keeps: |session| drawn(session, |truth| truth.mean_pressure_mmhg += 2.5),
        also: &[],
    },
    Case {
        rule: "run-volume",
        breaks: |session| {
            scale(session, Field::Volume, 1.01);
            scale(session, Field::Concentration, 1.0 / 1.01);
        },
        keeps: |session| scale(session, Field::Volume, 1.001),
        also: &[],
    },
    Case {
        rule: "run-split",
        breaks: |session| {
            session.setup.rig.recorder.kind = RecorderKind::Linear;
            drawn(session, |truth| truth.lowest_std_m3_min *= 0.8);
        },
        keeps: |session| {
            // On a square-root chart neither way is wrong; the parts are right as well.
            drawn(session, |truth| truth.lowest_std_m3_min *= 0.8);
            let chart = session.book_number(Field::MeanChart);
            for part in PointNumber::all().take(2) {
                for (field, text) in [
                    (Field::PartChart(part), format!("{chart:.1}")),
                    (Field::PartMinutes(part), "720".to_owned()),
                ] {
                    session.insert_after(
                        |action| writes(action, Field::MeanChart),
                        Action::Write { field, text },
                    );
                }
            }
        },
        // The line of this bench is that of another chart.
        also: &["chart-expression", "last-line", "decision-sound", "set-point", "run-volume"],
    },
    Case {
        rule: "concentration",
        breaks: |session| scale(session, Field::Concentration, 1.1),
        keeps: |session| scale(session, Field::Concentration, 1.002),
        also: &[],
    },
    Case {
        rule: "validity-judged",
        breaks: |session| session.decide(Decision::SampleNotValid, "it looks odd"),
        keeps: |session| {
            // Near a limit, either decision is right.
            drawn(session, |truth| truth.mean_flow_std_m3_min = 1.11);
            session.decide(Decision::SampleNotValid, "the flow is at its limit");
        },
        also: &[],
    },
];
