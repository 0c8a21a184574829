//! The picture of `reach`: the wall chart.

use shuttle_report::chart::flow_by_distance::chart;
use shuttle_report::reach::ReachAnswer;

use crate::answer::Picture;

/// The wall chart; none where distances were asked for.
pub fn pictures(found: ReachAnswer) -> Vec<Picture> {
    if found.rows.is_empty() {
        return Vec::new();
    }
    let draw = move |reader: &crate::Reader| chart(&found, reader.units, reader.tanker());
    vec![Picture { name: "reach".into(), draw: Box::new(draw) }]
}
