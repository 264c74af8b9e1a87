//! The report of a session: its figures agree wherever they are written, it is right in a real
//! browser and on paper, and it is there at once. And the progress over a person's sessions.

mod agreement;
mod browser;
mod costs;
mod desk;
mod everything;
mod forms;
mod paper;
mod progress;
mod progress_agreement;
mod screen;
