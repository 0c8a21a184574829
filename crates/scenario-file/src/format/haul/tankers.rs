//! Tankers, their alarms and their handling.

use shuttle_sim::Plan;

use crate::format::beside::grading::AID;
use crate::format::description::{Field, Kind, Object, Rule};
use crate::format::shared_fields::{CHANCE, COUNT, NAME, RATE, REQUESTED_AT, RESPONSE, TURNOUT};
use crate::format::values::durations::{CV, DURATION, MINUTES};
use crate::format::values::rough_values::{
    CAPACITY_OR_ROUGH, RATE_OR_ROUGH, SHARE, SHARE_OR_ROUGH,
};
use crate::quantities::quantity::Quantity;

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
