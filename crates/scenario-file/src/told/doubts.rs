//! Values that are allowed and that nobody means: a flow of a garden hose, a tank of a bucket. Most often the
//! unit is another one, so the file's reader is asked.
//!
//! The ranges are far wider than what is usual and far narrower than what is allowed.

use super::oddity_words;
use super::remark::{Doubt, Remark};
use crate::errors::excerpt::shorten;
use crate::errors::kinds::NoteKind;
use crate::errors::position::Lines;
use crate::format::beside::crew_and_hose::OfHose;
use crate::format::description::{Field, Object};
use crate::format::fire::building::OfBuilding;
use crate::format::fire::incident_and_supply::{
    OfAttackEngine, OfFlowStep, OfIncident, OfSupply, OfSupplyEngine,
};
use crate::format::haul::drop_tanks::OfDropTank;
use crate::format::haul::fill_sites::{OfFillSite, OfSourcePump};
use crate::format::haul::roads::{OfLegKm, OfLegMiles};
use crate::format::haul::tankers::{OfHandling, OfTanker};
use crate::format::rows::Row;
use crate::format::takes::{Rows, Shapes};
use crate::format::values::durations::{OfExponential, OfLognormal, OfTriangular, Spread};
use crate::format::values::flow_facts::{OfFlowTest, OfLay, OfPump};
use crate::format::whole_files::OfScenario;
use crate::quantities::quantity::{Quantity, Units};
use crate::structure::checked_value::{Node, Value};

/// What is plausible for one field, in internal units.
struct Plausible {
    of: &'static Object,
    field: Field,
    low: f64,
    high: f64,
    /// What is known of less, and of more.
    less: &'static str,
    more: &'static str,
}

const fn row<O: Rows, T>(
    row: &Row<O, T>,
    (low, high): (f64, f64),
    (less, more): (&'static str, &'static str),
) -> Plausible {
    Plausible { of: O::TABLE, field: row.field, low, high, less, more }
}

const GIVES: (&str, &str) =
    ("is about what a garden hose gives", "is more than the largest fire pumps give");
const WANTED: (&str, &str) = (GIVES.0, "is more than {tanker} shuttles are known to keep up");
const TANK: (&str, &str) = ("is no fire engine's tank", "is more than a fire engine carries");
const WORK: (&str, &str) = ("is no time", "is very long for this work");
const COMING: (&str, &str) =
    ("is less than it takes to get out of the station", "is very long to get there");
const SETTING_UP: (&str, &str) = ("is no time", "is very long to get water from a source");
const ROAD: (&str, &str) = ("is a few steps", "is very far to haul water");
const SIDE: (&str, &str) =
    ("is less than a shed measures", "is more than a very large building measures");

/// One row a field. Common practice and judgement: a garden hose gives 5 to 15 gpm, a booster line 30 gpm, a
/// hand line from 95 gpm on; large drilled shuttles keep up 1,000 to 2,000 gpm; fire pumps are rated up to 3,000 gpm and a few to 6,000 gpm; engines carry 500 to
/// 1,500 gal, tankers up to some 5,000 gal and tractor-trailers up to about 9,000 gal; the apparatus standard wants a tanker to dump at 1,000 gpm (NFPA
/// 1901/1903), and a 2-1/2 in drain still gives some 200 gpm (common practice); beyond 15 mi one way a tanker is on the road for
/// most of an hour (by 0.65 + 1.70 x miles).
static PLAUSIBLE: [Plausible; 40] = [
    row(&OfIncident::ATTACK_FLOW, (30.0, 2_500.0), WANTED),
    row(&OfFlowStep::FLOW, (30.0, 2_500.0), WANTED),
    row(&OfAttackEngine::TANK_REFILL, (30.0, 6_000.0), GIVES),
    row(&OfSupply::DRAFT_LIMIT, (30.0, 6_000.0), GIVES),
    row(&OfDropTank::TRANSFER, (30.0, 6_000.0), GIVES),
    row(
        &OfTanker::DUMP_RATE,
        (100.0, 10_000.0),
        ("is less than any tank drains through an open dump valve", GIVES.1),
    ),
    row(&OfTanker::PUMP_OFF, (30.0, 6_000.0), GIVES),
    row(&OfTanker::FILL_LIMIT, (30.0, 6_000.0), GIVES),
    row(&OfFillSite::FLOW, (30.0, 6_000.0), GIVES),
    row(&OfPump::RATED, (100.0, 6_000.0), ("is no fire pump's rating", GIVES.1)),
    row(&OfHose::RATED, (100.0, 6_000.0), ("is no fire pump's rating", GIVES.1)),
    row(&OfAttackEngine::TANK, (100.0, 10_000.0), TANK),
    row(
        &OfTanker::CAPACITY,
        (400.0, 6_500.0),
        ("is less than a {tanker} carries", "is a tractor-trailer's load"),
    ),
    row(
        &OfDropTank::CAPACITY,
        (300.0, 20_000.0),
        ("is less than any drop tank holds", "is more than portable tanks hold"),
    ),
    row(&OfFillSite::VOLUME, (300.0, 1e9), ("is less than one load", "is a lake")),
    row(
        &OfIncident::DURATION,
        (5.0, 2_880.0),
        ("is over before water comes", "is more than two days"),
    ),
    row(&OfAttackEngine::RESPONSE, (0.5, 240.0), COMING),
    row(&OfSupplyEngine::RESPONSE, (0.5, 240.0), COMING),
    row(&OfTanker::RESPONSE, (0.5, 480.0), COMING),
    row(&OfDropTank::RESPONSE, (0.5, 480.0), COMING),
    row(&OfFillSite::READY, (0.0, 480.0), SETTING_UP),
    row(&OfSourcePump::RESPONSE, (0.5, 480.0), COMING),
    row(&OfSourcePump::SETUP, (0.0, 119.0), SETTING_UP),
    row(&OfAttackEngine::WATER_ON, (0.0, 29.0), WORK),
    row(&OfSupplyEngine::SETUP, (0.0, 59.0), WORK),
    row(&OfSupply::SETUP, (0.0, 59.0), WORK),
    row(&OfSupply::REPRIME, (0.0, 29.0), WORK),
    row(&OfDropTank::SETUP, (0.0, 59.0), WORK),
    row(&OfHandling::NURSE_CONNECT, (0.0, 19.0), WORK),
    row(&OfHandling::NURSE_DISCONNECT, (0.0, 19.0), WORK),
    row(&OfHandling::DUMP_POSITION, (0.0, 19.0), WORK),
    row(&OfHandling::DUMP_CLEAR, (0.0, 19.0), WORK),
    row(&OfHandling::FILL_CONNECT, (0.0, 19.0), WORK),
    row(&OfHandling::FILL_DISCONNECT, (0.0, 19.0), WORK),
    row(&OfLegMiles::MILES, (0.02, 15.0), ROAD),
    row(&OfLegKm::KM, (0.02, 25.0), ROAD),
    row(&OfBuilding::LENGTH, (6.0, 1_500.0), SIDE),
    row(&OfBuilding::WIDTH, (6.0, 1_500.0), SIDE),
    row(
        &OfFlowTest::STATIC,
        (15.0, 300.0),
        ("is less than public mains keep", "is more than public mains bear"),
    ),
    row(
        &OfLay::PUMP_PRESSURE,
        (20.0, 400.0),
        ("moves little water through a lay", "is more than fire hose bears"),
    ),
];

