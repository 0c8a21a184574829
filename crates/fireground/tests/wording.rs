//! The sum as an officer reads it: each function's `how`, word for word. The numbers themselves are checked
//! against outside sources in `literature.rs`; here they must be the ones that are shown.

use fireground::attack_lines::{LineFlows, attack_lines};
use fireground::drop_tank::{DropTank, drop_tank_water};
use fireground::heat::heat_absorbed;
use fireground::hose::{HoseSize, elevation_pressure, friction_loss, water_in_hose};
use fireground::hydrant::{HydrantTest, OutletKind, PitotReading, flow_at_residual, outlet_flow};
use fireground::insurance_flow::{
    Contents, DwellingTable, InsuredBuilding, InsuredConstruction, dwelling_flow, needed_fire_flow,
};
use fireground::lay::{Lay, greatest_flow, lay_friction, pressure_needed};
use fireground::minimum_supply::{
    ConstructionType, OccupancyHazard, RuralBuilding, delivery_rate, enclosed_volume,
    minimum_supply,
};
use fireground::pond::{Lasts, Pond, lasting_time, pond_water};
use fireground::pump::{attainable_lift, capacity_at_pressure, draft_capacity};
use fireground::quick_flow_rules::{AreaRule, area_rule, total_water, volume_rule};
use fireground::relay::{Relay, relay};
use fireground::suction::{DryHydrant, dry_hydrant_flow, pipe_friction, suction_head};
use fireground::travel::{
    Stretch, minutes_per_mile, route_time, shuttle_leg_time, travel_time, travel_time_at_speed,
};
use fireground::{FactError, Worked};

fn reads(rows: Vec<(Result<Worked, FactError>, &str)>) {
    for (worked, expected) in rows {
        assert_eq!(worked.unwrap().how.to_string(), expected);
    }
}

#[test]
fn water_wanted_reads_as_a_sum() {
    let area =
        AreaRule { length_ft: 60.0, width_ft: 40.0, floors: 2, share_involved: 0.6, exposures: 1 };
    let single = AreaRule { floors: 1, exposures: 0, ..area };
    let dwelling = RuralBuilding {
        length_ft: 50.0,
        width_ft: 24.0,
        storey_heights_ft: vec![8.0, 8.0],
        height_to_ridge_ft: 8.0,
        occupancy: OccupancyHazard::Light,
        construction: ConstructionType::V,
        dwelling_construction_cap: Some(1.0),
        exposed: true,
    };
    let shed = RuralBuilding { length_ft: 12.0, width_ft: 12.0, ..dwelling.clone() };
    let shop = InsuredBuilding {
        effective_area_ft2: 10_000.0,
        construction: InsuredConstruction::Frame,
        contents: Contents::Combustible,
        exposure: 0.0,
        communication: 0.0,
    };
    let next_door = InsuredBuilding { effective_area_ft2: 2000.0, exposure: 0.15, ..shop };
    let mill = InsuredBuilding {
        effective_area_ft2: 1e6,
        contents: Contents::RapidBurning,
        exposure: 0.4,
        communication: 0.3,
        ..shop
    };
    reads(vec![
        (
            area_rule(&area),
            "60 x 40 ft x 2 floors / 3 x 60% involved + 1 x 25% of 1,600 gpm for exposures = 1,360 gpm",
        ),
        (area_rule(&single), "60 x 40 ft / 3 x 60% involved = 480 gpm"),
        (volume_rule(50.0, 75.0, 12.0), "50 x 75 x 12 ft / 100 = 450 gpm"),
        (total_water(500.0, 120.0), "500 gpm x 120 min = 60,000 gal"),
        (enclosed_volume(&dwelling), "50 x 24 x (8 + 8 + 8 / 2) ft = 24,000 ft3"),
        (
            minimum_supply(&dwelling),
            "24,000 ft3 / 7 (hazard class) x 1 (construction) x 1.5 (exposure) = 5,143 gal",
        ),
        (
            minimum_supply(&shed),
            "2,880 ft3 / 7 (hazard class) x 1 (construction) x 1.5 (exposure) = 617 gal, raised to the least allowed: 3,000 gal",
        ),
        (delivery_rate(5143.0), "a supply of 5,143 gal is to be delivered at 500 gpm"),
        (
            needed_fire_flow(&shop),
            "18 x 1.5 x sqrt(10,000) = 2,700, to the nearest 250: 2,750, to the nearest 500: 3,000 gpm",
        ),
        (
            needed_fire_flow(&next_door),
            "18 x 1.5 x sqrt(2,000) = 1,207, to the nearest 250: 1,250; x 1 x (1 + 0.15 + 0) = 1,438, to the \
             nearest 250: 1,500 gpm",
        ),
        (
            needed_fire_flow(&mill),
            "18 x 1.5 x sqrt(1,000,000) = 27,000, to the nearest 250: 27,000, held to 8,000; x 1.25 x (1 + 0.4 + \
             0.3) = 17,000, to the nearest 500: 17,000, held to 12,000 gpm",
        ),
        (
            dwelling_flow(25.0, DwellingTable::Newer),
            "a dwelling 25 ft from the next building: 750 gpm (the table: 1,500 below 11 ft, 1,000 from there, 750 \
             from 21 ft, 500 beyond 30 ft)",
        ),
        (
            heat_absorbed(150.0, 0.5, 62.0),
            "150 gpm x 50% to steam x 8.34 lb/gal x ((212 - 62) + 970.3) Btu/lb = 700,748 Btu/min",
        ),
    ]);
    assert_eq!(
        attack_lines(320.0, &LineFlows::default()).unwrap().how.to_string(),
        "1 x 2-1/2 in at 250 gpm + 1 x 1-3/4 in at 150 gpm = 400 gpm for the 320 gpm wanted"
    );
    assert_eq!(
        attack_lines(900.0, &LineFlows::default()).unwrap().how.to_string(),
        "2 master streams at 500 gpm = 1,000 gpm for the 900 gpm wanted"
    );
}

