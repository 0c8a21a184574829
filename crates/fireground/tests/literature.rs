//! Values from outside: each row carries its source, and the failure names it.
//!
//! "Value from memory" marks what was recalled and not confirmed against the text of the standard; "derived"
//! is arithmetic from a sourced row; "common practice" has no single source.

use fireground::attack_lines::{LineFlows, attack_lines};
use fireground::building::{AreaRule, area_rule, total_water, volume_rule};
use fireground::drop_tank::{DropTank, drop_tank_water};
use fireground::heat::{POUNDS_PER_GALLON, heat_absorbed};
use fireground::hose::{HoseSize, elevation_pressure, friction_loss, water_in_hose};
use fireground::hydrant::{HydrantTest, OutletKind, PitotReading, flow_at_residual, outlet_flow};
use fireground::insurance_flow::{
    Contents, DwellingTable, InsuredBuilding, InsuredConstruction, dwelling_flow, needed_fire_flow,
};
use fireground::lay::{Lay, greatest_flow, lay_friction, pressure_needed};
use fireground::minimum_supply::{
    ConstructionType, OccupancyHazard, RuralBuilding, delivery_rate, enclosed_volume,
    is_exposure_hazard, minimum_supply,
};
use fireground::pond::{Lasts, Pond, lasting_time, pond_water};
use fireground::pump::{
    THEORETICAL_LIFT_FT, attainable_lift, capacity_at_pressure, draft_capacity,
};
use fireground::relay::{Relay, relay};
use fireground::suction::{DryHydrant, dry_hydrant_flow, pipe_friction, suction_head};
use fireground::travel::{minutes_per_mile, shuttle_leg_time, travel_time, travel_time_at_speed};
use fireground::{GALLONS_PER_CUBIC_FOOT, PSI_PER_FOOT};

/// Fails with the row's source when `got` is farther than `tolerance` from `expected`.
fn close(what: &str, got: f64, expected: f64, tolerance: f64, source: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, {source} gives {expected}");
}

// ---------------------------------------------------------------- water wanted

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

#[test]
fn area_rule_matches_published_fires() {
    let rows = [
        // (ft, ft, floors, share, exposures, gpm, source)
        (
            30.0,
            50.0,
            1,
            0.25,
            0,
            125.0,
            "fire journal article on fire flow, National Fire Academy rule",
        ),
        (30.0, 40.0, 1, 1.0, 0, 400.0, "common practice"),
        (
            30.0,
            40.0,
            1,
            1.0,
            1,
            500.0,
            "National Fire Academy, 25% for an exposure (value from memory)",
        ),
        (
            30.0,
            40.0,
            2,
            0.25,
            2,
            600.0,
            "National Fire Academy, 25% for each exposure (value from memory)",
        ),
    ];
    for (length_ft, width_ft, floors, share_involved, exposures, gpm, source) in rows {
        let asked = AreaRule { length_ft, width_ft, floors, share_involved, exposures };
        close("area rule", area_rule(&asked).unwrap().value, gpm, 1e-9, source);
    }
}

#[test]
fn volume_rule_matches_published_fires() {
    let rows = [
        (
            50.0,
            75.0,
            12.0,
            450.0,
            1e-9,
            "trade journal, Iowa State rule: noncombustible mercantile",
        ),
        // The answer key rounds 2,187.5 to 2,200.
        (125.0, 175.0, 10.0, 2200.0, 15.0, "promotion examination question with its answer key"),
    ];
    for (length, width, height, gpm, tolerance, source) in rows {
        close(
            "volume rule",
            volume_rule(length, width, height).unwrap().value,
            gpm,
            tolerance,
            source,
        );
    }
}

#[test]
fn total_water_is_flow_times_time() {
    let rows = [
        (250.0, 120.0, 30_000.0, "ISO water supply evaluation: 250 gpm for 2 h (derived)"),
        (200.0, 20.0, 4000.0, "FSRS item 800: 200 gpm for 20 min (derived)"),
        (800.0, 120.0, 96_000.0, "Maryland county drill report, 2010: 800 gpm for 2 h (derived)"),
    ];
    for (gpm, minutes, gallons, source) in rows {
        close("water", total_water(gpm, minutes).unwrap().value, gallons, 1e-9, source);
    }
}

