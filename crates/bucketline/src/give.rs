//! Giving an answer: text or JSON first, then its pictures. No answer is lost because a picture failed.

use std::path::{Path, PathBuf};

use answers::Date;
use answers::html::page;
use answers::json::json;
use answers::question::grade::BLANK;
use answers::text::{CAUTION, Setting, of_blocks, text};
use answers::{Answer, Block, Imprint, Reader};
use paper::{Made, Page, PaperError};
use scenario_file::{Scenario, Units};
use serde::Serialize;
use shuttle_report::chart;
use shuttle_report::units::whole;

use crate::arguments::{self, Showing};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{self, complain};
use crate::today::today;
use crate::written_file::write_file;

/// Pixels of a PNG for each CSS pixel of its chart, of which 96 make an inch: 200 to an inch of paper.
const PNG_SCALE: f32 = 200.0 / 96.0;
/// The file in a folder of pictures that says whose they are.
const WHOSE: &str = "pictures_of.txt";
/// Width of a text that no terminal shows.
const PLAIN_WIDTH: usize = 100;

/// How an answer is to be given.
pub struct Giving {
    reader: Reader,
    json: bool,
    more: bool,
    folder: Option<PathBuf>,
    size: chart::Size,
    /// The file the answer is about.
    about: PathBuf,
}

impl Giving {
    /// As asked for on the command line; the pictures' folder is made and tried at once, before anything is
    /// run.
    ///
    /// - Errors: [`Failure::CannotWrite`] when there is no writing to the folder.
    pub fn new(
        showing: Showing,
        charts: Option<&arguments::Charts>,
        scenario: &Scenario,
    ) -> Result<Giving, Failure> {
        Giving::about(showing, charts, scenario.units, &scenario.path)
    }

    /// The same for an answer about a file that need not be a scenario.
    ///
    /// - Given: the units of the file, and the file.
    /// - Errors: as [`Giving::new`].
    pub fn about(
        showing: Showing,
        charts: Option<&arguments::Charts>,
        units: Units,
        path: &Path,
    ) -> Result<Giving, Failure> {
        let folder = charts
            .filter(|charts| !charts.no_charts && (!showing.json || charts.out.is_some()))
            .map(|charts| charts.out.clone().unwrap_or_else(|| folder_of(path)));
        if let Some(folder) = &folder {
            output::try_folder(folder)?;
        }
        let reader = Reader { units, tender: showing.tender };
        let about = path.to_owned();
        let is_for_the_wall = charts.is_some_and(|charts| charts.wall);
        let size = if is_for_the_wall { chart::Size::Wall } else { chart::Size::Sheet };
        Ok(Giving { reader, json: showing.json, more: showing.more, folder, size, about })
    }

    /// Prints the answer, then writes its pictures.
    ///
    /// - Returns: how the program ends: a picture that failed is told on standard error.
    pub fn give<F: Serialize>(&self, answer: &Answer<F>) -> Result<Exit, Failure> {
        self.give_with(answer, None)
    }

    /// The same, and then the pages of the answer as PDF and as HTML, named after the question.
    ///
    /// - Given: the day on the pages; what makes them.
    /// - Returns: how the program ends: pages that failed are told on standard error.
    pub fn give_on_paper<F: Serialize>(
        &self,
        answer: &Answer<F>,
        date: Date,
        make: impl FnOnce(&Made) -> Result<Vec<Page>, PaperError>,
    ) -> Result<Exit, Failure> {
        let files = |folder: &PathBuf| {
            ["pdf", "html"].map(|end| folder.join(format!("{}.{end}", answer.question)))
        };
        let files = self.folder.as_ref().map(files);
        let exit = self.give_with(answer, files.as_ref())?;
        let Some([pdf_file, html_file]) = files else { return Ok(exit) };
        let made = Made { reader: self.reader, date, version: env!("CARGO_PKG_VERSION") };
        let title = format!("{} ({})", answer.title, answer.question);
        let written = make(&made).map_err(Failure::from).and_then(|pages| {
            let pdf = paper::pdf::pdf(&pages, &title, &made)?;
            write_file(&pdf_file, &pdf)?;
            write_file(&html_file, paper::html::html(&pages, &title).as_bytes())
        });
        Ok(written.map_or_else(
            |failure| {
                complain(&format!("bucketline: no pages of `{}`: {failure}\n", answer.question));
                Exit::CannotWrite
            },
            |()| exit,
        ))
    }

