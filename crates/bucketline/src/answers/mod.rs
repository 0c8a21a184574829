//! Parts of answers that commands put together: figures in words, sheets and tables, how an answer ends.

pub mod changes_in_words;

pub mod charts;

pub mod closing;

pub mod compare_table;

pub mod figures;

pub mod flow_sheet;

pub mod flow_in_words;

pub mod grade_evidence;

pub mod hauls;

pub mod hose_instead;

pub mod hose_in_words;

pub mod people;

pub mod unlike_fires;
