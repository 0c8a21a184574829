//! The recorder's sheet: a blank log, as headings for a spreadsheet and as a page to print.

use crate::reading::Field;
use crate::stamp::Stamp;

/// Blank rows on a page: one side of Letter or A4 paper, landscape.
const ROWS: usize = 20;

/// - Given: whether it may be held against a scenario with several fill sites.
fn fields(has_sites: bool) -> impl Iterator<Item = Field> {
    [Field::Tanker, Field::Trip]
        .into_iter()
        .chain(has_sites.then_some(Field::Site))
        .chain(Stamp::ALL.map(Field::At))
        .chain([Field::Breakdown, Field::Remark])
}

/// What the columns of a form to print hold, from left to right.
///
/// - Given: whether there are several fill sites to tell apart.
pub fn columns(has_sites: bool) -> Vec<Field> {
    fields(has_sites).collect()
}

/// The headings as a line of CSV, for any scenario: the fill site may be left blank where there is one.
pub fn headings() -> String {
    let heads: Vec<&str> = fields(true).map(Field::heading).collect();
    format!("{}\n", heads.join(","))
}

/// A page of HTML to print: the same columns, blank.
pub fn page() -> String {
    let heads: String = fields(true).map(|field| format!("<th>{}</th>", field.heading())).collect();
    let blank = "<td></td>".repeat(fields(true).count());
    let rows = format!("<tr>{blank}</tr>\n").repeat(ROWS);
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>Drill log</title>\n\
         <style>\n@page {{ size: landscape; margin: 10mm; }}\n\
         body {{ font: 10pt sans-serif; margin: 0; }}\nh1 {{ font-size: 14pt; margin: 0 0 2mm; }}\n\
         p {{ margin: 1mm 0; }}\n.line {{ display: inline-block; border-bottom: 1px solid #000; width: 45mm; }}\n\
         table {{ border-collapse: collapse; width: 100%; margin-top: 2mm; table-layout: fixed; }}\n\
         th, td {{ border: 1px solid #000; padding: 1mm; }}\nth {{ font-size: 8pt; }}\ntd {{ height: 6mm; }}\n\
         th:nth-child(2) {{ width: 9mm; }}\nth:last-child {{ width: 40mm; }}\n</style>\n</head>\n<body>\n\
         <h1>Drill log</h1>\n\
         <p>Drill <span class=\"line\"></span> Date <span class=\"line\"></span> Recorder \
         <span class=\"line\"></span> Alarm at <span class=\"line\"></span></p>\n\
         <p>One row a trip. One watch for all places, or watches set together. Write hours, minutes and \
         seconds (13:05:20). Leave blank what you did not see. \"Connected\" is when water can flow; \"full\" and \
         \"empty\" are when it stops. Mark breakdowns, and say in the remarks if a load was nursed. Stand clear \
         of backing trucks.</p>\n\
         <table>\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</body>\n</html>\n"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sheet_s_headings_are_read_without_a_guess() {
        let course = crate::Course {
            tankers: vec![crate::CourseTanker { name: "T".to_owned(), load: 1.0, site: None }],
            sites: vec![crate::Site { name: "S".to_owned(), positions: 1, one_at_a_time: true }],
            dump_positions: 1,
        };
        let text =
            format!("{}T,1,,13:00,13:01,13:02,13:03,13:04,13:05,13:06,13:07,,fine\n", headings());
        let log = crate::read(&crate::open_text(text.as_bytes()).expect("a table"), &course);
        let log = log.expect("a log");
        assert_eq!(log.guesses, []);
        assert_eq!(log.trips[0].at.iter().flatten().count(), 8);
        assert!(page().contains("started dump"));
    }
}
