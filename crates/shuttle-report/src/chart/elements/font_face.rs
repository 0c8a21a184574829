//! The embedded fonts within an SVG or HTML file, so that it looks as it was measured wherever it is opened.
//!
//! Only the letters that are written are embedded: the whole of both fonts is some 900 kB as text, a chart's letters
//! are some 20. The fonts' license (SIL OFL 1.1) allows both the part and the embedding, and reserves no name.

use std::collections::BTreeSet;
use std::fmt::Write;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use resvg::usvg::roxmltree::{Document, Node};
use subsetter::GlyphRemapper;
use write_fonts::FontBuilder;
use write_fonts::read::{FontRef, TableProvider};
use write_fonts::tables::cmap::Cmap;
use write_fonts::types::{GlyphId, Tag};

use super::font::{FAMILY, REGULAR, SEMI_BOLD};

/// What the license asks to stand by every copy.
const LICENSE: &str = "/* Inter: Copyright 2020 The Inter Project Authors (https://github.com/rsms/inter). \
                       SIL Open Font License 1.1, https://openfontlicense.org */";

/// The letters that drawings are written with, by the font that has them.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Letters {
    regular: BTreeSet<char>,
    semi_bold: BTreeSet<char>,
}

impl Letters {
    /// Adds the letters of a drawing; none of a text that is not SVG.
    pub fn add(&mut self, svg: &str) {
        let Ok(document) = Document::parse(svg) else { return };
        for text in document.descendants().filter(|node| node.has_tag_name("text")) {
            let set = if is_heavy(text) { &mut self.semi_bold } else { &mut self.regular };
            set.extend(text.descendants().filter_map(|node| node.text()).flat_map(str::chars));
        }
    }

    /// The style rules that give these letters to whoever opens the file.
    pub fn faces(&self) -> String {
        let mut rules = String::new();
        for (font, letters, weight) in
            [(REGULAR, &self.regular, 400), (SEMI_BOLD, &self.semi_bold, 600)]
        {
            // A font of which nothing can be made is left to the families named after it.
            let Some(part) = part_of(font, letters) else { continue };
            let _ = write!(
                rules,
                "@font-face{{font-family:{FAMILY};font-weight:{weight};\
                 src:url(data:font/ttf;base64,{})format(\"truetype\")}}",
                STANDARD.encode(part)
            );
        }
        if rules.is_empty() { rules } else { format!("{LICENSE}{rules}") }
    }
}

/// The drawing with the fonts for its letters in it.
pub fn with_fonts(svg: &str) -> String {
    let mut letters = Letters::default();
    letters.add(svg);
    // Every drawing has its definitions before what it draws.
    svg.replacen("<defs>", &format!("<defs><style>{}</style>", letters.faces()), 1)
}

/// Whether it is set in the semi-bold, as CSS chooses of the two: the heavier one from 501 on.
fn is_heavy(text: Node<'_, '_>) -> bool {
    let stated = text.ancestors().find_map(|node| node.attribute("font-weight"));
    stated.is_some_and(|weight| match weight.parse::<u16>() {
        Ok(weight) => weight > 500,
        Err(_) => weight.starts_with("bold"),
    })
}

/// The font with these letters and no others; `None` where it has none of them.
fn part_of(font: &[u8], letters: &BTreeSet<char>) -> Option<Vec<u8>> {
    let whole = FontRef::new(font).ok()?;
    let known = whole.cmap().ok()?;
    let mut kept = GlyphRemapper::new();
    let places: Vec<(char, GlyphId)> = (letters.iter())
        .filter_map(|letter| {
            let glyph = u16::try_from(known.map_codepoint(*letter)?.to_u32()).ok()?;
            Some((*letter, GlyphId::from(kept.remap(glyph))))
        })
        .collect();
    if places.is_empty() {
        return None;
    }
    let outlines = subsetter::subset(font, 0, &kept).ok()?;
    // The outlines are cut for PDF, which has letters found another way: what a browser asks for beside them.
    let mut builder = FontBuilder::new();
    builder.add_table(&Cmap::from_mappings(places).ok()?).ok()?;
    let about = Tag::new(b"OS/2");
    builder.add_raw(about, whole.table_data(about)?.as_bytes());
    builder.copy_missing_tables(FontRef::new(&outlines).ok()?);
    Some(builder.build())
}

#[cfg(test)]
mod tests {
    use ab_glyph::Font;

    use super::*;
    use crate::chart::cycle;
    use crate::chart::demo::{SHEET, plan, summary};

    /// The fonts in a file, as whoever opens it reads them.
    fn embedded(file: &str) -> Vec<ab_glyph::FontVec> {
        (file.split("base64,").skip(1))
            .map(|rest| STANDARD.decode(rest.split(')').next().expect("an end")).expect("base64"))
            .map(|bytes| ab_glyph::FontVec::try_from_vec(bytes).expect("a font"))
            .collect()
    }

    /// Against the whole fonts, read by another library than the one that cut them.
    #[test]
    fn every_letter_of_a_chart_is_in_its_file_and_as_wide_and_of_the_shape_it_has() {
        let svg = cycle::chart(&summary(&plan(3, 120.0, 2), 20), &SHEET).expect("a chart");
        let file = with_fonts(&svg);
        let fonts = embedded(&file);
        assert_eq!(fonts.len(), 2, "regular and semi-bold");
        assert!(file.contains("SIL Open Font License 1.1"));
        let mut letters = Letters::default();
        letters.add(&svg);
        for (part, whole, letters) in
            [(&fonts[0], REGULAR, &letters.regular), (&fonts[1], SEMI_BOLD, &letters.semi_bold)]
        {
            let whole = ab_glyph::FontRef::try_from_slice(whole).expect("the font");
            assert!(letters.len() > 10, "{letters:?}");
            for letter in letters {
                let (here, there) = (part.glyph_id(*letter), whole.glyph_id(*letter));
                assert_ne!(here.0, 0, "{letter:?} is missing");
                assert_eq!(part.h_advance_unscaled(here), whole.h_advance_unscaled(there));
                let shape = |outline: Option<ab_glyph::Outline>| format!("{outline:?}");
                assert_eq!(shape(part.outline(here)), shape(whole.outline(there)), "{letter:?}");
            }
        }
        // Nothing else of the fonts: a mail with ten charts is still a mail.
        assert!(file.len() - svg.len() < 40_000, "{} bytes", file.len() - svg.len());
    }

    #[test]
    fn letters_that_the_fonts_lack_are_left_to_others_and_the_drawing_is_kept() {
        let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\"><defs></defs><text>消防</text></svg>";
        assert_eq!(with_fonts(svg), svg.replace("<defs>", "<defs><style></style>"));
        let mut letters = Letters::default();
        letters.add("<svg xmlns='http://www.w3.org/2000/svg'><g font-weight='bold'><text>A<tspan>b</tspan></text></g></svg>");
        assert_eq!(letters.semi_bold, BTreeSet::from(['A', 'b']));
        assert_eq!(letters.regular, BTreeSet::new());
    }
}
