//! Water wanted: the rural standard.

use crate::close;
use fireground::minimum_supply::{
    ConstructionType, OccupancyHazard, RuralBuilding, delivery_rate, enclosed_volume,
    is_exposure_hazard, minimum_supply,
};

fn building(length: f64, width: f64, storeys: &[f64], ridge: f64) -> RuralBuilding {
    RuralBuilding {
        length_ft: length,
        width_ft: width,
        storey_heights_ft: storeys.to_vec(),
        height_to_ridge_ft: ridge,
        occupancy: OccupancyHazard::Light,
        construction: ConstructionType::V,
        dwelling_construction_cap: None,
        exposed: false,
    }
}

#[test]
fn minimum_supply_matches_the_worked_examples() {
    let dwelling = RuralBuilding {
        dwelling_construction_cap: Some(1.0),
        ..building(50.0, 24.0, &[8.0, 8.0], 8.0)
    };
    let exposed = RuralBuilding { exposed: true, ..dwelling.clone() };
    let store = RuralBuilding {
        occupancy: OccupancyHazard::Moderate,
        construction: ConstructionType::II,
        ..building(125.0, 100.0, &[14.0], 0.0)
    };
    let rows = [
        // (building, ft3, gal, gpm, source)
        (
            &dwelling,
            24_000.0,
            3429.0,
            500.0,
            "NFPA 1142 annex, dwelling (inputs: value from memory)",
        ),
        (
            &exposed,
            24_000.0,
            5143.0,
            500.0,
            "NFPA 1142 annex, dwelling with exposure (inputs: value from memory)",
        ),
        (
            &store,
            175_000.0,
            26_250.0,
            1000.0,
            "NFPA 1142 annex, store (value from memory, low confidence)",
        ),
    ];
    for (building, volume, gallons, rate, source) in rows {
        let supply = minimum_supply(building).unwrap();
        close("volume", enclosed_volume(building).unwrap().value, volume, 1e-6, source);
        close("supply", supply.value, gallons, 0.5, source);
        close("rate", delivery_rate(supply.value).unwrap().value, rate, 0.0, source);
    }
}

#[test]
fn minimum_supply_never_falls_below_its_floors() {
    let shed =
        RuralBuilding { construction: ConstructionType::I, ..building(12.0, 12.0, &[8.0], 4.0) };
    let exposed = RuralBuilding { exposed: true, ..shed.clone() };
    let rows = [
        (&shed, 2000.0, "NFPA 1142: 2,000 gal at least"),
        (&exposed, 3000.0, "NFPA 1142: 3,000 gal at least with exposure"),
    ];
    for (building, gallons, source) in rows {
        close("supply", minimum_supply(building).unwrap().value, gallons, 0.0, source);
    }
}

#[test]
fn volume_counts_half_the_height_to_the_ridge() {
    // V = L x W x (sum of storey heights + half the height to the ridge), NFPA 1142, worked here.
    let source = "NFPA 1142: length x width x (storeys + half the height to the ridge)";
    let rows = [
        (60.0, 36.0, vec![9.0, 8.0], 10.0, 60.0 * 36.0 * (9.0 + 8.0 + 10.0 / 2.0)),
        (100.0, 40.0, vec![16.0], 0.0, 100.0 * 40.0 * 16.0),
    ];
    for (length, width, storeys, ridge, expected) in rows {
        let got = enclosed_volume(&building(length, width, &storeys, ridge)).unwrap().value;
        close("volume", got, expected, 1e-6, source);
    }
}

#[test]
fn occupancy_and_construction_classes_carry_their_numbers() {
    let occupancies = [
        (OccupancyHazard::Severe, 3.0, "NFPA 1142: severe hazard"),
        (OccupancyHazard::High, 4.0, "NFPA 1142: high hazard, commercial barn"),
        (OccupancyHazard::Moderate, 5.0, "NFPA 1142: moderate hazard"),
        (OccupancyHazard::Low, 6.0, "NFPA 1142: low hazard"),
        (OccupancyHazard::Light, 7.0, "NFPA 1142: light hazard, dwelling"),
    ];
    let constructions = [
        (ConstructionType::I, 0.5, "NFPA 1142: type I"),
        (ConstructionType::II, 0.75, "NFPA 1142: type II"),
        (ConstructionType::III, 1.0, "NFPA 1142: type III (value from memory)"),
        (ConstructionType::IV, 0.75, "NFPA 1142: type IV (value from memory)"),
        (ConstructionType::V, 1.5, "NFPA 1142: type V"),
    ];
    let barn = building(80.0, 50.0, &[14.0], 12.0);
    let volume = 80.0 * 50.0 * 20.0;
    for (occupancy, class, source) in occupancies {
        let built = RuralBuilding { occupancy, ..barn.clone() };
        close("supply", minimum_supply(&built).unwrap().value, volume / class * 1.5, 1e-6, source);
    }
    for (construction, class, source) in constructions {
        let built = RuralBuilding { construction, ..barn.clone() };
        close("supply", minimum_supply(&built).unwrap().value, volume / 7.0 * class, 1e-6, source);
    }
    let mixed = [OccupancyHazard::Light, OccupancyHazard::High, OccupancyHazard::Low];
    assert_eq!(
        OccupancyHazard::worst(&mixed),
        Ok(OccupancyHazard::High),
        "NFPA 1142: a mix takes the worst"
    );
    let mixed = [ConstructionType::II, ConstructionType::V, ConstructionType::III];
    assert_eq!(
        ConstructionType::highest(&mixed),
        Ok(ConstructionType::V),
        "NFPA 1142: a mix takes the highest"
    );
}

#[test]
fn exposure_is_within_50_ft_and_100_ft2_or_any_size_of_class_3_or_4() {
    use OccupancyHazard::{High, Light, Moderate, Severe};
    let source = "NFPA 1142, exposure hazard";
    let rows = [
        // (ft, ft2, own, neighbor, exposure)
        (50.0, 100.0, Light, Light, true),
        (50.1, 100.0, Light, Light, false),
        (50.0, 99.0, Light, Moderate, false),
        (50.0, 20.0, Light, High, true),
        (10.0, 20.0, Severe, Light, true),
        (60.0, 5000.0, Severe, Severe, false),
    ];
    for (distance, area, own, neighbor, expected) in rows {
        let got = is_exposure_hazard(distance, area, own, neighbor).unwrap();
        assert_eq!(got, expected, "{distance} ft, {area} ft2, {own:?}, {neighbor:?}: {source}");
    }
}

#[test]
fn delivery_rate_follows_the_table() {
    let source = "NFPA 1142 table of delivery rates (value from memory)";
    let rows = [
        (2000.0, 250.0),
        (2499.0, 250.0),
        (2500.0, 500.0),
        (9999.0, 500.0),
        (10_000.0, 750.0),
        (19_999.0, 750.0),
        (20_000.0, 1000.0),
        (90_000.0, 1000.0),
    ];
    for (gallons, rate) in rows {
        close(&format!("{gallons} gal"), delivery_rate(gallons).unwrap().value, rate, 0.0, source);
    }
}