#[test]
fn insurance_flow_matches_the_guide() {
    use InsuredConstruction::{FireResistive, Frame, JoistedMasonry, Noncombustible};
    let base = InsuredBuilding {
        effective_area_ft2: 2000.0,
        construction: Frame,
        contents: Contents::Combustible,
        exposure: 0.0,
        communication: 0.0,
    };
    let rows = [
        // (ft2, construction, gpm, source)
        (
            2000.0,
            Frame,
            1250.0,
            "ISO guide, C = 18 F sqrt(A), frame 1.5 (numbers: value from memory)",
        ),
        (
            20_000.0,
            JoistedMasonry,
            2500.0,
            "ISO guide, joisted masonry 1.0 (numbers: value from memory)",
        ),
        // 18 x 1.5 x 100 = 2,700: C 2,750. As a needed fire flow, to the nearest 500, that is 3,000.
        (
            10_000.0,
            Frame,
            3000.0,
            "ISO guide, rounding from 2,500 (derived; numbers: value from memory)",
        ),
        // 18 x 0.8 x 100 = 1,440 and 18 x 0.6 x 100 = 1,080.
        (
            10_000.0,
            Noncombustible,
            1500.0,
            "ISO guide, noncombustible 0.8 (derived; value from memory)",
        ),
        (
            10_000.0,
            FireResistive,
            1000.0,
            "ISO guide, fire resistive 0.6 (derived; value from memory)",
        ),
        // 18 x 1.5 x sqrt(400) = 540, to 500; and the limits themselves.
        (100.0, Frame, 500.0, "ISO guide: 500 gpm at least"),
        (
            1e6,
            JoistedMasonry,
            8000.0,
            "ISO guide: C of frame and joisted masonry ends at 8,000 (value from memory)",
        ),
        (
            1e6,
            FireResistive,
            6000.0,
            "ISO guide: C of the other classes ends at 6,000 (value from memory)",
        ),
    ];
    for (effective_area_ft2, construction, gpm, source) in rows {
        let asked = InsuredBuilding { effective_area_ft2, construction, ..base };
        close("needed fire flow", needed_fire_flow(&asked).unwrap().value, gpm, 0.0, source);
    }

    let source = "ISO guide, C x O x (1 + X + P) (numbers: value from memory)";
    let factors = [
        // C is 1,250 in each; (contents, O, X, P)
        (Contents::Noncombustible, 0.75, 0.0, 0.0),
        (Contents::LimitedCombustible, 0.85, 0.0, 0.0),
        (Contents::Combustible, 1.0, 0.15, 0.0),
        (Contents::FreeBurning, 1.15, 0.0, 0.30),
        (Contents::RapidBurning, 1.25, 0.20, 0.25),
    ];
    for (contents, o, exposure, communication) in factors {
        let asked = InsuredBuilding { contents, exposure, communication, ..base };
        let expected = (1250.0 * o * (1.0 + exposure + communication) / 250.0_f64).round() * 250.0;
        close("needed fire flow", needed_fire_flow(&asked).unwrap().value, expected, 0.0, source);
    }
    let most = InsuredBuilding {
        effective_area_ft2: 1e6,
        contents: Contents::RapidBurning,
        exposure: 0.25,
        communication: 0.35,
        ..base
    };
    close(
        "needed fire flow",
        needed_fire_flow(&most).unwrap().value,
        12_000.0,
        0.0,
        "ISO: 12,000 gpm at most",
    );
}

#[test]
fn insurance_factors_are_those_of_the_guide() {
    let source = "ISO guide (value from memory)";
    let constructions = [
        (InsuredConstruction::Frame, 1.5),
        (InsuredConstruction::JoistedMasonry, 1.0),
        (InsuredConstruction::Noncombustible, 0.8),
        (InsuredConstruction::FireResistive, 0.6),
    ];
    for (construction, factor) in constructions {
        close(&format!("{construction:?}"), construction.factor(), factor, 0.0, source);
    }
    let contents = [
        (Contents::Noncombustible, 0.75),
        (Contents::LimitedCombustible, 0.85),
        (Contents::Combustible, 1.0),
        (Contents::FreeBurning, 1.15),
        (Contents::RapidBurning, 1.25),
    ];
    for (contents, factor) in contents {
        close(&format!("{contents:?}"), contents.factor(), factor, 0.0, source);
    }
}

#[test]
fn dwelling_flow_follows_the_table_of_the_edition_chosen() {
    use DwellingTable::{Newer, Older};
    let older =
        "ISO fire suppression rating schedule, older edition, as quoted by a fire department page";
    let newer = "ISO fire suppression rating schedule, newer edition (value from memory)";
    let rows = [
        (Older, 101.0, 500.0, older),
        (Older, 100.0, 750.0, older),
        (Older, 31.0, 750.0, older),
        (Older, 30.0, 1000.0, older),
        (Older, 11.0, 1000.0, older),
        (Older, 10.0, 1500.0, older),
        (Older, 0.0, 1500.0, older),
        (Newer, 31.0, 500.0, newer),
        (Newer, 30.0, 750.0, newer),
        (Newer, 21.0, 750.0, newer),
        (Newer, 20.0, 1000.0, newer),
        (Newer, 11.0, 1000.0, newer),
        (Newer, 10.0, 1500.0, newer),
        // Between two lines the nearer one, which asks for more.
        (Older, 30.5, 1000.0, "read to the safe side"),
        (Newer, 10.5, 1500.0, "read to the safe side"),
    ];
    for (table, distance, gpm, source) in rows {
        let got = dwelling_flow(distance, table).unwrap().value;
        close(&format!("{table:?}, {distance} ft"), got, gpm, 0.0, source);
    }
}

