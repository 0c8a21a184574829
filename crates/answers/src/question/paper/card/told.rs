//! What `card` says on a screen; the card itself is a page.

use scenario_file::Scenario;
use shuttle_report::units::clock as clock_of;

use super::calls::{held_words, people_short_words};
use super::figures::{CardFigures, ClockFigures, UnitFigures};
use super::lost::{call_next_words, lost_tanker_words, refuses_words};
use super::sources::where_words;
use super::tables;
use super::wires::{Water, WiresFigures};
use crate::answer::{Basis, Block, Label, Told};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, list, name};
use crate::shared::{aid_not_asked, headline, notes};

/// The answer in words.
pub fn told(scenario: &Scenario, figures: &CardFigures, basis: &Basis) -> Told {
    let wires = &figures.trip_wires;
    let mut points: Vec<Block> = no_orders(figures, basis).into_iter().collect();
    points.extend([
        Block::Point(Label::Ask, ask(&figures.units)),
        Block::Point(Label::Start, clock_words(figures)),
        Block::Point(Label::Cycle, load_words(figures)),
    ]);
    let mut more = Vec::new();
    if basis.replications > 0 {
        points.extend(asking(wires).map(|told| Block::Point(Label::TripWire, told)));
        // Where no level warns, the verdict says so.
        if wires.wires.iter().any(|wire| wire.ask.is_some() || wire.gate_down.is_some()) {
            points.extend([Block::Gap, Block::Table(tables::wires(wires)), Block::Gap]);
        }
        more.push(Block::Table(tables::every_level(wires)));
    }
    if figures.reserve_gal > 0.0 {
        points.push(Block::Point(
            Label::Reserve,
            say![Piece::Volume(figures.reserve_gal), " stay in ", attack_engine(figures), "."],
        ));
    }
    points.extend(lost(figures).map(|told| Block::Point(Label::Lost, told)));
    let held = held_words(figures);
    points.extend(held.map(|told| Block::Point(Label::Hold, say!["these units hold ", told, "."])));
    points
        .extend(people_short_words(&figures.people).map(|told| Block::Point(Label::People, told)));
    points.extend(aid_not_asked(scenario));
    if basis.replications > 0 {
        points.push(figures.shared_luck.line());
    }
    more.extend([Block::Gap, Block::Table(tables::sources(&figures.sources))]);
    more.extend(where_words(&figures.sources).map(Block::Paragraph));
    Told {
        headline: headline(&scenario.plan),
        verdict: verdict(figures, basis),
        points,
        advice: Vec::new(),
        more,
        notes: notes(scenario),
        small_print: small_print(wires),
        ask_next: vec!["risk", "request", "handout"],
    }
}

/// "With no tanker in sight gate down at 600 gal in the drop tanks, about 1 minute of water: of fires that came so
/// far the lines ran short in 56 of 100."
fn verdict(figures: &CardFigures, basis: &Basis) -> Sentence {
    let wires = &figures.trip_wires;
    let short = Chances::of(figures.interruption_probability, basis.replications);
    if basis.replications == 0 {
        return say!["Ended before anything was clear."];
    }
    let first = wires.first_gate_down();
    let Some((cell, chances)) = first.and_then(|cell| Some((cell, cell.chances()?))) else {
        let why = (figures.interruption_probability < 1.0).then_some(
            ": none was followed by a shortfall in half of the fires, and more often than a fire runs short anyway",
        );
        let told = say![no_wire(figures), why.unwrap_or_default(), "."];
        return say!["The lines run short in ", Piece::Fires(short), ". ", told];
    };
    let waiting = if cell.no_load_within_min == wires.in_sight_min {
        say!["With no ", Piece::Tanker, " in sight"]
    } else {
        say!["With no load to come within ", Piece::Minutes(cell.no_load_within_min)]
    };
    say![
        waiting,
        " gate down at ",
        Piece::Volume(cell.level_gal),
        in_what(wires.water),
        ": of the fires in which the water fell so far, the lines ran short in ",
        Piece::Percent(chances),
        ".",
    ]
}

/// That there is no level to gate down at, without a full stop.
pub fn no_wire(figures: &CardFigures) -> Sentence {
    if figures.interruption_probability >= 1.0 {
        return say![
            "No level warns in time: this plan runs short whatever the level, and needs more water first"
        ];
    }
    say!["No level", in_what(figures.trip_wires.water), " warns clearly"]
}

/// " in the drop tanks".
fn in_what(water: Water) -> Sentence {
    match water {
        Water::DropTanks => say![" in the drop tanks"],
        Water::EngineTank => say![" in the attack engine"],
    }
}

/// That the card of a plan that fails has no orders; nothing where the plan keeps the target.
fn no_orders(figures: &CardFigures, basis: &Basis) -> Option<Block> {
    let short = Chances::of(figures.interruption_probability, basis.replications);
    (basis.replications > 0 && figures.is_not_to_be_used()).then(|| {
        let told = say![
            "do not use this plan: short in ",
            Piece::Fires(short),
            ". The card to print says so and has no orders."
        ];
        Block::Point(Label::Careful, told)
    })
}

