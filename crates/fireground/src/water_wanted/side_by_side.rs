//! One building, every rule: what each asks for, side by side. The rules were made for different ends and
//! disagree; none is right for every fire.

use crate::canadian_flow::{CanadianBuilding, required_fire_flow};
use crate::fact_checks::{more_than_zero, one_or_more};
use crate::insurance_flow::{
    DwellingTable, InsuredBuilding, InsuredConstruction, dwelling_at, dwelling_flow,
    needed_fire_flow,
};
use crate::minimum_supply::{ConstructionType, delivery_rate, minimum_supply};
use crate::quick_flow_rules::{AreaRule, area_rule, volume_rule};
use crate::surveyed_building::{Building, TENTH_OF_A_METRE_FT};
use crate::told::{Part, Unit, told};
use crate::{FactError, Told, Worked};

/// A rule by which an attack flow may be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Area / 3.
    Area,
    /// Volume / 100.
    Volume,
    /// The rate at which the rural minimum supply is to be delivered.
    MinimumSupply,
    /// The insurance needed fire flow: for one- and two-family dwellings of up to two stories the table in
    /// the edition that the building names, else the formula.
    Insurance,
    /// The Canadian insurers' required fire flow.
    CanadianInsurance,
}

/// What one rule asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The rule.
    pub rule: Rule,
    /// Whether this row is the one that [`asked_by`] takes for its rule (a dwelling has a row for each
    /// edition of its table).
    pub taken: bool,
    /// Of a dwelling by the insurance table: the edition that was read.
    pub table: Option<DwellingTable>,
    /// The flow, gpm.
    pub flow: Worked,
    /// What the rule is made for and where it ends.
    pub limits: Told,
}

impl Asked {
    /// What to call it.
    pub fn name(&self) -> &'static str {
        match self.table {
            None => self.rule.name(),
            Some(DwellingTable::Older) => "insurance table, older edition",
            Some(DwellingTable::Newer) => "insurance table, newer edition",
        }
    }
}

/// Distance beyond which either edition of the table asks for its least, ft; a dwelling without neighbors
/// is read there. Source: ISO fire suppression rating schedule.
const BEYOND_TABLE_FT: f64 = 101.0;

/// Share of each further story that counts in the effective area. Source: ISO needed fire flow guide (the
/// largest floor and half of the others).
const FURTHER_STORY_SHARE: f64 = 0.5;

/// Distance within which a neighbor may have an exposure charge, ft. Source: ISO needed fire flow guide,
/// value from memory.
const CHARGED_WITHIN_FT: f64 = 40.0;

const MINIMUM_SUPPLY_SOURCE: &str = "NFPA 1142 chapter 4 and its table of delivery rates (the rates, construction types III and IV and the dwelling cap: values from memory)";

impl Rule {
    /// Every rule.
    pub const ALL: [Rule; 5] =
        [Rule::Area, Rule::Volume, Rule::MinimumSupply, Rule::Insurance, Rule::CanadianInsurance];

    /// The rule in words.
    pub fn name(self) -> &'static str {
        match self {
            Rule::Area => "area / 3",
            Rule::Volume => "volume / 100",
            Rule::MinimumSupply => "minimum supply",
            Rule::Insurance => "insurance flow",
            Rule::CanadianInsurance => "insurance flow, Canada",
        }
    }
}

/// The flow that one rule asks for.
///
/// - Given: the rule; the building.
/// - Returns: gpm with the sum written out. What each rule takes: area / 3, the stories that burn, 25% for
///   each neighbor that is an exposure hazard; volume / 100, the largest open space; minimum supply, its
///   delivery rate; insurance, the ground floor and half of the others, or the table.
/// - Errors: as [`area_rule`], [`volume_rule`], [`minimum_supply`], [`needed_fire_flow`], [`dwelling_flow`];
///   more stories burning than there are.
/// - Source: that of the rule.
pub fn asked_by(rule: Rule, building: &Building) -> Result<Worked, FactError> {
    match rule {
        Rule::Area => by_area(building),
        Rule::Volume => by_volume(building),
        Rule::MinimumSupply => by_minimum_supply(building),
        Rule::Insurance if building.has_table() => by_table(building, building.dwelling_table),
        Rule::Insurance => by_formula(building),
        Rule::CanadianInsurance => by_canadian_formula(building),
    }
}

/// Every rule that applies to a building, in the order of [`Rule::ALL`]; of the dwelling table both editions.
///
/// - Errors: as [`asked_by`].
pub fn side_by_side(building: &Building) -> Result<Vec<Asked>, FactError> {
    let asked = |rule: Rule, flow: Worked, limits: Told| Asked {
        rule,
        taken: true,
        table: None,
        flow,
        limits,
    };
    let mut rows = vec![
        asked(
            Rule::Area,
            by_area(building)?,
            told![
                "hand lines inside, up to about half involved and ",
                Part::Of(1_000.0, Unit::Gpm, 0),
            ],
        ),
        asked(
            Rule::Volume,
            by_volume(building)?,
            told!["a short attack with fog on one closed space; exposures are not in it"],
        ),
        asked(
            Rule::MinimumSupply,
            by_minimum_supply(building)?,
            told![
                "the least water to bring where there are no sprinklers, and the rate to bring it at"
            ],
        ),
    ];
    let canadian = asked(
        Rule::CanadianInsurance,
        by_canadian_formula(building)?,
        told!["rating by the Canadian insurers where there are no sprinklers (1999 edition)"],
    );
    if !building.has_table() {
        rows.push(asked(
            Rule::Insurance,
            by_formula(building)?,
            told![
                "rating and underwriting where there are no sprinklers, ",
                Part::Bare(500.0, Unit::Gpm, 0),
                " to ",
                Part::Of(12_000.0, Unit::Gpm, 0),
            ],
        ));
        rows.push(canadian);
        return Ok(rows);
    }
    for table in [DwellingTable::Older, DwellingTable::Newer] {
        rows.push(Asked {
            rule: Rule::Insurance,
            taken: table == building.dwelling_table,
            table: Some(table),
            flow: by_table(building, table)?,
            limits: told!["rating one- and two-family dwellings of up to two stories"],
        });
    }
    rows.push(canadian);
    Ok(rows)
}

