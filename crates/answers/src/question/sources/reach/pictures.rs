//! The picture of `reach`: the wall chart.

use shuttle_report::chart::Sheet;
use shuttle_report::chart::flow_by_distance::{Words, chart};
use shuttle_report::reach::ReachAnswer;

use super::{replications, told::road};
use crate::picture::{Picture, fires_and_seed};
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, Sentence, name};

/// The wall chart; none where distances were asked for.
///
/// - Given: average speeds out and back, mph; the answer in a sentence.
pub fn pictures(found: ReachAnswer, driven: Option<[f64; 2]>, verdict: &Sentence) -> Vec<Picture> {
    if found.rows.is_empty() {
        return Vec::new();
    }
    let shows = say![
        "Greatest flow that each number of ",
        Piece::Tankers,
        " holds, by distance from water at a site like ",
        name(&found.site),
        ".",
    ];
    vec![Picture {
        name: "reach".into(),
        title: verdict.clone(),
        shows,
        made_from: fires_and_seed(replications(&found), found.seed),
        draw: Box::new(move |reader: &Reader, sheet: &Sheet<'_>| {
            let road = &reader.put(&road(driven));
            let words = Words { units: reader.units, tanker: reader.tanker(), road };
            chart(&found, words, sheet)
        }),
    }]
}
