//! The spreadsheets: which columns they have, and how they look before they are filled in.

pub(crate) mod columns;

pub(crate) mod mistakes;

pub(crate) mod read;

mod options_sheet;

mod rows;

mod units_sheet;

pub(crate) mod sources_and_plan;

use rows::Sheet;
pub(crate) use rows::nearest;

/// The sheets by name, in the order in which a chief fills them in; the last may be missing.
pub const SHEET_NAMES: [&str; 4] = ["units", "sources", "plan", "options"];

/// The sheets as they are handed out: headings, and rows of an invented example to write over. Together they are a
/// plan that runs.
/// What could be bought is left blank: a row there is about a unit that must be in the plan.
pub const BLANK_SHEETS: [(&str, &str); 4] = [
    ("units.csv", include_str!("units.csv")),
    ("sources.csv", include_str!("sources.csv")),
    ("plan.csv", include_str!("plan.csv")),
    ("options.csv", include_str!("options.csv")),
];

/// The sheets that make a plan.
#[derive(Clone)]
pub(crate) struct Sheets {
    pub(crate) units: Sheet,
    pub(crate) sources: Sheet,
    pub(crate) fire: Sheet,
}
