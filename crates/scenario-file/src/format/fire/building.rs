//! Buildings, and the flow that a rule asks for at one.
//!
//! The same building stands in a scenario's attack flow or in a building file of its own.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use crate::format::description::{Field, Kind, Object};
use crate::quantities::quantity::{Bounds, Quantity};

/// Length or width of a building, ft. Judgement: about half a mile.
const SIDE: Bounds = (Excluded(0.0), Included(2_500.0));
/// Height of a building, ft. Judgement.
const HEIGHT: Bounds = (Excluded(0.0), Included(500.0));
/// Height of a roof, ft. Judgement.
const ROOF: Bounds = (Included(0.0), Included(200.0));
/// Stories. Judgement.
const STORIES: Bounds = (Included(1.0), Included(50.0));
/// Distance to a neighboring building, ft. Judgement: a mile.
const NEAR: Bounds = (Included(0.0), Included(5_280.0));
/// Ground area of a neighboring building, ft2. Judgement.
const GROUND: Bounds = (Excluded(0.0), Included(10_000_000.0));
/// Occupancy hazard classes (NFPA 1142).
const CLASS: Bounds = (Included(3.0), Included(7.0));
/// Construction numbers (NFPA 1142: 0.5 to 1.5).
const CAP: Bounds = (Included(0.5), Included(1.5));
/// A share above zero.
const SOME_SHARE: Bounds = (Excluded(0.0), Included(1.0));
/// A charge of the insurance guide, as a fraction.
const CHARGE: Bounds = (Included(0.0), Included(1.0));

/// What a building is used for. Each word stands for an occupancy hazard class; see
/// [`super::super::read::building`].
const USES: Kind = Kind::Choice(&[
    ("dwelling", "A one- or two-family dwelling: class 7."),
    ("apartments", "Class 7 (value from memory)."),
    ("office", "Class 7 (value from memory)."),
    ("school", "Class 7 (value from memory)."),
    ("church", "Class 6 (value from memory)."),
    ("store", "Class 5 (value from memory)."),
    ("workshop", "Repair garage, woodworking: class 4 (value from memory)."),
    ("barn", "A commercial barn: class 4."),
    ("sawmill", "Class 3 (value from memory)."),
    ("other", "Anything else: give its `hazard_class`."),
]);

/// A rule by which an attack flow is taken.
pub(crate) const RULES: Kind = Kind::Choice(&[
    ("area", "Area / 3 (National Fire Academy)."),
    ("volume", "Volume / 100 (Iowa State University)."),
    ("minimum-supply", "The delivery rate of the minimum water supply (NFPA 1142)."),
    (
        "insurance",
        "The needed fire flow of the insurance guide; for small dwellings its table (ISO).",
    ),
    (
        "insurance-canada",
        "The required fire flow of the Canadian insurers (Fire Underwriters Survey, 1999 edition).",
    ),
]);

/// A flow by the building that burns.
pub(crate) static FLOW_BY_BUILDING: Object = Object {
    what: "a flow by a building",
    def: "flow_by_building",
    doc: "The attack flow that a rule asks for at a building; `bucketline flow` shows all rules side by side.",
    fields: &[
        Field::required("building", Kind::Shapes(&[&BUILDING]), "The building."),
        Field::required("rule", RULES, "The rule that counts; the rules disagree."),
    ],
    rules: &[],
    strays: &[],
};

