//! How a site looks on arrival, as far as a scenario tells it without giving anything away: season,
//! time of day, height and weather.

use super::Scenario;
use super::spread::Spread;
use super::weather::Weather;

/// Gusts above this are seen in trees and flags, Pa (CHOSEN).
const WINDY_PA: f64 = 1.4;
/// Sun on a thermometer's screen above this is bright, K (CHOSEN).
const BRIGHT_K: f64 = 0.5;

/// How a site looks on arrival.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiteLook {
    /// The season.
    pub season: Season,
    /// Time of day, hours.
    pub hours: f64,
    /// Height above sea level, m.
    pub elevation_m: f64,
    /// Whether water outside is frozen.
    pub freezes: bool,
    /// Whether it blows.
    pub windy: bool,
    /// Whether the sun shines.
    pub sunny: bool,
}

/// A season, by the months of the northern hemisphere, in which all stations lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Season {
    /// March to May.
    Spring,
    /// June to August.
    Summer,
    /// September to November.
    Autumn,
    /// December to February.
    Winter,
}

impl Season {
    /// The season of a month, 1 to 12.
    pub const fn of_month(month: u8) -> Self {
        match month {
            3..=5 => Self::Spring,
            6..=8 => Self::Summer,
            9..=11 => Self::Autumn,
            _ => Self::Winter,
        }
    }

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Spring => "spring",
            Self::Summer => "summer",
            Self::Autumn => "autumn",
            Self::Winter => "winter",
        }
    }
}

impl SiteLook {
    /// The look of a scenario's site, in the middle of what its weather may be.
    pub fn of(scenario: &Scenario) -> Self {
        let middle = |spread: Spread| {
            let (least, most) = spread.bounds();
            0.5 * (least + most)
        };
        let weather = &scenario.weather;
        let usual =
            |name: &str| Weather::PARAMETERS.iter().find(|of| of.name == name)?.usual.into();
        let above = |spread: Option<Spread>, name: &str, limit: f64| {
            spread.or_else(|| usual(name)).is_some_and(|spread| middle(spread) > limit)
        };
        Self {
            season: Season::of_month(scenario.station.date.parts().1),
            hours: scenario.station.start.hours(),
            elevation_m: scenario.station.elevation_m,
            freezes: middle(weather.temperature_c) < 0.0,
            windy: above(weather.gust_sd_pa, "weather.gust_sd_pa", WINDY_PA),
            sunny: above(weather.sun_k, "weather.sun_k", BRIGHT_K),
        }
    }

    /// What a picture of it shows, in words.
    pub fn words(&self) -> String {
        let ground = match self.elevation_m {
            height if height < LOWLAND_M => "low ground",
            height if height < MOUNTAINS_M => "hills",
            _ => "mountains",
        };
        let sky = if self.sunny { "sun" } else { "clouds" };
        let wind = if self.windy { ", wind" } else { "" };
        let frost = if self.freezes { ", frost" } else { "" };
        format!("{}, {ground}, {sky}{wind}{frost}", self.season.name())
    }
}

/// Below this a site is on low ground, m (CHOSEN).
pub const LOWLAND_M: f64 = 150.0;
/// Above this it is among mountains, m (CHOSEN).
pub const MOUNTAINS_M: f64 = 900.0;

#[cfg(test)]
mod tests {
    use super::{Season, SiteLook};
    use crate::scenario::{KnownRules, check};

    fn look(text: &str) -> SiteLook {
        SiteLook::of(&check(text, KnownRules::Any).unwrap())
    }

    #[test]
    fn a_site_looks_as_its_scenario_says() {
        let cold = look(include_str!("../../../scenarios/32_minus_six.ron"));
        assert!(cold.freezes && cold.season == Season::Winter, "{cold:?}");
        let hot = look(include_str!("../../../scenarios/10_fresh_paint.ron"));
        assert!(hot.sunny && !hot.freezes && hot.season == Season::Summer, "{hot:?}");
        assert_eq!(hot.words(), "summer, hills, sun");
        let dull = look(include_str!("../../../scenarios/25_wind_permitting.ron"));
        assert!(!dull.sunny, "{dull:?}");
        // A fault is not given away: what is drawn is the weather, not the gusts of this scenario.
        assert!(!dull.windy, "{dull:?}");
        let high = look(include_str!("../../../scenarios/40_the_ranger_station.ron"));
        assert!(high.words().contains("mountains"), "{}", high.words());
    }

    #[test]
    fn each_month_has_its_season() {
        let seasons: Vec<Season> = (1..=12).map(Season::of_month).collect();
        for season in [Season::Spring, Season::Summer, Season::Autumn, Season::Winter] {
            assert_eq!(seasons.iter().filter(|other| **other == season).count(), 3);
        }
    }
}
