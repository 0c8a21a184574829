//! Tankers, their alarms and their handling.

use fireground::told::{Part as Worked, Unit};
use shuttle_report::survey::Aid;
use shuttle_sim::{DumpCurve, Plan};

use super::alarms::Alarm;
use crate::format::description::Rule;
use crate::format::shared_fields::{CHANCE, COUNT, NAME, RATE, REQUESTED_AT, RESPONSE, TURNOUT};
use crate::format::tables::{object, words};
use crate::format::takes::{Chosen, Duration, Nested, Rough, Takes, Text};
use crate::format::values::durations::{CV, DURATION};
use crate::format::values::rough_values::{
    CAPACITY_OR_ROUGH, RATE_OR_ROUGH, SHARE, SHARE_OR_ROUGH,
};
use crate::quantities::quantity::Quantity;

/// What is told where an engine is put among those that haul.
const NO_ENGINE: &str = "that is an engine's: only those that haul stand here and in `aid`, with their tank as `capacity`; leave an engine out, its pump and crew are not counted as hauled water";

words! {
    DumpCurve {
        Steady = "steady": "The dump rate throughout.",
        Gravity = "gravity":
            "The flow falls with what is left; the dump rate is the average over the first 90%, as the apparatus standard states it.",
    }
}

words! {
    Aid {
        Own = "own": "The department's own.",
        Automatic = "automatic": "Sent by agreement with the first alarm.",
        Mutual = "mutual": "Comes when it is asked for.",
    }
}

