//! Hose in place of tankers: what a lay from the source would take, and from what distance the shuttle wins.

use std::fmt::Write;

use fireground::FactError;
use fireground::long_lay::{Ends, LongLay, OnHand, Reach, long_lay, reach};
use fireground::pump::capacity_at_pressure;
use fireground::relay::Relay;
use serde::Serialize;
use shuttle_report::units::{Units, minutes, whole};
use shuttle_report::worksheet::worksheet;

use super::{feet, hose_size};
use crate::output::capital;
use crate::scenario_file::{Hose, Scenario, in_round_units, round_flow, round_volume};

/// Feet in a mile (exact).
const FEET_PER_MILE: f64 = 5_280.0;

/// Length by which a lay is described where no distance is known, ft.
const SAMPLE_FT: f64 = 1_000.0;

/// Greatest flow at which dry hose is filled, gpm: common practice fills it slowly enough that the line does
/// not jump, whatever source and pump could give.
const FILLED_AT_MOST_GPM: f64 = 1_000.0;

/// Pumps give their rating up to this pressure, psi (apparatus standard; see [`capacity_at_pressure`]).
const RATED_AT_PSI: f64 = 150.0;

/// Ratings of pumps there are, gpm (apparatus standard, values from memory).
const RATINGS_GPM: [f64; 7] = [1_000.0, 1_250.0, 1_500.0, 1_750.0, 2_000.0, 2_250.0, 3_000.0];

/// What to compare with.
pub struct Compared {
    /// The source, if it has a name.
    pub source: Option<String>,
    /// What the source gives, gpm, if known.
    pub source_gpm: Option<f64>,
    /// From the source to the fire, ft, if known.
    pub distance_ft: Option<f64>,
    /// Flow wanted, gpm.
    pub flow_gpm: f64,
    /// When laying begins, minutes after the alarm.
    pub start_min: f64,
    /// When the shuttle's supply is established, minutes after the alarm; `None`: it never is, or there is
    /// none.
    pub shuttle_min: Option<f64>,
    /// What the shuttle makes by hand, gpm, no more than its tightest place passes; `None`: there is none.
    pub shuttle_gpm: Option<f64>,
}

/// A lay from one source, held against the shuttle.
#[derive(Debug, Serialize)]
pub struct HoseInstead {
    /// The source.
    pub source: Option<String>,
    /// From the source to the fire, ft; `None`: not known, and the figures are for 1,000 ft.
    pub distance_ft: Option<f64>,
    /// Flow wanted, gpm.
    pub flow_gpm: f64,
    /// Size of the hose.
    pub size: &'static str,
    /// Parallel lines.
    pub lines: u32,
    /// The lay itself, if it can be made at all.
    pub lay: Option<Lay>,
    /// Why it cannot.
    pub cannot: Option<String>,
    /// Pressure at each engine, psi: as stated, or lower where only then the pump gives the flow.
    pub discharge_psi: f64,
    /// Flow at which the hose is filled, gpm.
    pub fill_gpm: f64,
    /// What the shuttle makes by hand, gpm.
    pub shuttle_gpm: Option<f64>,
    /// Whether, by what is known, it can be made over the distance; `None`: the distance is not known.
    pub can_be_laid: Option<bool>,
    /// Whether it gives water no later than the shuttle's supply stands; `None`: there is nothing to compare.
    pub is_sooner: Option<bool>,
    /// When the shuttle's supply is established, minutes after the alarm.
    pub shuttle_established_min: Option<f64>,
    /// Distance beyond which the shuttle wins, ft; `None`: nothing is known that ends a lay.
    pub shuttle_wins_beyond_ft: Option<f64>,
    /// What ends a lay there.
    pub ended_by: Option<&'static str>,
    /// How that distance comes about.
    pub how: Option<String>,
    /// Whether sizes and speeds are in part common practice rather than stated.
    pub common_practice: bool,
}

