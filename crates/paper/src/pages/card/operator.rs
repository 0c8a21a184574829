//! The pump operator's strip: the pump, when to gate down, the reserve; behind it the log of loads.

use answers::question::card::{CardFigures, CellFigures, Role, Water, WireFigures, no_wire};
use answers::say::{Piece, Sentence, name};
use answers::{Answer, Reader, say};

use super::{HEAD_LARGER, SIZE, Shown, head_of};
use crate::Made;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::height;
use crate::pages::CAUTION;

/// The level to gate down at is so much larger than the rest, pt: read by flashlight.
const LEVEL_LARGER: f64 = 5.0;
/// Loads side by side in the log.
const LOADS_IN_A_ROW: usize = 3;
/// Most rows of it.
const MOST_ROWS: usize = 12;

pub(super) fn front(
    answer: &Answer<CardFigures>,
    shown: Shown,
    reader: &Reader,
    wide: f64,
) -> Vec<Block> {
    let card = &answer.figures;
    let size = shown.size;
    let mut blocks = vec![head_of("PUMP OPERATOR", &answer.title, size, wide)];
    blocks.extend(gate_down(card, size, reader));
    blocks.push(Block::labelled("PUMP", reader.put(&pump(card)), size));
    let reserve = (card.reserve_gal > 0.0).then(|| {
        say![
            Piece::Volume(card.reserve_gal),
            " in ",
            engine(card),
            " are for backing out. Command decides.",
        ]
    });
    let reserve = reserve.unwrap_or_else(|| say!["command decides on GATE DOWN."]);
    blocks.push(Block::labelled("RESERVE", reader.put(&reserve), size));
    blocks
}

/// The level first, large; what it means; when to ask before; and the levels of other waits where they differ.
fn gate_down(card: &CardFigures, size: f64, reader: &Reader) -> Vec<Block> {
    let wires = &card.trip_wires;
    let where_ = match wires.water {
        Water::DropTanks if card.drop_tanks.len() > 1 => "in all drop tanks together",
        Water::DropTanks => "in the drop tank",
        Water::EngineTank => "in the attack engine's tank",
    };
    let Some(cell) = wires.first_gate_down() else {
        return vec![Block::labelled("GATE DOWN", reader.put(&no_wire(card)), size)];
    };
    let when = if cell.no_load_within_min == wires.in_sight_min {
        say!["with no ", Piece::Tanker, " in sight"]
    } else {
        say!["when no load comes in the next ", Piece::Minutes(cell.no_load_within_min)]
    };
    let level = say![
        "GATE DOWN at ",
        Piece::Volume(cell.level_gal),
        ", ",
        part_full(cell.level_gal, wires.full_gal),
        " full"
    ];
    let ran_short = cell.chances().map(|of| {
        say![" Of the fires in which it fell so far, ", Piece::PercentTo(of, 0), " ran short."]
    });
    let left = say![
        Piece::Minutes(cell.lasts_min),
        " of water are left then at ",
        Piece::Flow(card.peak_flow_gpm),
        "."
    ];
    let mut blocks = vec![
        Block::heavy(reader.put(&level), size + LEVEL_LARGER),
        Block::words(reader.put(&say![where_, ", ", when, ". ", left, ran_short]), size),
    ];
    let of_this_wait = (wires.wires.iter())
        .find(|wire| wire.no_load_within_min == cell.no_load_within_min)
        .and_then(|wire| wire.ask)
        .filter(|ask| ask.level_gal > cell.level_gal);
    blocks.extend(of_this_wait.map(|ask| {
        let told = say![
            "where the next load is at ",
            Piece::Volume(ask.level_gal),
            ", ",
            part_full(ask.level_gal, wires.full_gal),
            " full."
        ];
        Block::labelled("ASK", reader.put(&told), size)
    }));
    let others: Vec<&WireFigures> = (wires.wires.iter())
        .filter(|wire| wire.gate_down.is_some_and(|other| other.level_gal != cell.level_gal))
        .collect();
    blocks.extend((!others.is_empty()).then(|| Block::Grid(other_waits(&others, size, reader))));
    blocks
}

