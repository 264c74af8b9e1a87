//! When an item of the checklist may be ticked or opened again.

use super::super::checklist_item::ChecklistItem;
use super::refusal::{Refusal, refuse};
use crate::scenario::setup::Setup;

/// Whether an item may be marked: the scenario allows the checklist, and this order's has the item.
pub(super) fn may_mark(setup: &Setup, item: ChecklistItem) -> Result<(), Refusal> {
    if !setup.terms.allows_checklist() {
        return refuse("this scenario does not allow a checklist");
    }
    if !ChecklistItem::of(&setup.work_order, &setup.terms).contains(&item) {
        return refuse(format!(
            "the checklist of this order has no item `{}`: tick one that it has",
            item.name()
        ));
    }
    Ok(())
}
