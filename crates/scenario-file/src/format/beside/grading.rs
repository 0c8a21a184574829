//! What a grading asks for and the simulation has no use for: distances, papers, tests, drills, people, rules of
//! one's own, addresses.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use crate::format::description::Rule;
use crate::format::rows::{Row, Shared};
use crate::format::shared_fields::{FLOW, NAME, RATE};
use crate::format::tables::object;
use crate::format::takes::{List, Nested, Takes, Text};
use crate::format::values::durations::MINUTES;
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

pub(crate) const MILES: Takes<f64> = Takes::number(Quantity::Miles, Plan::LIMITS.miles);
pub(crate) const KM: Takes<f64> = Takes::number(Quantity::Kilometres, Plan::LIMITS.miles);
const NOT_STATED: &str = "not known; a blank on the sheet.";
const OPEN: &str = "not known; what a rule asks of it stays open.";

pub(crate) const STATION_MILES: Row<Shared, Option<f64>> = Row::optional(
    "station_miles",
    MILES,
    OPEN,
    "Road from the fire to the nearest station; a rule may ask for 5 road miles or less.",
);
pub(crate) const STATION_KM: Row<Shared, Option<f64>> =
    Row::optional("station_km", KM, OPEN, "The same in km, in any file; state one of the two.");
pub(crate) const ONE_STATION: Rule = Rule::NeverWith(
    STATION_KM.key(),
    STATION_MILES.key(),
    "state the distance once, in miles or in km",
);
pub(crate) const SUCTION_POINT: Row<Shared, Option<f64>> = Row::optional(
    "suction_point",
    Takes::number(Quantity::Length, LENGTH),
    OPEN,
    "From the fire to the nearest creditable suction point; a rule may ask for 1,000 ft or less.",
);