#[test]
fn sources_read_as_a_sum() {
    let pitot = PitotReading {
        kind: OutletKind::Pumper,
        diameter_in: 4.0,
        coefficient: 0.9,
        pitot_psi: 5.5,
    };
    let test = HydrantTest { flow_gpm: 1025.0, static_psi: 90.0, residual_psi: 58.0 };
    let dry = DryHydrant {
        pipe_diameter_in: 6.0,
        pipe_length_ft: 60.0,
        hazen_williams_c: 150.0,
        elbows_90: 1,
        elbows_45: 1,
        reducers: 1,
        suction_hose: HoseSize::Six,
        suction_hose_ft: 20.0,
    };
    let pond = pond_water(&Pond {
        length_ft: 120.0,
        width_ft: 80.0,
        mean_depth_ft: 6.0,
        usable_depth_ft: 3.5,
    });
    let pond = pond.unwrap();
    reads(vec![
        (outlet_flow(&pitot), "29.83 x 0.9 x 4^2 x sqrt(5.5) x 0.85 for a pumper outlet = 856 gpm"),
        (
            outlet_flow(&PitotReading {
                kind: OutletKind::Hose,
                diameter_in: 2.5,
                pitot_psi: 10.0,
                ..pitot
            }),
            "29.83 x 0.9 x 2.5^2 x sqrt(10) = 531 gpm",
        ),
        (
            flow_at_residual(&test, 20.0),
            "1,025 x ((90 - 20) / (90 - 58))^0.54 = 1,564 gpm at 20 psi",
        ),
        (attainable_lift(3000.0), "22.5 - 1 x 3,000 / 1,000 = 19.5 ft"),
        (draft_capacity(1000.0, 12.0, 0.0), "lift 12 ft: 935 gpm from a 1,000 gpm pump"),
        (
            draft_capacity(1250.0, 11.0, 2500.0),
            "lift 11 ft + 2.5 ft for altitude = 13.5 ft: 886 gpm from a 1,000 gpm pump x 1,250 / 1,000 = 1,108 gpm",
        ),
        (capacity_at_pressure(1500.0, 185.0), "1,500 gpm x 79% at 185 psi = 1,185 gpm"),
        (
            pipe_friction(6.0, 150.0, 80.0, 500.0),
            "4.52 x 500^1.85 x 80 / (150^1.85 x 6^4.87) = 0.54 psi",
        ),
        (
            suction_head(&dry, 750.0, 9.0, 1000.0).map(|head| head.total),
            "lift 9 + pipe 3.3 (100 ft with fittings) + strainer and standpipe 10.8 + suction hose 1.3 = 24.4 ft",
        ),
        (
            dry_hydrant_flow(&dry, 9.0, 1000.0),
            "602 gpm takes pipe 2.2 + strainer and standpipe 7 + suction hose 0.8 ft, with the lift 9: 19 ft",
        ),
        (Ok(pond.whole), "120 x 80 x 6 ft x 7.48 = 430,878 gal"),
        (Ok(pond.usable), "120 x 80 x 3.5 ft x 7.48 = 251,345 gal"),
    ]);
    let Lasts::For(time) = lasting_time(30_000.0, 500.0, 120.0).unwrap() else {
        panic!("the draw is more than the recharge");
    };
    assert_eq!(time.how.to_string(), "30,000 gal / (500 - 120) gpm = 78.9 min");
}

