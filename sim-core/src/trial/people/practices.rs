//! The practices of the work: how widely each is known, and how often it is left out by those who
//! know it.

use super::latent::LatentAbilities;
use crate::operator::{
    AveragesUsed, Checking, Habits, Leads, Legs, Outcomes, PairTaken, Practice, Remarks, Supply,
    Targets, TermsUsed,
};

/// One practice.
#[derive(Debug)]
pub struct StatedPractice {
    /// Its name, which also names its random streams.
    pub name: &'static str,
    /// Share of average people who do not know it.
    pub unknown: f64,
    /// How likely an average person who knows it leaves it out on one occasion.
    pub lapse: f64,
    /// The ability on which that depends.
    pub by: fn(&LatentAbilities) -> f64,
    /// Leaves it out.
    pub leave_out: fn(&mut Habits),
}

const fn patience(abilities: &LatentAbilities) -> f64 {
    abilities.patience
}

const fn knowledge(abilities: &LatentAbilities) -> f64 {
    abilities.knowledge
}

const fn eye(abilities: &LatentAbilities) -> f64 {
    abilities.eye
}

const fn arithmetic(abilities: &LatentAbilities) -> f64 {
    abilities.arithmetic
}

/// Height above the level of what is read of somebody who does not know better, mm.
const SLANT_MM: f64 = 60.0;

/// One line of the table.
const fn row(
    name: &'static str,
    (unknown, lapse): (f64, f64),
    by: fn(&LatentAbilities) -> f64,
    leave_out: fn(&mut Habits),
) -> StatedPractice {
    StatedPractice { name, unknown, lapse, by, leave_out }
}

/// Every practice (all shares CHOSEN). What is a matter of knowing alone (which expression, which
/// legs) is never left out by those who know it.
pub static PRACTICES: [StatedPractice; 35] = [
    row("settling", (0.01, 0.010), patience, |habits| habits.settling = Practice::Skipped),
    row("tapping", (0.03, 0.010), patience, |habits| habits.tapping = Practice::Skipped),
    row("warm-up", (0.02, 0.010), patience, |habits| habits.warm_up = Practice::Skipped),
    row("zeroing", (0.01, 0.005), patience, |habits| habits.zeroing = Practice::Skipped),
    row("leak check", (0.02, 0.010), patience, |habits| habits.leak_check = Practice::Skipped),
    row("hold test", (0.08, 0.020), patience, |habits| habits.hold_test = Practice::Skipped),
    row("comparing", (0.06, 0.010), knowledge, |habits| habits.comparing = Practice::Skipped),
    row("barometer", (0.03, 0.010), knowledge, |habits| habits.barometer_check = Practice::Skipped),
    row("shade", (0.03, 0.010), knowledge, |habits| habits.shade = Practice::Skipped),
    row("tube", (0.02, 0.010), patience, |habits| habits.tube_check = Practice::Skipped),
    row("original", (0.04, 0.010), knowledge, |habits| habits.originals = Practice::Skipped),
    row("listening", (0.05, 0.020), patience, |habits| habits.listening = Practice::Skipped),
    row("hands off", (0.01, 0.003), patience, |habits| habits.hands_off = Practice::Skipped),
    row("pen zero", (0.04, 0.010), patience, |habits| habits.pen_zero = Practice::Skipped),
    row("blower", (0.08, 0.020), knowledge, |habits| habits.blower_check = Practice::Skipped),
    row("looking back", (0.06, 0.030), patience, |habits| habits.looking_back = Practice::Skipped),
    row("leaving", (0.02, 0.050), knowledge, |habits| habits.leaving = Practice::Skipped),
    row("next run", (0.01, 0.005), patience, |habits| habits.arming = Practice::Skipped),
    row("sparing", (0.03, 0.010), patience, |habits| habits.sparing = Practice::Skipped),
    row("frost", (0.03, 0.005), knowledge, |habits| habits.frost = Practice::Skipped),
    row("density", (0.04, 0.005), arithmetic, |habits| habits.density = Practice::Skipped),
    row("certificate", (0.02, 0.005), knowledge, |habits| habits.certificate = Leads::OnTop),
    row("pair", (0.02, 0.005), knowledge, |habits| habits.pair = PairTaken::First),
    row("one leg", (0.01, 0.0), knowledge, |habits| habits.legs = Legs::Left),
    row("half doubled", (0.02, 0.0), knowledge, |habits| habits.legs = Legs::LeftDoubled),
    row("supply", (0.02, 0.002), knowledge, |habits| habits.supply = Supply::Controller),
    row("expression", (0.02, 0.0), arithmetic, |habits| habits.terms = TermsUsed::SquareRoot),
    row("averages", (0.03, 0.0), knowledge, |habits| habits.averages = AveragesUsed::Never),
    row("window", (0.05, 0.0), knowledge, |habits| habits.averages = AveragesUsed::Regardless),
    row("design flow", (0.04, 0.0), arithmetic, |habits| habits.targets = Targets::AsPrinted),
    row("checking", (0.03, 0.0), knowledge, |habits| habits.checking = Checking::AsCalibrated),
    row("outcome", (0.01, 0.005), knowledge, |habits| habits.outcomes = Outcomes::AlwaysPassed),
    row("eye level", (0.02, 0.010), eye, |habits| habits.eye_mm = SLANT_MM),
    row("control chart", (0.06, 0.010), knowledge, |habits| {
        habits.chart_reading = Practice::Skipped;
    }),
    row("trimming", (0.02, 0.005), knowledge, |habits| habits.trimming = Practice::Skipped),
];

