//! What the fire asks for, the engine on the attack lines, and how water gets to it.

use shuttle_sim::Plan;

use super::building::FLOW_BY_BUILDING;
use crate::format::description::{Field, Kind, Object, Rule};
use crate::format::shared_fields::{
    COUNT, FAILURE, FLOW, LEVEL, NAME, RATE, REQUESTED_AT, RESPONSE, TURNOUT,
};
use crate::format::values::durations::{DURATION, MINUTES};
use crate::format::values::flow_facts::{LAY, SUPPLY_PUMP};
use crate::format::values::rough_values::{FLOW_OR_ROUGH, RATE_OR_ROUGH};
use crate::quantities::quantity::Quantity;

pub(crate) static INCIDENT: Object = Object {
    what: "the incident",
    def: "incident",
    doc: "What the fire asks for.",
    fields: &[
        Field::required(
            "duration",
            Kind::Number(Quantity::Time, Plan::LIMITS.watched),
            "Time watched, from first water.",
        ),
        Field::required(
            "attack_flow",
            Kind::Any(&[
                RATE,
                Kind::Shapes(&[&FLOW_BY_BUILDING]),
                Kind::List(&Kind::Shapes(&[&FLOW_STEP]), 1, Plan::LIMITS.steps),
            ]),
            "What the attack lines need: one flow, a building and a rule, or steps in the order of time.",
        ),
        Field::assumed(
            "reserve",
            LEVEL,
            0.0,
            "200 gal to 500 gal is common (judgement; local rules)",
            "Water kept in the attack engine's tank so the crew can back out.",
        ),
        Field::number(
            "tolerance",
            MINUTES,
            0.1,
            "A shortfall this long is an interruption; 0 counts any.",
        ),
    ],
    rules: &[],
    strays: &[],
};

static FLOW_STEP: Object = Object {
    what: "a step of the attack flow",
    def: "flow_step",
    doc: "From this time on the lines need this flow.",
    fields: &[
        Field::required(
            "from",
            Kind::Number(Quantity::Time, Plan::LIMITS.step_from),
            "When it begins, counted from first water.",
        ),
        Field::required(
            "flow",
            Kind::Any(&[FLOW, Kind::Shapes(&[&FLOW_BY_BUILDING])]),
            "Flow of all attack lines together, or a building and a rule; 0 is a lull.",
        ),
    ],
    rules: &[],
    strays: &[],
};

pub(crate) static ATTACK_ENGINE: Object = Object {
    what: "the attack engine",
    def: "attack_engine",
    doc: "The engine that pumps the attack lines.",
    fields: &[
        Field::word("name", NAME, "Attack engine", "Its name, unlike any other unit's."),
        Field::required(
            "tank",
            Kind::Number(Quantity::Volume, Plan::LIMITS.engine_tank),
            "Its own tank, which starts full.",
        ),
        REQUESTED_AT,
        RESPONSE,
        Field::assumed(
            "water_on",
            DURATION,
            0.0,
            "1 to 2 min is common (judgement)",
            "From arrival to first water.",
        ),
        Field::number("intakes", COUNT, 1.0, "Intakes that a nurse can take."),
        Field::number(
            "tank_refill",
            FLOW_OR_ROUGH,
            500.0,
            "What it takes beyond the attack flow while its own tank is not full.",
        ),
    ],
    rules: &[],
    strays: &[("turnout", "the attack engine always comes: leave `turnout` out")],
};

pub(crate) static SUPPLY: Object = Object {
    what: "the supply",
    def: "supply",
    doc: "How water gets from drop tank or nurse to the attack engine.",
    fields: &[
        Field::optional(
            "nurse",
            Kind::Switch,
            "Silent: true.",
            "Whether a tanker may pump straight into the attack engine until the pump first draws from the drop tank.",
        ),
        Field::optional(
            "engine",
            Kind::Shapes(&[&SUPPLY_ENGINE]),
            "Silent: the attack engine drafts itself.",
            "The engine that drafts from the first drop tank and pumps to the attack engine.",
        ),
        Field::assumed(
            "setup",
            DURATION,
            0.0,
            "3 to 8 min is usual",
            "Hooking up the draft when the attack engine drafts itself, once it and the first drop tank are ready.",
        ),
        Field::optional(
            "draft_limit",
            RATE_OR_ROUGH,
            "Silent: no limit but those of `pump` and `lay`.",
            "The most that the drafting pump and the supply line can move.",
        ),
        Field::optional(
            "pump",
            SUPPLY_PUMP,
            "Silent: its rating and lift are no limit.",
            "The drafting pump, which limits the draft by its rating at its lift.",
        ),
        Field::optional(
            "lay",
            Kind::Shapes(&[&LAY]),
            "Silent: the hose is no limit and full of water.",
            "The supply line, which limits the draft by what it can carry.",
        ),
        Field::optional(
            "restart_level",
            LEVEL,
            "Silent: 300 gal above the first drop tank's unusable water, never above its capacity.",
            "Level of the first drop tank at which the pump can draw, at first and after prime is lost.",
        ),
        Field::assumed(
            "reprime",
            DURATION,
            0.0,
            "0.5 to 1 min and more is usual (value from memory)",
            "Getting prime back, once the level is back at `restart_level`.",
        ),
        Field::word(
            "low_water",
            Kind::Choice(&[
                ("throttle", "The operator gates down so that the draw equals what comes in."),
                ("lose_prime", "The pump keeps drawing and loses prime at the unusable level."),
            ]),
            "throttle",
            "What happens when the first drop tank runs low.",
        ),
        Field::optional(
            "failure",
            Kind::Shapes(&[&FAILURE]),
            "Silent: it does not fail.",
            "Whether the drafting pump may fail: it draws nothing until it is repaired, and has to be primed again.",
        ),
    ],
    rules: &[
        Rule::NeverWith(
            "setup",
            "engine",
            "put `setup` into `engine`: the supply engine is the one that drafts",
        ),
        Rule::OnlyWith(
            "lay",
            "engine",
            "add `engine`, the supply engine at the other end, or leave the lay out",
        ),
    ],
    strays: &[],
};

static SUPPLY_ENGINE: Object = Object {
    what: "the supply engine",
    def: "supply_engine",
    doc: "The engine at the drop tanks.",
    fields: &[
        Field::word("name", NAME, "Supply engine", "Its name, unlike any other unit's."),
        REQUESTED_AT,
        RESPONSE,
        Field::assumed(
            "setup",
            DURATION,
            0.0,
            "3 to 8 min is usual",
            "Hooking up the draft, once it and the first drop tank are ready.",
        ),
        TURNOUT,
    ],
    rules: &[],
    strays: &[],
};
