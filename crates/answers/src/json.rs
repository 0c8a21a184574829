//! An answer as JSON: an interface for programs, described by [`schema`].
//!
//! Figures are kept in US units under keys that say so (`_gal`, `_gpm`, `_mi`, `_ft`, `_mph`, `_psi`); for
//! a metric reader both keys and values are turned into metric ones here, and nowhere else.

use serde::Serialize;
use serde_json::{Map, Value, json};
use shuttle_report::units::{KM_PER_MILE, LITRES_PER_GALLON, Units};

use crate::answer::{Advice, Answer, Block, Told};
use crate::reader::Reader;
use crate::say::{Sentence, Table};

/// The format of results; a change that a program could stumble over raises it.
pub const FORMAT: u32 = 1;

/// The parts of a key that are units: of US figures, of metric ones, and what one of the first is of the second.
const UNITS: [(&str, &str, f64); 6] = [
    ("gal", "l", LITRES_PER_GALLON),
    ("gpm", "lpm", LITRES_PER_GALLON),
    ("mi", "km", KM_PER_MILE),
    ("mph", "kmh", KM_PER_MILE),
    // Exact by definition.
    ("ft", "m", 0.3048),
    // NIST Special Publication 811, appendix B.
    ("psi", "kpa", 6.894_757),
];

/// The answer as a JSON object.
pub fn json<F: Serialize>(answer: &Answer<F>, reader: &Reader) -> Value {
    let mut object = Map::new();
    let units = match reader.units {
        Units::Us => "us",
        Units::Metric => "metric",
    };
    object.insert("format".into(), FORMAT.into());
    object.insert("version".into(), env!("CARGO_PKG_VERSION").into());
    object.insert("question".into(), answer.question.into());
    object.insert("title".into(), answer.title.clone().into());
    object.insert("units".into(), units.into());
    object.insert("told".into(), told(&answer.told, reader));
    for part in [serde_json::to_value(&answer.basis), serde_json::to_value(&answer.figures)] {
        if let Ok(Value::Object(figures)) = part {
            object.extend(figures);
        }
    }
    let value = Value::Object(object);
    match reader.units {
        Units::Us => value,
        Units::Metric => metric(value),
    }
}

/// Every sentence that the text has, in the reader's words.
fn told(told: &Told, reader: &Reader) -> Value {
    let put = |sentence: &Sentence| Value::from(reader.put(sentence));
    let blocks = |blocks: &[Block]| -> Vec<Value> {
        blocks.iter().filter_map(|block| block_value(block, reader)).collect()
    };
    json!({
        "headline": put(&told.headline),
        "verdict": put(&told.verdict),
        "points": blocks(&told.points),
        "advice": told.advice.iter().map(|one| advice(one, reader)).collect::<Vec<_>>(),
        "more": blocks(&told.more),
        "notes": told.notes.iter().map(put).collect::<Vec<_>>(),
        "small_print": told.small_print.iter().map(put).collect::<Vec<_>>(),
        "ask_next": told.ask_next,
    })
}

fn block_value(block: &Block, reader: &Reader) -> Option<Value> {
    match block {
        Block::Point(label, sentence) => Some(json!({
            "label": format!("{label:?}").to_lowercase(),
            "says": reader.put(sentence),
        })),
        Block::Paragraph(sentence) => {
            Some(json!({"label": Value::Null, "says": reader.put(sentence)}))
        }
        Block::Table(table) => Some(table_value(table, reader)),
        Block::Gap => None,
    }
}

fn table_value(table: &Table, reader: &Reader) -> Value {
    let row = |cells: &mut dyn Iterator<Item = &Sentence>| -> Vec<String> {
        cells.map(|cell| reader.put(cell)).collect()
    };
    json!({
        "columns": row(&mut table.columns.iter().map(|column| &column.head)),
        "rows": table.rows.iter().map(|cells| row(&mut cells.iter())).collect::<Vec<_>>(),
        "feet": row(&mut table.feet.iter()),
    })
}

fn advice(one: &Advice, reader: &Reader) -> Value {
    json!({
        "what": reader.put(&one.what),
        "replications": one.after.fires,
        "interruption_probability_before": one.before.share,
        "interruption_probability": one.after.share,
        "higher_by": {
            "by": one.higher_by.by, "ci_low": one.higher_by.ci_low, "ci_high": one.higher_by.ci_high,
        },
        "cost": one.cost,
    })
}

/// The value with every figure whose key names a US unit in the metric one, keys and all.
fn metric(value: Value) -> Value {
    match value {
        Value::Object(fields) => fields
            .into_iter()
            .map(|(key, value)| match metric_key(&key) {
                Some((key, factor)) => (key, scaled(value, factor)),
                None => (key, metric(value)),
            })
            .collect::<Map<_, _>>()
            .into(),
        Value::Array(values) => values.into_iter().map(metric).collect::<Vec<_>>().into(),
        other => other,
    }
}

/// A key with its US unit replaced, and the factor that goes with it; `None` where it names none.
pub fn metric_key(key: &str) -> Option<(String, f64)> {
    let mut parts: Vec<&str> = key.split('_').collect();
    if parts.len() < 2 {
        return None;
    }
    let (place, (_, to, factor)) = (parts.iter().enumerate())
        .skip(1)
        .find_map(|(place, part)| Some((place, UNITS.iter().find(|unit| unit.0 == *part)?)))?;
    parts[place] = to;
    Some((parts.join("_"), *factor))
}

/// Every number in the value times the factor.
fn scaled(value: Value, factor: f64) -> Value {
    match value {
        Value::Number(number) => {
            number.as_f64().map_or(Value::Null, |number| (number * factor).into())
        }
        Value::Array(values) => {
            values.into_iter().map(|value| scaled(value, factor)).collect::<Vec<_>>().into()
        }
        Value::Object(fields) => fields
            .into_iter()
            .map(|(key, value)| (key, scaled(value, factor)))
            .collect::<Map<_, _>>()
            .into(),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_metric_reader_gets_metric_keys_and_values() {
        let us = json!({
            "lowest_engine_gal": {"mean": 100.0, "worst_5_percent": null},
            "flow_gpm_mean": [1.0, 2.0],
            "established_min_mean": 3.0,
            "rows": [{"held_mi": 1.0, "name": "Tender 3,000 gal"}],
        });
        assert_eq!(
            metric(us),
            json!({
                "lowest_engine_l": {"mean": 378.541_178_4, "worst_5_percent": null},
                "flow_lpm_mean": [LITRES_PER_GALLON, 2.0 * LITRES_PER_GALLON],
                "established_min_mean": 3.0,
                "rows": [{"held_km": KM_PER_MILE, "name": "Tender 3,000 gal"}],
            })
        );
    }
}
