//! What is said as figures: the quantities of a sentence, and sums of the trade's arithmetic part by part, each quantity
//! under a key with its unit.

use fireground::told::{Part, Told, Unit};
use scenario_file::{Figure, Message};
use schemars::JsonSchema;
use serde::Serialize;

use crate::say::{Chances, Piece, Sentence};

/// Megawatts in a million Btu a minute (NIST Special Publication 811, appendix B: international table Btu, 1,055.056 J).
const MEGAWATTS: f64 = 1_055.056 / 60.0;

/// A part of a sum or a quantity of a sentence: one of these, a share with the fires it is of.
#[derive(Debug, Clone, Default, PartialEq, Serialize, JsonSchema)]
pub struct SumPart {
    /// Words and signs of arithmetic.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<&'static str>,
    /// A constant of the rule, as it stands in a sum of US units and in one of metric units.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub constant: Option<ConstantInSum>,
    /// A number without a unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plain_number: Option<f64>,
    /// So many.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u64>,
    /// A share, between 0 and 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub share: Option<f64>,
    /// The simulated fires that the share is of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of_fires: Option<u64>,
    /// A moment after the alarm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_min: Option<f64>,
    /// A flow.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flow_gpm: Option<f64>,
    /// A volume of water.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub volume_gal: Option<f64>,
    /// A length on the ground or a height.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length_ft: Option<f64>,
    /// A diameter.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub diameter_inches: Option<f64>,
    /// An area.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub area_ft2: Option<f64>,
    /// A room.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub volume_ft3: Option<f64>,
    /// A distance by road.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub road_mi: Option<f64>,
    /// A speed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub speed_mph: Option<f64>,
    /// A pressure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressure_psi: Option<f64>,
    /// A time.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time_min: Option<f64>,
    /// Heat taken up.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub heat_megawatts: Option<f64>,
}

/// A constant of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct ConstantInSum {
    /// In a sum of US units.
    pub us: &'static str,
    /// In one of metric units.
    pub metric: &'static str,
}

/// A sum, part by part, in the order in which it is said.
pub fn sum(told: &Told) -> Vec<SumPart> {
    told.0.iter().map(part).collect()
}

fn part(of: &Part) -> SumPart {
    let none = SumPart::default();
    match *of {
        Part::Words(words) => SumPart { words: Some(words), ..none },
        Part::Number(value, _) => SumPart { plain_number: Some(value), ..none },
        Part::Share(share) => SumPart { share: Some(share), ..none },
        Part::Of(value, unit, _) | Part::Bare(value, unit, _) => quantity(value, unit),
        Part::Constant { us, metric } => {
            SumPart { constant: Some(ConstantInSum { us, metric }), ..none }
        }
        Part::Tanker => SumPart { words: Some("tanker"), ..none },
        Part::Hose(size) => SumPart { diameter_inches: Some(size.diameter_in()), ..none },
    }
}

/// A quantity under the key of its unit.
fn quantity(value: f64, unit: Unit) -> SumPart {
    let none = SumPart::default();
    let value = Some(value);
    match unit {
        Unit::Gpm => SumPart { flow_gpm: value, ..none },
        Unit::Gallons => SumPart { volume_gal: value, ..none },
        Unit::Feet => SumPart { length_ft: value, ..none },
        Unit::Inches => SumPart { diameter_inches: value, ..none },
        Unit::SquareFeet => SumPart { area_ft2: value, ..none },
        Unit::CubicFeet => SumPart { volume_ft3: value, ..none },
        Unit::Miles => SumPart { road_mi: value, ..none },
        Unit::Mph => SumPart { speed_mph: value, ..none },
        Unit::Psi => SumPart { pressure_psi: value, ..none },
        Unit::Minutes => SumPart { time_min: value, ..none },
        Unit::MillionBtuAMinute => {
            SumPart { heat_megawatts: value.map(|heat| heat * MEGAWATTS), ..none }
        }
    }
}

/// The quantities of a sentence, in the order in which it says them.
pub fn quantities(sentence: &Sentence) -> Vec<SumPart> {
    sentence.0.iter().flat_map(said).collect()
}

