//! What moves the water: drop tanks, tankers and their handling, fill sites.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use super::description::{Field, Kind, Object, Rule, Silence};
use super::durations::{CV, DURATION, MINUTES};
use super::flow_facts::FILL_FLOW;
use super::grading::{AID, SITE_SURVEY};
use super::roads::LEG;
use super::rough_values::{CAPACITY_OR_ROUGH, FLOW_OR_ROUGH, RATE_OR_ROUGH, SHARE, SHARE_OR_ROUGH};
use super::shared_fields::{
    CAPACITY, CHANCE, COUNT, FAILURE, LEVEL, NAME, RATE, REQUESTED_AT, RESPONSE, TURNOUT,
};
use crate::quantities::quantity::{Bounds, Quantity};

/// Sides of a drop tank, ft. Judgement.
const TANK_SIDE: Bounds = (Excluded(0.0), Included(100.0));
/// Depth of a drop tank, ft. Judgement.
const TANK_DEPTH: Bounds = (Excluded(0.0), Included(10.0));
/// Slope of the ground, as a share.
const SLOPE: Bounds = (Included(0.0), Included(0.5));
/// Water over a strainer, in. Judgement.
const STRAINER: Bounds = (Included(0.0), Included(120.0));
/// A place along a drop tank, ft.
const ALONG: Bounds = (Included(0.0), Included(100.0));
/// Sides of a pond, ft. Judgement: about two miles.
const POND_SIDE: Bounds = (Excluded(0.0), Included(10_000.0));
/// Depth of a pond, ft. Judgement.
const POND_DEPTH: Bounds = (Excluded(0.0), Included(300.0));

pub(crate) static DROP_TANK: Object = Object {
    what: "a drop tank",
    def: "drop_tank",
    doc: "A portable tank at the dump site.",
    fields: &[
        Field::required(
            "capacity",
            Kind::Any(&[CAPACITY, Kind::Shapes(&[&TANK_SIZE])]),
            "What it holds as it stands, less on a slope; or its size and the slope.",
        ),
        Field::assumed(
            "unusable",
            LEVEL,
            0.0,
            "125 gal to 375 gal is usual in a common drop tank (value from memory)",
            "Water below the strainer's reach; with `capacity` given by its size, silence takes what follows from that.",
        ),
        Field::optional(
            "brought_by",
            NAME,
            "Silent: it comes by its own vehicle, with `response`.",
            "The unit that brings it; of a group by the full name, such as \"Aid tanker 1\".",
        ),
        REQUESTED_AT,
        Field { silence: Silence::Says("Silent: a unit brings it, by `brought_by`."), ..RESPONSE },
        TURNOUT,
        Field::assumed(
            "setup",
            DURATION,
            0.0,
            "3 to 5 min with suction and prime is usual",
            "Setting it up, once it is there.",
        ),
        Field::number("dump_positions", COUNT, 1.0, "Tankers that can dump into it at once."),
        Field::assumed(
            "transfer",
            RATE_OR_ROUGH,
            500.0,
            "500 gpm to 1,000 gpm for each jet siphon is usual (value from memory)",
            "What it passes to the first drop tank; without meaning on the first.",
        ),
    ],
    rules: &[
        Rule::ExactlyOne(
            &["brought_by", "response"],
            "name the unit that brings it in `brought_by`, or give its own `response`",
        ),
        Rule::OnlyWith(
            "requested_at",
            "response",
            "it comes with the unit that brings it: leave `requested_at` out",
        ),
        Rule::OnlyWith(
            "turnout",
            "response",
            "it comes if the unit that brings it does: put `turnout` there",
        ),
    ],
    strays: &[
        ("dump_rate", "put it into the tanker"),
        ("name", "a drop tank has no name: its place in the list counts"),
    ],
};

