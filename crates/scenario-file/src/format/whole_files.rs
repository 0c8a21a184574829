//! The two kinds of file: a scenario, and a building by itself.

use fireground::side_by_side::Rule as FlowRule;
use shuttle_sim::Plan;

use super::beside::addresses::{ADDRESSES, OfAddress};
use super::beside::crew_and_hose::{OfCrew, OfHose};
use super::beside::grading::OfGrading;
use super::fire::building::OfBuilding;
use super::fire::incident_and_supply::{OfAttackEngine, OfIncident, OfSupply};
use super::haul::alarms::OfAlarms;
use super::haul::drop_tanks::OfDropTank;
use super::haul::fill_sites::OfFillSite;
use super::haul::roads::OfOneLane;
use super::haul::tankers::{OfHandling, OfTanker};
use super::options::{OPTIONS, OfOption};
use super::shared_fields::{NAME, UNITS};
use super::tables::object;
use super::takes::{Chosen, Either, List, Nested, Takes, Text};
use super::values::durations::CV;
use crate::quantities::quantity::{Quantity, Units};

/// Notes, one or several.
const NOTES: Takes<Either<Text, List<Text>>> =
    Takes::either(&Takes::long_text(), &Takes::list(&Takes::long_text(), 0, 100));

object! {
    /// A whole scenario.
    pub(crate) static SCENARIO: OfScenario {
        what: "a scenario",
        def: "scenario",
        doc: "A {tanker} shuttle to be tried on paper: what the fire needs, who brings water, from where. Times count from the alarm (minute 0) unless a field says otherwise.",
        rows: {
            SCHEMA: Option<Text> = optional(
                "$schema",
                Takes::text(2_000),
                "the editor does not know the format.",
                "Where an editor finds the JSON Schema of this format.",
            ),
            TITLE: Text = required("title", NAME, "What the scenario is called in reports."),
            NOTES: Option<Either<Text, List<Text>>> = optional(
                "notes",
                NOTES,
                "no notes.",
                "Anything worth knowing: where the figures come from, what to change first.",
            ),
            UNITS: Chosen<Units> = UNITS,
            INCIDENT: Nested<OfIncident> = required(
                "incident",
                Takes::object(),
                "What the fire asks for.",
            ),
            ATTACK_ENGINE: Nested<OfAttackEngine> = required(
                "attack_engine",
                Takes::object(),
                "The engine whose lines must not run dry.",
            ),
            SUPPLY: Nested<OfSupply> = nothing(
                "supply",
                "How water gets from drop tank or nurse to the attack engine.",
            ),
            DROP_TANKS: List<Nested<OfDropTank>> = nothing(
                "drop_tanks",
                Takes::list(&Takes::object(), 0, Plan::LIMITS.places),
                "Portable tanks at the dump site; the first is the one drafted from, the others feed it. None: {tankers} nurse.",
            ),
            TANKERS: List<Nested<OfTanker>> = required(
                "tankers",
                Takes::list(&Takes::object(), 1, Plan::LIMITS.tankers),
                "The {tankers} (tenders).",
            ); page "Those who carry water.",
            FILL_SITES: List<Nested<OfFillSite>> = required(
                "fill_sites",
                Takes::list(&Takes::object(), 1, Plan::LIMITS.places),
                "Where {tankers} load.",
            ),
            HANDLING: Nested<OfHandling> = nothing(
                "handling",
                "Times of connecting, positioning and so on, for every {tanker} that does not state its own.",
            ),
            ONE_LANE: Option<Either<Nested<OfOneLane>, List<Nested<OfOneLane>>>> = optional(
                "one_lane",
                Takes::either(
                    &Takes::object(),
                    &Takes::list(&Takes::object(), 0, Plan::LIMITS.places),
                ),
                "the roads carry both directions.",
                "Stretches of road that carry one direction at a time.",
            ),
            WHOLE_FIRE: Nested<OfWholeFire> = nothing(
                "whole_fire",
                "How much whole fires differ: factors that a bad night puts on everybody's times at once.",
            ),
            CREW: Nested<OfCrew> = nothing(
                "crew",
                "People for the plan, for `check`; the simulation does not use it.",
            ); page "People for the plan, for its check; the simulation does not use them.",
            HOSE: Nested<OfHose> = nothing(
                "hose",
                "Hose in place of {tankers}, for `check`; the simulation does not use it.",
            ); page "Hose in place of {tankers}, for the check of the plan; the simulation does not use it.",
            GRADING: Nested<OfGrading> = nothing(
                "grading",
                "What a grading asks for, for `grade`; the simulation does not use it.",
            ); page "What a grading asks for; the simulation does not use it.",
            ADDRESSES: List<Nested<OfAddress>> = nothing(
                "addresses",
                ADDRESSES,
                "Places to be graded one by one, for `grade`; no other answer depends on them.",
            ); page "Places to be graded one by one; no other answer depends on them.",
            ALARMS: Nested<OfAlarms> = nothing(
                "alarms",
                "When the greater alarms can be struck, for {tankers} that are on one (`alarm`).",
            ),
            AID: List<Nested<OfTanker>> = nothing(
                "aid",
                Takes::list(&Takes::object(), 0, Plan::LIMITS.tankers),
                "{Tankers} that could be asked for, for `bucketline request`: `requested_at` is when that can be at the earliest. `size` counts them after the others and `hold` says what all together can hold; everywhere else they and the drop tanks they bring stay away unless asked for with `--with` or `--all-aid`.",
            ); page "{Tankers} that could be asked for; asked for at is when that can be at the earliest. How many are needed counts them after the others, and what flow can be held says what all together can hold; everywhere else they and the drop tanks they bring stay away.",
            OPTIONS: List<Nested<OfOption>> = nothing(
                "options",
                OPTIONS,
                "What could be changed, for `bucketline compare`.",
            ); page "What could be changed, to be compared.",
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    pub(crate) static WHOLE_FIRE: OfWholeFire {
        what: "what a whole fire shares",
        def: "whole_fire",
        doc: "How much whole fires differ from each other: a bad night spoils everybody's times at once, and does not average out as separate delays do. Three factors with mean 1, drawn once a fire, by their coefficients of variation: 0.1 to 0.2 is a start where nothing was measured (judgement).",
        rows: {
            DRIVING_CV: f64 = or(
                "driving_cv",
                CV,
                0.0,
                "Of the factor on every driving time (out, back, one-lane crossings): snow, fog, a detour.",
            ),
            HANDLING_CV: f64 = or(
                "handling_cv",
                CV,
                0.0,
                "Of the factor on every handling time (connecting, positioning, setting up, priming, first water): cold, darkness, mud.",
            ),
            RESPONSE_CV: f64 = or(
                "response_cv",
                CV,
                0.0,
                "Of the factor on every response: the hour, the day of the week.",
            ),
        },
        rules: &[],
        strays: &[("crew_cv", "put it into the {tanker} whose crew it is")],
    }
}

object! {
    /// A file with a building only.
    pub(crate) static BUILDING_FILE: OfBuildingFile {
        what: "a building file",
        def: "building_file",
        doc: "A building, to see what flow each rule asks for.",
        rows: {
            SCHEMA: Option<Text> = optional(
                "$schema",
                Takes::text(2_000),
                "the editor does not know the format.",
                "Where an editor finds the JSON Schema of this format.",
            ),
            TITLE: Text = required("title", NAME, "What the building is called in reports."),
            NOTES: Option<Either<Text, List<Text>>> = optional(
                "notes",
                NOTES,
                "no notes.",
                "Anything worth knowing: where the figures come from, when it was last walked through.",
            ),
            UNITS: Chosen<Units> = UNITS,
            BUILDING: Nested<OfBuilding> = required("building", Takes::object(), "The building."),
            RULE: Chosen<FlowRule> = or(
                "rule",
                &FlowRule::Area,
                "The rule that counts; the rules disagree.",
            ),
            DURATION: f64 = or(
                "duration",
                Takes::number(Quantity::Time, Plan::LIMITS.watched),
                120.0,
                "How long the flow is wanted; an insurance grading of hauled water asks for 2 h.",
            ),
            HOSE: Nested<OfHose> = nothing(
                "hose",
                "Hose for a lay from the source in place of {tankers}.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
