//! Everything that is told about the people who sat a scenario.

use serde::Serialize;

use super::consistency::{ReliabilityFigures, reliability};
use super::distribution::{GroupFigures, MarkDistribution, groups};
use super::items::{ItemAnalysis, analyse};
use super::pass_mark::{CurvePoint, DecisionCosts, ProposedMark, curve, proposed};
use super::seated::Seated;
use super::volumes::{VolumeFigures, at_own_mark, with_volume};

/// The people who sat a scenario, in figures.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PeopleFigures {
    /// People, each with two sittings.
    pub people: u64,
    /// Sittings that came to no proper end, of both.
    pub unfinished: u64,
    /// Marks needed to pass; none if no sitting was marked.
    pub pass_mark: Option<f64>,
    /// The marks of all people.
    pub marks: MarkDistribution,
    /// The marks of each group.
    pub groups: Vec<GroupFigures>,
    /// Reliability of the marks and of the decision.
    pub reliability: ReliabilityFigures,
    /// Every rule as an item.
    pub items: ItemAnalysis,
    /// People from whose work a volume follows.
    pub with_volume: u64,
    /// False passes and false fails at the scenario's own pass mark.
    pub volumes: Vec<VolumeFigures>,
    /// What every pass mark would do.
    pub curve: Vec<CurvePoint>,
    /// The pass mark that costs least.
    pub proposed: Option<ProposedMark>,
}

/// Works the figures out. The seed is that of the population; intervals draw from streams of it.
pub fn people_figures(people: &[Seated], costs: DecisionCosts, seed: u64) -> PeopleFigures {
    let sittings = people.iter().flat_map(|one| &one.sittings);
    PeopleFigures {
        people: people.len() as u64,
        unfinished: sittings.filter(|sitting| sitting.marked.is_none()).count() as u64,
        pass_mark: people.iter().find_map(Seated::marked).map(|marked| marked.pass_mark),
        marks: MarkDistribution::of(people.iter()),
        groups: groups(people),
        reliability: reliability(people, seed),
        items: analyse(people),
        with_volume: with_volume(people).count() as u64,
        volumes: at_own_mark(people),
        curve: curve(people, costs),
        proposed: proposed(people, costs, seed),
    }
}
