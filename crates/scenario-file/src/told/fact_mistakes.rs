//! Mistakes of the arithmetic in the words and units of the scenario file.

use fireground::FactError;

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
    pub(crate) problem: String,
    pub(crate) limit: Option<String>,
    pub(crate) cure: String,
}

/// Reports a mistake in an object of this shape.
pub(crate) fn tell(error: &FactError, shape: &'static Object, units: Units) -> Told {
    let show = |field: &str, value: f64| quantity_of(field).show(value, units);
    let key = |field: &str| key_of(field, shape);
    let told = |field: &str, problem: String, limit: Option<String>, cure: &str| Told {
        key: key(field),
        problem,
        limit,
        cure: in_keys(cure, shape),
    };
    match error {
        FactError::OutsideRange { field, value, low, high, cure } => told(
            field,
            format!("{} is out of range", show(field, *value)),
            Some(format!("from {} to {}", show(field, *low), show(field, *high))),
            cure,
        ),
        FactError::NotListed { field, value, choices, cure } => told(
            field,
            format!("{} is not listed", show(field, *value)),
            Some(format!("one of {choices}")),
            cure,
        ),
        FactError::BeyondTable { field, value, limit, cure } => told(
            field,
            format!("{} is beyond the table", show(field, *value)),
            Some(format!("up to {}", show(field, *limit))),
            cure,
        ),
        FactError::Conflict { field, value, other, other_value, cure } => told(
            field,
            format!(
                "{} does not fit with `{}` {}",
                show(field, *value),
                key(other).unwrap_or_default(),
                show(other, *other_value)
            ),
            None,
            cure,
        ),
        FactError::NothingLeft { field, value, taken, cure } => told(
            field,
            format!("{} leaves nothing to move water", show(field, *value)),
            Some(format!("above the {} taken before any flows", show(field, *taken))),
            cure,
        ),
        FactError::BeyondCapacity { field, value, limit, cure } => told(
            field,
            format!("{} is more than the pump gives", show(field, *value)),
            Some(format!("up to {}", show(field, *limit))),
            cure,
        ),
        FactError::NotFinite { field, .. } => told(
            field,
            "this is no finite number".to_string(),
            None,
            "check what it follows from for extra digits",
        ),
        FactError::Negative { field, value } => {
            told(field, format!("{} is below 0", show(field, *value)), None, "check the sign")
        }
        FactError::NotPositive { field, value } => told(
            field,
            format!("{} is not more than 0", show(field, *value)),
            None,
            "check for a value left out",
        ),
        FactError::Empty { field, cure } => {
            told(field, "there are no entries, and one is needed".to_string(), None, cure)
        }
        FactError::TooLarge { .. } => told(
            "",
            "what follows from these facts is too large to be a number".to_string(),
            None,
            "check the facts for extra digits",
        ),
    }
}

/// A cure with the arithmetic's field names said as keys of the file.
fn in_keys(text: &str, shape: &'static Object) -> String {
    let words: Vec<String> = (text.split(' '))
        .map(|word| {
            let bare = word.trim_matches(|c: char| !c.is_alphanumeric());
            match key_of(bare, shape) {
                Some(key) if bare.contains('_') => word.replace(bare, &format!("`{key}`")),
                _ => word.to_string(),
            }
        })
        .collect();
    words.join(" ")
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
