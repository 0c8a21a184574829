//! Which attack lines carry a flow.

use crate::fact_checks::more_than_zero;
use crate::told::{Part, Unit, given_of, told};
use crate::{FactError, Told, hose::HoseSize};

/// What one hand line of each size flows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineFlows {
    /// Flow of a 1-3/4 in line, gpm, more than 0. Common practice: about 150; the range is wide.
    pub small_gpm: f64,
    /// Flow of a 2-1/2 in line, gpm, at least that of the small one. Common practice: about 250 and more.
    pub large_gpm: f64,
}

impl Default for LineFlows {
    /// 150 gpm and 250 gpm, by common practice.
    fn default() -> LineFlows {
        LineFlows { small_gpm: 150.0, large_gpm: 250.0 }
    }
}

/// What a stream comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stream {
    /// A hand line of this hose.
    HandLine(HoseSize),
    /// A master stream: a monitor on the ground or on a truck.
    Master,
}

/// Attack lines of one kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineGroup {
    /// What they are.
    pub stream: Stream,
    /// How many of them, 1 or more.
    pub count: u32,
    /// What each flows with its nozzle fully open, gpm.
    pub flow_each_gpm: f64,
}

/// Attack lines that together carry a flow.
#[derive(Debug, Clone, PartialEq)]
pub struct AttackLines {
    /// Hand lines, large ones first, one or two entries; or master streams, one entry.
    pub groups: Vec<LineGroup>,
    /// What all of them flow with every nozzle open, gpm: at least the flow wanted.
    pub carried_gpm: f64,
    /// The lines in words.
    pub how: Told,
    /// Where the flows come from.
    pub source: &'static str,
    /// What to know before relying on it.
    pub warnings: Vec<Told>,
}

/// Most hand lines worth counting; beyond it the flow given is more likely a typing slip. Assumed.
const MOST_LINES: f64 = 100.0;

/// Most hand lines of one fire: beyond them master streams are usual. Common practice: more take crews that a rural
/// department does not have.
const MOST_HAND_LINES: f64 = 3.0;

/// What a master stream flows, gpm. Common practice: 350 and more; a common portable monitor about 500.
const MASTER_STREAM_GPM: f64 = 500.0;

/// Surplus of the nozzles over the flow wanted that is worth mentioning. Assumed.
const SURPLUS_SHARE: f64 = 0.10;

/// The fewest attack lines that carry a flow, with as many small ones among them as will do; where more than three
/// would be wanted, master streams.
///
/// - Given: `flow_gpm` wanted, gpm, more than 0; `flows`, what a line of each size flows.
/// - Returns: the lines ([`AttackLines`]). Their nozzles may flow more than was wanted.
/// - Errors: not finite, negative or zero flows; a large line that flows less than a small one; a flow that
///   would take more than 100 lines.
/// - Source: common practice. Crew, reach and stretch decide as much as flow does: a starting point.
/// - Limits: a back-up line is not counted beyond what the flow itself asks for.
pub fn attack_lines(flow_gpm: f64, flows: &LineFlows) -> Result<AttackLines, FactError> {
    more_than_zero("flow_gpm", flow_gpm)?;
    let small = more_than_zero("small_gpm", flows.small_gpm)?;
    let large = more_than_zero("large_gpm", flows.large_gpm)?;
    if large < small {
        return Err(FactError::Conflict {
            field: "large_gpm",
            value: large,
            other: "small_gpm",
            other_value: small,
            cure: "the 2-1/2 in line flows at least as much as the 1-3/4 in line; check the order",
        });
    }
    let lines = (flow_gpm / large).ceil();
    if lines > MOST_LINES {
        return Err(FactError::OutsideRange {
            field: "flow_gpm",
            value: flow_gpm,
            low: 0.0,
            high: MOST_LINES * large,
            cure: "check for extra digits, or plan master streams",
        });
    }
    if lines > MOST_HAND_LINES {
        return Ok(master_streams(flow_gpm, MOST_HAND_LINES * large));
    }
    let short_with_small_only = flow_gpm - lines * small;
    let large_lines = if short_with_small_only > 0.0 {
        // The last of the lines may exceed what is needed by a rounding error; there can never be more of
        // them than lines.
        (short_with_small_only / (large - small)).ceil().min(lines)
    } else {
        0.0
    };
    let small_lines = lines - large_lines;
    let carried = large_lines * large + small_lines * small;

    let mut groups = Vec::new();
    let mut how = Told::default();
    let sizes = [
        (HoseSize::TwoAndHalf, large_lines, large),
        (HoseSize::OneAndThreeQuarter, small_lines, small),
    ];
    for (size, count, flow) in sizes {
        if count > 0.0 {
            let stream = Stream::HandLine(size);
            groups.push(LineGroup { stream, count: count as u32, flow_each_gpm: flow });
            if !how.0.is_empty() {
                how = how.and(told![" + "]);
            }
            how = how.and(told![
                Part::Number(count, 0),
                " x ",
                Part::Hose(size),
                " at ",
                given_of(flow, Unit::Gpm),
            ]);
        }
    }
    let mut warnings = Vec::new();
    if lines == 1.0 {
        warnings.push(told![
            "one line leaves no back-up line: common practice is a second one that flows at least as much"
        ]);
    }
    warnings.extend(surplus(carried, flow_gpm));
    Ok(AttackLines {
        groups,
        carried_gpm: carried,
        how: how.and(for_the_flow(carried, flow_gpm)),
        source: "common practice",
        warnings,
    })
}

