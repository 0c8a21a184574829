//! The reader of a file: helpers that every part of the reading shares, and what it gathers: mistakes,
//! warnings, and values worked out from facts.

use fireground::side_by_side::Rule;
use fireground::{FactError, Told, Worked};
use shuttle_sim::{Call, TimeTaken};

use super::building_flow::BuildingFlow;
use super::fact_mistakes::tell;
use crate::errors::excerpt::shorten;
use crate::errors::similar_words::nearest;
use crate::quantities::quantity::Units;
use crate::structure::entry::Entry;

/// A value worked out from the facts behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Derived {
    /// Path of keys, such as `fill_sites[0].flow.hydrant`.
    pub place: String,
    /// Of a building: the rule that counts.
    pub rule: Option<Rule>,
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

/// A value that fits its field but not the rest of the scenario.
pub(crate) struct Misfit {
    pub(crate) place: String,
    pub(crate) problem: String,
    pub(crate) limit: Option<String>,
    pub(crate) cure: Option<String>,
}

/// Something that a person should know and need not fix.
pub(crate) struct Remark {
    pub(crate) place: String,
    pub(crate) text: String,
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

    /// A duration, or its default.
    pub(crate) fn time(&self, entry: &Entry<'_>, key: &str) -> TimeTaken {
        match self.some_time(entry, key) {
            Some(time) => time,
            None => TimeTaken::Fixed(entry.default_number(key)),
        }
    }

    /// A duration that is required.
    pub(crate) fn time_stated(&self, entry: &Entry<'_>, key: &str) -> TimeTaken {
        match self.some_time(entry, key) {
            Some(time) => time,
            None => unreachable!("{} is required", entry.at(key)),
        }
    }

    /// A duration, if it is stated.
    pub(crate) fn some_time(&self, entry: &Entry<'_>, key: &str) -> Option<TimeTaken> {
        if let Some(shape) = entry.some_entry(key) {
            return Some(spread(&shape));
        }
        entry.some_number(key).map(TimeTaken::Fixed)
    }

    /// A duration whose silence counts as no time, with a warning.
    pub(crate) fn time_or_none(&mut self, entry: &Entry<'_>, key: &str) -> TimeTaken {
        if let Some(usual) = entry.silent_but_usual(key) {
            let text = format!("`{key}` is not stated and counts as no time; {usual}");
            self.warn(entry.at(key), text);
        }
        self.time(entry, key)
    }

    /// An amount of water whose silence counts as none, with a warning.
    pub(crate) fn water_or_none(&mut self, entry: &Entry<'_>, key: &str) -> f64 {
        if let Some(usual) = entry.silent_but_usual(key) {
            let text = format!("`{key}` is not stated and counts as no water; {usual}");
            self.warn(entry.at(key), text);
        }
        entry.number(key)
    }

    pub(crate) fn warn(&mut self, place: String, text: String) {
        self.warnings.push(Remark { place, text });
    }

    /// What to know of a value worked out from facts, in the units of the file.
    pub(crate) fn warn_of(&mut self, entry: &Entry<'_>, warnings: &[Told]) {
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
        cure: Option<String>,
    ) {
        self.mistakes.push(Misfit { place, problem, limit, cure });
    }

    /// The place of a name among the known ones; unknown: a mistake.
    pub(crate) fn resolve(
        &mut self,
        place: String,
        name: &str,
        known: &[&str],
        what: &str,
    ) -> Option<usize> {
        let index = known.iter().position(|other| *other == name);
        if index.is_none() {
            let near = nearest(name, known.iter().copied());
            let cure = near.map(|near| format!("a {what} with a similar name exists: \"{near}\""));
            let listed: Vec<String> =
                (known.iter().take(12)).map(|name| format!("\"{}\"", shorten(name))).collect();
            let more = if known.len() > 12 { " and more" } else { "" };
            self.mistake(
                place,
                format!("there is no {what} called \"{}\"", shorten(name)),
                Some(format!("{}{more}", listed.join(", "))),
                cure,
            );
        }
        index
    }

    pub(crate) fn call(&self, entry: &Entry<'_>) -> Call {
        Call {
            requested_at: entry.number("requested_at"),
            response: self.time_stated(entry, "response"),
        }
    }

    /// Keeps how a value was worked out, and its warnings.
    pub(crate) fn worked(
        &mut self,
        entry: &Entry<'_>,
        worked: Result<Worked, FactError>,
    ) -> Option<f64> {
        match worked {
            Ok(worked) => {
                let place = entry.place.clone();
                self.derived.push(Derived { place, rule: None, how: worked.how });
                self.warn_of(entry, &worked.warnings);
                Some(worked.value)
            }
            Err(error) => {
                self.bad_fact(entry, &error);
                None
            }
        }
    }

    pub(crate) fn bad_fact(&mut self, entry: &Entry<'_>, error: &FactError) {
        let told = tell(error, entry.shape(), self.units);
        let place = if told.key.is_empty() { entry.place.clone() } else { entry.at(told.key) };
        self.mistake(place, told.problem, told.limit, told.cure);
    }
}

/// A duration with a shape of spread.
fn spread(shape: &Entry<'_>) -> TimeTaken {
    match shape.shape() {
        "lognormal_duration" => {
            TimeTaken::Lognormal { mean: shape.number("mean"), cv: shape.number("cv") }
        }
        "exponential_duration" => TimeTaken::Exponential { mean: shape.number("mean") },
        "triangular_duration" => TimeTaken::Triangular {
            low: shape.number("low"),
            likely: shape.number("likely"),
            high: shape.number("high"),
        },
        "uniform_duration" => {
            TimeTaken::Uniform { low: shape.number("low"), high: shape.number("high") }
        }
        "sampled_duration" => TimeTaken::Samples(shape.numbers("samples")),
        other => unreachable!("{}: {other} is no duration", shape.place),
    }
}
