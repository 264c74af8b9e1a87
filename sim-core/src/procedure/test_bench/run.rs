//! The careful session of the tests, continued through a run.

use super::work::{Worker, careful};
use super::{PRESSURE, TEMPERATURE, TestSession, chart_of, factor, writes};
use crate::field_book::Field;
use crate::procedure::Ending;
use crate::rig::flow::filter::FilterSheet;
use crate::rig::parts::{
    BlowerPlug, FilterSide, Grip, PartPlace, RigPart, Seat, TimerSwitch, Trip, WasherSeat,
};
use crate::scenario::run::{FilterEntry, NextRunOrder, ScheduledTime};
use crate::scenario::setup::{AddedFiltersOrder, RunOrder};
use crate::session::action::{Action, Decision, Sight};
use crate::session::ground_truth::{RunGroundTruth, SampleTruth};
use crate::time::TimeOfDay;

/// The flow of the run, m3/min.
const FLOW: f64 = 1.13;
/// Minutes of the run.
const MINUTES: f64 = 1440.0;
/// The elapsed-time meter before the run, min.
const METER: f64 = 1000.0;
/// Mass gain of the filter, g.
const GAINED_G: f64 = 0.0812;

fn order() -> RunOrder {
    let at = |day, hour| ScheduledTime { day, at: TimeOfDay::new(hour, 0, 0).unwrap() };
    RunOrder {
        on: at(1, 0),
        off: at(2, 0),
        back: at(2, 8),
        next: None,
        filters: vec![FilterEntry { number: "F-1".to_owned(), mass_g: 4.1 }],
        added_filters: None,
    }
}

fn before_run() -> RunGroundTruth {
    RunGroundTruth {
        left: false,
        back: false,
        sheet: FilterSheet { seen_through: true, ..FilterSheet::fresh(1) },
        next_sheet: None,
        deposit_kg_m2: 0.0,
        added_filters: 0,
        timer_switch: TimerSwitch::Auto,
        // The session is on a Monday.
        trippers: [(Some(1), 0.0), (Some(2), 0.0)],
        tripper_loose: [false, false],
        dial_ahead_min: 0.0,
        meter_min: METER,
        chart_ahead_min: 0.0,
        chart_ink: 3,
        chart_kept: false,
        recorder_open: false,
        set_std_m3_min: FLOW,
        gained_g: None,
        truth: None,
    }
}

fn truth() -> SampleTruth {
    SampleTruth {
        volume_std_m3: FLOW * MINUTES,
        filtered_std_m3: FLOW * MINUTES,
        powered_min: MINUTES,
        starts: 1,
        lowest_std_m3_min: FLOW,
        highest_std_m3_min: FLOW,
        mean_flow_std_m3_min: FLOW,
        mean_pressure_mmhg: PRESSURE,
        mean_temperature_c: TEMPERATURE,
        mean_pen: chart_of(FLOW),
        mean_pen_at_rest: chart_of(FLOW),
    }
}

/// Changes the truth about the run at every moment and at the end.
impl TestSession {
    pub fn in_run(&mut self, change: impl Fn(&mut RunGroundTruth)) {
        self.always(|facts| {
            if let Some(run) = &mut facts.run {
                change(run);
            }
        });
    }
}

/// A session with a run, without a slip.
pub fn careful_run() -> TestSession {
    run_of(order())
}

/// A session with a run before which the controller is tested with two added filters, without a slip.
pub fn careful_added() -> TestSession {
    run_of(RunOrder {
        added_filters: Some(AddedFiltersOrder { sheets: 2, within_pct: 3.0 }),
        ..order()
    })
}

fn run_of(order: RunOrder) -> TestSession {
    let mut session = careful();
    session.setup.work_order.run = Some(order);
    let sign = session.events.pop().unwrap();
    let events = session.events.clone();
    let mut worker = Worker { facts: sign.before.clone(), tick: sign.tick.0, events };
    worker.facts.run = Some(before_run());
    loads(&mut worker, &session);
    recovers(&mut worker);
    works_out(&mut worker, &session);
    worker.does(Action::Sign, |_| ());
    TestSession {
        setup: session.setup,
        events: worker.events,
        end: worker.facts,
        ended: Ending::Signed,
    }
}