/// Master streams for a flow that is more than hand lines carry.
fn master_streams(flow_gpm: f64, by_hand_gpm: f64) -> AttackLines {
    let count = (flow_gpm / MASTER_STREAM_GPM).ceil();
    let carried = count * MASTER_STREAM_GPM;
    let streams = if count == 1.0 { " master stream at " } else { " master streams at " };
    let how = told![Part::Number(count, 0), streams, given_of(MASTER_STREAM_GPM, Unit::Gpm)];
    let mut warnings = vec![told![
        "three hand lines flow ",
        Part::Of(by_hand_gpm, Unit::Gpm, 0),
        " at most; a master stream is no interior attack",
    ]];
    warnings.extend(surplus(carried, flow_gpm));
    AttackLines {
        groups: vec![LineGroup {
            stream: Stream::Master,
            count: count as u32,
            flow_each_gpm: MASTER_STREAM_GPM,
        }],
        carried_gpm: carried,
        how: how.and(for_the_flow(carried, flow_gpm)),
        source: "common practice",
        warnings,
    }
}

fn for_the_flow(carried: f64, flow_gpm: f64) -> Told {
    told![
        " = ",
        Part::Of(carried, Unit::Gpm, 0),
        " for the ",
        Part::Of(flow_gpm, Unit::Gpm, 0),
        " wanted",
    ]
}

/// What to know where the nozzles flow more than was wanted.
fn surplus(carried: f64, flow_gpm: f64) -> Option<Told> {
    (carried > flow_gpm * (1.0 + SURPLUS_SHARE)).then(|| {
        told![
            "with every nozzle open these lines flow ",
            Part::Of(carried, Unit::Gpm, 0),
            ", not ",
            Part::Bare(flow_gpm, Unit::Gpm, 0),
            ": supply that, gate down or fit smaller tips",
        ]
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fewest_lines_and_light_ones_where_they_will_do() {
        let rows = [
            // (wanted gpm, 2-1/2 in lines, 1-3/4 in lines)
            (125.0, 0, 1),
            (150.0, 0, 1),
            (151.0, 1, 0),
            (300.0, 0, 2),
            (301.0, 1, 1),
            (400.0, 1, 1),
            (401.0, 2, 0),
            (500.0, 2, 0),
            (501.0, 1, 2),
            (750.0, 3, 0),
        ];
        for (wanted, large, small) in rows {
            let lines = attack_lines(wanted, &LineFlows::default()).unwrap();
            let count = |size| {
                lines
                    .groups
                    .iter()
                    .filter(|g| g.stream == Stream::HandLine(size))
                    .map(|g| g.count)
                    .sum::<u32>()
            };
            assert_eq!(count(HoseSize::TwoAndHalf), large, "{wanted} gpm: {}", lines.how);
            assert_eq!(count(HoseSize::OneAndThreeQuarter), small, "{wanted} gpm: {}", lines.how);
            assert!(lines.carried_gpm >= wanted);
        }
    }

    #[test]
    fn equal_lines_and_a_single_line_are_handled() {
        let equal = LineFlows { small_gpm: 200.0, large_gpm: 200.0 };
        let lines = attack_lines(600.0, &equal).unwrap();
        assert_eq!((lines.groups.len(), lines.groups[0].count), (1, 3));
        assert_eq!(attack_lines(150.0, &LineFlows::default()).unwrap().warnings.len(), 1);
        assert!(attack_lines(500.0, &LineFlows::default()).unwrap().warnings.is_empty());
    }

    #[test]
    fn beyond_three_hand_lines_there_are_master_streams() {
        let rows = [
            // (wanted gpm, master streams, gpm carried): 500 gpm each, common practice
            (750.0, 0, 750.0),
            (751.0, 2, 1000.0),
            (1000.0, 2, 1000.0),
            (1001.0, 3, 1500.0),
            (6500.0, 13, 6500.0),
        ];
        for (wanted, masters, carried) in rows {
            let lines = attack_lines(wanted, &LineFlows::default()).unwrap();
            let of = lines.groups.iter().filter(|group| group.stream == Stream::Master);
            assert_eq!(
                of.map(|group| group.count).sum::<u32>(),
                masters,
                "{wanted} gpm: {}",
                lines.how
            );
            assert_eq!(lines.carried_gpm, carried, "{wanted} gpm");
        }
    }

    #[test]
    fn nozzles_that_flow_a_tenth_more_than_wanted_and_master_streams_warn() {
        let warnings = |flow| attack_lines(flow, &LineFlows::default()).unwrap().warnings.len();
        let rows = [
            // (wanted gpm, warnings): two 1-3/4 in lines flow 300; master streams are told as such.
            (273.0, 0),
            (272.0, 1),
            (750.0, 0),
            (1000.0, 1),
            (1001.0, 2),
        ];
        for (flow, expected) in rows {
            assert_eq!(warnings(flow), expected, "{flow} gpm");
        }
        assert!(attack_lines(25_000.0, &LineFlows::default()).is_ok());
        assert!(matches!(
            attack_lines(25_001.0, &LineFlows::default()),
            Err(FactError::OutsideRange { high: 25_000.0, .. })
        ));
    }

    #[test]
    fn swapped_lines_and_absurd_flows_are_refused() {
        let swapped = LineFlows { small_gpm: 250.0, large_gpm: 150.0 };
        assert!(matches!(attack_lines(500.0, &swapped), Err(FactError::Conflict { .. })));
        assert!(matches!(
            attack_lines(1e9, &LineFlows::default()),
            Err(FactError::OutsideRange { .. })
        ));
    }
}