fn by_area(building: &Building) -> Result<Worked, FactError> {
    one_or_more("stories", building.stories)?;
    if building.floors_burning > building.stories {
        return Err(FactError::Conflict {
            field: "floors_burning",
            value: f64::from(building.floors_burning),
            other: "stories",
            other_value: f64::from(building.stories),
            cure: "no more stories can burn than there are",
        });
    }
    area_rule(&AreaRule {
        length_ft: building.length_ft,
        width_ft: building.width_ft,
        floors: building.floors_burning,
        share_involved: building.share_involved,
        exposures: building.exposure_hazards()?,
    })
}

fn by_volume(building: &Building) -> Result<Worked, FactError> {
    let stories = one_or_more("stories", building.stories)?;
    let height = match building.open_height_ft {
        Some(height) => height,
        None => more_than_zero("eaves_ft", building.eaves_ft)? / stories,
    };
    let flow = volume_rule(building.length_ft, building.width_ft, height)?;
    let roof = height + 0.5 * building.ridge_ft;
    let with_roof = volume_rule(building.length_ft, building.width_ft, roof)?.value;
    let roof_left_out =
        building.open_height_ft.is_none() && building.stories == 1 && building.ridge_ft > 0.0;
    Ok(flow
        .warn_if(roof_left_out, || {
            told![
                "the space under the roof is not in it: with `open_height` ",
                Part::Of(roof, Unit::Feet, 1),
                ", the eaves and half the way to the ridge, it asks for ",
                Part::Of(with_roof, Unit::Gpm, 0),
            ]
        })
        .warn_if(!building.exposures.is_empty(), || {
            told!["volume / 100 has no water for the exposures in it"]
        }))
}

fn by_minimum_supply(building: &Building) -> Result<Worked, FactError> {
    let supply = minimum_supply(&building.rural()?)?;
    let mut rate = delivery_rate(supply.value)?;
    rate.how = supply.how.and(told!["; "]).and(rate.how);
    rate.source = MINIMUM_SUPPLY_SOURCE;
    rate.warnings.splice(0..0, supply.warnings);
    Ok(rate)
}

fn by_formula(building: &Building) -> Result<Worked, FactError> {
    let stories = one_or_more("stories", building.stories)?;
    let floor = more_than_zero("length_ft", building.length_ft)?
        * more_than_zero("width_ft", building.width_ft)?;
    let charged =
        building.nearest_ft().is_some_and(|near| near <= CHARGED_WITHIN_FT + TENTH_OF_A_METRE_FT);
    Ok(needed_fire_flow(&InsuredBuilding {
        effective_area_ft2: floor * (1.0 + FURTHER_STORY_SHARE * (stories - 1.0)),
        construction: insured(building.construction),
        contents: building.contents,
        exposure: building.exposure_charge,
        communication: building.communication_charge,
    })?
    .warn_if(charged && building.exposure_charge == 0.0, || {
        told![
            "a building stands within ",
            Part::Of(CHARGED_WITHIN_FT, Unit::Feet, 0),
            " and the insurance flow has no exposure charge in it: it asks for too little",
        ]
    }))
}

fn by_canadian_formula(building: &Building) -> Result<Worked, FactError> {
    let stories = one_or_more("stories", building.stories)?;
    let floor = more_than_zero("length_ft", building.length_ft)?
        * more_than_zero("width_ft", building.width_ft)?;
    required_fire_flow(&CanadianBuilding {
        floor_area_ft2: floor * stories,
        construction: insured(building.construction),
        contents: building.contents,
        exposures_ft: building.exposures.iter().map(|near| near.distance_ft).collect(),
    })
}

/// Classes of insured construction by type of construction. Source: ISO needed fire flow guide; heavy timber
/// as joisted masonry is a value from memory.
fn insured(construction: ConstructionType) -> InsuredConstruction {
    match construction {
        ConstructionType::I => InsuredConstruction::FireResistive,
        ConstructionType::II => InsuredConstruction::Noncombustible,
        ConstructionType::III | ConstructionType::IV => InsuredConstruction::JoistedMasonry,
        ConstructionType::V => InsuredConstruction::Frame,
    }
}

fn by_table(building: &Building, table: DwellingTable) -> Result<Worked, FactError> {
    match building.nearest_ft() {
        Some(distance) => {
            // The farthest line says "more than": a rounded metric figure just past it does not count.
            let mut flow = dwelling_flow((distance - TENTH_OF_A_METRE_FT).max(0.0), table)?;
            let stated = dwelling_flow(distance, table)?;
            // The other lines are whole feet and are read as stated.
            let farthest = dwelling_flow(BEYOND_TABLE_FT, table)?.value;
            if stated.value != farthest {
                return Ok(stated);
            }
            flow.how = dwelling_at(distance, flow.value, table);
            Ok(flow)
        }
        None => {
            let mut flow = dwelling_flow(BEYOND_TABLE_FT, table)?;
            flow.how = told![
                "a dwelling with no other building near: ",
                Part::Of(flow.value, Unit::Gpm, 0),
            ];
            Ok(flow)
        }
    }
}

#[cfg(test)]
mod tests;
