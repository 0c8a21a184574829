//! Scenario files: reading them, telling what is wrong with them, describing them to editors.
//!
//! Data flows one way; each folder uses only those above it in this list:
//!
//! - `errors`: where something stands in a text, what a person is told as parts, and how a mistake is shown;
//! - `quantities`: numbers with units;
//! - `format`: the tables that describe every object and field, and the JSON Schema made of them;
//! - `structure`: from a file to values checked against those tables;
//! - `told`: mistakes and oddities in words, traced to their line and column;
//! - `read`: from checked values to a checked plan;
//! - `by_name`: things of a text by the names people give them;
//! - `options`: the same text with something changed;
//! - `asked`: the same scenario with what is asked for beside its file;
//! - `scenario`, `building_file`, `write_flow`, `write_values`: what the commands ask for.
//!
//! # From a text to a plan
//!
//! ```
//! use std::path::Path;
//!
//! let path = Path::new("starter.json");
//! let scenario = scenario_file::read(path, scenario_file::STARTER)?;
//! assert_eq!(scenario.plan.facts().tankers[0].name, "Tanker 3");
//!
//! // A mistake is told with its line and what would put it right.
//! let wrong = scenario_file::STARTER.replace(r#""waste": 0.05"#, r#""waste": 5"#);
//! let Err(mistakes) = scenario_file::read(path, &wrong) else { panic!("5 is no share") };
//! let told = mistakes.to_string();
//! assert!(told.contains("waste") && told.contains("0.05"), "{told}");
//! # Ok::<(), scenario_file::ScenarioError>(())
//! ```

mod asked;

mod building_file;

mod by_name;

mod errors;

mod format;

mod options;

mod quantities;

mod read;

mod scenario;

mod structure;

mod told;

mod write_flow;

mod write_values;

pub use self::format::beside::addresses::MOST_ADDRESSES;
pub use self::format::haul::alarms::Alarm;
pub use self::read::aid::Aid;
pub use self::read::beside::crew_and_hose::{Crew, Hose};
pub use self::read::facts::building_flow::BuildingFlow;
pub use self::read::reader::Derived;
pub use self::told::warnings::Warning;
pub use asked::{Asked, AskedChange, Asks, Gone};
pub use building_file::{WaterWanted, load_building, read_building};
pub use errors::asked_mistakes::{AskedMistake, AskedMistakes};
pub use errors::kinds::{MistakeKind, NoteKind};
pub use errors::message::{Before, Figure, Message, Part};
pub use errors::mistakes::{FileMistake, FileMistakes, ScenarioError};
pub use errors::shown::{harmless, shell_quoted};
pub use format::schema::{building_schema, json_schema, page_schema};
pub use options::json_equality::is_equal;
pub use options::scenario_options::ScenarioOption;
pub use quantities::bare_number::{Measure, bare_number};
pub use quantities::quantity::Units;
pub use quantities::slips::{currency, one_number};
pub use scenario::{Scenario, changed_text, doubts_of, load, load_asked, read, read_asked};
pub use write_flow::{Replaced, with_building_flow};
pub use write_values::{Only, Put, PutThere, WithValues, with_values};

/// A whole scenario that runs, to start a new one from: an invented fire in an invented county.
pub const STARTER: &str = include_str!("starters/scenario.json");

/// The same fire with tankers that could be asked for.
pub const STARTER_AID: &str = include_str!("starters/aid.json");

/// The same fire with things that could be bought or changed.
pub const STARTER_OPTIONS: &str = include_str!("starters/options.json");

/// A building, to see what flow it wants.
pub const STARTER_BUILDING: &str = include_str!("starters/building.json");

#[cfg(test)]
mod tests;
