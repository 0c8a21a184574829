//! Sheets of paper, and blocks placed on them one under another.

use std::collections::VecDeque;

use shuttle_report::chart::drawing::{FAMILY, Text, WHITE, escaped};

use super::block::Block;
use super::set::{Kind, SetBlock, set};

/// Letters of a page's number, pt.
const FOOT: f64 = 9.0;

/// A size of paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// 8.5 x 11 in.
    Letter,
    /// 210 x 297 mm (ISO 216).
    A4,
}

impl Format {
    /// Width and height, pt (1/72 in).
    pub fn size(self) -> (f64, f64) {
        match self {
            Format::Letter => (612.0, 792.0),
            Format::A4 => (210.0 * 72.0 / 25.4, 297.0 * 72.0 / 25.4),
        }
    }
}

/// A sheet: its size, on which side, and its margins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// Width, pt.
    pub wide: f64,
    /// Height, pt.
    pub tall: f64,
    /// The margin all round, pt: no less than what usual printers leave blank.
    pub margin: f64,
}

impl Sheet {
    /// An upright sheet.
    pub fn upright(format: Format, margin: f64) -> Sheet {
        let (wide, tall) = format.size();
        Sheet { wide, tall, margin }
    }

    /// The same on its long side.
    pub fn lying(format: Format, margin: f64) -> Sheet {
        let (tall, wide) = format.size();
        Sheet { wide, tall, margin }
    }

    /// Width of the column, pt.
    pub fn column(&self) -> f64 {
        self.wide - 2.0 * self.margin
    }

    /// Height of the column, pt.
    pub fn room(&self) -> f64 {
        self.tall - 2.0 * self.margin
    }
}

/// A block on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Its left edge, pt.
    pub x: f64,
    /// Its upper edge, pt.
    pub y: f64,
    /// What stands there.
    pub block: SetBlock,
}

/// A page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Width, pt.
    pub wide: f64,
    /// Height, pt.
    pub tall: f64,
    /// What stands on it, in reading order.
    pub placed: Vec<Placed>,
}

/// How high blocks are one under another in a column of this width, pt.
pub fn height(blocks: &[Block], wide: f64) -> f64 {
    (blocks.iter())
        .map(|block| match block {
            Block::Gap(tall) => *tall,
            other => set(other, wide).map_or(0.0, |set| set.height),
        })
        .sum()
}

/// Places blocks one under another, and goes on on the next page where one does not fit. A heading stays with what
/// follows it. What is higher than a page goes on on the next, row by row; a drawing that is stands alone on its own.
pub fn pages(blocks: &[Block], sheet: Sheet) -> Vec<Page> {
    let (wide, bottom) = (sheet.column(), sheet.tall - sheet.margin);
    let new_page = || Page { wide: sheet.wide, tall: sheet.tall, placed: Vec::new() };
    let mut pages = vec![new_page()];
    let mut left: VecDeque<Block> = blocks.iter().cloned().collect();
    let mut y = sheet.margin;
    while let Some(block) = left.pop_front() {
        let begins_page = pages.last().is_some_and(|page| page.placed.is_empty());
        let turns = match &block {
            Block::Gap(tall) => {
                y += if begins_page { 0.0 } else { *tall };
                continue;
            }
            Block::NewPage => !begins_page,
            _ => false,
        };
        if turns {
            pages.push(new_page());
            y = sheet.margin;
        }
        let Some(set_block) = set(&block, wide) else { continue };
        let tall = set_block.height;
        let with_next = kept(&block, &left, wide);
        // What is more than a page is divided; a part of it stays in any case.
        let with_next =
            if tall + with_next > sheet.room() { sheet.room() / 3.0 } else { with_next };
        if y + tall + with_next > bottom && tall > sheet.room() {
            let room = bottom - y;
            if let Some((part, rest)) = block.divided(|part| fits(part, wide, room)) {
                left.push_front(rest);
                left.push_front(part);
                continue;
            }
        }
        if !begins_page && y + tall + with_next > bottom {
            pages.push(new_page());
            y = sheet.margin;
            left.push_front(block);
            continue;
        }
        if let Some(page) = pages.last_mut() {
            page.placed.push(Placed { x: sheet.margin, y, block: set_block });
        }
        y += tall;
    }
    pages
}

