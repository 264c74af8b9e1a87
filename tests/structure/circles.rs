//! Circles in a graph of files: its strongly connected components of more than one file.

use std::collections::{BTreeMap, BTreeSet};

use super::uses::Use;

/// A circle: its files, and the uses between them that tie it.
#[derive(Debug, PartialEq, Eq)]
pub struct Circle {
    /// The files, in the order of their names.
    pub files: Vec<String>,
    /// A use for each two of them that are tied, in the same order.
    pub ties: Vec<Use>,
}

impl std::fmt::Display for Circle {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        writeln!(f, "a circle of {} files:", self.files.len())?;
        for tie in &self.ties {
            writeln!(f, "  {tie}")?;
        }
        Ok(())
    }
}

/// The circles in these uses.
pub fn circles(uses: &[Use]) -> Vec<Circle> {
    let (mut forth, mut back) = (Edges::new(), Edges::new());
    for edge in uses.iter().filter(|edge| edge.from != edge.to) {
        forth.entry(&edge.from).or_default().insert(&edge.to);
        back.entry(&edge.to).or_default().insert(&edge.from);
    }
    let mut placed = BTreeSet::new();
    let mut found = Vec::new();
    for file in forth.keys().copied() {
        if placed.contains(file) {
            continue;
        }
        // Whatever can be reached from a file and reaches it again lies on a circle with it.
        let ahead = reached(&forth, file);
        let behind = reached(&back, file);
        let files: BTreeSet<&str> = ahead.intersection(&behind).copied().collect();
        placed.extend(files.iter().copied());
        if files.len() > 1 {
            let within = |edge: &&Use| {
                edge.from != edge.to
                    && files.contains(edge.from.as_str())
                    && files.contains(edge.to.as_str())
            };
            let mut ties: Vec<Use> = uses.iter().filter(within).cloned().collect();
            ties.sort();
            // One path says which way two files are tied.
            ties.dedup_by(|a, b| (&a.from, &a.to) == (&b.from, &b.to));
            found.push(Circle { files: files.iter().map(ToString::to_string).collect(), ties });
        }
    }
    found
}

type Edges<'a> = BTreeMap<&'a str, BTreeSet<&'a str>>;

/// A file and all that can be reached from it.
fn reached<'a>(edges: &Edges<'a>, from: &'a str) -> BTreeSet<&'a str> {
    let (mut seen, mut open) = (BTreeSet::from([from]), vec![from]);
    while let Some(file) = open.pop() {
        for &next in edges.get(file).into_iter().flatten() {
            if seen.insert(next) {
                open.push(next);
            }
        }
    }
    seen
}
