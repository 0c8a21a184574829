//! Suction through a pipe: what a dry hydrant takes from the lift, and the flow it lets through.

use crate::fact_checks::{more_than_zero, within, zero_or_more};
use crate::hose::{HoseSize, friction_psi};
use crate::pump::{ATTAINABLE_LIFT_FT, attainable_lift, lift_lost};
use crate::told::{Part, Unit, given_bare, given_number, given_of, told};
use crate::{FactError, PSI_PER_FOOT, Told, Worked};

/// A dry hydrant: strainer, pipe, standpipe and the suction hose to the pump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryHydrant {
    /// Inside diameter of the pipe, in, more than 0.
    pub pipe_diameter_in: f64,
    /// Length of pipe from strainer to standpipe, ft, more than 0.
    pub pipe_length_ft: f64,
    /// Hazen-Williams C of the pipe, 60 to 160: 150 new plastic, 120 for design and for steel in use, 100 old iron.
    pub hazen_williams_c: f64,
    /// 90 degree elbows, each counted as 20 ft of pipe.
    pub elbows_90: u32,
    /// 30 and 45 degree elbows, each counted as 10 ft of pipe.
    pub elbows_45: u32,
    /// Reducers, each counted as 10 ft of pipe.
    pub reducers: u32,
    /// Size of the suction hose from hydrant to pump.
    pub suction_hose: HoseSize,
    /// Length of the suction hose, ft, 0 or more.
    pub suction_hose_ft: f64,
}

/// What a dry hydrant takes at a flow, each part in ft of water.
#[derive(Debug, Clone, PartialEq)]
pub struct SuctionHead {
    /// Friction in the pipe and its fittings, by Hazen-Williams.
    pub pipe_ft: f64,
    /// Loss in strainer and standpipe.
    pub strainer_ft: f64,
    /// Friction in the suction hose, by the hose formula.
    pub hose_ft: f64,
    /// All of it with the lift, ft, and how.
    pub total: Worked,
}

/// Pipe that a fitting counts as, ft. Source: NRCS dry hydrant design sheet NE-ENG-76.
const ELBOW_90_FT: f64 = 20.0;
const ELBOW_45_FT: f64 = 10.0;
const REDUCER_FT: f64 = 10.0;

/// Loss in strainer and standpipe, ft at 500 gpm; it grows with the square of the flow. Source: NRCS NE-ENG-76,
/// which lists 1.2, 4.8 and 10.8 ft at 250, 500 and 750 gpm.
const STRAINER_LOSS_FT: f64 = 4.8;
const STRAINER_FLOW_GPM: f64 = 500.0;

/// Flows listed there, gpm.
const STRAINER_FLOW_RANGE_GPM: (f64, f64) = (250.0, 750.0);

/// Head a dry hydrant should not exceed, ft. Source: NRCS NE-ENG-76: less than 20 recommended, 22 at most.
const RECOMMENDED_HEAD_FT: f64 = 20.0;

/// Hazen-Williams in gpm, inches and psi a foot. Source: NFPA 13, 4.52 Q^1.85 / (C^1.85 d^4.87) (value from memory).
const HW_CONSTANT: f64 = 4.52;
const HW_FLOW_EXPONENT: f64 = 1.85;
const HW_DIAMETER_EXPONENT: f64 = 4.87;

/// Least diameter that Hazen-Williams was fitted to, in. Common practice.
const HW_LEAST_DIAMETER_IN: f64 = 2.0;

const PIPE_SOURCE: &str =
    "Hazen-Williams as in NFPA 13, 4.52 Q^1.85 / (C^1.85 d^4.87) psi a foot (value from memory)";
const HEAD_SOURCE: &str = "NRCS dry hydrant design sheet NE-ENG-76 (fittings, strainer, limits); Hazen-Williams for \
                           the pipe; pump operator texts for the hose";

fn pipe_psi(diameter_in: f64, c: f64, length_ft: f64, flow_gpm: f64) -> f64 {
    HW_CONSTANT * flow_gpm.powf(HW_FLOW_EXPONENT) * length_ft
        / (c.powf(HW_FLOW_EXPONENT) * diameter_in.powf(HW_DIAMETER_EXPONENT))
}

fn check_c(c: f64) -> Result<f64, FactError> {
    within("hazen_williams_c", c, 60.0, 160.0, "new plastic is 150, steel in use 120, old iron 100")
}

