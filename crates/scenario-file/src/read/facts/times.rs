//! Reading times: fixed ones and those with a spread, calls, failures.

use shuttle_sim::{Failure, TimeTaken};

use crate::format::shared_fields::OfFailure;
use crate::format::takes::{Duration, Either};
use crate::format::values::durations::{
    FixedOrSpread, OfExponential, OfLognormal, OfRoughTime, OfSamples, OfTriangular, OfUniform,
    Spread,
};
use crate::structure::checked_value::Node;
use crate::structure::entry::Entry;
use crate::structure::reads::Reads;

impl Reads for Duration {
    type Got<'n> = TimeTaken;

    fn read(node: &Node, place: &dyn Fn() -> String) -> Option<TimeTaken> {
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
fn spread(how: Spread, times: &Entry<'_, Spread>) -> TimeTaken {
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

/// Whether and for how long something may fail.
pub(crate) fn failure(stated: &Entry<'_, OfFailure>) -> Failure {
    Failure { chance: stated.get(&OfFailure::CHANCE), repair: stated.get(&OfFailure::REPAIR) }
}
