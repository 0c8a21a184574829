//! The drill-night handout: for each trainee a sheet with the cycle to time, what the plan teaches and questions; for the
//! recorder a form on both sides of a sheet; for the trainer the answers on a sheet of their own, so that nobody finds
//! them by turning his over.

use answers::question::card::{CellFigures, Water};
use answers::question::check::TankerByHand;
use answers::question::handout::{
    DrillQuestion, HandoutFigures, MOST_CYCLES, answer_words, finding_words, question_words,
};
use answers::say::{Piece, Sentence, joined, list, name};
use answers::{Answer, Imprint, Reader, say};
use drill_log::Field;
use shuttle_report::chart::part_words;
use shuttle_sim::Part;

use super::CAUTION;
use super::caution::IN_FULL;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::{Format, Page, Sheet, height, pages};
use crate::{Made, PaperError};

const SIZE: f64 = 12.0;
/// Most of it in a table, pt.
const IN_TABLES: f64 = 11.0;
const SMALL: f64 = 9.0;
const MARGIN: f64 = 36.0;
/// A row of the form is high enough for handwriting, pt.
const ROW: f64 = 20.0;

/// What the trainees' sheet has room for: of these the first that leaves it one page.
#[derive(Debug, Clone, Copy, PartialEq)]
struct RoomFor {
    /// Size of letters, pt.
    size: f64,
    /// Whether the plan is told in a line under the title, which has most of it.
    headline: bool,
    /// Height of a row of the cycle, pt.
    row: f64,
}

const LEAST: RoomFor = RoomFor { size: 9.0, headline: false, row: 0.0 };
const ROOM_FOR: [RoomFor; 6] = [
    RoomFor { size: SIZE, headline: true, row: 18.0 },
    RoomFor { size: SIZE, headline: false, row: 18.0 },
    RoomFor { size: 11.0, headline: false, row: 18.0 },
    RoomFor { size: 11.0, headline: false, row: 15.0 },
    RoomFor { size: 10.0, headline: false, row: 0.0 },
    LEAST,
];

/// The trainees' sheet on two sides, the form on two, and the trainer's sheet.
///
/// - Errors: [`PaperError::Chart`] where its chart cannot be drawn.
pub fn handout(
    answer: &Answer<HandoutFigures>,
    format: Format,
    made: &Made,
) -> Result<Vec<Page>, PaperError> {
    let sheet = Sheet::upright(format, MARGIN);
    let fits = |room_for: &RoomFor| pages(&front(answer, made, *room_for), sheet).len() == 1;
    let room_for = ROOM_FOR.into_iter().find(fits).unwrap_or(LEAST);
    let mut all = pages(&front(answer, made, room_for), sheet);
    all.extend(pages(&behind(answer, sheet), sheet));
    let form = Sheet::lying(format, 24.0);
    for side in ["Drill log", "Drill log, back"] {
        all.extend(pages(&log_form(answer, side, form, &made.reader), form));
    }
    all.extend(pages(&answers(answer, made, sheet)?, sheet));
    Ok(all)
}

fn front(answer: &Answer<HandoutFigures>, made: &Made, room_for: RoomFor) -> Vec<Block> {
    let (handout, reader) = (&answer.figures, &made.reader);
    let size = room_for.size;
    let head = |text: &str| Block::Heading(text.to_owned(), size + 3.0);
    let mut blocks = vec![Block::Title(answer.title.clone(), size + 8.0)];
    let headline = || Block::words(reader.put(&answer.told.headline), size);
    blocks.extend(room_for.headline.then(headline));
    let shown = &handout.cycles[..handout.cycles.len().min(MOST_CYCLES)];
    blocks.extend([
        head("Time it"),
        Block::words(
            "The plan's means, in minutes, nobody waiting, and room for your own. One watch, one pair of eyes to each \
             place.",
            size,
        ),
        Block::Grid(cycles(shown, handout.decimals, room_for)),
    ]);
    let more = (shown.len() < handout.cycles.len()).then(|| {
        say![
            "The first ",
            Piece::Count(shown.len()),
            " of ",
            Piece::TankerCount(handout.cycles.len()),
            "; time the others on the form. "
        ]
    });
    let under = say![more, (handout.fill_sites > 1).then(|| filled_at(shown))];
    blocks.extend((!under.is_empty()).then(|| Block::foot(reader.put(&under), SMALL)));
    blocks.push(head("What the plan teaches"));
    blocks.extend(handout.findings.iter().enumerate().map(|(place, finding)| {
        Block::labelled(format!("{}.", place + 1), reader.put(&finding_words(finding)), size)
    }));
    blocks.push(head("What would you say?"));
    for (place, question) in handout.questions.iter().enumerate() {
        let asked = reader.put(&question_words(question));
        blocks.push(Block::labelled(format!("{}.", place + 1), asked, size));
        blocks.extend(levels(question, reader, size).map(Block::Grid));
        blocks.push(Block::Lines(1));
    }
    blocks
}

/// "Tanker 3 and Tanker 5 fill at Log pond, Aid tanker 1 at Town hydrant."
fn filled_at(cycles: &[TankerByHand]) -> Sentence {
    let together = cycles.chunk_by(|a, b| a.fill_site == b.fill_site).enumerate();
    let told = together.map(|(place, together)| {
        let fill = match (place, together.len()) {
            (0, 1) => " fills at ",
            (0, _) => " fill at ",
            _ => " at ",
        };
        let names = list(together.iter().map(|one| say![name(&one.name)]));
        say![names, fill, name(&together[0].fill_site)]
    });
    say![joined(told, ", ", ", "), ", by hand."]
}

