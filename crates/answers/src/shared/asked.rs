//! What was changed beside the file: as figures, and in words for the first line of an answer.

use scenario_file::{Asked, AskedChange, Gone, Scenario};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value as Json;

use crate::say;
use crate::say::{Piece, Sentence, joined, list, name};

/// Names of units are told up to this number; more are counted.
const MOST_NAMES: usize = 4;

/// A step of an attack flow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct FlowFigures {
    /// Minutes after first water.
    pub from_first_water_min: f64,
    /// The flow.
    pub flow_gpm: f64,
}

/// The scenario's file as an argument of a command: a path is no flag, whatever it begins with.
pub fn path_as_argument(scenario: &Scenario) -> String {
    let path = scenario.path.display().to_string();
    if path.starts_with('-') { format!("./{path}") } else { path }
}

/// One change beside the file.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum AskedFigures {
    /// Another attack flow.
    Flow {
        /// Its steps.
        attack_flow: Vec<FlowFigures>,
    },
    /// Aid, and whoever is asked for after the alarm, comes later.
    Late {
        /// By so much.
        later_by_min: f64,
        /// Who, by the names in the file.
        names: Vec<String>,
    },
    /// Units of the aid that join.
    With {
        /// Their names.
        names: Vec<String>,
    },
    /// Something left out.
    Without {
        /// Its name.
        name: String,
        /// Drop tanks that go with it; those that the engine left is too far from count too.
        drop_tanks_gone: usize,
        /// Fill sites whose pump goes with it.
        pumps_gone_at: Vec<String>,
        /// Tankers that were assigned to it and now choose for themselves.
        unassigned: Vec<String>,
    },
    /// Another value.
    Set {
        /// Its path by names, as asked.
        path: String,
        /// The value, as asked.
        typed: String,
        /// What the file has there; null where it is silent.
        before: Option<Json>,
    },
}

impl From<&AskedChange> for AskedFigures {
    fn from(of: &AskedChange) -> AskedFigures {
        match of {
            AskedChange::Flow(steps) => AskedFigures::Flow {
                attack_flow: (steps.iter())
                    .map(|step| FlowFigures {
                        from_first_water_min: step.from,
                        flow_gpm: step.flow,
                    })
                    .collect(),
            },
            AskedChange::Late { minutes, units } => {
                AskedFigures::Late { later_by_min: *minutes, names: units.clone() }
            }
            AskedChange::With(names) => AskedFigures::With { names: names.clone() },
            AskedChange::Without { name, goes_too } => AskedFigures::Without {
                name: name.clone(),
                drop_tanks_gone: (goes_too.iter())
                    .filter(|one| matches!(one, Gone::DropTank | Gone::AllDropTanks))
                    .count(),
                pumps_gone_at: (goes_too.iter())
                    .filter_map(|one| match one {
                        Gone::PumpAt(site) => Some(site.clone()),
                        _ => None,
                    })
                    .collect(),
                unassigned: unassigned(goes_too),
            },
            AskedChange::Set { path, value, before } => AskedFigures::Set {
                path: path.clone(),
                typed: value.clone(),
                before: before.clone(),
            },
        }
    }
}

fn unassigned(goes_too: &[Gone]) -> Vec<String> {
    (goes_too.iter())
        .filter_map(|one| match one {
            Gone::AssignmentOf(tanker) => Some(tanker.clone()),
            _ => None,
        })
        .collect()
}

/// "Changed from the file: 400 gpm; without Otter pond."; `None` where nothing is.
pub fn asked_words(asked: &Asked) -> Option<Sentence> {
    let all = asked.changes.iter().map(change_words);
    (!asked.changes.is_empty())
        .then(|| say!["Changed from the file: ", joined(all, "; ", "; "), "."])
}

