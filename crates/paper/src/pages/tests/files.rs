//! The files that pages are written to: the same bytes for the same day, fonts once.

use answers::question::handout as of_handout;

use super::*;
use crate::layout::sheet::Format;
use crate::pages::{card, handout};
use crate::{html, pdf};

#[test]
fn the_same_pages_and_day_are_the_same_bytes_and_another_day_is_not() {
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = card_of(&scenario);
    let bytes = |date| {
        let made = Made { date, ..made(&scenario, false) };
        let pages = card(&answer, Format::Letter, &made);
        (pdf::pdf(&pages, "title", &made).expect("a PDF"), html::html(&pages, "title"))
    };
    assert_eq!(bytes(DATE), bytes(DATE));
    let other = bytes(Date { day: 2, ..DATE });
    assert_ne!(bytes(DATE).0, other.0);
    assert_ne!(bytes(DATE).1, other.1);
}

/// The pages of a report have the letters of both fonts once, however many charts they carry.
#[test]
fn an_html_file_has_its_fonts_once_and_loads_nothing() {
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = of_handout::handout(&scenario, BUDGET, &Control::default());
    let made = made(&scenario, false);
    let pages = handout(&answer, Format::Letter, &made).expect("pages");
    let file = html::html(&pages, "title");
    assert_eq!(file.matches("@font-face").count(), 2);
    let svgs: usize = pages.iter().map(|page| page.svg("title").len()).sum();
    assert!(file.len() - svgs < 80_000, "{} bytes of fonts", file.len() - svgs);
    for loads in ["http:", "src=", "href=", "@import", "url(h"] {
        assert!(!file.replace("http://www.w3.org/2000/svg", "").contains(loads), "{loads}");
    }
}
