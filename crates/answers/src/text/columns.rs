//! Tables set in columns no wider than the terminal.

use crate::reader::Reader;
use crate::say::{Align, Table};

/// Between two columns.
const GAP: usize = 2;
/// No column of words is made narrower than this.
const NARROWEST: usize = 12;

/// The table as lines. Columns of words are broken over lines until it fits; numbers never are.
pub fn table(table: &Table, reader: &Reader, width: usize) -> String {
    let rows: Vec<Vec<String>> =
        (table.rows.iter()).map(|row| row.iter().map(|cell| reader.put(cell)).collect()).collect();
    let heads: Vec<String> = table.columns.iter().map(|column| reader.put(&column.head)).collect();
    let with_heads = |width_of: fn(&str) -> usize| -> Vec<usize> {
        (heads.iter().enumerate())
            .map(|(place, head)| {
                let cells = rows.iter().map(|row| letters(&row[place])).max().unwrap_or(0);
                cells.max(width_of(head))
            })
            .collect()
    };
    let total = |widths: &[usize]| widths.iter().sum::<usize>() + GAP * (widths.len() - 1);
    let mut widths = with_heads(on_two_lines);
    if total(&widths) > width {
        widths = with_heads(longest_word);
    }
    while total(&widths) > width {
        let widest = (0..widths.len())
            .filter(|place| table.columns[*place].align == Align::Left)
            .filter(|place| widths[*place] > NARROWEST)
            .max_by_key(|place| widths[*place]);
        let Some(widest) = widest else { break };
        widths[widest] -= 1;
    }
    let aligns: Vec<Align> = table.columns.iter().map(|column| column.align).collect();
    let mut out = String::new();
    if heads.iter().any(|head| !head.is_empty()) {
        out.push_str(&line(&heads, &widths, &aligns, true));
    }
    for row in &rows {
        out.push_str(&line(row, &widths, &aligns, false));
    }
    for foot in &table.feet {
        out.push_str(&textwrap::fill(&reader.put(foot), super::options(width)));
        out.push('\n');
    }
    out
}

fn letters(text: &str) -> usize {
    text.chars().count()
}

fn longest_word(text: &str) -> usize {
    text.split(' ').map(letters).max().unwrap_or(0)
}

/// The least width at which a head takes no more than two lines.
fn on_two_lines(head: &str) -> usize {
    let fits = |width: &usize| textwrap::wrap(head, super::options(*width)).len() <= 2;
    (longest_word(head).max(1)..letters(head)).find(fits).unwrap_or_else(|| letters(head))
}

/// One row, over as many lines as its longest cell takes; heads stand at the foot of theirs.
fn line(cells: &[String], widths: &[usize], aligns: &[Align], is_head: bool) -> String {
    let broken: Vec<Vec<String>> = (cells.iter().zip(widths))
        .map(|(cell, width)| {
            let lines = textwrap::wrap(cell, super::options((*width).max(1)));
            lines.into_iter().map(|line| line.into_owned()).collect()
        })
        .collect();
    let height = broken.iter().map(Vec::len).max().unwrap_or(0);
    let mut out = String::new();
    for at in 0..height {
        let mut text = String::new();
        for (place, lines) in broken.iter().enumerate() {
            let above = if is_head { height - lines.len() } else { 0 };
            let cell = at.checked_sub(above).and_then(|at| lines.get(at)).map_or("", |cell| cell);
            let width = widths[place];
            let blank = " ".repeat(width.saturating_sub(letters(cell)));
            match aligns[place] {
                Align::Left => text.push_str(&format!("{cell}{blank}")),
                Align::Right => text.push_str(&format!("{blank}{cell}")),
            }
            text.push_str(&" ".repeat(GAP));
        }
        out.push_str(text.trim_end());
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::say;
    use crate::say::{Piece, name};

    #[test]
    fn words_break_and_numbers_stay_until_it_fits() {
        let mut made =
            Table::new(vec![(say!["what is lost"], Align::Left), (say!["short in"], Align::Right)]);
        made.row(vec![
            say![name(
                "a long name of a unit that does not fit on one line of sixty columns, ever"
            )],
            say![Piece::Share(0.05)],
        ]);
        let reader = Reader { units: Units::Us, tender: false };
        let text = table(&made, &reader, 60);
        assert!(text.lines().all(|line| line.chars().count() <= 60), "{text}");
        assert_eq!(text.matches("5%").count(), 1);
        assert!(text.lines().count() > 2, "{text}");
    }
}
