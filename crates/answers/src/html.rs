//! Parts of an answer as a page to print: plain HTML with its own style, nothing loaded from elsewhere.

use std::fmt::Write;

use crate::answer::Block;
use crate::reader::Reader;
use crate::say::{Align, Table};
use crate::text::{CAUTION, begun};

/// Most rows of a table that is kept on one page. Judgement: a quarter of a page.
const MOST_ROWS_KEPT: usize = 8;

/// Black on white for A4 and letter paper. A short table stays on one page; a long one may go on over a page: its head is
/// repeated there, no row is cut, and no foot stands there alone.
/// A first column of one width keeps tables under each other in line.
const STYLE: &str = "body{font:11pt/1.35 sans-serif;color:#000;background:#fff;max-width:52em;margin:2em auto;\
padding:0 1em}h1{font-size:16pt}table{border-collapse:collapse;margin:0 0 1.1em;width:100%}thead{\
display:table-header-group}tr,table.whole{break-inside:avoid}thead tr{break-after:avoid}tr.feet{break-before:avoid}\
th,td{border:1px solid #999;padding:.2em .5em;vertical-align:top;text-align:left}th{background:#eee}\
th:first-child{width:30%}.r{text-align:right}td.feet{border:0;font-size:9pt}.blank{display:inline-block;\
min-width:7em;border-bottom:1px solid #000}@media print{body{margin:0;max-width:none}}";

/// A whole page.
///
/// - Given: `made`, what it was made from; `foot`, what stands at the foot of every printed page beside its number;
///   `blank`, letters that stand for a blank to be filled in.
pub fn page(
    title: &str,
    blocks: &[Block],
    made: &str,
    foot: &str,
    blank: &str,
    reader: &Reader,
) -> String {
    let mut body = String::new();
    for block in blocks {
        match block {
            Block::Paragraph(sentence) | Block::Point(_, sentence) if !sentence.is_empty() => {
                let told = safe(&begun(sentence, reader), blank);
                let _ = writeln!(body, "<p>{told}</p>");
            }
            Block::Table(one) => table(&mut body, one, blank, reader),
            Block::Paragraph(_) | Block::Point(..) | Block::Gap => {}
        }
    }
    let title = safe(title, blank);
    // CSS paged media: boxes in the margin of each page.
    let paper = format!(
        "@page{{margin:15mm 15mm 18mm;@bottom-left{{font:8pt sans-serif;content:{}}}@bottom-right{{\
         font:8pt sans-serif;content:\"page \" counter(page) \" of \" counter(pages)}}}}",
        css_text(foot)
    );
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{title}</title>\n\
         <style>{STYLE}{paper}</style>\n</head>\n<body>\n<h1>{title}</h1>\n{body}<p>{}</p>\n<p>{}</p>\n</body>\n\
         </html>\n",
        safe(made, blank),
        safe(CAUTION, blank)
    )
}

fn table(body: &mut String, table: &Table, blank: &str, reader: &Reader) {
    let class = |align: Align| if align == Align::Right { " class=\"r\"" } else { "" };
    let is_kept = table.rows.len() <= MOST_ROWS_KEPT;
    body.push_str(if is_kept {
        "<table class=\"whole\">\n<thead><tr>"
    } else {
        "<table>\n<thead><tr>"
    });
    for column in &table.columns {
        let head = safe(&begun(&column.head, reader), blank);
        let _ = write!(body, "<th{}>{head}</th>", class(column.align));
    }
    body.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        body.push_str("<tr>");
        // What stands in front of empty cells has their room.
        let empty = row.iter().skip(1).take_while(|cell| cell.is_empty()).count();
        let room = if empty > 0 { format!(" colspan=\"{}\"", empty + 1) } else { String::new() };
        for (place, (cell, column)) in row.iter().zip(&table.columns).enumerate() {
            let told = safe(&reader.put(cell), blank);
            let _ = match place {
                0 => write!(body, "<td{}{room}>{told}</td>", class(column.align)),
                place if place <= empty => Ok(()),
                _ => write!(body, "<td{}>{told}</td>", class(column.align)),
            };
        }
        body.push_str("</tr>\n");
    }
    for foot in &table.feet {
        let told = safe(&reader.put(foot), blank);
        let many = table.columns.len();
        let _ = writeln!(
            body,
            "<tr class=\"feet\"><td class=\"feet\" colspan=\"{many}\">{told}</td></tr>"
        );
    }
    body.push_str("</tbody>\n</table>\n");
}

/// Text as HTML may hold it, blanks as lines to write on.
fn safe(text: &str, blank: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            letter if letter.is_control() => safe.push(' '),
            letter => safe.push(letter),
        }
    }
    safe.replace(blank, "<span class=\"blank\">&nbsp;</span>")
}

/// Text as a string of a style sheet: all but plain letters by their numbers (CSS syntax, escapes).
fn css_text(text: &str) -> String {
    let mut safe = String::from("\"");
    for letter in text.chars() {
        match letter {
            letter if letter.is_alphanumeric() || " .,:-_/()".contains(letter) => safe.push(letter),
            letter if letter.is_control() => safe.push(' '),
            letter => {
                let _ = write!(safe, "\\{:x} ", u32::from(letter));
            }
        }
    }
    safe.push('"');
    safe
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::say;
    use crate::say::{Piece, name};

    #[test]
    fn a_page_holds_what_it_is_given_and_nothing_else_is_loaded() {
        let mut one =
            Table::new(vec![(say!["what"], Align::Left), (say![Piece::FlowSign], Align::Right)]);
        one.row(vec![say![name("<b>Pond & \"Mill\"</b>")], say![Piece::BareFlow(250.0)]]);
        one.row(vec![say!["witness"], say!["____"]]);
        let reader = Reader { units: Units::Us, tender: false };
        let blocks = [Block::Paragraph(say!["evidence."]), Block::Table(one)];
        let page = page("Barn", &blocks, "seed 1", "a</style>\".json", "____", &reader);
        for told in [
            "&lt;b&gt;Pond &amp; &quot;Mill&quot;&lt;/b&gt;",
            "<td class=\"r\">250</td>",
            "<span class=\"blank\">",
            "<p>Evidence.</p>",
            "incident commander",
            "<thead><tr><th>What</th>",
            "content:\"a\\3c /style\\3e \\22 .json\"",
            "counter(page)",
        ] {
            assert!(page.contains(told), "{told}: {page}");
        }
        assert!(!page.contains("http") && !page.contains("____"), "{page}");
    }
}
