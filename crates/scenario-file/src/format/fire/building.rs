//! Buildings, and the flow that a rule asks for at one.
//!
//! The same building stands in a scenario's attack flow or in a building file of its own.

use fireground::told::{Part as Worked, Unit};
use std::ops::Bound::{Excluded, Included};

use fireground::insurance_flow::{Contents, DwellingTable};
use fireground::minimum_supply::ConstructionType;
use fireground::side_by_side::Rule as FlowRule;
use shuttle_sim::Plan;

use crate::format::tables::{object, words};
use crate::format::takes::{Chosen, List, Nested, Takes};
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

/// What a building is used for. Each stands for an occupancy hazard class; see [`crate::read::facts::building`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Use {
    Dwelling,
    Apartments,
    Office,
    School,
    Church,
    Store,
    Workshop,
    Barn,
    Sawmill,
    Other,
}

words! {
    Use {
        Dwelling = "dwelling": "A one- or two-family dwelling: class 7.",
        Apartments = "apartments": "Class 7 (value from memory).",
        Office = "office": "Class 7 (value from memory).",
        School = "school": "Class 7 (value from memory).",
        Church = "church": "Class 6 (value from memory).",
        Store = "store": "Class 5 (value from memory).",
        Workshop = "workshop": "Repair garage, woodworking: class 4 (value from memory).",
        Barn = "barn": "A commercial barn: class 4.",
        Sawmill = "sawmill": "Class 3 (value from memory).",
        Other = "other": "Anything else: give its `hazard_class`.",
    }
}

// The rules by which an attack flow is taken.
words! {
    FlowRule {
        Area = "area": "Area / 3 (National Fire Academy).",
        Volume = "volume": "Volume / 100 (Iowa State University).",
        MinimumSupply = "minimum-supply":
            "The delivery rate of the minimum water supply (NFPA 1142).",
        Insurance = "insurance":
            "The needed fire flow of the insurance guide; for small dwellings its table (ISO).",
        CanadianInsurance = "insurance-canada":
            "The required fire flow of the Canadian insurers (Fire Underwriters Survey, 1999 edition).",
    }
}

words! {
    ConstructionType {
        I = "fire resistive": "Type I.",
        II = "noncombustible": "Type II.",
        III = "ordinary": "Type III, masonry walls and wooden floors and roof.",
        IV = "heavy timber": "Type IV.",
        V = "wood frame": "Type V.",
    }
}

words! {
    Contents {
        Noncombustible = "noncombustible": "C-1: steel, stone, brick.",
        LimitedCombustible = "limited":
            "C-2, limited combustible: dwelling, school, church, office.",
        Combustible = "combustible": "C-3: most stores, workshops, machine sheds.",
        FreeBurning = "free burning": "C-4: hay or straw in a barn, furniture, lumber.",
        RapidBurning = "rapid burning": "C-5: fuel, paint, solvents.",
    }
}

words! {
    DwellingTable {
        Older = "older": "Lines at 100, 30 and 10 ft between buildings.",
        Newer = "newer": "Lines at 30, 20 and 10 ft (values from memory).",
    }
}

