//! What could be changed in a scenario, written as JSON Patch (RFC 6902).

use std::ops::Bound::Included;

use shuttle_sim::Plan;

use super::tables::{object, words};
use super::takes::{Anything, Chosen, List, Nested, Takes, Text};
use crate::quantities::quantity::Quantity;

/// Most options in one file.
const MOST_OPTIONS: usize = 50;
/// Most changes in one option.
const MOST_CHANGES: usize = 100;
/// The longest path of a change, characters.
const LONGEST_PATH: usize = 1_000;
/// Costs, in any currency; a generous limit.
const COST: Takes<f64> = Takes::number(Quantity::Plain, (Included(0.0), Included(1e12)));

/// What a scenario may hold in `options`.
pub(crate) const OPTIONS: Takes<List<Nested<OfOption>>> =
    Takes::list(&Takes::object(), 0, MOST_OPTIONS);

/// What a change does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Operation {
    Add,
    Remove,
    Replace,
    Move,
    Copy,
    Test,
}

words! {
    Operation {
        Add = "add": "Puts `value` there; in a list, before what is there (\"-\": at the end).",
        Remove = "remove": "Takes away what is there.",
        Replace = "replace": "Puts `value` in the place of what is there.",
        Move = "move": "Takes what is at `from` there.",
        Copy = "copy": "Puts what is at `from` there too.",
        Test = "test": "The option is wrong unless `value` is there.",
    }
}

object! {
    pub(crate) static OPTION: OfOption {
        what: "an option",
        def: "option",
        doc: "The same scenario with something changed, for `bucketline compare`; other commands leave it aside.",
        page: "The same plan with something changed, to be compared; other questions leave it aside.",
        rows: {
            NAME: Text = required("name", Takes::text(Plan::LIMITS.name_length), "What it is called."),
            COST: Option<f64> = optional(
                "cost",
                COST,
                "its cost is not known.",
                "What it costs beyond the scenario as it stands, in any money, the same for all options.",
            ),
            CHANGES: List<Nested<OfChange>> = required(
                "changes",
                Takes::list(&Takes::object(), 1, MOST_CHANGES),
                "JSON Patch (RFC 6902), with paths by name as well: what to change in the file as it is written, one after the other.",
            ); page "What to change, one after the other.",
        },
        rules: &[],
        strays: &[("change", "`changes` is a list of changes"), ("patch", "write `changes`")],
    }
}

object! {
    pub(crate) static CHANGE: OfChange {
        what: "a change",
        def: "change",
        doc: "One operation of JSON Patch.",
        page: "One change.",
        rows: {
            OP: Chosen<Operation> = required("op", Takes::choice(), "What is done."),
            PATH: Text = required(
                "path",
                Takes::text(LONGEST_PATH),
                "Where, by name: \"tankers/Tanker 5/capacity\", \"drop_tanks/drop tank of Tanker 5/capacity\"; or as a JSON Pointer (RFC 6901): \"/drop_tanks/0/capacity\", lists counted from 0.",
            ); page "Where, by name, with a stroke between: \"Tanker 5/capacity\".",
            FROM: Option<Text> = optional(
                "from",
                Takes::text(LONGEST_PATH),
                "only move and copy need it.",
                "Where from, by name or as a JSON Pointer.",
            ); page "Where from, by name.",
            VALUE: Option<Anything> = optional(
                "value",
                Takes::anything(),
                "only add, replace and test need it.",
                "Whatever is to stand there.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
