//! The pump operator's strip: the pump, when to gate down, the reserve; behind it the log of loads.

use answers::question::card::{CardFigures, Role, Water, no_wire};
use answers::question::lose::lost_words;
use answers::say::{Piece, Sentence, joined, name};
use answers::{Answer, Reader, say};

use super::{SIZE, Shown, dispatch, strip_head, warning};
use crate::Made;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::height;
use crate::pages::{CAUTION, begun};

/// The level to gate down at is so much larger than the rest, pt: read by flashlight.
const LEVEL_LARGER: f64 = 5.0;
/// Loads side by side in the log.
const LOADS_IN_A_ROW: usize = 3;
/// Most rows of it.
const MOST_ROWS: usize = 16;

pub(super) fn front(
    answer: &Answer<CardFigures>,
    shown: Shown,
    made: &Made,
    wide: f64,
) -> Vec<Block> {
    let (card, reader) = (&answer.figures, &made.reader);
    let size = shown.size;
    let mut blocks = vec![strip_head("PUMP OPERATOR", &answer.title, made, shown, wide)];
    blocks.extend((!shown.one_sheet).then(|| warning(answer, reader, size)).flatten());
    if card.is_not_to_be_used() {
        blocks.extend(super::no_orders(card, shown, reader));
        blocks.extend(ladder(card, shown, reader));
        blocks.push(reserve(card, size, reader));
        return blocks;
    }
    let [flow, pump] = flow_and_pump(card, size, reader);
    blocks.extend((!shown.brief && !shown.one_sheet).then_some(flow));
    blocks.extend(gate_down(card, shown, reader));
    blocks.extend(shown.pump.then_some(pump));
    blocks.push(reserve(card, size, reader));
    blocks
}

/// What is kept for backing out: it stands whatever becomes of the plan.
fn reserve(card: &CardFigures, size: f64, reader: &Reader) -> Block {
    let reserve = (card.reserve_gal > 0.0).then(|| {
        let above = (card.engine_tank_gal - card.reserve_gal) / card.peak_flow_gpm;
        say![
            "back out at ",
            Piece::Volume(card.reserve_gal),
            " in ",
            engine(card),
            "; a full tank above them lasts ",
            Piece::Number(above, 1),
            " min at ",
            Piece::Flow(card.peak_flow_gpm),
            ". Command decides.",
        ]
    });
    let reserve = reserve.unwrap_or_else(|| say!["command decides on GATE DOWN."]);
    Block::labelled("RESERVE", reader.put(&reserve), size)
}

fn flow_and_pump(card: &CardFigures, size: f64, reader: &Reader) -> [Block; 2] {
    [
        Block::labelled("FLOW", begun(reader, &dispatch::flow_steps(card)), size),
        Block::labelled("PUMP", reader.put(&pump(card)), size),
    ]
}

/// What did not fit on the front.
pub(super) fn not_on_the_front(
    answer: &Answer<CardFigures>,
    shown: Shown,
    reader: &Reader,
) -> Vec<Block> {
    if answer.figures.is_not_to_be_used() {
        return Vec::new();
    }
    let [flow, pump] = flow_and_pump(&answer.figures, SIZE, reader);
    let flow = (shown.brief && !shown.one_sheet).then_some(flow);
    flow.into_iter().chain((!shown.pump).then_some(pump)).collect()
}

/// The level first, large; what it means; when to ask before; and how long each level lasts, whether one warns or not.
fn gate_down(card: &CardFigures, shown: Shown, reader: &Reader) -> Vec<Block> {
    let size = shown.size;
    let wires = &card.trip_wires;
    let where_ = match wires.water {
        Water::DropTanks if card.drop_tanks.len() > 1 => "in all drop tanks together",
        Water::DropTanks => "in the drop tank",
        Water::EngineTank => "in the attack engine's tank",
    };
    let ladder = ladder(card, shown, reader);
    let Some(cell) = wires.first_gate_down() else {
        let told = say![no_wire(card), ". Watch the road, and ask early."];
        let told = Block::labelled("GATE DOWN", reader.put(&told), size);
        return [told].into_iter().chain([to_write(card, reader, size)]).chain(ladder).collect();
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
        " full",
    ];
    let ran_short = cell.chances().map(|of| {
        say![" Of the fires in which it fell so far, ", Piece::PercentTo(of, 0), " ran short."]
    });
    let drafts = matches!(wires.water, Water::DropTanks);
    let from = drafts.then_some(", once the draft is up");
    let left = say![Piece::Minutes(cell.lasts_min), " left: "];
    let mut blocks = vec![
        Block::heavy(reader.put(&level), size + LEVEL_LARGER),
        Block::words(
            reader.put(&say![left, where_, from.unwrap_or(""), ", ", when, ".", ran_short]),
            size,
        ),
    ];
    let ask_at = wires.ask_at().filter(|ask| ask.level_gal > cell.level_gal);
    blocks.extend(ask_at.map(|ask| {
        let told = say![
            "where the next load is at ",
            Piece::Volume(ask.level_gal),
            ", ",
            part_full(ask.level_gal, wires.full_gal),
            " full."
        ];
        Block::labelled("ASK", reader.put(&told), size)
    }));
    blocks.extend(
        sooner(card).map(|told| Block::labelled("GATE DOWN SOONER", reader.put(&told), size)),
    );
    blocks.push(to_write(card, reader, size));
    blocks.extend(ladder);
    blocks
}

