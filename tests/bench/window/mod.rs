//! The bench's window without a screen: real layout, real picking, real focus, no pixels.

mod harness;
mod keyboard;
mod layout;
mod named;
mod pointer;
mod signed;
mod small;
mod tree;
mod typing;
