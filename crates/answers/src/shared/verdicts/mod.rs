//! What was found of a plan or a change, in words: better or worse, causes, losses, the target.

pub(crate) mod against;

pub(crate) mod causes;

pub(crate) mod changes;

pub(crate) mod held_back;

pub(crate) mod lost;

pub(crate) mod never_binds;

pub(crate) mod target;
