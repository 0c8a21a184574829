//! What is wrong with a file: where it stands in the text, and how a person is shown it.

pub(crate) mod asked_mistakes;

pub(crate) mod excerpt;

pub(crate) mod finding;

pub(crate) mod kinds;

pub(crate) mod message;

pub(crate) mod mistakes;

pub(crate) mod position;

pub(crate) mod shown;

pub(crate) mod similar_words;
