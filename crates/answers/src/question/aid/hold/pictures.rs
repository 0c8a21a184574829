//! The picture of `hold`: flow over the alarm clock.

use shuttle_report::by_minute::MinuteAnswer;
use shuttle_report::chart::Sheet;
use shuttle_report::chart::flow_by_minute::chart;

use crate::picture::{Picture, fires_and_seed};
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, Sentence};

/// The chart; none where nothing was reached.
pub fn pictures(found: MinuteAnswer, verdict: &Sentence) -> Vec<Picture> {
    if found.as_it_stands.rows.is_empty() {
        return Vec::new();
    }
    let shows = say![
        "Greatest flow that holds to the end of the watch, about ",
        Piece::Clock(found.end_min),
        ", in ",
        Piece::Share(found.share),
        " of fires, by the minute after the alarm from which it is asked for, with no water used before. Hatched: until the \
         first refilled load is at work only the engine's tank and first loads carry it.",
    ];
    vec![Picture {
        name: "hold".into(),
        title: verdict.clone(),
        shows,
        made_from: fires_and_seed(found.replications, found.seed),
        draw: Box::new(move |reader: &Reader, sheet: &Sheet<'_>| {
            chart(&found, reader.units, reader.tankers(), sheet)
        }),
    }]
}
