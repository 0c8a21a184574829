//! Mistakes of the arithmetic in the words and units of the scenario file.

use fireground::FactError;

use crate::quantities::quantity::{Quantity, Units};

/// A mistake of the arithmetic as it is reported.
pub(crate) struct Told {
    /// The key of the file it is about; empty: the object as a whole.
    pub(crate) key: &'static str,
    pub(crate) problem: String,
    pub(crate) limit: Option<String>,
    pub(crate) cure: String,
}

/// Reports a mistake in an object of this shape.
pub(crate) fn tell(error: &FactError, shape: &str, units: Units) -> Told {
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
                key(other),
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
fn in_keys(text: &str, shape: &str) -> String {
    let words: Vec<String> = (text.split(' '))
        .map(|word| {
            let bare = word.trim_matches(|c: char| !c.is_alphanumeric());
            match key_of(bare, shape) {
                key if bare.contains('_') && !key.is_empty() => {
                    word.replace(bare, &format!("`{key}`"))
                }
                _ => word.to_string(),
            }
        })
        .collect();
    words.join(" ")
}

/// The key of the scenario file for a field of the arithmetic; empty where it has none.
fn key_of(field: &str, shape: &str) -> &'static str {
    match (field, shape) {
        ("diameter_in", "hydrant_pitot") => "outlet",
        ("diameter_in", _) => "diameter",
        ("coefficient" | "measured_coefficient", _) => "coefficient",
        ("pitot_psi", _) => "pitot",
        ("flow_gpm", _) => "flow",
        ("static_psi", _) => "static",
        ("residual_psi", "lay") => "intake_pressure",
        ("residual_psi", _) => "residual",
        ("wanted_residual_psi", _) => "at",
        ("rated_gpm", _) => "rated",
        ("lift_ft", _) => "lift",
        ("altitude_ft", _) => "altitude",
        ("length_ft", _) => "length",
        ("width_ft", _) => "width",
        ("depth_ft", _) => "depth",
        ("slope_percent", _) => "slope",
        ("strainer_depth_in", _) => "strainer_depth",
        ("strainer_from_low_side_ft", _) => "strainer_from_low_side",
        ("mean_depth_ft", _) => "mean_depth",
        ("usable_depth_ft", _) => "usable_depth",
        ("stories", "building") => "stories",
        ("floors_burning", "building") => "floors_burning",
        ("eaves_ft" | "storey_heights_ft", "building") => "height",
        ("height_to_ridge_ft", "building") => "ridge",
        ("height_ft", "building") => "open_height",
        ("share_involved", "building") => "involved",
        ("dwelling_construction_cap", "building") => "dwelling_cap",
        ("exposure", "building") => "exposure_charge",
        ("communication", "building") => "communication_charge",
        ("lines", _) => "lines",
        ("elevation_ft", _) => "elevation",
        ("pump_pressure_psi", _) => "pump_pressure",
        ("appliance_loss_psi", _) => "appliances",
        ("distance_miles", "leg_km") => "km",
        ("distance_miles", _) => "miles",
        ("speed_mph", "leg_km") => "kmh",
        ("speed_mph", _) => "mph",
        _ => "",
    }
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
