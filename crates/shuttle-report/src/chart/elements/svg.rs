//! The few SVG elements that charts are made of.

use std::collections::BTreeSet;
use std::fmt::Write;

use super::font::{self, Weight};
use super::style::{BLACK, Look, WHITE};

/// Where a text's point lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// At its beginning.
    Start,
    /// At its middle.
    Middle,
    /// At its end.
    End,
}

/// How a text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Text {
    /// Font size, px.
    pub size: f64,
    /// How heavy.
    pub weight: Weight,
    /// Where its point lies.
    pub anchor: Anchor,
    /// Its colour.
    pub colour: &'static str,
    /// Rotation about its point, degrees clockwise.
    pub turned: f64,
}

impl Text {
    /// Black, regular, from the point on.
    pub const fn of(size: f64) -> Text {
        Text { size, weight: Weight::Regular, anchor: Anchor::Start, colour: BLACK, turned: 0.0 }
    }

    /// The same, heavier.
    pub const fn semi_bold(self) -> Text {
        Text { weight: Weight::SemiBold, ..self }
    }

    /// The same, with its point elsewhere.
    pub const fn at(self, anchor: Anchor) -> Text {
        Text { anchor, ..self }
    }

    /// The same in another colour.
    pub const fn colour(self, colour: &'static str) -> Text {
        Text { colour, ..self }
    }

    /// The same, turned.
    pub const fn turned(self, degrees: f64) -> Text {
        Text { turned: degrees, ..self }
    }

    /// How wide a text is, px.
    pub fn width(&self, text: &str) -> f64 {
        font::width(text, self.size, self.weight)
    }

    /// The text, or what fits of it.
    pub fn fit(&self, text: &str, room: f64) -> String {
        font::ellipsize(text, self.size, self.weight, room)
    }

    /// The name, or what fits of it with its last word.
    pub fn fit_name(&self, name: &str, room: f64) -> String {
        font::shorten_name(name, self.size, self.weight, room)
    }
}

/// A line's colour, width and dashes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: &'static str,
    /// Its width, px.
    pub width: f64,
    /// Lengths of dash and gap, as `stroke-dasharray` has them; empty for a solid line.
    pub dashes: &'static str,
}

impl Stroke {
    /// A solid line.
    pub const fn of(colour: &'static str, width: f64) -> Stroke {
        Stroke { colour, width, dashes: "" }
    }

    /// A dashed line.
    pub const fn dashed(self, dashes: &'static str) -> Stroke {
        Stroke { dashes, ..self }
    }

    /// How wide it is, px.
    pub fn width(&self) -> f64 {
        self.width
    }

    /// Its colour as red, green and blue of 255; black where it is not written as six hexadecimal digits.
    pub fn red_green_blue(&self) -> (u8, u8, u8) {
        let part = |from: usize| {
            let digits = self.colour.get(from..from + 2);
            digits.and_then(|digits| u8::from_str_radix(digits, 16).ok()).unwrap_or(0)
        };
        (part(1), part(3), part(5))
    }

    fn attributes(&self) -> String {
        let mut text = format!("stroke=\"{}\" stroke-width=\"{}\"", self.colour, self.width);
        if !self.dashes.is_empty() {
            let _ = write!(text, " stroke-dasharray=\"{}\"", self.dashes);
        }
        text
    }
}

/// A rectangle, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// From left to right.
    pub width: f64,
    /// From top to bottom.
    pub height: f64,
}

/// A chart under construction. Elements lie over those drawn before.
#[derive(Debug)]
pub struct Drawing {
    width: f64,
    body: String,
    looks: BTreeSet<Look>,
}

impl Drawing {
    /// An empty one of this width, px.
    pub fn new(width: f64) -> Drawing {
        Drawing { width, body: String::new(), looks: BTreeSet::new() }
    }

    /// How wide it is, px.
    pub fn width(&self) -> f64 {
        self.width
    }

    /// A filled rectangle; `says` is shown when a reader points at it (none if empty).
    pub fn area(&mut self, area: Area, look: Look, outline: Option<Stroke>, says: &str) {
        self.looks.insert(look);
        let stroke = outline.map_or_else(String::new, |stroke| format!(" {}", stroke.attributes()));
        let Area { x, y, width, height } = area;
        let _ = write!(
            self.body,
            "<rect x=\"{x:.2}\" y=\"{y:.2}\" width=\"{width:.2}\" height=\"{height:.2}\" fill=\"{}\"{stroke}",
            look.fill()
        );
        self.close("rect", says);
    }

