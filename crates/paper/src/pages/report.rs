//! The report: the first page as a chief reads it, then whom to ask, then what all of it rests on.

use answers::question::hold::stepped_up_words;
use answers::question::lose::{Side as OfTarget, Stands, lost_words};
use answers::question::report::Report;
use answers::question::request::{LossFigures, RequestFigures};
use answers::say::{Chances, Piece, Sentence, either, list};
use answers::{Block as Said, Label, Reader, say};
use shuttle_report::units;

use super::caution::IN_FULL;
use super::pictures::{clock, dots, pinch};
use super::told::blocks;
use super::{CAUTION, begun, put, told};
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::{Format, Page, Sheet, numbered, pages};
use crate::{Made, PaperError};

const SIZE: f64 = 11.0;
const SMALL: f64 = 9.0;
const HEAD: f64 = 14.0;
/// Headings of the first page are so much larger than the rest, pt.
const HEAD_LARGER: f64 = 3.0;
const MARGIN: f64 = 34.0;
/// What the first page has room for: of these the first that leaves it one page.
#[derive(Debug, Clone, Copy, PartialEq)]
struct RoomFor {
    /// Changes that help.
    advice: usize,
    /// Lines to write on.
    lines: usize,
    /// Marks of the clock that are told one by one.
    marks: usize,
    /// Whether the flow that can be held is told; it stands on the second page in any case.
    held: bool,
    /// Whether the pinch by hand is drawn; its figures stand behind in any case.
    pinch: bool,
    /// Size of what is told, pt.
    size: f64,
    /// Whether the pictures are as small as their letters allow.
    small: bool,
}

impl RoomFor {
    /// With so many lines to write on, changes and marks.
    const fn of(lines: usize, advice: usize, marks: usize) -> RoomFor {
        RoomFor { advice, lines, marks, held: true, pinch: true, size: SIZE, small: false }
    }

    /// In letters of this size, and smaller pictures.
    const fn smaller(self, size: f64) -> RoomFor {
        RoomFor { size, small: true, ..self }
    }

    /// Without the flow that can be held.
    const fn without_held(self) -> RoomFor {
        RoomFor { held: false, ..self }
    }
}

/// What helps, with its cost, is what a board pays for: lines, marks of the clock and the size of letters give way to
/// it, and the last change stays whatever the plan.
const ROOM_FOR: [RoomFor; 14] = [
    RoomFor::of(2, 4, 9),
    RoomFor::of(1, 4, 9),
    RoomFor::of(1, 4, 9).smaller(10.0),
    RoomFor::of(1, 4, 4).smaller(10.0),
    RoomFor::of(1, 4, 4).smaller(SMALL),
    RoomFor::of(1, 3, 4).smaller(SMALL),
    RoomFor::of(1, 3, 4).smaller(SMALL).without_held(),
    RoomFor::of(1, 2, 4).smaller(SMALL).without_held(),
    RoomFor::of(1, 2, 0).smaller(SMALL).without_held(),
    RoomFor::of(1, 1, 0).smaller(SMALL).without_held(),
    RoomFor::of(0, 2, 0).smaller(SMALL).without_held(),
    RoomFor::of(0, 1, 0).smaller(SMALL).without_held(),
    RoomFor { pinch: false, ..RoomFor::of(1, 1, 0).smaller(SMALL).without_held() },
    RoomFor { pinch: false, ..RoomFor::of(0, 1, 0).smaller(SMALL).without_held() },
];
/// Losses told by name on the first page; more stand behind.
const MOST_NAMES: usize = 8;

/// All pages.
///
/// - Errors: [`PaperError::Chart`] where a chart cannot be drawn.
pub fn report(report: &Report, format: Format, made: &Made) -> Result<Vec<Page>, PaperError> {
    let sheet = Sheet::upright(format, MARGIN);
    let mut all = Vec::new();
    for room_for in ROOM_FOR {
        all = first(report, made, room_for)?;
        if pages(&all, sheet).len() == 1 {
            break;
        }
    }
    all.push(Block::NewPage);
    all.extend(whom_to_ask(report, &made.reader));
    all.push(Block::NewPage);
    all.extend(evidence(report, made));
    Ok(numbered(pages(&all, sheet), &report.whole.title, sheet))
}