/// A drop tank by its size.
pub(crate) static TANK_SIZE: Object = Object {
    what: "the size of a drop tank",
    def: "tank_size",
    doc: "A rectangular drop tank as it stands: what it holds, and what its strainer cannot reach.",
    fields: &[
        Field::required(
            "length",
            Kind::Number(Quantity::Length, TANK_SIDE),
            "Inside length, in the direction of the slope.",
        ),
        Field::required(
            "width",
            Kind::Number(Quantity::Length, TANK_SIDE),
            "Inside width, across the slope.",
        ),
        Field::required(
            "depth",
            Kind::Number(Quantity::Length, TANK_DEPTH),
            "From the floor to the rim.",
        ),
        Field::number(
            "slope",
            Kind::Number(Quantity::Share, SLOPE),
            0.0,
            "Slope of the ground, as \"3%\" or 0.03.",
        ),
        Field::number(
            "strainer_depth",
            Kind::Number(Quantity::Diameter, STRAINER),
            6.0,
            "Depth of water at which the strainer takes air: 4 to 6 in at 500 to 1,000 gpm (value from memory).",
        ),
        Field::number(
            "strainer_from_low_side",
            Kind::Number(Quantity::Length, ALONG),
            0.0,
            "From the lower side to the strainer; 0 is best.",
        ),
    ],
    rules: &[],
    strays: &[],
};

/// What is told where an engine is put among those that haul.
const NO_ENGINE: &str = "that is an engine's: only those that haul stand here and in `aid`, with their tank as `capacity`; leave an engine out, its pump and crew are not counted as hauled water";

/// The alarms of a run card, the first struck with the alarm itself. Common practice: greater alarms are numbered.
pub(crate) const ALARM: Kind = Kind::Choice(&[
    ("first", "With the alarm."),
    ("second", "At the minute `alarms.second`."),
    ("third", "At the minute `alarms.third`."),
    ("fourth", "At the minute `alarms.fourth`."),
    ("fifth", "At the minute `alarms.fifth`."),
]);

/// When greater alarms are struck.
pub(crate) static ALARMS: Object = Object {
    what: "the alarms",
    def: "alarms",
    doc: "When the greater alarms can be struck at the earliest, minutes after the alarm; the first is the alarm itself.",
    fields: &[
        Field::optional("second", MINUTES, "Silent: there is none.", "The second alarm."),
        Field::optional("third", MINUTES, "Silent: there is none.", "The third alarm."),
        Field::optional("fourth", MINUTES, "Silent: there is none.", "The fourth alarm."),
        Field::optional("fifth", MINUTES, "Silent: there is none.", "The fifth alarm."),
    ],
    rules: &[],
    strays: &[("first", "the first alarm is the alarm itself, minute 0: leave it out")],
};