    /// A straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), stroke: Stroke) {
        let _ = writeln!(
            self.body,
            "<line x1=\"{:.2}\" y1=\"{:.2}\" x2=\"{:.2}\" y2=\"{:.2}\" {}/>",
            from.0,
            from.1,
            to.0,
            to.1,
            stroke.attributes()
        );
    }

    /// A line through points; `says` as for [`Drawing::area`].
    pub fn path(&mut self, points: &[(f64, f64)], stroke: Stroke, says: &str) {
        if points.is_empty() {
            return;
        }
        let _ = write!(
            self.body,
            "<polyline points=\"{}\" fill=\"none\" stroke-linejoin=\"round\" {}",
            listed(points),
            stroke.attributes()
        );
        self.close("polyline", says);
    }

    /// Elements made elsewhere, moved to a place and scaled; `says` as for [`Drawing::area`].
    pub fn held(&mut self, (x, y): (f64, f64), scale: f64, elements: &str, says: &str) {
        let title = if says.is_empty() {
            String::new()
        } else {
            format!("<title>{}</title>", escaped(says))
        };
        let _ = writeln!(
            self.body,
            "<g transform=\"translate({x:.2} {y:.2}) scale({scale})\">{title}{}</g>",
            elements.trim()
        );
    }

    /// A filled outline; `says` as for [`Drawing::area`].
    pub fn shape(&mut self, points: &[(f64, f64)], look: Look, says: &str) {
        if points.is_empty() {
            return;
        }
        self.looks.insert(look);
        let _ =
            write!(self.body, "<polygon points=\"{}\" fill=\"{}\"", listed(points), look.fill());
        self.close("polygon", says);
    }

    /// One line of text; `y` is its base line. Nothing if it is blank.
    pub fn text(&mut self, x: f64, y: f64, text: &str, style: Text) {
        if text.trim().is_empty() {
            return;
        }
        let weight = match style.weight {
            Weight::Regular => 400,
            Weight::SemiBold => 600,
        };
        let anchor = match style.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let turned = if style.turned == 0.0 {
            String::new()
        } else {
            format!(" transform=\"rotate({} {x:.2} {y:.2})\"", style.turned)
        };
        let _ = writeln!(
            self.body,
            "<text x=\"{x:.2}\" y=\"{y:.2}\" font-size=\"{}\" font-weight=\"{weight}\" \
             text-anchor=\"{anchor}\" fill=\"{}\"{turned}>{}</text>",
            style.size,
            style.colour,
            escaped(text)
        );
    }

    /// A text in the middle of a white box, to be read over hatching; `y` is the box's middle.
    pub fn boxed_text(&mut self, x: f64, y: f64, text: &str, style: Text) {
        let (width, height) = (style.width(text) + 6.0, style.size + 3.0);
        let area = Area { x: x - width / 2.0, y: y - height / 2.0, width, height };
        self.area(area, Look::plain(WHITE), None, "");
        self.text(x, y + 0.36 * style.size, text, style.at(Anchor::Middle));
    }

    /// Vertical text, read from below, in a white box; it begins at `y`.
    pub fn boxed_upright_text(&mut self, x: f64, y: f64, text: &str, style: Text) {
        let (width, height) = (style.size + 3.0, style.width(text) + 6.0);
        let area = Area { x: x - width / 2.0, y: y + 3.0 - height, width, height };
        self.area(area, Look::plain(WHITE), None, "");
        self.text(x + 0.36 * style.size, y, text, style.at(Anchor::Start).turned(-90.0));
    }

    /// The whole SVG text; `title` and `described` are for readers who cannot see it.
    pub fn finish(self, height: f64, title: &str, described: &str) -> String {
        let (width, tall) = (self.width.ceil(), height.ceil());
        let size = format!("width=\"{width}\" height=\"{tall}\"");
        self.finish_sized(height, [title, described], &size)
    }

    /// The same, to be printed this wide, mm.
    pub fn finish_on_paper(self, height: f64, title: &str, described: &str, wide: f64) -> String {
        let tall = wide * height.ceil() / self.width.ceil();
        let size = format!("width=\"{wide}mm\" height=\"{tall:.1}mm\"");
        self.finish_sized(height, [title, described], &size)
    }

    fn finish_sized(self, height: f64, [title, described]: [&str; 2], size: &str) -> String {
        let definitions: String = self.looks.iter().filter_map(Look::definition).collect();
        let (width, height) = (self.width.ceil(), height.ceil());
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" {size} \
             viewBox=\"0 0 {width} {height}\" role=\"img\" \
             font-family=\"{}, Helvetica, Arial, sans-serif\">\n<title>{}</title>\n\
             <desc>{}</desc>\n<defs>{definitions}</defs>\n\
             <rect width=\"{width}\" height=\"{height}\" fill=\"{WHITE}\"/>\n{}</svg>\n",
            font::FAMILY,
            escaped(title),
            described.lines().map(escaped).collect::<Vec<_>>().join("\n"),
            self.body
        )
    }

    fn close(&mut self, element: &str, says: &str) {
        let _ = if says.is_empty() {
            writeln!(self.body, "/>")
        } else {
            writeln!(self.body, "><title>{}</title></{element}>", escaped(says))
        };
    }
}

fn listed(points: &[(f64, f64)]) -> String {
    let points: Vec<String> = points.iter().map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
    points.join(" ")
}

/// Text that XML 1.0 can hold: what it forbids turned into spaces.
fn sound(text: &str) -> String {
    let forbidden = |letter: char| letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}');
    text.chars().map(|letter| if forbidden(letter) { ' ' } else { letter }).collect()
}

/// Text as XML may hold it: sound, and the four special characters escaped.
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in sound(text).chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            letter => safe.push(letter),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_text_makes_a_readable_svg() {
        let mut drawing = Drawing::new(100.0);
        let text = "<Engine> & \"Tanker\" \u{0}\u{1b}\u{ffff} 木";
        drawing.text(10.0, 20.0, text, Text::of(12.0));
        let svg = drawing.finish(50.0, text, "A sentence.");
        let document = resvg::usvg::roxmltree::Document::parse(&svg).expect("XML");
        let read = document
            .descendants()
            .find(|node| node.has_tag_name("text"))
            .and_then(|node| node.text());
        assert_eq!(read, Some("<Engine> & \"Tanker\"     木"));
    }
}
