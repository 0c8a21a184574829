//! What a place in a scenario is called among people: "drop tank 2", a tanker by its name.

use crate::structure::checked_value::{Node, Value};

/// What a path such as `drop_tanks[1].transfer` is about, in words; empty: the whole scenario.
pub(crate) fn subject(root: &Node, path: &str) -> String {
    let mut steps = path.split('.');
    let part = steps.next().unwrap_or_default();
    let within = steps.next().unwrap_or_default();
    let (list, number) = match part.strip_suffix(']').and_then(|part| part.split_once('[')) {
        Some((list, index)) => (list, index.parse::<usize>().map_or(1, |index| index + 1)),
        None => (part, 1),
    };
    let named = |place: &str, otherwise: String| name_at(root, place).unwrap_or(otherwise);
    match (list, within) {
        ("tankers", _) => named(part, format!("tanker {number}")),
        ("aid", _) => named(part, format!("tanker {number} of the aid")),
        ("fill_sites", leg) => {
            let site = named(part, format!("fill site {number}"));
            match leg {
                "out" => format!("{site}, the way out"),
                "back" => format!("{site}, the way back"),
                _ => site,
            }
        }
        ("drop_tanks", _) => format!("drop tank {number}"),
        ("one_lane", _) => "the one-lane stretch".to_string(),
        ("attack_engine", _) => named(part, "the attack engine".to_string()),
        ("supply", "engine") => named("supply.engine", "the supply engine".to_string()),
        ("incident", step) if step.starts_with("attack_flow") => "the attack flow".to_string(),
        ("incident" | "supply" | "handling" | "building" | "hose" | "crew", _) => {
            format!("the {list}")
        }
        _ => String::new(),
    }
}

fn name_at(root: &Node, place: &str) -> Option<String> {
    match (root.reach(&format!("{place}.name")), &root.reach(&format!("{place}.name")).0.value) {
        ((_, true), Value::Text(name)) => Some(name.clone()),
        _ => None,
    }
}
