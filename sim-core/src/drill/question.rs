//! A question: what can be seen, what is asked, and the truth apart.

use super::answer::{Answer, DrillMove};
use super::drawn::{Drawn, Gauge, Truth};
use super::error::{DrawError, DrillError};
use super::judged::{Judged, judge};
use super::kind::DrillKind;
use super::kinds;
use super::scale::{AgainstScale, Marks};
use super::seen::{Asked, DrillLook, DrillSheet};
use crate::noise::Stream;
use crate::session::SitePapers;
use crate::session::action::{BarometerReference, Sight};
use crate::session::view::{
    EYE_BAROMETER_MMHG, EYE_CHART, EYE_LEG_IN, EYE_THERMOMETER_C, LegView, View,
};

/// How far the eye can be held from level, mm, as on the bench.
pub const FARTHEST_EYE_MM: f64 = 150.0;

/// A question of a drill. It follows from kind, seed and number alone.
#[derive(Debug)]
pub struct Question {
    kind: DrillKind,
    seed: u64,
    number: u32,
    drawn: Drawn,
    in_words: bool,
}

impl Question {
    /// Draws a question.
    ///
    /// # Errors
    ///
    /// When it cannot be drawn, which is an error of the program.
    pub fn draw(kind: DrillKind, seed: u64, number: u32) -> Result<Self, DrawError> {
        let drawn = kinds::draw(kind, seed, number)?;
        Ok(Self { kind, seed, number, drawn, in_words: false })
    }

    /// Its kind.
    pub const fn kind(&self) -> DrillKind {
        self.kind
    }

    /// The seed of its series.
    pub const fn seed(&self) -> u64 {
        self.seed
    }

    /// Its number in the series, from 0.
    pub const fn number(&self) -> u32 {
        self.number
    }

    /// What is asked.
    pub const fn asked(&self) -> &Asked {
        &self.drawn.asked
    }

    /// What can be seen, look by look; empty where numbers on paper are all that there is.
    pub fn looks(&self) -> &[DrillLook] {
        &self.drawn.looks
    }

    /// Numbers on paper, if the question is about some.
    pub const fn sheet(&self) -> Option<&DrillSheet> {
        self.drawn.sheet.as_ref()
    }

