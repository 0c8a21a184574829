//! The drill-night handout: for each trainee a sheet with the cycle to time, what the plan teaches and questions; for the
//! recorder a form on both sides of a sheet; for the trainer the answers on a sheet of their own, so that nobody finds
//! them by turning his over.

use answers::question::check::TankerByHand;
use answers::question::handout::{HandoutFigures, answer_words, finding_words, question_words};
use answers::say::Piece;
use answers::{Answer, Imprint, Reader, say};
use shuttle_report::chart::part_words;
use shuttle_sim::Part;

use super::CAUTION;
use super::caution::IN_FULL;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::{Format, Page, Sheet, height, pages};
use crate::{Made, PaperError};

const SIZE: f64 = 12.0;
const SMALL: f64 = 9.0;
const MARGIN: f64 = 36.0;
/// Cycles side by side in the table; of tankers that are alike one is enough to time.
const MOST_CYCLES: usize = 3;
/// A row of the form is high enough for handwriting, pt.
const ROW: f64 = 20.0;

/// The trainees' sheet on two sides, the form on two, and the trainer's sheet.
///
/// - Errors: [`PaperError::Chart`] where its chart cannot be drawn.
pub fn handout(
    answer: &Answer<HandoutFigures>,
    format: Format,
    made: &Made,
) -> Result<Vec<Page>, PaperError> {
    let sheet = Sheet::upright(format, MARGIN);
    let mut all = pages(&front(answer, made), sheet);
    all.extend(pages(&behind(answer, sheet), sheet));
    let form = Sheet::lying(format, 24.0);
    for side in ["Drill log", "Drill log, back"] {
        all.extend(pages(&log_form(answer, side, form, made.reader.tender), form));
    }
    all.extend(pages(&answers(answer, made, sheet)?, sheet));
    Ok(all)
}

fn front(answer: &Answer<HandoutFigures>, made: &Made) -> Vec<Block> {
    let (handout, reader) = (&answer.figures, &made.reader);
    let mut blocks = vec![
        Block::Title(answer.title.clone(), 20.0),
        Block::words(reader.put(&answer.told.headline), SIZE),
        Block::Heading("Time it".to_owned(), 15.0),
        Block::words(
            "The plan's means, in minutes, nobody waiting, and room for your own. One watch, one pair of eyes to each \
             place.",
            SIZE,
        ),
        Block::Grid(cycles(&handout.cycles)),
        Block::Heading("What the plan teaches".to_owned(), 15.0),
    ];
    let shown = handout.cycles.len().min(MOST_CYCLES);
    if shown < handout.cycles.len() {
        let more = say![
            "The first ",
            Piece::Count(shown),
            " of ",
            Piece::TankerCount(handout.cycles.len()),
            "; time the others on the form."
        ];
        let before_heading = blocks.len() - 1;
        blocks.insert(before_heading, Block::words(reader.put(&more), SMALL));
    }
    blocks.extend(handout.findings.iter().enumerate().map(|(place, finding)| {
        Block::labelled(format!("{}.", place + 1), reader.put(&finding_words(finding)), SIZE)
    }));
    blocks.push(Block::Heading("What would you say?".to_owned(), 15.0));
    for (place, question) in handout.questions.iter().enumerate() {
        let asked = reader.put(&question_words(question));
        blocks.push(Block::labelled(format!("{}.", place + 1), asked, SIZE));
        blocks.push(Block::Lines(1));
    }
    blocks
}

/// The parts of a cycle with the plan's means and room for one's own times.
fn cycles(cycles: &[TankerByHand]) -> Grid {
    let shown = &cycles[..cycles.len().min(MOST_CYCLES)];
    let mut columns = vec![("part of the cycle, minutes".to_owned(), Side::Left)];
    for cycle in shown {
        columns.push((cycle.name.clone(), Side::Right));
    }
    columns.extend(["1st time", "2nd time", "3rd time"].map(|head| (head.to_owned(), Side::Left)));
    let blanks = || vec![String::new(); 3];
    let parts = Part::ALL.into_iter().filter(|part| {
        shown.iter().any(|cycle| cycle.parts.iter().any(|one| one.part == part.key()))
    });
    let mut rows: Vec<Vec<String>> = parts
        .map(|part| {
            let mean = |cycle: &TankerByHand| {
                (cycle.parts.iter().find(|one| one.part == part.key()))
                    .map_or_else(|| "-".to_owned(), |one| format!("{:.1}", one.mean_min))
            };
            let mut cells = vec![part_words(part).to_owned()];
            cells.extend(shown.iter().map(mean));
            cells.extend(blanks());
            cells
        })
        .collect();
    // Its sum is the first question.
    let mut all = vec!["the whole cycle".to_owned()];
    all.extend(shown.iter().map(|_| "?".to_owned()));
    all.extend(blanks());
    rows.push(all);
    Grid { columns, rows, ruled: true, tall: 18.0, size: 11.0 }
}

