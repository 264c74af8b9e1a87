//! Cords, plugs and switches.