fn said(piece: &Piece) -> Vec<SumPart> {
    let none = SumPart::default();
    let share =
        |of: Chances| SumPart { share: Some(of.share), of_fires: Some(of.fires), ..none.clone() };
    let one = match piece {
        Piece::Within(sentence) => return quantities(sentence),
        Piece::FileNote(note) => return figures(&note.told),
        Piece::Words(_)
        | Piece::Name(_)
        | Piece::Tanker
        | Piece::Tankers
        | Piece::VolumeSign
        | Piece::FlowSign
        | Piece::LengthSign
        | Piece::DistanceSign
        | Piece::Command(_)
        | Piece::ByMedium { .. }
        | Piece::Key { .. }
        | Piece::Worked(Part::Words(_) | Part::Tanker) => return Vec::new(),
        Piece::Worked(worked) => part(worked),
        Piece::Count(count) | Piece::TankerCount(count) => {
            SumPart { count: Some(*count as u64), ..none }
        }
        Piece::Volume(gallons) | Piece::BareVolume(gallons) => quantity(*gallons, Unit::Gallons),
        Piece::Flow(gpm) | Piece::BareFlow(gpm) => quantity(*gpm, Unit::Gpm),
        Piece::Distance(miles) | Piece::ExactDistance(miles) | Piece::BareDistance(miles) => {
            quantity(*miles, Unit::Miles)
        }
        Piece::Length(feet) => quantity(*feet, Unit::Feet),
        Piece::Pressure(psi) => quantity(*psi, Unit::Psi),
        Piece::Speed(mph) => quantity(*mph, Unit::Mph),
        Piece::Minutes(minutes) | Piece::Duration(minutes) => quantity(*minutes, Unit::Minutes),
        Piece::Clock(minute) => SumPart { at_min: Some(*minute), ..none },
        Piece::Fires(of)
        | Piece::Percent(of)
        | Piece::PercentTo(of, _)
        | Piece::OfHundred(of, _) => share(*of),
        Piece::Share(of) => SumPart { share: Some(*of), ..none },
        Piece::Number(value, _) | Piece::Signed(value, _) => {
            SumPart { plain_number: Some(*value), ..none }
        }
    };
    vec![one]
}

/// The figures of what the check of the file tells, in the order in which it says them.
pub fn figures(of: &Message) -> Vec<SumPart> {
    let none = SumPart::default();
    let each = of.figures().into_iter().map(|figure| match figure {
        Figure::Of(value, unit) => quantity(value, unit),
        Figure::Share(share) => SumPart { share: Some(share), ..none.clone() },
        Figure::Plain(value) => SumPart { plain_number: Some(value), ..none.clone() },
    });
    each.collect()
}

/// What a sum comes to, under the key of its unit; a plain number where the unit is none of those.
///
/// - Given: the unit as the trade's arithmetic has it.
pub fn comes_to(value: f64, unit: &str) -> SumPart {
    match unit {
        "gpm" => quantity(value, Unit::Gpm),
        "gal" => quantity(value, Unit::Gallons),
        "ft" => quantity(value, Unit::Feet),
        "ft3" => quantity(value, Unit::CubicFeet),
        "psi" => quantity(value, Unit::Psi),
        "min" => quantity(value, Unit::Minutes),
        _ => SumPart { plain_number: Some(value), ..SumPart::default() },
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{json, to_value};

    use super::*;

    #[test]
    fn a_sum_keeps_its_quantities_under_their_units() {
        let told = Told(vec![
            Part::Bare(60.0, Unit::Feet, 1),
            Part::Words(" x "),
            Part::Number(3.0, 0),
            Part::Words(" = "),
            Part::Of(720.0, Unit::Gpm, 0),
        ]);
        assert_eq!(
            to_value(sum(&told)).unwrap(),
            json!([{"length_ft": 60.0}, {"words": " x "}, {"plain_number": 3.0}, {"words": " = "}, {"flow_gpm": 720.0}])
        );
        assert_eq!(to_value(comes_to(12.5, "min")).unwrap(), json!({"time_min": 12.5}));
    }
}
