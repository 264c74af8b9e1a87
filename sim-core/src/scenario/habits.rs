//! The habits in which operators differ, and their names in a scenario.

use crate::text::printable;

/// Every operator's name and what it does. Names can be joined by `+`.
pub const NAMES: &[(&str, &str)] = &[
    ("careful", "does every step as it should be done"),
    ("hurried", "does not let the flow settle and does not tap the recorder"),
    ("one-leg", "reads one leg of the manometer and writes it as the whole difference"),
    ("skips-warm-up", "takes the first point as soon as the blower runs"),
    ("on-controller", "leaves the blower on the flow controller"),
    ("never-zeroes", "never sets the manometer's scale to zero"),
    ("trusts-certificates", "uses the top certificate and its first pair without reading either"),
    ("sees-faults", "reports a fault in every place"),
    ("slant-reader", "reads with the eye 60 mm above the level of what is read"),
    ("trusts-barometer", "accepts any barometer reading"),
    ("skips-leak-check", "does not inspect the gaskets, listen for leaks or cover the openings"),
    ("skips-hold-test", "never shuts a valve to see whether the manometer holds its column"),
    ("accepts-any-line", "accepts any straight line and never compares it with the last one"),
    ("skips-tube-check", "never inspects the tubing for water, kinks and cracks"),
    ("doubles-a-leg", "reads one leg of the manometer and doubles it"),
    ("ignores-thermometer", "reads the thermometer where it stands, even in the sun"),
    ("first-pair", "copies the pair that the certificate prints first"),
    ("trusts-copies", "uses the copy on top and never looks at the original"),
    ("listens-once", "checks for leaks before the points and never listens again"),
    ("reaches-in", "reaches into the shelter while the blower runs"),
    ("skips-pen-zero", "never checks the pen's zero with the blower off"),
    ("ignores-blower", "ignores the sound of the blower and the flow that it draws"),
    ("never-looks-back", "inspects nothing again after the last point"),
    ("ignores-thunder", "keeps working when it thunders"),
    (
        "passes-any-check",
        "writes every flow check as passed, and the flow as held with every added filter",
    ),
    ("square-root-always", "calculates every corrected chart reading as for a square-root chart"),
    ("design-flow-as-it-is", "uses an inlet's design flow as if it were at standard conditions"),
    ("leaves-next-run", "signs without setting up the sampler for the next run"),
    ("checks-as-calibrated", "checks the flow with the filter out, as in a calibration"),
    ("looks-at-the-day", "calls every control chart in control if the check of the day was passed"),
    ("leaves-averages-out", "never builds the averages of the season into the line"),
    (
        "averages-regardless",
        "builds the averages of the season in, however far the day is from them",
    ),
    (
        "leaves-valves-open",
        "covers the openings with the manometer's valves open and the tube on its tap",
    ),
    ("leaves-water", "leaves water in the manometer in frost"),
    ("forgets-density", "adds the legs of a manometer with antifreeze as if it were water"),
    (
        "leaves-screw",
        "never trims the controller by the standard, but leaves its screw as it was found",
    ),
];

/// The longest name that is read, bytes: far longer than all habits joined.
const LONGEST_NAME: usize = 1000;

/// Why a name does not stand for an operator.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OperatorNameError {
    /// One of the joined names is not in [`NAMES`].
    #[error("there is no operator `{}`: use names of scripted operators, joined by +", printable(.0))]
    Unknown(String),
    /// A habit is named twice.
    #[error("the habit `{0}` is named more than once: name each habit once")]
    Repeated(&'static str),
    /// The name is longer than any valid one.
    #[error(
        "the name of an operator is too long ({bytes} bytes, at most {LONGEST_NAME} are read): join each habit once by +"
    )]
    TooLong {
        /// Its length, bytes.
        bytes: usize,
    },
}

/// Height above the level of what is read at which a slant reader holds the eye, mm.
const SLANT_MM: f64 = 60.0;