#[test]
fn hand_lines_flow_what_practice_says() {
    let rows = [
        // (wanted gpm, lines as (size, count, gpm each))
        (150.0, vec![(HoseSize::OneAndThreeQuarter, 1, 150.0)]),
        (250.0, vec![(HoseSize::TwoAndHalf, 1, 250.0)]),
        (300.0, vec![(HoseSize::OneAndThreeQuarter, 2, 150.0)]),
        (400.0, vec![(HoseSize::TwoAndHalf, 1, 250.0), (HoseSize::OneAndThreeQuarter, 1, 150.0)]),
        (1000.0, vec![(HoseSize::TwoAndHalf, 4, 250.0)]),
    ];
    for (wanted, expected) in rows {
        let lines = attack_lines(wanted, &LineFlows::default()).unwrap();
        let got: Vec<_> = lines.groups.iter().map(|g| (g.size, g.count, g.flow_each_gpm)).collect();
        assert_eq!(
            got, expected,
            "{wanted} gpm: common practice, 1-3/4 in about 150, 2-1/2 in about 250"
        );
    }
}

#[test]
fn a_gallon_takes_9343_btu_from_62_f_to_steam() {
    // The published 9,346 does not follow from its own parts, 8.34 x (150 + 970): 3 Btu too many.
    let got = heat_absorbed(1.0, 1.0, 62.0).unwrap().value;
    close("Btu/gal", got, 9343.0, 1.0, "steam tables (derived; printed as 9,346)");
    close("Btu/gal", got, 9346.0, 3.5, "fire text as printed");
    // Enthalpy of saturated steam at 212 F less that of water at 62 F and 1 atm, Btu/lb.
    let iapws_btu_per_lb = 1120.151;
    let expected = POUNDS_PER_GALLON * iapws_btu_per_lb;
    close("Btu/gal", got, expected, 2.0, "IAPWS-IF97, worked with the general library iapws");
    close("lb/gal", POUNDS_PER_GALLON, 8.3357, 0.005, "IAPWS-IF97 density at 62 F, library iapws");
    let half = heat_absorbed(250.0, 0.5, 62.0).unwrap().value;
    close(
        "Btu/min",
        half,
        250.0 * 0.5 * expected,
        250.0,
        "IAPWS-IF97, half of 250 gpm to steam (derived)",
    );
}

// ---------------------------------------------------------------- the road

#[test]
fn travel_time_matches_the_rule() {
    let rows = [
        (1.5, 3.2, "ISO rating schedule, response-time considerations: engine company"),
        (2.5, 4.9, "ISO rating schedule, response-time considerations: ladder-service company"),
    ];
    for (miles, minutes, source) in rows {
        close(&format!("{miles} miles"), travel_time(miles).unwrap().value, minutes, 0.051, source);
    }
}

#[test]
fn minutes_per_mile_match_the_table() {
    let source = "NFPA 1142 annex C, X = 60 / mph (value from memory)";
    let rows = [(15.0, 4.0), (20.0, 3.0), (25.0, 2.4), (30.0, 2.0), (35.0, 1.7)];
    for (mph, factor) in rows {
        close(&format!("{mph} mph"), minutes_per_mile(mph).unwrap().value, factor, 0.05, source);
        let five_miles = travel_time_at_speed(5.0, mph).unwrap().value;
        close(&format!("5 miles at {mph} mph"), five_miles, 5.0 * factor, 0.25, source);
    }
}

#[test]
fn legs_give_the_published_tanker_rates() {
    // Q = V / (A + T1 + T2 + B) less 10%.
    let out = shuttle_leg_time(2.10, 35.0).unwrap().value;
    let back = shuttle_leg_time(1.70, 30.0).unwrap().value;
    let rate = 0.9 * 1500.0 / (3.0 + out + back + 4.0);
    close("gpm", rate, 88.0, 0.5, "NFPA 1142 annex C example (value from memory; the 10% seen)");

    // The round trip of 3 miles in the rule once, handling 9 min, 2,250 gal usable.
    let rate = 2250.0 / (travel_time(3.0).unwrap().value + 9.0);
    close("gpm", rate, 153.0, 0.5, "fire journal");

    let once = travel_time(3.0).unwrap().value;
    let each_leg = 2.0 * travel_time(1.5).unwrap().value;
    close("min", each_leg - once, 0.65, 1e-9, "the two readings of the rule (derived)");
}

// ---------------------------------------------------------------- hose

