//! Values that are allowed and that nobody means: a flow of a garden hose, a tank of a bucket. Most often the
//! unit is another one, so the file's reader is asked.
//!
//! The ranges are far wider than what is usual and far narrower than what is allowed.

use super::plan_words;
use super::remark::{Doubt, Remark};
use crate::errors::excerpt::shorten;
use crate::errors::position::Lines;
use crate::quantities::quantity::{Quantity, Units};
use crate::structure::checked_value::{Node, Shaped, Value};

/// What is plausible for one field, in internal units.
struct Plausible {
    /// The object, by its name in the schema, and the key.
    of: (&'static str, &'static str),
    quantity: Quantity,
    low: f64,
    high: f64,
    /// What is known of less, and of more.
    less: &'static str,
    more: &'static str,
}

const fn row(
    of: (&'static str, &'static str),
    quantity: Quantity,
    (low, high): (f64, f64),
    (less, more): (&'static str, &'static str),
) -> Plausible {
    Plausible { of, quantity, low, high, less, more }
}

const HOSE: (&str, &str) =
    ("is about what a garden hose gives", "is more than the largest fire pumps give");
const TANK: (&str, &str) = ("is no fire engine's tank", "is more than a fire engine carries");
const HANDLING: (&str, &str) = ("is no time", "is very long for this work");
const COMING: (&str, &str) =
    ("is less than it takes to get out of the station", "is very long to get there");
const ROAD: (&str, &str) = ("is a few steps", "is very far to haul water");
const SIDE: (&str, &str) =
    ("is less than a shed measures", "is more than a very large building measures");

