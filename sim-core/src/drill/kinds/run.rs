//! What is read after a run: its chart, and the elapsed-time meter.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Counted, Drawn, Truth};
use super::super::error::DrawError;
use super::super::kind::DrillKind;
use super::super::seen::{Asked, DrillLook};
use super::super::slip::DrillSlip;
use crate::rig::parts::Trip;
use crate::session::Session;
use crate::session::action::{Action, Sight};

/// A pen below this drew no run, chart divisions.
const DRAWS: f64 = 10.0;
/// Readings that a chart of a run has: farther in, its circles crowd, and no sample is drawn there.
const READS: (f64, f64) = (40.0, 92.0);
/// Hour of the dial at which the run is switched off: with the longest power cut it still ends within the day.
const ENDS_H: f64 = 20.0;
/// Fewest hours with a trace.
const FEWEST_HOURS: usize = 18;
/// Runs that are tried until one leaves a trace that can be read.
const TRIED: u32 = 24;
/// Tenths of a minute on the meter, below which all drums have a figure that matters.
const METER_TENTHS: u64 = 600_000;
/// A step that visits every reading of the meter once before any comes again.
const METER_STEP: u64 = 271_829;

/// A run as the scenario orders it.
const RUN: &str = r#"run: (on: (day: 1, at: "00:00"), off: (day: 2, at: "00:00"), back: (day: 2, at: "08:00"),
        filters: [(number: "F-0001", mass_g: 4.1312), (number: "F-0002", mass_g: 4.0977)]),"#;

/// The mean of the trace of a run.
pub(super) fn chart_mean(draw: &mut Draw) -> Result<Drawn, DrawError> {
    for _ in 0..TRIED {
        let written =
            Written { faults: faults(draw), entries: RUN.to_owned(), ..Written::default() };
        let (mut session, _) = bench::begin(draw, &written)?;
        let (turns, divisions) = (draw.between(-1.2, 1.5), draw.between(-4.0, 4.0));
        let hours = hourly(&run(&mut session, turns, divisions)?);
        let reads = |hour: &f64| (READS.0..=READS.1).contains(hour);
        if hours.len() < FEWEST_HOURS || !hours.iter().all(reads) {
            continue;
        }
        let truth = mean(&hours);
        bench::act_all(&mut session, [Action::Look { at: Sight::Recorder, eye_mm: 0.0 }]);
        let looks = vec![DrillLook { at_s: 0.0, view: session.view() }];
        return Ok(Drawn::of(session, Asked::ChartMean, looks, truth));
    }
    Err(DrawError::new("no run leaves a trace that can be read"))
}

/// What happened during the run: power that failed, dust that clogged the filter, a controller that
/// drifted, or nothing.
fn faults(draw: &mut Draw) -> String {
    let mut faults = Vec::new();
    if draw.happens(0.4) {
        let (minutes, after) = (draw.between(75.0, 235.0), draw.between(2.0, 18.0));
        faults.push(format!(
            "(fault: PowerCut(minutes: {minutes:?}), onset: AfterRunHours({after:?}))"
        ));
    }
    if draw.happens(0.4) {
        let (factor, after) = (draw.between(40.0, 300.0), draw.between(2.0, 14.0));
        faults.push(format!(
            "(fault: FilterClogs(factor: {factor:?}), onset: AfterRunHours({after:?}))"
        ));
    }
    if draw.happens(0.5) {
        let (by, after) = (draw.side() * draw.between(0.5, 1.2), draw.between(4.0, 18.0));
        faults.push(format!(
            "(fault: ControllerDrifts(k_h: {by:?}), onset: AfterRunHours({after:?}))"
        ));
    }
    faults.join(", ")
}

/// The mean of what is read hour by hour, and what slips make of it.
fn mean(hours: &[f64]) -> Truth {
    let sum: f64 = hours.iter().sum();
    let (low, high) =
        hours.iter().fold((f64::MAX, f64::MIN), |(low, high), &one| (low.min(one), high.max(one)));
    let (first, last) = (hours.first().copied(), hours.last().copied());
    let slips = vec![
        (DrillSlip::FirstHour, first.unwrap_or_default()),
        (DrillSlip::LastHour, last.unwrap_or_default()),
        (DrillSlip::MiddleOfExtremes, 0.5 * (low + high)),
        (DrillSlip::EmptyHours, sum / 24.0),
    ];
    Truth::Number { value: sum / hours.len() as f64, counted: Counted::Plainly, slips }
}

