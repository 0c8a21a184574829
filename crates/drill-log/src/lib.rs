//! What a recorder with a clipboard writes at a tanker-shuttle drill, read into trips and timed steps.
//!
//! Data flows one way: a file becomes a table of cells ([`open`]), a table becomes a log of trips ([`read`]),
//! with every mistake found at once and every guess told, and a log becomes readings ([`measure()`]): how long
//! each step took, waiting told apart from work. No terminal, no scenario, no simulation: what the log is held
//! against is a [`Course`].
//!
//! # From a text to readings
//!
//! ```
//! use drill_log::{Course, CourseTanker, Site, Step, measure, open_text, read};
//!
//! let course = Course {
//!     tankers: vec![CourseTanker { name: "Tanker 3".to_owned(), load: 2_700.0, site: None }],
//!     sites: vec![Site { name: "Quarry pond".to_owned(), positions: 1, one_at_a_time: true }],
//!     dump_positions: 1,
//! };
//! let text = "tanker,arrived at fill,connected,full,left fill\nTanker 3,13:05:00,13:06:12,13:09:30,13:10:00\n";
//! let log = read(&open_text(text.as_bytes())?, &course)?;
//! let connecting = &measure(&log, &course).readings[0];
//! assert_eq!((connecting.step, connecting.minutes), (Step::FillConnect, 1.2));
//!
//! // A mistake names its row and column.
//! let wrong = text.replace("13:06:12", "13.06");
//! let mistakes = read(&open_text(wrong.as_bytes())?, &course).expect_err("a point is no colon");
//! assert!(mistakes.to_string().contains("row 2, column 'connected'"), "{mistakes}");
//! # Ok::<(), drill_log::LogError>(())
//! ```
//!
//! Read in this order: `stamp` (the eight moments of a trip), `course`, `table` and `open` (from a file to
//! cells), `reading` (from cells to a log), `mistakes` and `guesses` (what is wrong, what was assumed), `log`,
//! `held` (who held a place), `steps` (readings), `figures` (what many readings say), `sheet` (the blank form).

mod stamp;

mod course;

mod table;

mod open;

mod mistakes;

mod guesses;

mod told;

mod log;

mod reading;

mod held;

mod steps;

mod figures;

mod sheet;

pub use course::{Course, CourseTanker, Site};
pub use figures::{Figures, Outlier, figures, outliers};
pub use guesses::Guess;
pub use log::{Log, Trip, Zero};
pub use mistakes::{LogError, Mistake, Spot, Wrong};
pub use open::{open, open_text};
pub use reading::clock::{ClockOf, time_of_day};
pub use reading::{Field, read};
pub use sheet::{columns, headings, page};
pub use stamp::Stamp;
pub use steps::{Breakdown, Crowd, Measured, Place, Reading, Step, Untold, Wait, measure};
pub use table::{Cell, Row, Table};
