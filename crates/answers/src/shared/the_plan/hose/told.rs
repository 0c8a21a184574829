//! Hose in place of tankers, in words: whether a long lay would do, what it takes, and where the shuttle wins.

use fireground::long_lay::Ends;
use fireground::told::Part;
use scenario_file::Hose;

use super::compare::{Cannot, HoseInstead, Lay, SAMPLE_FT};
use crate::say;
use crate::say::{Piece, Sentence, joined, name, on_command};
use crate::shared::quantities::{count, flow, length, pressure, volume};

/// "from Quarry pond, 2,640 ft: a long lay would do, with water at minute 27.6, not at 40.1."
pub fn in_short(one: &HoseInstead) -> Sentence {
    let from = from(one);
    let Some(lay) = &one.lay else {
        return say![from, ": no, ", why_not(one.cannot.as_ref()), "."];
    };
    match (one.can_be_laid, one.is_sooner) {
        (None, _) => say![from, ": ", takes(one, lay), "."],
        (Some(false), _) => say![from, ": no, ", why_not_laid(one), "."],
        (Some(true), Some(false)) => say![
            from,
            ": the shuttle is there first; hose would give water at ",
            Piece::Clock(lay.first_water_min),
            ".",
        ],
        (Some(true), _) => match one.shuttle_established_min {
            Some(shuttle) => say![
                from,
                ": a long lay would do, with water at ",
                Piece::Clock(lay.first_water_min),
                "; the shuttle's supply stands at ",
                Piece::Clock(shuttle),
                ".",
            ],
            None => say![
                from,
                ": a long lay would do, with water at ",
                Piece::Clock(lay.first_water_min),
                if one.source.is_some() { "." } else { " after the start." },
            ],
        },
    }
}

/// The whole comparison.
pub fn in_full(one: &HoseInstead, hose: &Hose) -> Sentence {
    let from = from(one);
    let Some(lay) = &one.lay else {
        let why = why_not(one.cannot.as_ref());
        return say![from, ": ", flow(one.flow_gpm), " by ", lines(one), ": no, ", why, "."];
    };
    let makes_it = one.shuttle_gpm.is_none_or(|gpm| gpm >= one.flow_gpm);
    let verdict = match (one.can_be_laid, one.is_sooner) {
        (Some(false), _) if makes_it => "no, leave it to the shuttle. ",
        (Some(false), _) => "no. ",
        (Some(true), Some(false)) => "the shuttle is there first. ",
        (Some(true), _) => "a long lay would do. ",
        (None, _) => "",
    };
    let mut told = say![from, ": ", verdict, takes(one, lay), when(one, lay, hose), "."];
    if let Some(cannot) = &one.cannot {
        told = told.then(say!["But ", why_not(Some(cannot)), "."]);
    }
    if one.discharge_psi < hose.discharge_psi {
        let psi = pressure(one.discharge_psi);
        told = told.then(say!["Pumped at ", psi, ", where the pump gives the flow."]);
    }
    told = told.then(where_the_shuttle_wins(one, makes_it));
    if let Some(gpm) = one.shuttle_gpm.filter(|_| !makes_it) {
        told = told.then(say!["The shuttle makes only ", flow(gpm), " by hand."]);
    }
    for warning in &lay.warnings {
        told = told.then(say!["Careful: ", warning, "."]);
    }
    told
}

/// "from Quarry pond, 2,640 ft".
fn from(one: &HoseInstead) -> Sentence {
    match (&one.source, one.distance_ft) {
        (Some(source), Some(away)) => say!["from ", name(source), ", ", length(away)],
        (None, Some(away)) => say!["from ", length(away), " away"],
        _ => say!["for each ", length(SAMPLE_FT)],
    }
}

fn lines(one: &HoseInstead) -> Sentence {
    let size = Piece::Worked(Part::Hose(one.size));
    if one.lines == 1 {
        say!["a ", size, " line"]
    } else {
        say![count(one.lines), " parallel ", size, " lines"]
    }
}

/// "500 gpm by a 5 in line takes 2,640 ft of hose, 1 engine (one pumps 8,250 ft) and 2,690 gal to fill it".
fn takes(one: &HoseInstead, lay: &Lay) -> Sentence {
    say![
        flow(one.flow_gpm),
        " by ",
        lines(one),
        if one.lines == 1 { " takes " } else { " take " },
        length(lay.hose_ft),
        " of hose, ",
        count(lay.engines),
        if lay.engines == 1 { " engine (one pumps " } else { " engines (one pumps " },
        length(lay.greatest_spacing_ft),
        ") and ",
        volume(lay.fill_gal),
        " to fill it",
    ]
}

fn when(one: &HoseInstead, lay: &Lay, hose: &Hose) -> Sentence {
    let tenth = |minutes| Piece::Number(minutes, 1);
    if one.distance_ft.is_none() {
        let (laying, filling) = (SAMPLE_FT / hose.laid_ft_a_min, lay.fill_gal / one.fill_gpm);
        return say![", ", tenth(laying), " min to lay and ", tenth(filling), " to fill"];
    }
    let mut told = say!["; first water at ", Piece::Clock(lay.first_water_min)];
    if one.source.is_none() {
        told.push(" after the start");
    }
    if let Some(minute) = one.shuttle_established_min {
        told.push(", by the shuttle supply established at ");
        told.push(Piece::Clock(minute));
    }
    told
}