/// The habits of an operator. The default is the careful operator; each field is independent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habits {
    /// Waiting two minutes at every flow before reading.
    pub settling: Practice,
    /// Tapping the recorder until the pen rests.
    pub tapping: Practice,
    /// Running the blower for at least five minutes before the first point.
    pub warm_up: Practice,
    /// Setting the manometer's scale to zero.
    pub zeroing: Practice,
    /// Inspecting gaskets, covering the openings and listening for leaks, then and later.
    pub leak_check: Practice,
    /// Shutting a valve to see whether the manometer holds its column.
    pub hold_test: Practice,
    /// Comparing the line with the last one and with the usual values.
    pub comparing: Practice,
    /// Checking the barometer's index and its reading against the station's elevation.
    pub barometer_check: Practice,
    /// Moving the thermometer into the shade.
    pub shade: Practice,
    /// Inspecting the tubing.
    pub tube_check: Practice,
    /// Going back to the original of a copied certificate.
    pub originals: Practice,
    /// Listening for leaks at every point.
    pub listening: Practice,
    /// Keeping the hands off the filter holder until the rotor has stopped.
    pub hands_off: Practice,
    /// Checking the pen's zero with the blower off.
    pub pen_zero: Practice,
    /// Noticing how the blower sounds, and whether it draws the usual flow.
    pub blower_check: Practice,
    /// Inspecting manometer and recorder again after the last point.
    pub looking_back: Practice,
    /// Leaving the roof at the first thunder.
    pub leaving: Practice,
    /// Setting up the sampler for the next run, if one is ordered.
    pub arming: Practice,
    /// Whether the controller is trimmed by the standard where a sampler is calibrated at its controlled
    /// flow alone.
    pub trimming: Practice,
    /// Reading the control chart of the sampler, and not the check of the day alone.
    pub chart_reading: Practice,
    /// Shutting the manometer's valves before the openings are covered.
    pub sparing: Practice,
    /// Filling the manometer with antifreeze in frost.
    pub frost: Practice,
    /// Counting the density of the manometer's fluid.
    pub density: Practice,
    /// Which certificate is used.
    pub certificate: Leads,
    /// Which of its pairs is copied.
    pub pair: PairTaken,
    /// How the manometer is read.
    pub legs: Legs,
    /// What feeds the blower.
    pub supply: Supply,
    /// How the expression of the corrected chart reading is chosen.
    pub terms: TermsUsed,
    /// When averages of the season are built into the line.
    pub averages: AveragesUsed,
    /// How an inlet's design flow is used.
    pub targets: Targets,
    /// How the flow is checked.
    pub checking: Checking,
    /// How the outcome of a flow check is decided.
    pub outcomes: Outcomes,
    /// What is reported.
    pub remarks: Remarks,
    /// Height of the eye above what is read, mm.
    pub eye_mm: f64,
}

/// Whether a practice is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Practice {
    /// The operator does it.
    Kept,
    /// The operator leaves it out.
    Skipped,
}

/// How a certificate is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leads {
    /// By its serial number, date and heading; its pair at standard conditions is used.
    Compared,
    /// The one on top is taken; its first pair is used.
    OnTop,
}

/// The pair that is copied from a certificate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PairTaken {
    /// The one for standard conditions.
    Standard,
    /// The one that is printed first.
    First,
}

/// Legs of the manometer that are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Legs {
    /// Both, and added.
    Both,
    /// The left one, written as the whole.
    Left,
    /// The left one, doubled.
    LeftDoubled,
}

/// What feeds the blower.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Supply {
    /// The switched mains outlet.
    Line,
    /// The flow controller.
    Controller,
}

/// How the expression of the corrected chart reading is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TermsUsed {
    /// According to the recorder's plate.
    ByThePlate,
    /// As for a square-root chart, whichever chart it is.
    SquareRoot,
}

/// When averages of the season are built into the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AveragesUsed {
    /// If the order asks for them and the day is near enough to them.
    AsAllowed,
    /// Never.
    Never,
    /// If the order asks for them, however far the day is from them.
    Regardless,
}

/// How an inlet's design flow is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Targets {
    /// It is converted to standard conditions.
    Converted,
    /// It is used as it is printed.
    AsPrinted,
}

/// How the flow is checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Checking {
    /// With a filter in place, as the sampler runs.
    AsItRuns,
    /// With the filter out.
    AsCalibrated,
}

/// How the outcome of a flow check is decided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcomes {
    /// By its percent difference.
    ByDifference,
    /// It is always written as passed.
    AlwaysPassed,
}

/// What is reported as a fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remarks {
    /// The faults that were found.
    Found,
    /// A fault in every place.
    Everywhere,
}

impl Default for Habits {
    fn default() -> Self {
        Self {
            settling: Practice::Kept,
            tapping: Practice::Kept,
            warm_up: Practice::Kept,
            zeroing: Practice::Kept,
            leak_check: Practice::Kept,
            hold_test: Practice::Kept,
            comparing: Practice::Kept,
            barometer_check: Practice::Kept,
            shade: Practice::Kept,
            tube_check: Practice::Kept,
            originals: Practice::Kept,
            listening: Practice::Kept,
            hands_off: Practice::Kept,
            pen_zero: Practice::Kept,
            blower_check: Practice::Kept,
            looking_back: Practice::Kept,
            leaving: Practice::Kept,
            arming: Practice::Kept,
            trimming: Practice::Kept,
            chart_reading: Practice::Kept,
            sparing: Practice::Kept,
            frost: Practice::Kept,
            density: Practice::Kept,
            certificate: Leads::Compared,
            pair: PairTaken::Standard,
            legs: Legs::Both,
            supply: Supply::Line,
            terms: TermsUsed::ByThePlate,
            averages: AveragesUsed::AsAllowed,
            targets: Targets::Converted,
            checking: Checking::AsItRuns,
            outcomes: Outcomes::ByDifference,
            remarks: Remarks::Found,
            eye_mm: 0.0,
        }
    }
}

