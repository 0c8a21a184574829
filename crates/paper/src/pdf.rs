//! Pages as a PDF: text that can be selected, fonts embedded, title, language, reading order and bookmarks set, tables
//! told cell by cell. It claims PDF/UA-1 (ISO 14289-1) where the library finds nothing against that.
//!
//! That standard asks for `/Suspects false`, which the library writes. Poppler's `pdfinfo` calls it a wrong type, as it
//! accepts there only `true` or nothing; the entry is a boolean (ISO 32000-1, table 321), and stays.

use std::num::NonZeroU16;

use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Size, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, Node, TableHeaderScope, Tag, TagGroup, TagKind,
    TagTree,
};
use krilla::{Document, SerializeSettings};
use krilla_svg::{SurfaceExt, SvgSettings};
use resvg::usvg;
use shuttle_report::chart::drawing::database;

use crate::layout::set::{Kind, SetBlock};
use crate::layout::sheet::{Page, Placed};
use crate::layout::table::{SetCell, SetTable};
use crate::{Made, PaperError};

/// The language of all pages.
const LANGUAGE: &str = "en";

/// The pages as the bytes of a PDF: the same pages and day, the same bytes.
///
/// - Given: the document's title.
/// - Errors: [`PaperError::Pdf`] when the library refuses.
pub fn pdf(pages: &[Page], title: &str, made: &Made) -> Result<Vec<u8>, PaperError> {
    let for_all = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| PaperError::Pdf(format!("{error:?}")))?;
    // A name in letters that the fonts lack is against the standard, and no reason to give no page.
    document(pages, title, made, for_all)
        .or_else(|_| document(pages, title, made, Configuration::default()))
}

fn document(
    pages: &[Page],
    title: &str,
    made: &Made,
    configuration: Configuration,
) -> Result<Vec<u8>, PaperError> {
    let settings = SerializeSettings { configuration, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    document.set_metadata(metadata(title, made));
    let mut tags = TagTree::new().with_lang(Some(LANGUAGE.to_owned()));
    for page in pages {
        let size = PageSettings::from_wh(page.wide as f32, page.tall as f32)
            .ok_or_else(|| PaperError::Pdf("a page without a size".to_owned()))?;
        let mut sheet = document.start_page_with(size);
        let mut surface = sheet.surface();
        for placed in &page.placed {
            if let Some(group) = told(&mut surface, placed)? {
                tags.push(Node::Group(group));
            }
        }
        surface.finish();
        sheet.finish();
    }
    document.set_tag_tree(tags);
    document.set_outline(outline(pages));
    document.finish().map_err(|error| PaperError::Pdf(format!("{error:?}")))
}

fn metadata(title: &str, made: &Made) -> Metadata {
    let date = DateTime::new(made.date.year.clamp(0, 9_999) as u16)
        .month(made.date.month as u8)
        .day(made.date.day as u8);
    Metadata::new()
        .title(title.to_owned())
        .language(LANGUAGE.to_owned())
        .creator(format!("bucketline {}", made.version))
        .creation_date(date)
}

/// Titles, and the headings under each.
fn outline(pages: &[Page]) -> Outline {
    let mut titles: Vec<OutlineNode> = Vec::new();
    for (number, page) in pages.iter().enumerate() {
        for placed in &page.placed {
            let at = Point::from_xy(placed.x as f32, placed.y as f32);
            let node =
                || OutlineNode::new(placed.block.says.clone(), XyzDestination::new(number, at));
            match (placed.block.kind, titles.last_mut()) {
                (Kind::Heading, Some(title)) => title.push_child(node()),
                (Kind::Title | Kind::Heading, _) => titles.push(node()),
                _ => {}
            }
        }
    }
    let mut outline = Outline::new();
    titles.into_iter().for_each(|node| outline.push_child(node));
    outline
}

/// Draws a block; returns what it is to a reader who hears the page, nothing for an ornament.
fn told(surface: &mut Surface<'_>, placed: &Placed) -> Result<Option<TagGroup>, PaperError> {
    let (block, at) = (&placed.block, (placed.x, placed.y));
    let size = (block.width, block.height);
    if let Some(table) = &block.table {
        draw(surface, &table.lines, at, size, ornament())?;
        return table_told(surface, table, at).map(Some);
    }
    let Some(tag) = tag(block) else {
        draw(surface, &block.svg, at, size, ornament())?;
        return Ok(None);
    };
    let id = draw(surface, &block.svg, at, size, ContentTag::Other)?;
    Ok(Some(TagGroup::with_children(tag, vec![Node::Leaf(id)])))
}

/// A table row by row, its heads as such.
fn table_told(
    surface: &mut Surface<'_>,
    table: &SetTable,
    at: (f64, f64),
) -> Result<TagGroup, PaperError> {
    let mut row = |cells: &[SetCell], tag: &dyn Fn() -> TagKind| {
        let cells = cells.iter().map(|cell| {
            let mut group = TagGroup::new(tag());
            if let Some(svg) = &cell.svg {
                let size = (cell.width, cell.height);
                let here = (at.0 + cell.x, at.1 + cell.y);
                group.push(Node::Leaf(draw(surface, svg, here, size, ContentTag::Other)?));
            }
            Ok(Node::Group(group))
        });
        let cells = cells.collect::<Result<Vec<_>, PaperError>>()?;
        Ok::<_, PaperError>(Node::Group(TagGroup::with_children(Tag::TR, cells)))
    };
    let mut parts = Vec::new();
    if !table.heads.is_empty() {
        let heads = row(&table.heads, &|| Tag::TH(TableHeaderScope::Column).into())?;
        parts.push(Node::Group(TagGroup::with_children(Tag::THead, vec![heads])));
    }
    let rows = table.rows.iter().map(|cells| row(cells, &|| Tag::TD.into()));
    let rows = rows.collect::<Result<Vec<_>, _>>()?;
    parts.push(Node::Group(TagGroup::with_children(Tag::TBody, rows)));
    Ok(TagGroup::with_children(Tag::Table, parts))
}

fn ornament() -> ContentTag<'static> {
    ContentTag::Artifact(Artifact::new(ArtifactType::Other, None))
}