/// The page a chief reads.
fn first(report: &Report, made: &Made, room_for: RoomFor) -> Result<Vec<Block>, PaperError> {
    let reader = &made.reader;
    let risk = &report.risk;
    let (size, small) = (room_for.size, room_for.small);
    let head = |text: &str| Block::Heading(text.to_owned(), size + HEAD_LARGER);
    let mut page = vec![Block::Title(risk.title.clone(), 18.0)];
    // It repeats a title, which may be long.
    page.extend((!small).then(|| Block::words(put(reader, &risk.told.headline), SIZE)));
    page.push(Block::heavy(put(reader, &risk.told.verdict), size + HEAD_LARGER));
    let (of_which, when) = when_and_why(report);
    page.extend(of_which.map(|fires| Block::words(begun(reader, fires), size)));
    page.push(dots(report, reader, small)?);
    page.extend(told::blocks(when, reader, size));
    let held = match room_for.held {
        true => begun(reader, &report.hold.told.verdict),
        false => "What flow can be held: page 2.".to_owned(),
    };
    page.push(Block::labelled("Hold", held, size));
    // Of the flows of the plan as it stands, as they are told.
    let careful = stepped_up_words(&report.hold.figures.as_it_stands).filter(|_| room_for.held);
    page.extend(careful.map(|told| Block::labelled("Careful", begun(reader, &told), size)));
    page.push(head("The clock"));
    page.extend(clock(report, reader, room_for.marks, size, small)?);
    page.push(head("The pinch, by hand"));
    if room_for.pinch {
        page.extend(pinch(&report.check.figures, reader, small)?);
    } else {
        page.push(Block::words(put(reader, &report.check.told.verdict), size));
    }
    page.extend(what_helps(report, reader, room_for.advice, size));
    page.extend(not_to_be_spared(report, reader, size));
    page.push(head("Not known, and who finds out"));
    page.extend((room_for.lines > 0).then_some(Block::Lines(room_for.lines)));
    page.push(Block::Blanks {
        labels: ["Prepared by", "Read by", "Date"].map(str::to_owned).to_vec(),
        in_a_row: 3,
        size,
    });
    page.push(Block::words(made.from(&report.whole.basis), SMALL));
    page.push(Block::words(CAUTION, SMALL));
    Ok(page)
}

/// Of which fires the chance speaks, which stands beside it, and the points that say when and why the lines run short,
/// what is wanted when, and which source is late or runs dry: they come first.
fn when_and_why(report: &Report) -> (Option<&Sentence>, &[Said]) {
    let points = report.whole.told.points.as_slice();
    let (of_which, points) = match points {
        [Said::Point(Label::Luck, fires), rest @ ..] => (Some(fires), rest),
        points => (None, points),
    };
    let first = |point: &Said| {
        matches!(
            point,
            Said::Point(
                Label::When
                    | Label::Why
                    | Label::Reserve
                    | Label::Lines
                    | Label::Careful
                    | Label::People,
                _
            )
        )
    };
    let many = points.iter().take_while(|point| first(point)).count();
    (of_which, &points[..many])
}

