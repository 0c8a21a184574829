//! Hydrants.

use crate::close;
use fireground::hydrant::{HydrantTest, OutletKind, PitotReading, flow_at_residual, outlet_flow};

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
    // A published example prints 1,178 for 40 psi with c 0.9: it left out c. Without c our value agrees.
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
