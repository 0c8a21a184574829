//! Answers as pages to print: from typed answers to a PDF and to one HTML file. No files are read or written.
//!
//! A page is a list of blocks ([`layout::block`]): headings, paragraphs, tables, boxes to tick, lines to write on,
//! cut lines, charts. Each is set by its measured width into a small SVG ([`layout::set`]), and these are placed one
//! under another ([`layout::sheet`]). From the placed blocks come the PDF, block by block in reading order
//! ([`mod@pdf`]), and the HTML ([`mod@html`]); both show the same drawings. What stands on a page is decided in
//! [`pages`], from figures and never from sentences.
//!
//! Read in this order: `layout`, `pages`, `pdf`, `html`.

pub mod layout;

pub mod pages;

pub mod pdf;

pub mod html;

mod made;

pub use layout::sheet::{Format, Page};
pub use made::Made;

/// Why a page cannot be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PaperError {
    /// A chart that belongs on it cannot be drawn.
    #[error("a chart for the page cannot be drawn: {0}")]
    Chart(#[from] shuttle_report::chart::ChartError),
    /// The library that writes PDF failed.
    #[error("the page cannot be turned into a PDF: {0}")]
    Pdf(String),
}
