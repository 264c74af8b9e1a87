//! Moist air, water and the standard atmosphere.
