//! Readings in words, for those who cannot see a scale: what the eyes are on, as a sharp eye reads it.
//!
//! A reading has the parallax of the height at which the eye is held, because it is taken from the view.
//! It scatters as a scripted operator's does, and is rounded as the eye rounds. Its scatter has a random
//! stream of its own for each tick: the same moment always gives the same reading, a replay gives the
//! same readings, and no other stream is shifted.

use super::action::Action;
use super::active_session::Session;
use super::view::View;
use crate::noise::Stream;

/// Standard deviation of a reading of the manometer, in (CHOSEN: a sixth of a division).
pub const SCALE_SD_IN: f64 = 0.015;
/// Standard deviation of a reading of the chart, divisions (CHOSEN).
pub const CHART_SD: f64 = 0.15;
/// Standard deviation of a reading of barometer and thermometer, mmHg and degrees (CHOSEN).
pub const DIAL_SD: f64 = 0.1;

impl Session {
    /// What can be seen, as it is read out in words; only right after it was asked for, so that no
    /// reading is had that the journal does not show.
    pub fn read_in_words(&self) -> Option<View> {
        let (tick, action) = self.done().next_back()?;
        if *action != Action::ReadInWords || tick != self.now() {
            return None;
        }
        let (_, source) = self.seal();
        let eyes = Stream::new(source.seed, &format!("reading in words at tick {}", tick.0));
        Some(self.view().read_by(eyes))
    }
}

impl View {
    /// The same view with every scale read by a sharp eye, whose scatter comes from `eyes`.
    pub(crate) fn read_by(mut self, mut eyes: Stream) -> Self {
        let mut reads = |seen: &mut f64, sd: f64| *seen += sd * eyes.normal();
        for leg in [&mut self.manometer.left, &mut self.manometer.right] {
            // Both edges of a meniscus are read in one look.
            let mut shift = 0.0;
            reads(&mut shift, SCALE_SD_IN);
            leg.meniscus_in += shift;
            leg.rim_in += shift;
        }
        if let Some(pen) = &mut self.recorder.pen {
            reads(pen, CHART_SD);
        }
        reads(&mut self.barometer.pointer_mmhg, DIAL_SD);
        reads(&mut self.thermometer.column_c, DIAL_SD);
        let kept = self.run.as_mut().and_then(|run| run.kept_chart.as_mut());
        for (_, pen) in kept.into_iter().flatten() {
            reads(pen, CHART_SD);
        }
        self.at_eye_resolution()
    }
}

#[cfg(test)]
mod tests {
    use crate::rig::manometer::meniscus::parallax_in;
    use crate::rig::parts::{PartPlace, RigPart};
    use crate::session::Session;
    use crate::session::action::{Action, Sight};
    use crate::session::journal::NullSink;
    use crate::session::view::{EYE_CHART, EYE_LEG_IN, View};

    const FIRST: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    fn begun(text: &str, seed: u64) -> Session {
        Session::begin(text, seed, Box::new(NullSink)).expect("a session")
    }

    /// A session with the manometer on its hook and the eye at this height on its left leg.
    fn hung(seed: u64, eye_mm: f64) -> Session {
        let mut session = begun(FIRST, seed);
        for action in [
            Action::Take { part: RigPart::Manometer },
            Action::Put { place: PartPlace::Hook },
            Action::Look { at: Sight::LeftLeg, eye_mm },
            Action::ReadInWords,
        ] {
            session.act(action).expect("it can be done");
        }
        session
    }

    /// What is read out.
    fn read(session: &Session) -> View {
        session.read_in_words().expect("it was asked for")
    }

    #[test]
    fn a_reading_scatters_about_what_is_seen_and_is_rounded_as_an_eye_rounds() {
        let errors: Vec<f64> = (0..400)
            .map(|seed| {
                let session = hung(seed, 0.0);
                let read = read(&session).manometer.left.meniscus_in;
                let steps = read / EYE_LEG_IN;
                assert!((steps - steps.round()).abs() < 1e-9, "{read} is finer than an eye reads");
                read - session.view().manometer.left.meniscus_in
            })
            .collect();
        let mean = errors.iter().sum::<f64>() / 400.0;
        let sd = (errors.iter().map(|error| error * error).sum::<f64>() / 400.0).sqrt();
        assert!(mean.abs() < 0.004, "it is off by {mean} in the mean");
        // Scatter and rounding to half a division together: sqrt(0.015^2 + 0.05^2 / 12) = 0.0208.
        assert!((0.018..0.024).contains(&sd), "it scatters by {sd}");
        assert!(errors.iter().any(|error| error.abs() > EYE_LEG_IN / 2.0), "nothing scatters");
    }

    #[test]
    fn a_reading_has_the_parallax_of_the_eye_and_its_moment_alone_decides_it() {
        let (level, above) = (hung(3, 0.0), hung(3, 120.0));
        let at = |session: &Session| read(session).manometer.left.meniscus_in;
        let shift = at(&above) - at(&level);
        assert!((shift - parallax_in(120.0)).abs() < 0.08, "it shifts by {shift}");
        assert_eq!(at(&level).to_bits(), at(&hung(3, 0.0)).to_bits());
        let pen = read(&level).recorder.pen;
        assert!(pen.is_none_or(|pen| (pen / EYE_CHART).fract().abs() < 1e-9), "{pen:?}");
    }

    #[test]
    fn to_have_it_read_changes_nothing_but_the_time_and_needs_leave() {
        let mut session = hung(3, 0.0);
        session.finish_hands().expect("time passes");
        assert_eq!(session.read_in_words(), None, "nothing is read unasked");
        let before = session.view();
        session.act(Action::ReadInWords).expect("practice allows it");
        assert_eq!(session.view().manometer, before.manometer);
        let sitting = include_str!("../../../scenarios/26_sitting.ron");
        let refused = begun(sitting, 1).act(Action::ReadInWords).expect_err("not in a sitting");
        assert!(refused.to_string().contains("does not allow readings in words"), "{refused}");
        let allowed = sitting.replace("help: false,", "help: false, readings_in_words: true,");
        begun(&allowed, 1).act(Action::ReadInWords).expect("the scenario allows it");
        let forbidden = FIRST.replace("terms: (", "terms: (readings_in_words: false, ");
        begun(&forbidden, 1).act(Action::ReadInWords).expect_err("the scenario forbids it");
    }
}
