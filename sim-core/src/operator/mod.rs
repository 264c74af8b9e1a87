//! Scripted operators and their habits.
