//! The JSON Schema (draft 2020-12) of the scenario file, from the same table that checks it.
//!
//! It knows every field and shape; ranges of numbers with units are left to the reader, since bare
//! numbers mean different units in different files.

use std::ops::Bound;

use fireground::travel::{RULE_MIN_PER_MILE, START_MIN};
use serde_json::{Map, Value, json};
use shuttle_report::units::KM_PER_MILE;

use super::description::{Default, Field, Kind, Object, Rule, Silence, choice, reachable};
use super::whole_files::{BUILDING_FILE, SCENARIO};
use crate::errors::message::{Before, Message, Part, on_file, on_page, says, typed};
use crate::quantities::figures::plain;
use crate::quantities::quantity::{Bounds, Quantity, Units};
use crate::quantities::worked::worked;

/// The JSON Schema of the scenario file, for editors and other programs.
pub fn json_schema() -> Value {
    schema_of(&SCENARIO, "bucketline scenario", Describes::FILE)
}

/// The same for the planner page: every field described in plain words, without keys and commands.
///
/// - Given: whether a truck that carries water is a tender to the reader; the units of the plan.
pub fn page_schema(tender: bool, units: Units) -> Value {
    schema_of(
        &SCENARIO,
        "bucketline scenario",
        Describes { before: Before::Page { tender }, units },
    )
}

/// The JSON Schema of the building file.
pub fn building_schema() -> Value {
    schema_of(&BUILDING_FILE, "bucketline building", Describes::FILE)
}

/// Whom the fields are described to, and in which units.
#[derive(Clone, Copy)]
struct Describes {
    before: Before,
    units: Units,
}

impl Describes {
    const FILE: Describes = Describes { before: Before::File, units: Units::Us };
}

fn schema_of(root: &'static Object, title: &str, describes: Describes) -> Value {
    let mut definitions = Map::new();
    for object in reachable(root) {
        if object.def != root.def {
            definitions.insert(object.def.to_string(), object_schema(object, describes));
        }
    }
    let mut schema = Map::new();
    schema.insert("$schema".to_string(), json!("https://json-schema.org/draft/2020-12/schema"));
    schema.insert("title".to_string(), json!(title));
    schema.extend(fields_of(object_schema(root, describes)));
    schema.insert("$defs".to_string(), Value::Object(definitions));
    Value::Object(schema)
}

fn fields_of(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(fields) => fields,
        _ => Map::new(),
    }
}

fn object_schema(object: &Object, describes: Describes) -> Value {
    let properties: Map<String, Value> = (object.fields.iter())
        .map(|field| (field.key.to_string(), field_schema(field, describes)))
        .collect();
    let required: Vec<&str> = (object.fields.iter())
        .filter(|field| matches!(field.silence, Silence::Required))
        .map(|field| field.key)
        .collect();
    let mut schema = Map::new();
    schema.insert("description".to_string(), json!(object.about().to(describes.before)));
    schema.insert("type".to_string(), json!("object"));
    schema.insert("properties".to_string(), Value::Object(properties));
    schema.insert("additionalProperties".to_string(), json!(false));
    if !required.is_empty() {
        schema.insert("required".to_string(), json!(required));
    }
    let rules: Vec<Value> = object.rules.iter().map(rule_schema).collect();
    if !rules.is_empty() {
        schema.insert("allOf".to_string(), Value::Array(rules));
    }
    Value::Object(schema)
}

fn rule_schema(rule: &Rule) -> Value {
    match rule {
        Rule::ExactlyOne(keys, _) => {
            let one: Vec<Value> = keys.iter().map(|key| json!({"required": [key]})).collect();
            json!({ "oneOf": one })
        }
        Rule::OnlyWith(key, other, _) => json!({"dependentRequired": {*key: [other]}}),
        Rule::NeverWith(key, other, _) => json!({"not": {"required": [key, other]}}),
    }
}

fn field_schema(field: &Field, describes: Describes) -> Value {
    let mut schema = Map::new();
    schema.insert(
        "description".to_string(),
        json!(in_units(&description(field, describes).to(describes.before), describes.units)),
    );
    schema.extend(fields_of(kind_schema(&field.kind)));
    if let Some(default) = default_of(field, describes.units) {
        schema.insert("default".to_string(), default);
    }
    Value::Object(schema)
}

/// What it is, in which units, within what limits, and what silence means.
fn description(field: &Field, describes: Describes) -> Message {
    let mut text = field.about();
    let mut say = |message: Message| text.0.extend([Part::Words(" "), Part::Within(message)]);
    for kind in field.kind.alternatives() {
        match kind {
            Kind::Number(quantity, bounds) => say(number_words(quantity, bounds, describes)),
            Kind::Count(bounds) => {
                let bounds = Quantity::Plain.show_bounds(bounds, Units::Us);
                say(says!["A whole number ", bounds, "."]);
            }
            Kind::Choice(choices) => {
                for (word, meaning) in choices {
                    say(says![choice(word), ": ", *meaning]);
                }
            }
            _ => {}
        }
    }
    match field.silence {
        Silence::Says(silent) => {
            let takes_null =
                field.kind.alternatives().iter().any(|kind| matches!(kind, Kind::Null));
            let file = if takes_null { "Silent or null: " } else { "Silent: " };
            say(says![on_file(file), on_page("Left empty: "), silent]);
        }
        Silence::Assumes(default, usual) => say(says![
            on_file("Silence is taken with a warning: "),
            on_page(says!["Left empty it counts as ", counts_as(field, default, describes), "; "]),
            worked(usual, describes.units),
            "."
        ]),
        Silence::Required | Silence::Means(_) => {}
    }
    text
}

