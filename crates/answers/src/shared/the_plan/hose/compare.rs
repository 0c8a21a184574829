//! What a lay from the source would take, and from what distance the shuttle wins.

use fireground::hose::HoseSize;
use fireground::long_lay::{Ends, LongLay, OnHand, Reach, long_lay, reach};
use fireground::pump::capacity_at_pressure;
use fireground::relay::Relay;
use fireground::{FactError, Told};
use scenario_file::{Hose, Scenario};
use shuttle_report::worksheet::worksheet;

/// Feet in a mile (exact).
const FEET_PER_MILE: f64 = 5_280.0;

/// Length by which a lay is described where no distance is known, ft.
pub const SAMPLE_FT: f64 = 1_000.0;

/// Greatest flow at which dry hose is filled, gpm: common practice fills it slowly enough that the line does
/// not jump, whatever source and pump could give.
const FILLED_AT_MOST_GPM: f64 = 1_000.0;

/// Pumps give their rating up to this pressure, psi (apparatus standard; see [`capacity_at_pressure`]).
const RATED_AT_PSI: f64 = 150.0;

/// Standard pump ratings, gpm (apparatus standard, values from memory).
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

/// Why a lay cannot be made, or does not give the flow.
#[derive(Debug, Clone, PartialEq)]
pub enum Cannot {
    /// The source gives only so much, gpm.
    SourceGives(f64),
    /// The pumps do not give the flow.
    PumpGives {
        /// Their rating, gpm.
        rated_gpm: f64,
        /// What they give, gpm.
        gives_gpm: f64,
        /// At this pressure, psi.
        at_psi: f64,
        /// Whether two such lays side by side would do.
        two_lays_would_do: bool,
        /// The smallest standard rating that would do, gpm, if one would.
        rating_that_would_do_gpm: Option<f64>,
    },
    /// It would take more engines than can be run.
    TooManyEngines,
    /// The intake pressure takes all the discharge pressure.
    IntakeTakesAll,
    /// Pumps are not rated to that pressure.
    BeyondRating,
    /// A fact does not fit.
    Fact(FactError),
}

/// A lay from one source, compared with the shuttle.
#[derive(Debug, Clone)]
pub struct HoseInstead {
    /// The source.
    pub source: Option<String>,
    /// From the source to the fire, ft; `None`: not known, and the figures are for 1,000 ft.
    pub distance_ft: Option<f64>,
    /// Flow wanted, gpm.
    pub flow_gpm: f64,
    /// Size of the hose.
    pub size: HoseSize,
    /// Parallel lines.
    pub lines: u32,
    /// The lay itself, if it can be made at all.
    pub lay: Option<Lay>,
    /// Why it cannot, or does not give the flow.
    pub cannot: Option<Cannot>,
    /// Pressure at each engine, psi: as stated, or lower where the pump gives the flow only at a lower
    /// pressure.
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
    /// Distance beyond which the shuttle wins, ft; `None`: nothing known limits a lay.
    pub shuttle_wins_beyond_ft: Option<f64>,
    /// What limits a lay there.
    pub ended_by: Option<Ends>,
    /// How that distance is worked out.
    pub how: Option<Told>,
    /// Whether sizes and speeds are in part common practice rather than stated.
    pub common_practice: bool,
}

/// What a lay takes and when it gives water.
#[derive(Debug, Clone)]
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
    /// How that minute is worked out.
    pub how: Told,
    /// What to know before relying on it.
    pub warnings: Vec<Told>,
}

/// A lay of this flow from every fill site whose distance is known, compared with the shuttle of a
/// scenario.
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
    let shuttle_gpm = Some(sheet.counts().0);
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

/// Compares a lay with the shuttle.
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
        size: hose.size,
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
            told.cannot = Some(why_not(error, hose, &lay, source_is_short));
            told.can_be_laid = Some(false);
            return told;
        }
    };
    if source_is_short {
        let gpm = with.source_gpm.unwrap_or_default();
        told.cannot = Some(Cannot::SourceGives(gpm));
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
        told.ended_by = Some(reach.ends);
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
    // Between the two the flow falls as the pressure rises. Gauges are read to whole pounds.
    let (mut gives_at, mut too_high) = (RATED_AT_PSI, hose.discharge_psi);
    while too_high - gives_at > 1.0 {
        let middle = f64::midpoint(gives_at, too_high);
        if gives(middle) { gives_at = middle } else { too_high = middle }
    }
    gives_at.floor()
}

/// Why a lay cannot be made, with what would do, each tried.
fn why_not(error: FactError, hose: &Hose, lay: &LongLay, source_is_short: bool) -> Cannot {
    let gives = |rated_gpm: f64, flow_gpm: f64| {
        let discharge_psi = pressure_for(&Hose { rated_gpm, ..*hose }, flow_gpm);
        let relay = Relay { rated_gpm, flow_gpm, discharge_psi, ..lay.relay };
        // A bigger pump gets no more water from a source that is short.
        !source_is_short && long_lay(&LongLay { relay, ..*lay }).is_ok()
    };
    let flow = lay.relay.flow_gpm;
    match error {
        FactError::BeyondCapacity { limit, .. } => Cannot::PumpGives {
            rated_gpm: hose.rated_gpm,
            gives_gpm: limit,
            at_psi: hose.discharge_psi,
            two_lays_would_do: gives(hose.rated_gpm, flow / 2.0),
            rating_that_would_do_gpm: (RATINGS_GPM.into_iter())
                .find(|rated| *rated > hose.rated_gpm && gives(*rated, flow)),
        },
        FactError::OutsideRange { .. } => Cannot::TooManyEngines,
        FactError::NothingLeft { .. } => Cannot::IntakeTakesAll,
        FactError::BeyondTable { .. } => Cannot::BeyondRating,
        other => Cannot::Fact(other),
    }
}
