//! The topics into which the sentences are sorted.

/// Which sentences are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Looking, listening, waiting.
    Looking,
    /// Thermometer and barometer.
    Air,
    /// Lid, nuts, and what is carried.
    Mounting,
    /// Valves, scale, tube.
    Manometer,
    /// Plugs and switches.
    Power,
    /// The calibrator's knob and openings.
    Flow,
    /// Pen and chart.
    Recorder,
    /// Filter and timer of an unattended run.
    Run,
    /// The field book.
    Writing,
    /// Accepting and refusing.
    Deciding,
    /// What was found wrong.
    Reporting,
    /// The procedure at a glance.
    Checklist,
    /// Asking, ending.
    Asking,
    /// The mandatory steps of a visit.
    Musts,
    /// All of them.
    All,
}

impl Topic {
    /// Every topic in the order of the work, without [`Topic::Musts`] and [`Topic::All`].
    pub const WORK: [Self; 13] = [
        Self::Looking,
        Self::Air,
        Self::Mounting,
        Self::Manometer,
        Self::Power,
        Self::Flow,
        Self::Recorder,
        Self::Run,
        Self::Writing,
        Self::Deciding,
        Self::Reporting,
        Self::Checklist,
        Self::Asking,
    ];

    /// The word that is said for it, and what it is about.
    pub const fn title(self) -> (&'static str, &'static str) {
        match self {
            Self::Looking => ("looking", "look, listen, wait"),
            Self::Air => ("air", "thermometer and barometer"),
            Self::Mounting => ("mounting", "lid, nuts, and what you carry"),
            Self::Manometer => ("manometer", "valves, scale, tube"),
            Self::Power => ("power", "plugs and switches"),
            Self::Flow => ("flow", "the calibrator's knob and openings"),
            Self::Recorder => ("recorder", "pen and chart"),
            Self::Run => ("run", "filter, timer, leaving the site"),
            Self::Writing => ("writing", "the field book"),
            Self::Deciding => ("deciding", "the calibration, the flow check, the sample"),
            Self::Reporting => ("reporting", "what you found wrong, and what you did about it"),
            Self::Checklist => ("checklist", "the procedure at a glance, for you to tick"),
            Self::Asking => ("asking", "questions, the field book, ending"),
            Self::Musts => ("musts", "the mandatory steps of a visit"),
            Self::All => ("all", "everything"),
        }
    }
}