/// Reports a fault in every place: not a practice left out, but a way of answering that a few people
/// have.
pub static SEES_FAULTS: StatedPractice =
    row("sees faults", (0.003, 0.0), knowledge, |habits| habits.remarks = Remarks::Everywhere);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_habit_can_be_left_out() {
        let mut left_out = Habits::default();
        for practice in PRACTICES.iter().chain([&SEES_FAULTS]) {
            let before = left_out;
            (practice.leave_out)(&mut left_out);
            let mut alone = Habits::default();
            (practice.leave_out)(&mut alone);
            assert_ne!(alone, Habits::default(), "{} leaves nothing out", practice.name);
            assert_ne!(left_out, before, "{} is another's twin", practice.name);
        }
        // A new habit does not compile here without a value, and needs a practice of its own.
        let all = Habits {
            settling: Practice::Skipped,
            tapping: Practice::Skipped,
            warm_up: Practice::Skipped,
            zeroing: Practice::Skipped,
            leak_check: Practice::Skipped,
            hold_test: Practice::Skipped,
            comparing: Practice::Skipped,
            barometer_check: Practice::Skipped,
            shade: Practice::Skipped,
            tube_check: Practice::Skipped,
            originals: Practice::Skipped,
            listening: Practice::Skipped,
            hands_off: Practice::Skipped,
            pen_zero: Practice::Skipped,
            blower_check: Practice::Skipped,
            looking_back: Practice::Skipped,
            leaving: Practice::Skipped,
            arming: Practice::Skipped,
            chart_reading: Practice::Skipped,
            sparing: Practice::Skipped,
            frost: Practice::Skipped,
            density: Practice::Skipped,
            trimming: Practice::Skipped,
            certificate: Leads::OnTop,
            pair: PairTaken::First,
            legs: Legs::LeftDoubled,
            supply: Supply::Controller,
            terms: TermsUsed::SquareRoot,
            averages: AveragesUsed::Regardless,
            targets: Targets::AsPrinted,
            checking: Checking::AsCalibrated,
            outcomes: Outcomes::AlwaysPassed,
            remarks: Remarks::Everywhere,
            eye_mm: SLANT_MM,
        };
        assert_eq!(left_out, all);
    }

    #[test]
    fn names_are_used_once_and_shares_are_shares() {
        let mut names: Vec<&str> = PRACTICES.iter().map(|practice| practice.name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), PRACTICES.len());
        for practice in &PRACTICES {
            assert!((0.0..0.5).contains(&practice.unknown), "{}", practice.name);
            assert!((0.0..0.5).contains(&practice.lapse), "{}", practice.name);
        }
    }
}
