//! A session as a strip: marks stand where their moments are, and truth only on asking.

use paint::palette::{self, PaletteColor};
use paint::strip::{ShowTruth, StripLayout, TimelineStrip, paint};
use sim_core::marking::time_line::{NoteKind, TimeLine, TimeScale};
use sim_core::marking::{Marks, mark};
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::ended_session::EndedSession;
use sim_core::session::history::History;
use sim_core::session::journal::NullSink;

use super::looked_at::LookedAt;

/// A session with everything that a strip of it needs.
struct Done {
    signed: EndedSession,
    marks: Marks,
    line: TimeLine,
    track: History,
}

impl Done {
    fn by(scenario: &str, operator: &str) -> Self {
        let path = bench_tests::repository().join("scenarios").join(scenario);
        let text = std::fs::read_to_string(path).unwrap();
        let mut session = Session::begin(&text, 1, Box::new(NullSink)).unwrap();
        rehearse(&mut session, by_name(operator, 1).unwrap().as_mut()).unwrap();
        let signed = session.open().unwrap();
        let marks = mark(&signed.evidence());
        let line = TimeLine::of(&signed.evidence(), &marks);
        let track = History::of(&signed);
        Self { signed, marks, line, track }
    }

    fn strip(&self, truth: ShowTruth) -> TimelineStrip<'_> {
        let (line, marks, samples) = (&self.line, &self.marks, self.track.samples());
        TimelineStrip { line, marks, samples, start: self.signed.setup.station.start, truth }
    }
}

/// How many pixels of a picture have a colour.
fn count(data: &[u8], hue: PaletteColor) -> usize {
    data.chunks_exact(4).filter(|pixel| pixel[..3] == [hue.red, hue.green, hue.blue]).count()
}

#[test]
fn truth_is_drawn_only_on_asking() {
    let done = Done::by("03_a_new_blower.ron", "careful");
    let laid = StripLayout { width: 900.0, text_scale: 1.0 };
    let hidden = paint(&done.strip(ShowTruth::Hidden), laid, 1.0);
    let shown = paint(&done.strip(ShowTruth::Shown), laid, 1.0);
    assert!(shown.height() > hidden.height());
    let blue = [&hidden, &shown].map(|picture| count(picture.data(), palette::WATER_DEEP));
    assert!(blue[0] == 0 && blue[1] > 100, "{blue:?}");
}

#[test]
fn every_finding_stands_at_its_moment() {
    let done = Done::by("01_first_calibration.ron", "hurried");
    let laid = StripLayout { width: 1100.0, text_scale: 1.0 };
    let picture = paint(&done.strip(ShowTruth::Hidden), laid, 1.0);
    let scale = TimeScale::of(&done.line);
    let mut findings = 0;
    for note in &done.line.notes {
        if !matches!(note.what, NoteKind::Finding(_)) {
            continue;
        }
        findings += 1;
        let share = scale.share(note.tick) as f32;
        let x = laid.gutter() + share * (laid.width - laid.right() - laid.gutter());
        // The row of marks lies under the bands of phases and waits.
        let near = |dx: i32, y: u32| {
            let x = (x.round() as i32 + dx).clamp(0, picture.width() as i32 - 1) as u32;
            picture.pixel(x, y).map(|pixel| [pixel.red(), pixel.green(), pixel.blue()])
        };
        let triangle = (38..52).flat_map(|y| (-2..=2).map(move |dx| (dx, y))).any(|(dx, y)| {
            let of = |hue: PaletteColor| Some([hue.red, hue.green, hue.blue]);
            let seen = near(dx, y);
            seen == of(palette::CAUTION) || seen == of(palette::CAUTION_WASH)
        });
        assert!(triangle, "no mark at {} s", note.tick.seconds());
    }
    assert!(findings > 5, "{findings}");
}

#[test]
fn strips_can_be_looked_at() {
    let mut looked = LookedAt::new();
    let cases = [
        ("03_a_new_blower.ron", "careful", 1126.0, 1.0, ShowTruth::Shown),
        ("01_first_calibration.ron", "hurried", 1126.0, 1.0, ShowTruth::Hidden),
        ("01_first_calibration.ron", "hurried", 1126.0, 2.0, ShowTruth::Shown),
        ("27_from_set_point_to_volume.ron", "careful", 1126.0, 1.0, ShowTruth::Shown),
    ];
    for (number, (scenario, operator, width, text_scale, truth)) in cases.into_iter().enumerate() {
        let done = Done::by(scenario, operator);
        let picture = paint(&done.strip(truth), StripLayout { width, text_scale }, 1.0);
        looked.at(&format!("strip_{number}"), picture.data(), || picture.encode_png().unwrap());
    }
}
