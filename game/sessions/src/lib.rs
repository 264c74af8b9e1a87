//! Where sessions live: opening them from a scenario or a journal, driving them, ending and marking
//! them, and keeping their journals on disk.
//!
//! ```text
//! scenario or journal -> Opened -> LiveSession (act, advance, view, book, papers) -> MarkedSession
//! ```
//!
//! Every front end stands on this package: it has the errors that they report and the seam
//! ([`LiveSession`]) through which they drive a session.

mod action_json;
mod clock;
mod drill_records;
mod error;
mod folders;
mod journal_ends;
mod journal_file;
mod line_input;
mod live;
mod local_storage;
mod marked;
mod opened;
mod outcome;
mod person;
mod printable;
mod replace_files;
mod storage;
mod text_file;

pub use action_json::action_from_json;
pub use clock::wall_clock_s;
pub use drill_records::{DRILL_EXTENSION, DrillRecords, drill_records, read_drill_journal};
pub use error::FrontEndError;
pub use folders::data_folder;
pub use journal_file::{Durability, JournalFile};
pub use line_input::{InputLine, read_line};
pub use live::LiveSession;
pub use local_storage::LocalStorage;
pub use marked::{MarkedSession, mark_ended};
pub use opened::{Opened, begin, begin_text, open_session, open_text, read_journal};
pub use outcome::Outcome;
pub use person::{PersonName, PersonNameError};
pub use printable::{printable, printable_json, printable_lines, printable_path};
pub use replace_files::{PublishedFile, replace_files};
pub use storage::{
    JobKind, KeptSession, KeptState, KeptText, MarksGot, Publisher, ScenarioCard, Storage,
    StorageId,
};
pub use text_file::{
    LARGEST_TEXT, only_a_file, read_bytes_from, read_bytes_up_to, read_text, read_text_up_to,
};
