//! Statistics of tests and examinations: pure functions, usable alone.
//!
//! | file | what it calculates |
//! |---|---|
//! | [`moments`] | mean, variance, quantiles |
//! | [`correlation`] | Pearson and point-biserial correlation with their intervals |
//! | [`reliability`] | Cronbach's alpha, KR-20, standard error of measurement |
//! | [`agreement`] | agreement of two decisions, and Cohen's kappa |
//! | [`brier`] | how good stated probabilities are: Brier score and its three parts |
//! | [`bootstrap`] | intervals by resampling people |
//! | [`two_parameter`] | the two-parameter logistic model, and the information of items |
//!
//! Everything is compared with figures of general-purpose libraries in `tests/reference/`.

pub mod agreement;
pub mod bootstrap;
pub mod brier;
pub mod correlation;
pub mod moments;
pub mod reliability;
pub mod two_parameter;
