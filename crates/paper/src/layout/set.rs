//! Sets a block into a drawing as wide as its column.

use shuttle_report::chart::drawing::{
    Anchor, Area, BLACK, Drawing, Look, QUIET, Stroke, Text, WHITE, Weight,
};

use super::block::Block;
use super::lines::{LEADING, lines};
use super::table::{self, SetTable};

/// What a block is to a reader who hears the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The title of the page.
    Title,
    /// A heading.
    Heading,
    /// Words, in the order they are read.
    Words,
    /// A table.
    Table,
    /// A drawing, told by its description.
    Figure,
    /// A cut line: nothing to be read.
    CutLine,
    /// Lines to write on, and what only tells where one is: nothing to be read.
    Ornament,
}

/// A block that is set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetBlock {
    /// Its drawing, as SVG text.
    pub svg: String,
    /// How wide it is, pt.
    pub width: f64,
    /// How high, pt.
    pub height: f64,
    /// What it is.
    pub kind: Kind,
    /// What it says: all its words, or what a picture shows.
    pub says: String,
    /// Its cells, of a table.
    pub table: Option<SetTable>,
}

/// Sets a block in a column of this width, pt; nothing for what is no drawing.
pub fn set(block: &Block, wide: f64) -> Option<SetBlock> {
    match block {
        Block::Title(text, size) => {
            Some(words(text, Text::of(*size).semi_bold(), wide, Kind::Title))
        }
        Block::Heading(text, size) => Some(heading(text, *size, wide)),
        Block::Words { text, size, heavy } => {
            let style = if *heavy { Text::of(*size).semi_bold() } else { Text::of(*size) };
            Some(words(text, style, wide, Kind::Words))
        }
        Block::Foot(text, size) => Some(words(text, Text::of(*size), wide, Kind::Words)),
        Block::Labelled { label, text, size } => Some(labelled(label, text, *size, wide)),
        Block::Boxes { label, items, size } => Some(boxes(label, items, *size, wide)),
        Block::Blanks { labels, in_a_row, size } => Some(blanks(labels, *in_a_row, *size, wide)),
        Block::Lines(count) => Some(ruled_lines(*count, wide)),
        Block::Grid(grid) => Some(table::set(grid, wide)),
        Block::Picture { svg, says, share } => Some(picture(svg, says, share * wide)),
        Block::Frame { label, tall } => Some(frame(label, *tall, wide)),
        Block::Cut => Some(cut(wide)),
        Block::Gap(_) | Block::NewPage => None,
    }
}

pub(super) fn finished(drawing: Drawing, height: f64, kind: Kind, says: String) -> SetBlock {
    let (width, height) = (drawing.width().ceil(), height.ceil());
    // Its words stand in the drawing; a name for it besides would be read twice.
    SetBlock { svg: drawing.finish(height, "", ""), width, height, kind, says, table: None }
}

fn words(text: &str, style: Text, wide: f64, kind: Kind) -> SetBlock {
    let mut drawing = Drawing::new(wide);
    let mut y = 0.0;
    for line in lines(text, style.size, style.weight, wide, wide) {
        drawing.text(0.0, y + style.size, &line, style);
        y += LEADING * style.size;
    }
    finished(drawing, y + 0.15 * style.size, kind, text.to_owned())
}

fn heading(text: &str, size: f64, wide: f64) -> SetBlock {
    let style = Text::of(size).semi_bold();
    let mut drawing = Drawing::new(wide);
    drawing.line((0.0, 2.0), (wide, 2.0), Stroke::of(BLACK, 1.5));
    let mut y = 4.0;
    for line in lines(text, size, Weight::SemiBold, wide, wide) {
        drawing.text(0.0, y + size, &line, style);
        y += LEADING * size;
    }
    finished(drawing, y + 0.2 * size, Kind::Heading, text.to_owned())
}

fn labelled(label: &str, text: &str, size: f64, wide: f64) -> SetBlock {
    let (heavy, plain) = (Text::of(size).semi_bold(), Text::of(size));
    let mut drawing = Drawing::new(wide);
    let label_wide = if label.is_empty() { 0.0 } else { heavy.width(label) + 0.4 * size };
    // A label that leaves no room stands on a line of its own.
    let (first, mut y) = if label_wide > 0.6 * wide {
        let mut y = 0.0;
        for line in lines(label, size, Weight::SemiBold, wide, wide) {
            drawing.text(0.0, y + size, &line, heavy);
            y += LEADING * size;
        }
        (0.0, y)
    } else {
        drawing.text(0.0, size, label, heavy);
        (label_wide, 0.0)
    };
    for (place, line) in lines(text, size, Weight::Regular, wide - first, wide).iter().enumerate() {
        let x = if place == 0 { first } else { 0.0 };
        drawing.text(x, y + size, line, plain);
        y += LEADING * size;
    }
    finished(drawing, y + 0.15 * size, Kind::Words, format!("{label} {text}"))
}

