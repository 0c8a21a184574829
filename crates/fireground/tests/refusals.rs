//! Every number given is checked: NaN, the infinities and negative values are refused with an error that
//! names the field, and absurdly large numbers never come out as infinity.

use fireground::FactError;
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
    ConstructionType, OccupancyHazard, RuralBuilding, delivery_rate, is_exposure_hazard,
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

/// The values that come out when one number is put in one place.
type Outcome = Result<Vec<f64>, FactError>;

/// A field, and the outcome of a number put in it while everything else is ordinary.
type Case = (&'static str, Box<dyn Fn(f64) -> Outcome>);

fn case(field: &'static str, put: impl Fn(f64) -> Outcome + 'static) -> Case {
    (field, Box::new(put))
}

fn one(worked: Result<fireground::Worked, FactError>) -> Outcome {
    Ok(vec![worked?.value])
}

fn rural(edit: impl Fn(&mut RuralBuilding)) -> Outcome {
    let mut building = RuralBuilding {
        length_ft: 40.0,
        width_ft: 30.0,
        storey_heights_ft: vec![8.0, 8.0],
        height_to_ridge_ft: 6.0,
        occupancy: OccupancyHazard::Light,
        construction: ConstructionType::V,
        dwelling_construction_cap: Some(1.0),
        exposed: false,
    };
    edit(&mut building);
    one(minimum_supply(&building))
}

fn area(edit: impl Fn(&mut AreaRule)) -> Outcome {
    let mut building =
        AreaRule { length_ft: 30.0, width_ft: 50.0, floors: 1, share_involved: 0.25, exposures: 1 };
    edit(&mut building);
    one(area_rule(&building))
}

fn insured(edit: impl Fn(&mut InsuredBuilding)) -> Outcome {
    let mut building = InsuredBuilding {
        effective_area_ft2: 2000.0,
        construction: InsuredConstruction::Frame,
        contents: Contents::Combustible,
        exposure: 0.1,
        communication: 0.1,
    };
    edit(&mut building);
    one(needed_fire_flow(&building))
}

fn lines(edit: impl Fn(&mut LineFlows)) -> Outcome {
    let mut flows = LineFlows::default();
    edit(&mut flows);
    Ok(vec![attack_lines(500.0, &flows)?.carried_gpm])
}

fn pitot(edit: impl Fn(&mut PitotReading)) -> Outcome {
    let mut reading = PitotReading {
        kind: OutletKind::Pumper,
        diameter_in: 4.0,
        coefficient: 0.9,
        pitot_psi: 10.0,
    };
    edit(&mut reading);
    one(outlet_flow(&reading))
}

fn hydrant(wanted: f64, edit: impl Fn(&mut HydrantTest)) -> Outcome {
    let mut test = HydrantTest { flow_gpm: 900.0, static_psi: 70.0, residual_psi: 50.0 };
    edit(&mut test);
    one(flow_at_residual(&test, wanted))
}

fn lay(edit: impl Fn(&mut Lay)) -> Outcome {
    let mut lay = Lay {
        size: HoseSize::Four,
        measured_coefficient: Some(0.2),
        length_ft: 600.0,
        lines: 2,
        elevation_ft: 10.0,
        appliance_loss_psi: 5.0,
    };
    edit(&mut lay);
    Ok(vec![
        lay_friction(&lay, 500.0)?.value,
        pressure_needed(&lay, 500.0, 20.0)?.value,
        greatest_flow(&lay, 150.0, 20.0)?.value,
    ])
}

fn relayed(edit: impl Fn(&mut Relay)) -> Outcome {
    let mut task = Relay {
        size: HoseSize::Four,
        measured_coefficient: Some(0.2),
        lines: 1,
        length_ft: 2000.0,
        elevation_ft: 20.0,
        flow_gpm: 500.0,
        rated_gpm: 1250.0,
        discharge_psi: 185.0,
        intake_psi: 20.0,
        appliance_loss_psi: 5.0,
    };
    edit(&mut task);
    let plan = relay(&task)?;
    Ok(vec![plan.greatest_spacing.value, plan.even_spacing_ft, plan.even_discharge.value])
}

fn dry(flow: f64, lift: f64, altitude: f64, edit: impl Fn(&mut DryHydrant)) -> Outcome {
    let mut hydrant = DryHydrant {
        pipe_diameter_in: 6.0,
        pipe_length_ft: 60.0,
        hazen_williams_c: 120.0,
        elbows_90: 1,
        elbows_45: 0,
        reducers: 0,
        suction_hose: HoseSize::Six,
        suction_hose_ft: 10.0,
    };
    edit(&mut hydrant);
    let head = suction_head(&hydrant, flow, lift, altitude)?;
    let flow = dry_hydrant_flow(&hydrant, lift, altitude)?;
    Ok(vec![head.pipe_ft, head.strainer_ft, head.hose_ft, head.total.value, flow.value])
}

fn pond(edit: impl Fn(&mut Pond)) -> Outcome {
    let mut pond =
        Pond { length_ft: 80.0, width_ft: 40.0, mean_depth_ft: 6.0, usable_depth_ft: 3.0 };
    edit(&mut pond);
    let water = pond_water(&pond)?;
    Ok(vec![water.whole.value, water.usable.value])
}

fn lasting(lasts: Result<Lasts, FactError>) -> Outcome {
    Ok(match lasts? {
        Lasts::For(time) => vec![time.value],
        Lasts::WithoutEnd { spare_gpm } => vec![spare_gpm],
    })
}

fn tank(edit: impl Fn(&mut DropTank)) -> Outcome {
    let mut tank = DropTank {
        length_ft: 11.0,
        width_ft: 11.0,
        depth_ft: 2.5,
        slope_percent: 3.0,
        strainer_depth_in: 5.0,
        strainer_from_low_side_ft: 2.0,
    };
    edit(&mut tank);
    let water = drop_tank_water(&tank)?;
    Ok(vec![water.holds.value, water.unusable.value, water.usable.value])
}

fn route(stretch: Stretch) -> Outcome {
    let route = route_time(&[Stretch { distance_miles: 1.0, speed_mph: 30.0 }, stretch, stretch])?;
    Ok(vec![route.time.value, route.distance_miles, route.average_mph])
}

/// Every number that may not be negative.
fn cases() -> Vec<Case> {
    use OccupancyHazard::Light;
    vec![
        case("length_ft", |v| area(|b| b.length_ft = v)),
        case("width_ft", |v| area(|b| b.width_ft = v)),
        case("share_involved", |v| area(|b| b.share_involved = v)),
        case("length_ft", |v| one(volume_rule(v, 10.0, 10.0))),
        case("width_ft", |v| one(volume_rule(10.0, v, 10.0))),
        case("height_ft", |v| one(volume_rule(10.0, 10.0, v))),
        case("flow_gpm", |v| one(total_water(v, 120.0))),
        case("duration_min", |v| one(total_water(250.0, v))),
        case("length_ft", |v| rural(|b| b.length_ft = v)),
        case("width_ft", |v| rural(|b| b.width_ft = v)),
        case("storey_heights_ft", |v| rural(|b| b.storey_heights_ft[1] = v)),
        case("height_to_ridge_ft", |v| rural(|b| b.height_to_ridge_ft = v)),
        case("dwelling_construction_cap", |v| rural(|b| b.dwelling_construction_cap = Some(v))),
        case("supply_gal", |v| one(delivery_rate(v))),
        case("distance_ft", |v| is_exposure_hazard(v, 200.0, Light, Light).map(|_| vec![])),
        case("area_ft2", |v| is_exposure_hazard(20.0, v, Light, Light).map(|_| vec![])),
        case("effective_area_ft2", |v| insured(|b| b.effective_area_ft2 = v)),
        case("exposure", |v| insured(|b| b.exposure = v)),
        case("communication", |v| insured(|b| b.communication = v)),
        case("distance_ft", |v| one(dwelling_flow(v, DwellingTable::Older))),
        case("flow_gpm", |v| Ok(vec![attack_lines(v, &LineFlows::default())?.carried_gpm])),
        case("small_gpm", |v| lines(|f| f.small_gpm = v)),
        case("large_gpm", |v| lines(|f| f.large_gpm = v)),
        case("flow_gpm", |v| one(heat_absorbed(v, 0.5, 60.0))),
        case("steam_share", |v| one(heat_absorbed(150.0, v, 60.0))),
        case("water_temperature_f", |v| one(heat_absorbed(150.0, 0.5, v))),
        case("diameter_in", |v| pitot(|r| r.diameter_in = v)),
        case("coefficient", |v| pitot(|r| r.coefficient = v)),
        case("pitot_psi", |v| pitot(|r| r.pitot_psi = v)),
        case("flow_gpm", |v| hydrant(20.0, |t| t.flow_gpm = v)),
        case("static_psi", |v| hydrant(20.0, |t| t.static_psi = v)),
        case("residual_psi", |v| hydrant(20.0, |t| t.residual_psi = v)),
        case("wanted_residual_psi", |v| hydrant(v, |_| ())),
        case("rated_gpm", |v| one(draft_capacity(v, 10.0, 0.0))),
        case("lift_ft", |v| one(draft_capacity(1000.0, v, 0.0))),
        case("altitude_ft", |v| one(draft_capacity(1000.0, 10.0, v))),
        case("altitude_ft", |v| one(attainable_lift(v))),
        case("rated_gpm", |v| one(capacity_at_pressure(v, 150.0))),
        case("pressure_psi", |v| one(capacity_at_pressure(1000.0, v))),
        case("diameter_in", |v| one(pipe_friction(v, 120.0, 50.0, 500.0))),
        case("hazen_williams_c", |v| one(pipe_friction(6.0, v, 50.0, 500.0))),
        case("length_ft", |v| one(pipe_friction(6.0, 120.0, v, 500.0))),
        case("flow_gpm", |v| one(pipe_friction(6.0, 120.0, 50.0, v))),
        case("flow_gpm", |v| dry(v, 8.0, 0.0, |_| ())),
        case("lift_ft", |v| dry(500.0, v, 0.0, |_| ())),
        case("altitude_ft", |v| dry(500.0, 8.0, v, |_| ())),
        case("pipe_diameter_in", |v| dry(500.0, 8.0, 0.0, |h| h.pipe_diameter_in = v)),
        case("pipe_length_ft", |v| dry(500.0, 8.0, 0.0, |h| h.pipe_length_ft = v)),
        case("hazen_williams_c", |v| dry(500.0, 8.0, 0.0, |h| h.hazen_williams_c = v)),
        case("suction_hose_ft", |v| dry(500.0, 8.0, 0.0, |h| h.suction_hose_ft = v)),
        case("length_ft", |v| pond(|p| p.length_ft = v)),
        case("width_ft", |v| pond(|p| p.width_ft = v)),
        case("mean_depth_ft", |v| pond(|p| p.mean_depth_ft = v)),
        case("usable_depth_ft", |v| pond(|p| p.usable_depth_ft = v)),
        case("usable_gal", |v| lasting(lasting_time(v, 500.0, 0.0))),
        case("draw_gpm", |v| lasting(lasting_time(9000.0, v, 0.0))),
        case("recharge_gpm", |v| lasting(lasting_time(9000.0, 500.0, v))),
        case("diameter_in", |v| HoseSize::from_diameter(v).map(|size| vec![size.diameter_in()])),
        case("flow_gpm", |v| one(friction_loss(HoseSize::Three, v, 100.0))),
        case("length_ft", |v| one(friction_loss(HoseSize::Three, 100.0, v))),
        case("length_ft", |v| one(water_in_hose(HoseSize::Five, v, 2))),
        case("measured_coefficient", |v| lay(|l| l.measured_coefficient = Some(v))),
        case("length_ft", |v| lay(|l| l.length_ft = v)),
        case("appliance_loss_psi", |v| lay(|l| l.appliance_loss_psi = v)),
        case("measured_coefficient", |v| relayed(|r| r.measured_coefficient = Some(v))),
        case("length_ft", |v| relayed(|r| r.length_ft = v)),
        case("flow_gpm", |v| relayed(|r| r.flow_gpm = v)),
        case("rated_gpm", |v| relayed(|r| r.rated_gpm = v)),
        case("discharge_psi", |v| relayed(|r| r.discharge_psi = v)),
        case("intake_psi", |v| relayed(|r| r.intake_psi = v)),
        case("appliance_loss_psi", |v| relayed(|r| r.appliance_loss_psi = v)),
        case("distance_miles", |v| one(travel_time(v))),
        case("speed_mph", |v| one(minutes_per_mile(v))),
        case("distance_miles", |v| one(travel_time_at_speed(v, 30.0))),
        case("speed_mph", |v| one(travel_time_at_speed(2.0, v))),
        case("distance_miles", |v| one(shuttle_leg_time(v, 30.0))),
        case("speed_mph", |v| one(shuttle_leg_time(2.0, v))),
        case("distance_miles", |v| route(Stretch { distance_miles: v, speed_mph: 30.0 })),
        case("speed_mph", |v| route(Stretch { distance_miles: 2.0, speed_mph: v })),
        case("length_ft", |v| tank(|t| t.length_ft = v)),
        case("width_ft", |v| tank(|t| t.width_ft = v)),
        case("depth_ft", |v| tank(|t| t.depth_ft = v)),
        case("slope_percent", |v| tank(|t| t.slope_percent = v)),
        case("strainer_depth_in", |v| tank(|t| t.strainer_depth_in = v)),
        case("strainer_from_low_side_ft", |v| tank(|t| t.strainer_from_low_side_ft = v)),
    ]
}

/// Every number that may be negative.
fn signed_cases() -> Vec<Case> {
    vec![
        case("elevation_ft", |v| one(elevation_pressure(v))),
        case("elevation_ft", |v| lay(|l| l.elevation_ft = v)),
        case("elevation_ft", |v| relayed(|r| r.elevation_ft = v)),
    ]
}

#[test]
fn nan_and_infinities_are_refused_by_name() {
    for (field, put) in cases().into_iter().chain(signed_cases()) {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            match put(bad) {
                Err(FactError::NotFinite { field: named, .. }) => assert_eq!(named, field),
                other => panic!("{field} {bad}: {other:?}"),
            }
        }
    }
}