/// What helps, with room for what it costs.
fn what_helps(report: &Report, reader: &Reader, most_advice: usize, size: f64) -> Vec<Block> {
    // What the file asks about comes first: it has its price.
    let options = report.compare.iter().flat_map(|one| &one.told.advice);
    let advice: Vec<_> = options.chain(&report.risk.told.advice).collect();
    let mut blocks = vec![Block::Heading("What helps".to_owned(), size + HEAD_LARGER)];
    let is_of_use = |of: &RequestFigures| of.meets_target || of.request_instead.is_some();
    if let Some(request) = report.request.as_ref().filter(|one| is_of_use(&one.figures)) {
        blocks.push(Block::heavy(put(reader, &request.told.verdict), size));
    }
    if advice.is_empty() {
        // Where every fire is short, what makes it shorter is all that can be told.
        let shorter = report.risk.told.points.iter().find_map(|point| match point {
            Said::Point(Label::Shorter, says) => Some(begun(reader, says)),
            _ => None,
        });
        let request_helps = report.request.as_ref().is_some_and(|one| one.figures.meets_target);
        blocks.push(match shorter {
            _ if request_helps => Block::words(
                "In place of that request no single change does: none of those tried helps clearly by itself.",
                size,
            ),
            Some(shorter) => Block::words(shorter, size),
            None => Block::words("No single change that was tried helps clearly.", size),
        });
        return blocks;
    }
    // An option of the file that is among the usual changes too stands here once, with its price.
    let mut rows: Vec<Vec<String>> = Vec::new();
    for one in advice {
        let of = |chances: Chances| put(reader, &say![Piece::Fires(chances)]);
        let cost =
            one.cost.map_or_else(String::new, |cost| put(reader, &say![Piece::Number(cost, 0)]));
        let what = put(reader, &one.what);
        if rows.len() < most_advice && rows.iter().all(|row| row[0] != what) {
            rows.push(vec![what, of(one.after), cost]);
        }
    }
    let columns = [("change", Side::Left), ("then short in", Side::Left), ("cost", Side::Left)];
    blocks.push(Block::Grid(Grid {
        columns: columns.map(|(head, side)| (head.to_owned(), side)).to_vec(),
        rows,
        ruled: true,
        tall: 0.0,
        size,
    }));
    blocks
}

/// What is told of the chance, without what nothing that was tried does: the request beside it does.
fn beside_the_request(report: &Report) -> Vec<Said> {
    let request_helps = report.request.as_ref().is_some_and(|one| one.figures.meets_target);
    let says_none = request_helps && report.risk.figures.would_help.is_empty();
    let is_best = |point: &Said| matches!(point, Said::Point(Label::Best | Label::Shorter, _));
    let points = report.risk.told.points.iter();
    points.filter(|point| !(says_none && is_best(point))).cloned().collect()
}

/// What the request cannot do without, where the plan as it stands fails; nothing where there is none that would do.
fn not_to_be_spared_of_the_request(report: &Report) -> Option<Sentence> {
    let request = &report.request.as_ref().filter(|one| one.figures.meets_target)?.figures;
    let spare = request.spare.as_ref()?;
    let above = |one: &&LossFigures| matches!(one.verdict, OfTarget::Above | OfTarget::CannotWork);
    let lost: Vec<_> = spare.losses.iter().filter(above).map(|one| lost_words(&one.lost)).collect();
    // What no request makes up for is not among the losses that it was chosen to stand.
    let hopeless: Vec<_> =
        spare.not_made_up_for.iter().map(|one| lost_words(&one.loss.lost)).collect();
    let target = Piece::Share(request.target);
    match (lost.is_empty(), spare.stands) {
        _ if !hopeless.is_empty() => {
            let also = (!lost.is_empty()).then(|| {
                say![" Above ", Piece::Share(request.target), " without ", list(lost), " too."]
            });
            Some(say!["No request makes up for the loss of ", either(hopeless), ".", also])
        }
        (false, _) => Some(say!["With the request, above ", target, " without ", list(lost), "."]),
        (true, true) => Some(say![
            "With the request no loss of one unit or source brings it above ",
            target,
            "."
        ]),
        (true, false) => None,
    }
}

/// What the plan cannot do without.
fn not_to_be_spared(report: &Report, reader: &Reader, size: f64) -> Vec<Block> {
    let lose = &report.lose.figures;
    let names: Vec<_> = (lose.losses.iter())
        .filter(|row| matches!(row.fails, OfTarget::Above | OfTarget::CannotWork))
        .filter_map(|row| row.lost.as_ref())
        .map(lost_words)
        .collect();
    let mut told = vec![Block::Heading(
        "What cannot be spared, gone for the whole fire".to_owned(),
        size + HEAD_LARGER,
    )];
    told.push(Block::words(put(reader, &report.lose.told.verdict), size));
    if lose.stands == Stands::NotEvenWhole {
        let of_request = not_to_be_spared_of_the_request(report);
        told.extend(of_request.map(|words| Block::heavy(put(reader, &words), size)));
    }
    if lose.stands == Stands::NotAnyOne && !names.is_empty() && names.len() <= MOST_NAMES {
        told.push(Block::words(
            put(reader, &say!["Above ", Piece::Share(lose.target), " without ", list(names), "."]),
            size,
        ));
    }
    told
}