#[test]
fn hose_friction_matches_published_losses() {
    use HoseSize::{
        Five, Four, OneAndHalf, OneAndThreeQuarter, Six, Three, ThreeAndHalf,
        ThreeWithSmallCouplings, Two, TwoAndHalf,
    };
    let texts = "pump operator texts, coefficient table";
    let rows = [
        // (size, gpm, ft, psi, source)
        (OneAndThreeQuarter, 100.0, 100.0, 15.5, "pump operator texts"),
        (TwoAndHalf, 200.0, 300.0, 24.0, "pump operator texts"),
        (Five, 1000.0, 1000.0, 80.0, "pump operator texts (derived)"),
        (Four, 1000.0, 1000.0, 200.0, "pump operator texts (derived)"),
        (Two, 100.0, 100.0, 8.0, texts),
        (ThreeWithSmallCouplings, 100.0, 100.0, 0.8, "pump operator texts (value from memory)"),
        (Three, 100.0, 100.0, 0.677, texts),
        (OneAndHalf, 100.0, 100.0, 24.0, texts),
        (HoseSize::One, 60.0, 100.0, 54.0, "pump operator course, worked example"),
        (OneAndThreeQuarter, 150.0, 200.0, 69.75, "pump operator course, worked example"),
        (OneAndThreeQuarter, 185.0, 100.0, 53.05, "pump operator course, friction table"),
        (TwoAndHalf, 300.0, 200.0, 36.0, "pump operator course, friction table"),
        (Two, 500.0, 100.0, 200.0, "pump operator course, friction table"),
        (Three, 1000.0, 100.0, 67.7, "pump operator course, friction table"),
        (ThreeAndHalf, 1000.0, 100.0, 34.0, "pump operator course, friction table"),
        (HoseSize::FourAndHalf, 1500.0, 100.0, 22.5, "pump operator course, friction table"),
        (Six, 2000.0, 100.0, 20.0, "pump operator course, friction table"),
    ];
    for (size, gpm, feet, psi, source) in rows {
        let what = format!("{} {gpm} gpm {feet} ft", size.name());
        close(&what, friction_loss(size, gpm, feet).unwrap().value, psi, 0.01, source);
    }
}

const FLAT: Lay = Lay {
    size: HoseSize::Three,
    measured_coefficient: None,
    length_ft: 600.0,
    lines: 1,
    elevation_ft: 0.0,
    appliance_loss_psi: 0.0,
};

#[test]
fn parallel_lines_lose_what_one_loses_at_its_part_of_the_flow() {
    for lines in 1..=4 {
        let together = lay_friction(&Lay { lines, ..FLAT }, 900.0).unwrap().value;
        let alone =
            friction_loss(FLAT.size, 900.0 / f64::from(lines), FLAT.length_ft).unwrap().value;
        close(&format!("{lines} lines"), together, alone, 1e-9, "equal parallel lines (derived)");
    }
}

#[test]
fn the_greatest_flow_turns_published_losses_around() {
    let rows = [
        // A pump pressure of 20 psi and the published loss gives the published flow back.
        (
            HoseSize::Four,
            1000.0,
            220.0,
            1000.0,
            "pump operator texts: 4 in, 1,000 gpm, 1,000 ft, 200 psi",
        ),
        (
            HoseSize::Five,
            1000.0,
            100.0,
            1000.0,
            "pump operator texts: 5 in, 1,000 gpm, 1,000 ft, 80 psi",
        ),
        (
            HoseSize::TwoAndHalf,
            300.0,
            44.0,
            200.0,
            "pump operator texts: 2-1/2 in, 200 gpm, 300 ft, 24 psi",
        ),
    ];
    for (size, length_ft, pump, gpm, source) in rows {
        let lay = Lay { size, length_ft, ..FLAT };
        close(size.name(), greatest_flow(&lay, pump, 20.0).unwrap().value, gpm, 1e-6, source);
        close(size.name(), pressure_needed(&lay, gpm, 20.0).unwrap().value, pump, 1e-9, source);
        // Up 100 ft takes 43.4 psi, a 10 psi appliance 10 more, and twice the lines carry twice the flow.
        let hill = Lay { elevation_ft: 100.0, appliance_loss_psi: 10.0, lines: 2, ..lay };
        let got = greatest_flow(&hill, pump + 53.4, 20.0).unwrap().value;
        close(size.name(), got, 2.0 * gpm, 1e-6, source);
    }
}

#[test]
fn elevation_takes_0_434_psi_a_foot() {
    let source = "pump operator texts";
    for (feet, psi) in [(100.0, 43.4), (10.0, 4.34), (-50.0, -21.7)] {
        close(&format!("{feet} ft"), elevation_pressure(feet).unwrap().value, psi, 1e-9, source);
    }
    close("psi a foot", 1.0 / PSI_PER_FOOT, 2.304, 0.001, "NWCG: 1 psi = 2.304 ft");
    close("psi a foot", PSI_PER_FOOT, 62.4 / 144.0, 0.001, "water weighs 62.4 lb a cubic foot");
}

