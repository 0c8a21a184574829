//! A first plan as a chief says it, made into a scenario file: question by question, or in three spreadsheets.
//!
//! Data flows one way: answers ([`ask`]) or sheets ([`read_sheets`]) become a [`FirstPlan`], and that the text of a
//! scenario ([`scenario_text()`]). No limit is kept here: the scenario file's own check finds what is wrong, and each
//! mistake leads back to the answer or the cell ([`Part`]). A scenario that was made so, and one that says no more, is
//! read back into the plan ([`opened()`]), to be mended.
//!
//! Read in this order: `amount` (numbers as people type them), `alarms`, `first_plan`, `part`, `slot`, `source_text`,
//! `scenario_text`, `settled`, `opened`, `careful`, `tidy_json`, `sentences`, `sheets`, `questions`.

mod alarms;

mod amount;

mod first_plan;

mod settled;

mod part;

mod slot;

mod scenario_text;

mod source_text;

mod opened;

mod careful;

mod tidy_json;

mod sentences;

mod sheets;

mod questions;

pub use amount::{Amount, NoAmount};
pub use careful::Careful;
pub use first_plan::{DropTank, Engine, FirstPlan, Source, Start, Tanker};
pub use opened::not_kept::NotKept;
pub use opened::opened;
pub use part::{OfSource, OfUnit, Part};
pub use questions::building::{ask_building, ask_to_mend_building};
pub use questions::{AskError, ask, ask_to_mend};
pub use scenario_text::{WrongPart, scenario_text};
pub use sentences::brief::in_sentences;
pub use sheets::mistakes::{SheetMistake, SheetMistakes};
pub use sheets::read::{EngineAtSource, Imported, read_sheets};
pub use sheets::{BLANK_SHEETS, SHEET_NAMES};
