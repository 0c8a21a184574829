//! Blocks on sheets: nothing off the paper, nothing lost, headings with what they head.

use resvg::usvg::roxmltree::Document;

use super::block::{Block, Grid, Side};
use super::set::{Kind, set};
use super::sheet::{Format, Sheet, height, pages};

fn sheet() -> Sheet {
    Sheet::upright(Format::Letter, 40.0)
}

#[test]
fn sheets_are_as_large_as_their_standards_say() {
    // ANSI/ASME Y14.1: letter 8.5 x 11 in; ISO 216: A4 210 x 297 mm; a point is 1/72 in.
    assert_eq!(Format::Letter.size(), (8.5 * 72.0, 11.0 * 72.0));
    let (wide, tall) = Format::A4.size();
    assert!((wide / 72.0 * 25.4 - 210.0).abs() < 1e-9 && (tall / 72.0 * 25.4 - 297.0).abs() < 1e-9);
}

#[test]
fn what_does_not_fit_goes_on_on_the_next_page_and_a_heading_goes_with_it() {
    let line = Block::words("one line", 20.0);
    let each = height(std::slice::from_ref(&line), sheet().column());
    let fit = (sheet().room() / each) as usize;
    let mut blocks = vec![line.clone(); fit - 1];
    blocks.push(Block::Heading("heads the next".to_owned(), 12.0));
    blocks.push(line.clone());
    let made = pages(&blocks, sheet());
    assert_eq!(made.len(), 2);
    assert_eq!(made[1].placed[0].block.kind, Kind::Heading);
    assert_eq!(made.iter().map(|page| page.placed.len()).sum::<usize>(), blocks.len());
    for placed in made.iter().flat_map(|page| &page.placed) {
        assert!(placed.y + placed.block.height <= sheet().tall - sheet().margin + 1e-9);
    }
}

#[test]
fn every_word_of_a_table_is_in_its_drawing_and_within_its_width() {
    let long = "a remark that is much too long for its column and takes several lines of it";
    let grid = Grid {
        columns: vec![("name".to_owned(), Side::Left), ("gpm".to_owned(), Side::Right)],
        rows: vec![vec![long.repeat(4), "1,250".to_owned()], vec!["B".to_owned(), "7".to_owned()]],
        ruled: true,
        tall: 0.0,
        size: 11.0,
    };
    let table = set(&Block::Grid(grid), 300.0).expect("a drawing");
    let document = Document::parse(&table.svg).expect("XML");
    let words: String = (document.descendants())
        .filter(|node| node.has_tag_name("text"))
        .filter_map(|node| node.text())
        .collect();
    assert_eq!(words.matches("remark").count(), 4);
    for node in document.descendants().filter(|node| node.has_tag_name("rect")) {
        let number = |name| node.attribute(name).and_then(|value| value.parse::<f64>().ok());
        let right = number("x").unwrap_or(0.0) + number("width").unwrap_or(0.0);
        assert!(right <= 300.5, "{right}");
    }
}

#[test]
fn a_page_is_one_sound_drawing_with_its_blocks_where_they_were_placed() {
    let blocks = [Block::Title("A & B <1>".to_owned(), 20.0), Block::Cut, Block::Lines(2)];
    let page = &pages(&blocks, sheet())[0];
    let svg = page.svg("A & B");
    let document = Document::parse(&svg).expect("XML");
    let nested: Vec<_> = document
        .root_element()
        .children()
        .filter(|node| node.has_tag_name("svg"))
        .map(|node| node.attribute("y").unwrap_or_default().to_owned())
        .collect();
    let placed: Vec<_> = page.placed.iter().map(|one| format!("{:.2}", one.y)).collect();
    assert_eq!(nested, placed);
}
