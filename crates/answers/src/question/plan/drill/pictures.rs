//! The picture of `drill`: the day beside what the model expects.

use shuttle_report::chart::Sheet;
use shuttle_report::chart::measured_and_predicted::{Shown, chart};

use super::Found;
use super::course::everyone;
use super::told::clock_minute;
use super::told::the_day::the_day;
use crate::picture::{Picture, fires_and_seed};
use crate::say;
use crate::say::{Piece, name};

/// One picture; none where the day could not be played back.
pub(super) fn pictures(found: &Found<'_>, seed: u64) -> Vec<Picture> {
    let Some(played) = found.played.clone() else { return Vec::new() };
    let title = the_day(&played);
    let made_from = fires_and_seed(played.expected.runs, seed);
    let facts = everyone(found.scenario);
    let mut marks = Vec::new();
    for one in &found.timed.measured.breakdowns {
        if let Some(at) = one.at {
            let words = say![name(&facts.tankers[one.tanker].name), ": breakdown"];
            marks.push((at - played.day.alarm, words));
        }
    }
    marks.extend(played.fit.parts_at.map(|at| (at, say!["the day parts from what was expected"])));
    let lost = played.lost.as_ref().map(|(lost, ..)| {
        say![
            "with ",
            name(&facts.tankers[lost.tanker].name),
            " lost at ",
            Piece::Clock(clock_minute(lost.minute))
        ]
    });
    let draw = move |reader: &crate::Reader, sheet: &Sheet<'_>| {
        let marks: Vec<(f64, String)> =
            marks.iter().map(|(at, words)| (*at, reader.put(words))).collect();
        let words = lost.as_ref().map(|words| reader.put(words));
        chart(
            Shown {
                measured: &played.poured,
                predicted: &played.expected,
                lost: played
                    .lost
                    .as_ref()
                    .zip(words.as_deref())
                    .map(|((_, band, _), words)| (band, words)),
                marks: &marks,
                alarm_is_stated: played.day.alarm_is_stated,
            },
            reader.units,
            sheet,
        )
    };
    let shows = say![
        "Water brought to the scene as the recorder wrote it down, beside what the model expects from the measured \
         times, by minutes after the alarm.",
    ];
    vec![Picture { name: "drill".into(), title, shows, made_from, draw: Box::new(draw) }]
}
