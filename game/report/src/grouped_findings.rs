//! Findings that say the same, grouped: each is reported once, with every point at which it was made.

use sim_core::procedure::ProcedureFinding;

/// Findings of one rule with the same evidence.
#[derive(Debug, Clone)]
pub struct GroupedFinding<'a> {
    /// The first of them.
    pub finding: &'a ProcedureFinding,
    /// The points at which it was made, in order.
    pub points: Vec<u8>,
}

/// Findings of one rule that show the same, each once.
pub fn grouped(findings: &[ProcedureFinding]) -> Vec<GroupedFinding<'_>> {
    let mut groups: Vec<GroupedFinding<'_>> = Vec::new();
    for finding in findings {
        let same = |group: &&mut GroupedFinding<'_>| {
            (group.finding.rule, &group.finding.evidence) == (finding.rule, &finding.evidence)
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.points.extend(finding.point),
            None => {
                groups
                    .push(GroupedFinding { finding, points: finding.point.into_iter().collect() });
            }
        }
    }
    groups
}

/// `, point 2`, `, points 2, 3, 5`, or nothing: what is added to a time.
pub fn at_points(points: &[u8]) -> String {
    let names: Vec<String> = points.iter().map(u8::to_string).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => format!(", point {one}"),
        many => format!(", points {}", many.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::at_points;

    #[test]
    fn points_are_named_in_words() {
        assert_eq!(at_points(&[]), "");
        assert_eq!(at_points(&[2]), ", point 2");
        assert_eq!(at_points(&[2, 3, 5]), ", points 2, 3, 5");
    }
}
