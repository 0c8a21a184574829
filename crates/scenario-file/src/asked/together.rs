//! Several options of a scenario at once.

use json_patch::{Patch, PatchOperation};
use serde_json::Value as Json;
use shuttle_sim::Plan;

use super::changes::Asks;
use super::document::Document;
use super::with_changes::set_who_comes;
use crate::read::checked_plan::plan_of;
use crate::scenario::Scenario;

/// What options are applied to: the file's document without them, with the values asked for, and who is asked to
/// come or stay away.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Base {
    pub(crate) json: Json,
    pub(crate) asks: Asks,
}

impl Scenario {
    /// The plan with several of its options, by place in the list; `None` where they do not go together: where two
    /// change the same thing, or one moves what another counts on, or the whole cannot work.
    pub fn with_options(&self, which: &[usize]) -> Option<Plan> {
        let patches: Vec<&Patch> = which.iter().map(|place| &self.options[*place].patch).collect();
        for (place, one) in patches.iter().enumerate() {
            if patches[place + 1..].iter().any(|other| collide(one, other)) {
                return None;
            }
        }
        let mut json = self.base.json.clone();
        for patch in patches {
            json_patch::patch(&mut json, patch).ok()?;
        }
        let mut document = Document::of(json, self.units);
        set_who_comes(&mut document, &self.base.asks.each());
        if !document.mistakes.is_empty() {
            return None;
        }
        plan_of(&self.path, &document.json.to_string()).ok().map(|changed| changed.plan)
    }
}

/// Whether it matters which of two patches is applied first, or both mean the same thing.
fn collide(one: &Patch, other: &Patch) -> bool {
    let (ours, theirs) = (touched(one), touched(other));
    let meet = ours.iter().any(|a| theirs.iter().any(|b| begin_alike(a, b)));
    let moves = |from: &Patch, paths: &[Vec<String>]| {
        from.0.iter().any(|operation| moved_by(operation).is_some_and(|at| is_behind(&at, paths)))
    };
    meet || moves(one, &theirs) || moves(other, &ours)
}

fn steps(pointer: &str) -> Vec<String> {
    pointer.split('/').skip(1).map(str::to_owned).collect()
}

/// Every path that a patch reads or writes.
fn touched(patch: &Patch) -> Vec<Vec<String>> {
    let from = |operation: &PatchOperation| match operation {
        PatchOperation::Move(one) => Some(one.from.to_string()),
        PatchOperation::Copy(one) => Some(one.from.to_string()),
        _ => None,
    };
    (patch.0.iter())
        .flat_map(|one| [Some(one.path().to_string()), from(one)])
        .flatten()
        .map(|pointer| steps(&pointer))
        .collect()
}

/// Whether one path is the other or lies below it; two that are put at the end of a list are not the same.
fn begin_alike(a: &[String], b: &[String]) -> bool {
    a.iter().zip(b).all(|(a, b)| a == b && a != "-")
}

/// The entry of a list before which an operation moves those that follow.
fn moved_by(operation: &PatchOperation) -> Option<Vec<String>> {
    let path = match operation {
        PatchOperation::Add(one) => one.path.to_string(),
        PatchOperation::Remove(one) => one.path.to_string(),
        PatchOperation::Copy(one) => one.path.to_string(),
        // Both its ends move entries: all of a list it moves within, from its beginning on.
        PatchOperation::Move(one) => {
            let mut first = steps(&one.from.to_string());
            *first.last_mut()? = "0".to_owned();
            return Some(first);
        }
        PatchOperation::Replace(_) | PatchOperation::Test(_) => return None,
    };
    let steps = steps(&path);
    steps.last()?.parse::<usize>().is_ok().then_some(steps)
}

/// Whether any of the paths leads to an entry of the same list from that place on.
fn is_behind(at: &[String], paths: &[Vec<String>]) -> bool {
    let Some((last, list)) = at.split_last() else { return false };
    let place = |step: &str| step.parse::<usize>().ok();
    paths.iter().any(|path| {
        path.starts_with(list)
            && path.get(list.len()).and_then(|step| place(step)) >= place(last)
            && path.get(list.len()).is_some_and(|step| place(step).is_some())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn patch(operations: Json) -> Patch {
        serde_json::from_value(operations).unwrap()
    }

    #[test]
    fn options_that_change_the_same_thing_or_move_it_do_not_go_together() {
        let replace = |path: &str| patch(json!([{"op": "replace", "path": path, "value": 1}]));
        let add = |path: &str| patch(json!([{"op": "add", "path": path, "value": 1}]));
        let remove = |path: &str| patch(json!([{"op": "remove", "path": path}]));
        let copy =
            |from: &str, path: &str| patch(json!([{"op": "copy", "from": from, "path": path}]));
        let rows = [
            (replace("/supply/low_water"), replace("/fill_sites/0/flow"), false),
            (replace("/fill_sites/0/flow"), replace("/fill_sites/0/positions"), false),
            (replace("/fill_sites/0/flow"), replace("/fill_sites/0"), true),
            (add("/tankers/-"), add("/tankers/-"), false),
            (add("/tankers/1"), replace("/tankers/0/capacity"), false),
            (add("/tankers/1"), replace("/tankers/1/capacity"), true),
            (remove("/tankers/0"), replace("/tankers/2/capacity"), true),
            (remove("/tankers/2"), replace("/tankers/0/capacity"), false),
            // Whether the copy has the change depends on the order.
            (copy("/drop_tanks/0", "/drop_tanks/1"), replace("/drop_tanks/0/capacity"), true),
        ];
        for (one, other, expected) in rows {
            assert_eq!(collide(&one, &other), expected, "{one:?} {other:?}");
            assert_eq!(collide(&other, &one), expected, "{other:?} {one:?}");
        }
    }
}
