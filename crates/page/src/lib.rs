//! The planner page: bucketline's answers compiled for a browser, and the page itself.
//!
//! The same functions that answer on the command line answer here: a text goes in, JSON comes out. Nothing here
//! knows a file, a clock or a thread; the browser runs one engine in each of its workers. [`planner()`] puts the
//! page, the compiled engine and a scenario into one file that needs nothing else.
//!
//! Read in this order: `calls` (what the page may ask), `fire` (one fire as the clock shows it), `bindings`
//! (the same for a browser), `planner` (the one file).
//!
//! # A question as the page asks it
//!
//! ```
//! use page::{Ask, Reply};
//!
//! let ask: Ask = serde_json::from_str(r#"{"question": "risk", "tries_help": false, "runs": 256}"#)?;
//! let Reply::Answered { answer, .. } = page::answer("starter.json", scenario_file::STARTER, &ask) else {
//!     panic!("the starter is sound");
//! };
//! assert_eq!(answer["replications"], 256);
//! # Ok::<(), serde_json::Error>(())
//! ```

mod asked;

mod reply;

mod calls;

mod fire;

#[cfg(target_arch = "wasm32")]
mod bindings;

#[cfg(not(target_arch = "wasm32"))]
mod planner;

pub use asked::{Ask, Day, Question, Unit};
pub use calls::{answer, read};
pub use fire::{Fire, FireAsk, Level, fire};
#[cfg(not(target_arch = "wasm32"))]
pub use planner::planner;
pub use reply::{Drawn, Read, Refused, Reply, ReplyOf, Warned, Wrong};
