//! What the fire asks for, the engine on the attack lines, and how water gets to it.

use fireground::told::{Part as Worked, Unit};
use shuttle_sim::{LowWater, Plan};

use super::building::OfFlowByBuilding;
use crate::format::description::Rule;
use crate::format::shared_fields::{
    COUNT, FLOW, LEVEL, NAME, OfFailure, RATE, REQUESTED_AT, RESPONSE, TURNOUT,
};
use crate::format::tables::{object, words};
use crate::format::takes::{Chosen, Duration, Either, List, Nested, Rough, Takes, Text};
use crate::format::values::durations::{DURATION, MINUTES};
use crate::format::values::flow_facts::{OfLay, OfPump, SUPPLY_PUMP};
use crate::format::values::rough_values::{FLOW_OR_ROUGH, RATE_OR_ROUGH};
use crate::quantities::quantity::Quantity;

object! {
    pub(crate) static INCIDENT: OfIncident {
        what: "the incident",
        def: "incident",
        doc: "What the fire asks for.",
        rows: {
            DURATION: f64 = required(
                "duration",
                Takes::number(Quantity::Time, Plan::LIMITS.watched),
                "Time watched, from first water.",
            ),
            ATTACK_FLOW: Either<f64, Either<Nested<OfFlowByBuilding>, List<Nested<OfFlowStep>>>> = required(
                "attack_flow",
                Takes::either(
                    &RATE,
                    &Takes::either(
                        &Takes::object(),
                        &Takes::list(&Takes::object(), 1, Plan::LIMITS.steps),
                    ),
                ),
                "What the attack lines need: one flow, a building and a rule, or steps in the order of time.",
            ),
            RESERVE: f64 = assumed(
                "reserve",
                LEVEL,
                0.0,
                &[Worked::Of(200.0, Unit::Gallons, 0), Worked::Words(" to "), Worked::Of(500.0, Unit::Gallons, 0), Worked::Words(" is common (judgement; local rules)")],
                "Water kept in the attack engine's tank so the crew can back out.",
            ),
            TOLERANCE: f64 = or(
                "tolerance",
                MINUTES,
                0.1,
                "A shortfall this long is an interruption; 0 counts any.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    pub(crate) static FLOW_STEP: OfFlowStep {
        what: "a step of the attack flow",
        def: "flow_step",
        doc: "From this time on the lines need this flow.",
        rows: {
            FROM: f64 = required(
                "from",
                Takes::number(Quantity::Time, Plan::LIMITS.step_from),
                "When it begins, counted from first water.",
            ),
            FLOW: Either<f64, Nested<OfFlowByBuilding>> = required(
                "flow",
                Takes::either(&FLOW, &Takes::object()),
                "Flow of all attack lines together, or a building and a rule; 0 is a lull.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    pub(crate) static ATTACK_ENGINE: OfAttackEngine {
        what: "the attack engine",
        def: "attack_engine",
        doc: "The engine that pumps the attack lines.",
        rows: {
            NAME: Text = or("name", NAME, "Attack engine", "Its name, unlike any other unit's."),
            TANK: f64 = required(
                "tank",
                Takes::number(Quantity::Volume, Plan::LIMITS.engine_tank),
                "Its own tank, which starts full.",
            ),
            REQUESTED_AT: f64 = REQUESTED_AT,
            RESPONSE: Duration = RESPONSE,
            WATER_ON: Duration = assumed(
                "water_on",
                DURATION,
                0.0,
                &[Worked::Bare(1.0, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(2.0, Unit::Minutes, 1), Worked::Words(" is common (judgement)")],
                "From arrival to first water.",
            ),
            INTAKES: u32 = or("intakes", COUNT, 1, "Intakes that a nurse can take."),
            TANK_REFILL: Rough = or(
                "tank_refill",
                FLOW_OR_ROUGH,
                500.0,
                "What it takes beyond the attack flow while its own tank is not full.",
            ),
        },
        rules: &[],
        strays: &[("turnout", "the attack engine always comes: leave `turnout` out")],
    }
}

words! {
    LowWater {
        Throttle = "throttle": "The operator gates down so that the draw equals what comes in.",
        LosePrime = "lose_prime": "The pump keeps drawing and loses prime at the unusable level.",
    }
}

object! {
    pub(crate) static SUPPLY: OfSupply {
        what: "the supply",
        def: "supply",
        doc: "How water gets from drop tank or nurse to the attack engine.",
        rows: {
            NURSE: Option<bool> = optional(
                "nurse",
                Takes::switch(),
                "{true}.",
                "Whether a {tanker} may pump straight into the attack engine until the pump first draws from the drop tank.",
            ),
            ENGINE: Option<Nested<OfSupplyEngine>> = optional(
                "engine",
                Takes::object(),
                "the attack engine drafts itself.",
                "The engine that drafts from the first drop tank and pumps to the attack engine.",
            ),
            SETUP: Duration = assumed(
                "setup",
                DURATION,
                0.0,
                &[Worked::Bare(3.0, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(8.0, Unit::Minutes, 1), Worked::Words(" is usual")],
                "Hooking up the draft when the attack engine drafts itself, once it and the first drop tank are ready.",
            ),
            DRAFT_LIMIT: Option<Rough> = optional(
                "draft_limit",
                RATE_OR_ROUGH,
                "no limit but those of `pump` and `lay`.",
                "The most that the drafting pump and the supply line can move.",
            ),
            PUMP: Option<Nested<OfPump>> = optional(
                "pump",
                SUPPLY_PUMP,
                "its rating and lift are no limit.",
                "The drafting pump, which limits the draft by its rating at its lift.",
            ),
            LAY: Option<Nested<OfLay>> = optional(
                "lay",
                Takes::object(),
                "the hose is no limit and full of water.",
                "The supply line, which limits the draft by what it can carry.",
            ),
            RESTART_LEVEL: Option<f64> = optional(
                "restart_level",
                LEVEL,
                "{300 gal} above the first drop tank's unusable water, never above its capacity.",
                "Level of the first drop tank at which the pump can draw, at first and after prime is lost.",
            ),
            REPRIME: Duration = assumed(
                "reprime",
                DURATION,
                0.0,
                &[Worked::Bare(0.5, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(1.0, Unit::Minutes, 1), Worked::Words(" and more is usual (value from memory)")],
                "Getting prime back, once the level is back at `restart_level`.",
            ),
            LOW_WATER: Chosen<LowWater> = or(
                "low_water",
                &LowWater::Throttle,
                "What happens when the first drop tank runs low.",
            ),
            FAILURE: Option<Nested<OfFailure>> = optional(
                "failure",
                Takes::object(),
                "it does not fail.",
                "Whether the drafting pump may fail: it draws nothing until it is repaired, and has to be primed again.",
            ),
        },
        rules: &[
            Rule::NeverWith(
                OfSupply::SETUP.key(),
                OfSupply::ENGINE.key(),
                "put `setup` into `engine`: the supply engine is the one that drafts",
            ),
            Rule::OnlyWith(
                OfSupply::LAY.key(),
                OfSupply::ENGINE.key(),
                "add `engine`, the supply engine at the other end, or leave the lay out",
            ),
        ],
        strays: &[],
    }
}

object! {
    pub(crate) static SUPPLY_ENGINE: OfSupplyEngine {
        what: "the supply engine",
        def: "supply_engine",
        doc: "The engine at the drop tanks.",
        rows: {
            NAME: Text = or("name", NAME, "Supply engine", "Its name, unlike any other unit's."),
            REQUESTED_AT: f64 = REQUESTED_AT,
            RESPONSE: Duration = RESPONSE,
            SETUP: Duration = assumed(
                "setup",
                DURATION,
                0.0,
                &[Worked::Bare(3.0, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(8.0, Unit::Minutes, 1), Worked::Words(" is usual")],
                "Hooking up the draft, once it and the first drop tank are ready.",
            ),
            TURNOUT: f64 = TURNOUT,
        },
        rules: &[],
        strays: &[],
    }
}
