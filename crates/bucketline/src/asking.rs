//! Reading a scenario for an answer that does not list what is odd: values that nobody means are asked about
//! first, whatever the command.

use std::path::Path;

use scenario_file::Scenario;

use crate::answer_text::paragraph;
use crate::failure::Failure;
use crate::output::complain;

/// Reads a scenario and asks, on standard error, about values that nobody means.
pub fn load(path: &Path) -> Result<Scenario, Failure> {
    let scenario = scenario_file::load(path)?;
    for doubt in scenario.warnings.iter().filter(|warning| warning.is_doubt) {
        complain(&paragraph("Note", &doubt.in_words()));
    }
    Ok(scenario)
}
