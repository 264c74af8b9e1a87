//! The thermometer.
