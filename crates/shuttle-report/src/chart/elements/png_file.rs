//! A chart as a PNG picture, for paper and terminals; a browser draws the SVG itself.

use resvg::{tiny_skia, usvg};

use super::font;
use crate::chart::{ChartError, WIDEST_PNG};

/// Tallest PNG, pixels.
const TALLEST_PNG: f32 = 30_000.0;

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
    encoded(&picture, tree.size().width(), &about(svg))
}

/// The same with so many pixels for each CSS pixel of the chart, as far as [`WIDEST_PNG`] allows.
///
/// - Errors: as [`png()`].
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

/// The title of a chart and what it says of itself, with the keywords that the PNG specification (W3C, third
/// edition, 11.3.3.1) has for them.
fn about(svg: &str) -> Vec<(&'static str, String)> {
    let Ok(document) = usvg::roxmltree::Document::parse(svg) else { return Vec::new() };
    let of = |element| {
        let mut of_the_whole = document.root_element().children();
        let node = of_the_whole.find(|child| child.has_tag_name(element))?;
        Some(node.text()?.to_owned())
    };
    [("Title", of("title")), ("Description", of("desc"))]
        .into_iter()
        .filter_map(|(keyword, text)| Some((keyword, text?)))
        .collect()
}

/// The picture as a PNG file that says what it is, and how large it prints: as large as the SVG.
fn encoded(
    picture: &tiny_skia::Pixmap,
    svg_width: f32,
    about: &[(&'static str, String)],
) -> Result<Vec<u8>, ChartError> {
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
    for (keyword, text) in about {
        let (keyword, text) = ((*keyword).to_owned(), text.clone());
        encoder.add_itxt_chunk(keyword, text).map_err(failed)?;
    }
    let mut writer = encoder.write_header().map_err(failed)?;
    // On a white ground nothing is left transparent: colours multiplied by alpha are the colours.
    writer.write_image_data(picture.data()).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(file)
}
