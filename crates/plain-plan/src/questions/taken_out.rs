//! What stands in the way of taking something out of the plan: what it brings, and what could be bought or changed of it.

use serde_json::Value;

use crate::first_plan::{FirstPlan, Source, alike};

/// - Errors: a unit that is taken out brings a drop tank or a pump.
pub(super) fn brings_nothing(plan: &FirstPlan, name: &str) -> Result<(), String> {
    if plan.drop_tanks.iter().any(|tank| alike(&tank.brought_by, name)) {
        return Err(format!(
            "{name} brings a drop tank: take that out first, or let another unit bring it"
        ));
    }
    let pumps = |source: &&Source| source.pumped_by.as_ref().is_some_and(|one| alike(one, name));
    match plan.sources.iter().find(pumps) {
        Some(source) => {
            Err(format!("{name} pumps at {}: say there first who else does", source.name))
        }
        None => Ok(()),
    }
}

/// An option names what it changes by its place in a list, so that one behind what is taken out would change another.
///
/// - Given: the list as a scenario names it, and the place that is taken out.
/// - Errors: an option counts on it.
pub(super) fn is_counted_by_no_option(
    plan: &FirstPlan,
    list: &str,
    place: usize,
) -> Result<(), String> {
    let counts = |option: &&Value| {
        let changes = option["changes"].as_array().into_iter().flatten();
        let mut paths =
            changes.flat_map(|one| [&one["path"], &one["from"]]).filter_map(Value::as_str);
        paths.any(|path| {
            let mut steps = path.split('/').skip(1);
            let is_of_list = steps.next() == Some(list);
            let at = steps.next().and_then(|step| step.parse::<usize>().ok());
            is_of_list && at.is_some_and(|at| at >= place)
        })
    };
    let options = plan.beside.get("options").and_then(Value::as_array).into_iter().flatten();
    match options.into_iter().find(counts) {
        Some(option) => Err(format!(
            "what could be bought or changed, \"{}\", changes it or one behind it by its place: take that out of `options` \
             first, by hand or in the planner page",
            option["name"].as_str().unwrap_or_default()
        )),
        None => Ok(()),
    }
}