/// A building.
pub(crate) static BUILDING: Object = Object {
    what: "a building",
    def: "building",
    doc: "A building as it stands: what the flow rules ask about it.",
    fields: &[
        Field::required("length", Kind::Number(Quantity::Length, SIDE), "Length."),
        Field::required("width", Kind::Number(Quantity::Length, SIDE), "Width."),
        Field::number(
            "stories",
            Kind::Count(STORIES),
            1.0,
            "Stories; count a basement that is lived in.",
        ),
        Field::required(
            "height",
            Kind::Number(Quantity::Length, HEIGHT),
            "From the lowest floor to the eaves, all stories together.",
        ),
        Field::assumed(
            "ridge",
            Kind::Number(Quantity::Length, ROOF),
            0.0,
            "6 ft to 12 ft is usual under a pitched roof (judgement); state 0 for a flat one",
            "From the eaves up to the ridge; 0 for a flat roof.",
        ),
        Field::optional(
            "open_height",
            Kind::Number(Quantity::Length, HEIGHT),
            "Silent: the height of one story.",
            "Height of the largest open space, for volume / 100: to the underside of the roof in a barn.",
        ),
        Field::required("use", USES, "What it is used for; of a mix the worst."),
        Field::optional(
            "hazard_class",
            Kind::Count(CLASS),
            "Silent: the class that goes with `use`.",
            "Occupancy hazard class of NFPA 1142, 3 (severe) to 7 (light).",
        ),
        Field::required(
            "construction",
            Kind::Choice(&[
                ("fire resistive", "Type I."),
                ("noncombustible", "Type II."),
                ("ordinary", "Type III, masonry walls and wooden floors and roof."),
                ("heavy timber", "Type IV."),
                ("wood frame", "Type V."),
            ]),
            "Type of construction; of a mix the one that burns most.",
        ),
        Field::optional(
            "dwelling_cap",
            Kind::Number(Quantity::Plain, CAP),
            "Silent: no cap.",
            "The most that the construction number of a dwelling may be, where the edition in force has such a cap (1.0 in some; value from memory).",
        ),
        Field::word(
            "contents",
            Kind::Choice(&[
                ("noncombustible", "C-1: steel, stone, brick."),
                ("limited", "C-2, limited combustible: dwelling, school, church, office."),
                ("combustible", "C-3: most stores, workshops, machine sheds."),
                ("free burning", "C-4: hay or straw in a barn, furniture, lumber."),
                ("rapid burning", "C-5: fuel, paint, solvents."),
            ]),
            "combustible",
            "How the contents burn, for the insurance flow; of a mix the worst. The examples are values from memory, hay and straw common practice.",
        ),
        Field::optional(
            "floors_burning",
            Kind::Count(STORIES),
            "Silent: all of them.",
            "Stories that burn, for area / 3.",
        ),
        Field::assumed(
            "involved",
            Kind::Number(Quantity::Share, SOME_SHARE),
            1.0,
            "25% to 50% is what an interior attack can hope to meet (common practice)",
            "Share of those stories involved in fire, for area / 3.",
        ),
        Field::nothing(
            "exposures",
            Kind::List(&Kind::Shapes(&[&EXPOSURE]), 0, Plan::LIMITS.places),
            "Buildings that stand near it.",
        ),
        Field::number(
            "exposure_charge",
            Kind::Number(Quantity::Share, CHARGE),
            0.0,
            "Exposure charge X of the insurance guide, for the side with the highest one.",
        ),
        Field::number(
            "communication_charge",
            Kind::Number(Quantity::Share, CHARGE),
            0.0,
            "Communication charge P of the insurance guide, for the same side.",
        ),
        Field::word(
            "dwelling_table",
            Kind::Choice(&[
                ("older", "Lines at 100, 30 and 10 ft between buildings."),
                ("newer", "Lines at 30, 20 and 10 ft (values from memory)."),
            ]),
            "older",
            "Edition of the insurance table for one- and two-family dwellings that counts.",
        ),
    ],
    rules: &[],
    strays: &[
        ("flow", "put `flow` beside the building, or leave it out: the rule gives it"),
        ("area", "give `length` and `width`"),
    ],
};

static EXPOSURE: Object = Object {
    what: "an exposure",
    def: "exposure",
    doc: "A building that stands near: a hazard within 50 ft if it has 100 ft2, at any size if either is class 3 or 4 (NFPA 1142).",
    fields: &[
        Field::required(
            "distance",
            Kind::Number(Quantity::Length, NEAR),
            "From wall to wall, the shortest.",
        ),
        Field::required("area", Kind::Number(Quantity::Area, GROUND), "Its ground area."),
        Field::number("hazard_class", Kind::Count(CLASS), 7.0, "Its occupancy hazard class."),
    ],
    rules: &[],
    strays: &[],
};
