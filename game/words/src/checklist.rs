//! The procedure at a glance, as a paper checklist that the trainee ticks.

use sim_core::session::SitePapers;
use sim_core::session::action::{Action, ChecklistItem};

/// The checklist of a job with what is ticked so far, or that there is none.
pub fn checklist<'a>(
    papers: &SitePapers<'_>,
    done: impl IntoIterator<Item = &'a Action>,
) -> String {
    if !papers.terms.allows_checklist() {
        return "This scenario does not allow a checklist.".to_owned();
    }
    let ticked = ChecklistItem::ticked(done);
    let mut text = "Procedure at a glance. You tick it; no marks depend on it.\n".to_owned();
    for item in ChecklistItem::of(papers.work_order, papers.terms) {
        let tick = if ticked.contains(&item) { "x" } else { " " };
        text.push_str(&format!("  [{tick}] {:<22} {}\n", item.name(), item.printed()));
    }
    text.push_str("To tick an item, say for example `tick manometer`; to strike out a tick, `untick manometer`.");
    text
}
