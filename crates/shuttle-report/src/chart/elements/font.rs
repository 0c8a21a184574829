//! The embedded font, and how wide a text is in it.

#[cfg(not(target_arch = "wasm32"))]
use std::sync::Arc;
use std::sync::LazyLock;

use ab_glyph::{Font, FontRef, ScaleFont};
#[cfg(not(target_arch = "wasm32"))]
use resvg::usvg::fontdb;

/// The family's name, as the font files state it.
pub const FAMILY: &str = "Inter";

/// Inter by The Inter Project Authors, SIL Open Font License 1.1; see `assets/Inter-LICENSE.txt`.
pub static REGULAR: &[u8] = include_bytes!("../../../assets/Inter-Regular.ttf");
/// Its semi-bold.
pub static SEMI_BOLD: &[u8] = include_bytes!("../../../assets/Inter-SemiBold.ttf");

/// How heavy letters are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// For most text.
    Regular,
    /// For headings and totals.
    SemiBold,
}

/// The embedded fonts and no others: a picture is the same on every machine.
#[cfg(not(target_arch = "wasm32"))]
pub fn database() -> Arc<fontdb::Database> {
    static DATABASE: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
        let mut database = fontdb::Database::new();
        for bytes in [REGULAR, SEMI_BOLD] {
            database.load_font_source(fontdb::Source::Binary(Arc::new(bytes)));
        }
        // An SVG that names another family falls back to this one.
        database.set_sans_serif_family(FAMILY);
        Arc::new(database)
    });
    DATABASE.clone()
}

/// Width of one line of text, in the units of `size` (the font size).
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    static FONTS: LazyLock<Option<[FontRef<'static>; 2]>> = LazyLock::new(|| {
        let font = |bytes| FontRef::try_from_slice(bytes).ok();
        Some([font(REGULAR)?, font(SEMI_BOLD)?])
    });
    // Fallback of 0.6 em a letter, a little wide for nearly all; used only if a font file cannot be read,
    // which a test rules out.
    let Some(fonts) = &*FONTS else {
        return 0.6 * size * text.chars().count() as f64;
    };
    let font = match weight {
        Weight::Regular => &fonts[0],
        Weight::SemiBold => &fonts[1],
    };
    // ab_glyph scales by the line height; SVG's font-size is the em.
    let units_per_em = f64::from(font.units_per_em().unwrap_or(2048.0));
    let unscaled: f64 = (text.chars())
        .map(|letter| {
            f64::from(font.as_scaled(font.height_unscaled()).h_advance(font.glyph_id(letter)))
        })
        .sum();
    unscaled * size / units_per_em
}

/// The text, or as much of its beginning as fits with "…" after it.
pub fn ellipsize(text: &str, size: f64, weight: Weight, room: f64) -> String {
    if width(text, size, weight) <= room {
        return text.to_owned();
    }
    let mut kept: Vec<char> = text.chars().collect();
    while !kept.is_empty() {
        kept.pop();
        let shorter = format!("{}…", kept.iter().collect::<String>().trim_end());
        if width(&shorter, size, weight) <= room {
            return shorter;
        }
    }
    "…".to_owned()
}

/// A name, or its beginning and its last word with "…" between: names of a kind differ at the end.
pub fn shorten_name(name: &str, size: f64, weight: Weight, room: f64) -> String {
    if width(name, size, weight) <= room {
        return name.to_owned();
    }
    let last = name.split_whitespace().last().unwrap_or_default();
    let tail = format!(" {last}");
    let left = room - width(&tail, size, weight);
    if left < 0.4 * room {
        return ellipsize(name, size, weight, room);
    }
    let head = name.trim_end().trim_end_matches(last).trim_end();
    // The head alone may fit where head and tail together do not.
    let head = format!("{head}……");
    let head = ellipsize(&head, size, weight, left);
    format!("{}…{tail}", head.trim_end_matches('…').trim_end())
}

