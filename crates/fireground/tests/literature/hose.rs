//! Hose, lays and relays.

use crate::close;
use fireground::PSI_PER_FOOT;
use fireground::hose::{HoseSize, elevation_pressure, friction_loss, water_in_hose};
use fireground::lay::{Lay, greatest_flow, lay_friction, pressure_needed};
use fireground::relay::{Relay, relay};

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
