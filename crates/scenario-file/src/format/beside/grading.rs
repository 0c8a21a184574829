//! What a grading asks for and the simulation has no use for: distances, papers, tests, drills, people, rules of
//! one's own, addresses.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use crate::format::description::{Field, Kind, Object, Rule};
use crate::format::haul::roads::SPEED;
use crate::format::shared_fields::{FLOW, NAME, RATE};
use crate::format::values::durations::{CV, MINUTES};
use crate::quantities::quantity::{Bounds, Quantity};

/// A distance on the ground, ft. Judgement: about ten miles.
const LENGTH: Bounds = (Included(0.0), Included(50_000.0));
/// People. Judgement.
const PEOPLE: Bounds = (Included(0.0), Included(10_000.0));
/// Hours in a year.
const HOURS: Bounds = (Included(0.0), Included(8_784.0));
/// Points of a grading: there are about a hundred in all.
const POINTS: Bounds = (Included(0.0), Included(110.0));
/// Years. Judgement.
const YEARS: Bounds = (Included(0.0), Included(100.0));
const SHARE: Bounds = (Included(0.0), Included(1.0));
/// How long a rule asks a flow for, minutes: up to a day.
const RULE_MINUTES: Bounds = (Excluded(0.0), Included(1_440.0));
/// Rules of one's own. Judgement.
const MOST_RULES: usize = 20;
/// Drills listed. Judgement.
const MOST_DRILLS: usize = 200;
/// Addresses in one file, with those of a table beside it. Judgement: a fire district; so many are graded in minutes.
pub const MOST_ADDRESSES: usize = 5_000;

const MILES: Kind = Kind::Number(Quantity::Miles, Plan::LIMITS.miles);
const KM: Kind = Kind::Number(Quantity::Kilometres, Plan::LIMITS.miles);
const NOT_STATED: &str = "Silent: not known; a blank on the sheet.";
const OPEN: &str = "Silent: not known; what a rule asks of it stays open.";

const fn text(key: &'static str, doc: &'static str) -> Field {
    Field::optional(key, NAME, NOT_STATED, doc)
}

const STATION_MILES: Field = Field::optional(
    "station_miles",
    MILES,
    OPEN,
    "Road from the fire to the nearest station; a rule may ask for 5 road miles or less.",
);
const STATION_KM: Field =
    Field::optional("station_km", KM, OPEN, "The same in km, in any file; state one of the two.");
const ONE_STATION: Rule =
    Rule::NeverWith("station_km", "station_miles", "state the distance once, in miles or in km");
const SUCTION_POINT: Field = Field::optional(
    "suction_point",
    Kind::Number(Quantity::Length, LENGTH),
    OPEN,
    "From the fire to the nearest creditable suction point; a rule may ask for 1,000 ft or less.",
);