object! {
    pub(crate) static GRADING: OfGrading {
        what: "what a grading asks for",
        def: "grading",
        doc: "What a grading asks for, for `grade`; the simulation does not use it. What is silent stays open and is a blank on the evidence sheet.",
        page: "What a grading asks for; the simulation does not use it. What is left empty stays open and is a blank on the evidence sheet.",
        rows: {
            STATION_MILES: Option<f64> = STATION_MILES,
            STATION_KM: Option<f64> = STATION_KM,
            SUCTION_POINT: Option<f64> = SUCTION_POINT,
            LARGE_HOSE_SHOWN: Option<bool> = optional(
                "large_hose_shown",
                Takes::switch(),
                OPEN,
                "Whether a procedure is shown by which large hose reaches a suction point farther away.",
            ),
            FIRST_ENGINE_PUMP: Option<f64> = optional(
                "first_engine_pump",
                RATE,
                OPEN,
                "Rating of the first engine's pump at 150 psi.",
            ),
            DRAFTING_PUMP: Option<f64> = optional(
                "drafting_pump",
                RATE,
                "`rated` of `supply.pump`, if that is stated.",
                "Rating of the pump that drafts at the fire.",
            ),
            FIREFIGHTERS: Option<f64> = optional(
                "firefighters",
                Takes::number(Quantity::Plain, PEOPLE),
                OPEN,
                "Firefighters who respond to a structure fire, on average.",
            ),
            PEOPLE_ON_WATER: Option<f64> = optional(
                "people_on_water",
                Takes::number(Quantity::Plain, PEOPLE),
                NOT_STATED,
                "People on the apparatus that hauls water: they are not counted among the firefighters.",
            ),
            TRAINING_HOURS: Option<f64> = optional(
                "training_hours",
                Takes::number(Quantity::Plain, HOURS),
                OPEN,
                "Structural training of each in a year, hours.",
            ),
            BUILDINGS_IN_REACH: Option<f64> = optional(
                "buildings_in_reach",
                Takes::number(Quantity::Share, SHARE),
                OPEN,
                "Share of the buildings that are in reach, as \"90%\" or 0.9.",
            ),
            CREDIT: Option<f64> = optional(
                "credit",
                Takes::number(Quantity::Share, SHARE),
                OPEN,
                "Share of all credit that was earned when last graded.",
            ),
            ALARM_CREDIT: Option<f64> = optional(
                "alarm_credit",
                Takes::number(Quantity::Plain, POINTS),
                OPEN,
                "Points earned for receiving and handling alarms.",
            ),
            WATER_SHOWN: Option<f64> = optional(
                "water_shown",
                MINUTES,
                OPEN,
                "From the brake set to a drop tank deployed and water shown, as timed.",
            ),
            RENEWED_YEARS: Option<f64> = optional(
                "renewed_years",
                Takes::number(Quantity::Plain, YEARS),
                OPEN,
                "Years since the accreditation was last renewed.",
            ),
            EDITION: Option<Text> = optional(
                "edition",
                NAME,
                "ask the grading body which edition.",
                "The edition the grading body works by.",
            ),
            PROCEDURES: Option<Text> = optional("procedures", NAME, NOT_STATED, "Written procedures for piped and for hauled areas: where they are, of when."),
            AGREEMENTS: Option<Text> = optional("agreements", NAME, NOT_STATED, "Agreements for automatic and mutual aid: with whom, of when."),
            JOINT_TRAINING: Option<Text> = optional("joint_training", NAME, NOT_STATED, "Training held together with those who come on automatic aid."),
            ALARM_HANDLING: Option<Text> = optional("alarm_handling", NAME, NOT_STATED, "How outside apparatus is alarmed."),
            COMMUNICATIONS: Option<Text> = optional("communications", NAME, NOT_STATED, "How outside apparatus talks on the fireground."),
            DRILLS: List<Nested<OfDrill>> = nothing(
                "drills",
                Takes::list(&Takes::object(), 0, MOST_DRILLS),
                "Drills that were held.",
            ),
            RULES: List<Nested<OfRule>> = nothing(
                "rules",
                Takes::list(&Takes::object(), 0, MOST_RULES),
                "Rules of one's own, beside those that `grade` knows.",
            ); page "Rules of one's own, beside those that are known.",
        },
        rules: &[ONE_STATION],
        strays: &[
            ("addresses", "put it beside `grading`, not into it"),
            ("all_year", "put it into `survey` of the fill site"),
            (
                "witness",
                "a drill's goes into its entry of `drills`; a flow test's is `flow_test_witness` in `survey` of the fill site",
            ),
        ],
    }
}

object! {
    pub(crate) static DRILL: OfDrill {
        what: "a drill",
        def: "drill",
        doc: "A drill that was held.",
        rows: {
            DATE: Text = required("date", NAME, "The day it was held."),
            FLOW: Option<f64> = optional("flow", FLOW, NOT_STATED, "The flow that was held."),
            MINUTES: Option<f64> = optional("minutes", MINUTES, NOT_STATED, "For how long."),
            WATER_SHOWN: Option<f64> = optional(
                "water_shown",
                MINUTES,
                NOT_STATED,
                "From the brake set to water shown from the drop tank.",
            ),
            SOURCE_MILES: Option<f64> = optional(
                "source_miles",
                MILES,
                NOT_STATED,
                "Road to the source, one way.",
            ),
            SOURCE_KM: Option<f64> = optional(
                "source_km",
                KM,
                NOT_STATED,
                "The same in km; state one of the two.",
            ),
            WITNESS: Option<Text> = optional("witness", NAME, NOT_STATED, "Who saw it."),
        },
        rules: &[Rule::NeverWith(
            OfDrill::SOURCE_KM.key(),
            OfDrill::SOURCE_MILES.key(),
            "state the distance once, in miles or in km",
        )],
        strays: &[],
    }
}

