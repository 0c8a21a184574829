//! Texts with something wrong in them, and how it is told.

mod as_data;

mod hostile;

pub(super) mod mistake_rows;

mod mistakes;

mod slips;
