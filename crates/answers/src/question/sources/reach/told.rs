//! What `reach` says.

use fireground::travel::{RULE_MIN_PER_MILE, START_MIN};
use scenario_file::Scenario;
use shuttle_report::reach::{ReachAnswer, ReachCell, ReachRow};

use super::tables;
use crate::answer::{Block, Label, Told};
use crate::say;
use crate::say::{Piece, Sentence, name};
use crate::shared::luck::SharedLuck;
use crate::shared::notes;

/// A usual haul, miles: the answer is told at this distance, or the nearest to it that holds. Judgement.
const USUAL_HAUL: f64 = 2.0;

/// The answer in sentences.
///
/// - Given: average speeds out and back, mph; `None`: by the travel rule.
pub fn told(scenario: &Scenario, found: &ReachAnswer, driven: Option<[f64; 2]>) -> Told {
    let mut points = Vec::new();
    let mut more = Vec::new();
    if !found.distances.is_empty() || !found.rows.is_empty() {
        points.push(SharedLuck::of(&scenario.plan).line());
    }
    if found.wanted_gpm.is_some() && !found.distances.is_empty() {
        points.extend([Block::Gap, Block::Table(tables::distances(found))]);
        more.extend(tables::all_distances(found).map(Block::Table));
    }
    if !found.rows.is_empty() {
        points.extend(enough(found).map(|told| Block::Point(Label::More, told)));
        let heading = say![
            "The flow that holds, ",
            Piece::FlowSign,
            ", by ",
            Piece::DistanceSign,
            " one way and number of ",
            Piece::Tankers,
            ":",
        ];
        points.extend([Block::Gap, Block::Paragraph(heading), Block::Table(tables::short(found))]);
        for table in tables::full(found) {
            more.extend([Block::Table(table), Block::Gap]);
        }
        more.push(Block::Paragraph(all_enough(found)));
    }
    Told {
        headline: headline(found),
        verdict: match found.wanted_gpm {
            Some(wanted) => distance_verdict(found, wanted),
            None => flow_verdict(found),
        },
        points,
        advice: Vec::new(),
        more,
        notes: notes(scenario),
        small_print: small_print(found, driven),
        ask_next: vec!["risk", "size", "grade"],
    }
}

fn headline(found: &ReachAnswer) -> Sentence {
    let how_far = say![name(&found.title), ". How far from ", name(&found.site)];
    match found.wanted_gpm {
        Some(wanted) => say![how_far, " ", Piece::Flow(wanted), " holds."],
        None => say![how_far, "."],
    }
}

fn last_held(row: &ReachRow) -> Option<(&ReachCell, f64)> {
    let last = row.cells.last()?;
    Some((last, last.held_gpm?))
}

/// The row at a usual haul, or the nearest to it at which something holds.
fn usual(found: &ReachAnswer) -> Option<&ReachRow> {
    let off = |row: &ReachRow| (row.miles - USUAL_HAUL).abs();
    (found.rows.iter())
        .filter(|row| last_held(row).is_some())
        .min_by(|a, b| off(a).total_cmp(&off(b)))
}

fn flow_verdict(found: &ReachAnswer) -> Sentence {
    let share = Piece::Share(found.share);
    let demand = found.demand;
    if let Some(row) = usual(found)
        && let Some((cell, gpm)) = last_held(row)
    {
        let does = if cell.tankers == 1 { " holds " } else { " hold " };
        let held = say![
            "At ",
            Piece::Distance(row.miles),
            " one way ",
            Piece::TankerCount(cell.tankers),
            does,
            Piece::Flow(gpm),
            " for ",
            Piece::Duration(demand.minutes),
            " in at least ",
            share,
            " of fires",
        ];
        // The first minutes ask for less only where the flow is more than that.
        let start = if gpm > demand.minimum {
            say![
                ", from minute ",
                Piece::Number(demand.full_from, 0),
                " after the first engine's arrival; until then ",
                Piece::Flow(demand.minimum),
                ".",
            ]
        } else {
            say!["."]
        };
        return say![held, start];
    }
    let is_close =
        found.rows.iter().flat_map(|row| &row.cells).any(|cell| cell.not_clear_up_to_gpm.is_some());
    if found.ended_early {
        say!["Ended before anything was clear."]
    } else if is_close {
        say![
            "Too close to tell whether any flow holds in ",
            share,
            " of fires; more fires",
            crate::say::on_command(" (--runs)"),
            " would.",
        ]
    } else {
        say![
            "No flow surely holds in ",
            share,
            " of fires at any distance tried: see what ",
            Piece::ByMedium { command: "`bucketline risk`", page: "the answer to the plan" },
            " says of the start.",
        ]
    }
}

