//! Truth, marks, and findings.
