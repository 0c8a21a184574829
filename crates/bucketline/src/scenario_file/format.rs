//! The scenario file: every object and field, with its meaning, units, default and limits.
//!
//! Limits are the plan's own ([`Plan::LIMITS`]). Defaults are the model's; where silence counts as
//! nothing, what is usual stands beside it.

use shuttle_sim::Plan;

use super::format_facts::{DURATION, FILL_FLOW, LAY, LEG, SUPPLY_PUMP};
use super::quantity::Quantity;
use super::table::{Field, Kind, Object, Rule, Silence};

const NAME: Kind = Kind::Text(Plan::LIMITS.name_length);
const MINUTES: Kind = Kind::Number(Quantity::Time, Plan::LIMITS.minutes);
const RATE: Kind = Kind::Number(Quantity::Flow, Plan::LIMITS.rate);
const FLOW: Kind = Kind::Number(Quantity::Flow, Plan::LIMITS.flow);
const CAPACITY: Kind = Kind::Number(Quantity::Volume, Plan::LIMITS.capacity);
const LEVEL: Kind = Kind::Number(Quantity::Volume, Plan::LIMITS.level);
const SHARE: Kind = Kind::Number(Quantity::Share, Plan::LIMITS.share);
const COUNT: Kind = Kind::Count(Plan::LIMITS.count);

const REQUESTED_AT: Field = Field::number(
    "requested_at",
    MINUTES,
    0.0,
    "When it is asked for, minutes after the alarm.",
);
const RESPONSE: Field = Field::required(
    "response",
    DURATION,
    "From the request to arrival at the scene.",
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
        Field::word(
            "units",
            Kind::Choice(&[
                ("us", "Bare numbers are gal, gpm, minutes, miles, mph, ft, in, psi."),
                ("metric", "Bare numbers are L, L/min, minutes, km, km/h, m, mm, kPa, and so are the reports."),
            ]),
            "us",
            "Which units bare numbers are in. A string with a unit, such as \"11000 L\", is taken anywhere.",
        ),
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
                Kind::List(&Kind::Shapes(&[&FLOW_STEP]), 1, Plan::LIMITS.steps),
            ]),
            "What the attack lines need: one flow, or steps in the order of time.",
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
        Field::required("flow", FLOW, "Flow of all attack lines together; 0 is a lull."),
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
            "Silent: true without drop tanks, false with them.",
            "Whether a tanker may pump straight into the attack engine until the draft is hooked up.",
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
                ("lose_prime", "The pump keeps drawing and loses prime at the unusable level."),
                ("throttle", "The operator gates down so that the draw equals what comes in."),
            ]),
            "lose_prime",
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