/// What a number that is not stated counts as.
fn counts_as(field: &Field, default: Default, describes: Describes) -> Message {
    match (default, field.kind.quantity()) {
        (Default::Number(number), Some(quantity)) if number != 0.0 => {
            quantity.show(number, describes.units).into()
        }
        _ => "nothing".into(),
    }
}

/// "From 100 to 50,000 gal; a bare number is gal, in a metric file L."
fn number_words(quantity: Quantity, bounds: Bounds, describes: Describes) -> Message {
    let range = capital(&quantity.show_bounds(bounds, describes.units).in_file());
    let us = quantity.bare_unit(Units::Us);
    let metric = quantity.bare_unit(Units::Metric);
    let bare = match quantity {
        Quantity::Share | Quantity::Plain => Message::default(),
        Quantity::Miles | Quantity::MilesPerHour => says!["; a bare number is ", us],
        _ if us == metric => says!["; a bare number is ", us],
        _ => says!["; a bare number is ", us, ", in a metric file ", metric],
    };
    says![typed(range), on_file(bare), "."]
}

/// What stands for a quantity in a text about a field that need not be stated, in the units of whoever reads it: `{300 gal}`, `{1000 gpm}`,
/// `{185 psi}`, and the rule for roads without a speed.
pub(crate) fn in_units(text: &str, units: Units) -> String {
    let mut told = String::new();
    let mut rest = text;
    while let Some((plain, marked)) = rest.split_once('{') {
        told.push_str(plain);
        let Some((mark, behind)) = marked.split_once('}') else {
            told.push('{');
            rest = marked;
            continue;
        };
        told.push_str(&quantity_in(mark, units));
        rest = behind;
    }
    told + rest
}

fn quantity_in(mark: &str, units: Units) -> String {
    if mark == TRAVEL_RULE {
        let per_km = RULE_MIN_PER_MILE / KM_PER_MILE;
        return match units {
            Units::Us => mark.to_owned(),
            Units::Metric => format!("{START_MIN} + {per_km:.2} x km"),
        };
    }
    let quantity = [Quantity::Volume, Quantity::Flow, Quantity::Pressure, Quantity::Diameter];
    let named = mark.split_once(' ').and_then(|(number, unit)| {
        let of = quantity.into_iter().find(|one| one.bare_unit(Units::Us) == unit)?;
        Some((number.parse::<f64>().ok()?, of))
    });
    let Some((number, of)) = named else { return format!("{{{mark}}}") };
    let shown = match units {
        Units::Us => number,
        Units::Metric => two_figures(of.to_bare(of.read_bare(number, Units::Us), units)),
    };
    format!("{} {}", plain(shown), of.bare_unit(units))
}

/// Rounded to two figures: a round number stays one in other units.
fn two_figures(value: f64) -> f64 {
    let step = 10_f64.powf(value.abs().log10().floor() - 1.0);
    (value / step).round() * step
}

/// The rule of the insurers' surveys for a road without a speed, as the texts have it.
const TRAVEL_RULE: &str = "0.65 + 1.70 x miles";

/// The default as a file could state it; in metric, which is for a page, in round figures.
fn default_of(field: &Field, units: Units) -> Option<Value> {
    let default = match field.silence {
        Silence::Means(default) | Silence::Assumes(default, _) => default,
        Silence::Required | Silence::Says(_) => return None,
    };
    Some(match default {
        Default::Text(text) => json!(text),
        Default::Word(choice) => json!(choice.said()),
        Default::Flag(flag) => json!(flag),
        Default::Nothing if matches!(field.kind, Kind::List(..)) => json!([]),
        Default::Nothing => json!({}),
        Default::Number(number) => match field.kind.quantity() {
            Some(quantity) if number != 0.0 && quantity != Quantity::Time => {
                match (quantity.bare_unit(units), units) {
                    ("", _) => json!(number),
                    (unit, Units::Us) => json!(format!("{number} {unit}")),
                    (unit, Units::Metric) => {
                        let metric = two_figures(quantity.to_bare(number, units));
                        json!(format!("{metric} {unit}"))
                    }
                }
            }
            // A count, or a number that is the same in all units.
            _ if number.fract() == 0.0 => json!(number as i64),
            _ => json!(number),
        },
    })
}