/// The text in lines that fit; what is left after `most` lines ends in "…".
pub fn wrap(text: &str, size: f64, weight: Weight, room: f64, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if lines_fit(line, word, size, weight, room) => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    if lines.len() > most {
        let rest = lines.split_off(most.saturating_sub(1)).join(" ");
        lines.push(rest);
    }
    lines.iter().map(|line| ellipsize(line, size, weight, room)).collect()
}

fn lines_fit(line: &str, word: &str, size: f64, weight: Weight, room: f64) -> bool {
    width(&format!("{line} {word}"), size, weight) <= room
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_fonts_can_be_read_and_are_of_one_family() {
        let faces: Vec<_> = database().faces().map(|face| face.families[0].0.clone()).collect();
        assert_eq!(faces, [FAMILY, FAMILY]);
        assert!(FontRef::try_from_slice(REGULAR).is_ok());
        assert!(FontRef::try_from_slice(SEMI_BOLD).is_ok());
    }

    /// Against the other library that lays out text here: usvg, which shapes it for the picture.
    #[test]
    fn a_text_is_as_wide_as_the_picture_draws_it() {
        for (text, weight, number) in [
            ("HHHHHHHHHH", Weight::Regular, 400),
            ("Aid tanker 12, 3,200 gal", Weight::Regular, 400),
            ("Hay barn, Quarry Lane", Weight::SemiBold, 600),
        ] {
            let svg = format!(
                "<svg xmlns='http://www.w3.org/2000/svg' width='600' height='50'><text x='0' y='30' \
                 font-family='Inter' font-weight='{number}' font-size='20'>{text}</text></svg>"
            );
            let options = resvg::usvg::Options { fontdb: database(), ..Default::default() };
            let tree = resvg::usvg::Tree::from_str(&svg, &options).expect("a small SVG");
            let drawn = f64::from(tree.root().abs_bounding_box().width());
            let measured = width(text, 20.0, weight);
            // The box hugs the ink, the measure has the letters' side bearings; kerning is left out.
            assert!(
                (drawn - measured).abs() < 0.04 * measured,
                "{text}: {drawn} drawn, {measured} measured"
            );
        }
    }

    #[test]
    fn a_long_name_ends_in_an_ellipsis_and_fits() {
        let name = "Tamarack County Mutual Aid Tanker 14";
        let short = ellipsize(name, 13.0, Weight::Regular, 120.0);
        assert!(short.ends_with('…') && name.starts_with(short.trim_end_matches('…')), "{short}");
        assert!(width(&short, 13.0, Weight::Regular) <= 120.0);
        assert_eq!(ellipsize("Tanker 3", 13.0, Weight::Regular, 120.0), "Tanker 3");
    }

    #[test]
    fn names_that_differ_at_the_end_still_do_when_shortened() {
        for room in [60.0, 90.0, 120.0, 150.0, 200.0] {
            let short = |name| shorten_name(name, 13.0, Weight::Regular, room);
            let (a, b) = (
                short("Tamarack County Mutual Aid Tanker 14"),
                short("Tamarack County Mutual Aid Tanker 15"),
            );
            assert!(a.ends_with("… 14") && b.ends_with("… 15"), "{a}, {b}");
            assert!(width(&a, 13.0, Weight::Regular) <= room, "{a} in {room}");
        }
        let one_word = shorten_name("Tamarack-County-Mutual-Aid-14", 13.0, Weight::Regular, 90.0);
        assert!(one_word.ends_with('…') && width(&one_word, 13.0, Weight::Regular) <= 90.0);
    }

    #[test]
    fn a_long_title_takes_two_lines_and_no_more() {
        let title = "Hay barn ".repeat(60);
        let lines = wrap(&title, 20.0, Weight::SemiBold, 900.0, 2);
        assert_eq!(lines.len(), 2);
        assert!(lines[1].ends_with('…') && !lines[0].ends_with('…'), "{lines:?}");
    }
}
