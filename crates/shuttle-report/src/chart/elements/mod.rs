//! What charts are made of.
//!
//! Read in this order: `font` (how wide a text is), `style` (colours and hatching), `svg` (the elements),
//! `axis` (scales), `series` (lines of values), `heading_and_foot` (heading, legend, foot); `png_file` turns a chart into a picture,
//! `font_face` puts the fonts into a file.

pub mod font;

pub mod style;

pub mod svg;

pub mod axis;

pub mod heading_and_foot;

pub mod series;

#[cfg(not(target_arch = "wasm32"))]
pub mod png_file;

#[cfg(not(target_arch = "wasm32"))]
pub mod font_face;
