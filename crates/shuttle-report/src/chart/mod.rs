//! Charts: functions from figures to SVG text, and from SVG text to a PNG picture.
//!
//! Every chart says in its heading what it shows, in its foot from how many runs, and puts units on
//! its axes. Colours are never alone in carrying a meaning: what differs in colour differs in
//! lightness or hatching too, so that a black-and-white copy reads the same.
//!
//! Read in this order: `font` (how wide a text is), `style` (colours and hatching), `svg` (the
//! elements), `axis` (scales), `heading_and_foot` (heading, legend, foot), then one file a chart; `png_file`
//! turns any of them into a picture. The plain curve of `chance_by_minute` is drawn by plotters, and not in a
//! browser; the others are hatched bars, lanes and labels placed by their measured width, which chart libraries
//! do not have, and are plain SVG elements.

mod font;

mod style;

mod part_words;

mod svg;

mod axis;

mod heading_and_foot;

pub mod chance_by_tankers;

pub mod chance_in_doubt;

pub mod levels;

pub mod first_interruption;

#[cfg(not(target_arch = "wasm32"))]
pub mod chance_by_minute;

pub mod differences;

pub mod cycle;

mod run_spans;

pub mod timeline;

pub mod flow_by_distance;

pub mod flow_by_minute;

pub mod held_by_sites;

pub mod measured_and_predicted;

pub mod on_paper;

/// What drawings are made of, for pages that carry charts.
pub mod drawing {
    #[cfg(not(target_arch = "wasm32"))]
    pub use super::font::database;
    pub use super::font::{FAMILY, Weight, width};
    pub use super::style::{BLACK, GRID, Look, QUIET, WHITE};
    pub use super::svg::{Anchor, Area, Drawing, Stroke, Text, escaped};
}

#[cfg(not(target_arch = "wasm32"))]
mod png_file;

#[cfg(test)]
pub(crate) mod demo;

#[cfg(test)]
mod tests;

pub use part_words::part_words;

#[cfg(not(target_arch = "wasm32"))]
pub use png_file::{png, png_at};

pub use font::{REGULAR as FONT, SEMI_BOLD as SEMI_BOLD_FONT};

/// Widest PNG, pixels: beyond it a chart gains nothing and memory runs out.
pub const WIDEST_PNG: u32 = 8_000;

/// Why a chart cannot be drawn.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ChartError {
    /// A number that a chart cannot show.
    #[error("{what} is {value}: it must be {limit}")]
    BadNumber {
        /// Which number.
        what: String,
        /// What it is.
        value: f64,
        /// What it may be.
        limit: &'static str,
    },
    /// The summary has no levels over time.
    #[error("the batch kept no levels over time: run it again and keep the levels")]
    LevelsNotKept,
    /// A PNG width outside the range.
    #[error("a PNG cannot be {width} pixels wide: it must be from 1 to {WIDEST_PNG}")]
    PngWidth {
        /// Pixels asked for.
        width: u32,
    },
    /// A picture too tall for its width to fit in memory.
    #[error(
        "a PNG {width} pixels wide would be {height} pixels high, more than can be held: ask for a narrower one"
    )]
    PngHeight {
        /// Pixels asked for.
        width: u32,
        /// Pixels it would take.
        height: f32,
    },
    /// The chart library failed.
    #[error("the chart library failed: {0}")]
    Drawing(String),
    /// The text is not SVG, or the picture could not be written.
    #[error("the chart cannot be turned into a PNG: {0}")]
    Png(String),
}

/// The runs a chart is made from, for its foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct MadeFrom {
    /// Runs of each plan shown.
    pub runs: u64,
    /// Their seed.
    pub seed: u64,
}

/// A number a chart can show: finite and not below zero.
fn finite(what: &str, value: f64) -> Result<f64, ChartError> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(ChartError::BadNumber {
            what: what.to_owned(),
            value,
            limit: "a finite number, zero or more",
        })
    }
}

/// A chance a chart can show: from 0 to 1.
fn chance(what: impl Fn() -> String, value: f64) -> Result<f64, ChartError> {
    if (0.0..=1.0).contains(&value) {
        Ok(value)
    } else {
        Err(ChartError::BadNumber { what: what(), value, limit: "from 0 to 1" })
    }
}
