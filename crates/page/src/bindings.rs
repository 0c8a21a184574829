//! The calls for a browser: text in, JSON out.

use scenario_file::Units;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::{Ask, FireAsk};

/// What is asked of the engine, as JSON: a text with the name of its file, and a question.
#[derive(Deserialize)]
struct Call<A> {
    name: String,
    text: String,
    ask: A,
}

fn put(value: &impl Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default()
}

fn called<A: for<'a> Deserialize<'a>>(call: &str) -> Result<Call<A>, String> {
    serde_json::from_str(call).map_err(|error| error.to_string())
}

/// Reads a text.
///
/// - Given: whether a truck that carries water is a tender to the reader.
#[wasm_bindgen]
pub fn read(name: &str, text: &str, tender: bool) -> String {
    put(&crate::read(name, text, tender))
}

/// Answers a question about a text.
///
/// # Errors
///
/// When the call is not one of the page's.
#[wasm_bindgen]
pub fn answer(call: &str) -> Result<String, String> {
    called::<Ask>(call).map(|call| put(&crate::answer(&call.name, &call.text, &call.ask)))
}

/// Tells one fire.
///
/// # Errors
///
/// When the call is not one of the page's.
#[wasm_bindgen]
pub fn fire(call: &str) -> Result<String, String> {
    called::<FireAsk>(call).map(|call| put(&crate::fire(&call.name, &call.text, &call.ask)))
}

/// The JSON Schema of a scenario, its fields described in plain words.
///
/// - Given: whether a truck that carries water is a tender to the reader; whether the plan is in metric units.
#[wasm_bindgen]
pub fn schema(tender: bool, metric: bool) -> String {
    let units = if metric { Units::Metric } else { Units::Us };
    put(&scenario_file::page_schema(tender, units))
}

/// A scenario to start from.
#[wasm_bindgen]
pub fn starter() -> String {
    scenario_file::STARTER.to_owned()
}

/// The font of the charts: regular, then semi-bold.
#[wasm_bindgen]
pub fn font(semi_bold: bool) -> Vec<u8> {
    use shuttle_report::chart::{FONT, SEMI_BOLD_FONT};
    if semi_bold { SEMI_BOLD_FONT.to_vec() } else { FONT.to_vec() }
}
