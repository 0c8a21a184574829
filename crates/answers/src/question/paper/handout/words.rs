//! Findings and questions in words.

use super::figures::Finding;
use super::questions::DrillQuestion;
use crate::question::card::{Water, watch_words};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, list, name};
use crate::shared::changes::told_change;
use crate::shared::quantities::flow;
use crate::shared::station::{CapFigures, StationKind};

/// A finding as a training officer reads it out.
pub fn finding_words(finding: &Finding) -> Sentence {
    match finding {
        Finding::RunsShort { interruption_probability, replications, watch } => {
            let when = watch_words(watch).map(|when| say!["; watch ", when]);
            let of = Chances::of(*interruption_probability, *replications);
            say!["The lines run short in ", Piece::Fires(of), when, "."]
        }
        Finding::Driving { tanker, driving_min, cycle_min } => say![
            "Driving takes ",
            Piece::Number(100.0 * driving_min / cycle_min, 0),
            "% of a cycle of ",
            name(tanker),
            " in which nobody waits: hands at the fill site and at the fire are the rest.",
        ],
        Finding::Helps { change, interruption_probability, replications } => {
            let of = Chances::of(*interruption_probability, *replications);
            say![
                "What helps most of what was tried: ",
                told_change(change),
                ". Then the lines run short in ",
                Piece::Fires(of),
                "."
            ]
        }
        Finding::OnWheels { on_wheels_gal, on_wheels_min } => say![
            Piece::Volume(*on_wheels_gal),
            " on wheels last ",
            Piece::Minutes(*on_wheels_min),
            ".",
        ],
    }
}

/// The question alone.
pub fn question_words(question: &DrillQuestion) -> Sentence {
    match question {
        DrillQuestion::Cycle { tanker, .. } => say![
            "How long does one cycle of ",
            name(tanker),
            " take, from leaving the fire until it is clear to leave it again? Add up its parts on the sheet."
        ],
        DrillQuestion::LoadEvery { wanted_gpm, load_gal, .. } => say![
            "A load brings ",
            Piece::Volume(*load_gal),
            ". How often must one come in to keep up ",
            Piece::Flow(*wanted_gpm),
            "?",
        ],
        DrillQuestion::Pinch { tanker, tank_gal, other_tankers, others_gpm, places, .. } => {
            let others = match other_tankers {
                0 => None,
                1 => Some(say![" The other one brings ", Piece::Flow(*others_gpm), "."]),
                many => Some(say![
                    " The other ",
                    Piece::Count(*many),
                    " bring ",
                    Piece::Flow(*others_gpm),
                    " together."
                ]),
            };
            say![
                "How much does ",
                name(tanker),
                " bring a minute: its ",
                Piece::Volume(*tank_gal),
                " less a tenth, over that cycle?",
                others,
                passes(places),
            ]
        }
        DrillQuestion::GateDown { water, gate_down_from_share, kept_gal, wanted_gpm, .. } => {
            let kept = match water {
                _ if *kept_gal <= 0.0 => None,
                Water::DropTanks => {
                    Some(say![" if the last ", Piece::Volume(*kept_gal), " cannot be pumped"])
                }
                Water::EngineTank => {
                    Some(say![" if the last ", Piece::Volume(*kept_gal), " are not for the attack"])
                }
            };
            say![
                "You pump, and no ",
                Piece::Tanker,
                " is in sight. At which level ",
                whose(*water),
                " do you say \"gate down\": the highest from which at least ",
                Piece::Share(*gate_down_from_share),
                " of such fires ran short",
                "? How long does it last at ",
                Piece::Flow(*wanted_gpm),
                kept,
                "?",
            ]
        }
        DrillQuestion::EngineTank { engine, tank_gal, kept_gal, wanted_gpm, .. } => {
            let kept = (*kept_gal > 0.0)
                .then(|| say![", of which ", Piece::Volume(*kept_gal), " are for backing out"]);
            say![
                "No more water comes. ",
                engine.as_ref().map_or_else(|| say!["The attack engine"], |one| say![name(one)]),
                " carries ",
                Piece::Volume(*tank_gal),
                kept,
                ". How long do the lines keep ",
                Piece::Flow(*wanted_gpm),
                "?",
            ]
        }
    }
}

/// " What passes least: all tankers together; or Quarry pond, 900 gpm; or the dump site, 654 gpm?"
fn passes(places: &[CapFigures]) -> Sentence {
    let is_site = |cap: &&CapFigures| cap.station == StationKind::FillSite;
    let one = |cap: &CapFigures| say![place_words(cap), ", ", flow(cap.cap_gpm)];
    let sites: Vec<Sentence> = places.iter().filter(is_site).map(one).collect();
    let sites = match sites.len() {
        0 => None,
        1 => sites.into_iter().next(),
        _ => Some(say![list(sites), ", together"]),
    };
    let all = sites.into_iter().chain(places.iter().filter(|cap| !is_site(cap)).map(one));
    let all: Vec<Sentence> = all.collect();
    if all.is_empty() {
        return say![];
    }
    say![" What passes least: all ", Piece::Tankers, " together; ", joined(all, "; ", "; or "), "?"]
}

/// "in the drop tanks".
pub(super) fn whose(water: Water) -> Sentence {
    match water {
        Water::DropTanks => say!["in the drop tanks"],
        Water::EngineTank => say!["in the attack engine"],
    }
}

/// "Quarry pond", "the dump site".
pub fn place_words(of: &CapFigures) -> Sentence {
    match (of.station, &of.name) {
        (_, Some(site)) => say![name(site)],
        (StationKind::FillSite | StationKind::FillSites, None) => say!["the fill sites together"],
        (StationKind::DumpSite, None) => say!["the dump site"],
        (StationKind::Intakes, None) => say!["the attack engine's intakes"],
        (StationKind::DraftAndLay, None) => say!["the draft and its lay"],
    }
}
