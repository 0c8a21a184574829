//! Sets a table: columns as wide as they need, the wordy ones broken over lines where the table is too wide.

use shuttle_report::chart::drawing::{
    Anchor, Area, BLACK, Drawing, GRID, Look, Stroke, Text, WHITE, Weight,
};

use super::block::{Grid, Side};
use super::lines::{LEADING, lines};
use super::set::{Kind, SetBlock, finished};

/// Between the words of two columns, over the size of letters.
const BETWEEN: f64 = 1.2;
/// From a cell's edge to its own drawing, pt.
const INSET: f64 = 1.5;

/// A cell of a table that is set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetCell {
    /// Its left edge within the table, pt.
    pub x: f64,
    /// Its upper edge, pt.
    pub y: f64,
    /// Width, pt.
    pub width: f64,
    /// Height, pt.
    pub height: f64,
    /// Its words, as a drawing; nothing where it is blank.
    pub svg: Option<String>,
}

/// A table in parts, for a reader who hears it cell by cell.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SetTable {
    /// Its lines alone, as a drawing.
    pub lines: String,
    /// The heads of its columns; nothing where they have none.
    pub heads: Vec<SetCell>,
    /// Its rows of cells.
    pub rows: Vec<Vec<SetCell>>,
}

/// The whole of a table and its lines alone, as far as they are drawn.
struct Drawn {
    whole: Drawing,
    lines: Drawing,
}

impl Drawn {
    fn rule(&mut self, wide: f64, y: f64, stroke: Stroke) {
        for drawing in [&mut self.whole, &mut self.lines] {
            drawing.line((0.0, y), (wide, y), stroke);
        }
    }
}

/// Sets a table in a column of this width, pt.
pub fn set(grid: &Grid, wide: f64) -> SetBlock {
    let widths = widths(grid, wide);
    let mut drawn = Drawn { whole: Drawing::new(wide), lines: Drawing::new(wide) };
    let mut table = SetTable::default();
    let mut y = 0.0;
    let heads: Vec<&str> = grid.columns.iter().map(|(head, _)| head.as_str()).collect();
    let across = widths.iter().sum();
    if heads.iter().any(|head| !head.is_empty()) {
        (table.heads, y) = row(&mut drawn, grid, &widths, &heads, y, Weight::SemiBold);
        if !grid.ruled {
            drawn.rule(across, y, Stroke::of(BLACK, 1.0));
        }
    }
    for cells in &grid.rows {
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        let (set, end) = row(&mut drawn, grid, &widths, &cells, y, Weight::Regular);
        table.rows.push(set);
        y = end;
        if !grid.ruled {
            drawn.rule(across, y, Stroke::of(GRID, 0.75));
        }
    }
    let says = std::iter::once(heads.join(", "))
        .chain(grid.rows.iter().map(|cells| cells.join(", ")))
        .collect::<Vec<_>>()
        .join("; ");
    let tall = y + 0.3 * grid.size;
    table.lines = drawn.lines.finish(tall.ceil(), "", "");
    SetBlock { table: Some(table), ..finished(drawn.whole, tall, Kind::Table, says) }
}

/// One row; returns its cells and where the next begins.
fn row(
    drawn: &mut Drawn,
    grid: &Grid,
    widths: &[f64],
    cells: &[&str],
    top: f64,
    weight: Weight,
) -> (Vec<SetCell>, f64) {
    let size = grid.size;
    let pad = BETWEEN * size / 2.0;
    let style = Text { weight, ..Text::of(size) };
    let told: Vec<Vec<String>> = (cells.iter().zip(widths))
        .map(|(cell, width)| {
            let room = width - 2.0 * pad;
            lines(cell, size, weight, room, room)
        })
        .collect();
    let most = told.iter().map(Vec::len).max().unwrap_or(1);
    let height = (most as f64 * LEADING * size + 0.45 * size).max(grid.tall);
    let mut set = Vec::new();
    let mut x = 0.0;
    for ((width, lines), (_, side)) in widths.iter().zip(&told).zip(&grid.columns) {
        if grid.ruled {
            let area = Area { x, y: top, width: *width, height };
            for drawing in [&mut drawn.whole, &mut drawn.lines] {
                drawing.area(area, Look::plain(WHITE), Some(Stroke::of(BLACK, 0.8)), "");
            }
        }
        // Within the lines around it, which its white ground would cover.
        let mut cell = Drawing::new((width - 2.0 * INSET).max(1.0));
        let mut y = 0.2 * size;
        for line in lines {
            let (at, style) = match side {
                Side::Left => (pad, style),
                Side::Right => (width - pad, style.at(Anchor::End)),
            };
            drawn.whole.text(x + at, top + y + size, line, style);
            cell.text(at - INSET, y + size - INSET, line, style);
            y += LEADING * size;
        }
        let is_blank = lines.iter().all(|line| line.trim().is_empty());
        let (wide, tall) = (cell.width().ceil(), (height - 2.0 * INSET).max(1.0).ceil());
        set.push(SetCell {
            x: x + INSET,
            y: top + INSET,
            width: wide,
            height: tall,
            svg: (!is_blank).then(|| cell.finish(tall, "", "")),
        });
        x += width;
    }
    (set, top + height)
}

