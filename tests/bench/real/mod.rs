//! The program itself in a window on a virtual screen, worked from outside: by a pointer alone, and
//! by a keyboard alone. What there is to point at and to hear is what a screen reader is told; what
//! an instrument reads is read from the screen's pixels.

mod contrast;
mod cost;
mod glass;
mod hands;
mod job;
mod keyboard;
mod killed;
mod pointer;
mod readings;
mod resumed;
mod run_back;
mod run_job;
mod runs;
mod screen;
mod starts;
mod tally;