/// "next load 4 min off: at 5,000 gal; 6 min: at 6,000 gal." - the later the next load, the higher the level.
fn sooner(card: &CardFigures) -> Option<Sentence> {
    let later: Vec<Sentence> = (card.trip_wires.gate_down_sooner().iter().enumerate())
        .map(|(place, cell)| {
            let off = if place == 0 { " min off: at " } else { " min: at " };
            say![Piece::Number(cell.no_load_within_min, 0), off, Piece::Volume(cell.level_gal)]
        })
        .collect();
    (!later.is_empty()).then(|| say!["next load ", joined(later, "; ", "; "), "."])
}

/// "GATE DOWN TO 400 gpm": what holds with a tanker lost, or with what hurts more, or a place to write what command says.
fn to_write(card: &CardFigures, reader: &Reader, size: f64) -> Block {
    let lost = card.tanker_lost.as_ref();
    let is_less = |flow: &f64| *flow < card.peak_flow_gpm;
    let tanker = lost.and_then(|lost| lost.gate_down_to_gpm.filter(is_less));
    let told = tanker
        .map(|flow| say![Piece::Flow(flow), ", which holds with one ", Piece::Tanker, " lost"])
        .or_else(|| {
            let gone = lost?.gone.iter().filter(|gone| !gone.stays_away());
            let all = gone.filter_map(|gone| Some((gone.gate_down_to_gpm.filter(is_less)?, gone)));
            let (flow, gone) = all.min_by(|a, b| a.0.total_cmp(&b.0))?;
            Some(say![Piece::Flow(flow), ", which holds without ", lost_words(&gone.lost)])
        });
    match told {
        Some(told) => Block::labelled("GATE DOWN TO", reader.put(&say![told, ", or ____"]), size),
        None => Block::Blanks {
            labels: vec![reader.put(&say!["GATE DOWN TO, ", Piece::FlowSign])],
            in_a_row: 1,
            size,
        },
    }
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

/// Most levels of the ladder beside each other.
const MOST_LEVELS: usize = 6;

/// Levels of the water on hand, and how many minutes each lasts at the greatest flow: a table, or a line where
/// room is short.
fn ladder(card: &CardFigures, shown: Shown, reader: &Reader) -> Option<Block> {
    let wires = &card.trip_wires;
    let mut levels: Vec<(f64, f64)> =
        wires.table.iter().map(|cell| (cell.level_gal, cell.lasts_min)).collect();
    levels.dedup_by(|a, b| a.0 == b.0);
    // Every level, every second, every third: whatever is even and fits.
    let apart = levels.len().div_ceil(MOST_LEVELS).max(1);
    let levels: Vec<(f64, f64)> = levels.into_iter().rev().step_by(apart).collect();
    if levels.is_empty() {
        return None;
    }
    let put = |sentence: Sentence| reader.put(&sentence);
    let lasts = |lasts: f64| say![Piece::Number(lasts, 1)];
    if shown.one_sheet || shown.brief {
        let each = (levels.iter()).map(|(level, left)| {
            say![Piece::BareVolume(*level), " ", Piece::VolumeSign, " ", lasts(*left), " min"]
        });
        let at = (!shown.brief).then(|| say!["at ", Piece::Flow(card.peak_flow_gpm), ": "]);
        let told = say![at, joined(each, ", ", ", ")];
        return Some(Block::labelled("LASTS", put(told), shown.size));
    }
    let row = |head: Sentence, cells: &dyn Fn(&(f64, f64)) -> Sentence| -> Vec<String> {
        [put(head)].into_iter().chain(levels.iter().map(|level| put(cells(level)))).collect()
    };
    let heads =
        row(say!["level, ", Piece::VolumeSign], &|(level, _)| say![Piece::BareVolume(*level)]);
    let left = row(say!["minutes left"], &|(_, left)| lasts(*left));
    Some(Block::Grid(Grid {
        columns: (heads.into_iter().enumerate())
            .map(|(place, head)| (head, if place == 0 { Side::Left } else { Side::Right }))
            .collect(),
        rows: vec![left],
        ruled: true,
        tall: 0.0,
        size: shown.size,
    }))
}

/// The attack engine.
pub(super) fn engine(card: &CardFigures) -> Sentence {
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
    shown: Shown,
    made: &Made,
    (room, wide): (f64, f64),
) -> Vec<Block> {
    let labels = ["Pump operator", "Water supply officer"].map(str::to_owned).to_vec();
    let mut blocks = vec![strip_head(
        "PUMP OPERATOR, back",
        &answer.title,
        made,
        Shown { size: SIZE, ..shown },
        wide,
    )];
    blocks.extend(not_on_the_front(answer, shown, &made.reader));
    blocks.push(Block::Blanks { labels, in_a_row: 2, size: SIZE });
    let below = made_from(answer, made, false);
    let left = room - height(&blocks, wide) - height(&below, wide);
    let log = |rows: usize| Block::Grid(loads(rows, &made.reader));
    let rows = (1..=MOST_ROWS).rev().find(|rows| height(&[log(*rows)], wide) <= left);
    blocks.extend(rows.map(log));
    blocks.extend(below);
    blocks
}

/// What the card was made from, and how far to trust it; how to print what is to be cut.
pub(super) fn made_from(answer: &Answer<CardFigures>, made: &Made, one_sheet: bool) -> Vec<Block> {
    let from = made.from(&answer.basis);
    if one_sheet {
        return vec![Block::words(format!("{from} {CAUTION}"), SIZE)];
    }
    vec![
        Block::words(from, SIZE),
        Block::words(format!("{CAUTION} Print on both sides, turned over the long edge."), SIZE),
    ]
}

/// Loads side by side, to be filled in.
fn loads(rows: usize, reader: &Reader) -> Grid {
    let heads = [say!["load"], say![Piece::Tanker], say!["min"]].map(|head| begun(reader, &head));
    Grid {
        columns: (0..LOADS_IN_A_ROW)
            .flat_map(|_| heads.clone())
            .map(|head| (head, Side::Left))
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