fn change_words(change: &AskedChange) -> Sentence {
    match change {
        AskedChange::Flow(steps) => {
            let after_first = steps.iter().skip(1).map(|step| {
                say![
                    Piece::Flow(step.flow),
                    " from ",
                    Piece::Minutes(step.from),
                    " after first water"
                ]
            });
            let first = steps.first().map(|step| match step.from {
                0.0 => say![Piece::Flow(step.flow)],
                from => say![
                    Piece::Flow(step.flow),
                    " from ",
                    Piece::Minutes(from),
                    " after first water"
                ],
            });
            joined(first.into_iter().chain(after_first), ", ", ", then ")
        }
        AskedChange::Late { minutes, units } if units.len() <= MOST_NAMES => {
            say![
                list(units.iter().map(|one| say![name(one)])),
                " ",
                Piece::Minutes(*minutes),
                " later"
            ]
        }
        AskedChange::Late { minutes, .. } => {
            say!["all who are asked for late or are aid ", Piece::Minutes(*minutes), " later"]
        }
        AskedChange::With(names) if names.len() <= MOST_NAMES => {
            say!["with ", list(names.iter().map(|one| say![name(one)]))]
        }
        AskedChange::With(names) => {
            say!["with ", Piece::TankerCount(names.len()), " of the aid"]
        }
        AskedChange::Without { name: gone, goes_too } => {
            let mut told = say!["without ", name(gone)];
            let drop_tanks = goes_too.iter().filter(|one| **one == Gone::DropTank).count();
            match drop_tanks {
                0 => {}
                1 => told.push(" and the drop tank it brings"),
                _ => told.push(" and the drop tanks it brings"),
            }
            if goes_too.contains(&Gone::AllDropTanks) {
                told.push(
                    " and the drop tanks, which the attack engine stands too far from to draft",
                );
            }
            for one in goes_too {
                if let Gone::PumpAt(site) = one {
                    told.push(say![" and the pump it brings to ", name(site)]);
                }
            }
            let free = unassigned(goes_too);
            if !free.is_empty() {
                told.push(say![
                    " (",
                    list(free.iter().take(MOST_NAMES).map(|one| say![name(one)])),
                    if free.len() > MOST_NAMES { " and others" } else { "" },
                    " can go elsewhere)",
                ]);
            }
            told
        }
        AskedChange::Set { path, value, before } => {
            let told = say![name(path), " = ", name(value)];
            match before {
                Some(before) => say![told, ", not ", name(&stated(before))],
                None => say![told, ", which the file leaves open"],
            }
        }
    }
}

/// A value of a file as a person would write it: "1250", "mean 12, cv 0.2".
fn stated(value: &Json) -> String {
    match value {
        Json::String(text) => text.clone(),
        Json::Object(fields) => {
            let each = fields.iter().map(|(key, value)| format!("{key} {}", stated(value)));
            each.collect::<Vec<_>>().join(", ")
        }
        Json::Array(all) => all.iter().map(stated).collect::<Vec<_>>().join(", "),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;
    use shuttle_report::units::Units;
    use shuttle_sim::FlowStep;

    use super::*;
    use crate::Reader;

    #[test]
    fn what_was_changed_is_one_line() {
        let words = |changes: Vec<AskedChange>, tender: bool| {
            let reader = Reader { units: Units::Us, tender };
            asked_words(&Asked { changes, words: Vec::new() }).map(|told| reader.put(&told))
        };
        assert_eq!(words(Vec::new(), false), None);
        let text = |text: &str| text.to_owned();
        let set = |before| AskedChange::Set {
            path: text("Otter pond/flow"),
            value: text("400 gpm"),
            before,
        };
        let rows = [
            (AskedChange::Flow(vec![FlowStep { from: 0.0, flow: 400.0 }]), "400 gpm"),
            (
                AskedChange::Flow(vec![
                    FlowStep { from: 0.0, flow: 150.0 },
                    FlowStep { from: 20.0, flow: 500.0 },
                ]),
                "150 gpm, then 500 gpm from 20 minutes after first water",
            ),
            (
                AskedChange::Late { minutes: 10.0, units: vec![text("Fox tanker")] },
                "Fox tanker 10 minutes later",
            ),
            (AskedChange::With(vec![text("Fox"), text("Elk")]), "with Fox and Elk"),
            (AskedChange::With(vec![text("Tanker"); 9]), "with nine tenders of the aid"),
            (
                AskedChange::Without { name: text("Tanker 5"), goes_too: vec![Gone::DropTank] },
                "without Tanker 5 and the drop tank it brings",
            ),
            (
                AskedChange::Without {
                    name: text("Otter pond"),
                    goes_too: vec![Gone::AssignmentOf(text("Tanker 5"))],
                },
                "without Otter pond (Tanker 5 can go elsewhere)",
            ),
            (set(Some(json!(1250))), "Otter pond/flow = 400 gpm, not 1250"),
            (set(Some(json!({"mean": 12}))), "Otter pond/flow = 400 gpm, not mean 12"),
            (set(None), "Otter pond/flow = 400 gpm, which the file leaves open"),
        ];
        for (change, said) in rows {
            let told = words(vec![change], true).unwrap();
            assert_eq!(told, format!("Changed from the file: {said}."));
        }
    }
}
