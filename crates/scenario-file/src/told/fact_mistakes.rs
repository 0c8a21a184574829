//! Mistakes of the arithmetic in the words and units of the scenario file.

use fireground::FactError;

use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, Part, joined, key as a_key, says};
use crate::format::description::Object;
use crate::format::fire::building::{BUILDING, OfBuilding};
use crate::format::haul::drop_tanks::OfTankSize;
use crate::format::haul::fill_sites::OfPondSize;
use crate::format::haul::roads::{LEG_KM, OfLegKm, OfLegMiles};
use crate::format::values::flow_facts::{LAY, OfFlowTest, OfLay, OfPitot, OfPump, PITOT};

use crate::quantities::quantity::{Quantity, Units};

/// A mistake of the arithmetic as it is reported.
pub(crate) struct Told {
    /// The key of the file it is about; `None`: the object as a whole.
    pub(crate) key: Option<&'static str>,
    pub(crate) kind: MistakeKind,
    pub(crate) problem: Message,
    pub(crate) limit: Option<Message>,
    pub(crate) cure: Message,
}

/// Reports a mistake in an object of this shape.
pub(crate) fn tell(error: &FactError, shape: &'static Object, units: Units) -> Told {
    use MistakeKind::{BadNumber, CannotWork, Conflict, OutOfRange, WrongLength};
    let show = |field: &str, value: f64| quantity_of(field).show(value, units);
    let key = |field: &str| key_of(field, shape);
    let told = |field: &str,
                kind: MistakeKind,
                problem: Message,
                limit: Option<Message>,
                cure: &'static str| Told {
        key: key(field),
        kind,
        problem,
        limit,
        cure: cure.into(),
    };
    match error {
        FactError::OutsideRange { field, value, low, high, cure } => told(
            field,
            OutOfRange,
            says![show(field, *value), " is out of range"],
            Some(says!["from ", show(field, *low), " to ", show(field, *high)]),
            cure,
        ),
        FactError::NotListed { field, value, choices, cure } => told(
            field,
            MistakeKind::NotAChoice,
            says![show(field, *value), " is not listed"],
            Some(says!["one of ", *choices]),
            cure,
        ),
        FactError::BeyondTable { field, value, limit, cure } => told(
            field,
            OutOfRange,
            says![show(field, *value), " is beyond the table"],
            Some(says!["up to ", show(field, *limit)]),
            cure,
        ),
        FactError::Conflict { field, value, other, other_value, cure } => told(
            field,
            Conflict,
            says![
                show(field, *value),
                " does not fit with ",
                a_key(key(other).unwrap_or_default()),
                " ",
                show(other, *other_value)
            ],
            None,
            cure,
        ),
        FactError::NothingLeft { field, value, taken, cure, or_check } => {
            let limit = says!["above the ", show(field, *taken), " taken before any flows"];
            let problem = says![show(field, *value), " leaves nothing to move water"];
            let mut told = told(field, CannotWork, problem, Some(limit), cure);
            let keys: Vec<Message> =
                or_check.iter().filter_map(|field| Some(a_key(key(field)?).into())).collect();
            if !keys.is_empty() {
                told.cure.0.extend([Part::Words(", or check "), joined(keys, " and ").into()]);
            }
            told
        }
        FactError::BeyondCapacity { field, value, limit, cure } => told(
            field,
            CannotWork,
            says![show(field, *value), " is more than the pump gives"],
            Some(says!["up to ", show(field, *limit)]),
            cure,
        ),
        FactError::NotFinite { field, .. } => told(
            field,
            BadNumber,
            "this is no finite number".into(),
            None,
            "check what it follows from for extra digits",
        ),
        FactError::Negative { field, value } => told(
            field,
            OutOfRange,
            says![show(field, *value), " is below 0"],
            None,
            "check the sign",
        ),
        FactError::NotPositive { field, value } => told(
            field,
            OutOfRange,
            says![show(field, *value), " is not more than 0"],
            None,
            "check for a value left out",
        ),
        FactError::Empty { field, cure } => {
            told(field, WrongLength, "there are no entries, and one is needed".into(), None, cure)
        }
        FactError::TooLarge { .. } => told(
            "",
            BadNumber,
            "what follows from these facts is too large to be a number".into(),
            None,
            "check the facts for extra digits",
        ),
    }
}