#[test]
fn hose_holds_the_published_water() {
    let rows = [
        // (size, ft, gal, tolerance, source)
        (HoseSize::OneAndHalf, 100.0, 9.2, 0.05, "NWCG"),
        (HoseSize::TwoAndHalf, 100.0, 25.5, 0.05, "pi r^2 h (derived)"),
        (HoseSize::Three, 100.0, 36.7, 0.05, "pi r^2 h (derived)"),
        (HoseSize::Four, 100.0, 65.3, 0.05, "pi r^2 h (derived)"),
        (HoseSize::Five, 100.0, 102.0, 0.05, "pi r^2 h (derived)"),
        (HoseSize::Five, 1000.0, 1020.0, 0.5, "pi r^2 h (derived)"),
    ];
    for (size, feet, gallons, tolerance, source) in rows {
        let what = format!("{} {feet} ft", size.name());
        close(&what, water_in_hose(size, feet, 1).unwrap().value, gallons, tolerance, source);
        close(
            &what,
            water_in_hose(size, feet, 3).unwrap().value,
            3.0 * gallons,
            3.0 * tolerance,
            source,
        );
    }
}

#[test]
fn a_relay_matches_the_maximum_distance_table() {
    // The relay texts pump 2-1/2 and 3 in hose at 200 psi and 4 and 5 in hose at 185 psi, with 20 psi left at
    // the next engine (seen). The distances are values from memory, low confidence; the table rounds them.
    let source =
        "pump operator text, maximum distance relay table (value from memory, low confidence)";
    let rows = [
        // (size, psi, gpm, rated gpm, ft)
        (HoseSize::TwoAndHalf, 200.0, 500.0, 750.0, 360.0),
        (HoseSize::ThreeWithSmallCouplings, 200.0, 500.0, 750.0, 900.0),
        (HoseSize::Four, 185.0, 1000.0, 1500.0, 825.0),
        (HoseSize::Five, 185.0, 1000.0, 1500.0, 2062.0),
    ];
    for (size, discharge_psi, flow_gpm, rated_gpm, feet) in rows {
        let task = Relay {
            size,
            measured_coefficient: None,
            lines: 1,
            length_ft: 3.5 * feet,
            elevation_ft: 0.0,
            flow_gpm,
            rated_gpm,
            discharge_psi,
            intake_psi: 20.0,
            appliance_loss_psi: 0.0,
        };
        let plan = relay(&task).unwrap();
        close(size.name(), plan.greatest_spacing.value, feet, 1.0, source);
        assert_eq!(plan.pumping_engines, 4, "{}: {source}", size.name());
        close(size.name(), plan.even_spacing_ft, 3.5 * feet / 4.0, 1e-6, source);
    }
}

// ---------------------------------------------------------------- hydrants

#[test]
fn an_outlet_flows_by_its_pitot_pressure() {
    let standard = "NFPA 291, 29.83 c d^2 sqrt(p) (formula: value from memory)";
    let engineers = "engineers' forum thread on NFPA 291";
    let rows = [
        // (kind, in, c, psi, gpm, source)
        (OutletKind::Hose, 2.5, 0.9, 10.0, 531.0, standard),
        (OutletKind::Hose, 2.5, 0.9, 25.0, 839.0, standard),
        (OutletKind::Hose, 2.5, 0.9, 40.0, 1061.0, standard),
        (OutletKind::Hose, 2.5, 0.9, 40.0, 1061.0, engineers),
        (OutletKind::Pumper, 4.0, 0.9, 10.0, 1127.0, engineers),
    ];
    for (kind, diameter_in, coefficient, pitot_psi, gpm, source) in rows {
        let reading = PitotReading { kind, diameter_in, coefficient, pitot_psi };
        close(&format!("{pitot_psi} psi"), outlet_flow(&reading).unwrap().value, gpm, 0.6, source);
    }
    // A published example prints 1,178 for 40 psi with c 0.9: it forgot c. Without it we come to the same.
    let reading = PitotReading {
        kind: OutletKind::Hose,
        diameter_in: 2.5,
        coefficient: 1.0,
        pitot_psi: 40.0,
    };
    close(
        "c forgotten",
        outlet_flow(&reading).unwrap().value,
        1178.0,
        1.5,
        "published hydrant test procedure",
    );
}

#[test]
fn a_pumper_outlet_flows_less_by_the_table() {
    let source = "NFPA 291 table for pumper outlets, as printed on a hydrant test page";
    let rows =
        [(2.0, 0.97), (3.0, 0.92), (4.0, 0.89), (5.0, 0.86), (6.0, 0.84), (7.0, 0.83), (9.0, 0.83)];
    for (pitot_psi, factor) in rows {
        let pumper = PitotReading {
            kind: OutletKind::Pumper,
            diameter_in: 4.5,
            coefficient: 0.9,
            pitot_psi,
        };
        let hose = PitotReading { kind: OutletKind::Hose, ..pumper };
        let got = outlet_flow(&pumper).unwrap().value / outlet_flow(&hose).unwrap().value;
        close(&format!("{pitot_psi} psi"), got, factor, 1e-12, source);
    }
}

