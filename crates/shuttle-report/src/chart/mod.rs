//! Charts: functions from figures to SVG text, and from SVG text to a PNG picture.
//!
//! Every chart says in its heading what it shows, in its foot from how many runs, and puts units on
//! its axes. Colours are never alone in carrying a meaning: what differs in colour differs in
//! lightness or hatching too, so that a black-and-white copy reads the same.
//!
//! Read in this order: `font` (how wide a text is), `style` (colours and hatching), `svg` (the
//! elements), `axis` (scales), `heading_and_foot` (heading, legend, foot), then one file a chart. The plain
//! curve of `chance_by_minute` is drawn by plotters; the others are hatched bars, lanes and labels placed by
//! their measured width, which chart libraries do not have, and are plain SVG elements.

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

pub mod chance_by_minute;

pub mod differences;

pub mod cycle;

mod run_spans;

pub mod timeline;

pub mod flow_by_distance;

pub mod flow_by_minute;

pub mod held_by_sites;

pub mod measured_and_predicted;

#[cfg(test)]
pub(crate) mod demo;

#[cfg(test)]
mod tests;

pub use part_words::part_words;
use resvg::{tiny_skia, usvg};

/// Widest PNG, pixels: beyond it a chart gains nothing and memory runs out.
pub const WIDEST_PNG: u32 = 8_000;

/// Tallest PNG, pixels.
const TALLEST_PNG: f32 = 30_000.0;

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

/// Turns a chart into a PNG picture with a white ground, its letters drawn with the embedded font.
///
/// - Given: `svg`, the text of one of these charts; `width_px`, from 1 to [`WIDEST_PNG`].
/// - Returns: the bytes of a PNG file; its height follows from the chart's shape, and printed it is as large as the
///   SVG: the file says how many pixels make a metre.
/// - Errors: [`ChartError::PngWidth`], [`ChartError::PngHeight`], [`ChartError::Png`].
pub fn png(svg: &str, width_px: u32) -> Result<Vec<u8>, ChartError> {
    if !(1..=WIDEST_PNG).contains(&width_px) {
        return Err(ChartError::PngWidth { width: width_px });
    }
    let tree = tree_of(svg)?;
    let scale = width_px as f32 / tree.size().width();
    let height = (tree.size().height() * scale).ceil().max(1.0);
    let too_tall = ChartError::PngHeight { width: width_px, height };
    if height > TALLEST_PNG {
        return Err(too_tall);
    }
    let mut picture = tiny_skia::Pixmap::new(width_px, height as u32).ok_or(too_tall)?;
    picture.fill(tiny_skia::Color::WHITE);
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut picture.as_mut());
    encoded(&picture, tree.size().width())
}

/// The same with so many pixels for each CSS pixel of the chart, as far as [`WIDEST_PNG`] allows.
///
/// - Errors: as [`png`].
pub fn png_at(svg: &str, scale: f32) -> Result<Vec<u8>, ChartError> {
    let width = (tree_of(svg)?.size().width() * scale).round() as u32;
    png(svg, width.clamp(1, WIDEST_PNG))
}

fn tree_of(svg: &str) -> Result<usvg::Tree, ChartError> {
    let options = usvg::Options {
        font_family: font::FAMILY.to_owned(),
        fontdb: font::database(),
        ..usvg::Options::default()
    };
    usvg::Tree::from_str(svg, &options).map_err(|error| ChartError::Png(error.to_string()))
}

/// CSS pixels in a metre: 96 in an inch of 25.4 mm (CSS Values and Units).
const CSS_PIXELS_A_METRE: f32 = 96.0 / 0.0254;

/// The picture as a PNG file that says how large it prints: as large as the SVG.
fn encoded(picture: &tiny_skia::Pixmap, svg_width: f32) -> Result<Vec<u8>, ChartError> {
    let a_metre = (picture.width() as f32 / svg_width * CSS_PIXELS_A_METRE).round() as u32;
    let failed = |error: png::EncodingError| ChartError::Png(error.to_string());
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, picture.width(), picture.height());
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: a_metre,
        yppu: a_metre,
        unit: png::Unit::Meter,
    }));
    let mut writer = encoder.write_header().map_err(failed)?;
    // On a white ground nothing is left transparent: colours multiplied by alpha are the colours.
    writer.write_image_data(picture.data()).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(file)
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
