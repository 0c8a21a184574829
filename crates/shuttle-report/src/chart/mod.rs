//! Charts: functions from figures to SVG text, and from SVG text to a PNG picture.
//!
//! Every chart has the answer for a title, says below it what is drawn and in its foot of which scenario and from
//! how many runs, and puts units on its axes; what goes by the clock counts from the alarm. Colours are never alone
//! in carrying a meaning: what differs in colour differs in lightness or hatching too, so that a black-and-white
//! copy reads the same. No letters are smaller than 9 pt on an upright letter or A4 sheet.
//!
//! Read `elements` first (font, colours, scales, heading and foot, pictures), then one file a chart: `cycle`, what
//! goes by the `clock`, and `choices` held against each other. Lines of values are drawn by plotters; hatched bars,
//! lanes, and labels placed by their measured width are what chart libraries do not have, and are drawn here.

mod elements;

mod part_words;

pub mod cycle;

mod clock;

mod choices;

pub mod on_paper;

/// What drawings are made of, for pages that carry charts.
pub mod drawing {
    #[cfg(not(target_arch = "wasm32"))]
    pub use super::elements::font::database;
    pub use super::elements::font::{FAMILY, Weight, width};
    pub use super::elements::style::{BLACK, GRID, Look, QUIET, WHITE};
    pub use super::elements::svg::{Anchor, Area, Drawing, Stroke, Text, escaped};
}

#[cfg(test)]
pub(crate) mod demo;

#[cfg(test)]
pub(crate) mod drawn;

#[cfg(test)]
mod tests;

pub use part_words::part_words;

// The folders are for reading; these are the names by which others know the charts.
pub use choices::{
    chance_by_tankers, chance_in_doubt, chances, curves, differences, flow_by_distance,
    held_by_sites,
};
pub use clock::{first_interruption, flow_by_minute, levels, measured_and_predicted, timeline};

#[cfg(not(target_arch = "wasm32"))]
pub use elements::font_face::{Letters, with_fonts};
#[cfg(not(target_arch = "wasm32"))]
pub use elements::png_file::{png, png_at};

pub use elements::heading_and_foot::{Sheet, Size};

pub use elements::font::{REGULAR as FONT, SEMI_BOLD as SEMI_BOLD_FONT};

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