#[test]
fn a_hydrant_test_gives_the_flow_at_20_psi() {
    let rows = [
        (1025.0, 90.0, 58.0, 20.0, 1564.0, 0.5, "NFPA 291 (value from memory)"),
        // The page rounds 3^0.54 = 1.810 to 1.78 and prints 1,424; with its own exponent it is 1,448.
        (800.0, 65.0, 50.0, 20.0, 800.0 * 3.0_f64.powf(0.54), 1e-6, "hydrant test page, formula"),
        (
            1178.0,
            80.0,
            60.0,
            20.0,
            2000.0,
            140.0,
            "published hydrant test procedure, printed as about 2,000",
        ),
    ];
    for (flow_gpm, static_psi, residual_psi, wanted, gpm, tolerance, source) in rows {
        let test = HydrantTest { flow_gpm, static_psi, residual_psi };
        close("gpm", flow_at_residual(&test, wanted).unwrap().value, gpm, tolerance, source);
    }
    // Pipe friction goes with the 1.85 power: twice the drop is 2^(1/1.85) times the flow, to the rounding of 0.54.
    let test = HydrantTest { flow_gpm: 1000.0, static_psi: 80.0, residual_psi: 60.0 };
    let got = flow_at_residual(&test, 40.0).unwrap().value;
    close("gpm", got, 1000.0 * 2.0_f64.powf(1.0 / 1.85), 1.0, "Hazen-Williams, exponent 1 / 1.85");
}

// ---------------------------------------------------------------- draft

#[test]
fn lift_table_and_limits() {
    let memory = "apparatus standard annex, 1,000 gpm pump, 5 in suction (value from memory)";
    let article = "trade article on drafting: 1,000 gpm at 10 ft, 590 gpm at 20 ft";
    let rows = [
        (4.0, 1160.0, memory),
        (10.0, 1000.0, article),
        (12.0, 935.0, memory),
        (14.0, 870.0, memory),
        (16.0, 790.0, memory),
        (18.0, 695.0, memory),
        (20.0, 590.0, article),
        (22.0, 465.0, memory),
        (24.0, 270.0, memory),
    ];
    for (lift, gpm, source) in rows {
        close(
            &format!("{lift} ft"),
            draft_capacity(1000.0, lift, 0.0).unwrap().value,
            gpm,
            1e-9,
            source,
        );
        // A pump is rated at 10 ft: whatever its rating, the share is the same.
        let larger = draft_capacity(1250.0, lift, 0.0).unwrap().value;
        close(
            &format!("{lift} ft"),
            larger,
            1.25 * gpm,
            1e-9,
            "in proportion to the rating (derived)",
        );
    }
    // A flash card for pump operators says about 70% at 15 ft and 60% at 20 ft; the table has 83% and 59%. The
    // 20 ft values agree; at 15 ft the card is far below every table and is not followed.
    close(
        "20 ft",
        draft_capacity(1000.0, 20.0, 0.0).unwrap().value,
        600.0,
        15.0,
        "pump operator cards",
    );
    close("theory", 14.7 * 2.304, THEORETICAL_LIFT_FT, 0.05, "NWCG: 14.7 psi at 2.304 ft");
    close(
        "attainable",
        attainable_lift(0.0).unwrap().value,
        THEORETICAL_LIFT_FT * 2.0 / 3.0,
        0.11,
        "NWCG: two thirds",
    );
    close("attainable", attainable_lift(0.0).unwrap().value, 22.5, 0.0, "NWCG as printed");
}

#[test]
fn altitude_takes_a_foot_of_lift_for_each_1000_ft() {
    let source = "pump operator texts: about 1 ft for each 1,000 ft";
    for (altitude, lift) in [(0.0, 22.5), (1000.0, 21.5), (5000.0, 17.5)] {
        close(
            &format!("{altitude} ft"),
            attainable_lift(altitude).unwrap().value,
            lift,
            1e-9,
            source,
        );
    }
    let got = draft_capacity(1000.0, 8.0, 4000.0).unwrap().value;
    close("8 ft at 4,000 ft", got, 935.0, 1e-9, "the table's row for 12 ft (derived)");
    // The weight of air falls by about 0.5 psi for each 1,000 ft: 1.15 ft of water.
    let per_1000 = attainable_lift(0.0).unwrap().value - attainable_lift(1000.0).unwrap().value;
    close(
        "per 1,000 ft",
        per_1000,
        0.5 / PSI_PER_FOOT,
        0.2,
        "pump operator cards: 0.5 psi for each 1,000 ft",
    );
}

#[test]
fn pump_rating_falls_with_pressure() {
    let source =
        "relay outline after a pump operator text: 100% at 150, 70% at 200, 50% at 250 psi";
    for (psi, share) in [(150.0, 1.0), (200.0, 0.7), (250.0, 0.5)] {
        close(
            &format!("{psi} psi"),
            capacity_at_pressure(1250.0, psi).unwrap().value,
            1250.0 * share,
            1e-9,
            source,
        );
    }
    // The outline names the smallest pump for each flow, at 200 psi in small hose and 185 psi in large hose.
    let smallest = [
        // (gpm, psi, pump that does, next smaller pump that does not)
        (500.0, 200.0, 750.0, 500.0),
        (750.0, 200.0, 1250.0, 1000.0),
        (1000.0, 200.0, 1500.0, 1250.0),
        (1250.0, 185.0, 1750.0, 1500.0),
    ];
    for (gpm, psi, does, does_not) in smallest {
        assert!(
            capacity_at_pressure(does, psi).unwrap().value >= gpm,
            "{does} gpm pump for {gpm}: {source}"
        );
        assert!(
            capacity_at_pressure(does_not, psi).unwrap().value < gpm,
            "{does_not} gpm pump for {gpm}: {source}"
        );
    }
}