impl Habits {
    /// The habits of a name of [`NAMES`], or of several names joined by `+`.
    ///
    /// # Errors
    ///
    /// If there is no such habit, if one is named twice, or if the name is too long.
    pub fn by_name(name: &str) -> Result<Self, OperatorNameError> {
        if name.len() > LONGEST_NAME {
            return Err(OperatorNameError::TooLong { bytes: name.len() });
        }
        let unknown = || OperatorNameError::Unknown(name.to_owned());
        let mut habits = Self::default();
        let mut known: Vec<&'static str> = Vec::new();
        for part in name.split('+').map(str::trim) {
            let (habit, _) = NAMES.iter().find(|(habit, _)| *habit == part).ok_or_else(unknown)?;
            if known.contains(habit) {
                return Err(OperatorNameError::Repeated(habit));
            }
            known.push(habit);
            habits = habits.with(habit).ok_or_else(unknown)?;
        }
        Ok(habits)
    }

    /// These habits with that of one more name.
    fn with(mut self, name: &str) -> Option<Self> {
        match name {
            "careful" => {}
            "hurried" => {
                self.settling = Practice::Skipped;
                self.tapping = Practice::Skipped;
            }
            "one-leg" => self.legs = Legs::Left,
            "skips-warm-up" => self.warm_up = Practice::Skipped,
            "on-controller" => self.supply = Supply::Controller,
            "never-zeroes" => self.zeroing = Practice::Skipped,
            "trusts-certificates" => {
                self.certificate = Leads::OnTop;
                self.pair = PairTaken::First;
            }
            "square-root-always" => self.terms = TermsUsed::SquareRoot,
            "leaves-averages-out" => self.averages = AveragesUsed::Never,
            "averages-regardless" => self.averages = AveragesUsed::Regardless,
            "design-flow-as-it-is" => self.targets = Targets::AsPrinted,
            "passes-any-check" => self.outcomes = Outcomes::AlwaysPassed,
            "checks-as-calibrated" => self.checking = Checking::AsCalibrated,
            "sees-faults" => self.remarks = Remarks::Everywhere,
            "slant-reader" => self.eye_mm = SLANT_MM,
            "trusts-barometer" => self.barometer_check = Practice::Skipped,
            "skips-leak-check" => self.leak_check = Practice::Skipped,
            "skips-hold-test" => self.hold_test = Practice::Skipped,
            "accepts-any-line" => self.comparing = Practice::Skipped,
            "skips-tube-check" => self.tube_check = Practice::Skipped,
            "doubles-a-leg" => self.legs = Legs::LeftDoubled,
            "ignores-thermometer" => self.shade = Practice::Skipped,
            "first-pair" => self.pair = PairTaken::First,
            "trusts-copies" => self.originals = Practice::Skipped,
            "listens-once" => self.listening = Practice::Skipped,
            "reaches-in" => self.hands_off = Practice::Skipped,
            "skips-pen-zero" => self.pen_zero = Practice::Skipped,
            "ignores-blower" => self.blower_check = Practice::Skipped,
            "never-looks-back" => self.looking_back = Practice::Skipped,
            "leaves-next-run" => self.arming = Practice::Skipped,
            "ignores-thunder" => self.leaving = Practice::Skipped,
            "looks-at-the-day" => self.chart_reading = Practice::Skipped,
            "leaves-valves-open" => self.sparing = Practice::Skipped,
            "leaves-water" => self.frost = Practice::Skipped,
            "forgets-density" => self.density = Practice::Skipped,
            "leaves-screw" => self.trimming = Practice::Skipped,
            _ => return None,
        }
        Some(self)
    }
}

#[cfg(test)]
mod tests {
    use super::{Habits, Legs, NAMES, OperatorNameError, Practice};

    #[test]
    fn every_name_has_habits_of_its_own() {
        let mut seen = Vec::new();
        for (name, _) in NAMES {
            let habits = Habits::by_name(name).unwrap();
            assert!(!seen.contains(&habits), "{name} does what another does");
            seen.push(habits);
        }
    }

    #[test]
    fn names_are_joined_by_a_plus() {
        let habits = Habits::by_name("hurried+one-leg").unwrap();
        assert_eq!((habits.legs, habits.tapping), (Legs::Left, Practice::Skipped));
        assert_eq!(habits.zeroing, Practice::Kept);
    }

    #[test]
    fn an_unknown_name_is_nobody() {
        for name in ["tidy", "hurried+", ""] {
            let unknown = OperatorNameError::Unknown(name.to_owned());
            assert_eq!(Habits::by_name(name), Err(unknown));
        }
    }

    #[test]
    fn a_habit_is_named_once_and_no_name_is_endless() {
        let all: Vec<&str> = NAMES.iter().map(|(name, _)| *name).collect();
        assert!(Habits::by_name(&all.join(" + ")).is_ok());
        for name in ["one-leg+one-leg", "careful+hurried+careful"] {
            let error = Habits::by_name(name).unwrap_err();
            assert!(matches!(error, OperatorNameError::Repeated(_)), "{name}: {error}");
        }
        let padded = format!("careful{}", " ".repeat(70_000));
        assert_eq!(Habits::by_name(&padded), Err(OperatorNameError::TooLong { bytes: 70_007 }));
    }
}
