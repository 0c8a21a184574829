//! Findings, questions and their answers in words.

use shuttle_report::worksheet::HAND_ALLOWANCE;

use super::figures::{DrillQuestion, Finding};
use crate::question::card::{Water, watch_words};
use crate::say;
use crate::say::{Chances, Piece, Sentence, name};
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
        DrillQuestion::Pinch { tanker, tank_gal, .. } => say![
            "How much does ",
            name(tanker),
            " bring a minute: its ",
            Piece::Volume(*tank_gal),
            " less a tenth, over that cycle? And what passes least, all ",
            Piece::Tankers,
            " together or a place on their way?",
        ],
        DrillQuestion::GateDown { water, .. } => say![
            "You pump, and no ",
            Piece::Tanker,
            " is in sight: with how much water ",
            whose(*water),
            " do you say \"gate down\"?",
        ],
    }
}

/// What answers it.
pub fn answer_words(question: &DrillQuestion) -> Sentence {
    match question {
        DrillQuestion::Cycle { cycle_min, with_waiting_min, .. } => {
            let waiting = with_waiting_min.map(|minutes| {
                say![
                    "; in the simulated fires, with the waiting and the luck of the road, ",
                    Piece::Minutes(minutes)
                ]
            });
            say![
                Piece::Minutes(*cycle_min),
                ", the parts added up with nobody waiting",
                waiting,
                ". What did your watch say?",
            ]
        }
        DrillQuestion::LoadEvery { wanted_gpm, load_gal, load_every_min } => say![
            "Every ",
            Piece::Minutes(*load_every_min),
            ": ",
            Piece::Volume(*load_gal),
            " over ",
            Piece::Flow(*wanted_gpm),
            ".",
        ],
        DrillQuestion::Pinch {
            tank_gal,
            cycle_min,
            one_tanker_gpm,
            tankers_gpm,
            tightest,
            wanted_gpm,
            ..
        } => say![
            flow(*one_tanker_gpm),
            ": ",
            Piece::Volume((1.0 - HAND_ALLOWANCE) * tank_gal),
            " over ",
            Piece::Minutes(*cycle_min),
            ". By hand ",
            pinch(*tankers_gpm, tightest.as_ref()),
            "; ",
            Piece::Flow(*wanted_gpm),
            " are wanted.",
        ],
        DrillQuestion::GateDown {
            interruption_probability,
            water,
            level_gal,
            ran_short,
            fires,
        } => match level_gal.zip(*ran_short) {
            Some((level, share)) => say![
                "At ",
                Piece::Volume(level),
                " ",
                whose(*water),
                ": of the fires in which the water fell so far, the lines ran short in ",
                Piece::PercentTo(Chances::of(share, *fires), 0),
                ".",
            ],
            None if *interruption_probability >= 1.0 => say![
                "No level warns in time: the lines run short in every fire, whatever the level."
            ],
            None => say!["No level warns clearly: watch the road, and ask early."],
        },
    }
}

fn whose(water: Water) -> Sentence {
    match water {
        Water::DropTanks => say!["in the drop tanks"],
        Water::EngineTank => say!["in the attack engine"],
    }
}

/// "all tankers bring about 254 gpm, less than any place passes; the tightest of those is the dump site, 654 gpm", or the place
/// first where it is tighter.
fn pinch(tankers_gpm: f64, tightest: Option<&CapFigures>) -> Sentence {
    let bring = say!["all ", Piece::Tankers, " bring about ", flow(tankers_gpm)];
    let Some(tightest) = tightest else {
        return say![bring, ", and no place caps them"];
    };
    let passes = say![flow(tightest.cap_gpm)];
    if tankers_gpm < tightest.cap_gpm {
        say![
            bring,
            ", less than any place passes; the tightest of those is ",
            place(tightest),
            ", ",
            passes
        ]
    } else {
        say![place(tightest), " passes ", passes, ", and ", bring]
    }
}

/// "Quarry pond", "the dump site".
fn place(of: &CapFigures) -> Sentence {
    match (of.station, &of.name) {
        (_, Some(site)) => say![name(site)],
        (StationKind::FillSite | StationKind::FillSites, None) => say!["the fill sites together"],
        (StationKind::DumpSite, None) => say!["the dump site"],
        (StationKind::Intakes, None) => say!["the attack engine's intakes"],
        (StationKind::DraftAndLay, None) => say!["the draft and its lay"],
    }
}
