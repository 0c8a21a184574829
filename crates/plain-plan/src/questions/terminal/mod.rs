//! Questions on a terminal: one and its answer, what an answer is put into, and the whole until it is right.

pub(in crate::questions) mod prompt;
pub(in crate::questions) mod put_in;
pub(in crate::questions) mod until_right;
