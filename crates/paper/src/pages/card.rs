//! The run card: one page to laminate, in three strips to cut apart, and a back to write on.

use answers::question::card::{
    BringsFigures, CardFigures, CellFigures, Loading, Role, SourceFigures, UnitFigures, Water,
    watch_words,
};
use answers::say::{Piece, Sentence, joined, list, name};
use answers::{Answer, Reader, say};

use super::card_back::back;
use super::caution::ON_THE_ROAD;
use crate::Made;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::{Format, Page, Sheet, height, pages};

/// The least size of letters on a card, pt: read at arm's length.
pub const SIZE: f64 = 14.0;
/// Larger letters where there is room for them, pt.
const LARGER: [f64; 4] = [19.0, 17.5, 16.0, 15.0];
/// Headings are so much larger than the rest, pt.
const HEAD_LARGER: f64 = 3.0;
/// Half a card's margin is lost to a laminating pouch's edge.
const MARGIN: f64 = 26.0;
/// Lengths of the lists on the front, the longest first: the first that fits is taken, the rest stands on the back.
const LENGTHS: [usize; 14] = [usize::MAX, 24, 20, 16, 14, 12, 10, 8, 6, 5, 4, 3, 2, 1];

/// A list on the front, and how much of it there is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shown {
    /// Units, steps of the flow, sources and drop tanks, each.
    pub most: usize,
    /// Size of letters, pt.
    pub size: f64,
}

/// Front and back of the card.
pub fn card(answer: &Answer<CardFigures>, format: Format, made: &Made) -> Vec<Page> {
    let sheet = Sheet::upright(format, MARGIN);
    let fits = |shown: &Shown| {
        height(&front(answer, *shown, &made.reader), sheet.column()) <= sheet.room()
    };
    let larger = LARGER.map(|size| Shown { most: usize::MAX, size });
    let mut candidates = larger.into_iter().chain(LENGTHS.map(|most| Shown { most, size: SIZE }));
    // The shortest is taken where even that does not fit: a title of hundreds of letters goes on on the next page.
    let shown = candidates.find(fits).unwrap_or(Shown { most: 1, size: SIZE });
    let mut all = pages(&front(answer, shown, &made.reader), sheet);
    all.extend(pages(&back(answer, shown, made, sheet), sheet));
    all
}

fn front(answer: &Answer<CardFigures>, shown: Shown, reader: &Reader) -> Vec<Block> {
    let card = &answer.figures;
    let mut blocks = vec![
        Block::Title(answer.title.clone(), shown.size + 6.0),
        Block::heavy(begun(reader, &flow(card, shown)), shown.size),
        Block::Gap(2.0),
    ];
    blocks.extend(dispatch(card, shown, reader));
    blocks.push(Block::Cut);
    blocks.extend(tanker_boss(answer, shown, reader));
    blocks.push(Block::Cut);
    blocks.extend(pump_operator(answer, shown, reader));
    blocks
}

/// "150 gpm from first water, 600 gpm from 10 minutes on, for 2 hours."
fn flow(card: &CardFigures, shown: Shown) -> Sentence {
    let steps = card.attack_flow.iter().take(shown.most).map(|step| {
        if step.from_first_water_min == 0.0 && card.attack_flow.len() == 1 {
            say![Piece::Flow(step.flow_gpm)]
        } else if step.from_first_water_min == 0.0 {
            say![Piece::Flow(step.flow_gpm), " from first water"]
        } else {
            say![
                Piece::Flow(step.flow_gpm),
                " from ",
                Piece::Minutes(step.from_first_water_min),
                " after it"
            ]
        }
    });
    let peak = (card.attack_flow.len() > shown.most)
        .then(|| say![", at most ", Piece::Flow(card.peak_flow_gpm)]);
    say![joined(steps, ", ", ", "), peak, ", for ", Piece::Duration(card.duration_min), "."]
}

/// Whom to ask and when: the dispatcher's strip.
fn dispatch(card: &CardFigures, shown: Shown, reader: &Reader) -> Vec<Block> {
    let mut blocks = vec![Block::Heading("DISPATCH".to_owned(), shown.size + HEAD_LARGER)];
    let told = &card.units[..card.units.len().min(shown.most)];
    blocks.extend(calls(told, shown.size, reader));
    let more = card.units.len() - told.len();
    if more > 0 {
        let left = say![Piece::Number(more as f64, 0), " more to ask for: see the back."];
        blocks.push(Block::heavy(reader.put(&left), shown.size));
    }
    if card.aid_not_asked > 0 {
        let aid = say![
            "Listed as aid and not on this card: ",
            Piece::TankerCount(card.aid_not_asked),
            "."
        ];
        blocks.push(Block::words(reader.put(&aid), shown.size));
    }
    blocks
}

