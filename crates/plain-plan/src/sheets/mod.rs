//! The three spreadsheets: which columns they have, and how they look before they are filled in.

pub(crate) mod columns;

pub(crate) mod mistakes;

pub(crate) mod read;

mod rows;

mod units_sheet;

pub(crate) mod sources_and_plan;

/// The sheets by name, in the order in which a chief fills them in.
pub const SHEET_NAMES: [&str; 3] = ["units", "sources", "plan"];

/// The sheets as they are handed out: headings, and rows of an invented example to write over. Together they are a
/// plan that runs.
pub const BLANK_SHEETS: [(&str, &str); 3] = [
    ("units.csv", include_str!("units.csv")),
    ("sources.csv", include_str!("sources.csv")),
    ("plan.csv", include_str!("plan.csv")),
];
