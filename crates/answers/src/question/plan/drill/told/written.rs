//! What the measured times changed in the file, and what was not put into it.

use drill_log::Step;
use scenario_file::PutThere;

use super::super::Found;
use super::super::course::everyone;
use super::super::timed::ENOUGH;
use super::{rows, step_words};
use crate::say;
use crate::say::{Piece, Sentence, list, name};

/// What the measured times changed in the file.
pub(super) fn written(found: &Found<'_>) -> Sentence {
    let is_new =
        |put: &&PutThere| put.before.as_ref().is_none_or(|before| !same(before, &put.after));
    let new = found.with.put.iter().filter(is_new).count();
    let values =
        say![Piece::Count(new), if new == 1 { " measured value" } else { " measured values" }];
    match &found.asked.written {
        Some(path) if new == 0 => {
            say![name(&path.display().to_string()), " had all of these values already."]
        }
        Some(path) => say![
            values,
            if new == 1 { " is now in " } else { " are now in " },
            name(&path.display().to_string()),
            " (--more shows each, old and new).",
        ],
        None if new == 0 => say!["nothing: the scenario has all of these values already."],
        None => say![
            "nothing: --write would put ",
            values,
            " into the scenario (--more shows each, old and new).",
        ],
    }
}

/// Whether two texts of JSON say the same, however they are spaced.
fn same(one: &str, other: &str) -> bool {
    let read = |text: &str| serde_json::from_str::<serde_json::Value>(text).ok();
    read(one).is_some_and(|one| Some(one) == read(other))
}

/// Steps with too few readings for the scenario, and values that stand in it as facts.
pub(super) fn not_put(found: &Found<'_>) -> Vec<Sentence> {
    let few: Vec<Sentence> = (Step::ALL.into_iter())
        .filter(|step| found.timed.of(*step, None, None).len() < ENOUGH)
        .map(step_words)
        .collect();
    let mut told = Vec::new();
    if !few.is_empty() {
        told.push(say![
            "fewer than ",
            Piece::Count(ENOUGH),
            " readings, so that the scenario keeps what it has: ",
            list(few),
            ".",
        ]);
    }
    for (place, value) in found.timed.values.iter().enumerate() {
        let is_flow =
            value.step == Step::Fill && value.put.only == scenario_file::Only::WhereNumber;
        if is_flow && !found.with.put.iter().any(|put| put.of == place) {
            told.push(say![
                name(&value.put.place),
                " is given by the facts behind it and stays; measured: ",
                name(&value.put.value.to_string()),
                ".",
            ]);
        }
    }
    let facts = everyone(found.scenario);
    let absent: Vec<Sentence> = (facts.tankers.iter().enumerate())
        .filter(|(place, _)| found.timed.log.trips.iter().all(|trip| trip.tanker != *place))
        .map(|(_, tanker)| say![name(&tanker.name)])
        .collect();
    if !absent.is_empty() {
        told.push(say![
            "no row of the log is of ",
            list(absent),
            ": the plan counts on what the others and the scenario say.",
        ]);
    }
    if let Some(played) = &found.played
        && !played.day.unplaced.is_empty()
    {
        told.push(say![
            "no time of dumping in row ",
            Piece::Words(rows(&played.day.unplaced).into()),
            ": these loads are not in the day's water.",
        ]);
    }
    told
}
