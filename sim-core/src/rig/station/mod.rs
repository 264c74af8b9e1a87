//! The station: weather and mains, and the instruments that measure the weather.

pub mod barometer;
mod noise_override;
pub mod run_weather;
mod surroundings;
pub mod thermometer;

pub use surroundings::{Station, Surroundings, WeatherPlan};