/// Friction in a pipe by Hazen-Williams.
///
/// - Given: `diameter_in` inside, in, more than 0; `hazen_williams_c`, 60 to 160; `length_ft` with fittings as
///   pipe, ft, more than 0; `flow_gpm`, gpm, more than 0.
/// - Returns: psi = 4.52 x gpm^1.85 x ft / (C^1.85 x diameter^4.87).
/// - Errors: not finite, negative or zero values; a C outside 60 to 160.
/// - Source: NFPA 13 (value from memory).
/// - Limits: cold water in full pipes; warns under 2 in.
pub fn pipe_friction(
    diameter_in: f64,
    hazen_williams_c: f64,
    length_ft: f64,
    flow_gpm: f64,
) -> Result<Worked, FactError> {
    more_than_zero("diameter_in", diameter_in)?;
    check_c(hazen_williams_c)?;
    more_than_zero("length_ft", length_ft)?;
    more_than_zero("flow_gpm", flow_gpm)?;
    let loss = pipe_psi(diameter_in, hazen_williams_c, length_ft, flow_gpm);
    let how = told![
        HAZEN_WILLIAMS,
        " x ",
        given_bare(flow_gpm, Unit::Gpm),
        "^1.85 x ",
        given_bare(length_ft, Unit::Feet),
        " / (",
        given_number(hazen_williams_c),
        "^1.85 x ",
        given_bare(diameter_in, Unit::Inches),
        "^4.87) = ",
        Part::Of(loss, Unit::Psi, 2),
    ];
    Ok(Worked::new(loss, "psi", how, PIPE_SOURCE)?.warn_if(
        diameter_in < HW_LEAST_DIAMETER_IN,
        || {
            told![
                given_of(diameter_in, Unit::Inches),
                ": Hazen-Williams was fitted to pipes of ",
                Part::Of(HW_LEAST_DIAMETER_IN, Unit::Inches, 0),
                " and more",
            ]
        },
    ))
}

/// 4.52 for gpm, ft, in and psi is this for L/min, m, mm and kPa.
const HAZEN_WILLIAMS: Part = Part::Constant { us: "4.52", metric: "6.05 x 10^7" };

/// The warning for a flow that the strainer losses were not listed for.
fn outside_strainer_list() -> Told {
    let (least, greatest) = STRAINER_FLOW_RANGE_GPM;
    told![
        "the strainer losses were listed for ",
        Part::Bare(least, Unit::Gpm, 0),
        " to ",
        Part::Of(greatest, Unit::Gpm, 0),
        "; outside they follow the square of the flow",
    ]
}

/// Length of pipe with its fittings counted as pipe, ft, after checking every field.
fn checked_length(hydrant: &DryHydrant) -> Result<f64, FactError> {
    more_than_zero("pipe_diameter_in", hydrant.pipe_diameter_in)?;
    more_than_zero("pipe_length_ft", hydrant.pipe_length_ft)?;
    check_c(hydrant.hazen_williams_c)?;
    zero_or_more("suction_hose_ft", hydrant.suction_hose_ft)?;
    Ok(hydrant.pipe_length_ft
        + f64::from(hydrant.elbows_90) * ELBOW_90_FT
        + f64::from(hydrant.elbows_45) * ELBOW_45_FT
        + f64::from(hydrant.reducers) * REDUCER_FT)
}

/// Losses at a flow, ft of water: pipe, strainer and standpipe, suction hose.
fn losses(hydrant: &DryHydrant, length_ft: f64, flow_gpm: f64) -> (f64, f64, f64) {
    let pipe = pipe_psi(hydrant.pipe_diameter_in, hydrant.hazen_williams_c, length_ft, flow_gpm);
    let strainer = STRAINER_LOSS_FT * (flow_gpm / STRAINER_FLOW_GPM).powi(2);
    let hose = friction_psi(
        hydrant.suction_hose.friction_coefficient(),
        flow_gpm,
        hydrant.suction_hose_ft,
    );
    (pipe / PSI_PER_FOOT, strainer, hose / PSI_PER_FOOT)
}