/// From which number of tankers on another one adds little, at the haul the answer is told at.
fn enough(found: &ReachAnswer) -> Option<Sentence> {
    let row = usual(found)?;
    let enough = row.enough?;
    Some(say![
        "at ",
        Piece::Distance(row.miles),
        " another beyond ",
        Piece::TankerCount(enough),
        " adds no more than its first load.",
    ])
}

/// The same at every distance.
fn all_enough(found: &ReachAnswer) -> Sentence {
    let mut told = say![
        "Another adds no more than its first load beyond this number of ",
        Piece::Tankers,
        ": "
    ];
    let mut is_first = true;
    for row in &found.rows {
        if let Some(enough) = row.enough {
            if !is_first {
                told.push("; ");
            }
            is_first = false;
            let count = Piece::Number(enough as f64, 0);
            told.push(say!["at ", Piece::Distance(row.miles), " ", count]);
        }
    }
    if is_first {
        return say![
            "At no distance is there one ",
            Piece::Tanker,
            " that adds no more than its first load."
        ];
    }
    told.push(".");
    told
}

fn distance_verdict(found: &ReachAnswer, wanted: f64) -> Sentence {
    let wanted = Piece::Flow(wanted);
    let share = Piece::Share(found.share);
    match found.distances.iter().rev().find_map(|row| Some((row, row.held_miles?))) {
        Some((row, miles)) => say![
            wanted,
            " holds up to ",
            Piece::Distance(miles),
            " from water with ",
            Piece::TankerCount(row.tankers),
            ", in at least ",
            share,
            " of fires",
            if row.at_the_end { ", and perhaps beyond: it is the farthest tried." } else { "." },
        ],
        None if found.ended_early => say!["Ended before anything was clear."],
        None if found.distances.iter().any(|row| row.not_clear_up_to_miles.is_some()) => say![
            "Too close to tell whether ",
            wanted,
            " holds at any distance in ",
            share,
            " of fires; more fires",
            crate::say::on_command(" (--runs)"),
            " would.",
        ],
        None => {
            say!["At no distance tried does ", wanted, " surely hold in ", share, " of fires."]
        }
    }
}

/// How the road is driven.
///
/// - Given: average speeds out and back, mph; `None`: by the travel rule.
pub fn road(driven: Option<[f64; 2]>) -> Sentence {
    match driven {
        Some([out, back]) => say![
            Piece::Speed(out),
            " out and ",
            Piece::Speed(back),
            " back, as the scenario drives it",
        ],
        None => say![
            "by the travel rule each way, ",
            Piece::Number(START_MIN, 2),
            " min and then ",
            Piece::Speed(60.0 / RULE_MIN_PER_MILE),
        ],
    }
}

fn small_print(found: &ReachAnswer, driven: Option<[f64; 2]>) -> Vec<Sentence> {
    let demand = found.demand;
    let passes = found.site_cap_gpm.map(|gpm| {
        say![
            " (",
            name(&found.site),
            " passes no more than ",
            Piece::Flow(gpm),
            " by hand with all of them)",
        ]
    });
    let road = road(driven);
    vec![
        say![
            "Holds: unbroken in at least ",
            Piece::Share(found.share),
            " of fires for ",
            Piece::Duration(demand.minutes),
            " from minute ",
            Piece::Number(demand.full_from, 0),
            " after the first engine's arrival, and ",
            Piece::Flow(demand.minimum),
            " (or the flow, if less) from minute ",
            Piece::Number(demand.minimum_from, 0),
            " on; first loads and full tanks count, so it may be more than by hand",
            passes,
            ".",
        ],
        say![
            "Road: ",
            road,
            ". The ",
            Piece::Tankers,
            " arrive as the scenario says, in its order. All words of the table hold together with 95% \
             confidence.",
        ],
    ]
}