    /// The papers at the site.
    pub fn papers(&self) -> SitePapers<'_> {
        let papers = self.drawn.bench.papers();
        match &self.drawn.certificates {
            Some(certificates) => SitePapers { certificates, ..papers },
            None => papers,
        }
    }

    /// What can be answered, where the answer is a choice.
    pub fn choices(&self) -> Vec<&str> {
        match &self.drawn.truth {
            Truth::Choice { choices, .. } => {
                choices.iter().map(|(name, _)| name.as_str()).collect()
            }
            Truth::Number { .. } => Vec::new(),
        }
    }

    /// Whether the eye can be brought to another height.
    pub const fn eye_moves(&self) -> bool {
        matches!(self.drawn.gauge, Gauge::Legs(..))
    }

    /// Whether the barometer's index can be set.
    pub const fn barometer_can_be_set(&self) -> bool {
        matches!(self.drawn.gauge, Gauge::Barometer(_))
    }

    /// Whether the reading can be had in words: wherever a scale is read.
    pub const fn can_be_read_in_words(&self) -> bool {
        matches!(
            self.kind,
            DrillKind::Leg
                | DrillKind::Difference
                | DrillKind::Pen
                | DrillKind::Barometer
                | DrillKind::Thermometer
                | DrillKind::ChartMean
                | DrillKind::ElapsedTime
        )
    }

    /// Does something to see better.
    ///
    /// # Errors
    ///
    /// When it cannot be done with this question.
    pub(super) fn make(&mut self, made: DrillMove) -> Result<(), DrillError> {
        self.allows(made)?;
        match (made, &mut self.drawn.gauge) {
            (DrillMove::Eye { eye_mm }, Gauge::Legs(manometer, eyes)) => {
                for (eye, look) in eyes.iter_mut().zip(&mut self.drawn.looks) {
                    eye.1 = eye_mm;
                    *look = kinds::looked_at(&look.view, manometer, *eye);
                }
            }
            (DrillMove::SetBarometer { to }, Gauge::Barometer([station, sea])) => {
                for look in &mut self.drawn.looks {
                    look.view.barometer.set_to = Some(to);
                    look.view.barometer.pointer_mmhg = match to {
                        BarometerReference::Station => *station,
                        BarometerReference::SeaLevel => *sea,
                    };
                }
            }
            (DrillMove::ReadInWords, _) => self.in_words = true,
            _ => {}
        }
        Ok(())
    }

    /// Whether something can be done with this question.
    ///
    /// # Errors
    ///
    /// When it cannot, and what can.
    pub fn allows(&self, made: DrillMove) -> Result<(), DrillError> {
        let refuse = |why: &str| Err(DrillError::Refused(why.to_owned()));
        match made {
            DrillMove::Eye { eye_mm } if self.eye_moves() => {
                if eye_mm.abs() <= FARTHEST_EYE_MM {
                    Ok(())
                } else {
                    refuse("the eye can be held from 150 mm below to 150 mm above what is read")
                }
            }
            DrillMove::Eye { .. } => refuse("the height of the eye changes nothing in this drill"),
            DrillMove::SetBarometer { .. } if self.barometer_can_be_set() => Ok(()),
            DrillMove::SetBarometer { .. } => {
                refuse("there is no barometer to be set in this drill")
            }
            DrillMove::ReadInWords if self.can_be_read_in_words() => Ok(()),
            DrillMove::ReadInWords => refuse("there is no scale to be read out in this drill"),
        }
    }

    /// Whether the reading was had in words.
    pub const fn was_read_in_words(&self) -> bool {
        self.in_words
    }

    /// What can be seen as a sharp eye reads it, with its scatter; only after it was asked for.
    pub fn read_in_words(&self) -> Option<Vec<View>> {
        if !self.in_words {
            return None;
        }
        let Self { kind, number, .. } = self;
        let read = |(at, look): (usize, &DrillLook)| {
            let name = format!("drill {kind}, question {number}, look {at} in words");
            look.view.clone().read_by(Stream::new(self.seed, &name))
        };
        Some(self.looks().iter().enumerate().map(read).collect())
    }

    /// Where what is read stands against the marks of its scale, look by look: what an eye sees before it
    /// counts. Empty where no scale with marks is read.
    pub fn against_scale(&self) -> Vec<AgainstScale> {
        let Some((marks, reads)) = self.scale() else { return Vec::new() };
        let read = self.looks().iter().filter_map(|look| reads(&look.view));
        read.map(|value| marks.against(value)).collect()
    }

    /// The same for the upper rims of the menisci; empty where none is looked at.
    pub fn rims_against_scale(&self) -> Vec<AgainstScale> {
        let rims = self.looks().iter().filter_map(|look| leg(&look.view)).map(|leg| leg.rim_in);
        rims.map(|rim_in| LEG.against(rim_in)).collect()
    }

    /// The scale that is read, and what is read of a view on it.
    const fn scale(&self) -> Option<(Marks, Reads)> {
        Some(match self.kind {
            DrillKind::Leg | DrillKind::Difference | DrillKind::WaterAtRest => {
                (LEG, |view| leg(view).map(|leg| leg.meniscus_in))
            }
            DrillKind::Pen | DrillKind::PenAtRest => {
                (Marks { mark: 1.0, number: 10.0, eye: EYE_CHART }, |view| view.recorder.pen)
            }
            DrillKind::Barometer => {
                let marks = Marks { mark: 1.0, number: 10.0, eye: EYE_BAROMETER_MMHG };
                (marks, |view| Some(view.barometer.pointer_mmhg))
            }
            DrillKind::Thermometer => {
                let marks = Marks { mark: 0.5, number: 5.0, eye: EYE_THERMOMETER_C };
                (marks, |view| Some(view.thermometer.column_c))
            }
            DrillKind::ChartMean
            | DrillKind::ElapsedTime
            | DrillKind::Certificate
            | DrillKind::Station
            | DrillKind::PointSums
            | DrillKind::Line => return None,
        })
    }

    /// Judges an answer.
    ///
    /// # Errors
    ///
    /// When the answer has not the form that is asked for: what to answer instead.
    pub fn judge(&self, answer: &Answer) -> Result<Judged, String> {
        let slips = match &self.drawn.gauge {
            Gauge::Legs(manometer, eyes) => kinds::leg_slips(self.asked(), manometer, eyes),
            Gauge::Still | Gauge::Barometer(_) => Vec::new(),
        };
        judge(&self.drawn.truth, &slips, &self.kind.standard(), answer)
    }
}

/// What is read of a view on a scale.
type Reads = fn(&View) -> Option<f64>;

/// The scale of the manometer.
const LEG: Marks = Marks { mark: 0.1, number: 1.0, eye: EYE_LEG_IN };

/// The leg that the eyes are on.
const fn leg(view: &View) -> Option<&LegView> {
    match view.focus {
        Sight::LeftLeg => Some(&view.manometer.left),
        Sight::RightLeg => Some(&view.manometer.right),
        _ => None,
    }
}