fn boxes(label: &str, items: &[String], size: f64, wide: f64) -> SetBlock {
    let (heavy, plain) = (Text::of(size).semi_bold(), Text::of(size));
    let mut drawing = Drawing::new(wide);
    let row = 1.35 * size;
    let (side, before_words) = (0.8 * size, 1.15 * size);
    let between = 1.1 * size;
    drawing.text(0.0, size, label, heavy);
    let (mut x, mut y) = (heavy.width(label) + 0.6 * size, 0.0);
    if label.is_empty() {
        x = 0.0;
    }
    for item in items {
        let room = wide - before_words;
        let told = lines(item, size, Weight::Regular, room, room);
        let widest = told.iter().map(|line| plain.width(line)).fold(0.0, f64::max);
        if x > 0.0 && x + before_words + widest > wide {
            (x, y) = (0.0, y + row);
        }
        let area = Area { x, y: y + 0.22 * size, width: side, height: side };
        drawing.area(area, Look::plain(WHITE), Some(Stroke::of(BLACK, 1.2)), "");
        for (place, line) in told.iter().enumerate() {
            if place > 0 {
                y += row;
            }
            drawing.text(x + before_words, y + size, line, plain);
        }
        x += before_words + widest + between;
    }
    finished(drawing, y + row, Kind::Words, format!("{label} {}", items.join(", ")))
}

/// Room for a word of handwriting, pt. Judgement.
const WRITTEN: f64 = 70.0;

fn blanks(labels: &[String], in_a_row: usize, size: f64, wide: f64) -> SetBlock {
    let style = Text::of(size);
    let mut drawing = Drawing::new(wide);
    let between = 12.0;
    let row = 1.9 * size;
    let equal = (wide - between * (in_a_row as f64 - 1.0)) / in_a_row as f64;
    let mut y = 0.0;
    for part in labels.chunks(in_a_row.max(1)) {
        let mut lowest = y;
        let mut x = 0.0;
        let words: f64 = part.iter().map(|label| style.width(label) + 5.0).sum();
        let to_write = (wide - between * (part.len() as f64 - 1.0) - words) / part.len() as f64;
        for label in part {
            // As much to write on behind each label, where their words leave room for it.
            let each = match to_write {
                WRITTEN.. if part.len() == in_a_row => style.width(label) + 5.0 + to_write,
                _ => equal,
            };
            let mut at = y;
            // A third of the place at least is for writing.
            let for_label = if each == equal { 0.66 * each } else { each };
            let told = lines(label, size, Weight::Regular, for_label, for_label);
            for (place, line) in told.iter().enumerate() {
                if place > 0 {
                    at += LEADING * size;
                }
                drawing.text(x, at + 1.3 * size, line, style);
            }
            let last = told.last().map_or(0.0, |line| style.width(line));
            let base = at + 1.45 * size;
            drawing.line((x + last + 5.0, base), (x + each, base), Stroke::of(BLACK, 0.8));
            lowest = lowest.max(at);
            x += each + between;
        }
        y = lowest + row;
    }
    finished(drawing, y, Kind::Words, labels.join(", "))
}

fn ruled_lines(count: usize, wide: f64) -> SetBlock {
    const ROW: f64 = 24.0;
    let mut drawing = Drawing::new(wide);
    for line in 1..=count {
        let y = ROW * line as f64 - 3.0;
        drawing.line((0.0, y), (wide, y), Stroke::of(BLACK, 0.8));
    }
    finished(drawing, ROW * count as f64, Kind::Ornament, String::new())
}

fn picture(svg: &str, says: &str, wide: f64) -> SetBlock {
    let (svg_wide, svg_tall) = size_of(svg);
    let height = wide * svg_tall / svg_wide;
    SetBlock {
        svg: svg.to_owned(),
        width: wide,
        height,
        kind: Kind::Figure,
        says: says.to_owned(),
        table: None,
    }
}

/// Width and height of a drawing, as its `viewBox` has them.
fn size_of(svg: &str) -> (f64, f64) {
    let numbers = svg.split("viewBox=\"").nth(1).and_then(|rest| rest.split('"').next());
    let numbers: Vec<f64> =
        numbers.unwrap_or_default().split_whitespace().filter_map(|one| one.parse().ok()).collect();
    match numbers.as_slice() {
        [_, _, wide, tall] if *wide > 0.0 && *tall > 0.0 => (*wide, *tall),
        _ => (1.0, 1.0),
    }
}

fn frame(label: &str, tall: f64, wide: f64) -> SetBlock {
    let style = Text::of(14.0).colour(QUIET);
    let mut drawing = Drawing::new(wide);
    let area = Area { x: 1.0, y: 1.0, width: wide - 2.0, height: tall - 4.0 };
    drawing.area(area, Look::plain(WHITE), Some(Stroke::of(BLACK, 1.0)), "");
    let mut y = 4.0;
    for line in lines(label, style.size, Weight::Regular, wide - 16.0, wide - 16.0) {
        drawing.text(8.0, y + style.size, &line, style);
        y += LEADING * style.size;
    }
    finished(drawing, tall, Kind::Words, label.to_owned())
}

fn cut(wide: f64) -> SetBlock {
    let mut drawing = Drawing::new(wide);
    let style = Text::of(8.0).colour(QUIET);
    drawing.line((0.0, 7.0), (wide, 7.0), Stroke::of(BLACK, 1.0).dashed("6 5"));
    let told = "cut here";
    let area = Area {
        x: wide - style.width(told) - 12.0,
        y: 1.0,
        width: style.width(told) + 8.0,
        height: 12.0,
    };
    drawing.area(area, Look::plain(WHITE), None, "");
    drawing.text(wide - 8.0, 10.0, told, style.at(Anchor::End));
    finished(drawing, 14.0, Kind::CutLine, String::new())
}
