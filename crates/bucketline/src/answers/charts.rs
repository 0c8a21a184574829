//! Charts of an answer: where they are written, and a difference as they show it.

use std::path::PathBuf;

use shuttle_report::chart;
use shuttle_report::chart::differences::{Mark, Point};
use shuttle_report::options_compared::Apart;

use crate::arguments;
use crate::failure::Failure;
use crate::output;
use crate::written_file::write_file;

/// Width of a chart as PNG, pixels.
const PNG_WIDTH: u32 = 2000;

/// Charts by file name, made when they are written.
pub struct Charts {
    folder: PathBuf,
}

impl Charts {
    /// Where this scenario's charts go; `None` if none are wanted.
    pub fn new(asked: &arguments::Charts, json: bool, title: &str) -> Option<Charts> {
        if asked.no_charts || (json && asked.out.is_none()) {
            return None;
        }
        Some(Charts { folder: output::chart_folder(asked.out.as_deref(), title) })
    }

    /// Writes one chart as SVG and PNG.
    pub fn write(&self, name: &str, svg: &str) -> Result<(), Failure> {
        output::make_folder(&self.folder)?;
        let png = chart::png(svg, PNG_WIDTH)?;
        write_file(&self.folder.join(format!("{name}.svg")), svg.as_bytes())?;
        write_file(&self.folder.join(format!("{name}.png")), &png)
    }

    /// The folder in words.
    pub fn folder(&self) -> String {
        format!("{}/", self.folder.display())
    }
}

/// A difference as a chart has it.
pub fn point(apart: &Apart, mark: Mark) -> Point {
    Point { by: apart.by, low: apart.ci_low, high: apart.ci_high, mark }
}
