//! What answers the questions of a handout, with the sum worked out in the figures of the trainees' sheet.

use super::questions::DrillQuestion;
use super::words::{place_words, whose};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined};
use crate::shared::quantities::flow;
use crate::shared::station::{CapFigures, StationKind};

/// What answers a question.
pub fn answer_words(question: &DrillQuestion) -> Sentence {
    match question {
        DrillQuestion::Cycle { parts_min, decimals, cycle_min, with_waiting_min, .. } => {
            let waiting = with_waiting_min.map(|minutes| {
                say![
                    "; in the simulated fires, with the waiting and the luck of the road, ",
                    Piece::Minutes(minutes)
                ]
            });
            let parts = parts_min.iter().map(|part| say![Piece::Number(*part, *decimals)]);
            say![
                joined(parts, " + ", " + "),
                " = ",
                cycle(*cycle_min, *decimals),
                ", nobody waiting",
                waiting,
                ". What did your watch say?",
            ]
        }
        DrillQuestion::LoadEvery { wanted_gpm, load_gal, load_every_min } => say![
            "Every ",
            Piece::Minutes(*load_every_min),
            ": ",
            Piece::Volume(*load_gal),
            " / ",
            Piece::Flow(*wanted_gpm),
            ".",
        ],
        DrillQuestion::Pinch {
            tank_gal,
            counted_gal,
            cycle_min,
            decimals,
            one_tanker_gpm,
            other_tankers,
            others_gpm,
            tankers_gpm,
            places,
            tightest,
            wanted_gpm,
            ..
        } => {
            let all = (*other_tankers > 0).then(|| {
                say![
                    " All ",
                    Piece::Tankers,
                    ": ",
                    flow(*one_tanker_gpm),
                    " + ",
                    Piece::Flow(*others_gpm),
                    " = ",
                    flow(*tankers_gpm),
                    "."
                ]
            });
            say![
                "0.9 x ",
                Piece::Volume(*tank_gal),
                " = ",
                Piece::Volume(*counted_gal),
                "; over ",
                Piece::Number(*cycle_min, *decimals),
                " minutes that is ",
                flow(*one_tanker_gpm),
                ".",
                all,
                together(places),
                " ",
                least(*tankers_gpm, tightest.as_ref(), *other_tankers),
                " ",
                Piece::Flow(*wanted_gpm),
                " are wanted.",
            ]
        }
        DrillQuestion::GateDown {
            water,
            levels,
            kept_gal,
            wanted_gpm,
            level_gal,
            lasts_min,
            ran_short,
            fires,
            gate_down_from_share,
            ..
        } => {
            let sum = |level: f64| {
                let above = match *kept_gal {
                    0.0 => say![Piece::Volume(level)],
                    kept => say!["(", Piece::Volume(level), " - ", Piece::Volume(kept), ")"],
                };
                say![above, " / ", Piece::Flow(*wanted_gpm), " = ", Piece::Minutes(*lasts_min), "."]
            };
            match level_gal.zip(*ran_short) {
                Some((level, share)) => say![
                    "At ",
                    Piece::Volume(level),
                    " ",
                    whose(*water),
                    ": of the fires in which the water fell so far, the lines ran short in ",
                    Piece::PercentTo(Chances::of(share, *fires), 0),
                    ". ",
                    sum(level),
                ],
                None => {
                    let lowest =
                        levels.last().map(|cell| say![" The lowest lasts ", sum(cell.level_gal)]);
                    say![
                        "At none of them: no level has ",
                        Piece::Share(*gate_down_from_share),
                        ". Watch the road, and ask early.",
                        lowest
                    ]
                }
            }
        }
        DrillQuestion::EngineTank { tank_gal, kept_gal, wanted_gpm, lasts_min, .. } => say![
            "(",
            Piece::Volume(*tank_gal),
            " - ",
            Piece::Volume(*kept_gal),
            ") / ",
            Piece::Flow(*wanted_gpm),
            " = ",
            Piece::Minutes(*lasts_min),
            ".",
        ],
    }
}

/// "18.5 minutes", "18.54, about 18.5 minutes".
fn cycle(minutes: f64, decimals: usize) -> Sentence {
    match decimals {
        0 | 1 => say![Piece::Number(minutes, 1), " minutes"],
        more => {
            say![Piece::Number(minutes, more), ", about ", Piece::Number(minutes, 1), " minutes"]
        }
    }
}

/// " The fill sites together: 500 gpm + 400 gpm = 900 gpm." - nothing of a single one.
fn together(places: &[CapFigures]) -> Sentence {
    let sites: Vec<f64> = (places.iter())
        .filter(|cap| cap.station == StationKind::FillSite)
        .map(|cap| cap.cap_gpm)
        .collect();
    if sites.len() < 2 {
        return say![];
    }
    let each = sites.iter().map(|gpm| say![flow(*gpm)]);
    say![" The fill sites: ", joined(each, " + ", " + "), ", about ", flow(sites.iter().sum()), "."]
}

/// "The tankers pass least, 254 gpm.", or the place that does.
fn least(tankers_gpm: f64, tightest: Option<&CapFigures>, other_tankers: usize) -> Sentence {
    let tankers = if other_tankers == 0 { say![Piece::Tanker] } else { say![Piece::Tankers] };
    let verb = if other_tankers == 0 { " passes" } else { " pass" };
    match tightest.filter(|place| place.cap_gpm <= tankers_gpm) {
        Some(place) => {
            say!["Least of all passes ", place_words(place), ", ", flow(place.cap_gpm), "."]
        }
        None => say!["The ", tankers, verb, " least, ", flow(tankers_gpm), "."],
    }
}
