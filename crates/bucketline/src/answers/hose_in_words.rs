//! Hose in place of tankers, in words: whether a long lay would do, what it takes, and where the shuttle
//! wins.

use std::fmt::Write;

use shuttle_report::units::{Units, minutes, whole};

use super::figures::{feet, hose_size};
use super::hose_instead::{HoseInstead, SAMPLE_FT};
use crate::answer_text::capital;
use scenario_file::{Hose, in_round_units, round_flow, round_volume};

/// The comparison as a paragraph.
pub fn told(one: &HoseInstead, hose: &Hose, units: Units) -> String {
    let size = hose_size(hose.size, units);
    let lines = if one.lines == 1 {
        format!("one {size} line")
    } else {
        format!("{} parallel {size} lines", one.lines)
    };
    let from = match (&one.source, one.distance_ft) {
        (Some(name), Some(feet_away)) => format!("from {name}, {}", feet(units, feet_away)),
        (None, Some(feet_away)) => format!("from {} away", feet(units, feet_away)),
        _ => format!("for each {}", feet(units, SAMPLE_FT)),
    };
    let Some(lay) = &one.lay else {
        let why = in_round_units(one.cannot.as_deref().unwrap_or("it cannot be laid"), units);
        return format!("{from}: {} by {lines}: no, {why}.", round_flow(one.flow_gpm, units));
    };
    let makes_it = one.shuttle_gpm.is_none_or(|gpm| gpm >= one.flow_gpm);
    let verdict = match (one.can_be_laid, one.is_sooner) {
        (Some(false), _) if makes_it => "no, leave it to the shuttle. ",
        (Some(false), _) => "no. ",
        (Some(true), Some(false)) => "the shuttle is there first. ",
        (Some(true), _) => "a long lay would do. ",
        (None, _) => "",
    };
    let engines = if lay.engines == 1 { "engine" } else { "engines" };
    let mut text = format!(
        "{from}: {verdict}{} by {lines} takes {} of hose, {} {engines} (one pumps {}) and {} to fill it",
        round_flow(one.flow_gpm, units),
        feet(units, lay.hose_ft),
        lay.engines,
        feet(units, lay.greatest_spacing_ft),
        round_volume(lay.fill_gal, units)
    );
    if one.distance_ft.is_some() {
        let since = if one.source.is_some() { "" } else { " after the start" };
        let _ = write!(text, "; first water at minute {}{since}", minutes(lay.first_water_min));
    } else {
        let (laying, filling) = (SAMPLE_FT / hose.laid_ft_a_min, lay.fill_gal / one.fill_gpm);
        let _ = write!(text, ", {} min to lay and {} to fill", minutes(laying), minutes(filling));
    }
    let _ = match one.shuttle_established_min {
        Some(minute) => {
            write!(text, ", by the shuttle supply established at minute {}.", minutes(minute))
        }
        None => write!(text, "."),
    };
    if let Some(cannot) = &one.cannot {
        let _ = write!(text, " {}.", in_round_units(&capital(cannot), units));
    }
    if one.discharge_psi < hose.discharge_psi {
        let psi = in_round_units(&format!("{} psi", whole(one.discharge_psi)), units);
        let _ = write!(text, " Pumped at {psi}, where the pump gives the flow.");
    }
    if let (Some(distance), Some(by)) = (one.shuttle_wins_beyond_ft, one.ended_by) {
        let far = feet(units, distance);
        let _ = match by {
            "time" if distance < 1.0 => {
                write!(text, " The shuttle is there before any hose could be hooked up.")
            }
            "time" if makes_it => {
                write!(text, " Beyond {far} the shuttle wins: hose gives water later.")
            }
            "time" => write!(text, " Beyond {far} hose gives water later than the shuttle."),
            other if makes_it => {
                write!(text, " Beyond {far} the shuttle wins: that is all the {other}.")
            }
            other => write!(text, " {} is all the {other}.", capital(&far)),
        };
    }
    if let Some(gpm) = one.shuttle_gpm.filter(|_| !makes_it) {
        let _ = write!(text, " The shuttle makes only {} by hand.", units.gpm(gpm));
    }
    for warning in &lay.warnings {
        let _ = write!(text, " Careful: {}.", in_round_units(warning, units));
    }
    text
}