/// Boxes to tick, one list a minute of asking.
pub(super) fn calls(units: &[UnitFigures], size: f64, reader: &Reader) -> Vec<Block> {
    let same_minute = |a: &UnitFigures, b: &UnitFigures| a.requested_at_min == b.requested_at_min;
    (units.chunk_by(same_minute))
        .map(|together| {
            let at = together[0].requested_at_min;
            let label = if at == 0.0 {
                "ASK AT ALARM".to_owned()
            } else {
                reader.put(&say!["ASK AT MINUTE ", Piece::Number(at, whole_or_tenth(at))])
            };
            let items = together.iter().map(|one| reader.put(&unit(one))).collect();
            Block::Boxes { label, items, size }
        })
        .collect()
}

fn whole_or_tenth(minute: f64) -> usize {
    usize::from(minute.fract() != 0.0)
}

/// "Birch Hill tanker 1 (Birch Hill; brings a drop tank)".
fn unit(of: &UnitFigures) -> Sentence {
    let called = of.name.as_ref().map_or_else(|| say!["drop tank carrier"], |one| say![name(one)]);
    let mut beside: Vec<Sentence> = of.department.iter().map(|one| say![name(one)]).collect();
    match of.role {
        Role::AttackEngine => beside.push(say!["attack"]),
        Role::SupplyEngine => beside.push(say!["supply"]),
        Role::Tanker | Role::DropTankCarrier => {}
    }
    match of.brings_drop_tanks.as_slice() {
        [] => {}
        [_] => beside.push(say!["brings a drop tank"]),
        several => {
            beside.push(say!["brings ", Piece::Count(several.len()), " drop tanks"]);
        }
    }
    if beside.is_empty() { called } else { say![called, " (", joined(beside, "; ", "; "), ")"] }
}

/// Where the water comes from, how often, and when to watch: the tanker boss's strip.
fn tanker_boss(answer: &Answer<CardFigures>, shown: Shown, reader: &Reader) -> Vec<Block> {
    let card = &answer.figures;
    let said = |sentence: &Sentence| begun(reader, sentence);
    let boss = reader.put(&say![Piece::Tanker, " boss"]).to_uppercase();
    let mut blocks = vec![
        Block::Heading(boss, shown.size + HEAD_LARGER),
        Block::words(answer.title.clone(), shown.size),
        Block::labelled(
            "LOADS",
            said(&say![
                "one at least every ",
                Piece::Minutes(card.load_every_min),
                " (",
                Piece::Volume(card.load_gal),
                " each).",
            ]),
            shown.size,
        ),
        Block::labelled("CLOCK", said(&clock(card)), shown.size),
    ];
    blocks.extend(
        drop_tanks(card, shown).map(|told| Block::labelled("DROP TANKS", said(&told), shown.size)),
    );
    for source in card.sources.iter().take(shown.most) {
        blocks.push(Block::labelled("FILL AT", reader.put(&fill_at(source)), shown.size));
        blocks.push(Block::Blanks {
            labels: vec!["Route out".to_owned(), "back".to_owned(), "Pump there".to_owned()],
            in_a_row: 3,
            size: shown.size,
        });
    }
    if card.sources.len() > shown.most {
        blocks.push(Block::heavy("More fill sites: see the back.", shown.size));
    }
    if card.one_lane_at_the_fire {
        blocks.push(Block::heavy("One direction at a time on the road by the fire.", shown.size));
    }
    blocks.push(Block::heavy(ON_THE_ROAD, shown.size));
    blocks
}

/// "first water at minute 10, the first tanker at minute 10, supply at minute 18. Watch minute 14 to 20."
fn clock(card: &CardFigures) -> Sentence {
    let clock = &card.clock;
    let supply = clock.supply_min.map(|minute| say![", supply at ", Piece::Clock(minute)]);
    let watch = watch_words(clock).map(|when| say![" Watch ", when, "."]);
    say![
        "first water at ",
        Piece::Clock(clock.first_water_min),
        ", first ",
        Piece::Tanker,
        " at ",
        Piece::Clock(clock.first_tanker_min),
        supply,
        ".",
        watch,
    ]
}

/// "3,500 gal from Tanker 5; 3,000 gal from Maple Ford Tanker 2."
fn drop_tanks(card: &CardFigures, shown: Shown) -> Option<Sentence> {
    let more = card.drop_tanks.len().saturating_sub(shown.most);
    let tanks = card.drop_tanks.iter().take(shown.most).map(|tank| {
        let from = match &tank.brought_by {
            BringsFigures::Unit { name: unit } => say![name(unit)],
            BringsFigures::Itself => say!["its own carrier"],
        };
        say![Piece::Volume(tank.capacity_gal), " from ", from]
    });
    let rest = (more > 0).then(|| say![" and ", Piece::Count(more), " more"]);
    (!card.drop_tanks.is_empty()).then(|| say![joined(tanks, "; ", "; "), rest, "."])
}