/// The back of the trainees' sheet: what they timed, and the cautions.
fn behind(answer: &Answer<HandoutFigures>, sheet: Sheet) -> Vec<Block> {
    let mut blocks = vec![
        Block::Title(answer.title.clone(), 17.0),
        Block::Heading("What we timed, and what we will do differently".to_owned(), 15.0),
    ];
    let mut below = vec![Block::Heading("Before anybody drives".to_owned(), 15.0)];
    below.extend(IN_FULL.map(|caution| Block::words(caution, SIZE)));
    below.extend([Block::Gap(6.0), Block::words(CAUTION, SMALL)]);
    let tall = |blocks: &[Block]| height(blocks, sheet.column());
    let left = sheet.room() - tall(&blocks) - tall(&below);
    let lines = (left / tall(&[Block::Lines(1)])).max(0.0) as usize;
    blocks.push(Block::Lines(lines.clamp(FEWEST_LINES, MOST_LINES)));
    blocks.extend(below);
    blocks
}

/// The trainer's sheet: the answers, the cycle as simulated, and what all of it rests on.
fn answers(
    answer: &Answer<HandoutFigures>,
    made: &Made,
    sheet: Sheet,
) -> Result<Vec<Block>, PaperError> {
    let reader: &Reader = &made.reader;
    let mut blocks = vec![
        Block::Title(answer.title.clone(), 17.0),
        Block::Heading("For the trainer: answers".to_owned(), 15.0),
    ];
    for (place, question) in answer.figures.questions.iter().enumerate() {
        let asked = reader.put(&question_words(question));
        blocks.push(Block::labelled(format!("{}.", place + 1), asked, SIZE));
        blocks.push(Block::heavy(reader.put(&answer_words(question)), SIZE));
        blocks.push(Block::Gap(4.0));
    }
    let below = [
        Block::words(
            "The form that comes with this is read by `bucketline drill`: type it into a table under the same headings.",
            SMALL,
        ),
        Block::words(made.from(&answer.basis), SMALL),
        Block::words(CAUTION, SMALL),
    ];
    if let Some(picture) = answer.pictures.first() {
        let imprint = Imprint { day: Some(made.date), ..Imprint::default() };
        let svg = answer.drawn(picture, reader, &imprint)?;
        // As wide as the column: narrower its smallest letters would be less than 9 pt.
        let says = "How many minutes a cycle takes, part by part.".to_owned();
        let shown = [
            Block::Heading("The cycle in the simulated fires, waiting included".to_owned(), 15.0),
            Block::Picture { svg, says, share: 1.0 },
        ];
        // A chart of very many tankers is left out: the trainees' sheet has the figures.
        let tall = |blocks: &[Block]| height(blocks, sheet.column());
        if tall(&blocks) + tall(&shown) + tall(&below) <= sheet.room() {
            blocks.extend(shown);
        }
    }
    blocks.extend(below);
    Ok(blocks)
}

/// Lines to write on that are left in any case, and how many are enough.
const FEWEST_LINES: usize = 2;
const MOST_LINES: usize = 14;

/// The form for the recorder: as many rows as the sheet holds.
///
/// - Given: what the side is called.
fn log_form(answer: &Answer<HandoutFigures>, side: &str, sheet: Sheet, tender: bool) -> Vec<Block> {
    let labels = ["Drill", "Date", "Recorder", "Alarm at"].map(str::to_owned).to_vec();
    let mut blocks = vec![
        Block::Title(side.to_owned(), 15.0),
        Block::words(answer.title.clone(), 10.0),
        Block::Blanks { labels, in_a_row: 4, size: 11.0 },
        Block::words(
            "One row a trip. One watch for all places, or watches set together. Write hours, minutes and seconds \
             (13:05:20). Leave blank what you did not see. \"Connected\" is when water can flow; \"full\" and \
             \"empty\" are when it stops. Mark breakdowns, and say in the remarks if a load was nursed. Stand clear \
             of backing trucks.",
            9.0,
        ),
    ];
    let has_sites = answer.figures.fill_sites > 1;
    let with = |rows: usize| Block::Grid(form(rows, has_sites, tender));
    let left = sheet.room() - height(&blocks, sheet.column());
    let rows = (1..60)
        .take_while(|rows| height(&[with(*rows)], sheet.column()) <= left)
        .last()
        .unwrap_or(1);
    blocks.push(with(rows));
    blocks
}

/// The log's columns, blank.
///
/// - Given: how many rows; whether there are several fill sites; whether a tanker is a tender to the reader.
pub fn form(rows: usize, has_sites: bool, tender: bool) -> Grid {
    let word = |head: &str| if tender { head.replace("tanker", "tender") } else { head.to_owned() };
    let columns: Vec<(String, Side)> =
        drill_log::columns(has_sites).into_iter().map(|head| (word(head), Side::Left)).collect();
    let blank = vec![String::new(); columns.len()];
    Grid { columns, rows: vec![blank; rows], ruled: true, tall: ROW, size: 9.0 }
}