// ---------------------------------------------------------------- pipes and ponds

#[test]
fn pipe_friction_matches_the_water_works_form() {
    // EPANET 2 users manual: h = 4.727 C^-1.852 d^-4.871 L q^1.852, ft, ft, cubic feet a second. Its exponent is
    // 1.852, the sprinkler standard's 1.85.
    let rows =
        [(150.0, 6.0, 500.0), (150.0, 6.0, 1000.0), (120.0, 8.0, 1000.0), (100.0, 4.0, 250.0)];
    for (c, inches, gpm) in rows {
        let cfs: f64 = gpm / 60.0 / GALLONS_PER_CUBIC_FOOT;
        let feet = 4.727
            * f64::powf(c, -1.852)
            * f64::powf(inches / 12.0, -4.871)
            * 100.0
            * cfs.powf(1.852);
        let got = pipe_friction(inches, c, 100.0, gpm).unwrap().value / PSI_PER_FOOT;
        let what = format!("C {c}, {inches} in, {gpm} gpm");
        close(&what, got, feet, 0.01 * feet, "EPANET 2 users manual, Hazen-Williams");
    }
}

#[test]
fn smooth_pipe_agrees_with_darcy_weisbach() {
    // Swamee and Jain 1976 for the friction factor; water at 59 F, drawn plastic. Hazen-Williams is a fit, so
    // within a few percent is all there is.
    let nu = 1.226e-5; // ft2/s
    let roughness = 5e-6; // ft
    for (inches, gpm) in [(6.0, 500.0), (6.0, 1000.0), (8.0, 1000.0), (4.0, 250.0)] {
        let d: f64 = inches / 12.0;
        let velocity = gpm / 60.0 / GALLONS_PER_CUBIC_FOOT / (std::f64::consts::PI * d * d / 4.0);
        let reynolds: f64 = velocity * d / nu;
        let f = 0.25 / (roughness / (3.7 * d) + 5.74 / reynolds.powf(0.9)).log10().powi(2);
        let feet = f * 100.0 / d * velocity * velocity / (2.0 * 32.174);
        let got = pipe_friction(inches, 150.0, 100.0, gpm).unwrap().value / PSI_PER_FOOT;
        close(
            &format!("{inches} in, {gpm} gpm"),
            got,
            feet,
            0.06 * feet,
            "Darcy-Weisbach, Swamee and Jain",
        );
    }
}

const BARE_PIPE: DryHydrant = DryHydrant {
    pipe_diameter_in: 6.0,
    pipe_length_ft: 100.0,
    hazen_williams_c: 120.0,
    elbows_90: 0,
    elbows_45: 0,
    reducers: 0,
    suction_hose: HoseSize::Six,
    suction_hose_ft: 0.0,
};

#[test]
fn dry_hydrant_losses_match_the_design_sheet() {
    let source = "NRCS dry hydrant design sheet NE-ENG-76";
    let strainer = [(250.0, 1.2), (500.0, 4.8), (750.0, 10.8)];
    for (gpm, feet) in strainer {
        let head = suction_head(&BARE_PIPE, gpm, 8.0, 0.0).unwrap();
        close(&format!("strainer, {gpm} gpm"), head.strainer_ft, feet, 1e-9, source);
        let sum = 8.0 + head.pipe_ft + head.strainer_ft + head.hose_ft;
        close("total", head.total.value, sum, 1e-9, "the sheet adds lift and losses");
    }
    // The sheet's pipe losses follow Manning's formula with n 0.010, the square of the flow; ours follow
    // Hazen-Williams. Against C 120 ours are 12% higher to 5% lower in 6 in pipe, 9 to 29% higher in 8 in, 29 to 40%
    // higher in 10 and 12 in pipe, where both are a fraction of a foot. So: within 17% or 0.05 ft.
    let pipe = [
        // (in, gpm, ft for each 100 ft)
        (6.0, 250.0, 0.5852),
        (6.0, 500.0, 2.3408),
        (6.0, 750.0, 5.267),
        (8.0, 250.0, 0.1257),
        (8.0, 500.0, 0.5027),
        (8.0, 750.0, 1.131),
        (10.0, 500.0, 0.1530),
        (12.0, 500.0, 0.0578),
    ];
    for (inches, gpm, feet) in pipe {
        let hydrant = DryHydrant { pipe_diameter_in: inches, ..BARE_PIPE };
        let got = suction_head(&hydrant, gpm, 8.0, 0.0).unwrap().pipe_ft;
        close(
            &format!("{inches} in pipe, {gpm} gpm"),
            got,
            feet,
            f64::max(0.17 * feet, 0.05),
            source,
        );
    }
    let fittings =
        DryHydrant { elbows_90: 1, elbows_45: 1, reducers: 1, pipe_length_ft: 60.0, ..BARE_PIPE };
    let with = suction_head(&fittings, 500.0, 8.0, 0.0).unwrap().pipe_ft;
    let without = suction_head(&BARE_PIPE, 500.0, 8.0, 0.0).unwrap().pipe_ft;
    close("fittings as 20, 10 and 10 ft", with, without, 1e-9, source);
    // The sheet recommends less than 20 ft in all: that is the head the greatest flow takes.
    let flow = dry_hydrant_flow(&BARE_PIPE, 8.0, 0.0).unwrap().value;
    close(
        "head",
        suction_head(&BARE_PIPE, flow, 8.0, 0.0).unwrap().total.value,
        20.0,
        1e-6,
        source,
    );
    // Suction hose by the hose formula: 6 in hose, C 0.05.
    let hosed = DryHydrant { suction_hose_ft: 20.0, ..BARE_PIPE };
    let got = suction_head(&hosed, 500.0, 8.0, 0.0).unwrap().hose_ft;
    close(
        "hose",
        got,
        0.05 * 25.0 * 0.2 * 2.304,
        0.001,
        "pump operator texts; NWCG: 1 psi = 2.304 ft",
    );
}