/// How full a tank is with so much in it, as it can be seen at a glance.
fn part_full(level: f64, full: f64) -> &'static str {
    const PARTS: [(f64, &str); 11] = [
        (0.1, "about a tenth"),
        (0.2, "about a fifth"),
        (0.25, "about a quarter"),
        (1.0 / 3.0, "about a third"),
        (0.4, "about two fifths"),
        (0.5, "about half"),
        (0.6, "about three fifths"),
        (2.0 / 3.0, "about two thirds"),
        (0.75, "about three quarters"),
        (0.8, "about four fifths"),
        (0.9, "about nine tenths"),
    ];
    let off = |part: f64| (part - level / full).abs();
    let nearest = PARTS.into_iter().min_by(|a, b| off(a.0).total_cmp(&off(b.0)));
    nearest.map_or("partly", |(_, words)| words)
}

/// The levels of the other waits.
fn other_waits(wires: &[&WireFigures], size: f64, reader: &Reader) -> Grid {
    let put = |sentence: Sentence| reader.put(&sentence);
    let level = |cell: Option<CellFigures>| {
        cell.map_or_else(|| "-".to_owned(), |cell| put(say![Piece::Volume(cell.level_gal)]))
    };
    Grid {
        columns: vec![
            ("no load in the next".to_owned(), Side::Left),
            ("ask where it is at".to_owned(), Side::Right),
            ("say GATE DOWN at".to_owned(), Side::Right),
        ],
        rows: (wires.iter())
            .map(|wire| {
                vec![
                    put(say![Piece::Minutes(wire.no_load_within_min)]),
                    level(wire.ask),
                    level(wire.gate_down),
                ]
            })
            .collect(),
        ruled: true,
        tall: 0.0,
        size,
    }
}

fn engine(card: &CardFigures) -> Sentence {
    let attack = card.units.iter().find(|unit| unit.role == Role::AttackEngine);
    attack
        .and_then(|unit| unit.name.as_ref())
        .map_or_else(|| say!["the attack engine"], |one| say![name(one)])
}

/// "Engine 9 draws from the drop tanks from 900 gal on; a tanker nurses Engine 5 until then."
fn pump(card: &CardFigures) -> Sentence {
    let nurse = |until: &'static str| {
        card.nurse.then(|| say!["a ", Piece::Tanker, " nurses ", engine(card), until])
    };
    match card.draws_from_gal {
        Some(level) => say![
            name(&card.pump_at_the_fire),
            " draws once there are ",
            Piece::Volume(level),
            " in the first drop tank",
            nurse("").map(|told| say!["; until then ", told]),
            ".",
        ],
        None => say![
            name(&card.pump_at_the_fire),
            " lives on its own ",
            Piece::Volume(card.engine_tank_gal),
            nurse(" throughout").map(|told| say!["; ", told]),
            ".",
        ],
    }
}

/// Behind the strip: the log of loads, as many as there is room for, and what the card was made from.
pub(super) fn back(
    answer: &Answer<CardFigures>,
    made: &Made,
    (room, wide): (f64, f64),
) -> Vec<Block> {
    let labels = ["Pump operator", "Water supply officer"].map(str::to_owned).to_vec();
    let mut blocks = vec![
        Block::Heading("PUMP OPERATOR, back".to_owned(), SIZE + HEAD_LARGER),
        Block::Blanks { labels, in_a_row: 2, size: SIZE },
    ];
    let below = made_from(answer, made);
    let left = room - height(&blocks, wide) - height(&below, wide);
    let log = |rows: usize| Block::Grid(loads(rows, &made.reader));
    let rows = (1..=MOST_ROWS).rev().find(|rows| height(&[log(*rows)], wide) <= left);
    blocks.extend(rows.map(log));
    blocks.extend(below);
    blocks
}

/// What the card was made from, and how far to trust it.
pub(super) fn made_from(answer: &Answer<CardFigures>, made: &Made) -> Vec<Block> {
    vec![
        Block::words(made.from(&answer.basis), SIZE),
        Block::words(format!("{CAUTION} Print on both sides, turned over the long edge."), SIZE),
    ]
}

/// Loads side by side, to be filled in.
fn loads(rows: usize, reader: &Reader) -> Grid {
    let tanker = if reader.tender { "Tender" } else { "Tanker" };
    let heads = ["Load", tanker, "Min"];
    Grid {
        columns: (0..LOADS_IN_A_ROW)
            .flat_map(|_| heads)
            .map(|head| (head.to_owned(), Side::Left))
            .collect(),
        rows: (1..=rows)
            .map(|row| {
                (0..LOADS_IN_A_ROW)
                    .flat_map(|beside| {
                        [(row + beside * rows).to_string(), String::new(), String::new()]
                    })
                    .collect()
            })
            .collect(),
        ruled: true,
        tall: 22.0,
        size: SIZE,
    }
}
