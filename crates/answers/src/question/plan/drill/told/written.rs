//! What the measured times changed in the file, and what was not put into it.

use drill_log::Step;
use scenario_file::PutThere;
use shuttle_sim::Tanker;

use super::super::Found;
use super::super::course::everyone;
use super::super::timed::{ENOUGH, Value};
use super::{rows, step_words};
use crate::say;
use crate::say::{Piece, Sentence, list, name};

/// What the measured times changed in the file.
pub(super) fn written(found: &Found<'_>) -> Sentence {
    let new = new_values(found);
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

/// How many measured values the scenario does not have already.
pub(in super::super) fn new_values(found: &Found<'_>) -> usize {
    let is_new =
        |put: &&PutThere| put.before.as_ref().is_none_or(|before| !same(before, &put.after));
    found.with.put.iter().filter(is_new).count()
}

/// Steps with too few readings for the scenario.
pub(in super::super) fn too_few(found: &Found<'_>) -> Vec<Step> {
    let is_few = |step: &Step| found.timed.of(*step, None, None).len() < ENOUGH;
    Step::ALL.into_iter().filter(is_few).collect()
}

/// Flows that stand in the scenario as facts and so are not put into it.
pub(in super::super) fn kept_as_facts<'a>(
    found: &'a Found<'_>,
) -> impl Iterator<Item = &'a Value> + use<'a> {
    (found.timed.values.iter().enumerate())
        .filter(|(place, value)| {
            let is_flow =
                value.step == Step::Fill && value.put.only == scenario_file::Only::WhereNumber;
            is_flow && !found.with.put.iter().any(|put| put.of == *place)
        })
        .map(|(_, value)| value)
}

/// Tankers that no row of the log is of.
pub(in super::super) fn absent<'a>(
    found: &'a Found<'_>,
) -> impl Iterator<Item = &'a Tanker> + use<'a> {
    (everyone(found.scenario).tankers.iter().enumerate())
        .filter(|(place, _)| found.timed.log.trips.iter().all(|trip| trip.tanker != *place))
        .map(|(_, tanker)| tanker)
}

/// Whether two texts of JSON say the same, however they are spaced.
fn same(one: &str, other: &str) -> bool {
    let read = |text: &str| serde_json::from_str::<serde_json::Value>(text).ok();
    read(one).is_some_and(|one| Some(one) == read(other))
}

/// Steps with too few readings for the scenario, and values that stand in it as facts.
pub(super) fn not_put(found: &Found<'_>) -> Vec<Sentence> {
    let few: Vec<Sentence> = too_few(found).into_iter().map(step_words).collect();
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
    for value in kept_as_facts(found) {
        told.push(say![
            name(&value.put.place),
            " is given by the facts behind it and stays; measured: ",
            name(&value.put.value.to_string()),
            ".",
        ]);
    }
    let absent: Vec<Sentence> = absent(found).map(|tanker| say![name(&tanker.name)]).collect();
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