pub(crate) static GRADING: Object = Object {
    what: "what a grading asks for",
    def: "grading",
    doc: "What a grading asks for, for `grade`; the simulation does not use it. What is silent stays open and is a blank on the evidence sheet.",
    fields: &[
        STATION_MILES,
        STATION_KM,
        SUCTION_POINT,
        Field::optional(
            "large_hose_shown",
            Kind::Switch,
            OPEN,
            "Whether a procedure is shown by which large hose reaches a suction point farther away.",
        ),
        Field::optional(
            "first_engine_pump",
            RATE,
            OPEN,
            "Rating of the first engine's pump at 150 psi.",
        ),
        Field::optional(
            "drafting_pump",
            RATE,
            "Silent: `rated` of `supply.pump`, if that is stated.",
            "Rating of the pump that drafts at the fire.",
        ),
        Field::optional(
            "firefighters",
            Kind::Number(Quantity::Plain, PEOPLE),
            OPEN,
            "Firefighters who respond to a structure fire, on average.",
        ),
        Field::optional(
            "people_on_water",
            Kind::Number(Quantity::Plain, PEOPLE),
            NOT_STATED,
            "People on the apparatus that hauls water: they are not counted among the firefighters.",
        ),
        Field::optional(
            "training_hours",
            Kind::Number(Quantity::Plain, HOURS),
            OPEN,
            "Structural training of each in a year, hours.",
        ),
        Field::optional(
            "buildings_in_reach",
            Kind::Number(Quantity::Share, SHARE),
            OPEN,
            "Share of the buildings that are in reach, as \"90%\" or 0.9.",
        ),
        Field::optional(
            "credit",
            Kind::Number(Quantity::Share, SHARE),
            OPEN,
            "Share of all credit that was earned when last graded.",
        ),
        Field::optional(
            "alarm_credit",
            Kind::Number(Quantity::Plain, POINTS),
            OPEN,
            "Points earned for receiving and handling alarms.",
        ),
        Field::optional(
            "water_shown",
            MINUTES,
            OPEN,
            "From the brake set to a drop tank deployed and water shown, as timed.",
        ),
        Field::optional(
            "renewed_years",
            Kind::Number(Quantity::Plain, YEARS),
            OPEN,
            "Years since the accreditation was last renewed.",
        ),
        Field::optional(
            "edition",
            NAME,
            "Silent: ask the grading body which edition.",
            "The edition the grading body works by.",
        ),
        text(
            "procedures",
            "Written procedures for piped and for hauled areas: where they are, of when.",
        ),
        text("agreements", "Agreements for automatic and mutual aid: with whom, of when."),
        text("joint_training", "Training held together with those who come on automatic aid."),
        text("alarm_handling", "How outside apparatus is alarmed."),
        text("communications", "How outside apparatus talks on the fireground."),
        Field::nothing(
            "drills",
            Kind::List(&Kind::Shapes(&[&DRILL]), 0, MOST_DRILLS),
            "Drills that were held.",
        ),
        Field::nothing(
            "rules",
            Kind::List(&Kind::Shapes(&[&RULE]), 0, MOST_RULES),
            "Rules of one's own, beside those that `grade` knows.",
        ),
    ],
    rules: &[ONE_STATION],
    strays: &[
        ("addresses", "put it beside `grading`, not into it"),
        ("all_year", "put it into `survey` of the fill site"),
        (
            "witness",
            "a drill's goes into its entry of `drills`; a flow test's is `flow_test_witness` in `survey` of the fill site",
        ),
    ],
};

static DRILL: Object = Object {
    what: "a drill",
    def: "drill",
    doc: "A drill that was held.",
    fields: &[
        Field::required("date", NAME, "The day it was held."),
        Field::optional("flow", FLOW, NOT_STATED, "The flow that was held."),
        Field::optional("minutes", MINUTES, NOT_STATED, "For how long."),
        Field::optional(
            "water_shown",
            MINUTES,
            NOT_STATED,
            "From the brake set to water shown from the drop tank.",
        ),
        Field::optional("source_miles", MILES, NOT_STATED, "Road to the source, one way."),
        Field::optional("source_km", KM, NOT_STATED, "The same in km; state one of the two."),
        text("witness", "Who saw it."),
    ],
    rules: &[Rule::NeverWith(
        "source_km",
        "source_miles",
        "state the distance once, in miles or in km",
    )],
    strays: &[],
};

static RULE: Object = Object {
    what: "a rule",
    def: "grading_rule",
    doc: "A rule of one's own. Times count from the arrival of the first engine.",
    fields: &[
        Field::required("name", NAME, "Its name; `grade --rule` takes it."),
        Field::required("flow", RATE, "The flow without which there is no credit."),
        Field::required(
            "minutes",
            Kind::Number(Quantity::Time, RULE_MINUTES),
            "How long it must be kept without a break.",
        ),
        Field::number("start_within", MINUTES, 5.0, "From this minute on it must flow."),
        Field::optional(
            "higher_within",
            MINUTES,
            "Silent: only the flow asked for counts.",
            "A higher flow reached by this minute is credited.",
        ),
        Field::optional(
            "own_apparatus",
            Kind::Switch,
            "Silent: automatic aid counts too.",
            "Whether only the department's own apparatus counts.",
        ),
        Field::optional(
            "sealed_counts_whole",
            Kind::Switch,
            "Silent: 10% is taken off every tank.",
            "Whether a sealed vacuum tank is counted without 10% off.",
        ),
        Field::optional(
            "station_within_miles",
            MILES,
            "Silent: no such limit.",
            "The farthest the station may be from the fire, by road.",
        ),
        Field::optional(
            "source_within_miles",
            MILES,
            "Silent: no such limit.",
            "The farthest a source may be from the fire, by road.",
        ),
        Field::optional(
            "suction_point_within",
            Kind::Number(Quantity::Length, LENGTH),
            "Silent: no such limit.",
            "The farthest the fire may be from a suction point.",
        ),
        Field::optional(
            "all_year",
            Kind::Switch,
            "Silent: not asked for.",
            "Whether sources must be there all year and in a 50-year drought.",
        ),
        Field::optional(
            "first_engine_pump",
            RATE,
            "Silent: not asked for.",
            "The pump the first engine needs.",
        ),
        Field::optional("source", NAME, "Silent: the scenario itself.", "Where the rule stands."),
        Field::optional(
            "edition",
            NAME,
            "Silent: ask the grading body which edition.",
            "Its edition.",
        ),
    ],
    rules: &[],
    strays: &[("duration", "write `minutes`"), ("within", "write `start_within`")],
};

