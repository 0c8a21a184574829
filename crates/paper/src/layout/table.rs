//! Sets a table: columns as wide as they need, the wordy ones broken over lines where the table is too wide.

use shuttle_report::chart::drawing::{
    Anchor, Area, BLACK, Drawing, GRID, Look, Stroke, Text, WHITE, Weight,
};

use super::block::{Grid, Side};
use super::lines::{LEADING, lines};
use super::set::{Kind, SetBlock, finished};

/// Between the words of two columns, over the size of letters.
const BETWEEN: f64 = 1.2;

/// Sets a table in a column of this width, pt.
pub fn set(grid: &Grid, wide: f64) -> SetBlock {
    let size = grid.size;
    let widths = widths(grid, wide);
    let mut drawing = Drawing::new(wide);
    let mut y = 0.0;
    let heads: Vec<&str> = grid.columns.iter().map(|(head, _)| head.as_str()).collect();
    if heads.iter().any(|head| !head.is_empty()) {
        y = row(&mut drawing, grid, &widths, &heads, y, Weight::SemiBold);
        if !grid.ruled {
            drawing.line((0.0, y), (widths.iter().sum(), y), Stroke::of(BLACK, 1.0));
        }
    }
    for cells in &grid.rows {
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        y = row(&mut drawing, grid, &widths, &cells, y, Weight::Regular);
        if !grid.ruled {
            drawing.line((0.0, y), (widths.iter().sum(), y), Stroke::of(GRID, 0.75));
        }
    }
    let says = std::iter::once(heads.join(", "))
        .chain(grid.rows.iter().map(|cells| cells.join(", ")))
        .collect::<Vec<_>>()
        .join("; ");
    finished(drawing, y + 0.3 * size, Kind::Words, says)
}

/// One row; returns where the next begins.
fn row(
    drawing: &mut Drawing,
    grid: &Grid,
    widths: &[f64],
    cells: &[&str],
    top: f64,
    weight: Weight,
) -> f64 {
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
    let mut x = 0.0;
    for ((width, lines), (_, side)) in widths.iter().zip(&told).zip(&grid.columns) {
        if grid.ruled {
            let area = Area { x, y: top, width: *width, height };
            drawing.area(area, Look::plain(WHITE), Some(Stroke::of(BLACK, 0.8)), "");
        }
        let mut y = top + 0.2 * size;
        for line in lines {
            match side {
                Side::Left => drawing.text(x + pad, y + size, line, style),
                Side::Right => drawing.text(x + width - pad, y + size, line, style.at(Anchor::End)),
            }
            y += LEADING * size;
        }
        x += width;
    }
    top + height
}

/// How wide each column is: as it needs, and where that is too much the wordy ones share what is left; a ruled
/// table fills the width.
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
    let wanted: Vec<f64> = (0..count).map(|column| of_column(column, &measure)).collect();
    let all: f64 = wanted.iter().sum();
    if all <= wide {
        let more = if grid.ruled { (wide - all) / count.max(1) as f64 } else { 0.0 };
        return wanted.into_iter().map(|width| width + more).collect();
    }
    // No narrower than its longest word, nor than would leave nothing for it.
    let least: Vec<f64> = (0..count)
        .map(|column| of_column(column, &longest_word).min(wide / count as f64))
        .collect();
    let spare = (wide - least.iter().sum::<f64>()).max(0.0);
    let over: f64 = wanted.iter().zip(&least).map(|(want, least)| (want - least).max(0.0)).sum();
    (wanted.iter().zip(&least))
        .map(|(want, least)| least + spare * (want - least).max(0.0) / over.max(1e-9))
        .collect()
}
