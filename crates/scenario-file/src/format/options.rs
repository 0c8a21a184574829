//! What could be changed in a scenario, written as JSON Patch (RFC 6902).

use std::ops::Bound::Included;

use shuttle_sim::Plan;

use super::description::{Field, Kind, Object};
use crate::quantities::quantity::Quantity;

/// Most options in one file.
const MOST_OPTIONS: usize = 50;
/// Most changes in one option.
const MOST_CHANGES: usize = 100;
/// The longest path of a change, characters.
const LONGEST_PATH: usize = 1_000;
/// Costs, in any currency; a generous limit.
const COST: Kind = Kind::Number(Quantity::Plain, (Included(0.0), Included(1e12)));

/// What a scenario may hold in `options`.
pub(crate) const OPTIONS: Kind = Kind::List(&Kind::Shapes(&[&OPTION]), 0, MOST_OPTIONS);

static OPTION: Object = Object {
    what: "an option",
    def: "option",
    doc: "The same scenario with something changed, for `bucketline compare`; other commands leave it aside.",
    fields: &[
        Field::required("name", Kind::Text(Plan::LIMITS.name_length), "What it is called."),
        Field::optional(
            "cost",
            COST,
            "Silent: its cost is not known.",
            "What it costs beyond the scenario as it stands, in any money, the same for all options.",
        ),
        Field::required(
            "changes",
            Kind::List(&Kind::Shapes(&[&CHANGE]), 1, MOST_CHANGES),
            "JSON Patch (RFC 6902), with paths by name as well: what to change in the file as it is written, one after the other.",
        ),
    ],
    rules: &[],
    strays: &[("change", "`changes` is a list of changes"), ("patch", "write `changes`")],
};

static CHANGE: Object = Object {
    what: "a change",
    def: "change",
    doc: "One operation of JSON Patch.",
    fields: &[
        Field::required(
            "op",
            Kind::Choice(&[
                ("add", "Puts `value` there; in a list, before what is there (\"-\": at the end)."),
                ("remove", "Takes away what is there."),
                ("replace", "Puts `value` in the place of what is there."),
                ("move", "Takes what is at `from` there."),
                ("copy", "Puts what is at `from` there too."),
                ("test", "The option is wrong unless `value` is there."),
            ]),
            "What is done.",
        ),
        Field::required(
            "path",
            Kind::Text(LONGEST_PATH),
            "Where, by name: \"tankers/Tanker 5/capacity\", \"drop_tanks/drop tank of Tanker 5/capacity\"; or as a JSON Pointer (RFC 6901): \"/drop_tanks/0/capacity\", lists counted from 0.",
        ),
        Field::optional(
            "from",
            Kind::Text(LONGEST_PATH),
            "Silent: only move and copy need it.",
            "Where from, by name or as a JSON Pointer.",
        ),
        Field::optional(
            "value",
            Kind::Anything,
            "Silent: only add, replace and test need it.",
            "Whatever is to stand there.",
        ),
    ],
    rules: &[],
    strays: &[],
};
