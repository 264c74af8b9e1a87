//! What a trainer writes; checking it; drawing one concrete bench from it and a seed.

pub mod setup;
