//! What can be wrong with a value, and all that is: one method for each kind of value.

use std::collections::HashSet;
use std::fmt;

use super::facts::Call;
use super::limits::{self, Limit, plain, with_unit};
use super::shared_luck::Failure;
use super::time_taken::TimeTaken;

/// Something in a plan that keeps it from running.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// Where, as a path with the keys of the scenario file: `tankers[1].capacity`, where the
    /// number is the place in the scenario's list.
    pub place: String,
    /// What is wrong, with the value.
    pub problem: String,
    /// What is allowed.
    pub limit: String,
    /// What would put it right, where one thing likely would.
    pub cure: Option<String>,
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} ({})", self.place, self.problem, self.limit)?;
        match &self.cure {
            Some(cure) => write!(f, "; {cure}"),
            None => Ok(()),
        }
    }
}

/// The mistakes so far, each once: a group of tankers shares one entry of the list.
#[derive(Default)]
pub(super) struct Mistakes {
    pub(super) list: Vec<Mistake>,
    seen: HashSet<(String, String)>,
}

impl Mistakes {
    pub(super) fn wrong(
        &mut self,
        place: &str,
        problem: String,
        limit: String,
        cure: Option<&str>,
    ) {
        if self.seen.insert((place.to_string(), problem.clone())) {
            self.list.push(Mistake {
                place: place.to_string(),
                problem,
                limit,
                cure: cure.map(str::to_string),
            });
        }
    }

    pub(super) fn number(&mut self, place: &str, value: f64, limit: Limit) {
        self.number_with_cure(place, value, limit, None);
    }

    pub(super) fn number_with_cure(
        &mut self,
        place: &str,
        value: f64,
        limit: Limit,
        cure: Option<String>,
    ) {
        if !limit.allows(value) {
            let value = with_unit(value, limit.unit);
            let problem = format!("{value} is out of range");
            self.wrong(place, problem, limit.to_string(), cure.as_deref());
        }
    }

    pub(super) fn count(&mut self, place: &str, count: u32) {
        self.number(place, f64::from(count), limits::COUNT);
    }

    pub(super) fn entries(&mut self, place: &str, length: usize, least: usize, most: usize) {
        let range = format!("from {least} to {} entries", plain(most as f64));
        if length < least {
            self.wrong(place, "the list is empty".to_string(), range, None);
        } else if length > most {
            let problem = format!("the list has {} entries", plain(length as f64));
            self.wrong(place, problem, range, None);
        }
    }

    pub(super) fn name(&mut self, place: &str, name: &str) {
        let problem = if name.trim().is_empty() {
            "the name is empty"
        } else if name.chars().count() > limits::NAME_LENGTH {
            "the name is too long"
        } else if name.chars().any(char::is_control) {
            "the name holds a control character"
        } else {
            return;
        };
        let limit = format!(
            "1 to {} characters, no line breaks or other control characters",
            limits::NAME_LENGTH
        );
        self.wrong(place, problem.to_string(), limit, None);
    }

    pub(super) fn call(&mut self, place: &str, call: &Call) {
        self.number(&format!("{place}.requested_at"), call.requested_at, limits::MINUTES);
        self.time(&format!("{place}.response"), &call.response);
        self.chance(&format!("{place}.turnout"), call.turnout);
    }

    /// The failure of what has this place.
    pub(super) fn failure(&mut self, place: &str, failure: Option<&Failure>) {
        let Some(Failure { chance, repair }) = failure else { return };
        self.chance(&format!("{place}.failure.chance"), *chance);
        if let Some(repair) = repair {
            self.time(&format!("{place}.failure.repair"), repair);
        }
    }

    fn chance(&mut self, place: &str, chance: f64) {
        self.number_with_cure(place, chance, limits::CHANCE, as_share(chance));
    }

    pub(super) fn time(&mut self, place: &str, time: &TimeTaken) {
        let mut minutes = |key: &str, value: f64| {
            self.number(&format!("{place}{key}"), value, limits::MINUTES);
        };
        match time {
            TimeTaken::Fixed(value) => minutes("", *value),
            TimeTaken::Exponential { mean } => minutes(".mean", *mean),
            TimeTaken::Lognormal { mean, cv } => {
                minutes(".mean", *mean);
                self.number(&format!("{place}.cv"), *cv, limits::CV);
            }
            TimeTaken::Triangular { low, likely, high } => {
                minutes(".low", *low);
                minutes(".likely", *likely);
                minutes(".high", *high);
                if !(low <= likely && likely <= high) {
                    self.wrong(
                        place,
                        format!(
                            "low {}, likely {}, high {} are out of order",
                            plain(*low),
                            plain(*likely),
                            plain(*high)
                        ),
                        "low, likely and high in rising order".to_string(),
                        None,
                    );
                }
            }
            TimeTaken::Uniform { low, high } => {
                minutes(".low", *low);
                minutes(".high", *high);
                if low > high {
                    self.wrong(
                        place,
                        format!("low {} is above high {}", plain(*low), plain(*high)),
                        "low at most as great as high".to_string(),
                        Some("exchange the two"),
                    );
                }
            }
            TimeTaken::Samples(samples) => {
                for (index, value) in samples.iter().enumerate() {
                    minutes(&format!(".samples[{index}]"), *value);
                }
                let place = format!("{place}.samples");
                self.entries(&place, samples.len(), 1, limits::SAMPLES);
            }
        }
    }
}

/// The cure for a share that looks like a percentage.
pub(super) fn as_share(share: f64) -> Option<String> {
    let percent = (1.0..=100.0).contains(&share);
    percent.then(|| format!("a share, not a percentage: {}", plain(share / 100.0)))
}