object! {
    pub(crate) static TANKER: OfTanker {
        what: "a {tanker}",
        def: "tanker",
        doc: "A {tanker}, or with `count` a group of equal ones.",
        rows: {
            NAME: Option<Text> = optional(
                "name",
                NAME,
                "\"Tanker\" and its place in the list.",
                "Its name, unlike any other unit's.",
            ),
            COUNT: Option<u32> = optional(
                "count",
                COUNT,
                "one {tanker}.",
                "How many there are of it, named with 1, 2 and so on after the name.",
            ),
            DEPARTMENT: Option<Text> = optional(
                "department",
                NAME,
                "not said.",
                "The department that sends it, for the dispatch card of `bucketline request`.",
            ); page "The department that sends it, for the dispatch card.",
            COMES_WHOLE: Option<bool> = optional(
                "comes_whole",
                Takes::switch(),
                "{false}.",
                "Whether its department comes whole or not at all: in every fire all of its {tankers} come or none, as often as the one that comes least, and `bucketline request` asks for all that could be asked for or none; one that says so is enough.",
            ); page "Whether its department comes whole or not at all: in every fire all of its {tankers} come or none, as often as the one that comes least, and all are asked for or none; one that says so is enough.",
            ALARM: Option<Chosen<Alarm>> = optional(
                "alarm",
                Takes::choice(),
                "it is called by itself.",
                "The alarm it is on: it is asked for at the minute of that alarm in `alarms`, and `bucketline request` strikes an alarm with all its {tankers} or not at all.",
            ); page "The alarm it is on: it is asked for at the minute of that alarm, and an alarm is struck with all its {tankers} or not at all.",
            CAPACITY: Rough = required("capacity", CAPACITY_OR_ROUGH, "Its tank."),
            REQUESTED_AT: f64 = REQUESTED_AT,
            RESPONSE: Duration = RESPONSE,
            DUMP_RATE: Rough = or(
                "dump_rate",
                RATE_OR_ROUGH,
                1_000.0,
                "Rate at which its load moves into a drop tank, on average.",
            ),
            DUMP_CURVE: Chosen<DumpCurve> = or(
                "dump_curve",
                &DumpCurve::Steady,
                "How the flow behaves while it dumps.",
            ),
            PUMP_OFF: Rough = or(
                "pump_off",
                RATE_OR_ROUGH,
                500.0,
                "Rate at which its load moves into the attack engine when it nurses.",
            ),
            FILL_LIMIT: Option<Rough> = optional(
                "fill_limit",
                RATE_OR_ROUGH,
                "{1000 gpm} (NFPA 1901/1903), or the rating of the fill site's pump where that is more.",
                "The greatest rate at which it takes water.",
            ),
            WASTE: Rough = or(
                "waste",
                SHARE_OR_ROUGH,
                0.10,
                "Share of the load that is spilled or not filled (NFPA 1142 allows 10%).",
            ),
            RESIDUAL: f64 = or("residual", SHARE, 0.0, "Share of its capacity that never leaves it."),
            BREAKDOWN_PER_TRIP: f64 = or(
                "breakdown_per_trip",
                CHANCE,
                0.0,
                "Chance that it breaks down after a trip.",
            ),
            REPAIR: Option<Duration> = optional(
                "repair",
                DURATION,
                "a breakdown takes it out for good.",
                "How long a breakdown keeps it out.",
            ),
            FILL_SITE: Option<Text> = optional(
                "fill_site",
                NAME,
                "it goes where it should be back first.",
                "The fill site it is assigned to, by name.",
            ),
            HANDLING: Nested<OfHandling> = nothing(
                "handling",
                "Its own handling times, which win over the common ones key by key.",
            ); page "Its own handling times, which win over the common ones one by one.",
            TURNOUT: f64 = TURNOUT,
            AID: Option<Chosen<Aid>> = optional(
                "aid",
                Takes::choice(),
                "\"own\"; in the list `aid`, \"mutual\".",
                "Whose it is, for `grade`; the simulation does not use it.",
            ); page "Whose it is, for a grading; the simulation does not use it.",
            VACUUM: Option<bool> = optional(
                "vacuum",
                Takes::switch(),
                "{false}.",
                "Whether its tank is sealed and fills and empties by vacuum, for `grade`: some grading rules then take no 10% off. What it loses in the simulation is `waste`.",
            ); page "Whether its tank is sealed and fills and empties by vacuum, for a grading: some rules then take no 10% off. What it loses in the simulation is its waste.",
            CREW_CV: f64 = or(
                "crew_cv",
                CV,
                0.0,
                "How much its crew's fires differ: coefficient of variation of one more factor on its own handling times, drawn once a fire.",
            ),
            DRIVE_FACTOR: f64 = or(
                "drive_factor",
                Takes::number(Quantity::Plain, Plan::LIMITS.drive_factor),
                1.0,
                "How long it drives to and from the fill sites, beside the times of the roads: 1.2 takes a fifth longer.",
            ),
            SELF_FILL: Option<f64> = optional(
                "self_fill",
                RATE,
                "it is filled by what stands at the fill site.",
                "Rate at which it fills itself by vacuum with its own hose, at fill sites that say `self_fill`: without their pump, and beside what that gives.",
            ),
        },
        rules: &[
            Rule::OnlyWith(
                OfTanker::SELF_FILL.key(),
                OfTanker::VACUUM.key(),
                "add \"vacuum\": true, for only a sealed tank fills itself, or leave `self_fill` out",
            ),
            Rule::OnlyWith(
                OfTanker::COMES_WHOLE.key(),
                OfTanker::DEPARTMENT.key(),
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
    }
}

object! {
    pub(crate) static HANDLING: OfHandling {
        what: "the handling",
        def: "handling",
        doc: "Minutes taken by each piece of handling.",
        rows: {
            NURSE_CONNECT: Duration = assumed(
                "nurse_connect",
                DURATION,
                0.0,
                &[Worked::Bare(0.5, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(1.0, Unit::Minutes, 1)],
                "Connecting to the attack engine.",
            ),
            NURSE_DISCONNECT: Duration = assumed(
                "nurse_disconnect",
                DURATION,
                0.0,
                &[Worked::Of(0.5, Unit::Minutes, 1)],
                "Breaking that connection.",
            ),
            DUMP_POSITION: Duration = assumed(
                "dump_position",
                DURATION,
                0.0,
                &[Worked::Bare(0.5, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(1.0, Unit::Minutes, 1)],
                "Getting into place at the drop tank.",
            ),
            DUMP_CLEAR: Duration = assumed(
                "dump_clear",
                DURATION,
                0.0,
                &[Worked::Bare(0.2, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(0.5, Unit::Minutes, 1)],
                "Pulling clear of the drop tank.",
            ),
            FILL_CONNECT: Duration = assumed(
                "fill_connect",
                DURATION,
                0.0,
                &[Worked::Bare(1.0, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(1.5, Unit::Minutes, 1), Worked::Words(" with manoeuvring")],
                "Getting into place and connecting at the fill site.",
            ),
            FILL_DISCONNECT: Duration = assumed(
                "fill_disconnect",
                DURATION,
                0.0,
                &[Worked::Of(0.5, Unit::Minutes, 1)],
                "Disconnecting at the fill site.",
            ),
        },
        rules: &[],
        strays: &[("dump_rate", "put it into the {tanker}"), ("reprime", "put it into `supply`")],
    }
}
