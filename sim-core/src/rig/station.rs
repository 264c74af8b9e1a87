//! Weather and mains.