#[test]
fn volumes_match_published_tanks_and_the_acre_foot() {
    let rows = [
        // (ft, ft, ft, gal, tolerance, source)
        (6.0, 5.0, 8.0, 1795.0, 0.5, "NWCG, volume or capacity, example 1"),
        // The source rounds 34 in to 2.83 ft and the volume to 170 ft3.
        (12.0, 34.0 / 12.0, 5.0, 1272.0, 0.5, "NWCG, volume or capacity, example 2"),
        (435.6, 100.0, 1.0, 325_851.0, 1.0, "USGS: an acre-foot is 325,851 gal"),
    ];
    for (length_ft, width_ft, depth, gallons, tolerance, source) in rows {
        let pond = Pond { length_ft, width_ft, mean_depth_ft: 2.0 * depth, usable_depth_ft: depth };
        let water = pond_water(&pond).unwrap();
        close("usable", water.usable.value, gallons, tolerance, source);
        close("whole", water.whole.value, 2.0 * gallons, 2.0 * tolerance, source);
    }
}

#[test]
fn stock_lasts_by_its_net_draw() {
    let rows = [
        // (gal, gpm drawn, gpm coming in, min, source)
        (2.0 * (2500.0 - 250.0), 500.0, 0.0, 9.0, "cover of two drop tanks (derived)"),
        (30_000.0, 250.0, 0.0, 120.0, "ISO water supply evaluation: 250 gpm for 2 h (derived)"),
    ];
    for (gallons, draw, recharge, minutes, source) in rows {
        let Lasts::For(time) = lasting_time(gallons, draw, recharge).unwrap() else {
            panic!("{source}: does not last for ever");
        };
        close("min", time.value, minutes, 1e-9, source);
    }
}

// ---------------------------------------------------------------- drop tanks

fn drop_tank(side: f64, depth: f64, slope: f64, strainer_in: f64) -> DropTank {
    DropTank {
        length_ft: side,
        width_ft: side,
        depth_ft: depth,
        slope_percent: slope,
        strainer_depth_in: strainer_in,
        strainer_from_low_side_ft: 0.0,
    }
}

#[test]
fn strainer_depth_makes_the_published_unusable_water() {
    // The row says 4 to 6 in and 125 to 375 gal of a 10 x 10 ft tank. 6 in is 374 gal; but 4 in is 249, and
    // 125 gal goes with 2 in: the lower end of the published range does not follow from its own depth.
    let source = "strainer row, 10 x 10 ft tank (value from memory, low confidence)";
    for (inches, gallons) in [(2.0, 125.0), (4.0, 249.0), (6.0, 375.0)] {
        let water = drop_tank_water(&drop_tank(10.0, 2.5, 0.0, inches)).unwrap();
        close(&format!("{inches} in"), water.unusable.value, gallons, 1.0, source);
    }
}

#[test]
fn a_3500_gal_tank_on_a_slope_holds_about_2000() {
    // The training article does not state slope or sides. A 3,500 gal tank 14 ft square is 2.39 ft deep; on a 15%
    // slope geometry leaves 2,000 gal of it.
    let depth = 3500.0 / (14.0 * 14.0 * GALLONS_PER_CUBIC_FOOT);
    let level = drop_tank_water(&drop_tank(14.0, depth, 0.0, 4.0)).unwrap();
    close("level", level.holds.value, 3500.0, 1e-6, "training article");
    let slope = drop_tank_water(&drop_tank(14.0, depth, 15.0, 4.0)).unwrap();
    close(
        "on a slope",
        slope.holds.value,
        2000.0,
        60.0,
        "training article (slope and sides assumed)",
    );
}