/// One row a field. Common practice and judgement: a garden hose gives 5 to 15 gpm, a booster line 30 gpm, a
/// hand line from 95 gpm on; fire pumps are rated up to 3,000 gpm and a few to 6,000 gpm; engines carry 500 to
/// 1,500 gal, road tankers up to about 9,000 gal.
static PLAUSIBLE: [Plausible; 37] = [
    row(("incident", "attack_flow"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("flow_step", "flow"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("attack_engine", "tank_refill"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("supply", "draft_limit"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("drop_tank", "transfer"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("tanker", "dump_rate"), Quantity::Flow, (30.0, 10_000.0), HOSE),
    row(("tanker", "pump_off"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("tanker", "fill_limit"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("fill_site", "flow"), Quantity::Flow, (30.0, 6_000.0), HOSE),
    row(("pump", "rated"), Quantity::Flow, (100.0, 6_000.0), ("is no fire pump's rating", HOSE.1)),
    row(("hose", "rated"), Quantity::Flow, (100.0, 6_000.0), ("is no fire pump's rating", HOSE.1)),
    row(("attack_engine", "tank"), Quantity::Volume, (50.0, 10_000.0), TANK),
    row(
        ("tanker", "capacity"),
        Quantity::Volume,
        (400.0, 12_000.0),
        ("is less than a tanker carries", "is more than a truck may carry on the road"),
    ),
    row(
        ("drop_tank", "capacity"),
        Quantity::Volume,
        (300.0, 20_000.0),
        ("is less than any drop tank holds", "is more than portable tanks hold"),
    ),
    row(
        ("fill_site", "volume"),
        Quantity::Volume,
        (300.0, 1e9),
        ("is less than one load", "is a lake"),
    ),
    row(
        ("incident", "duration"),
        Quantity::Time,
        (5.0, 2_880.0),
        ("is over before water comes", "is more than two days"),
    ),
    row(("attack_engine", "response"), Quantity::Time, (0.5, 240.0), COMING),
    row(("supply_engine", "response"), Quantity::Time, (0.5, 240.0), COMING),
    row(("tanker", "response"), Quantity::Time, (0.5, 480.0), COMING),
    row(("drop_tank", "response"), Quantity::Time, (0.5, 480.0), COMING),
    row(("attack_engine", "water_on"), Quantity::Time, (0.0, 29.0), HANDLING),
    row(("supply_engine", "setup"), Quantity::Time, (0.0, 59.0), HANDLING),
    row(("supply", "setup"), Quantity::Time, (0.0, 59.0), HANDLING),
    row(("supply", "reprime"), Quantity::Time, (0.0, 29.0), HANDLING),
    row(("drop_tank", "setup"), Quantity::Time, (0.0, 59.0), HANDLING),
    row(("handling", "nurse_connect"), Quantity::Time, (0.0, 19.0), HANDLING),
    row(("handling", "nurse_disconnect"), Quantity::Time, (0.0, 19.0), HANDLING),
    row(("handling", "dump_position"), Quantity::Time, (0.0, 19.0), HANDLING),
    row(("handling", "dump_clear"), Quantity::Time, (0.0, 19.0), HANDLING),
    row(("handling", "fill_connect"), Quantity::Time, (0.0, 19.0), HANDLING),
    row(("handling", "fill_disconnect"), Quantity::Time, (0.0, 19.0), HANDLING),
    row(("leg_miles", "miles"), Quantity::Miles, (0.02, 60.0), ROAD),
    row(("leg_km", "km"), Quantity::Kilometres, (0.02, 60.0), ROAD),
    row(("building", "length"), Quantity::Length, (6.0, 1_500.0), SIDE),
    row(("building", "width"), Quantity::Length, (6.0, 1_500.0), SIDE),
    row(
        ("hydrant_flow_test", "static"),
        Quantity::Pressure,
        (15.0, 300.0),
        ("is less than public mains keep", "is more than public mains bear"),
    ),
    row(
        ("lay", "pump_pressure"),
        Quantity::Pressure,
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
                if place.is_empty() && *key == "options" {
                    continue;
                }
                let place =
                    if place.is_empty() { (*key).to_string() } else { format!("{place}.{key}") };
                let row = PLAUSIBLE.iter().find(|row| row.of == (object.shape.def, *key));
                let doubt = row.and_then(|row| row.doubt(value, lines));
                match doubt {
                    Some(doubt) => {
                        let text = plan_words::doubt(&doubt, units);
                        remarks.push(Remark { place, text, is_doubt: true });
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
                Some(Doubt { quantity: self.quantity, value: *value, written, reason, instead })
            }
            Value::Object(Shaped { shape, fields }) if shape.def.ends_with("_duration") => {
                let times = fields.iter().filter(|(key, _)| matches!(*key, "mean" | "likely"));
                times.map(|(_, node)| node).find_map(|node| self.doubt(node, lines))
            }
            _ => None,
        }
    }

    fn takes(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// The number as it is written, with the first unit that would make sense of it.
    fn instead(&self, written: &str) -> Option<(f64, &'static str)> {
        let number = Quantity::number_in(written.trim_matches('"'))?;
        let mut named = self.quantity.sizes();
        named.find(|(_, size)| self.takes(number * size)).map(|(name, _)| (number, name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format::description::{Kind, reachable};
    use crate::format::whole_files::{BUILDING_FILE, SCENARIO};

    /// Each row is of a field that there is and that holds a number of its quantity, and lies within its limits.
    #[test]
    fn every_row_is_of_a_field_of_its_quantity() {
        let mut objects = reachable(&SCENARIO);
        objects.extend(reachable(&BUILDING_FILE));
        for row in &PLAUSIBLE {
            let object = objects.iter().find(|object| object.def == row.of.0);
            let field = object.and_then(|object| object.field(row.of.1));
            let kinds = field.unwrap_or_else(|| panic!("{:?}", row.of)).kind.alternatives();
            assert!(
                kinds.iter().any(|kind| matches!(kind, Kind::Number(q, _) if *q == row.quantity)),
                "{:?}",
                row.of
            );
            assert!(row.low < row.high, "{:?}", row.of);
        }
    }
}
