//! Tables set in columns no wider than the terminal.

use crate::reader::Reader;
use crate::say::{Align, Table};

/// Between two columns.
const GAP: usize = 2;
/// A column of words is not made narrower than this before heads take more than two lines.
const COMFORTABLE: usize = 20;
/// No column of words is made narrower than this.
const NARROWEST: usize = 12;

/// The table as lines. Heads take two lines where there is room; columns of words are broken over lines until
/// it fits; numbers and words never are. A table that is too wide even so stands row by row: see [`rows_told`].
pub fn table(table: &Table, reader: &Reader, width: usize) -> String {
    let rows: Vec<Vec<String>> =
        (table.rows.iter()).map(|row| row.iter().map(|cell| reader.put(cell)).collect()).collect();
    let heads: Vec<String> = table.columns.iter().map(|column| reader.put(&column.head)).collect();
    let least: Vec<usize> = (heads.iter().enumerate())
        .map(|(place, head)| {
            let cells = rows.iter().map(|row| letters(&row[place])).max().unwrap_or(0);
            cells.max(longest_word(head))
        })
        .collect();
    let mut widths: Vec<usize> =
        least.iter().zip(&heads).map(|(least, head)| (*least).max(in_two_lines(head))).collect();
    // No column of words is narrower than the longest of them: it would run into the next.
    let words: Vec<usize> = (heads.iter().enumerate())
        .map(|(place, head)| {
            let cells = rows.iter().map(|row| longest_word(&row[place])).max().unwrap_or(0);
            cells.max(longest_word(head))
        })
        .collect();
    let total = |widths: &[usize]| widths.iter().sum::<usize>() + GAP * (widths.len() - 1);
    let widest_above = |widths: &[usize], limit: usize| {
        (0..widths.len())
            .filter(|place| table.columns[*place].align == Align::Left)
            .filter(|place| widths[*place] > limit.max(words[*place]))
            .max_by_key(|place| widths[*place])
    };
    while total(&widths) > width {
        let only_its_head = || (0..widths.len()).find(|place| widths[*place] > least[*place]);
        let place = widest_above(&widths, COMFORTABLE)
            .or_else(only_its_head)
            .or_else(|| widest_above(&widths, NARROWEST));
        let Some(place) = place else { break };
        widths[place] -= 1;
    }
    let aligns: Vec<Align> = table.columns.iter().map(|column| column.align).collect();
    let mut out = String::new();
    if total(&widths) > width {
        out.push_str(&rows_told(&heads, &rows, &aligns, width));
    } else {
        if heads.iter().any(|head| !head.is_empty()) {
            out.push_str(&line(&heads, &widths, &aligns, true));
        }
        for row in &rows {
            out.push_str(&line(row, &widths, &aligns, false));
        }
    }
    for foot in &table.feet {
        out.push_str(&textwrap::fill(&reader.put(foot), super::options(width)));
        out.push('\n');
    }
    out
}

/// A table that does not fit in columns: each row as a paragraph, what it is about first, then every figure with the head
/// of its column.
fn rows_told(heads: &[String], rows: &[Vec<String>], aligns: &[Align], width: usize) -> String {
    let first_words = aligns.iter().position(|align| *align == Align::Left).unwrap_or(0);
    let indent = " ".repeat(GAP);
    let mut out = String::new();
    for row in rows {
        let about: Vec<&str> = row[..=first_words].iter().map(String::as_str).collect();
        let figures: Vec<String> = (heads.iter().zip(row).skip(first_words + 1))
            .filter(|(_, cell)| !cell.is_empty())
            .map(|(head, cell)| match head.as_str() {
                "" => cell.clone(),
                head => format!("{head}: {cell}"),
            })
            .collect();
        let about = about.join(" ");
        let text = match about.trim() {
            "" => figures.join("; "),
            about if figures.is_empty() => about.to_owned(),
            about => format!("{about} - {}", figures.join("; ")),
        };
        out.push_str(&textwrap::fill(&text, super::options(width).subsequent_indent(&indent)));
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

/// The least width in which a head takes no more than two lines.
fn in_two_lines(head: &str) -> usize {
    let lines = |width: usize| textwrap::wrap(head, super::options(width)).len();
    (longest_word(head).max(1)..).find(|width| lines(*width) <= 2).unwrap_or(0)
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
    fn a_head_takes_two_lines_where_there_is_room_for_it() {
        let head = say!["fires of 100 that run short"];
        let mut made = Table::new(vec![(head, Align::Right), (say!["who"], Align::Left)]);
        made.row(vec![say![Piece::Number(7.0, 0)], say![name("Tanker 3")]]);
        let reader = Reader { units: Units::Us, tender: false };
        let told = "  fires of 100\nthat run short  who\n             7  Tanker 3\n";
        assert_eq!(table(&made, &reader, 60), told);
    }

    /// Ten columns of figures and a name take more than sixty columns however they are set.
    #[test]
    fn a_table_that_cannot_fit_stands_row_by_row_and_loses_no_figure() {
        let mut columns = vec![(say!["fill site"], Align::Left)];
        columns.extend((1..=10).map(|_| (say!["credited"], Align::Right)));
        let mut made = Table::new(columns);
        let mut cells = vec![say![name("Schoolhouse hydrant")]];
        cells.extend((1..=10).map(|place| say![Piece::Number(100.0 + f64::from(place), 0)]));
        made.row(cells);
        let reader = Reader { units: Units::Us, tender: false };
        let text = table(&made, &reader, 60);
        assert!(text.lines().all(|line| line.chars().count() <= 60), "{text}");
        assert!(text.starts_with("Schoolhouse hydrant - credited: 101; credited: 102"), "{text}");
        assert!((101..=110).all(|figure| text.contains(&figure.to_string())), "{text}");
        assert!(
            table(&made, &reader, 130).contains("  credited\nSchoolhouse"),
            "in columns where there is room"
        );
    }

    /// A word longer than its column is given room: it would push what stands behind it out of line.
    #[test]
    fn no_word_runs_into_the_next_column() {
        let mut made = Table::new(vec![(say!["where"], Align::Left), (say!["what"], Align::Left)]);
        let long = "Oberunterwasserbrunnenplatz";
        made.row(vec![say![name(long)], say![name(&"short words of it ".repeat(6))]]);
        let reader = Reader { units: Units::Us, tender: false };
        let text = table(&made, &reader, 60);
        assert!(text.lines().all(|line| line.chars().count() <= 60), "{text}");
        assert!(text.contains(&format!("{long}  short")), "{text}");
    }

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