/// The pages with their number and what they belong to in the lower margin, from the second on.
pub fn numbered(mut pages: Vec<Page>, title: &str, sheet: Sheet) -> Vec<Page> {
    let many = pages.len();
    for (place, page) in pages.iter_mut().enumerate().skip(1) {
        let number = format!("page {} of {many}", place + 1);
        let Some(mut foot) = foot(title, &number, sheet.column()) else { continue };
        foot.kind = Kind::Ornament;
        page.placed.push(Placed {
            x: sheet.margin,
            y: sheet.tall - sheet.margin + 1.0,
            block: foot,
        });
    }
    pages
}

/// The title, cut to one line, and the number.
fn foot(title: &str, number: &str, wide: f64) -> Option<SetBlock> {
    let style = Text::of(FOOT);
    let title = style.fit(title, wide - style.width(number) - FOOT);
    set(&Block::words(format!("{title}, {number}"), FOOT), wide)
}

fn fits(block: &Block, wide: f64, room: f64) -> bool {
    set(block, wide).is_none_or(|set| set.height <= room)
}

/// How high what must stand on the page of a block is, of those behind it: what a heading is over, the table that words
/// stand before, what is said under a table.
fn kept(block: &Block, behind: &VecDeque<Block>, wide: f64) -> f64 {
    let (mut now, mut all) = (block, 0.0);
    for next in behind {
        if let Block::Gap(tall) = next {
            all += tall;
            continue;
        }
        let stays = match now {
            Block::Heading(..) => !matches!(next, Block::NewPage),
            Block::Words { .. } | Block::Labelled { .. } => matches!(next, Block::Grid(_)),
            Block::Grid(_) | Block::Foot(..) => matches!(next, Block::Foot(..)),
            _ => false,
        };
        if !stays {
            break;
        }
        all += set(next, wide).map_or(0.0, |set| set.height);
        now = next;
    }
    all
}

impl Page {
    /// The page as one SVG text.
    ///
    /// - Given: what it is called, for readers who cannot see it.
    pub fn svg(&self, about: &str) -> String {
        let (wide, tall) = (self.wide, self.tall);
        let body: String = self.placed.iter().map(nested).collect();
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide:.2}pt\" height=\"{tall:.2}pt\" \
             viewBox=\"0 0 {wide:.2} {tall:.2}\" font-family=\"{FAMILY}, Helvetica, Arial, sans-serif\">\n\
             <title>{}</title>\n<rect width=\"{wide:.2}\" height=\"{tall:.2}\" fill=\"{WHITE}\"/>\n{body}</svg>\n",
            escaped(about)
        )
    }
}

/// A block's drawing within the page's.
fn nested(placed: &Placed) -> String {
    let block = &placed.block;
    let svg = block.svg.trim_start();
    // The outer element of every drawing begins so; its own width and height give way to those on the page.
    let Some((head, rest)) = svg.split_once('>') else { return String::new() };
    let kept: String = attributes(head)
        .filter(|(name, _)| !matches!(*name, "width" | "height" | "xmlns"))
        .map(|(name, value)| format!(" {name}=\"{value}\""))
        .collect();
    format!(
        "<svg x=\"{:.2}\" y=\"{:.2}\" width=\"{:.2}\" height=\"{:.2}\"{kept}>{rest}",
        placed.x, placed.y, block.width, block.height
    )
}

/// Names and values of an element's attributes.
fn attributes(head: &str) -> impl Iterator<Item = (&str, &str)> {
    let mut rest = head.split_once(char::is_whitespace).map_or("", |(_, rest)| rest);
    std::iter::from_fn(move || {
        let (name, after) = rest.trim_start().split_once("=\"")?;
        let (value, after) = after.split_once('"')?;
        rest = after;
        Some((name, value))
    })
}
