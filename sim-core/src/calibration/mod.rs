//! The sums of 40 CFR Part 50 Appendix B.
