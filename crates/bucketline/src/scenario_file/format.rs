//! The scenario file: every object and field, with its meaning, units, default and limits. What
//! moves the water is in [`super::format_shuttle`], durations and facts in [`super::format_facts`], buildings,
//! people and hose in [`super::format_building`].
//!
//! Limits are the plan's own ([`Plan::LIMITS`]). Defaults are the model's; where silence counts as
//! nothing, what is usual stands beside it.

use shuttle_sim::Plan;

use super::format_building::{CREW, FLOW_BY_BUILDING, HOSE};
use super::format_facts::{DURATION, LAY, SUPPLY_PUMP};
use super::format_shuttle::{DROP_TANK, FILL_SITE, HANDLING, ONE_LANE, TANKER};
use super::options::OPTIONS;
use super::quantity::Quantity;
use super::table::{Field, Kind, Object, Rule};

pub(super) const NAME: Kind = Kind::Text(Plan::LIMITS.name_length);
const MINUTES: Kind = Kind::Number(Quantity::Time, Plan::LIMITS.minutes);
pub(super) const RATE: Kind = Kind::Number(Quantity::Flow, Plan::LIMITS.rate);
pub(super) const FLOW: Kind = Kind::Number(Quantity::Flow, Plan::LIMITS.flow);
pub(super) const CAPACITY: Kind = Kind::Number(Quantity::Volume, Plan::LIMITS.capacity);
pub(super) const LEVEL: Kind = Kind::Number(Quantity::Volume, Plan::LIMITS.level);
pub(super) const COUNT: Kind = Kind::Count(Plan::LIMITS.count);

pub(super) const REQUESTED_AT: Field =
    Field::number("requested_at", MINUTES, 0.0, "When it is asked for, minutes after the alarm.");
pub(super) const RESPONSE: Field =
    Field::required("response", DURATION, "From the request to arrival at the scene.");

pub(super) const UNITS: Field = Field::word(
    "units",
    Kind::Choice(&[
        ("us", "Bare numbers are gal, gpm, minutes, miles, mph, ft, in, psi."),
        (
            "metric",
            "Bare numbers are L, L/min, minutes, km, km/h, m, mm, kPa, and so are the reports.",
        ),
    ]),
    "us",
    "Which units bare numbers are in. A string with a unit, such as \"11000 L\", is taken anywhere.",
);

/// A whole scenario.
pub(super) static SCENARIO: Object = Object {
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
            "aid",
            Kind::List(&Kind::Shapes(&[&TANKER]), 0, Plan::LIMITS.tankers),
            "Tankers that could be asked for, for `bucketline request`: `requested_at` is when that can be at the earliest. No other command lets them come, nor a drop tank that one of them brings.",
        ),
        Field::nothing("options", OPTIONS, "What could be changed, for `bucketline compare`."),
    ],
    rules: &[],
    strays: &[],
};

static INCIDENT: Object = Object {
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
            "many keep a few hundred gallons (local rules)",
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

static ATTACK_ENGINE: Object = Object {
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
            FLOW,
            500.0,
            "What it takes beyond the attack flow while its own tank is not full.",
        ),
    ],
    rules: &[],
    strays: &[],
};

static SUPPLY: Object = Object {
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
            RATE,
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
    ],
    rules: &[],
    strays: &[],
};