/// What a lay takes and when it gives water.
#[derive(Debug, Serialize)]
pub struct Lay {
    /// Hose in all lines, ft.
    pub hose_ft: f64,
    /// Engines that pump, the one at the source included.
    pub engines: u32,
    /// The farthest one engine pumps, ft.
    pub greatest_spacing_ft: f64,
    /// Water to fill it, gal.
    pub fill_gal: f64,
    /// First water out of it, minutes after the alarm.
    pub first_water_min: f64,
    /// How that minute comes about.
    pub how: String,
    /// What to know before relying on it.
    pub warnings: Vec<String>,
}

/// A lay of this flow from every fill site whose distance is known, held against the shuttle of a scenario.
pub fn of_scenario(
    scenario: &Scenario,
    flow_gpm: f64,
    established: Option<f64>,
) -> Vec<HoseInstead> {
    let facts = scenario.plan.facts();
    let hose = &scenario.hose;
    let engine = &facts.attack_engine.call;
    let there = engine.requested_at + engine.response.mean();
    let sheet = worksheet(&scenario.plan);
    let tightest = sheet.tightest.as_ref().map_or(f64::INFINITY, |(_, gpm)| *gpm);
    let shuttle_gpm = Some(sheet.hand_gpm.min(tightest));
    (facts.fill_sites.iter())
        .filter_map(|site| {
            let legs = [site.out.miles, site.back.miles].into_iter().flatten();
            let road = legs.min_by(f64::total_cmp).map(|miles| miles * FEET_PER_MILE);
            let distance_ft = Some(hose.distance_ft.or(road)?);
            let compared = Compared {
                source: Some(site.name.clone()),
                source_gpm: Some(site.flow),
                distance_ft,
                flow_gpm,
                start_min: hose.start_min.unwrap_or(there),
                shuttle_min: established,
                shuttle_gpm,
            };
            Some(compare(hose, compared))
        })
        .collect()
}

/// Holds a lay against the shuttle.
pub fn compare(hose: &Hose, with: Compared) -> HoseInstead {
    let discharge_psi = pressure_for(hose, with.flow_gpm);
    let gives = with.source_gpm.unwrap_or(f64::INFINITY).min(hose.rated_gpm);
    let fill_gpm = gives.min(FILLED_AT_MOST_GPM);
    let lay = LongLay {
        relay: Relay {
            size: hose.size,
            measured_coefficient: None,
            lines: hose.lines,
            length_ft: with.distance_ft.unwrap_or(SAMPLE_FT),
            elevation_ft: hose.elevation_ft,
            flow_gpm: with.flow_gpm,
            rated_gpm: hose.rated_gpm,
            discharge_psi,
            intake_psi: hose.intake_psi,
            appliance_loss_psi: 0.0,
        },
        starts_at_min: with.start_min,
        laid_ft_a_min: hose.laid_ft_a_min,
        hookup_min: hose.hookup_min,
        fill_gpm,
    };
    let on_hand =
        OnHand { hose_ft: hose.on_hand_ft, engines: hose.engines, water_by_min: with.shuttle_min };
    let by_kit = OnHand { water_by_min: None, ..on_hand };
    let worked =
        long_lay(&lay).and_then(|plan| Ok((plan, reach(&lay, &on_hand)?, reach(&lay, &by_kit)?)));
    let source_is_short = with.source_gpm.is_some_and(|gpm| gpm < with.flow_gpm);
    let mut told = HoseInstead {
        source: with.source,
        distance_ft: with.distance_ft,
        flow_gpm: with.flow_gpm,
        size: hose.size.name(),
        lines: hose.lines,
        discharge_psi,
        fill_gpm,
        shuttle_gpm: with.shuttle_gpm,
        lay: None,
        cannot: None,
        can_be_laid: None,
        is_sooner: None,
        shuttle_established_min: with.shuttle_min,
        shuttle_wins_beyond_ft: None,
        ended_by: None,
        how: None,
        common_practice: hose.common_practice,
    };
    let (plan, reach, by_kit) = match worked {
        Ok(worked) => worked,
        Err(error) => {
            let mut why = in_plain_words(&error, hose);
            if matches!(error, FactError::BeyondCapacity { .. }) && !source_is_short {
                why.push_str(&what_would_do(hose, &lay));
            }
            told.cannot = Some(why);
            told.can_be_laid = Some(false);
            return told;
        }
    };
    if source_is_short {
        let gpm = with.source_gpm.unwrap_or_default();
        told.cannot = Some(format!("the source gives only {} gpm", whole(gpm)));
    }
    told.can_be_laid = with.distance_ft.map(|distance| {
        let ends_before = |reach: &Reach| distance > reach.distance.value + 1e-6;
        !source_is_short && !by_kit.as_ref().is_some_and(ends_before)
    });
    told.is_sooner = (with.distance_ft.and(with.shuttle_min))
        .map(|minute| plan.first_water.value <= minute + 1e-9);
    if let Some(reach) = reach {
        told.shuttle_wins_beyond_ft = Some(reach.distance.value);
        told.how = Some(reach.distance.how);
        told.ended_by = Some(match reach.ends {
            Ends::Hose => "hose on hand",
            Ends::Engines => "engines on hand",
            Ends::Time => "time",
        });
    }
    let mut warnings = plan.engines.warnings;
    warnings.extend(plan.engines.even_discharge.warnings);
    told.lay = Some(Lay {
        hose_ft: plan.hose_ft,
        engines: plan.engines.pumping_engines,
        greatest_spacing_ft: plan.engines.greatest_spacing.value,
        fill_gal: plan.fill.value,
        first_water_min: plan.first_water.value,
        how: plan.first_water.how,
        warnings,
    });
    told
}

