//! What one person can do: how often a known practice is left out, how well the eye reads and the
//! hand sets, and how often a number is written wrongly.

use super::Habits;

/// A practice that a person knows and sometimes leaves out.
#[derive(Debug, Clone, Copy)]
pub struct Lapse {
    /// The practice. It also names the random stream, so that one practice never shifts another.
    pub practice: &'static str,
    /// How likely it is left out on one occasion, 0 to 1.
    pub chance: f64,
    /// Leaves it out.
    pub leave_out: fn(&mut Habits),
}

/// The abilities of one person.
///
/// An occasion is a phase of the plan, or one point: on each, every lapse is drawn anew.
#[derive(Debug, Clone)]
pub struct Abilities {
    /// The habits that the person always has, because nothing better is known.
    pub habits: Habits,
    /// What is known and sometimes left out.
    pub lapses: Vec<Lapse>,
    /// Scatter of readings, divided by that of a scripted operator.
    pub scatter: f64,
    /// Usual height of the eye above the level of what is read, mm.
    pub eye_mm: f64,
    /// Standard deviation of that height from look to look, mm.
    pub eye_sd_mm: f64,
    /// Standard deviation of the knob's opening from the one that was meant.
    pub knob_sd: f64,
    /// Standard deviation of the manometer's scale from where it was to be moved, in.
    pub scale_sd_in: f64,
    /// How likely a valve is left a quarter turn short of open.
    pub short_valve: f64,
    /// How likely a small deed or an entry is forgotten.
    pub forgets: f64,
    /// How likely a number that was read or copied is written wrongly.
    pub copy_slip: f64,
    /// How likely a number that was calculated is written wrongly.
    pub sum_slip: f64,
}

impl Default for Abilities {
    /// A person who does everything as the careful operator does.
    fn default() -> Self {
        Self {
            habits: Habits::default(),
            lapses: Vec::new(),
            scatter: 1.0,
            eye_mm: 0.0,
            eye_sd_mm: 0.0,
            knob_sd: 0.0,
            scale_sd_in: 0.0,
            short_valve: 0.0,
            forgets: 0.0,
            copy_slip: 0.0,
            sum_slip: 0.0,
        }
    }
}
