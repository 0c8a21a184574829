//! Every rule beside the others, on buildings worked by hand.

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
        let house = Building { exposures: vec![Exposure { distance_ft, ..NEIGHBOR }], ..house() };
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
    let barn =
        Building { length_ft: 24.4 / 0.3048, width_ft: 12.2 / 0.3048, dwelling: false, ..house() };
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