pub(crate) static TANKER: Object = Object {
    what: "a tanker",
    def: "tanker",
    doc: "A tanker, or with `count` a group of equal ones.",
    fields: &[
        Field::optional(
            "name",
            NAME,
            "Silent: \"Tanker\" and its place in the list.",
            "Its name, unlike any other unit's.",
        ),
        Field::optional(
            "count",
            COUNT,
            "Silent: one tanker.",
            "How many there are of it, named with 1, 2 and so on after the name.",
        ),
        Field::optional(
            "department",
            NAME,
            "Silent: not said.",
            "The department that sends it, for the dispatch card of `bucketline request`.",
        ),
        Field::optional(
            "comes_whole",
            Kind::Switch,
            "Silent: false.",
            "Whether its department comes whole or not at all when `bucketline request` asks: this tanker and every other of that department that could be asked for; one that says so is enough.",
        ),
        Field::optional(
            "alarm",
            ALARM,
            "Silent: it is called by itself.",
            "The alarm it is on: it is asked for at the minute of that alarm in `alarms`, and `bucketline request` strikes an alarm with all its tankers or not at all.",
        ),
        Field::required("capacity", CAPACITY_OR_ROUGH, "Its tank."),
        REQUESTED_AT,
        RESPONSE,
        Field::number(
            "dump_rate",
            RATE_OR_ROUGH,
            1_000.0,
            "Rate at which its load moves into a drop tank, on average.",
        ),
        Field::word(
            "dump_curve",
            Kind::Choice(&[
                ("steady", "The dump rate throughout."),
                (
                    "gravity",
                    "The flow falls with what is left; the dump rate is the average over the first 90%, as the apparatus standard states it.",
                ),
            ]),
            "steady",
            "How the flow behaves while it dumps.",
        ),
        Field::number(
            "pump_off",
            RATE_OR_ROUGH,
            500.0,
            "Rate at which its load moves into the attack engine when it nurses.",
        ),
        Field::optional(
            "fill_limit",
            RATE_OR_ROUGH,
            "Silent: 1,000 gpm (NFPA 1901/1903), or the rating of the fill site's pump where that is more.",
            "The greatest rate at which it takes water.",
        ),
        Field::number(
            "waste",
            SHARE_OR_ROUGH,
            0.10,
            "Share of the load that is spilled or not filled (NFPA 1142 allows 10%).",
        ),
        Field::number("residual", SHARE, 0.0, "Share of its capacity that never leaves it."),
        Field::number(
            "breakdown_per_trip",
            CHANCE,
            0.0,
            "Chance that it breaks down after a trip.",
        ),
        Field::optional(
            "repair",
            DURATION,
            "Silent: a breakdown takes it out for good.",
            "How long a breakdown keeps it out.",
        ),
        Field::optional(
            "fill_site",
            NAME,
            "Silent: it goes where it should be back first.",
            "The fill site it is assigned to, by name.",
        ),
        Field::nothing(
            "handling",
            Kind::Shapes(&[&HANDLING]),
            "Its own handling times, which win over the common ones key by key.",
        ),
        TURNOUT,
        Field::optional(
            "aid",
            AID,
            "Silent: \"own\"; in the list `aid`, \"mutual\".",
            "Whose it is, for `grade`; the simulation does not use it.",
        ),
        Field::optional(
            "vacuum",
            Kind::Switch,
            "Silent: false.",
            "Whether its tank is sealed and fills and empties by vacuum, for `grade`: some grading rules then take no 10% off. What it loses in the simulation is `waste`.",
        ),
        Field::number(
            "crew_cv",
            CV,
            0.0,
            "How much its crew's fires differ: coefficient of variation of one more factor on its own handling times, drawn once a fire.",
        ),
        Field::number(
            "drive_factor",
            Kind::Number(Quantity::Plain, Plan::LIMITS.drive_factor),
            1.0,
            "How long it drives to and from the fill sites, beside the times of the roads: 1.2 takes a fifth longer.",
        ),
        Field::optional(
            "self_fill",
            RATE,
            "Silent: it is filled by what stands at the fill site.",
            "Rate at which it fills itself by vacuum with its own hose, at fill sites that say `self_fill`: without their pump, and beside what that gives.",
        ),
    ],
    rules: &[
        Rule::OnlyWith(
            "self_fill",
            "vacuum",
            "add \"vacuum\": true, for only a sealed tank fills itself, or leave `self_fill` out",
        ),
        Rule::OnlyWith(
            "comes_whole",
            "department",
            "add `department`, by which those that come together are known",
        ),
    ],
    strays: &[
        ("tank", NO_ENGINE),
        ("pump", NO_ENGINE),
        ("water_on", NO_ENGINE),
        ("intakes", NO_ENGINE),
        ("tank_refill", NO_ENGINE),
    ],
};

pub(crate) static HANDLING: Object = Object {
    what: "the handling",
    def: "handling",
    doc: "Minutes taken by each piece of handling.",
    fields: &[
        Field::assumed(
            "nurse_connect",
            DURATION,
            0.0,
            "0.5 to 1 min",
            "Connecting to the attack engine.",
        ),
        Field::assumed("nurse_disconnect", DURATION, 0.0, "0.5 min", "Breaking that connection."),
        Field::assumed(
            "dump_position",
            DURATION,
            0.0,
            "0.5 to 1 min",
            "Getting into place at the drop tank.",
        ),
        Field::assumed(
            "dump_clear",
            DURATION,
            0.0,
            "0.2 to 0.5 min",
            "Pulling clear of the drop tank.",
        ),
        Field::assumed(
            "fill_connect",
            DURATION,
            0.0,
            "1 to 1.5 min with manoeuvring",
            "Getting into place and connecting at the fill site.",
        ),
        Field::assumed(
            "fill_disconnect",
            DURATION,
            0.0,
            "0.5 min",
            "Disconnecting at the fill site.",
        ),
    ],
    rules: &[],
    strays: &[("dump_rate", "put it into the tanker"), ("reprime", "put it into `supply`")],
};

