//! The tube between tap and manometer.
