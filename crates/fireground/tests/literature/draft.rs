//! Draft and pumps.

use crate::close;
use fireground::PSI_PER_FOOT;
use fireground::pump::{
    THEORETICAL_LIFT_FT, attainable_lift, capacity_at_pressure, draft_capacity,
};

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
        // A pump is rated at 10 ft: the share is the same for every rating.
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
