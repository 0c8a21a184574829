//! Drop tanks.

use crate::close;
use fireground::GALLONS_PER_CUBIC_FOOT;
use fireground::drop_tank::{DropTank, drop_tank_water};

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
