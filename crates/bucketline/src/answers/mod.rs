//! Parts of answers that commands put together: figures in words, sheets and tables, how an answer ends.

pub mod charts;

pub mod closing;

pub mod figures;

pub mod flow_sheet;

pub mod flow_in_words;

pub mod grade_evidence;

pub mod hauls;

pub mod hose_instead;

pub mod hose_in_words;

pub mod people;
