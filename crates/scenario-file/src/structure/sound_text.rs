//! Whole texts: parsed, checked, and held to strict JSON.

use std::path::Path;

use jsonc_parser::ast;

use super::checker::{Structure, check};
use super::file_kind::{Holds, not_a_scenario};
use super::strict_json::{parse, strictly_json};
use crate::errors::finding::Finding;
use crate::errors::mistakes::{ScenarioError, mistakes_of};
use crate::errors::position::Lines;

/// The structure of a scenario's text, with what is wrong with it.
///
/// - Errors: what keeps the text from being looked at as a scenario at all.
pub(crate) fn scenario_structure(path: &Path, text: &str) -> Result<Structure, Finding> {
    let value = parse(text)?;
    if let Some(wrong_file) = not_a_scenario(path, &value) {
        return Err(wrong_file);
    }
    let structure = check(&value, Holds::Scenario);
    if structure.findings.is_empty() {
        strictly_json(text)?;
    }
    Ok(structure)
}

/// A text with its structure sound, and what it was found to hold.
pub(crate) fn sound_structure(
    path: &Path,
    text: &str,
    lines: &Lines<'_>,
    holds: impl Fn(&ast::Value<'_>) -> Result<Holds, Finding>,
) -> Result<(Structure, Holds), ScenarioError> {
    let wrong = |findings: Vec<Finding>, given_up: bool| -> ScenarioError {
        mistakes_of(path, lines, findings, given_up).into()
    };
    let value = parse(text).map_err(|finding| wrong(vec![finding], false))?;
    let holds = holds(&value).map_err(|finding| wrong(vec![finding], false))?;
    let mut structure = check(&value, holds);
    if !structure.findings.is_empty() {
        return Err(wrong(std::mem::take(&mut structure.findings), structure.given_up));
    }
    strictly_json(text).map_err(|finding| wrong(vec![finding], false))?;
    Ok((structure, holds))
}
