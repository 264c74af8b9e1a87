//! Pictures to look at: written where `STEADY_DRAW_PICTURES` says, when it says so.

use sim_core::session::action::{Action, Sight};
use steady_draw::paint::{loupe, still};

use super::run;

#[test]
fn gallery() {
    let Ok(folder) = std::env::var("STEADY_DRAW_PICTURES") else { return };
    let mut session = run::mounted();
    session.act(Action::TurnKnob { opening: 0.7 }).unwrap();
    session.wait(180.0).unwrap();
    session.act(Action::MarkChart { label: "1".into() }).unwrap();
    session.act(Action::TurnKnob { opening: 0.5 }).unwrap();
    session.wait(240.0).unwrap();
    session.act(Action::MarkChart { label: "2".into() }).unwrap();
    let v = session.view();
    println!("{:?} {:?} {:?}", v.manometer, v.recorder.pen, v.recorder.on_paper);
    for (name, sight, eye) in [
        ("left", Sight::LeftLeg, 0.0),
        ("right", Sight::RightLeg, 120.0),
        ("below", Sight::LeftLeg, -120.0),
        ("manometer", Sight::Manometer, 0.0),
        ("pen", Sight::Pen, 0.0),
        ("barometer", Sight::Barometer, 0.0),
        ("thermometer", Sight::Thermometer, 0.0),
        ("calibrator", Sight::Calibrator, 0.0),
        ("holder", Sight::Holder, 0.0),
        ("tube", Sight::Tube, 0.0),
        ("order", Sight::WorkOrder, 0.0),
        ("certificate", Sight::Certificate(0), 0.0),
        ("sky", Sight::Sky, 0.0),
        ("recorder", Sight::Recorder, 0.0),
        ("controller", Sight::Controller, 0.0),
        ("timer", Sight::Timer, 0.0),
        ("plugs", Sight::Plugs, 0.0),
        ("edge", Sight::RoofEdge, 0.0),
        ("blower", Sight::Blower, 0.0),
        ("watch", Sight::Watch, 0.0),
        ("filter", Sight::Filter, 0.0),
        ("station", Sight::Station, 0.0),
    ] {
        let view = run::looking(&mut session, sight, eye);
        for size in [280_u32, 560] {
            let t = std::time::Instant::now();
            let picture =
                loupe::paint(&view, &session.papers(), size, (size / 280) as f32 * 0.0 + 1.0);
            let first = t.elapsed();
            let t = std::time::Instant::now();
            for _ in 0..5 {
                loupe::paint(&view, &session.papers(), size, 1.0);
            }
            println!("{name} {size} first {first:?} then {:?}", t.elapsed() / 5);
            std::fs::write(format!("{folder}/{name}_{size}.png"), picture.encode_png().unwrap())
                .unwrap();
        }
        if let Sight::WorkOrder | Sight::Certificate(_) = sight {
            let p = loupe::page(sight, &session.papers(), 500, 1.0);
            std::fs::write(format!("{folder}/{name}_page.png"), p.encode_png().unwrap()).unwrap();
        }
    }
    let view = session.view();
    let t = std::time::Instant::now();
    let p = still::whole(&view, 1.0, 0.3);
    println!("whole {:?}", t.elapsed());
    std::fs::write(format!("{folder}/whole.png"), p.encode_png().unwrap()).unwrap();
    for m in steady_draw::paint::moving::all(&view, 1.0, 0.3) {
        let t = std::time::Instant::now();
        let again = steady_draw::paint::moving::paint(m.group, &view, 1.0, 0.3);
        println!("{:?} {:?}", m.group, t.elapsed());
        assert_eq!(again.picture.data(), m.picture.data());
    }
}
