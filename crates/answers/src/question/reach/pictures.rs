//! The picture of `reach`: the wall chart.

use shuttle_report::chart::flow_by_distance::{Words, chart};
use shuttle_report::reach::ReachAnswer;

use super::{Date, told::road};
use crate::answer::Picture;

/// The wall chart; none where distances were asked for.
///
/// - Given: average speeds out and back, mph.
pub fn pictures(found: ReachAnswer, driven: Option<[f64; 2]>, today: Date) -> Vec<Picture> {
    if found.rows.is_empty() {
        return Vec::new();
    }
    let draw = move |reader: &crate::Reader| {
        let Date { year, month, day } = today;
        let words = Words {
            units: reader.units,
            tanker: reader.tanker(),
            road: &reader.put(&road(driven)),
            // ISO 8601.
            date: &format!("{year:04}-{month:02}-{day:02}"),
        };
        chart(&found, words)
    };
    vec![Picture { name: "reach".into(), draw: Box::new(draw) }]
}