object! {
    /// A flow by the building that burns.
    pub(crate) static FLOW_BY_BUILDING: OfFlowByBuilding {
        what: "a flow by a building",
        def: "flow_by_building",
        doc: "The attack flow that a rule asks for at a building; `bucketline flow` shows all rules side by side.",
        page: "The attack flow that a rule asks for at a building.",
        rows: {
            BUILDING: Nested<OfBuilding> = required("building", Takes::object(), "The building."),
            RULE: Chosen<FlowRule> = required(
                "rule",
                Takes::choice(),
                "The rule that counts; the rules disagree.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    /// A building.
    pub(crate) static BUILDING: OfBuilding {
        what: "a building",
        def: "building",
        doc: "A building as it stands: what the flow rules ask about it.",
        rows: {
            LENGTH: f64 = required("length", Takes::number(Quantity::Length, SIDE), "Length."),
            WIDTH: f64 = required("width", Takes::number(Quantity::Length, SIDE), "Width."),
            STORIES: u32 = or(
                "stories",
                Takes::count(STORIES),
                1,
                "Stories; count a basement that is lived in.",
            ),
            HEIGHT: f64 = required(
                "height",
                Takes::number(Quantity::Length, HEIGHT),
                "From the lowest floor to the eaves, all stories together.",
            ),
            RIDGE: f64 = assumed(
                "ridge",
                Takes::number(Quantity::Length, ROOF),
                0.0,
                &[Worked::Of(6.0, Unit::Feet, 1), Worked::Words(" to "), Worked::Of(12.0, Unit::Feet, 1), Worked::Words(" is usual under a pitched roof (judgement); state 0 for a flat one")],
                "From the eaves up to the ridge; 0 for a flat roof.",
            ),
            OPEN_HEIGHT: Option<f64> = optional(
                "open_height",
                Takes::number(Quantity::Length, HEIGHT),
                "the height of one story.",
                "Height of the largest open space, for volume / 100: to the underside of the roof in a barn.",
            ),
            USE: Chosen<Use> = required(
                "use",
                Takes::choice(),
                "What it is used for; of a mix the worst.",
            ),
            HAZARD_CLASS: Option<u32> = optional(
                "hazard_class",
                Takes::count(CLASS),
                "the class that goes with `use`.",
                "Occupancy hazard class of NFPA 1142, 3 (severe) to 7 (light).",
            ),
            CONSTRUCTION: Chosen<ConstructionType> = required(
                "construction",
                Takes::choice(),
                "Type of construction; of a mix the one that burns most.",
            ),
            DWELLING_CAP: Option<f64> = optional(
                "dwelling_cap",
                Takes::number(Quantity::Plain, CAP),
                "no cap.",
                "The most that the construction number of a dwelling may be, where the edition in force has such a cap (1.0 in some; value from memory).",
            ),
            CONTENTS: Chosen<Contents> = or(
                "contents",
                &Contents::Combustible,
                "How the contents burn, for the insurance flow; of a mix the worst. The examples are values from memory, hay and straw common practice.",
            ),
            FLOORS_BURNING: Option<u32> = optional(
                "floors_burning",
                Takes::count(STORIES),
                "all of them.",
                "Stories that burn, for area / 3.",
            ),
            INVOLVED: f64 = assumed(
                "involved",
                Takes::number(Quantity::Share, SOME_SHARE),
                1.0,
                &[Worked::Share(0.25), Worked::Words(" to "), Worked::Share(0.5), Worked::Words(" is what an interior attack can hope to meet (common practice)")],
                "Share of those stories involved in fire, for area / 3.",
            ),
            EXPOSURES: List<Nested<OfExposure>> = nothing(
                "exposures",
                Takes::list(&Takes::object(), 0, Plan::LIMITS.places),
                "Buildings that stand near it.",
            ),
            EXPOSURE_CHARGE: f64 = or(
                "exposure_charge",
                Takes::number(Quantity::Share, CHARGE),
                0.0,
                "Exposure charge X of the insurance guide, for the side with the highest one.",
            ),
            COMMUNICATION_CHARGE: f64 = or(
                "communication_charge",
                Takes::number(Quantity::Share, CHARGE),
                0.0,
                "Communication charge P of the insurance guide, for the same side.",
            ),
            DWELLING_TABLE: Chosen<DwellingTable> = or(
                "dwelling_table",
                &DwellingTable::Older,
                "Edition of the insurance table for one- and two-family dwellings that counts.",
            ),
        },
        rules: &[],
        strays: &[
            ("flow", "put `flow` beside the building, or leave it out: the rule gives it"),
            ("area", "give `length` and `width`"),
        ],
    }
}

object! {
    pub(crate) static EXPOSURE: OfExposure {
        what: "an exposure",
        def: "exposure",
        doc: "A building that stands near: a hazard within 50 ft if it has 100 ft2, at any size if either is class 3 or 4 (NFPA 1142).",
        rows: {
            DISTANCE: f64 = required(
                "distance",
                Takes::number(Quantity::Length, NEAR),
                "From wall to wall, the shortest.",
            ),
            AREA: f64 = required("area", Takes::number(Quantity::Area, GROUND), "Its ground area."),
            HAZARD_CLASS: u32 = or(
                "hazard_class",
                Takes::count(CLASS),
                7,
                "Its occupancy hazard class.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