pub(crate) static FILL_SITE: Object = Object {
    what: "a fill site",
    def: "fill_site",
    doc: "A hydrant, dry hydrant, or pond with a drafting engine.",
    fields: &[
        Field::optional(
            "name",
            NAME,
            "Silent: \"Fill site\" and its place in the list.",
            "Its name, unlike any other fill site's.",
        ),
        Field::required(
            "flow",
            FILL_FLOW,
            "Flow for all tankers filling at once: stated, or by a hydrant test or a pump at draft.",
        ),
        Field::number("positions", COUNT, 1.0, "Tankers that can be hooked up at once."),
        Field::number("ready", DURATION, 0.0, "When it can serve, minutes after the alarm."),
        Field::word(
            "fill_order",
            Kind::Choice(&[
                ("one-by-one", "Whoever began first takes all it can (connect two, load one)."),
                ("shared", "Tankers that fill at once share the flow fairly."),
            ]),
            "one-by-one",
            "How tankers that fill at once share the flow.",
        ),
        Field::optional(
            "volume",
            Kind::Any(&[
                Kind::Number(Quantity::Volume, Plan::LIMITS.site_volume),
                Kind::Null,
                Kind::Shapes(&[&POND_SIZE]),
            ]),
            "Silent or null: water without end.",
            "Water to be had from it, or the size of the pond.",
        ),
        Field::number("recharge", FLOW_OR_ROUGH, 0.0, "What runs into a limited volume."),
        Field::optional(
            "failure",
            Kind::Shapes(&[&FAILURE]),
            "Silent: it does not fail.",
            "Whether it may fail (a pump, a main, the access): it gives nothing until it is repaired.",
        ),
        Field::optional(
            "source_pump",
            Kind::Shapes(&[&SOURCE_PUMP]),
            "Silent: what gives the water is there, from `ready` on.",
            "The engine that comes to pump there, or a portable pump that someone brings: until it is set up the site serves nobody.",
        ),
        Field::optional(
            "self_fill",
            Kind::Switch,
            "Silent: false.",
            "Whether a tanker that fills itself by vacuum can reach the water with its own hose: a bank to back up to, no deep lift.",
        ),
        Field::nothing(
            "survey",
            Kind::Shapes(&[&SITE_SURVEY]),
            "What a grading asks of it, for `grade`; the simulation does not use it.",
        ),
        Field::required("out", LEG, "The road from the scene."),
        Field::required("back", LEG, "The road to the scene."),
    ],
    rules: &[Rule::NeverWith(
        "ready",
        "source_pump",
        "leave `ready` out: with `source_pump` the site is ready once that has come and is set up",
    )],
    strays: &[],
};

/// The pump that someone brings to a fill site.
pub(crate) static SOURCE_PUMP: Object = Object {
    what: "the pump at a source",
    def: "source_pump",
    doc: "An engine that drives to the source to pump there, or a portable pump that a unit brings.",
    fields: &[
        Field::optional(
            "name",
            NAME,
            "Silent: \"Pump at \" and the name of the fill site.",
            "Its name, unlike any unit's.",
        ),
        Field::optional(
            "brought_by",
            NAME,
            "Silent: it comes by its own vehicle, with `response`.",
            "The unit that brings it; of a group by the full name, such as \"Aid tanker 1\". It counts from when that reaches the scene: the way on to the source is part of `setup`.",
        ),
        REQUESTED_AT,
        Field {
            doc: "From the request to arrival at the source, not at the scene.",
            silence: Silence::Says("Silent: a unit brings it, by `brought_by`."),
            ..RESPONSE
        },
        TURNOUT,
        Field::assumed(
            "setup",
            DURATION,
            0.0,
            "3 to 8 min is usual",
            "Setting it up until it can fill a tanker, once it is there.",
        ),
    ],
    rules: &[
        Rule::ExactlyOne(
            &["brought_by", "response"],
            "name the unit that brings it in `brought_by`, or give its own `response`",
        ),
        Rule::OnlyWith(
            "requested_at",
            "response",
            "it comes with the unit that brings it: leave `requested_at` out",
        ),
        Rule::OnlyWith(
            "turnout",
            "response",
            "it comes if the unit that brings it does: put `turnout` there",
        ),
    ],
    strays: &[],
};

/// A pond by its size.
pub(crate) static POND_SIZE: Object = Object {
    what: "the size of a pond",
    def: "pond_size",
    doc: "A pond in the state it is to be counted in (drought, ice): what can be drawn from it.",
    fields: &[
        Field::required("length", Kind::Number(Quantity::Length, POND_SIDE), "Mean length."),
        Field::required("width", Kind::Number(Quantity::Length, POND_SIDE), "Mean width."),
        Field::required(
            "mean_depth",
            Kind::Number(Quantity::Length, POND_DEPTH),
            "Mean depth of all of it.",
        ),
        Field::required(
            "usable_depth",
            Kind::Number(Quantity::Length, POND_DEPTH),
            "Depth that can be drawn down before the strainer takes air or mud; no ice in it.",
        ),
    ],
    rules: &[],
    strays: &[],
};