/// Suction head of a dry hydrant at a flow: the lift and every loss.
///
/// - Given: the hydrant; `flow_gpm`, gpm, more than 0; `lift_ft` from the lowest water's surface to the pump
///   intake, ft, 0 or more; `altitude_ft`, ft, 0 or more.
/// - Returns: the losses and their total with the lift ([`SuctionHead`]), ft of water.
/// - Errors: not finite, negative or zero values; a C outside 60 to 160.
/// - Source: NRCS NE-ENG-76; Hazen-Williams; the hose formula, made for lined hose, for the suction hose.
/// - Limits: warns beyond 20 ft (recommended) and beyond what a pump attains (22.5 ft), both less 1 ft for each
///   1,000 ft of altitude, and outside the 250 to 750 gpm that the strainer losses were listed for.
pub fn suction_head(
    hydrant: &DryHydrant,
    flow_gpm: f64,
    lift_ft: f64,
    altitude_ft: f64,
) -> Result<SuctionHead, FactError> {
    let length = checked_length(hydrant)?;
    more_than_zero("flow_gpm", flow_gpm)?;
    zero_or_more("lift_ft", lift_ft)?;
    let lost = lift_lost(altitude_ft)?;
    let (pipe_ft, strainer_ft, hose_ft) = losses(hydrant, length, flow_gpm);
    let total = lift_ft + pipe_ft + strainer_ft + hose_ft;
    let tenth = |feet| Part::Bare(feet, Unit::Feet, 1);
    let how = told![
        "lift ",
        given_bare(lift_ft, Unit::Feet),
        " + pipe ",
        tenth(pipe_ft),
        " (",
        Part::Of(length, Unit::Feet, 0),
        " with fittings) + strainer and standpipe ",
        tenth(strainer_ft),
        " + suction hose ",
        tenth(hose_ft),
        " = ",
        Part::Of(total, Unit::Feet, 1),
    ];
    let attainable = ATTAINABLE_LIFT_FT - lost;
    let recommended = RECOMMENDED_HEAD_FT - lost;
    let (least, greatest) = STRAINER_FLOW_RANGE_GPM;
    let total = Worked::new(total, "ft", how, HEAD_SOURCE)?
        .warn_if(total > attainable, || {
            told![
                Part::Of(total, Unit::Feet, 1),
                " is more than a pump can be counted on to lift here (",
                Part::Of(attainable, Unit::Feet, 1),
                "): expect less flow",
            ]
        })
        .warn_if(recommended < total && total <= attainable, || {
            told![
                Part::Of(total, Unit::Feet, 1),
                " is over the ",
                Part::Of(recommended, Unit::Feet, 1),
                " recommended: larger pipe or a lower pump",
            ]
        })
        .warn_if(flow_gpm < least || greatest < flow_gpm, outside_strainer_list);
    Ok(SuctionHead { pipe_ft, strainer_ft, hose_ft, total })
}

/// Greatest flow of a dry hydrant within the recommended suction head.
///
/// - Given: the hydrant; `lift_ft`, ft, 0 or more; `altitude_ft`, ft, 0 or more.
/// - Returns: gpm at which lift and losses together come to 20 ft, less 1 ft for each 1,000 ft of altitude.
/// - Errors: as [`suction_head`]; [`FactError::NothingLeft`] when the lift alone takes it all.
/// - Source: as [`suction_head`].
/// - Limits: what the pipe lets through; the pump may give less at that lift ([`crate::pump::draft_capacity`]).
pub fn dry_hydrant_flow(
    hydrant: &DryHydrant,
    lift_ft: f64,
    altitude_ft: f64,
) -> Result<Worked, FactError> {
    let length = checked_length(hydrant)?;
    zero_or_more("lift_ft", lift_ft)?;
    // Refuses altitudes at which nothing can be lifted.
    attainable_lift(altitude_ft)?;
    let head = RECOMMENDED_HEAD_FT - lift_lost(altitude_ft)?;
    let left = head - lift_ft;
    if left <= 0.0 {
        return Err(FactError::NothingLeft {
            field: "lift_ft",
            value: head,
            taken: lift_ft,
            cure: "bring the pump nearer to the water's surface",
            or_check: &[],
        });
    }
    let taken = |flow: f64| {
        let (pipe, strainer, hose) = losses(hydrant, length, flow);
        pipe + strainer + hose
    };
    // Losses rise with the flow from nothing, so halving the bracket finds the one flow that takes what is
    // left. The strainer alone bounds it from above.
    let mut low = 0.0;
    let mut high = STRAINER_FLOW_GPM * (left / STRAINER_LOSS_FT).sqrt();
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if taken(middle) < left {
            low = middle;
        } else {
            high = middle;
        }
    }
    let flow = (low + high) / 2.0;
    let (pipe, strainer, hose) = losses(hydrant, length, flow);
    let how = told![
        Part::Of(flow, Unit::Gpm, 0),
        " takes pipe ",
        Part::Bare(pipe, Unit::Feet, 1),
        " + strainer and standpipe ",
        Part::Bare(strainer, Unit::Feet, 1),
        " + suction hose ",
        Part::Of(hose, Unit::Feet, 1),
        ", with the lift ",
        given_bare(lift_ft, Unit::Feet),
        ": ",
        Part::Of(head, Unit::Feet, 1),
    ];
    let (least, greatest) = STRAINER_FLOW_RANGE_GPM;
    Ok(Worked::new(flow, "gpm", how, HEAD_SOURCE)?
        .warn_if(flow < least || greatest < flow, outside_strainer_list))
}