/// The pressure as stated, or the greatest below it at which the pump gives the flow, psi.
fn pressure_for(hose: &Hose, flow_gpm: f64) -> f64 {
    let gives = |psi: f64| {
        capacity_at_pressure(hose.rated_gpm, psi).is_ok_and(|flow| flow.value >= flow_gpm)
    };
    if gives(hose.discharge_psi) || !gives(RATED_AT_PSI.min(hose.discharge_psi)) {
        return hose.discharge_psi;
    }
    // Between the two the pump gives less the higher the pressure. Whole pounds are what a gauge shows.
    let (mut gives_at, mut too_high) = (RATED_AT_PSI, hose.discharge_psi);
    while too_high - gives_at > 1.0 {
        let middle = f64::midpoint(gives_at, too_high);
        if gives(middle) { gives_at = middle } else { too_high = middle }
    }
    gives_at.floor()
}

/// What gives the flow where the pump is too small, as tried out; empty where nothing does.
fn what_would_do(hose: &Hose, lay: &LongLay) -> String {
    let gives = |rated_gpm: f64, flow_gpm: f64| {
        let discharge_psi = pressure_for(&Hose { rated_gpm, ..*hose }, flow_gpm);
        let relay = Relay { rated_gpm, flow_gpm, discharge_psi, ..lay.relay };
        long_lay(&LongLay { relay, ..*lay }).is_ok()
    };
    let flow = lay.relay.flow_gpm;
    let bigger = (RATINGS_GPM.into_iter())
        .find(|rated| *rated > hose.rated_gpm && gives(*rated, flow))
        .map(|rated| format!("pumps rated {} gpm", whole(rated)));
    let twice = gives(hose.rated_gpm, flow / 2.0)
        .then(|| "two such lays side by side, each with its own pumps".to_owned());
    let would: Vec<String> = twice.into_iter().chain(bigger).collect();
    if would.is_empty() { String::new() } else { format!("; {} would do", would.join(", or ")) }
}

/// Why a lay cannot be made, without the names of our own arithmetic.
fn in_plain_words(error: &FactError, hose: &Hose) -> String {
    match error {
        FactError::BeyondCapacity { limit, .. } => format!(
            "a pump rated {} gpm gives only {} gpm at {} psi",
            whole(hose.rated_gpm),
            whole(*limit),
            whole(hose.discharge_psi)
        ),
        FactError::OutsideRange { .. } => {
            "it would take more than 50 engines: larger hose or more lines".to_owned()
        }
        FactError::NothingLeft { .. } => {
            "the intake pressure takes all the discharge pressure".to_owned()
        }
        FactError::BeyondTable { .. } => "pumps are not rated beyond 250 psi".to_owned(),
        other => other.to_string(),
    }
}

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
    use super::*;
    use fireground::hose::HoseSize;

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
        // A bigger pump makes no more water of a source that is short.
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
