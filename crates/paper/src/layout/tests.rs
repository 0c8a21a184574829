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

fn table(rows: usize) -> Block {
    Block::Grid(Grid {
        columns: vec![("lost".to_owned(), Side::Left), ("short in".to_owned(), Side::Right)],
        rows: (1..=rows).map(|row| vec![format!("row {row}"), "two\nlines ".repeat(3)]).collect(),
        ruled: false,
        tall: 0.0,
        size: 11.0,
    })
}

/// What a table says of itself is read with it, and a row is never torn.
#[test]
fn a_table_keeps_its_feet_and_one_that_is_too_high_goes_on_row_by_row_under_its_heads() {
    let feet = [Block::foot("As it stands.", 11.0), Block::foot("Each for the whole fire.", 11.0)];
    let column = sheet().column();
    let room = |blocks: &[Block]| sheet().room() - height(blocks, column);
    // Room for the table and half of what is said under it.
    let first = Block::Frame {
        label: String::new(),
        tall: (room(&[table(6)]) - height(&feet, column) / 2.0).floor(),
    };
    let made = pages(&[vec![first, table(6)], feet.to_vec()].concat(), sheet());
    assert_eq!(made.len(), 2);
    let on: Vec<Vec<Kind>> =
        made.iter().map(|page| page.placed.iter().map(|one| one.block.kind).collect()).collect();
    assert_eq!(on[1], [Kind::Table, Kind::Words, Kind::Words], "{on:?}");

    let made = pages(&[table(90)], sheet());
    assert!(made.len() > 1);
    let mut rows = 0;
    for page in &made {
        for placed in &page.placed {
            let table = placed.block.table.as_ref().expect("a table");
            assert_eq!(table.heads.len(), 2, "the heads stand over every part");
            let lowest = table.rows.iter().flatten().map(|cell| cell.y + cell.height);
            let lowest = lowest.fold(0.0, f64::max);
            assert!(placed.y + lowest <= sheet().tall - sheet().margin, "no row is torn");
            rows += table.rows.len();
        }
    }
    assert_eq!(rows, 90);
}

/// Rows that have no first cell go on with the one above them, and stay on its page.
#[test]
fn rows_of_one_thing_stay_together() {
    let rows: Vec<Vec<String>> = (0..120)
        .map(|row| {
            let first = if row % 3 == 0 { format!("thing {row}") } else { String::new() };
            vec![first, format!("row {row}")]
        })
        .collect();
    let grid = Grid {
        columns: vec![("lost".to_owned(), Side::Left), ("short in".to_owned(), Side::Right)],
        rows,
        ruled: false,
        tall: 0.0,
        size: 11.0,
    };
    let made = pages(&[Block::Grid(grid)], sheet());
    assert!(made.len() > 1);
    for page in &made {
        let table = page.placed[0].block.table.as_ref().expect("a table");
        assert!(table.rows[0][0].svg.is_some(), "a page begins with the first row of a thing");
    }
}

/// Under its heading words say what a table shows: they stand over it, however little of the page is left, and however
/// high the table is.
#[test]
fn heading_and_words_stay_with_their_table() {
    let column = sheet().column();
    for rows in [3, 14, 90] {
        let table = table(rows);
        let over = [
            Block::Heading("What a loss does".to_owned(), 14.0),
            Block::words("By what is lost:", 11.0),
            Block::Gap(5.0),
        ];
        let first = (sheet().room() - height(&over, column) - 12.0).floor();
        let first = Block::Frame { label: String::new(), tall: first };
        let made = pages(&[vec![first], over.to_vec(), vec![table]].concat(), sheet());
        assert_eq!(made[0].placed.len(), 1, "{rows} rows");
        let on: Vec<Kind> = made[1].placed.iter().map(|one| one.block.kind).take(3).collect();
        assert_eq!(on, [Kind::Heading, Kind::Words, Kind::Table], "{rows} rows");
    }
}

#[test]
fn what_a_ruled_table_has_to_spare_goes_to_what_is_written_in() {
    let grid = Grid {
        columns: ["Load", "Tanker", "Min"].map(|head| (head.to_owned(), Side::Left)).to_vec(),
        rows: vec![vec!["1".to_owned(), String::new(), String::new()]],
        ruled: true,
        tall: 20.0,
        size: 14.0,
    };
    let set = set(&Block::Grid(grid), 400.0).expect("a drawing");
    let heads: Vec<f64> = set.table.expect("a table").heads.iter().map(|cell| cell.width).collect();
    assert!(heads[0] < 60.0 && heads[1] > 140.0 && heads[2] > 130.0, "{heads:?}");
}

/// A time takes as much to write under "Full" as under "Arrived at scene": the page in equal
/// parts; a head that is longer than its part has what it needs.
#[test]
fn what_is_written_in_is_as_wide_under_a_short_head_as_under_a_long_one() {
    let heads_of = |heads: &[&str], wide: f64| -> Vec<f64> {
        let grid = Grid {
            columns: heads.iter().map(|head| ((*head).to_owned(), Side::Left)).collect(),
            rows: vec![vec![String::new(); heads.len()]],
            ruled: true,
            tall: 20.0,
            size: 9.0,
        };
        let set = set(&Block::Grid(grid), wide).expect("a drawing");
        set.table.expect("a table").heads.iter().map(|cell| cell.width).collect()
    };
    let heads = ["Full", "Arrived at scene", "Empty"];
    let as_wide = |one: f64, other: f64| (one - other).abs() <= 1.0;
    // With room to spare, with just enough for every head in one line, and with too little for that.
    let [wide, just, narrow] = [600.0, 200.0, 130.0].map(|wide| heads_of(&heads, wide));
    assert!(as_wide(wide[0], wide[1]) && as_wide(wide[0], wide[2]), "{wide:?}");
    assert!(as_wide(just[0], just[2]) && just[0] > 50.0 && just[1] > just[0], "{just:?}");
    assert!(as_wide(narrow[0], narrow[2]) && narrow[0] > 30.0, "{narrow:?}");
    for (found, asked) in [(&wide, 600.0), (&just, 200.0), (&narrow, 130.0)] {
        // From every cell its inset of 1.5 pt on both sides is left out.
        let all: f64 = found.iter().sum();
        assert!((all + 3.0 * 3.0 - asked).abs() <= 3.0, "{asked}: {found:?}");
    }
    let found = heads_of(&["No", "Unquestionable-and-long"], 200.0);
    assert!(found[0] > 30.0 && found[1] >= 94.0, "{found:?}");
}

/// Labels of one row share what room they leave; a long one takes no line of its own while there is room.
#[test]
fn what_is_written_behind_labels_is_as_wide_for_each_of_them() {
    let labels = ["Quarry pond: out by", "back by", "pump"].map(str::to_owned).to_vec();
    let set = set(&Block::Blanks { labels, in_a_row: 3, size: 14.0 }, 540.0).expect("a drawing");
    let document = Document::parse(&set.svg).expect("XML");
    let number = |node: &resvg::usvg::roxmltree::Node<'_, '_>, name: &str| {
        node.attribute(name).and_then(|value| value.parse::<f64>().ok()).expect("a number")
    };
    let lines: Vec<f64> = (document.descendants())
        .filter(|node| node.has_tag_name("line"))
        .map(|node| number(&node, "x2") - number(&node, "x1"))
        .collect();
    assert_eq!(lines.len(), 3);
    assert!(lines.iter().all(|line| (line - lines[0]).abs() < 1.0 && *line > 70.0), "{lines:?}");
    assert!(set.height < 2.0 * 14.0, "on one line: {}", set.height);
}
