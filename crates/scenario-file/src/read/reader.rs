//! The reader of a file: helpers that every part of the reading shares, and what it gathers: mistakes,
//! warnings, and values worked out from facts.

use fireground::side_by_side::Rule;
use fireground::{FactError, Told, Worked, told};
use shuttle_sim::TimeTaken;

use crate::errors::kinds::{MistakeKind, NoteKind};
use crate::errors::message::{Message, joined, key as a_key, quoted, says, whole_name};
use crate::errors::similar_words::nearest;
use crate::format::rows::Row;
use crate::format::takes::{Duration, Has};
use crate::quantities::quantity::Units;
use crate::quantities::worked::worked;
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
            self.not_stated(
                entry.at(row),
                row.key(),
                " is not stated and counts as no time; ",
                usual,
            );
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
            self.not_stated(
                entry.at(row),
                row.key(),
                " is not stated and counts as no water; ",
                usual,
            );
        }
        entry.get(row)
    }

    /// What silence counts as where something is usual.
    ///
    /// - Given: the key; what it counts as; what is usual.
    pub(crate) fn not_stated(
        &mut self,
        place: String,
        key: &str,
        counts: &'static str,
        usual: &'static [told::Part],
    ) {
        let text = says![a_key(key), counts, worked(usual, self.units)];
        self.warn(place, NoteKind::NotStated, text);
    }

    pub(crate) fn warn(&mut self, place: String, kind: NoteKind, text: Message) {
        self.warnings.push(Remark { place, kind, text });
    }

    /// What to know of a value worked out from facts, in the units of the file.
    pub(crate) fn warn_of<O>(&mut self, entry: &Entry<'_, O>, warnings: &[Told]) {
        for warning in warnings {
            let text = worked(&warning.0, self.units);
            self.warn(entry.place.clone(), NoteKind::OfTheFacts, text);
        }
    }

    pub(crate) fn mistake(
        &mut self,
        place: String,
        kind: MistakeKind,
        (problem, limit, cure): (Message, Option<Message>, Message),
    ) {
        self.mistakes.push(Misfit { place, kind, problem, limit, cure });
    }

    /// The place of a name among the known ones; unknown: a mistake.
    ///
    /// - Given: `otherwise`, the cure where the name is no slip of the finger.
    pub(crate) fn resolve(
        &mut self,
        place: String,
        name: &str,
        known: &[&str],
        (what, otherwise): (&'static str, &'static str),
    ) -> Option<usize> {
        let index = known.iter().position(|other| *other == name);
        if index.is_none() {
            let near = nearest(name, known.iter().copied())
                .filter(|near| !differ_in_number(name, near))
                .map(|near| says!["a ", what, " with a similar name exists: ", whole_name(near)]);
            let listed = joined(known.iter().take(12).map(|name| quoted(name).into()), ", ");
            let more = if known.len() > 12 { " and more" } else { "" };
            let problem = says!["there is no ", what, " called ", quoted(name)];
            let cure = near.unwrap_or_else(|| otherwise.into());
            let told = (problem, Some(says![listed, more]), cure);
            self.mistake(place, MistakeKind::NoSuchName, told);
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
        self.mistake(place, told.kind, (told.problem, told.limit, told.cure));
    }
}

/// Whether two names are told apart by their numbers alone: "Tanker 3" is not "Tanker 2" misspelled, it is
/// another tanker, which may have been taken out.
pub(crate) fn differ_in_number(given: &str, known: &str) -> bool {
    let letters = |name: &str| name.replace(|c: char| c.is_ascii_digit(), "");
    letters(given) != given && letters(given) == letters(known)
}