/// Draws a drawing so large at a place of the page.
fn draw(
    surface: &mut Surface<'_>,
    svg: &str,
    (x, y): (f64, f64),
    (wide, tall): (f64, f64),
    content: ContentTag<'_>,
) -> Result<Identifier, PaperError> {
    let tree = tree(svg)?;
    let size = Size::from_wh(wide as f32, tall as f32)
        .ok_or_else(|| PaperError::Pdf("a block without a size".to_owned()))?;
    let id = surface.start_tagged(content);
    surface.push_transform(&Transform::from_translate(x as f32, y as f32));
    surface
        .draw_svg(&tree, size, SvgSettings::default())
        .ok_or_else(|| PaperError::Pdf("a drawing was refused".to_owned()))?;
    surface.pop();
    surface.end_tagged();
    Ok(id)
}

/// A drawing, read with the embedded fonts and no others.
fn tree(svg: &str) -> Result<usvg::Tree, PaperError> {
    let options = usvg::Options { fontdb: database(), ..usvg::Options::default() };
    usvg::Tree::from_str(svg, &options).map_err(|error| PaperError::Pdf(error.to_string()))
}

/// What the block is to a reader who hears the page; nothing for an ornament.
fn tag(block: &SetBlock) -> Option<TagKind> {
    let head = |level: u16| {
        let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
        Tag::Hn(level, Some(block.says.clone())).into()
    };
    Some(match block.kind {
        Kind::Title => head(1),
        Kind::Heading => head(2),
        Kind::Words => Tag::P.into(),
        Kind::Table => Tag::Table.into(),
        Kind::Figure => Tag::Figure(Some(block.says.clone())).into(),
        Kind::CutLine | Kind::Ornament => return None,
    })
}
