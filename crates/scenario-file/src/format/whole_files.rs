//! The two kinds of file: a scenario, and a building by itself.

use shuttle_sim::Plan;

use super::beside::crew_and_hose::{CREW, HOSE};
use super::beside::grading::{ADDRESSES, GRADING};
use super::description::{Field, Kind, Object};
use super::fire::building::{BUILDING, RULES};
use super::fire::incident_and_supply::{ATTACK_ENGINE, INCIDENT, SUPPLY};
use super::haul::drop_tanks::DROP_TANK;
use super::haul::fill_sites::FILL_SITE;
use super::haul::roads::ONE_LANE;
use super::haul::tankers::{ALARMS, HANDLING, TANKER};
use super::options::OPTIONS;
use super::shared_fields::{NAME, UNITS};
use super::values::durations::CV;
use crate::quantities::quantity::Quantity;

/// A whole scenario.
pub(crate) static SCENARIO: Object = Object {
    what: "a scenario",
    def: "scenario",
    doc: "A tanker shuttle to be tried on paper: what the fire needs, who brings water, from where. Times count from the alarm (minute 0) unless a field says otherwise.",
    fields: &[
        Field::optional(
            "$schema",
            Kind::Text(2_000),
            "Silent: the editor does not know the format.",
            "Where an editor finds the JSON Schema of this format.",
        ),
        Field::required("title", NAME, "What the scenario is called in reports."),
        Field::optional(
            "notes",
            Kind::Any(&[Kind::LongText, Kind::List(&Kind::LongText, 0, 100)]),
            "Silent: no notes.",
            "Anything worth knowing: where the figures come from, what to change first.",
        ),
        UNITS,
        Field::required("incident", Kind::Shapes(&[&INCIDENT]), "What the fire asks for."),
        Field::required(
            "attack_engine",
            Kind::Shapes(&[&ATTACK_ENGINE]),
            "The engine whose lines must not run dry.",
        ),
        Field::nothing(
            "supply",
            Kind::Shapes(&[&SUPPLY]),
            "How water gets from drop tank or nurse to the attack engine.",
        ),
        Field::nothing(
            "drop_tanks",
            Kind::List(&Kind::Shapes(&[&DROP_TANK]), 0, Plan::LIMITS.places),
            "Portable tanks at the dump site; the first is the one drafted from, the others feed it. None: tankers nurse.",
        ),
        Field::required(
            "tankers",
            Kind::List(&Kind::Shapes(&[&TANKER]), 1, Plan::LIMITS.tankers),
            "The tankers (tenders).",
        ),
        Field::required(
            "fill_sites",
            Kind::List(&Kind::Shapes(&[&FILL_SITE]), 1, Plan::LIMITS.places),
            "Where tankers load.",
        ),
        Field::nothing(
            "handling",
            Kind::Shapes(&[&HANDLING]),
            "Times of connecting, positioning and so on, for every tanker that does not state its own.",
        ),
        Field::optional(
            "one_lane",
            Kind::Any(&[
                Kind::Shapes(&[&ONE_LANE]),
                Kind::List(&Kind::Shapes(&[&ONE_LANE]), 0, Plan::LIMITS.places),
            ]),
            "Silent: the roads carry both directions.",
            "Stretches of road that carry one direction at a time.",
        ),
        Field::nothing(
            "whole_fire",
            Kind::Shapes(&[&WHOLE_FIRE]),
            "How much whole fires differ: factors that a bad night puts on everybody's times at once.",
        ),
        Field::nothing(
            "crew",
            Kind::Shapes(&[&CREW]),
            "People for the plan, for `check`; the simulation does not use it.",
        ),
        Field::nothing(
            "hose",
            Kind::Shapes(&[&HOSE]),
            "Hose in place of tankers, for `check`; the simulation does not use it.",
        ),
        Field::nothing(
            "grading",
            Kind::Shapes(&[&GRADING]),
            "What a grading asks for, for `grade`; the simulation does not use it.",
        ),
        Field::nothing(
            "addresses",
            ADDRESSES,
            "Places to be graded one by one, for `grade`; no other command looks at them.",
        ),
        Field::nothing(
            "alarms",
            Kind::Shapes(&[&ALARMS]),
            "When the greater alarms can be struck, for tankers that are on one (`alarm`).",
        ),
        Field::nothing(
            "aid",
            Kind::List(&Kind::Shapes(&[&TANKER]), 0, Plan::LIMITS.tankers),
            "Tankers that could be asked for, for `bucketline request`: `requested_at` is when that can be at the earliest. `size` counts them after the others and `hold` says what all together can hold; everywhere else they and the drop tanks they bring stay away unless asked for with `--with` or `--all-aid`.",
        ),
        Field::nothing("options", OPTIONS, "What could be changed, for `bucketline compare`."),
    ],
    rules: &[],
    strays: &[],
};

static WHOLE_FIRE: Object = Object {
    what: "what a whole fire shares",
    def: "whole_fire",
    doc: "How much whole fires differ from each other: a bad night spoils everybody's times at once, and does not average out as separate delays do. Three factors with mean 1, drawn once a fire, by their coefficients of variation: 0.1 to 0.2 is a start where nothing was measured (judgement).",
    fields: &[
        Field::number(
            "driving_cv",
            CV,
            0.0,
            "Of the factor on every driving time (out, back, one-lane crossings): snow, fog, a detour.",
        ),
        Field::number(
            "handling_cv",
            CV,
            0.0,
            "Of the factor on every handling time (connecting, positioning, setting up, priming, first water): cold, darkness, mud.",
        ),
        Field::number(
            "response_cv",
            CV,
            0.0,
            "Of the factor on every response: the hour, the day of the week.",
        ),
    ],
    rules: &[],
    strays: &[("crew_cv", "put it into the tanker whose crew it is")],
};

/// A file with a building only.
pub(crate) static BUILDING_FILE: Object = Object {
    what: "a building file",
    def: "building_file",
    doc: "A building, to see what flow each rule asks for.",
    fields: &[
        Field::optional(
            "$schema",
            Kind::Text(2_000),
            "Silent: the editor does not know the format.",
            "Where an editor finds the JSON Schema of this format.",
        ),
        Field::required("title", NAME, "What the building is called in reports."),
        Field::optional(
            "notes",
            Kind::Any(&[Kind::LongText, Kind::List(&Kind::LongText, 0, 100)]),
            "Silent: no notes.",
            "Anything worth knowing: where the figures come from, when it was last walked through.",
        ),
        UNITS,
        Field::required("building", Kind::Shapes(&[&BUILDING]), "The building."),
        Field::word("rule", RULES, "area", "The rule that counts; the rules disagree."),
        Field::number(
            "duration",
            Kind::Number(Quantity::Time, Plan::LIMITS.watched),
            120.0,
            "How long the flow is wanted; an insurance grading of hauled water asks for 2 h.",
        ),
        Field::nothing(
            "hose",
            Kind::Shapes(&[&HOSE]),
            "Hose for a lay from the source in place of tankers.",
        ),
    ],
    rules: &[],
    strays: &[],
};