/// The levels of a question about them, and how often the lines ran short from each.
fn levels(question: &DrillQuestion, reader: &Reader, size: f64) -> Option<Grid> {
    let DrillQuestion::GateDown { water, levels, in_sight_min, .. } = question else { return None };
    let put = |sentence: Sentence| reader.put(&sentence);
    let where_ = match water {
        Water::DropTanks => say!["water in the drop tanks, ", Piece::VolumeSign],
        Water::EngineTank => say!["water in the attack engine, ", Piece::VolumeSign],
    };
    let row = |head: Sentence, cell: &dyn Fn(&CellFigures) -> Sentence| -> Vec<String> {
        [put(head)].into_iter().chain(levels.iter().map(|level| put(cell(level)))).collect()
    };
    let heads = row(where_, &|level| say![Piece::BareVolume(level.level_gal)]);
    let short =
        say!["ran short, of fires with no load in ", Piece::Number(*in_sight_min, 0), " minutes"];
    let short = row(short, &|level| {
        level.chances().map_or_else(|| say!["-"], |of| say![Piece::PercentTo(of, 0)])
    });
    let side = |place| if place == 0 { Side::Left } else { Side::Right };
    Some(Grid {
        columns: heads.into_iter().enumerate().map(|(place, head)| (head, side(place))).collect(),
        rows: vec![short],
        ruled: true,
        tall: 0.0,
        size: size.min(IN_TABLES),
    })
}

/// The parts of a cycle with the plan's means and room for one's own times.
///
/// - Given: in how many decimal places they add up.
fn cycles(shown: &[TankerByHand], decimals: usize, room_for: RoomFor) -> Grid {
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
                    .map_or_else(|| "-".to_owned(), |one| format!("{:.decimals$}", one.mean_min))
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
    let size = room_for.size.min(IN_TABLES);
    Grid { columns, rows, ruled: true, tall: room_for.row, size }
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
    let answered = |(size, asks): (f64, bool)| {
        let mut blocks = vec![
            Block::Title(answer.title.clone(), 17.0),
            Block::Heading("For the trainer: answers".to_owned(), 15.0),
        ];
        for (place, question) in answer.figures.questions.iter().enumerate() {
            let number = format!("{}.", place + 1);
            let told = reader.put(&answer_words(question));
            if asks {
                let asked = reader.put(&question_words(question));
                blocks.push(Block::labelled(number, asked, size));
                blocks.push(Block::heavy(told, size));
            } else {
                blocks.push(Block::labelled(number, told, size));
            }
            blocks.push(Block::Gap(4.0));
        }
        blocks
    };
    let below = [
        Block::words(
            "The form that comes with this is read by `bucketline drill`: type it into a table under the same headings.",
            SMALL,
        ),
        Block::words(made.from(&answer.basis), SMALL),
        Block::words(CAUTION, SMALL),
    ];
    let shown = match answer.pictures.first() {
        Some(picture) => {
            let imprint = Imprint { day: Some(made.date), ..Imprint::default() };
            let svg = answer.drawn(picture, reader, &imprint)?;
            // As wide as the column: narrower its smallest letters would be less than 9 pt.
            let says = "How many minutes a cycle takes, part by part.".to_owned();
            let head = "The cycle in the simulated fires, waiting included".to_owned();
            vec![Block::Heading(head, 15.0), Block::Picture { svg, says, share: 1.0 }]
        }
        None => Vec::new(),
    };
    // Smaller letters leave room for the chart, and the questions stand on the trainees' sheet too. One of very many
    // tankers is left out: that sheet has the figures.
    let tall = |blocks: &[Block]| height(blocks, sheet.column());
    let room = sheet.room() - tall(&shown) - tall(&below);
    let fits = |told: &(f64, bool)| tall(&answered(*told)) <= room;
    let all = (SIZE, true);
    let with_chart = [all, (11.0, true), (10.0, true), (SIZE, false), (11.0, false), (10.0, false)]
        .into_iter()
        .find(fits);
    let mut blocks = answered(with_chart.unwrap_or(all));
    blocks.extend(with_chart.map(|_| shown).unwrap_or_default());
    blocks.extend(below);
    Ok(blocks)
}

/// Lines to write on that are left in any case, and how many are enough.
const FEWEST_LINES: usize = 2;
const MOST_LINES: usize = 14;

/// The form for the recorder: as many rows as the sheet holds.
///
/// - Given: what the side is called.
fn log_form(
    answer: &Answer<HandoutFigures>,
    side: &str,
    sheet: Sheet,
    reader: &Reader,
) -> Vec<Block> {
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
    let with = |rows: usize| Block::Grid(form(rows, has_sites, reader));
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
/// - Given: how many rows; whether there are several fill sites.
pub fn form(rows: usize, has_sites: bool, reader: &Reader) -> Grid {
    let columns: Vec<(String, Side)> = (drill_log::columns(has_sites).into_iter())
        .map(|field| (reader.put(&head(field)), Side::Left))
        .collect();
    let blank = vec![String::new(); columns.len()];
    Grid { columns, rows: vec![blank; rows], ruled: true, tall: ROW, size: 9.0 }
}

/// The head of a column of the log, under which `drill` finds what it holds.
fn head(of: Field) -> Sentence {
    match of {
        Field::Tanker => say![Piece::Tanker],
        other => say![other.heading()],
    }
}
