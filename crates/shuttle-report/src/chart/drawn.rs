//! A chart read back: what stands on it, where, and whether it can be read.

use resvg::usvg::roxmltree::{Document, Node};

use crate::chart::elements::font::{self, Weight};

/// A filled rectangle as drawn.
pub struct DrawnArea {
    pub x: f64,
    pub width: f64,
    pub height: f64,
    /// What it says when pointed at.
    pub says: String,
}

fn number(node: Node, name: &str) -> f64 {
    node.attribute(name).and_then(|value| value.parse().ok()).unwrap_or(f64::NAN)
}

fn says(node: Node) -> String {
    let title = node.children().find(|child| child.has_tag_name("title"));
    title.and_then(|title| title.text()).unwrap_or_default().to_owned()
}

/// Every text of a chart, in the order drawn.
pub fn texts(svg: &str) -> Vec<String> {
    let document = Document::parse(svg).expect("XML");
    let nodes = document.descendants().filter(|node| node.has_tag_name("text"));
    nodes.filter_map(|node| node.text().map(str::to_owned)).collect()
}

/// Every filled rectangle that says something.
pub fn areas(svg: &str) -> Vec<DrawnArea> {
    let document = Document::parse(svg).expect("XML");
    let nodes = document.descendants().filter(|node| node.has_tag_name("rect"));
    nodes
        .map(|node| DrawnArea {
            x: number(node, "x"),
            width: number(node, "width"),
            height: number(node, "height"),
            says: says(node),
        })
        .filter(|area| !area.says.is_empty())
        .collect()
}

/// The points of every line that says this.
pub fn lines(svg: &str, words: &str) -> Vec<Vec<(f64, f64)>> {
    let document = Document::parse(svg).expect("XML");
    let said = |node: Node| {
        let around = node.parent().filter(|around| around.has_tag_name("g")).map(says);
        around.filter(|says| !says.is_empty()).unwrap_or_else(|| says(node))
    };
    let nodes =
        document.descendants().filter(|node| node.has_tag_name("polyline") && said(*node) == words);
    nodes
        .map(|node| {
            let ([left, top], scale) = moved(node);
            let points = node.attribute("points").unwrap_or_default().split_whitespace();
            let point = |pair: &str| {
                let (x, y) = pair.split_once(',').expect("x,y");
                let number = |text: &str| text.parse::<f64>().expect("a number");
                (left + scale * number(x), top + scale * number(y))
            };
            points.map(point).collect()
        })
        .collect()
}

/// By how much the group around an element moves it, and its scale.
fn moved(node: Node) -> ([f64; 2], f64) {
    let transform = node.parent().and_then(|around| around.attribute("transform"));
    let numbers: Vec<f64> = (transform.unwrap_or_default())
        .split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter_map(|number| number.parse().ok())
        .collect();
    match numbers[..] {
        [x, y, scale] => ([x, y], scale),
        _ => ([0.0, 0.0], 1.0),
    }
}

/// The points of every line whose words begin with or hold these.
pub fn marks(svg: &str, words: &str) -> Vec<Vec<(f64, f64)>> {
    let document = Document::parse(svg).expect("XML");
    let said: Vec<String> = (document.descendants())
        .filter(|node| node.has_tag_name("polyline"))
        .map(says)
        .filter(|says| says.contains(words))
        .collect();
    said.iter().flat_map(|says| lines(svg, says)).collect()
}

/// Left, top, right, bottom of a text that is horizontal or vertical; `None` for a slanting one.
fn text_box(node: Node) -> Option<[f64; 4]> {
    let text = node.text().unwrap_or_default();
    let size = number(node, "font-size");
    let weight = if node.attribute("font-weight") == Some("600") {
        Weight::SemiBold
    } else {
        Weight::Regular
    };
    let width = font::width(text, size, weight);
    let before = match node.attribute("text-anchor") {
        Some("middle") => width / 2.0,
        Some("end") => width,
        _ => 0.0,
    };
    let (x, y) = (number(node, "x"), number(node, "y"));
    // Letters reach from about 0.73 of the size above the base line to 0.2 below.
    let (above, below) = (0.73 * size, 0.2 * size);
    match node.attribute("transform") {
        None => Some([x - before, y - above, x - before + width, y + below]),
        Some(turn) if turn.starts_with("rotate(-90 ") => {
            Some([x - above, y + before - width, x + below, y + before])
        }
        Some(_) => None,
    }
}

/// Every text lies within the chart, and no two lie on each other.
pub fn assert_texts_are_apart(what: &str, svg: &str) {
    let document = Document::parse(svg).expect("XML");
    let root = document.root_element();
    let (width, height) = (number(root, "width"), number(root, "height"));
    let nodes: Vec<Node> =
        document.descendants().filter(|node| node.has_tag_name("text")).collect();
    for node in &nodes {
        // 9 pt on the sheet the chart is drawn for: 12 px of 0.75 pt (CSS Values and Units).
        assert!(number(*node, "font-size") >= 12.0, "{what}: {:?} is too small", node.text());
    }
    let boxes: Vec<(&str, [f64; 4])> =
        nodes.iter().filter_map(|node| Some((node.text()?, text_box(*node)?))).collect();
    assert!(boxes.len() > 5, "{what}: hardly a text");
    for (place, (text, [left, top, right, bottom])) in boxes.iter().enumerate() {
        let is_inside = *left >= 0.0 && *top >= 0.0 && *right <= width && *bottom <= height;
        assert!(
            is_inside,
            "{what}: \"{text}\" leaves the chart: {left:.0} {top:.0} {right:.0} {bottom:.0}"
        );
        for (other, [l, t, r, b]) in &boxes[..place] {
            let apart = right <= l || r <= left || bottom <= t || b <= top;
            assert!(apart, "{what}: \"{text}\" lies on \"{other}\"");
        }
    }
}
