//! The reader of a file: helpers that every part of the reading shares, and what it gathers: mistakes,
//! warnings, and values worked out from facts.

use fireground::side_by_side::Rule;
use fireground::{FactError, Told, Worked};
use shuttle_sim::TimeTaken;

use crate::errors::excerpt::shorten;
use crate::errors::similar_words::nearest;
use crate::format::rows::Row;
use crate::format::takes::{Duration, Has};
use crate::quantities::message_units::in_round_units;
use crate::quantities::quantity::Units;
use crate::read::facts::building_flow::BuildingFlow;
use crate::structure::entry::Entry;
use crate::told::fact_mistakes::tell;
use crate::told::places::Misfit;
use crate::told::remark::Remark;

/// A value worked out from the facts behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Derived {
    /// Path of keys, such as `fill_sites[0].flow.hydrant`.
    pub place: String,
    /// Of a building: the rule that counts.
    pub rule: Option<Rule>,
    /// The value, in `unit`.
    pub value: f64,
    /// Its unit, as the trade's arithmetic has it.
    pub unit: &'static str,
    /// The formula with its numbers.
    pub how: Told,
}

/// Gathers mistakes, warnings, and values worked out from facts while a file is read.
pub(crate) struct Reader {
    /// The units of the file, for messages.
    pub(crate) units: Units,
    pub(crate) mistakes: Vec<Misfit>,
    pub(crate) warnings: Vec<Remark>,
    pub(crate) derived: Vec<Derived>,
    pub(crate) buildings: Vec<BuildingFlow>,
}

impl Reader {
    /// Nothing found yet.
    pub(crate) fn new(units: Units) -> Reader {
        Reader {
            units,
            mistakes: Vec::new(),
            warnings: Vec::new(),
            derived: Vec::new(),
            buildings: Vec::new(),
        }
    }

    /// A duration whose silence counts as no time, with a warning.
    pub(crate) fn time_or_none<O: Has<O>>(
        &mut self,
        entry: &Entry<'_, O>,
        row: &Row<O, Duration>,
    ) -> TimeTaken {
        if let Some(usual) = entry.silent_but_usual(row) {
            let text = format!("`{}` is not stated and counts as no time; {usual}", row.key());
            self.warn(entry.at(row), text);
        }
        entry.get(row)
    }

    /// An amount of water whose silence counts as none, with a warning.
    pub(crate) fn water_or_none<O: Has<O>>(
        &mut self,
        entry: &Entry<'_, O>,
        row: &Row<O, f64>,
    ) -> f64 {
        if let Some(usual) = entry.silent_but_usual(row) {
            let text = format!("`{}` is not stated and counts as no water; {usual}", row.key());
            self.warn(entry.at(row), text);
        }
        entry.get(row)
    }

    /// - Given: `text`, in US units; it is told in those of the file.
    pub(crate) fn warn(&mut self, place: String, text: String) {
        let text = in_round_units(&text, self.units);
        self.warnings.push(Remark { place, text, is_doubt: false, is_counted: false });
    }

    /// What to know of a value worked out from facts, in the units of the file.
    pub(crate) fn warn_of<O>(&mut self, entry: &Entry<'_, O>, warnings: &[Told]) {
        for warning in warnings {
            let text = match self.units {
                Units::Us => warning.in_us_units(),
                Units::Metric => warning.in_metric_units(),
            };
            self.warn(entry.place.clone(), text);
        }
    }

    pub(crate) fn mistake(
        &mut self,
        place: String,
        problem: String,
        limit: Option<String>,
        cure: impl Into<String>,
    ) {
        self.mistakes.push(Misfit { place, problem, limit, cure: cure.into() });
    }

    /// The place of a name among the known ones; unknown: a mistake.
    ///
    /// - Given: `otherwise`, the cure where the name is no slip of the finger.
    pub(crate) fn resolve(
        &mut self,
        place: String,
        name: &str,
        known: &[&str],
        (what, otherwise): (&str, &str),
    ) -> Option<usize> {
        let index = known.iter().position(|other| *other == name);
        if index.is_none() {
            let near = nearest(name, known.iter().copied())
                .filter(|near| !differ_in_number(name, near))
                .map(|near| format!("a {what} with a similar name exists: \"{near}\""));
            let listed: Vec<String> =
                (known.iter().take(12)).map(|name| format!("\"{}\"", shorten(name))).collect();
            let more = if known.len() > 12 { " and more" } else { "" };
            self.mistake(
                place,
                format!("there is no {what} called \"{}\"", shorten(name)),
                Some(format!("{}{more}", listed.join(", "))),
                near.unwrap_or_else(|| otherwise.to_string()),
            );
        }
        index
    }

    /// Keeps how a value was worked out, and its warnings.
    pub(crate) fn worked<O>(
        &mut self,
        entry: &Entry<'_, O>,
        worked: Result<Worked, FactError>,
    ) -> Option<f64> {
        match worked {
            Ok(worked) => {
                let place = entry.place.clone();
                self.derived.push(Derived {
                    place,
                    rule: None,
                    value: worked.value,
                    unit: worked.unit,
                    how: worked.how,
                });
                self.warn_of(entry, &worked.warnings);
                Some(worked.value)
            }
            Err(error) => {
                self.bad_fact(entry, &error);
                None
            }
        }
    }

    pub(crate) fn bad_fact<O>(&mut self, entry: &Entry<'_, O>, error: &FactError) {
        let told = tell(error, entry.shape(), self.units);
        let place = told.key.map_or_else(|| entry.place.clone(), |key| entry.path(key));
        self.mistake(place, told.problem, told.limit, told.cure);
    }
}

/// Whether two names are told apart by their numbers alone: "Tanker 3" is not "Tanker 2" misspelled, it is
/// another tanker, which may have been taken out.
pub(crate) fn differ_in_number(given: &str, known: &str) -> bool {
    let letters = |name: &str| name.replace(|c: char| c.is_ascii_digit(), "");
    letters(given) != given && letters(given) == letters(known)
}