/// "at the alarm A, B and C; at minute 4 D."
fn ask(units: &[UnitFigures]) -> Sentence {
    let mut calls: Vec<(f64, Vec<Sentence>)> = Vec::new();
    for unit in units {
        let told = unit.name.as_ref().map_or_else(
            || {
                say![
                    "what carries drop tank ",
                    Piece::Number(unit.brings_drop_tanks.first().copied().unwrap_or(1) as f64, 0)
                ]
            },
            |of| say![name(of)],
        );
        match calls.last_mut() {
            Some((at, names)) if *at == unit.requested_at_min => names.push(told),
            _ => calls.push((unit.requested_at_min, vec![told])),
        }
    }
    let calls = calls.into_iter().map(|(at, names)| {
        let when = if at == 0.0 { say!["at the alarm"] } else { say!["at ", Piece::Clock(at)] };
        say![when, " ", list(names)]
    });
    say![joined(calls, "; ", "; "), "."]
}

/// "first water at minute 10, the first tanker at minute 10, the supply at minute 18; half of first shortfalls begin minute
/// 14 to 20."
pub fn clock_words(figures: &CardFigures) -> Sentence {
    let clock = &figures.clock;
    let supply = match clock.supply_min {
        Some(minute) => say![", the supply at ", Piece::Clock(minute)],
        None => say![],
    };
    let watch = watch_words(clock).map(|when| say!["; half of first shortfalls begin ", when]);
    say![
        "first water at ",
        Piece::Clock(clock.first_water_min),
        ", the first ",
        Piece::Tanker,
        " at ",
        Piece::Clock(clock.first_tanker_min),
        supply,
        watch,
        ".",
    ]
}

/// "first water at minute 10, first tanker 10, supply 18; danger 14 to 20.": the same where room is scarce.
pub fn brief_clock_words(figures: &CardFigures) -> Sentence {
    let clock = &figures.clock;
    let minute = |of: f64| Piece::Words(clock_of(of).into());
    let supply = clock.supply_min.map(|of| say![", supply ", minute(of)]);
    let watch = clock.watch_from_min.zip(clock.watch_to_min).map(|(from, to)| {
        if to - from < 1.5 {
            say!["; danger at ", minute(from)]
        } else {
            say!["; danger ", minute(from), " to ", minute(to)]
        }
    });
    say![
        "first water at ",
        Piece::Clock(clock.first_water_min),
        ", first ",
        Piece::Tanker,
        " ",
        minute(clock.first_tanker_min),
        supply,
        watch,
        ".",
    ]
}

/// "minute 14 to 20", "about minute 38": when the first shortfalls mostly begin.
pub fn watch_words(clock: &ClockFigures) -> Option<Sentence> {
    let (from, to) = clock.watch_from_min.zip(clock.watch_to_min)?;
    Some(if to - from < 1.5 {
        say!["about ", Piece::Clock(from)]
    } else {
        say![Piece::Clock(from), " to ", Piece::Number(to, 0)]
    })
}

/// "a load at least every 3.9 minutes: 2,328 gal each for 600 gpm."
pub fn load_words(figures: &CardFigures) -> Sentence {
    say![
        "a load at least every ",
        Piece::Minutes(figures.load_every_min),
        ": ",
        Piece::Volume(figures.load_gal),
        " each for ",
        Piece::Flow(figures.peak_flow_gpm),
        ".",
    ]
}

/// "ask where the next load is at 1,400 gal."
fn asking(wires: &WiresFigures) -> Option<Sentence> {
    let ask = wires.ask_at()?;
    Some(say![
        "with none in sight ask where the next load is from ",
        Piece::Volume(ask.level_gal),
        in_what(wires.water),
        " on, ",
        Piece::Minutes(ask.lasts_min),
        " of water at the greatest flow.",
    ])
}

/// What to do when a tanker does not come back, and whom to call.
fn lost(figures: &CardFigures) -> Option<Sentence> {
    /// More stand on the card.
    const MOST: usize = 3;
    const MOST_AWAY: usize = 4;
    let call = call_next_words(figures, MOST).map(|next| say!["Call next: ", next, "."]);
    let away =
        refuses_words(figures, MOST_AWAY).map(|told| say!["Where one does not come: ", told]);
    Some(lost_tanker_words(figures)?.then(away).then(call))
}

fn attack_engine(figures: &CardFigures) -> Sentence {
    let engine = figures.units.iter().find(|unit| unit.role == super::Role::AttackEngine);
    engine.and_then(|unit| unit.name.as_ref()).map_or_else(
        || say!["the attack engine for backing out"],
        |of| say![name(of), " for backing out"],
    )
}

fn small_print(wires: &WiresFigures) -> Vec<Sentence> {
    let lost = say![
        "A loss on the card is a late one: only what runs short from its minute on counts. ",
        Piece::ByMedium { command: "`lose`", page: "What the plan cannot do without" },
        " counts a loss for the whole fire.",
    ];
    let counts = say![
        "A fire counts for a level where the water fell through it while the lines had their flow and no load began \
         to pour within so many minutes; it ran short where the lines did before the water stood above the level \
         again. Ask from ",
        Piece::Share(wires.ask_from_share),
        " of such fires on, gate down from ",
        Piece::Share(wires.gate_down_from_share),
        " on, where that is more often than fires run short at all. In sight: pours within ",
        Piece::Minutes(wires.in_sight_min),
        ".",
    ];
    vec![counts, lost]
}
