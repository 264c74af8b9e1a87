//! Every picture as a file, for people to look at: written into the folder that
//! `STEADY_DRAW_PICTURES` names, if it names one.

use std::path::PathBuf;

use sim_core::rig::recorder::RecorderKind;
use sim_core::session::action::{Action, Sight};
use steady_draw::paint::{loupe, still};

use super::run;

#[test]
fn pictures_can_be_looked_at() {
    let Some(folder) = std::env::var_os("STEADY_DRAW_PICTURES").map(PathBuf::from) else { return };
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
            let name = format!("{sight:?}_{side_px}_text_{text_scale}.png");
            std::fs::write(folder.join(name), picture.encode_png().unwrap()).unwrap();
        }
    }
    let mut view = session.view();
    view.focus = Sight::Pen;
    for scale in [RecorderKind::SquareRoot, RecorderKind::Linear] {
        view.recorder.scale = scale;
        let whole = still::whole(&view, 1.0, 0.3);
        std::fs::write(folder.join(format!("whole_{scale:?}.png")), whole.encode_png().unwrap())
            .unwrap();
        let picture = loupe::paint(&view, &session.papers(), 420, 1.0);
        std::fs::write(folder.join(format!("pen_{scale:?}.png")), picture.encode_png().unwrap())
            .unwrap();
    }
}
