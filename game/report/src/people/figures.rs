//! The figures of people who sat scenarios, as they are written, printed and drawn.

use serde::Serialize;
use sim_core::trial::people::estimate::Share;
use sim_core::trial::people::volumes::{BOUNDS_PCT, VolumeFigures};
use sim_core::trial::people::{DecisionCosts, PeopleFigures};

/// A whole trial with people.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PeopleTrial {
    /// Version of the program.
    pub program: &'static str,
    /// How it was drawn.
    #[serde(flatten)]
    pub settings: PeopleSettings,
    /// How little so few people prove; none where they are enough.
    pub caution: Option<String>,
    /// Every scenario.
    pub scenarios: Vec<PeopleScenario>,
    /// All scenarios together, each at its own pass mark.
    pub together: PeopleTogether,
}

/// How people were drawn, and what wrong decisions cost.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PeopleSettings {
    /// Seed of the population.
    pub seed: u64,
    /// People in each scenario.
    pub people: u64,
    /// Share of careless people.
    pub careless: f64,
    /// What wrong decisions cost.
    pub costs: DecisionCosts,
}

/// The people of one scenario.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PeopleScenario {
    /// The file.
    pub file: String,
    /// Its title.
    pub title: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// Their figures.
    #[serde(flatten)]
    pub figures: PeopleFigures,
}

/// The people of all scenarios. No person sits two of them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PeopleTogether {
    /// Those who passed.
    pub passed: Share,
    /// False passes and false fails.
    pub volumes: Vec<VolumeFigures>,
}

/// So many people are enough for most figures (CHOSEN: a share has then an interval of ten percent).
const ENOUGH: u64 = 400;

impl PeopleTrial {
    /// Puts the figures of all scenarios together.
    pub fn new(settings: PeopleSettings, scenarios: Vec<PeopleScenario>) -> Self {
        let caution = (settings.people < ENOUGH).then(|| {
            format!(
                "Fewer than {ENOUGH} people prove little: look at the intervals, which hold the true \
                 figure 95 times in 100."
            )
        });
        let together = PeopleTogether::of(&scenarios);
        Self { program: sim_core::VERSION, settings, caution, scenarios, together }
    }

    /// Of those who pass with a volume, over all scenarios: how many have one that is off by more
    /// than 5 percent.
    pub fn passed_off(&self) -> Option<Share> {
        let five = |one: &&VolumeFigures| (one.off_by_more_than_pct - 5.0).abs() < 1e-9;
        self.together.volumes.iter().find(five).map(|volumes| volumes.passed_off)
    }
}

impl PeopleTogether {
    fn of(scenarios: &[PeopleScenario]) -> Self {
        let passed = scenarios.iter().map(|one| one.figures.marks.passed);
        let (count, of) = passed.fold((0, 0), |(count, of), one| (count + one.count, of + one.of));
        let bound = |index: usize| {
            let all = scenarios.iter().filter_map(|one| one.figures.volumes.get(index));
            VolumeFigures::together(all)
        };
        Self {
            passed: Share::new(count, of),
            volumes: (0..BOUNDS_PCT.len()).filter_map(bound).collect(),
        }
    }
}