fn where_the_shuttle_wins(one: &HoseInstead, makes_it: bool) -> Sentence {
    let (Some(distance), Some(by)) = (one.shuttle_wins_beyond_ft, one.ended_by) else {
        return Sentence::default();
    };
    let far = length(distance);
    let all_the = |what| say![far.clone(), " is all the ", what, " on hand."];
    let wins = |what| {
        say!["Beyond ", far.clone(), " the shuttle wins: that is all the ", what, " on hand."]
    };
    match (by, makes_it) {
        (Ends::Time, _) if distance < 1.0 => {
            say!["The shuttle is there before any hose could be hooked up."]
        }
        (Ends::Time, true) => say!["Beyond ", far, " the shuttle wins: hose gives water later."],
        (Ends::Time, false) => say!["Beyond ", far, " hose gives water later than the shuttle."],
        (Ends::Hose, true) => wins("hose"),
        (Ends::Hose, false) => all_the("hose"),
        (Ends::Engines, true) => wins("engines"),
        (Ends::Engines, false) => all_the("engines"),
    }
}

/// Why a lay of known length is not made.
fn why_not_laid(one: &HoseInstead) -> Sentence {
    if one.cannot.is_some() {
        return why_not(one.cannot.as_ref());
    }
    match (one.ended_by, one.shuttle_wins_beyond_ft) {
        (Some(Ends::Hose), Some(far)) => say!["the hose on hand ends at ", length(far)],
        (Some(Ends::Engines), Some(far)) => say!["the engines on hand reach ", length(far)],
        // Time ends it sooner than hose or engines, which end before the distance as well.
        _ => say!["hose or engines on hand do not reach"],
    }
}

fn why_not(cannot: Option<&Cannot>) -> Sentence {
    match cannot {
        None => say!["it cannot be laid"],
        Some(Cannot::SourceGives(gpm)) => say!["the source gives only ", flow(*gpm)],
        Some(Cannot::PumpGives {
            rated_gpm,
            gives_gpm,
            at_psi,
            two_lays_would_do,
            rating_that_would_do_gpm,
        }) => {
            let told = say![
                "a pump rated ",
                flow(*rated_gpm),
                " gives only ",
                flow(*gives_gpm),
                " at ",
                pressure(*at_psi),
            ];
            let two = two_lays_would_do
                .then(|| say!["two such lays side by side, each with its own pumps"]);
            let bigger = rating_that_would_do_gpm.map(|rated| say!["pumps rated ", flow(rated)]);
            let would: Vec<Sentence> = two.into_iter().chain(bigger).collect();
            if would.is_empty() {
                told
            } else {
                say![told, "; ", joined(would, ", ", ", or "), " would do"]
            }
        }
        Some(Cannot::TooManyEngines) => {
            say!["it would take more than 50 engines: larger hose or more lines"]
        }
        Some(Cannot::IntakeTakesAll) => {
            say!["the intake pressure takes all the discharge pressure"]
        }
        Some(Cannot::BeyondRating) => say!["pumps are not rated beyond ", pressure(250.0)],
        Some(Cannot::Fact(error)) => say![words_of_fact(error)],
    }
}

/// A fact that does not fit, in the words of the arithmetic: the file has been checked, so this is for us.
fn words_of_fact(error: &fireground::FactError) -> Piece {
    Piece::Words(error.to_string().into())
}

/// How fast hose is laid. What is usual is a round figure in either unit, not one turned into the other.
fn laid(hose: &Hose) -> Piece {
    /// The format's default, ft a minute.
    const USUAL: f64 = 300.0;
    if hose.laid_ft_a_min == USUAL {
        Piece::Worked(Part::Constant { us: "300 ft", metric: "about 90 m" })
    } else {
        length(hose.laid_ft_a_min)
    }
}

/// The greatest pressure at an engine, told in the same way.
fn at_the_engine(hose: &Hose) -> Piece {
    /// The format's default for large hose, psi.
    const USUAL: f64 = 185.0;
    if hose.discharge_psi == USUAL {
        Piece::Worked(Part::Constant { us: "185 psi", metric: "about 1,300 kPa" })
    } else {
        pressure(hose.discharge_psi)
    }
}

/// What the comparisons rest on.
pub fn rests_on(hose: &Hose) -> Sentence {
    let mut told = say![
        "Hose is laid at ",
        laid(hose),
        " a minute, ",
        Piece::Number(hose.hookup_min, 1),
        " min to hook up, up to ",
        at_the_engine(hose),
        " at each engine",
        if hose.common_practice { " (common practice where the file is silent)." } else { "." },
    ];
    if hose.on_hand_ft.is_none() {
        told = told.then(say!["Hose on hand is not stated", on_command(" (`hose.on_hand`)"), "."]);
    }
    told.then(say![
        "A lay across the road closes it to ",
        Piece::Tankers,
        " unless it is bridged. The shuttle can serve until the hose is full.",
    ])
}

#[cfg(test)]
#[path = "tests.rs"]
mod tests;
