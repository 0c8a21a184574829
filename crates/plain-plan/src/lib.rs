//! A first plan as a chief says it, made into a scenario file: question by question, or in three spreadsheets.
//!
//! Data flows one way: answers ([`ask`]) or sheets ([`read_sheets`]) become a [`FirstPlan`], and that the text of a
//! scenario ([`scenario_text()`]). No limit is kept here: the scenario file's own check finds what is wrong, and each
//! mistake leads back to the answer or the cell ([`Part`]).
//!
//! Read in this order: `amount` (numbers as people type them), `alarms`, `first_plan`, `part`, `source_text`,
//! `scenario_text`, `careful`, `tidy_json`, `sheets`, `questions`.

mod alarms;

mod amount;

mod first_plan;

mod part;

mod scenario_text;

mod source_text;

mod careful;

mod tidy_json;

mod sheets;

mod questions;

pub use amount::{Amount, NoAmount};
pub use careful::Careful;
pub use first_plan::{DropTank, Engine, FirstPlan, Source, Start, Tanker};
pub use part::{OfSource, OfUnit, Part};
pub use questions::building::ask_building;
pub use questions::{AskError, ask};
pub use scenario_text::{WrongPart, scenario_text};
pub use sheets::mistakes::{SheetMistake, SheetMistakes};
pub use sheets::read::{EngineAtSource, Imported, read_sheets};
pub use sheets::{BLANK_SHEETS, SHEET_NAMES};