#[test]
fn negative_values_are_refused_by_name() {
    for (field, put) in cases() {
        match put(-1.0) {
            Err(FactError::Negative { field: named, value }) => {
                assert_eq!((named, value), (field, -1.0));
            }
            // These two are reported by their own range, which says more.
            Err(FactError::OutsideRange { field: named, .. })
                if matches!(named, "water_temperature_f" | "hazen_williams_c") =>
            {
                assert_eq!(named, field);
            }
            other => panic!("{field} -1: {other:?}"),
        }
    }
    for (field, put) in signed_cases() {
        assert!(put(-1.0).is_ok(), "{field} may be negative");
    }
}

#[test]
fn extreme_numbers_never_come_out_as_an_infinity() {
    for (field, put) in cases().into_iter().chain(signed_cases()) {
        for size in [f64::MAX, 1e300, 1e160, 1e30, 1e-30, 1e-300, f64::MIN_POSITIVE, 0.0] {
            if let Ok(values) = put(size) {
                for value in values {
                    assert!(value.is_finite(), "{field} {size}: {value}");
                }
            }
        }
    }
}

#[test]
fn messages_are_lower_case_without_a_final_stop_and_name_the_field() {
    for (field, put) in cases() {
        for bad in [f64::NAN, -1.0] {
            let message = put(bad).unwrap_err().to_string();
            assert!(message.starts_with(field), "{message}");
            assert!(
                !message.ends_with('.') && !message.starts_with(char::is_uppercase),
                "{message}"
            );
        }
    }
}
