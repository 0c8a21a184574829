//! Texts with something wrong in them, and how it is told.

mod hostile;

pub(super) mod mistake_rows;

mod mistakes;

mod slips;