/// "Quarry pond: out 2.4 mi, 5 min; back 2.4 mi, 5 min; ready at minute 16. Two places, side by side."
pub(super) fn fill_at(source: &SourceFigures) -> Sentence {
    let way = |miles: Option<f64>, minutes: f64| {
        let miles = miles.map(|miles| say![Piece::Distance(miles), ", "]);
        say![miles, Piece::Number(minutes, 1), " min"]
    };
    let places = usize::try_from(source.positions).unwrap_or(usize::MAX);
    let loading = match source.loading {
        Loading::OnePlace => say!["one place"],
        Loading::OneAtATime => {
            say![Piece::Count(places), " places: connect beside each other, load one at a time"]
        }
        Loading::SideBySide => say![Piece::Count(places), " places, load side by side"],
    };
    let lane = source.one_lane.then(|| say!["; one direction at a time by the source"]);
    say![
        name(&source.name),
        ": out ",
        way(source.out_mi, source.out_min),
        "; back ",
        way(source.back_mi, source.back_min),
        "; ",
        loading,
        lane,
        ".",
    ]
}

/// The pump, the trip wires and the reserve: the pump operator's strip.
fn pump_operator(answer: &Answer<CardFigures>, shown: Shown, reader: &Reader) -> Vec<Block> {
    let card = &answer.figures;
    let wires = &card.trip_wires;
    let mut blocks = vec![
        Block::Heading("PUMP OPERATOR".to_owned(), shown.size + HEAD_LARGER),
        Block::words(answer.title.clone(), shown.size),
        Block::labelled("PUMP", reader.put(&pump(card)), shown.size),
    ];
    let water = match wires.water {
        Water::DropTanks if card.drop_tanks.len() > 1 => "Water in all drop tanks",
        Water::DropTanks => "Water in the drop tank",
        Water::EngineTank => "Water in the attack engine's tank",
    };
    let has_wires = wires.wires.iter().any(|wire| wire.gate_down.is_some() || wire.ask.is_some());
    if has_wires {
        blocks.push(Block::words(
            format!("{water}, when no load comes within so many minutes:"),
            shown.size,
        ));
        blocks.push(Block::Grid(trip_wires(card, shown.size, reader)));
    } else {
        blocks.push(Block::words(
            "No level of the water gave a clear warning: see the report before relying on one.",
            shown.size,
        ));
    }
    let reserve = (card.reserve_gal > 0.0).then(|| {
        say![
            Piece::Volume(card.reserve_gal),
            " in ",
            engine(card),
            " are for backing out. GATE DOWN is said to command, and command decides.",
        ]
    });
    let reserve =
        reserve.unwrap_or_else(|| say!["GATE DOWN is said to command, and command decides."]);
    blocks.push(Block::labelled("RESERVE", reader.put(&reserve), shown.size));
    blocks
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

/// The levels to act at, by the minutes without a load.
fn trip_wires(card: &CardFigures, size: f64, reader: &Reader) -> Grid {
    let wires = &card.trip_wires;
    let put = |sentence: Sentence| reader.put(&sentence);
    let level = |cell: Option<CellFigures>| {
        cell.map_or_else(|| "-".to_owned(), |cell| put(say![Piece::Volume(cell.level_gal)]))
    };
    let short = |cell: Option<CellFigures>| {
        let of = cell.and_then(|cell| cell.chances());
        of.map_or_else(|| "-".to_owned(), |of| put(say![Piece::PercentTo(of, 0)]))
    };
    let minutes = |cell: Option<CellFigures>| {
        cell.map_or_else(|| "-".to_owned(), |cell| put(say![Piece::Number(cell.lasts_min, 1)]))
    };
    Grid {
        columns: vec![
            ("no load within".to_owned(), Side::Left),
            ("ask: where is it?".to_owned(), Side::Right),
            ("say GATE DOWN".to_owned(), Side::Right),
            ("min of water left".to_owned(), Side::Right),
            ("else short in".to_owned(), Side::Right),
        ],
        rows: (wires.wires.iter())
            .map(|wire| {
                let sight = if wire.no_load_within_min == wires.in_sight_min {
                    say![Piece::Minutes(wire.no_load_within_min), ": none in sight"]
                } else {
                    say![Piece::Minutes(wire.no_load_within_min)]
                };
                vec![
                    put(sight),
                    level(wire.ask),
                    level(wire.gate_down),
                    minutes(wire.gate_down),
                    short(wire.gate_down),
                ]
            })
            .collect(),
        ruled: true,
        tall: 0.0,
        size,
    }
}

/// The sentence with a capital where it begins with a word of ours.
fn begun(reader: &Reader, sentence: &Sentence) -> String {
    let text = reader.put(sentence);
    if sentence.begins_with_name() {
        return text;
    }
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The units that the list on the front leaves out, for the back.
pub(super) fn other_units(card: &CardFigures, shown: Shown, reader: &Reader) -> Vec<Block> {
    calls(card.units.get(shown.most..).unwrap_or_default(), SIZE, reader)
}

/// "A, B and C": all drop tanks, for the back.
pub(super) fn all_drop_tanks(card: &CardFigures) -> Option<Sentence> {
    drop_tanks(card, Shown { most: usize::MAX, size: SIZE }).map(|told| say![list([told])])
}
