//! What a front end shows, and who makes it, without the sentences themselves: the parts of a report,
//! plots, units, the next step of the work, and the services that say and lay all this out.
//!
//! ```text
//! words implements SpeechService ----.
//! report implements ReportService ---+--> the program hands both to the window
//! ```
//!
//! The window, the hands and the paint know these types and nothing of the packages behind them: a
//! sentence or a section that changes is compiled without them.

pub mod advice;
pub mod beside;
pub mod briefing;
pub mod document;
pub mod names;
pub mod own_sums;
pub mod plot;
pub mod report_service;
pub mod review;
#[cfg(feature = "sample")]
pub mod sample;
pub mod snapshot;
pub mod speech_service;
pub mod units;

pub use report_service::ReportService;
pub use speech_service::SpeechService;
