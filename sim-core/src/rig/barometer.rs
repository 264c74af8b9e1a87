//! The aneroid barometer.