/// Whom to ask and when, what if they are asked later, and what flow can be held.
fn whom_to_ask(report: &Report, reader: &Reader) -> Vec<Block> {
    let mut page = vec![Block::Title("Whom to ask, and when".to_owned(), 16.0)];
    match &report.request {
        Some(request) => {
            page.push(Block::heavy(put(reader, &request.told.verdict), 12.0));
            page.extend(blocks(&request.told.points, reader, SIZE));
            page.extend(blocks(&request.told.more, reader, SIZE));
        }
        None => page.push(Block::words(
            "Everyone whom the file lists is asked for already; it names nobody else.",
            SIZE,
        )),
    }
    let hold = &report.hold;
    page.push(Block::Heading("What flow can be held".to_owned(), HEAD));
    page.push(Block::heavy(put(reader, &hold.told.verdict), 12.0));
    page.extend(blocks(&hold.told.points, reader, SIZE));
    page.extend(blocks(&hold.told.more, reader, SIZE));
    page
}

/// Why two pages have two minutes for the supply; nothing where they are told as one.
fn supply_apart(report: &Report) -> Option<Sentence> {
    let by_hand = report.check.figures.planned.established_min?;
    let in_fires = report.risk.figures.established_min_mean?;
    (units::clock(by_hand) != units::clock(in_fires)).then(|| {
        say![
            "By hand the supply stands at ",
            Piece::Clock(by_hand),
            ", with every time at its mean; in the simulated fires at ",
            Piece::Clock(in_fires),
            " on average, for it waits for whoever comes last.",
        ]
    })
}

/// The cycle by hand, what a little of everything is worth, what is lost, evidence, assumptions and cautions.
fn evidence(report: &Report, made: &Made) -> Vec<Block> {
    let reader = &made.reader;
    let mut page = vec![
        Block::Title("What it rests on".to_owned(), 16.0),
        Block::Heading("By hand".to_owned(), HEAD),
        Block::words(put(reader, &report.check.told.verdict), SIZE),
    ];
    page.extend(supply_apart(report).map(|told| Block::words(put(reader, &told), SIZE)));
    page.extend(blocks(&report.check.told.points, reader, SIZE));
    page.extend(blocks(&report.check.told.more, reader, SIZE));
    page.push(Block::Heading("What a little more or less is worth".to_owned(), HEAD));
    page.push(Block::words(put(reader, &report.levers.told.verdict), SIZE));
    page.extend(blocks(&report.levers.told.points, reader, SIZE));
    page.push(Block::Heading("What a loss does".to_owned(), HEAD));
    page.extend(blocks(&report.lose.told.points, reader, SIZE));
    page.push(Block::Gap(0.5 * SIZE));
    page.push(Block::words(
        "The same losses, and how sure that is: how many more fires of 100 run short than with everything in service, with \
         the 95% interval of that difference.",
        SIZE,
    ));
    page.extend(blocks(&report.lose.told.more, reader, SIZE));
    page.push(Block::Heading("Evidence and assumptions".to_owned(), HEAD));
    page.extend(blocks(&beside_the_request(report), reader, SIZE));
    page.extend(blocks(&report.risk.told.more, reader, SIZE));
    page.extend((report.risk.told.notes.iter()).map(|note| Block::words(put(reader, note), SIZE)));
    let prints = [
        &report.risk.told.small_print,
        &report.hold.told.small_print,
        &report.lose.told.small_print,
        &report.levers.told.small_print,
        &report.check.told.small_print,
    ];
    let prints = prints.into_iter().flatten();
    page.extend(prints.map(|print| Block::words(put(reader, print), SMALL)));
    page.push(Block::Heading("Cautions".to_owned(), HEAD));
    page.extend(IN_FULL.map(|caution| Block::words(caution, SIZE)));
    page.push(Block::words(made.from(&report.whole.basis), SMALL));
    page.push(Block::words(CAUTION, SMALL));
    page
}
