//! What a person is told of a scenario beyond its structure: mistakes and oddities in words, in the units of
//! the file, each traced to its place in the text.

pub(crate) mod doubts;

pub(crate) mod fact_mistakes;

mod path_of_place;

pub(crate) mod places;

mod say;

mod plan_words;

mod oddity_words;

pub(crate) mod remark;

pub(crate) mod subjects;

pub(crate) mod warnings;
