//! Every picture: each shows something, and something of its own.

use paint::{loupe, still};
use sim_core::rig::recorder::RecorderKind;
use sim_core::session::action::{Action, Sight};

use super::looked_at::LookedAt;
use super::run;

#[test]
fn pictures_can_be_looked_at() {
    let mut looked = LookedAt::new();
    let mut session = run::mounted();
    for (opening, label) in [(0.7, "1"), (0.5, "2")] {
        session.act(Action::TurnKnob { opening }).unwrap();
        session.wait(200.0).unwrap();
        session.act(Action::MarkChart { label: label.into() }).unwrap();
    }
    for sight in run::SIGHTS {
        let view = run::looking(&mut session, sight, 0.0);
        for (side_px, text_scale) in [(210, 1.0), (280, 1.0), (560, 1.0), (420, 2.0)] {
            let picture = loupe::paint(&view, &session.papers(), side_px, text_scale);
            let name = format!("{sight:?}_{side_px}_text_{text_scale}");
            looked.at(&name, picture.data(), || picture.encode_png().unwrap());
        }
    }
    let mut view = session.view();
    view.focus = Sight::Pen;
    for scale in [RecorderKind::SquareRoot, RecorderKind::Linear] {
        view.recorder.scale = scale;
        let whole = still::whole(&view, 1.0, 0.3);
        looked.at(&format!("whole_{scale:?}"), whole.data(), || whole.encode_png().unwrap());
        let picture = loupe::paint(&view, &session.papers(), 420, 1.0);
        looked.at(&format!("pen_{scale:?}"), picture.data(), || picture.encode_png().unwrap());
    }
    assert_eq!(looked.count(), 4 * run::SIGHTS.len() + 4);
}

/// The paper of one recorder is not shown on another that stands in the same place.
#[test]
fn a_chart_in_the_scene_is_ruled_as_its_recorder_asks() {
    let session = run::mounted();
    let mut view = session.view();
    view.recorder.trace.clear();
    view.recorder.pen = None;
    let mut paint = |scale| {
        view.recorder.scale = scale;
        still::whole(&view, 1.0, 0.3).take()
    };
    let [root, even, again] =
        [RecorderKind::SquareRoot, RecorderKind::Linear, RecorderKind::SquareRoot].map(&mut paint);
    assert!(root != even, "an evenly graduated recorder has a square-root chart");
    assert!(root == again);
}