/// What the comparisons rest on.
pub fn rests_on(hose: &Hose, units: Units) -> String {
    let common =
        if hose.common_practice { " (common practice where the file is silent)" } else { "" };
    let on_hand = if hose.on_hand_ft.is_none() {
        " Hose on hand is not stated (`hose.on_hand`)."
    } else {
        ""
    };
    format!(
        "laid at {} a minute, {} min to hook up, up to {} at each engine{common}.{on_hand} A lay across the \
         road closes it to tankers unless it is bridged. The shuttle can serve until the hose is full.",
        feet(units, hose.laid_ft_a_min),
        minutes(hose.hookup_min),
        in_round_units(&format!("{} psi", whole(hose.discharge_psi)), units)
    )
}

#[cfg(test)]
mod tests {
    use fireground::hose::HoseSize;

    use super::*;
    use crate::answers::hose_instead::{Compared, compare};

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

    #[test]
    fn a_lay_within_reach_would_do_and_one_beyond_it_would_not() {
        let near = lay(2_900.0, 1_000.0, 500.0);
        // 10 + 2,900 / 300 + 5 + 2,958 / 1,000 = 27.6 min, before the shuttle's 40.
        assert_eq!((near.can_be_laid, near.is_sooner), (Some(true), Some(true)));
        assert_eq!(near.ended_by, Some("hose on hand"));
        assert_eq!(near.shuttle_wins_beyond_ft, Some(3_000.0));
        assert_eq!(lay(3_100.0, 1_000.0, 500.0).can_be_laid, Some(false));
        assert!(told(&near, &HOSE, Units::Us).contains("a long lay would do"));
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
        assert_eq!(late.ended_by, Some("time"));
        assert!(told(&late, &hose, Units::Us).contains("the shuttle is there first"));
    }

    #[test]
    fn a_source_or_pump_too_small_is_told() {
        let dry = lay(1_000.0, 400.0, 500.0);
        assert_eq!(dry.can_be_laid, Some(false));
        assert!(told(&dry, &HOSE, Units::Us).contains("The source gives only 400 gpm"));
        // A pump rated 1,000 gpm gives it at up to 150 psi and no more at any (apparatus standard).
        let weak = lay(1_000.0, 2_000.0, 1_100.0);
        assert!(told(&weak, &HOSE, Units::Us).contains("gives only"));
        // 100% at 150 psi: 1,250 gpm give 1,100 at some pressure, and so does half of it from 1,000 gpm.
        let cure = "; two such lays side by side, each with its own pumps, or pumps rated 1,250 gpm would do";
        assert!(told(&weak, &HOSE, Units::Us).contains(cure), "{}", told(&weak, &HOSE, Units::Us));
        // Half of 2,400 gpm is more than a 1,000 gpm pump gives at 150 psi.
        let text = told(&lay(1_000.0, 4_000.0, 2_400.0), &HOSE, Units::Us);
        assert!(
            !text.contains("two such lays") && text.contains("pumps rated 3,000 gpm"),
            "{text}"
        );
        // A bigger pump gets no more water from a source that is short.
        assert!(!told(&lay(1_000.0, 900.0, 1_100.0), &HOSE, Units::Us).contains("would do"));
    }

    #[test]
    fn the_pressure_is_lowered_to_where_the_pump_gives_the_flow() {
        // 100% at 150 psi, 70% at 200 (apparatus standard): 90% at 167 psi, rounded up by less than one.
        let one = lay(1_000.0, 2_000.0, 900.0);
        assert!((165.0..=166.7).contains(&one.discharge_psi), "{}", one.discharge_psi);
        assert_eq!(one.can_be_laid, Some(true));
        assert!(told(&one, &HOSE, Units::Us).contains("where the pump gives the flow"));
        assert_eq!(lay(1_000.0, 2_000.0, 700.0).discharge_psi, 185.0);
    }

    #[test]
    fn a_shuttle_that_makes_too_little_does_not_win() {
        let with = Compared {
            source: Some("Quarry pond".to_owned()),
            source_gpm: Some(1_000.0),
            distance_ft: Some(9_000.0),
            flow_gpm: 700.0,
            start_min: 10.0,
            shuttle_min: Some(40.0),
            shuttle_gpm: Some(339.0),
        };
        let text = told(&compare(&HOSE, with), &HOSE, Units::Us);
        assert!(!text.contains("wins") && text.contains("makes only 339 gpm"), "{text}");
    }
}