#[cfg(test)]
mod tests {
    use super::*;

    const HYDRANT: DryHydrant = DryHydrant {
        pipe_diameter_in: 6.0,
        pipe_length_ft: 50.0,
        hazen_williams_c: 120.0,
        elbows_90: 1,
        elbows_45: 1,
        reducers: 1,
        suction_hose: HoseSize::Six,
        suction_hose_ft: 10.0,
    };

    #[test]
    fn the_greatest_flow_takes_exactly_the_recommended_head() {
        for (lift, altitude) in [(0.0, 0.0), (8.0, 0.0), (10.0, 3000.0)] {
            let flow = dry_hydrant_flow(&HYDRANT, lift, altitude).unwrap().value;
            let head = suction_head(&HYDRANT, flow, lift, altitude).unwrap().total.value;
            assert!((head - (20.0 - altitude / 1000.0)).abs() < 1e-6, "{lift} ft: {head}");
        }
    }

    #[test]
    fn fittings_count_as_pipe() {
        let bare =
            DryHydrant { elbows_90: 0, elbows_45: 0, reducers: 0, pipe_length_ft: 90.0, ..HYDRANT };
        let one = suction_head(&HYDRANT, 500.0, 8.0, 0.0).unwrap();
        let other = suction_head(&bare, 500.0, 8.0, 0.0).unwrap();
        assert!((one.pipe_ft - other.pipe_ft).abs() < 1e-12);
    }

    #[test]
    fn over_20_ft_and_over_the_attainable_lift_the_head_warns_once_and_differently() {
        let warnings = |lift| suction_head(&HYDRANT, 500.0, lift, 0.0).unwrap().total.warnings;
        assert!(warnings(8.0).is_empty());
        let over = warnings(14.0);
        assert!(over.len() == 1 && over[0].to_string().contains("recommended"), "{over:?}");
        let far_over = warnings(20.0);
        assert!(
            far_over.len() == 1 && far_over[0].to_string().contains("expect less flow"),
            "{far_over:?}"
        );
        assert!(matches!(
            dry_hydrant_flow(&HYDRANT, 20.0, 0.0),
            Err(FactError::NothingLeft { .. })
        ));
    }

    #[test]
    fn altitude_lowers_both_limits() {
        // 10 + 2.1 + 4.8 + 0.3 is a little over 17 ft: recommended at sea level, not at 4,000 ft.
        let head = |altitude| suction_head(&HYDRANT, 500.0, 10.0, altitude).unwrap().total;
        let total = head(0.0).value;
        assert!((17.0..17.5).contains(&total), "{total}");
        assert!(head(0.0).warnings.is_empty());
        let over = head(4000.0).warnings;
        assert!(over.len() == 1 && over[0].to_string().contains("16 ft recommended"), "{over:?}");
        let far_over = head(7000.0).warnings;
        assert!(
            far_over.len() == 1 && far_over[0].to_string().contains("(15.5 ft)"),
            "{far_over:?}"
        );
    }

    #[test]
    fn outside_the_flows_and_pipes_of_the_sources_the_answer_warns() {
        for (flow, warnings) in [(249.0, 1), (250.0, 0), (750.0, 0), (751.0, 1)] {
            let wide = DryHydrant { pipe_diameter_in: 12.0, suction_hose_ft: 0.0, ..HYDRANT };
            let head = suction_head(&wide, flow, 2.0, 0.0).unwrap();
            assert_eq!(head.total.warnings.len(), warnings, "{flow} gpm");
        }
        let flow = |inches: f64, length: f64| {
            let hydrant =
                DryHydrant { pipe_diameter_in: inches, pipe_length_ft: length, ..HYDRANT };
            dry_hydrant_flow(&hydrant, 5.0, 0.0).unwrap()
        };
        let (little, some, much) = (flow(3.0, 100.0), flow(6.0, 50.0), flow(12.0, 10.0));
        assert!(little.value < 250.0 && little.warnings.len() == 1, "{}", little.how);
        assert!(some.warnings.is_empty(), "{}", some.how);
        assert!(much.value > 750.0 && much.warnings.len() == 1, "{}", much.how);
        for (inches, warnings) in [(1.99, 1), (2.0, 0)] {
            let loss = pipe_friction(inches, 120.0, 10.0, 20.0).unwrap();
            assert_eq!(loss.warnings.len(), warnings, "{inches} in");
        }
        for (c, allowed) in [(59.0, false), (60.0, true), (160.0, true), (161.0, false)] {
            assert_eq!(pipe_friction(6.0, c, 10.0, 500.0).is_ok(), allowed, "C {c}");
        }
    }
}
