//! Parts of answers that commands put together: figures in words, sheets and tables, how an answer ends.

pub mod charts;

pub mod closing;

pub mod compare_table;

pub mod figures;

pub mod unlike_fires;
