//! Things of a scenario's text by the names people give them, where a list would have a number: a tanker, a
//! fill site, a drop tank by who brings it.

pub(crate) mod entries;

pub(crate) mod path_by_name;