/// The key of the scenario file for a field of the arithmetic, in an object of this shape; `None` where it has none.
fn key_of(field: &str, shape: &'static Object) -> Option<&'static str> {
    let is = |table: &'static Object| std::ptr::eq(shape, table);
    Some(match field {
        "diameter_in" if is(&PITOT) => OfPitot::OUTLET.key(),
        "diameter_in" => OfLay::DIAMETER.key(),
        "coefficient" | "measured_coefficient" => OfLay::COEFFICIENT.key(),
        "pitot_psi" => OfPitot::PITOT.key(),
        "flow_gpm" => OfFlowTest::FLOW.key(),
        "static_psi" => OfFlowTest::STATIC.key(),
        "residual_psi" if is(&LAY) => OfLay::INTAKE_PRESSURE.key(),
        "residual_psi" => OfFlowTest::RESIDUAL.key(),
        "wanted_residual_psi" => OfFlowTest::AT.key(),
        "rated_gpm" => OfPump::RATED.key(),
        "lift_ft" => OfPump::LIFT.key(),
        "altitude_ft" => OfPump::ALTITUDE.key(),
        "length_ft" => OfLay::LENGTH.key(),
        "width_ft" => OfTankSize::WIDTH.key(),
        "depth_ft" => OfTankSize::DEPTH.key(),
        "slope_percent" => OfTankSize::SLOPE.key(),
        "strainer_depth_in" => OfTankSize::STRAINER_DEPTH.key(),
        "strainer_from_low_side_ft" => OfTankSize::STRAINER_FROM_LOW_SIDE.key(),
        "mean_depth_ft" => OfPondSize::MEAN_DEPTH.key(),
        "usable_depth_ft" => OfPondSize::USABLE_DEPTH.key(),
        "stories" if is(&BUILDING) => OfBuilding::STORIES.key(),
        "floors_burning" if is(&BUILDING) => OfBuilding::FLOORS_BURNING.key(),
        "eaves_ft" | "storey_heights_ft" if is(&BUILDING) => OfBuilding::HEIGHT.key(),
        "height_to_ridge_ft" if is(&BUILDING) => OfBuilding::RIDGE.key(),
        "height_ft" if is(&BUILDING) => OfBuilding::OPEN_HEIGHT.key(),
        "share_involved" if is(&BUILDING) => OfBuilding::INVOLVED.key(),
        "dwelling_construction_cap" if is(&BUILDING) => OfBuilding::DWELLING_CAP.key(),
        "exposure" if is(&BUILDING) => OfBuilding::EXPOSURE_CHARGE.key(),
        "communication" if is(&BUILDING) => OfBuilding::COMMUNICATION_CHARGE.key(),
        "lines" => OfLay::LINES.key(),
        "elevation_ft" => OfLay::ELEVATION.key(),
        "pump_pressure_psi" => OfLay::PUMP_PRESSURE.key(),
        "appliance_loss_psi" => OfLay::APPLIANCES.key(),
        "distance_miles" if is(&LEG_KM) => OfLegKm::KM.key(),
        "distance_miles" => OfLegMiles::MILES.key(),
        "speed_mph" if is(&LEG_KM) => OfLegKm::KMH.key(),
        "speed_mph" => OfLegMiles::MPH.key(),
        _ => return None,
    })
}

/// What a field of the arithmetic measures, by the unit in its name.
fn quantity_of(field: &str) -> Quantity {
    match field.rsplit_once('_').map(|(_, unit)| unit) {
        Some("gpm") => Quantity::Flow,
        Some("psi") => Quantity::Pressure,
        Some("ft") => Quantity::Length,
        Some("ft2") => Quantity::Area,
        Some("in") => Quantity::Diameter,
        Some("gal") => Quantity::Volume,
        Some("miles") => Quantity::Miles,
        Some("mph") => Quantity::MilesPerHour,
        Some("min") => Quantity::Time,
        _ => Quantity::Plain,
    }
}