object! {
    pub(crate) static RULE: OfRule {
        what: "a rule",
        def: "grading_rule",
        doc: "A rule of one's own. Times count from the arrival of the first engine.",
        rows: {
            NAME: Text = required("name", NAME, "Its name; `grade --rule` takes it."); page "Its name.",
            FLOW: f64 = required("flow", RATE, "The flow without which there is no credit."),
            MINUTES: f64 = required(
                "minutes",
                Takes::number(Quantity::Time, RULE_MINUTES),
                "How long it must be kept without a break.",
            ),
            START_WITHIN: f64 = or("start_within", MINUTES, 5.0, "From this minute on it must flow."),
            HIGHER_WITHIN: Option<f64> = optional(
                "higher_within",
                MINUTES,
                "only the flow asked for counts.",
                "A higher flow reached by this minute is credited.",
            ),
            OWN_APPARATUS: Option<bool> = optional(
                "own_apparatus",
                Takes::switch(),
                "automatic aid counts too.",
                "Whether only the department's own apparatus counts.",
            ),
            SEALED_COUNTS_WHOLE: Option<bool> = optional(
                "sealed_counts_whole",
                Takes::switch(),
                "10% is taken off every tank.",
                "Whether a sealed vacuum tank is counted without 10% off.",
            ),
            STATION_WITHIN_MILES: Option<f64> = optional(
                "station_within_miles",
                MILES,
                "no such limit.",
                "The farthest the station may be from the fire, by road.",
            ),
            SOURCE_WITHIN_MILES: Option<f64> = optional(
                "source_within_miles",
                MILES,
                "no such limit.",
                "The farthest a source may be from the fire, by road.",
            ),
            SUCTION_POINT_WITHIN: Option<f64> = optional(
                "suction_point_within",
                Takes::number(Quantity::Length, LENGTH),
                "no such limit.",
                "The farthest the fire may be from a suction point.",
            ),
            ALL_YEAR: Option<bool> = optional(
                "all_year",
                Takes::switch(),
                "not asked for.",
                "Whether sources must be there all year and in a 50-year drought.",
            ),
            FIRST_ENGINE_PUMP: Option<f64> = optional(
                "first_engine_pump",
                RATE,
                "not asked for.",
                "The pump the first engine needs.",
            ),
            SOURCE: Option<Text> = optional(
                "source",
                NAME,
                "the scenario itself.",
                "Where the rule stands.",
            ),
            EDITION: Option<Text> = optional(
                "edition",
                NAME,
                "ask the grading body which edition.",
                "Its edition.",
            ),
        },
        rules: &[],
        strays: &[("duration", "write `minutes`"), ("within", "write `start_within`")],
    }
}

object! {
    pub(crate) static SITE_SURVEY: OfSiteSurvey {
        what: "what is known of a source",
        def: "site_survey",
        doc: "What a grading asks of a source, for `grade`; the simulation does not use it.",
        page: "What a grading asks of a source; the simulation does not use it.",
        rows: {
            ALL_YEAR: Option<bool> = optional(
                "all_year",
                Takes::switch(),
                OPEN,
                "Whether it is there all year, day and night, and in a 50-year drought.",
            ),
            DROUGHT_CERTIFICATE: Option<Text> = optional("drought_certificate", NAME, NOT_STATED, "Who certifies that, and of when."),
            FLOW_TEST: Option<Text> = optional("flow_test", NAME, NOT_STATED, "When its flow was tested."),
            FLOW_TEST_WITNESS: Option<Text> = optional("flow_test_witness", NAME, NOT_STATED, "Who saw the test."),
            INSPECTED: Option<Text> = optional("inspected", NAME, NOT_STATED, "When access, pipe or hydrant was last inspected."),
            AGREEMENT: Option<Text> = optional("agreement", NAME, NOT_STATED, "The owner's agreement: with whom, of when."),
            MAIN_LASTS_HOURS: Option<f64> = optional(
                "main_lasts_hours",
                Takes::number(Quantity::Plain, HOURS),
                NOT_STATED,
                "How long the main gives its flow, hours; of a hydrant. The simulation counts it without end.",
            ),
            PUMP_TO_WATER: Option<f64> = optional(
                "pump_to_water",
                Takes::number(Quantity::Length, LENGTH),
                NOT_STATED,
                "From the pump that fills to the water.",
            ),
        },
        rules: &[],
        strays: &[("witness", "write `flow_test_witness`")],
    }
}
