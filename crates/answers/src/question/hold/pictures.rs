//! The picture of `hold`: flow over the alarm clock.

use shuttle_report::by_minute::MinuteAnswer;
use shuttle_report::chart::flow_by_minute::chart;

use crate::answer::Picture;

/// The chart; none where nothing was reached.
pub fn pictures(found: MinuteAnswer) -> Vec<Picture> {
    if found.as_it_stands.rows.is_empty() {
        return Vec::new();
    }
    let draw = move |reader: &crate::Reader| chart(&found, reader.units, reader.tankers());
    vec![Picture { name: "hold".into(), draw: Box::new(draw) }]
}
