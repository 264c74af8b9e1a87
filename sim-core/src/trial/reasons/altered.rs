//! Changes of a single parameter of a scenario.

use serde::Serialize;

use crate::fault::{Fault, Onset, Signs, Size};
use crate::scenario::Scenario;
use crate::scenario::setup::MarkPartName;

/// What to change in a scenario.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Alteration {
    /// The parameter, by its path in the file.
    pub parameter: String,
    /// Its value now.
    pub from: String,
    /// A value with which the session of this seed goes as it should; none if no single value was found.
    pub to: Option<String>,
    /// What that does.
    pub effect: String,
}

impl Alteration {
    /// What to do, in a sentence.
    pub fn sentence(&self) -> String {
        let Self { parameter, from, effect, .. } = self;
        match &self.to {
            Some(to) => format!("To change: {parameter} from {from} to {to}: {effect}."),
            None => format!("To change: {parameter} ({from}): {effect}."),
        }
    }
}

/// A change and the scenario with it.
#[derive(Debug)]
pub(super) struct Altered {
    /// The scenario.
    pub scenario: Scenario,
    /// The parameter.
    pub parameter: String,
    /// Its value before.
    pub from: String,
    /// Its value in this scenario.
    pub to: String,
}

impl Altered {
    /// The change as it is told.
    pub fn told(self, effect: impl Into<String>) -> Alteration {
        let Self { parameter, from, to, .. } = self;
        Alteration { parameter, from, to: Some(to), effect: effect.into() }
    }
}

/// By what factors the size of a fault is raised, one after the other.
const LARGER: [f64; 6] = [1.25, 1.5, 2.0, 3.0, 5.0, 10.0];

/// The same scenario with a larger fault: the smallest change first, the largest size that is allowed
/// last.
pub(super) fn with_larger_fault(scenario: &Scenario, index: usize) -> Vec<Altered> {
    let Some(entry) = scenario.faults.get(index) else { return Vec::new() };
    let Some(size) = entry.fault.size() else { return Vec::new() };
    let sign = if size.signs == Signs::Either && size.value < 0.0 { -1.0 } else { 1.0 };
    let raised = LARGER.iter().map(|factor| rounded(size.value.abs() * factor));
    let mut sizes: Vec<f64> = raised.filter(|value| *value < size.largest).collect();
    sizes.push(size.largest);
    let larger = sizes.into_iter().filter(|value| *value > size.value.abs());
    larger.filter_map(|value| with_size(scenario, index, &size, sign * value)).collect()
}

fn with_size(scenario: &Scenario, index: usize, size: &Size, value: f64) -> Option<Altered> {
    let mut changed = scenario.clone();
    let entry = changed.faults.get_mut(index)?;
    entry.fault = resized(&entry.fault, size, value)?;
    Some(Altered {
        scenario: changed,
        parameter: format!("faults[{index}].fault.{}", size.field),
        from: format!("{} {}", size.value, size.unit),
        to: format!("{value} {}", size.unit),
    })
}

/// The same fault with another size. A fault is written as its name and its fields, so the field of the
/// size can be replaced there, whichever fault it is.
fn resized(fault: &Fault, size: &Size, value: f64) -> Option<Fault> {
    let written = |value: f64| Some(format!("{}:{}", size.field, ron::to_string(&value).ok()?));
    let text = ron::to_string(fault).ok()?;
    let changed = text.replacen(&written(size.value)?, &written(value)?, 1);
    ron::from_str(&changed).ok().filter(|changed| changed != fault)
}

/// Two digits are enough for a size.
fn rounded(value: f64) -> f64 {
    let mut scale = 1.0;
    while value * scale < 10.0 && scale < 1e6 {
        scale *= 10.0;
    }
    (value * scale).round() / scale
}

/// The same scenario with a fault that is there from the start.
pub(super) fn with_fault_from_the_start(scenario: &Scenario, index: usize) -> Option<Altered> {
    let mut changed = scenario.clone();
    let entry = changed.faults.get_mut(index)?;
    let from = std::mem::replace(&mut entry.onset, Onset::Start);
    (from != Onset::Start).then(|| Altered {
        scenario: changed,
        parameter: format!("faults[{index}].onset"),
        from: ron::to_string(&from).unwrap_or_default(),
        to: "Start".to_owned(),
    })
}

