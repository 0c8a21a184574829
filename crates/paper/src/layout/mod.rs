//! From blocks to drawings on a sheet.

pub mod block;

mod lines;

pub mod set;

pub mod table;

pub mod sheet;

#[cfg(test)]
mod tests;
