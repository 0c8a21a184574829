//! Answers as typed values: one question, one function from a checked scenario to an [`Answer`].
//!
//! Data flows one way: a checked scenario and a budget of runs go into a [`question`], which returns an
//! [`Answer`] of sentences ([`mod@say`]), tables and pictures with the figures they rest on. Sentences hold
//! quantities and names as values; only a [`Reader`] turns them into words, with the reader's units and word
//! for a tanker. Renderers: [`text`] for a terminal, [`json`] for programs. No files, threads or terminal.
//!
//! # One question
//!
//! ```
//! use std::path::Path;
//!
//! use answers::question::{Budget, risk::risk};
//! use answers::{Reader, json::json};
//! use shuttle_report::batch::Control;
//!
//! let scenario = scenario_file::read(Path::new("starter.json"), scenario_file::STARTER)?;
//! let budget = Budget { replications: 400, seed: 1, threads: 2 };
//! let answer = risk(&scenario, budget, false, &Control::default());
//! let reader = Reader { units: scenario.units, tender: false };
//! assert_eq!(json(&answer, &reader)["replications"], 400);
//!
//! // However many threads share the work, the figures are the same.
//! let alone = risk(&scenario, Budget { threads: 1, ..budget }, false, &Control::default());
//! assert_eq!(json(&answer, &reader), json(&alone, &reader));
//! # Ok::<(), scenario_file::ScenarioError>(())
//! ```
//!
//! Read in this order: `say` (words with values in them), `answer`, `picture`, `reader`, `text`, `json`, then one file
//! a question.

pub mod say;

pub mod answer;

pub mod picture;

pub mod reader;

pub mod text;

pub mod html;

pub mod json;

pub mod refusal;

mod shared;

pub mod question;

/// What pages show of figures that several questions share.
pub mod shown {
    pub use crate::shared::asked::asked_words;
    pub use crate::shared::changes::told_change;
    pub use crate::shared::quantities::flow;
    pub use crate::shared::station::{CapFigures, StationKind};
}

pub mod schema;

pub use answer::{Advice, Answer, Basis, Block, Label, Told};
pub use picture::{Date, Imprint, Picture};
pub use reader::Reader;
pub use say::{Piece, Sentence};
