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
mod tests {
    use super::*;
    use crate::surveyed_building::Exposure;
    use crate::surveyed_building::tests::{NEIGHBOR, house};

    fn flow(rule: Rule, building: &Building) -> f64 {
        asked_by(rule, building).unwrap().value
    }

    #[test]
    fn a_dwelling_has_its_table_in_both_editions_and_no_formula() {
        let rows = side_by_side(&Building { exposures: vec![NEIGHBOR], ..house() }).unwrap();
        let told: Vec<(&str, f64, bool)> =
            rows.iter().map(|row| (row.name(), row.flow.value, row.taken)).collect();
        // 1,200 ft2 / 3 = 400, half of it and 25% of it for the exposure; 1,200 x 8 / 100;
        // 24,000 / 7 x 1.0 x 1.5 = 5,143 gal -> 500 gpm (NFPA 1142 annex, inputs from memory); 25 ft in the
        // older table 1,000 gpm, in the newer 750 (ISO, newer from memory).
        assert_eq!(
            told,
            [
                ("area / 3", 300.0, true),
                ("volume / 100", 96.0, true),
                ("minimum supply", 500.0, true),
                ("insurance table, older edition", 1000.0, true),
                ("insurance table, newer edition", 750.0, false),
                // 220 x 1.5 x sqrt(223 m2) = 4,927 -> 5,000 L/min; 7.6 m away 20%: 6,000 L/min.
                ("insurance flow, Canada", 6_000.0 / 3.785_411_784, true),
            ]
        );
        assert!(rows[2].flow.how.to_string().contains("x 1.5 (exposure) = 5,143 gal"));
    }

    #[test]
    fn a_taller_dwelling_and_any_other_building_have_the_formula() {
        let tall = Building { stories: 3, eaves_ft: 24.0, ..house() };
        // 1,200 ft2 x (1 + 2 / 2) = 2,400: 18 x 1.5 x sqrt(2,400) = 1,323 -> 1,250 (ISO guide).
        assert_eq!(flow(Rule::Insurance, &tall), 1250.0);
        let shop = Building { dwelling: false, stories: 1, ..house() };
        // 18 x 1.5 x sqrt(1,200) = 935 -> 1,000.
        assert_eq!(flow(Rule::Insurance, &shop), 1000.0);
        assert_eq!(side_by_side(&shop).unwrap().len(), 5);
        let masonry = Building { construction: ConstructionType::III, ..shop };
        // 18 x 1.0 x sqrt(1,200) = 624 -> 500.
        assert_eq!(flow(Rule::Insurance, &masonry), 500.0);
    }

    #[test]
    fn a_dwelling_alone_is_read_at_the_end_of_the_table() {
        let alone = asked_by(Rule::Insurance, &house()).unwrap();
        assert_eq!(alone.value, 500.0);
        assert_eq!(alone.how.to_string(), "a dwelling with no other building near: 500 gpm");
    }

    #[test]
    fn only_hazards_count_as_exposures_and_the_open_space_has_its_own_height() {
        let shed = Exposure { area_ft2: 80.0, ..NEIGHBOR };
        let house = Building { exposures: vec![shed], ..house() };
        assert_eq!(flow(Rule::Area, &house), 200.0);
        let open = Building { open_height_ft: Some(20.0), ..house };
        assert_eq!(flow(Rule::Volume, &open), 240.0);
    }

    #[test]
    fn the_roof_left_out_of_the_volume_is_told() {
        let told = |building: &Building| {
            asked_by(Rule::Volume, building)
                .unwrap()
                .warnings
                .iter()
                .map(ToString::to_string)
                .collect::<String>()
        };
        let barn = Building { stories: 1, ridge_ft: 12.0, eaves_ft: 16.0, ..house() };
        // 40 x 30 x (16 + 6) / 100 = 264 gpm (Iowa State rule; half the ridge as NFPA 1142 takes volumes).
        let expected = barn.length_ft * barn.width_ft * 22.0 / 100.0;
        assert!(told(&barn).contains(&format!("{expected:.0} gpm")), "{}", told(&barn));
        assert!(!told(&Building { open_height_ft: Some(20.0), ..barn.clone() }).contains("roof"));
        assert!(!told(&Building { ridge_ft: 0.0, ..barn }).contains("roof"));
    }

    #[test]
    fn a_hundred_feet_are_a_hundred_feet_in_metres_too() {
        let asks = |distance_ft: f64, table| {
            let house =
                Building { exposures: vec![Exposure { distance_ft, ..NEIGHBOR }], ..house() };
            by_table(&house, table).unwrap().value
        };
        // More than 100 ft 500 gpm, 31 to 100 ft 750 (rating schedule, older); the newer table from memory.
        for distance_ft in [100.0, 30.5 / 0.3048] {
            assert_eq!(asks(distance_ft, DwellingTable::Older), 750.0, "{distance_ft} ft");
        }
        assert_eq!(asks(101.0, DwellingTable::Older), 500.0);
        assert_eq!(asks(9.2 / 0.3048, DwellingTable::Newer), 750.0);
        assert_eq!(asks(31.0, DwellingTable::Newer), 500.0);
    }

    #[test]
    fn a_neighbor_at_forty_feet_is_near_in_metres_too() {
        let near = |distance_ft: f64| {
            let neighbor = Exposure { distance_ft, ..NEIGHBOR };
            let shop = Building { dwelling: false, exposures: vec![neighbor], ..house() };
            asked_by(Rule::Insurance, &shop)
                .unwrap()
                .warnings
                .iter()
                .map(ToString::to_string)
                .collect::<String>()
                .contains("within 40 ft")
        };
        assert!(near(40.0) && near(12.2 / 0.3048) && !near(41.0));
    }

    #[test]
    fn metres_leave_no_nonsense_digits_in_the_sums() {
        let barn = Building {
            length_ft: 24.4 / 0.3048,
            width_ft: 12.2 / 0.3048,
            dwelling: false,
            ..house()
        };
        let rows = side_by_side(&barn).unwrap();
        assert!(rows[0].flow.how.to_string().starts_with("80.1 x 40 ft"), "{}", rows[0].flow.how);
        assert!(rows[3].flow.how.to_string().contains("sqrt(4,806.3)"), "{}", rows[3].flow.how);
    }

    #[test]
    fn a_near_neighbor_without_a_charge_and_impossible_floors_are_told() {
        let shop = Building { dwelling: false, exposures: vec![NEIGHBOR], ..house() };
        assert_eq!(asked_by(Rule::Insurance, &shop).unwrap().warnings.len(), 1);
        let charged = Building { exposure_charge: 0.1, ..shop.clone() };
        assert!(asked_by(Rule::Insurance, &charged).unwrap().warnings.is_empty());
        let far = Exposure { distance_ft: 41.0, ..NEIGHBOR };
        let far = Building { exposures: vec![far], ..shop };
        assert!(asked_by(Rule::Insurance, &far).unwrap().warnings.is_empty());
        let wrong = Building { floors_burning: 3, ..house() };
        assert!(matches!(
            asked_by(Rule::Area, &wrong),
            Err(FactError::Conflict { field: "floors_burning", .. })
        ));
    }
}
