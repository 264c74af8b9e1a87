//! The command line as a user meets it.

<<<<<<< HEAD
mod sums;
=======
mod check;
>>>>>>> scen