fn kind_schema(kind: &Kind) -> Value {
    match kind {
        Kind::Text(most) => {
            json!({"type": "string", "minLength": 1, "maxLength": most})
        }
        Kind::LongText => json!({"type": "string"}),
        Kind::Switch => json!({"type": "boolean"}),
        Kind::Null => json!({"type": "null"}),
        Kind::Anything => json!({}),
        Kind::Choice(choices) => {
            let words: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
            json!({ "enum": words })
        }
        Kind::Count(bounds) => {
            let mut schema = fields_of(json!({"type": "integer"}));
            schema.extend(range(*bounds, true));
            Value::Object(schema)
        }
        Kind::Number(quantity, bounds) => number_schema(*quantity, *bounds),
        Kind::Shapes([shape]) => reference(shape),
        Kind::Shapes(shapes) => {
            let shapes: Vec<Value> = shapes.iter().map(|shape| reference(shape)).collect();
            json!({ "anyOf": shapes })
        }
        Kind::List(element, least, most) => json!({
            "type": "array",
            "items": kind_schema(element),
            "minItems": least,
            "maxItems": most,
        }),
        Kind::Either(..) => {
            let kinds: Vec<Value> = kind.alternatives().iter().map(kind_schema).collect();
            json!({ "anyOf": kinds })
        }
    }
}

fn reference(shape: &Object) -> Value {
    json!({"$ref": format!("#/$defs/{}", shape.def)})
}

fn number_schema(quantity: Quantity, bounds: Bounds) -> Value {
    let mut number = fields_of(json!({"type": "number"}));
    let same_in_all_units =
        Quantity::bare_unit(quantity, Units::Us) == Quantity::bare_unit(quantity, Units::Metric);
    number.extend(range(bounds, same_in_all_units));
    if !quantity.bare_unit(Units::Us).is_empty() {
        number.insert("x-bare-unit".to_string(), bare_unit(quantity));
    }
    let names: Vec<String> = quantity.all_names().map(any_case).collect();
    if names.is_empty() {
        return Value::Object(number);
    }
    let pattern =
        format!(r"^\s*[-+]?[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]+)?\s*({})\s*$", names.join("|"));
    json!({"anyOf": [number, {"type": "string", "pattern": pattern}]})
}

/// The unit of a bare number in a US and in a metric file, and how many of the second make one of the first: an
/// annotation for programs that show or turn numbers.
fn bare_unit(quantity: Quantity) -> Value {
    let metric_per_us = quantity.to_bare(quantity.read_bare(1.0, Units::Us), Units::Metric);
    json!({
        "us": quantity.bare_unit(Units::Us),
        "metric": quantity.bare_unit(Units::Metric),
        "metric_per_us": metric_per_us,
    })
}

/// A pattern for a unit in small or capital letters; JSON Schema has no switch for that.
fn any_case(name: &str) -> String {
    name.chars()
        .map(|c| {
            if c.is_ascii_alphabetic() {
                format!("[{}{}]", c.to_ascii_lowercase(), c.to_ascii_uppercase())
            } else {
                c.to_string()
            }
        })
        .collect()
}

/// The keywords for a range; a limit other than zero holds only where the unit is the same.
fn range(bounds: Bounds, same_in_all_units: bool) -> Map<String, Value> {
    let mut keywords = Map::new();
    let mut limit = |keyword: &str, value: f64| {
        if same_in_all_units || value == 0.0 {
            keywords.insert(keyword.to_string(), json!(value));
        }
    };
    match bounds.0 {
        // Whatever the unit, it is more than nothing.
        Bound::Included(low) if low > 0.0 && !same_in_all_units => limit("exclusiveMinimum", 0.0),
        Bound::Included(low) => limit("minimum", low),
        Bound::Excluded(low) => limit("exclusiveMinimum", low),
        Bound::Unbounded => {}
    }
    match bounds.1 {
        Bound::Included(high) => limit("maximum", high),
        Bound::Excluded(high) => limit("exclusiveMaximum", high),
        Bound::Unbounded => {}
    }
    keywords
}
/// The text with its first letter capitalized.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 gal is 3.785 L, 1 psi 6.895 kPa (NIST Handbook 44, appendix C); 1.70 / 1.609 = 1.06.
    #[test]
    fn figures_in_a_text_are_in_the_units_of_whoever_reads_it() {
        let text =
            "{300 gal} or {1000 gpm} at {185 psi}; {0.65 + 1.70 x miles} min; {\"low\": 1} {";
        let us = "300 gal or 1,000 gpm at 185 psi; 0.65 + 1.70 x miles min; {\"low\": 1} {";
        let metric = "1,100 L or 3,800 L/min at 1,300 kPa; 0.65 + 1.06 x km min; {\"low\": 1} {";
        assert_eq!(in_units(text, Units::Us), us);
        assert_eq!(in_units(text, Units::Metric), metric);
    }

    #[test]
    fn a_metric_page_is_told_no_gallons_where_a_field_is_silent() {
        let page = page_schema(false, Units::Metric).to_string();
        for us in ["300 gal", "1,000 gpm", "1000 gpm", "500 gpm", "x miles"] {
            assert!(!page.contains(us), "{us}");
        }
        assert!(page.contains("3800 L/min"), "a default in round figures");
    }
}