/// A session with a run and the sampler set up for the next one, without a slip.
pub fn careful_next() -> TestSession {
    let mut session = careful_run();
    if let Some(order) = &mut session.setup.work_order.run {
        let at = |day| ScheduledTime { day, at: TimeOfDay::new(0, 0, 0).unwrap() };
        order.next = Some(NextRunOrder { on: at(3), off: at(4) });
        order.filters.push(FilterEntry { number: "F-2".to_owned(), mass_g: 4.2 });
    }
    session.write(Field::NextFilterNumber, "F-2");
    let end = &mut session.end;
    (end.capped, end.on_paper) = (false, true);
    end.places[RigPart::Filter as usize] = PartPlace::Holder;
    if let Some(run) = &mut end.run {
        run.next_sheet = Some(FilterSheet { in_envelope: false, ..FilterSheet::fresh(2) });
        // The session is on a Monday.
        run.trippers = [(Some(3), 0.0), (Some(4), 0.0)];
    }
    session
}

fn loads(worker: &mut Worker, session: &TestSession) {
    worker.does(Action::UnplugSampler, |facts| facts.sampler_cord_in = false);
    worker.does(Action::TakeFilter { grip: Grip::Edges }, |_| ());
    worker.does(Action::HoldToLight, |_| ());
    worker.writes(Field::FilterNumber, "F-1");
    worker.does(Action::Put { place: PartPlace::Holder }, |facts| {
        facts.places[RigPart::Filter as usize] = PartPlace::Holder;
        facts.washer_above = [WasherSeat::Above; 4].map(|seat| seat == WasherSeat::Above);
    });
    worker.does(Action::PlugSampler, |facts| facts.sampler_cord_in = true);
    worker.does(Action::UncapPen, |facts| facts.capped = false);
    worker.does(Action::LowerPen, |facts| facts.on_paper = true);
    worker.flows(FLOW, Action::SwitchTimer { to: TimerSwitch::On });
    worker.does(Action::Wait { seconds: 310.0 }, |facts| {
        facts.blower_plug = BlowerPlug::Controller;
    });
    worker.waits(310.0);
    worker.does(Action::Tap, |facts| facts.taps += 1);
    worker.does(Action::Tap, |facts| facts.taps += 1);
    let set_point = session.book_number(Field::SetPoint);
    worker.does(Action::Look { at: Sight::Pen, eye_mm: 0.0 }, |facts| {
        (facts.pen, facts.pen_at_rest, facts.undisturbed_pen) = (set_point, set_point, set_point);
    });
    worker.writes(Field::StartChart, format!("{set_point:.1}"));
    worker.flows(0.0, Action::SwitchTimer { to: TimerSwitch::Off });
    if session.setup.work_order.added_filters().is_some() {
        adds_filters(worker, set_point);
    }
    for (trip, weekday) in [(Trip::On, 1), (Trip::Off, 2)] {
        worker.does(Action::SetTripper { trip, weekday, hours: 0.0 }, |_| ());
    }
    worker.writes(Field::MeterBefore, format!("{METER:.1}"));
    worker.does(Action::SwitchTimer { to: TimerSwitch::Auto }, |_| ());
    worker.does(Action::LeaveSite, |facts| {
        if let Some(run) = &mut facts.run {
            run.left = true;
            run.back = true;
            run.meter_min = METER + MINUTES;
            run.truth = Some(truth());
        }
    });
}