static DROP_TANK: Object = Object {
    what: "a drop tank",
    def: "drop_tank",
    doc: "A portable tank at the dump site.",
    fields: &[
        Field::required("capacity", CAPACITY, "What it holds as it stands; less on a slope."),
        Field::assumed(
            "unusable",
            LEVEL,
            0.0,
            "125 gal to 375 gal of a tank of 10 x 10 ft is usual (value from memory)",
            "Water below the strainer's reach.",
        ),
        Field::optional(
            "brought_by",
            NAME,
            "Silent: it comes by its own vehicle, with `response`.",
            "The unit that brings it; of a group by the full name, such as \"Aid tanker 1\".",
        ),
        REQUESTED_AT,
        Field {
            silence: Silence::Says("Silent: a unit brings it, by `brought_by`."),
            ..RESPONSE
        },
        Field::assumed(
            "setup",
            DURATION,
            0.0,
            "3 to 5 min with suction and prime is usual",
            "Setting it up, once it is there.",
        ),
        Field::number(
            "dump_positions",
            COUNT,
            1.0,
            "Tankers that can dump into it at once.",
        ),
        Field::assumed(
            "transfer",
            RATE,
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
    ],
    strays: &[("dump_rate", "put it into the tanker"), ("name", "a drop tank has no name: its place in the list counts")],
};

static TANKER: Object = Object {
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
        Field::required("capacity", CAPACITY, "Its tank."),
        REQUESTED_AT,
        RESPONSE,
        Field::number(
            "dump_rate",
            RATE,
            1_000.0,
            "Rate at which its load moves into a drop tank, on average.",
        ),
        Field::word(
            "dump_curve",
            Kind::Choice(&[
                ("steady", "The dump rate throughout."),
                ("gravity", "The flow falls with what is left; the dump rate is the average over the first 90%, as the apparatus standard states it."),
            ]),
            "steady",
            "How the flow behaves while it dumps.",
        ),
        Field::number(
            "pump_off",
            RATE,
            500.0,
            "Rate at which its load moves into the attack engine when it nurses.",
        ),
        Field::number(
            "fill_limit",
            RATE,
            1_000.0,
            "The greatest rate at which it takes water.",
        ),
        Field::number(
            "waste",
            SHARE,
            0.10,
            "Share of the load that is spilled or not filled (NFPA 1142 allows 10%).",
        ),
        Field::number(
            "residual",
            SHARE,
            0.0,
            "Share of its capacity that never leaves it.",
        ),
        Field::number(
            "breakdown_per_trip",
            Kind::Number(Quantity::Share, Plan::LIMITS.chance),
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
            "Silent: it chooses the site with the least expected time.",
            "The fill site it is assigned to, by name.",
        ),
        Field::nothing(
            "handling",
            Kind::Shapes(&[&HANDLING]),
            "Its own handling times, which win over the common ones key by key.",
        ),
    ],
    rules: &[],
    strays: &[],
};

static FILL_SITE: Object = Object {
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
                ("shared", "Tankers that fill at once share the flow fairly."),
                ("one-by-one", "Whoever began first takes all it can (connect two, load one)."),
            ]),
            "shared",
            "How tankers that fill at once share the flow.",
        ),
        Field::optional(
            "volume",
            Kind::Any(&[
                Kind::Number(Quantity::Volume, Plan::LIMITS.site_volume),
                Kind::Null,
            ]),
            "Silent or null: water without end.",
            "Water to be had from it.",
        ),
        Field::number("recharge", FLOW, 0.0, "What runs into a limited volume."),
        Field::required("out", LEG, "The road from the scene."),
        Field::required("back", LEG, "The road to the scene."),
    ],
    rules: &[],
    strays: &[],
};

static HANDLING: Object = Object {
    what: "the handling",
    def: "handling",
    doc: "Minutes taken by each piece of handling.",
    fields: &[
        Field::assumed("nurse_connect", DURATION, 0.0, "0.5 to 1 min", "Connecting to the attack engine."),
        Field::assumed("nurse_disconnect", DURATION, 0.0, "0.5 min", "Breaking that connection."),
        Field::assumed("dump_position", DURATION, 0.0, "0.5 to 1 min", "Getting into place at the drop tank."),
        Field::assumed("dump_clear", DURATION, 0.0, "0.2 to 0.5 min", "Pulling clear of the drop tank."),
        Field::assumed("fill_connect", DURATION, 0.0, "1 to 1.5 min with manoeuvring", "Getting into place and connecting at the fill site."),
        Field::assumed("fill_disconnect", DURATION, 0.0, "0.5 min", "Disconnecting at the fill site."),
    ],
    rules: &[],
    strays: &[
        ("dump_rate", "put it into the tanker"),
        ("reprime", "put it into `supply`"),
    ],
};

static ONE_LANE: Object = Object {
    what: "a one-lane stretch",
    def: "one_lane",
    doc: "A stretch of road that carries one direction at a time; those going the same way may follow.",
    fields: &[
        Field::required(
            "near",
            NAME,
            "\"scene\", or the name of the fill site it lies near.",
        ),
        Field::required(
            "crossing",
            DURATION,
            "Time to cross it, on top of the leg.",
        ),
    ],
    rules: &[],
    strays: &[],
};
