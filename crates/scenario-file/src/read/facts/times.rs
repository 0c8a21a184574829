//! Reading times: fixed ones and those with a spread, calls, failures.

use shuttle_sim::{Call, Failure, TimeTaken};

use crate::format::rows::Row;
use crate::format::shared_fields::{OfFailure, REQUESTED_AT, TURNOUT};
use crate::format::takes::{Duration, Either, Nested};
use crate::format::values::durations::{
    FixedOrSpread, OfExponential, OfLognormal, OfRoughTime, OfSamples, OfTriangular, OfUniform,
    Spread,
};
use crate::structure::checked_value::Node;
use crate::structure::entry::Entry;
use crate::structure::reads::Reads;

impl Reads for Duration {
    type Got<'n> = TimeTaken;

    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<TimeTaken> {
        Some(match FixedOrSpread::read(node, place)? {
            Either::This(minutes) => TimeTaken::Fixed(minutes),
            Either::That((how, times)) => spread(how, &times),
        })
    }

    fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
        TimeTaken::Fixed(self.0)
    }
}

/// A duration with a shape of spread.
fn spread(how: Spread, times: &Entry<'_>) -> TimeTaken {
    match how {
        Spread::Lognormal => TimeTaken::Lognormal {
            mean: times.get(&OfLognormal::MEAN),
            cv: times.get(&OfLognormal::CV),
        },
        Spread::Exponential => TimeTaken::Exponential { mean: times.get(&OfExponential::MEAN) },
        Spread::Triangular => TimeTaken::Triangular {
            low: times.get(&OfTriangular::LOW),
            likely: times.get(&OfTriangular::LIKELY),
            high: times.get(&OfTriangular::HIGH),
        },
        Spread::Uniform => TimeTaken::Uniform {
            low: times.get(&OfUniform::LOW),
            high: times.get(&OfUniform::HIGH),
        },
        Spread::Samples => TimeTaken::Samples(times.get(&OfSamples::SAMPLES)),
        Spread::Rough => TimeTaken::Fixed(times.get(&OfRoughTime::VALUE)),
    }
}

/// The call of a unit that may fail to come.
pub(crate) fn call(entry: &Entry<'_>, response: TimeTaken) -> Call {
    Call { turnout: entry.get(&TURNOUT), ..sure_call(entry, response) }
}

/// The call of a unit that always comes.
pub(crate) fn sure_call(entry: &Entry<'_>, response: TimeTaken) -> Call {
    Call { requested_at: entry.get(&REQUESTED_AT), response, turnout: 1.0 }
}

/// Whether and for how long something may fail, if it is stated.
pub(crate) fn failure(entry: &Entry<'_>, row: &Row<Option<Nested<OfFailure>>>) -> Option<Failure> {
    let failure = entry.get(row)?;
    Some(Failure {
        chance: failure.get(&OfFailure::CHANCE),
        repair: failure.get(&OfFailure::REPAIR),
    })
}
