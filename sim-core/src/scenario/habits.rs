//! The habits in which operators differ, and the names under which a scenario speaks of them.

/// Every operator's name and what it does; names may be joined by `+`.
pub const NAMES: &[(&str, &str)] = &[
    ("careful", "does the work as it should be done"),
    ("hurried", "neither lets the flow settle nor taps the recorder"),
    ("one-leg", "reads one leg of the manometer and writes it as the whole"),
    ("skips-warm-up", "takes the first point as soon as the blower runs"),
    ("on-controller", "leaves the motor on the flow controller"),
    ("never-zeroes", "never slides the manometer's scale to zero"),
    ("trusts-certificates", "takes the top certificate and the pair printed first, unread"),
    ("sees-faults", "reports a fault everywhere"),
    ("slant-reader", "reads with the eye 60 mm above the level of what is read"),
    ("trusts-barometer", "takes whatever the barometer shows"),
    ("skips-leak-check", "neither looks at gaskets nor listens, and never covers the openings"),
    ("skips-hold-test", "never shuts a valve to see whether the manometer holds its column"),
    (
        "accepts-any-line",
        "takes a straight line for a right one and never compares it with the last",
    ),
    ("skips-tube-check", "never looks the tube over for drops, kinks and cracks"),
    ("doubles-a-leg", "reads one leg of the manometer and doubles it"),
    ("ignores-thermometer", "reads the thermometer where it happens to stand"),
    ("first-pair", "copies the pair that a certificate prints first"),
    ("trusts-copies", "takes the copy on top and never turns to the original"),
    ("listens-once", "checks for leaks before the points and never listens again"),
    ("reaches-in", "lays hands on the holder while the blower runs"),
    ("skips-pen-zero", "never looks where the pen stands with the blower off"),
    ("ignores-blower", "gives no thought to how the blower sounds and what it draws"),
    ("never-looks-back", "looks at nothing again after the last point"),
    ("ignores-thunder", "works on when it thunders"),
    ("passes-any-check", "calls every check of the flow passed"),
    ("square-root-always", "works out every chart term as for a square-root chart"),
    ("design-flow-as-it-is", "sets an inlet's design flow as if it stood at standard conditions"),
    ("leaves-next-run", "signs without arming the sampler for the next run"),
    ("checks-as-calibrated", "checks the flow with the filter out, as one calibrates"),
];

/// Eye height of one who reads at a slant, mm.
const SLANT_MM: f64 = 60.0;

/// The habits of an operator. The default is the careful one; every field can be set by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habits {
    /// Two minutes at every flow before reading.
    pub settling: Practice,
    /// Tapping the recorder until the pen rests.
    pub tapping: Practice,
    /// At least five minutes of running before the first point.
    pub warm_up: Practice,
    /// Sliding the manometer's scale to zero.
    pub zeroing: Practice,
    /// Looking at gaskets, covering the openings and listening for leaks, then and later.
    pub leak_check: Practice,
    /// Shutting a valve to see whether the manometer holds its column.
    pub hold_test: Practice,
    /// Holding the line against the last one and against what is usual.
    pub comparing: Practice,
    /// Checking the barometer's index and its reading against the station's height.
    pub barometer_check: Practice,
    /// Moving the thermometer into the shade.
    pub shade: Practice,
    /// Looking the tube over.
    pub tube_check: Practice,
    /// Going back to the original of a copied certificate.
    pub originals: Practice,
    /// Listening for leaks at every point.
    pub listening: Practice,
    /// Keeping the hands off the holder until the rotor stands.
    pub hands_off: Practice,
    /// Looking at the pen's zero with the blower off.
    pub pen_zero: Practice,
    /// Heeding how the blower sounds, and whether it draws what it should.
    pub blower_check: Practice,
    /// Looking at manometer and recorder once more after the last point.
    pub looking_back: Practice,
    /// Leaving the roof at the first thunder.
    pub leaving: Practice,
    /// Arming the sampler for the next run, where one is ordered.
    pub arming: Practice,
    /// Which certificate is taken.
    pub certificate: Leads,
    /// Which of its pairs is copied.
    pub pair: PairTaken,
    /// How the manometer is read.
    pub legs: Legs,
    /// What feeds the blower.
    pub supply: Supply,
    /// How the chart term is chosen.
    pub terms: TermsUsed,
    /// What becomes of a design flow.
    pub targets: Targets,
    /// How the flow is checked.
    pub checking: Checking,
    /// What a check is called.
    pub outcomes: Outcomes,
    /// What is reported.
    pub remarks: Remarks,
    /// Height of the eye above what is read, mm.
    pub eye_mm: f64,
}

/// Whether a practice is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Practice {
    /// It is.
    Kept,
    /// It is left out.
    Skipped,
}

/// What leads to a certificate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leads {
    /// Serial number, date and heading, compared; the pair at standard conditions.
    Compared,
    /// It lies on top; the pair that is printed first.
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
    /// The line outlet.
    Line,
    /// The flow controller.
    Controller,
}

/// How the chart term is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TermsUsed {
    /// As the recorder's plate says.
    ByThePlate,
    /// As for a square-root chart, whatever it is.
    SquareRoot,
}

/// What becomes of a design flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Targets {
    /// It is brought to standard conditions.
    Converted,
    /// It is set as it is printed.
    AsPrinted,
}

/// How the flow is checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Checking {
    /// Above a filter.
    AsItRuns,
    /// With the filter out.
    AsCalibrated,
}

/// What a check of the flow is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcomes {
    /// What its difference says.
    ByDifference,
    /// Passed.
    AlwaysPassed,
}

/// What is reported as a fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remarks {
    /// What was found.
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
            certificate: Leads::Compared,
            pair: PairTaken::Standard,
            legs: Legs::Both,
            supply: Supply::Line,
            terms: TermsUsed::ByThePlate,
            targets: Targets::Converted,
            checking: Checking::AsItRuns,
            outcomes: Outcomes::ByDifference,
            remarks: Remarks::Found,
            eye_mm: 0.0,
        }
    }
}

impl Habits {
    /// The habits behind a name of [`NAMES`], or several joined by `+`.
    pub fn by_name(name: &str) -> Option<Self> {
        name.split('+').map(str::trim).try_fold(Self::default(), Self::with)
    }

    /// These habits and one more.
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
            _ => return None,
        }
        Some(self)
    }
}

#[cfg(test)]
mod tests {
    use super::{Habits, Legs, NAMES, Practice};

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
        assert_eq!(Habits::by_name("tidy"), None);
        assert_eq!(Habits::by_name("hurried+"), None);
        assert_eq!(Habits::by_name(""), None);
    }
}
