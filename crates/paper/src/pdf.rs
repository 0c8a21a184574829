//! Pages as a PDF: text that can be selected, fonts embedded, title, language and reading order set.

use std::num::NonZeroU16;

use krilla::Document;
use krilla::geom::{Size, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::page::PageSettings;
use krilla::tagging::{ArtifactType, ContentTag, Node, Tag, TagGroup, TagKind, TagTree};
use krilla_svg::{SurfaceExt, SvgSettings};
use resvg::usvg;
use shuttle_report::chart::drawing::database;

use crate::layout::set::Kind;
use crate::layout::sheet::{Page, Placed};
use crate::{Made, PaperError};

/// The language of all pages.
const LANGUAGE: &str = "en";

/// The pages as the bytes of a PDF: the same pages and day, the same bytes.
///
/// - Given: the document's title.
/// - Errors: [`PaperError::Pdf`] when the library refuses.
pub fn pdf(pages: &[Page], title: &str, made: &Made) -> Result<Vec<u8>, PaperError> {
    let mut document = Document::new();
    document.set_metadata(metadata(title, made));
    let mut tags = TagTree::new().with_lang(Some(LANGUAGE.to_owned()));
    for page in pages {
        let size = PageSettings::from_wh(page.wide as f32, page.tall as f32)
            .ok_or_else(|| PaperError::Pdf("a page without a size".to_owned()))?;
        let mut sheet = document.start_page_with(size);
        let mut surface = sheet.surface();
        for placed in &page.placed {
            let tree = tree(&placed.block.svg)?;
            let size = Size::from_wh(placed.block.width as f32, placed.block.height as f32)
                .ok_or_else(|| PaperError::Pdf("a block without a size".to_owned()))?;
            let content = match placed.block.kind {
                Kind::Ornament => {
                    ContentTag::Artifact(krilla::tagging::Artifact::new(ArtifactType::Other, None))
                }
                _ => ContentTag::Other,
            };
            let id = surface.start_tagged(content);
            surface.push_transform(&Transform::from_translate(placed.x as f32, placed.y as f32));
            surface
                .draw_svg(&tree, size, SvgSettings::default())
                .ok_or_else(|| PaperError::Pdf("a drawing was refused".to_owned()))?;
            surface.pop();
            surface.end_tagged();
            if let Some(tag) = tag(placed) {
                tags.push(Node::Group(TagGroup::with_children(tag, vec![Node::Leaf(id)])));
            }
        }
        surface.finish();
        sheet.finish();
    }
    document.set_tag_tree(tags);
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

/// A drawing, read with the embedded fonts and no others.
fn tree(svg: &str) -> Result<usvg::Tree, PaperError> {
    let options = usvg::Options { fontdb: database(), ..usvg::Options::default() };
    usvg::Tree::from_str(svg, &options).map_err(|error| PaperError::Pdf(error.to_string()))
}

/// What the block is to a reader who hears the page; nothing for an ornament.
fn tag(placed: &Placed) -> Option<TagKind> {
    let block = &placed.block;
    let level = |level: u16| NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
    Some(match block.kind {
        Kind::Title => Tag::Hn(level(1), None).into(),
        Kind::Heading => Tag::Hn(level(2), None).into(),
        Kind::Words => Tag::P.into(),
        Kind::Figure => Tag::Figure(Some(block.says.clone())).into(),
        Kind::Ornament => return None,
    })
}