#[test]
fn moving_water_reads_as_a_sum() {
    let lay = Lay {
        size: HoseSize::Four,
        measured_coefficient: None,
        length_ft: 1200.0,
        lines: 2,
        elevation_ft: 35.0,
        appliance_loss_psi: 10.0,
    };
    let one = Lay { lines: 1, elevation_ft: 0.0, ..lay };
    let task = Relay {
        size: HoseSize::Four,
        measured_coefficient: None,
        lines: 1,
        length_ft: 2400.0,
        elevation_ft: 48.0,
        flow_gpm: 750.0,
        rated_gpm: 1250.0,
        discharge_psi: 185.0,
        intake_psi: 20.0,
        appliance_loss_psi: 5.0,
    };
    let plan = relay(&task).unwrap();
    assert_eq!(
        plan.how.to_string(),
        "2,400 ft / 1,320 ft, rounded up = 2 engines pumping, 1,200 ft apart, and the attack engine"
    );
    let downhill = relay(&Relay { elevation_ft: -1200.0, ..task }).unwrap();
    let route = route_time(&[
        Stretch { distance_miles: 0.4, speed_mph: 20.0 },
        Stretch { distance_miles: 2.1, speed_mph: 40.0 },
    ]);
    reads(vec![
        (
            friction_loss(HoseSize::TwoAndHalf, 200.0, 300.0),
            "2-1/2 in hose: 2 x (200 / 100)^2 x 300 / 100 = 24 psi",
        ),
        (elevation_pressure(-35.0), "0.434 x -35 ft = -15.2 psi"),
        (
            water_in_hose(HoseSize::Five, 1000.0, 1),
            "1,000 ft of 5 in hose: pi x (5 in / 2)^2 x length = 1,020 gal",
        ),
        (
            water_in_hose(HoseSize::Five, 1000.0, 2),
            "1,000 ft of 5 in hose: pi x (5 in / 2)^2 x length x 2 lines = 2,040 gal",
        ),
        (lay_friction(&lay, 900.0), "0.2 x (900 / 2 lines / 100)^2 x 1,200 / 100 = 48.6 psi"),
        (lay_friction(&one, 900.0), "0.2 x (900 / 100)^2 x 1,200 / 100 = 194.4 psi"),
        (
            pressure_needed(&lay, 900.0, 20.0),
            "residual 20 + friction 48.6 (0.2 x (900 / 2 lines / 100)^2 x 1,200 / 100) + appliances 10 + elevation \
             0.434 x 35 ft = 93.8 psi",
        ),
        (
            greatest_flow(&lay, 150.0, 20.0),
            "150 - residual 20 - appliances 10 - elevation 0.434 x 35 ft leaves 104.8 psi; 2 lines x 100 x \
             sqrt(104.8 x 100 / (0.2 x 1,200)) = 1,322 gpm",
        ),
        (
            greatest_flow(&one, 150.0, 20.0),
            "150 - residual 20 - appliances 10 - elevation 0.434 x 0 ft leaves 120 psi; 100 x sqrt(120 x 100 / (0.2 \
             x 1,200)) = 707 gpm",
        ),
        (Ok(plan.greatest_spacing), "(185 - 20 - 5) psi / 12.12 psi a 100 ft = 1,320 ft"),
        (
            Ok(plan.even_discharge),
            "residual 20 + friction 135 (0.2 x (750 / 100)^2 x 1,200 / 100) + appliances 5 + elevation 0.434 x 24 ft \
             = 170.4 psi",
        ),
        (
            Ok(downhill.greatest_spacing),
            "downhill gives at least the friction: 2,400 ft without another engine",
        ),
        (travel_time(2.5), "0.65 + 1.70 x 2.5 = 4.9 min"),
        (minutes_per_mile(35.0), "60 / 35 mph = 1.71 min/mile"),
        (travel_time_at_speed(2.4, 35.0), "60 / 35 mph x 2.4 mi = 4.1 min"),
        (shuttle_leg_time(2.1, 35.0), "0.65 + 60 / 35 mph x 2.1 mi = 4.2 min"),
        (route.map(|route| route.time), "0.4 mi at 20 mph: 1.2 + 2.1 mi at 40 mph: 3.2 = 4.4 min"),
    ]);
}

#[test]
fn a_drop_tank_reads_as_a_sum() {
    let tank = DropTank {
        length_ft: 12.0,
        width_ft: 11.0,
        depth_ft: 2.4,
        slope_percent: 6.0,
        strainer_depth_in: 5.0,
        strainer_from_low_side_ft: 2.0,
    };
    let water = drop_tank_water(&tank).unwrap();
    reads(vec![
        (Ok(water.holds), "12 x 11 x 2.4 ft on a 6% slope: 2,014 of the 2,370 gal it holds level"),
        (
            Ok(water.unusable),
            "air enters at 5 in of water, strainer 2 ft from the lower side; 6.4 in deep at that side: 197 gal",
        ),
        (Ok(water.usable), "2,014 - 197 = 1,817 gal"),
    ]);
    // On a steep slope the upper half stays dry: 1.4 of 2.4 ft mean depth would be the least without a warning.
    let steep = drop_tank_water(&DropTank { slope_percent: 20.0, ..tank }).unwrap();
    let warnings: Vec<String> = steep.usable.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(
        warnings,
        ["the slope costs 1,185 gal of 2,370: level ground or a second tank is worth more"]
    );
}