/// Lets the sampler run by its timer as it was found, and takes the chart off: its trace.
fn run(session: &mut Session, turns: f64, divisions: f64) -> Result<Vec<(f64, f64)>, DrawError> {
    let view = session.view();
    let (day, hours) = (view.date.weekday(), view.time.hours());
    bench::act_all(
        session,
        [
            Action::OpenDoor,
            Action::UncapPen,
            Action::SetPenZero { by: divisions },
            Action::FitChart,
            Action::LowerPen,
            Action::CloseDoor,
            Action::TurnTrim { turns },
            Action::SetDial { weekday: day, hours },
            Action::SetTripper { trip: Trip::On, weekday: (day + 1) % 7, hours: 0.0 },
            // After a power cut the run ends later by as long, and must not come round to its beginning.
            Action::SetTripper { trip: Trip::Off, weekday: (day + 1) % 7, hours: ENDS_H },
        ],
    );
    session.leave_site().map_err(DrawError::new)?;
    bench::act_all(session, [Action::OpenDoor, Action::LiftPen, Action::TakeChart]);
    let kept = session.view().run.and_then(|run| run.kept_chart);
    kept.ok_or_else(|| DrawError::new("no chart was kept"))
}

/// The trace at the middle of each hour that has one, as a chart is read.
fn hourly(trace: &[(f64, f64)]) -> Vec<f64> {
    (0..24_u32)
        .filter_map(|hour| {
            let middle = f64::from(hour) + 0.5;
            let drawn = |&&(at, pen): &&(f64, f64)| (at - middle).abs() < 0.06 && pen > DRAWS;
            trace.iter().find(drawn).map(|&(_, pen)| pen)
        })
        .collect()
}

/// The elapsed-time meter.
pub(super) fn elapsed_time(draw: &mut Draw, seed: u64, number: u32) -> Result<Drawn, DrawError> {
    let written = Written { entries: RUN.to_owned(), ..Written::default() };
    let (mut session, _) = bench::begin(draw, &written)?;
    bench::act_all(&mut session, [Action::Look { at: Sight::Timer, eye_mm: 0.0 }]);
    let mut view = session.view();
    let run = view.run.as_mut().ok_or_else(|| DrawError::new("no run is ordered"))?;
    // A meter has few readings: drawn by lot, two of two hundred would often be alike.
    let step = (u64::from(number) + 1).wrapping_mul(METER_STEP);
    let first = Draw::of(DrillKind::ElapsedTime, seed, u32::MAX).below(METER_TENTHS);
    let tenths = (first + step) % METER_TENTHS;
    run.timer.meter_min = tenths as f64 / 10.0;
    let value = run.timer.meter_min;
    let mut slips = vec![
        (DrillSlip::TenthsAsMinutes, tenths as f64),
        (DrillSlip::TenthsLeftOut, value.floor()),
    ];
    let mut place = 1;
    while place * 10 <= METER_TENTHS {
        let (low, high) = (tenths / place % 10, tenths / (place * 10) % 10);
        let others = tenths - low * place - high * place * 10;
        let exchanged = others + high * place + low * place * 10;
        slips.push((DrillSlip::DigitsExchanged, exchanged as f64 / 10.0));
        place *= 10;
    }
    slips.push((DrillSlip::NeighbouringDivision, value - 0.1));
    slips.push((DrillSlip::NeighbouringDivision, value + 0.1));
    slips.push((DrillSlip::WrongNumber, value - 1.0));
    slips.push((DrillSlip::WrongNumber, value + 1.0));
    let truth = Truth::Number { value, counted: Counted::Plainly, slips };
    Ok(Drawn::of(session, Asked::ElapsedTime, vec![DrillLook { at_s: 0.0, view }], truth))
}
