//! Meter and chart of a 24-hour run, read from their pictures.

use paint::loupe::{self, Gaze, KeptChart};
use paint::still;
use sim_core::session::Session;
use sim_core::session::action::{Action, Sight};
use sim_core::session::journal::NullSink;

use super::looked_at::LookedAt;
use super::picture::Picture;
use super::{SIDES_PX, read, run};

const WITH_A_RUN: &str = include_str!("../../../scenarios/27_from_set_point_to_volume.ron");

/// A session in which the sampler is left to a run as it was found, and its chart kept.
fn after_a_run() -> Session {
    let mut session = Session::begin(WITH_A_RUN, 3, Box::new(NullSink)).unwrap();
    let before = session.view().run.unwrap().timer;
    let day = session.view().date.weekday();
    let mut acts = vec![
        Action::OpenDoor,
        Action::UncapPen,
        Action::FitChart,
        Action::LowerPen,
        Action::CloseDoor,
        Action::SetDial { weekday: day, hours: session.view().time.hours() },
    ];
    use sim_core::rig::parts::Trip;
    for (trip, day) in [(Trip::On, day + 1), (Trip::Off, day + 2)] {
        acts.push(Action::SetTripper { trip, weekday: day % 7, hours: before.on.hours });
    }
    for action in acts {
        // What is already so is refused, and needs no doing.
        let _ = session.act(action);
    }
    session.leave_site().unwrap();
    for action in [Action::OpenDoor, Action::LiftPen, Action::TakeChart] {
        session.act(action).unwrap();
    }
    session
}

#[test]
fn the_meter_is_read_to_its_tenth() {
    let session = after_a_run();
    let mut view = session.view();
    view.focus = Sight::Timer;
    for meter_min in [0.0, 7.3, 1_440.1, 12_345.6, 98_760.9, 654_321.8] {
        if let Some(run) = &mut view.run {
            run.timer.meter_min = meter_min;
        }
        for side_px in SIDES_PX {
            let picture = loupe::paint(&view, &session.papers(), side_px, 1.0);
            let read = read::meter(&Picture::new(picture.data()));
            assert!((read - meter_min).abs() < 0.05, "{meter_min} at {side_px} px: read {read}");
        }
    }
}

#[test]
fn the_mean_of_the_trace_is_read_within_a_quarter_of_a_division() {
    let session = after_a_run();
    let mut view = session.view();
    view.focus = Sight::Recorder;
    let trace = view.run.as_ref().and_then(|run| run.kept_chart.clone()).expect("it is kept");
    for side_px in SIDES_PX {
        let (mut read_sum, mut sum, mut worst) = (0.0, 0.0, 0.0_f64);
        for hour in 0..24_u32 {
            let middle = f64::from(hour) + 0.5;
            let inked = |&&(at, pen): &&(f64, f64)| (at - middle).abs() < 0.06 && pen > 10.0;
            let stands = trace.iter().find(inked).expect("the pen drew the run").1;
            let gaze = Gaze::on(&view).holding(Some(KeptChart::Hour(middle)));
            let picture = loupe::paint_from(gaze, &view, &session.papers(), side_px, 1.0);
            let read = read::trace(&Picture::new(picture.data()), stands);
            (read_sum, sum) = (read_sum + read, sum + stands);
            worst = worst.max((read - stands).abs());
        }
        println!("at {side_px} px the worst reading of the trace is off by {worst:.3} divisions");
        let off = (read_sum - sum).abs() / 24.0;
        assert!(off < 0.25 && worst < 0.75, "at {side_px} px: mean off {off}, worst {worst}");
    }
}

#[test]
fn pictures_of_a_run_can_be_looked_at() {
    let mut looked = LookedAt::new();
    let mut session = after_a_run();
    let whole = still::whole(&session.view(), 1.0, 0.3);
    looked.at("run_whole", whole.data(), || whole.encode_png().unwrap());
    let mut look = |session: &Session, gaze: Gaze, name: &str| {
        let picture = loupe::paint_from(gaze, &session.view(), &session.papers(), 420, 1.0);
        looked.at(&format!("run_{name}"), picture.data(), || picture.encode_png().unwrap());
    };
    for (sight, name) in [(Sight::Timer, "timer"), (Sight::WeatherSheet, "weather")] {
        let view = run::looking(&mut session, sight, 0.0);
        look(&session, Gaze::on(&view), name);
    }
    let view = run::looking(&mut session, Sight::Recorder, 0.0);
    for (held, name) in [(KeptChart::Whole, "chart"), (KeptChart::Hour(13.5), "chart_hour")] {
        look(&session, Gaze::on(&view).holding(Some(held)), name);
    }
    let mut view = run::looking(&mut session, Sight::Filter, 0.0);
    use sim_core::rig::parts::{FilterSide, Grip, PartPlace, RigPart, Seat};
    use sim_core::session::view::run::{Holes, LabMasses};
    let places = [
        (PartPlace::Holder, "holder"),
        (PartPlace::Hand, "light"),
        (PartPlace::Hand, "face"),
        (PartPlace::Hand, "folded"),
        (PartPlace::Case, "envelope"),
    ];
    for (place, name) in places {
        view.mounting.places[RigPart::Filter as usize] = place;
        view.mounting.lid_open = true;
        let run = view.run.as_mut().expect("a run");
        run.filter.number = Some("F-26-0801".to_owned());
        run.filter.grip = match name {
            "light" => Some(Grip::Edges),
            "face" => Some(Grip::Face),
            _ => None,
        };
        run.filter.holes = (name == "light").then_some(Holes::Pinholes);
        run.filter.grey = 0.3;
        run.filter.seat = (name == "holder").then_some(Seat::Shifted);
        run.filter.folded_out = (name == "folded").then_some(FilterSide::Smooth);
        run.masses = Some(LabMasses { before_g: 4.1312, after_g: 4.2217 });
        let picture = loupe::paint(&view, &session.papers(), 420, 1.0);
        looked.at(&format!("run_filter_{name}"), picture.data(), || picture.encode_png().unwrap());
    }
    assert_eq!(looked.count(), 10);
}