/// Reads the pen with a second and a third filter, which do not move it, and takes them off again.
fn adds_filters(worker: &mut Worker, pen: f64) {
    let stack = |worker: &mut Worker, action: Action, sheets: u8| {
        worker.does(Action::UnplugSampler, |facts| facts.sampler_cord_in = false);
        worker.does(action, |facts| {
            if let Some(run) = &mut facts.run {
                run.added_filters = sheets;
            }
        });
        worker.does(Action::PlugSampler, |facts| facts.sampler_cord_in = true);
    };
    for (sheets, chart) in [(1, Field::SecondFilterChart), (2, Field::ThirdFilterChart)] {
        stack(worker, Action::AddFilter, sheets);
        worker.flows(FLOW, Action::SwitchTimer { to: TimerSwitch::On });
        worker.waits(310.0);
        worker.does(Action::Tap, |facts| {
            facts.taps += 1;
            (facts.pen, facts.pen_at_rest, facts.undisturbed_pen) = (pen, pen, pen);
        });
        worker.looks(Sight::Pen);
        worker.writes(chart, format!("{pen:.1}"));
        worker.flows(0.0, Action::SwitchTimer { to: TimerSwitch::Off });
    }
    for sheets in [1, 0] {
        stack(worker, Action::RemoveAddedFilter, sheets);
    }
    worker.writes(Field::SecondFilterChange, "0.0");
    worker.writes(Field::ThirdFilterChange, "0.0");
    worker.writes(Field::FiltersHeld, "3");
}

fn recovers(worker: &mut Worker) {
    worker.looks(Sight::Timer);
    worker.writes(Field::MeterAfter, format!("{:.1}", METER + MINUTES));
    let run = |change: fn(&mut RunGroundTruth)| {
        move |facts: &mut crate::session::ground_truth::GroundTruth| {
            if let Some(run) = &mut facts.run {
                change(run);
            }
        }
    };
    worker.does(Action::TakeChart, run(|run| run.chart_kept = true));
    worker.flows(FLOW, Action::SwitchTimer { to: TimerSwitch::On });
    worker.waits(310.0);
    worker.looks(Sight::Pen);
    worker.writes(Field::EndChart, format!("{:.1}", chart_of(FLOW)));
    worker.flows(0.0, Action::SwitchTimer { to: TimerSwitch::Off });
    worker.does(Action::FoldFilter { out: FilterSide::Smooth }, |_| ());
    worker.does(
        Action::Put { place: PartPlace::Case },
        run(|run| {
            run.sheet.folded_out = Some(FilterSide::Smooth);
            run.sheet.in_envelope = true;
            run.sheet.seat = Seat::Centred;
            run.gained_g = Some(GAINED_G);
        }),
    );
    worker.does(Action::LiftPen, |facts| {
        facts.on_paper = false;
        facts.capped = true;
        facts.places[RigPart::Filter as usize] = PartPlace::Case;
    });
    worker.writes(Field::Custody, "F-1 to the laboratory");
}

fn works_out(worker: &mut Worker, session: &TestSession) {
    let chart = chart_of(FLOW);
    worker.writes(Field::RunMinutes, format!("{MINUTES:.0}"));
    worker.writes(Field::MeanChart, format!("{chart:.1}"));
    worker.writes(Field::RunPressure, PRESSURE.to_string());
    worker.writes(Field::RunTemperature, TEMPERATURE.to_string());
    let (slope, intercept) =
        (session.book_number(Field::Slope), session.book_number(Field::Intercept));
    let read: f64 = format!("{chart:.1}").parse().unwrap();
    let flow = (read * factor() - intercept) / slope;
    let volume: f64 = format!("{:.1}", flow * MINUTES).parse().unwrap();
    worker.writes(Field::RunFlow, format!("{flow:.3}"));
    worker.writes(Field::Volume, format!("{volume:.1}"));
    worker.writes(Field::Concentration, format!("{:.1}", GAINED_G * 1e6 / volume));
    worker.decides(Decision::SampleValid);
}

/// Whether an action writes one of the fields of a run.
pub fn writes_of_run(action: &Action) -> bool {
    Field::RUN.into_iter().any(|field| writes(action, field))
}