/// The same scenario with another pass mark.
pub(super) fn with_pass_mark(scenario: &Scenario, pass_mark: f64) -> Altered {
    let mut changed = scenario.clone();
    let from = std::mem::replace(&mut changed.terms.pass_mark, pass_mark);
    Altered {
        scenario: changed,
        parameter: "terms.pass_mark".to_owned(),
        from: from.to_string(),
        to: pass_mark.to_string(),
    }
}

/// The same scenario with another weight for one part of the marks; the other parts share the rest as
/// they did.
pub(super) fn with_weight(scenario: &Scenario, part: MarkPartName, weight: f64) -> Option<Altered> {
    let mut changed = scenario.clone();
    let weights = &mut changed.terms.weights;
    let from = weights.of(part);
    if weight <= from || from >= 100.0 {
        return None;
    }
    let rest = (100.0 - weight) / (100.0 - from);
    for name in MarkPartName::ALL {
        *weights.of_mut(name) *= rest;
    }
    *weights.of_mut(part) = weight;
    Some(Altered {
        scenario: changed,
        parameter: format!("terms.weights.{}", part.words()),
        from: from.to_string(),
        to: format!("{weight} (the others in proportion)"),
    })
}

/// The same scenario with another time limit, minutes; none for as much time as is wanted.
pub(super) fn with_time_limit(scenario: &Scenario, limit_min: Option<f64>) -> Option<Altered> {
    let mut changed = scenario.clone();
    let from = std::mem::replace(&mut changed.terms.time_limit_min, limit_min)?;
    Some(Altered {
        scenario: changed,
        parameter: "terms.time_limit_min".to_owned(),
        from: format!("{from} min"),
        to: limit_min.map_or_else(|| "none".to_owned(), |limit| format!("{limit} min")),
    })
}

/// The same scenario without a demand on the parts that must have been assessed.
pub(super) fn with_nothing_to_be_assessed(scenario: &Scenario) -> Altered {
    let mut changed = scenario.clone();
    let from = std::mem::take(&mut changed.terms.assessed);
    Altered {
        scenario: changed,
        parameter: "terms.assessed".to_owned(),
        from: ron::to_string(&from).unwrap_or_default(),
        to: "[]".to_owned(),
    }
}

/// The same scenario with a rule out of force.
pub(super) fn with_rule_off(scenario: &Scenario, rule: &str) -> Altered {
    let mut changed = scenario.clone();
    let from = changed.terms.rules_off.clone();
    changed.terms.rules_off.push(rule.to_owned());
    let written = |rules: &Vec<String>| ron::to_string(rules).unwrap_or_default();
    Altered {
        parameter: "terms.rules_off".to_owned(),
        from: written(&from),
        to: written(&changed.terms.rules_off),
        scenario: changed,
    }
}

#[cfg(test)]
mod tests {
    use super::{resized, rounded};
    use crate::fault::Fault;

    #[test]
    fn every_fault_that_has_a_size_can_be_given_another() {
        let mut count = 0;
        for fault in Fault::examples() {
            let Some(size) = fault.size() else { continue };
            let value = if size.value > size.smallest { size.smallest } else { size.largest };
            let changed = resized(&fault, &size, value).unwrap();
            assert_eq!((changed.kind(), changed.place()), (fault.kind(), fault.place()));
            assert!((changed.size().unwrap().value - value).abs() < 1e-12, "{changed:?}");
            count += 1;
        }
        assert!(count > 20, "{count}");
    }

    #[test]
    fn sizes_have_two_digits() {
        assert!((rounded(0.1234) - 0.12).abs() < 1e-12);
        assert!((rounded(2.55) - 2.6).abs() < 1e-12);
        assert!((rounded(37.4) - 37.0).abs() < 1e-12);
        assert!(rounded(0.0).abs() < 1e-12);
    }
}