    fn give_with<F: Serialize>(
        &self,
        answer: &Answer<F>,
        pages: Option<&[PathBuf; 2]>,
    ) -> Result<Exit, Failure> {
        let has_files = !answer.pictures.is_empty() || pages.is_some();
        let folder = self.folder.as_ref().filter(|_| has_files);
        if self.json {
            output::print_json(&json(answer, &self.reader))?;
        } else {
            let setting = Setting {
                reader: self.reader,
                width: terminal_size::terminal_size()
                    .map_or(PLAIN_WIDTH, |(width, _)| usize::from(width.0)),
                more: self.more,
                pictures: (folder.filter(|_| !answer.pictures.is_empty()))
                    .map(|folder| format!("{}/", folder.display())),
                pages: pages.map(|[pdf, _]| pdf.display().to_string()),
            };
            output::print(&text(answer, &setting))?;
        }
        if let Some(folder) = folder {
            self.note_whose_pictures(folder);
        }
        let mut exit = if answer.basis.ended_early { Exit::EndedEarly } else { Exit::Answered };
        if let Some(folder) = folder {
            for picture in &answer.pictures {
                if let Err(failure) = self.draw(folder, answer, picture) {
                    complain(&format!("bucketline: no picture `{}`: {failure}\n", picture.name));
                    exit = Exit::CannotWrite;
                }
            }
        }
        Ok(exit)
    }

    /// Says so where the folder holds pictures of another scenario, which are about to be written over, and
    /// leaves word whose they are now.
    fn note_whose_pictures(&self, folder: &Path) {
        let note = folder.join(WHOSE);
        let mine = std::path::absolute(&self.about).unwrap_or_else(|_| self.about.clone());
        let mine = format!("{}\n", mine.display());
        match std::fs::read_to_string(&note) {
            Ok(theirs) if theirs == mine => return,
            Ok(theirs) => complain(&format!(
                "bucketline: the pictures in {}/ were those of {}; they are written over\n",
                folder.display(),
                theirs.trim_end()
            )),
            Err(_) => {}
        }
        // Word that cannot be left is no reason to give no pictures; those that fail are told of below.
        let _ = write_file(&note, mine.as_bytes());
    }

    /// Writes an evidence sheet beside the answer: a page to print where the file ends in `.html`, else plain text.
    ///
    /// - Errors: [`Failure::CannotWrite`] and its like when there is no writing to the file.
    pub fn write_sheet<F>(
        &self,
        file: &Path,
        answer: &Answer<F>,
        blocks: &[Block],
    ) -> Result<(), Failure> {
        let is_page = (file.extension())
            .is_some_and(|end| end.eq_ignore_ascii_case("html") || end.eq_ignore_ascii_case("htm"));
        let about = (self.about.file_name()).map(|name| name.to_string_lossy()).unwrap_or_default();
        let today = today();
        let day = format!("{}-{:02}-{:02}", today.year, today.month, today.day);
        let made = format!(
            "Made on {day} from {about} by bucketline {}: {} simulated fires, luck number {}.",
            env!("CARGO_PKG_VERSION"),
            whole(answer.basis.replications as f64),
            answer.basis.seed,
        );
        let sheet = if is_page {
            let foot = format!("{}, {about}, {day}", answer.title);
            page(&answer.title, blocks, &made, &foot, BLANK, &self.reader)
        } else {
            format!("{}\n{made}\n{CAUTION}\n", of_blocks(blocks, self.reader, PLAIN_WIDTH))
        };
        write_file(file, sheet.as_bytes())?;
        let kind = if is_page { "a page to print" } else { "plain text" };
        if !self.json {
            output::print(&format!("Sheet: {}, {kind}.\n", file.display()))?;
        }
        Ok(())
    }

    fn draw<F>(
        &self,
        folder: &Path,
        answer: &Answer<F>,
        picture: &answers::Picture,
    ) -> Result<(), Failure> {
        let file = self.about.file_name().map(|name| name.to_string_lossy().into_owned());
        let imprint = Imprint { file, day: Some(today()), size: self.size };
        let svg = answer.drawn(picture, &self.reader, &imprint)?;
        let png = chart::png_at(&svg, PNG_SCALE)?;
        let drawn = chart::with_fonts(&svg);
        write_file(&folder.join(format!("{}.svg", picture.name)), drawn.as_bytes())?;
        write_file(&folder.join(format!("{}.png", picture.name)), &png)
    }
}

/// `out/` and the name of the scenario's file.
pub fn folder_of(scenario: &Path) -> PathBuf {
    let stem = scenario.file_stem().unwrap_or(std::ffi::OsStr::new("scenario"));
    Path::new("out").join(stem)
}