/// How wide each column is: as it needs, and where that is too much the wordy ones share what is left. A ruled table
/// fills the width, and what is over goes to the columns that are written in, where there are any: these are as wide as
/// each other as far as their heads allow, for a time takes as much to write under a short head as under a long one.
fn widths(grid: &Grid, wide: f64) -> Vec<f64> {
    let pad = BETWEEN * grid.size;
    let measure = |text: &str, weight| Text { weight, ..Text::of(grid.size) }.width(text) + pad;
    let longest_word = |text: &str, weight| {
        text.split_whitespace().map(|word| measure(word, weight)).fold(pad, f64::max)
    };
    let of_column = |column: usize, by: &dyn Fn(&str, Weight) -> f64| {
        let head = by(&grid.columns[column].0, Weight::SemiBold);
        (grid.rows.iter()).map(|row| by(&row[column], Weight::Regular)).fold(head, f64::max)
    };
    let count = grid.columns.len();
    let is_blank = |column: usize| grid.rows.iter().all(|row| row[column].is_empty());
    let blank: Vec<usize> = (0..count).filter(|column| grid.ruled && is_blank(*column)).collect();
    let wanted: Vec<f64> = (0..count).map(|column| of_column(column, &measure)).collect();
    // No narrower than its longest word, nor than would leave nothing for it.
    let least: Vec<f64> = (0..count)
        .map(|column| of_column(column, &longest_word).min(wide / count as f64))
        .collect();
    let all: f64 = wanted.iter().sum();
    let mut widths = if all <= wide {
        let more = if grid.ruled { wide - all } else { 0.0 };
        let to_all = if blank.is_empty() { more / count as f64 } else { 0.0 };
        let mut widths: Vec<f64> = wanted.iter().map(|width| width + to_all).collect();
        if let Some(first) = blank.first() {
            widths[*first] += more;
        }
        widths
    } else {
        let spare = (wide - least.iter().sum::<f64>()).max(0.0);
        let over = |(want, least): (&f64, &f64)| (want - least).max(0.0);
        let all_over: f64 = wanted.iter().zip(&least).map(over).sum();
        let share = |of: (&f64, &f64)| of.1 + spare * over(of) / all_over.max(1e-9);
        wanted.iter().zip(&least).map(share).collect()
    };
    let together: f64 = blank.iter().map(|column| widths[*column]).sum();
    // A head of several words is broken for it only where not all fit in one line.
    let floors = if all <= wide { wanted } else { least };
    let level = level(&blank.iter().map(|column| floors[*column]).collect::<Vec<_>>(), together);
    for column in &blank {
        widths[*column] = level.max(floors[*column]);
    }
    widths
}

/// The width that all of these are raised to which are less, so that together they are so wide.
fn level(least: &[f64], together: f64) -> f64 {
    let mut least = least.to_vec();
    least.sort_by(f64::total_cmp);
    let (mut wider, mut found) = (0.0, 0.0);
    for (place, width) in least.iter().enumerate().rev() {
        let level = (together - wider) / (place + 1) as f64;
        if level >= *width {
            found = level;
            break;
        }
        wider += width;
    }
    found
}
