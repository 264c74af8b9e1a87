//! Lid, nuts, gaskets, and what lies on the filter holder.