pub(crate) static SITE_SURVEY: Object = Object {
    what: "what is known of a source",
    def: "site_survey",
    doc: "What a grading asks of a source, for `grade`; the simulation does not use it.",
    fields: &[
        Field::optional(
            "all_year",
            Kind::Switch,
            OPEN,
            "Whether it is there all year, day and night, and in a 50-year drought.",
        ),
        text("drought_certificate", "Who certifies that, and of when."),
        text("flow_test", "When its flow was tested."),
        text("flow_test_witness", "Who saw the test."),
        text("inspected", "When access, pipe or hydrant was last inspected."),
        text("agreement", "The owner's agreement: with whom, of when."),
        Field::optional(
            "main_lasts_hours",
            Kind::Number(Quantity::Plain, HOURS),
            NOT_STATED,
            "How long the main gives its flow, hours; of a hydrant. The simulation counts it without end.",
        ),
        Field::optional(
            "pump_to_water",
            Kind::Number(Quantity::Length, LENGTH),
            NOT_STATED,
            "From the pump that fills to the water.",
        ),
    ],
    rules: &[],
    strays: &[("witness", "write `flow_test_witness`")],
};

pub(crate) static ADDRESS: Object = Object {
    what: "an address",
    def: "address",
    doc: "A place to be graded with the units and fill sites of this scenario, by the roads from there.",
    fields: &[
        Field::required("name", NAME, "Its name, unlike any other address's."),
        STATION_MILES,
        STATION_KM,
        SUCTION_POINT,
        Field::required(
            "roads",
            Kind::List(
                &Kind::Shapes(&[&ROAD_MILES, &ROAD_KM, &ROAD_MINUTES]),
                0,
                Plan::LIMITS.places,
            ),
            "The road to each fill site that serves it, taken to be the same both ways; a site that is left out does not. A site that only one of the `options` adds may stand here too.",
        ),
    ],
    rules: &[ONE_STATION],
    strays: &[],
};

const TO: Field = Field::required("to", NAME, "The fill site, by name.");
const ROAD_CV: Field = Field::optional(
    "cv",
    CV,
    "Silent: every drive takes the same time.",
    "Coefficient of variation of the driving time.",
);

static ROAD_MILES: Object = Object {
    what: "a road in miles",
    def: "road_miles",
    doc: "The road from an address to a fill site, in miles.",
    fields: &[
        TO,
        Field::required("miles", MILES, "Road distance one way."),
        Field::optional(
            "mph",
            Kind::Number(Quantity::MilesPerHour, SPEED),
            "Silent: the rule 0.65 + 1.70 x miles minutes.",
            "Average speed from start to stop.",
        ),
        ROAD_CV,
    ],
    rules: &[],
    strays: &[("kmh", "write `mph`, or give the distance in `km`")],
};

static ROAD_KM: Object = Object {
    what: "a road in km",
    def: "road_km",
    doc: "The road from an address to a fill site, in km; in any file.",
    fields: &[
        TO,
        Field::required("km", KM, "Road distance one way."),
        Field::optional(
            "kmh",
            Kind::Number(Quantity::KilometresPerHour, SPEED),
            "Silent: the rule 0.65 + 1.70 x miles minutes.",
            "Average speed from start to stop.",
        ),
        ROAD_CV,
    ],
    rules: &[],
    strays: &[("mph", "write `kmh`, or give the distance in `miles`")],
};

static ROAD_MINUTES: Object = Object {
    what: "a road in minutes",
    def: "road_minutes",
    doc: "The road from an address to a fill site, by the time it takes.",
    fields: &[TO, Field::required("minutes", MINUTES, "Driving time one way."), ROAD_CV],
    rules: &[],
    strays: &[],
};

/// The addresses of a scenario.
pub(crate) const ADDRESSES: Kind = Kind::List(&Kind::Shapes(&[&ADDRESS]), 0, MOST_ADDRESSES);

/// Whose a tanker is.
pub(crate) const AID: Kind = Kind::Choice(&[
    ("own", "The department's own."),
    ("automatic", "Sent by agreement with the first alarm."),
    ("mutual", "Comes when it is asked for."),
]);