/// Every stated value that nobody means, at its place.
pub(crate) fn doubts(root: &Node, lines: &Lines<'_>, units: Units) -> Vec<Remark> {
    let mut remarks = Vec::new();
    look(root, "", lines, units, &mut remarks);
    remarks
}

fn look(node: &Node, place: &str, lines: &Lines<'_>, units: Units, remarks: &mut Vec<Remark>) {
    match &node.value {
        Value::Object(object) => {
            for (key, value) in &object.fields {
                // An option is the whole scenario with a change, and is looked at as such.
                if place.is_empty() && *key == OfScenario::OPTIONS.key() {
                    continue;
                }
                let place =
                    if place.is_empty() { (*key).to_string() } else { format!("{place}.{key}") };
                let row = PLAUSIBLE
                    .iter()
                    .find(|row| std::ptr::eq(row.of, object.shape) && row.field.key == *key);
                let doubt = row.and_then(|row| row.doubt(value, lines));
                match doubt {
                    Some(doubt) => {
                        let text = oddity_words::doubt(&doubt, units);
                        remarks.push(Remark { place, kind: NoteKind::Doubt, text });
                    }
                    None => look(value, &place, lines, units, remarks),
                }
            }
        }
        Value::List(entries) => {
            for (index, entry) in entries.iter().enumerate() {
                look(entry, &format!("{place}[{index}]"), lines, units, remarks);
            }
        }
        _ => {}
    }
}

impl Plausible {
    /// The doubt about a value, or about a time in a duration with a spread; 0 says that there is none of it.
    fn doubt(&self, node: &Node, lines: &Lines<'_>) -> Option<Doubt> {
        match &node.value {
            Value::Number(value) if *value != 0.0 && !self.takes(*value) => {
                let text = lines.text_of(&node.span);
                let written =
                    text.strip_prefix('"').map(|text| shorten(text.trim_end_matches('"')));
                let reason = if *value < self.low { self.less } else { self.more };
                let instead = self.instead(text);
                let (quantity, value) = (self.quantity()?, *value);
                let bounds = (self.low, self.high);
                Some(Doubt { quantity, value, written, reason, bounds, instead })
            }
            Value::Object(times) => {
                let usual = match Spread::of(times.shape)? {
                    Spread::Lognormal => OfLognormal::MEAN.key(),
                    Spread::Exponential => OfExponential::MEAN.key(),
                    Spread::Triangular => OfTriangular::LIKELY.key(),
                    Spread::Uniform | Spread::Samples | Spread::Rough => return None,
                };
                self.doubt(times.child(usual)?, lines)
            }
            _ => None,
        }
    }

    /// What its numbers measure.
    fn quantity(&self) -> Option<Quantity> {
        self.field.kind.quantity()
    }

    fn takes(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// The number as it is written, with the first unit that would make sense of it.
    fn instead(&self, written: &str) -> Option<(f64, &'static str)> {
        let number = Quantity::number_in(written.trim_matches('"'))?;
        let quantity = self.quantity()?;
        let mut named = quantity.sizes();
        named.find(|(_, size)| self.takes(number * size)).map(|(name, _)| (number, name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each row is of a field that holds a number.
    #[test]
    fn every_row_is_of_a_number() {
        for row in &PLAUSIBLE {
            let (what, key) = (row.of.what, row.field.key);
            assert!(row.quantity().is_some(), "{what}: {key}");
            assert!(row.low < row.high, "{what}: {key}");
        }
    }
}
