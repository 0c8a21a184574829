//! Whether a long lay would do, and how that is said.

use fireground::hose::HoseSize;
use shuttle_report::units::Units;

use super::*;
use crate::Reader;
use crate::shared::hose::{Compared, compare};

const HOSE: Hose = Hose {
    size: HoseSize::Five,
    lines: 1,
    on_hand_ft: Some(3_000.0),
    engines: Some(2),
    distance_ft: None,
    elevation_ft: 0.0,
    rated_gpm: 1_000.0,
    discharge_psi: 185.0,
    intake_psi: 20.0,
    laid_ft_a_min: 300.0,
    hookup_min: 5.0,
    start_min: None,
    common_practice: true,
};

fn lay(distance_ft: f64, source_gpm: f64, flow_gpm: f64) -> HoseInstead {
    let with = Compared {
        source: Some("Quarry pond".to_owned()),
        source_gpm: Some(source_gpm),
        distance_ft: Some(distance_ft),
        flow_gpm,
        start_min: 10.0,
        shuttle_min: Some(40.0),
        shuttle_gpm: Some(600.0),
    };
    compare(&HOSE, with)
}

fn said(one: &HoseInstead, hose: &Hose) -> String {
    Reader { units: Units::Us, tender: false }.put(&in_full(one, hose))
}

fn briefly(one: &HoseInstead) -> String {
    Reader { units: Units::Us, tender: false }.put(&in_short(one))
}

#[test]
fn a_lay_within_reach_would_do_and_one_beyond_it_would_not() {
    let near = lay(2_900.0, 1_000.0, 500.0);
    // 10 + 2,900 / 300 + 5 + 2,958 / 1,000 = 27.6 min, before the shuttle's 40.
    assert_eq!((near.can_be_laid, near.is_sooner), (Some(true), Some(true)));
    assert_eq!(near.ended_by, Some(Ends::Hose));
    assert_eq!(near.shuttle_wins_beyond_ft, Some(3_000.0));
    assert_eq!(
        briefly(&near),
        "from Quarry pond, 2,900 ft: a long lay would do, with water at minute 28; the shuttle's supply \
         stands at minute 40."
    );
    let far = lay(3_100.0, 1_000.0, 500.0);
    assert_eq!(far.can_be_laid, Some(false));
    assert_eq!(briefly(&far), "from Quarry pond, 3,100 ft: no, the hose on hand ends at 3,000 ft.");
    assert!(said(&far, &HOSE).contains("no, leave it to the shuttle"));
}

#[test]
fn a_lay_that_gives_water_later_leaves_the_first_minutes_to_the_shuttle() {
    let hose = Hose { on_hand_ft: Some(9_000.0), ..HOSE };
    let with = Compared {
        source: None,
        source_gpm: None,
        distance_ft: Some(6_000.0),
        flow_gpm: 500.0,
        start_min: 10.0,
        shuttle_min: Some(20.0),
        shuttle_gpm: Some(600.0),
    };
    let late = compare(&hose, with);
    assert_eq!((late.can_be_laid, late.is_sooner), (Some(true), Some(false)));
    assert_eq!(late.ended_by, Some(Ends::Time));
    assert!(said(&late, &hose).contains("the shuttle is there first"));
    assert!(briefly(&late).contains("the shuttle is there first"));
}

#[test]
fn a_source_or_pump_too_small_is_told() {
    let dry = lay(1_000.0, 400.0, 500.0);
    assert_eq!(dry.can_be_laid, Some(false));
    assert!(said(&dry, &HOSE).contains("But the source gives only 400 gpm"));
    // A pump rated 1,000 gpm gives it at up to 150 psi and no more at any (apparatus standard).
    let weak = lay(1_000.0, 2_000.0, 1_100.0);
    // 100% at 150 psi: 1,250 gpm give 1,100 at some pressure, and so does half of it from 1,000 gpm.
    let cure =
        "; two such lays side by side, each with its own pumps, or pumps rated 1,250 gpm would do";
    let text = said(&weak, &HOSE);
    assert!(text.contains("gives only") && text.contains(cure), "{text}");
    // Half of 2,400 gpm is more than a 1,000 gpm pump gives at 150 psi.
    let text = said(&lay(1_000.0, 4_000.0, 2_400.0), &HOSE);
    assert!(!text.contains("two such lays") && text.contains("pumps rated 3,000 gpm"), "{text}");
    // A bigger pump gets no more water from a source that is short.
    assert!(!said(&lay(1_000.0, 900.0, 1_100.0), &HOSE).contains("would do"));
}

#[test]
fn the_pressure_is_lowered_to_where_the_pump_gives_the_flow() {
    // 100% at 150 psi, 70% at 200 (apparatus standard): 90% at 167 psi, rounded up by less than one.
    let one = lay(1_000.0, 2_000.0, 900.0);
    assert!((165.0..=166.7).contains(&one.discharge_psi), "{}", one.discharge_psi);
    assert_eq!(one.can_be_laid, Some(true));
    assert!(said(&one, &HOSE).contains("where the pump gives the flow"));
    assert_eq!(lay(1_000.0, 2_000.0, 700.0).discharge_psi, 185.0);
}

#[test]
fn a_shuttle_that_makes_too_little_does_not_win() {
    let with = Compared {
        source: Some("12".to_owned()),
        source_gpm: Some(1_000.0),
        distance_ft: Some(9_000.0),
        flow_gpm: 700.0,
        start_min: 10.0,
        shuttle_min: Some(40.0),
        shuttle_gpm: Some(339.0),
    };
    let text = said(&compare(&HOSE, with), &HOSE);
    assert!(!text.contains("wins") && text.contains("makes only 339 gpm"), "{text}");
    assert!(text.starts_with("from 12, 9,000 ft: "), "{text}");
}
