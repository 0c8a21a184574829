//! The tanker boss's strip: where the water comes from, how often, and when to watch; behind it routes and a sketch.

use answers::question::card::{
    BringsFigures, CardFigures, DropTankFigures, Loading, SourceFigures, TurnFigures,
    brief_clock_words, clock_words, if_lost_words, load_words, lost_from_words, where_words,
};
use answers::say::{Piece, Sentence, joined, list, name};
use answers::{Answer, Reader, say};

use super::{SIZE, Shown, dispatch, operator, strip_head, warning};
use crate::Made;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::height;
use crate::pages::begun;
use crate::pages::caution::ON_THE_ROAD;

/// So many kinds of tanker are told in a line; more are a table.
const IN_A_LINE: usize = 2;
/// A sketch needs this much height, pt.
const LEAST_SKETCH: f64 = 70.0;

pub(super) fn front(
    answer: &Answer<CardFigures>,
    shown: Shown,
    made: &Made,
    wide: f64,
) -> Vec<Block> {
    let (card, reader) = (&answer.figures, &made.reader);
    let boss = reader.put(&say![Piece::Tanker, " boss"]).to_uppercase();
    let mut blocks = vec![strip_head(&boss, &answer.title, made, shown, wide)];
    blocks.extend((!shown.one_sheet).then(|| warning(answer, reader, shown.size)).flatten());
    if card.is_not_to_be_used() {
        blocks.extend(super::no_orders(card, shown, reader));
        return blocks;
    }
    let flow = || Block::labelled("FLOW", begun(reader, &dispatch::flow_steps(card)), shown.size);
    blocks.extend((!shown.one_sheet).then(flow));
    blocks.extend([
        Block::labelled("LOADS", begun(reader, &load_words(card)), shown.size),
        clock(card, shown, reader),
    ]);
    blocks.extend((!shown.brief && !shown.one_sheet).then(|| first_loads(card, shown, reader)));
    // A late loss, and only what runs short after it: not what the report says of a loss from the alarm on.
    let lost = lost_from_words(card).zip(if_lost_words(card, shown.rest));
    blocks.extend(lost.map(|(from, lost)| {
        let label = reader.put(&say!["IF LOST FROM ", from, " ON"]).to_uppercase();
        Block::labelled(label, begun(reader, &lost), shown.size)
    }));
    let tanks = &card.drop_tanks[..card.drop_tanks.len().min(shown.rest)];
    if !tanks.is_empty() {
        let more = card.drop_tanks.len() - tanks.len();
        let more = (more > 0).then(|| say!["; ", Piece::Count(more), " more: see the back"]);
        let order = (tanks.len() > 1 && !shown.brief)
            .then_some("; dump into the first in this order that takes the whole load");
        let told = reader.put(&say![drop_tanks(tanks), more, order.unwrap_or_default(), "."]);
        blocks.push(Block::labelled("DROP TANKS", told, shown.size));
    }
    // Whoever sends them off needs it at once, whether or not the sources stand behind.
    let told = where_words(&card.sources);
    let is_told = told.is_some();
    blocks.extend(told.map(|told| {
        let behind = (shown.sources == 0).then_some(" Roads: see the back.");
        let told = say![told, behind.unwrap_or_default()];
        Block::labelled("WHO FILLS WHERE", begun(reader, &told), shown.size)
    }));
    let sources = shown.sources;
    for source in card.sources.iter().take(sources) {
        blocks.push(Block::labelled("FILL AT", reader.put(&fill_at(card, source)), shown.size));
    }
    if card.sources.len() > sources && !(sources == 0 && (shown.one_sheet || is_told)) {
        let told =
            if sources == 0 { "FILL AT: see the back." } else { "More fill sites: see the back." };
        blocks.push(Block::heavy(told, shown.size));
    }
    if card.one_lane_at_the_fire {
        blocks.push(Block::heavy("One direction at a time on the road by the fire.", shown.size));
    }
    blocks.push(Block::heavy(ON_THE_ROAD, shown.size));
    blocks
}

/// The clock, in one line where room is scarce.
fn clock(card: &CardFigures, shown: Shown, reader: &Reader) -> Block {
    if shown.brief {
        return Block::labelled("AFTER ALARM", reader.put(&brief_clock_words(card)), shown.size);
    }
    let told = say!["After the alarm: ", clock_words(card)];
    Block::labelled("CLOCK", reader.put(&told), shown.size)
}

/// What becomes of the first loads: "until Engine 8 draws one tanker nurses Engine 3, and the next stands by if the lines
/// may need it; the others dump into the first drop tank." In one line where room is scarce.
fn first_loads(card: &CardFigures, shown: Shown, reader: &Reader) -> Block {
    let pump = || name(&card.pump_at_the_fire);
    let attack = operator::engine(card);
    let told = match card.draws_from_gal {
        Some(_) if card.nurse && shown.brief => {
            say!["one nurses ", attack, " until ", pump(), " draws, the others dump."]
        }
        Some(level) if card.nurse => say![
            "until ",
            pump(),
            " draws one ",
            Piece::Tanker,
            " nurses ",
            attack,
            ", and the next stands by if the lines may need it; the others dump into the first drop tank, which needs ",
            Piece::Volume(level),
            ".",
        ],
        Some(level) => say![
            "nobody nurses: into the first drop tank, which needs ",
            Piece::Volume(level),
            " before ",
            pump(),
            " draws.",
        ],
        None => say!["no drop tank: one ", Piece::Tanker, " after another nurses ", attack, "."],
    };
    Block::labelled("FIRST LOADS", begun(reader, &told), shown.size)
}

/// "3,500 gal from Tanker 5; 3,000 gal from Maple Ford Tanker 2, two dump at once": one dumps at a time where nothing else
/// is said.
fn drop_tanks(tanks: &[DropTankFigures]) -> Sentence {
    let all_single = tanks.iter().all(|tank| tank.dump_positions == 1);
    let told = tanks.iter().map(|tank| {
        let from = match &tank.brought_by {
            BringsFigures::Unit { name: unit } => say![name(unit)],
            BringsFigures::Itself => say!["its own carrier"],
        };
        let places = usize::try_from(tank.dump_positions).unwrap_or(usize::MAX);
        let places = match places {
            _ if all_single => say![],
            1 => say![", one at a time"],
            several => say![", ", Piece::Count(several), " dump at once"],
        };
        say![Piece::Volume(tank.capacity_gal), " from ", from, places]
    });
    let each = match (all_single, tanks.len()) {
        (false, _) => "",
        (true, 1) => ", one dumps at a time",
        (true, _) => ", one dumps at a time into each",
    };
    say![joined(told, "; ", "; "), each]
}

/// When a tanker is overdue, one that is told no source by source where the trips take differently long. Those listed one
/// behind the other that carry as much and are away as long to a minute are told together, with the longest of their times.
fn overdue(turns: &[TurnFigures], size: f64, reader: &Reader) -> Block {
    let put = |sentence: Sentence| reader.put(&sentence);
    let rows: Vec<&[TurnFigures]> = turns.chunk_by(alike).collect();
    let who = |together: &[TurnFigures]| match together {
        all if all.len() == turns.len() => say!["each ", Piece::Tanker],
        [one] => say![name(&one.name)],
        [first, last] => say![name(&first.name), " and ", name(&last.name)],
        [first, .., last] => say![name(&first.name), " to ", name(&last.name)],
        [] => say![],
    };
    if rows.len() <= IN_A_LINE {
        let told = rows.iter().map(|together| {
            let each = trips(together).into_iter().enumerate().map(|(place, trip)| {
                let for_site = trip.fill_site.map(|site| say![" for ", name(site)]);
                let after = if place == 0 { " min after leaving" } else { "" };
                let usual = say![" (usual ", minutes(trip.back)];
                let end = if place == 0 { last(&together[0]) } else { say![] };
                say![minutes(trip.late), after, for_site, usual, end, ")"]
            });
            say![who(together), " ", joined(each, ", ", ", ")]
        });
        return Block::labelled(
            "OVERDUE",
            begun(reader, &say![joined(told, "; ", "; "), "."]),
            size,
        );
    }
    let by_site = rows.iter().any(|together| trips(together).len() > 1);
    let row = |together: &&[TurnFigures]| {
        let first = &together[0];
        let rows = trips(together).into_iter().enumerate().map(|(place, trip)| {
            // Who it is and what they carry stands once.
            let once = |told: Sentence| if place == 0 { put(told) } else { String::new() };
            let site = trip.fill_site.map(|site| put(say![name(site)])).unwrap_or_default();
            let mut cells = vec![
                once(who(together)),
                once(say![Piece::BareVolume(first.capacity_gal)]),
                once(say![Piece::Number(first.load_lasts_min, 1)]),
            ];
            cells.extend(by_site.then_some(site));
            cells.extend([put(minutes(trip.back)), put(minutes(trip.late))]);
            cells
        });
        rows.collect::<Vec<_>>()
    };
    let mut columns = vec![
        ("unit".to_owned(), Side::Left),
        (put(say![Piece::VolumeSign]), Side::Right),
        ("lasts, min".to_owned(), Side::Right),
    ];
    columns.extend(by_site.then(|| ("fills at".to_owned(), Side::Left)));
    columns.extend([
        ("back in, min".to_owned(), Side::Right),
        ("overdue at, min".to_owned(), Side::Right),
    ]);
    Block::Grid(Grid {
        columns,
        rows: rows.iter().flat_map(row).collect(),
        ruled: false,
        tall: 0.0,
        size,
    })
}

/// A trip for a load: to which source, where that matters; how long, and from when on it is overdue.
struct Trip<'a> {
    fill_site: Option<&'a str>,
    back: Option<f64>,
    late: Option<f64>,
}

/// The trips of tankers that are alike, with the longest of their times: one a source where they take differently long.
fn trips(together: &[TurnFigures]) -> Vec<Trip<'_>> {
    let longest =
        |of: &dyn Fn(&TurnFigures) -> Option<f64>| together.iter().filter_map(of).reduce(f64::max);
    let sites = &together[0].by_fill_site;
    let late = || sites.iter().map(|site| site.overdue_after_min);
    let most = late().fold(f64::NEG_INFINITY, f64::max);
    if late().all(|one| as_long(Some(one), Some(most))) {
        return vec![Trip {
            fill_site: None,
            back: longest(&|turn| turn.back_within_min),
            late: longest(&|turn| turn.overdue_after_min),
        }];
    }
    (sites.iter().enumerate())
        .map(|(place, site)| Trip {
            fill_site: Some(&site.fill_site),
            back: longest(&|turn| Some(turn.by_fill_site.get(place)?.back_within_min)),
            late: longest(&|turn| Some(turn.by_fill_site.get(place)?.overdue_after_min)),
        })
        .collect()
}

/// Whether two tankers are told together.
fn alike(a: &TurnFigures, b: &TurnFigures) -> bool {
    a.capacity_gal == b.capacity_gal
        && a.load_lasts_min == b.load_lasts_min
        && as_long(a.back_within_min, b.back_within_min)
        && as_long(a.overdue_after_min, b.overdue_after_min)
        && a.by_fill_site.len() == b.by_fill_site.len()
        && a.by_fill_site.iter().zip(&b.by_fill_site).all(|(a, b)| {
            a.fill_site == b.fill_site
                && as_long(Some(a.back_within_min), Some(b.back_within_min))
                && as_long(Some(a.overdue_after_min), Some(b.overdue_after_min))
        })
}

/// The same to a minute.
fn as_long(a: Option<f64>, b: Option<f64>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (a - b).abs() <= 1.0,
        (a, b) => a == b,
    }
}

fn minutes(of: Option<f64>) -> Sentence {
    of.map_or_else(|| say!["-"], |one| say![Piece::Number(one, 0)])
}

/// "; 2,000 gal last 3.3": of a load of such a tanker.
fn last(of: &TurnFigures) -> Sentence {
    say!["; ", Piece::Volume(of.capacity_gal), " last ", Piece::Number(of.load_lasts_min, 1)]
}

/// "dry about minute 113 at this use", where it runs dry in half of the fires or more.
fn runs_dry(card: &CardFigures, source: &SourceFigures) -> Option<Sentence> {
    let dry = card.runs_dry.iter().find(|dry| dry.fill_site == source.name)?;
    (dry.dry_share >= 0.5)
        .then(|| say!["; dry about ", Piece::Clock(dry.dry_at_min), " at this use"])
}

/// "Quarry pond: 800 gpm from minute 9; out 2.4 mi, 5 min; back 2.4 mi, 5 min; two places, load side by side; pump: Engine 7."
fn fill_at(card: &CardFigures, source: &SourceFigures) -> Sentence {
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
    let pump = match (&source.pump, &source.pump_brought_by) {
        (Some(_), Some(unit)) => Some(say!["; pump: ", name(unit)]),
        (Some(pump), None) => Some(say!["; pump: ", name(pump)]),
        (None, _) => None,
    };
    let lane = source.one_lane.then(|| say!["; one direction at a time by the source"]);
    let who = (!source.assigned_tankers.is_empty())
        .then(|| say!["; for ", list(source.assigned_tankers.iter().map(|one| say![name(one)]))]);
    say![
        name(&source.name),
        ": ",
        Piece::Flow(source.flow_gpm),
        " from ",
        Piece::Clock(source.ready_min),
        "; out ",
        way(source.out_mi, source.out_min),
        "; back ",
        way(source.back_mi, source.back_min),
        "; ",
        loading,
        runs_dry(card, source),
        pump,
        lane,
        who,
        ".",
    ]
}

/// What did not fit on the front, and what the file is warned of.
pub(super) fn not_on_the_front(
    answer: &Answer<CardFigures>,
    shown: Shown,
    reader: &Reader,
) -> Vec<Block> {
    let card = &answer.figures;
    let mut blocks = Vec::new();
    let notes = || {
        let notes = answer.told.notes.iter().take(shown.rest);
        notes.map(|note| Block::labelled("CAREFUL", begun(reader, &note.for_page()), SIZE))
    };
    if card.is_not_to_be_used() {
        // Where there is water is so whatever the plan: the front has none of it.
        let sources = card.sources.iter().take(shown.rest);
        let fill_at =
            |source| Block::labelled("WATER AT", reader.put(&fill_at(card, source)), SIZE);
        return sources.map(fill_at).chain(notes()).collect();
    }
    if let Some(tanks) = card.drop_tanks.get(shown.rest..).filter(|tanks| !tanks.is_empty()) {
        let told = reader.put(&say![drop_tanks(tanks), "."]);
        blocks.push(Block::labelled("DROP TANKS", told, SIZE));
    }
    let first = shown.brief && !shown.one_sheet;
    blocks.extend(first.then(|| first_loads(card, Shown { size: SIZE, ..shown }, reader)));
    let turns = &card.turns;
    blocks.extend((!turns.is_empty()).then(|| overdue(turns, SIZE, reader)));
    for source in card.sources.iter().skip(shown.sources) {
        blocks.push(Block::labelled("FILL AT", reader.put(&fill_at(card, source)), SIZE));
    }
    blocks.extend(notes());
    blocks
}

/// Channel, who is in charge of the fill site, and routes, to fill in: a row for each source. Where room is scarce they share
/// a row, and the fill site's boss stands behind the dispatcher's strip.
fn to_write(card: &CardFigures, shown: Shown) -> Vec<Block> {
    let sources = card.sources.iter().take(shown.rest);
    if shown.brief {
        let routes = sources.map(|source| format!("{}: by", source.name));
        let labels = ["Channel".to_owned()].into_iter().chain(routes).collect();
        return vec![Block::Blanks { labels, in_a_row: 3, size: SIZE }];
    }
    let labels = ["Channel", "Fill site boss"].map(str::to_owned).to_vec();
    let mut blocks = vec![Block::Blanks { labels, in_a_row: 2, size: SIZE }];
    blocks.extend(sources.map(|source| {
        let mut labels = vec![format!("{}: out by", source.name), "back by".to_owned()];
        labels.extend(source.pump.is_none().then(|| "pump".to_owned()));
        let in_a_row = labels.len();
        Block::Blanks { labels, in_a_row, size: SIZE }
    }));
    blocks
}

/// Behind the strip: that, routes to fill in, and a sketch where there is room.
pub(super) fn back(
    answer: &Answer<CardFigures>,
    shown: Shown,
    made: &Made,
    (room, wide): (f64, f64),
) -> Vec<Block> {
    let (card, reader) = (&answer.figures, &made.reader);
    let boss = reader.put(&say![Piece::Tanker, " boss"]).to_uppercase();
    let mut blocks = vec![strip_head(
        &format!("{boss}, back"),
        &answer.title,
        made,
        Shown { size: SIZE, ..shown },
        wide,
    )];
    blocks.extend(not_on_the_front(answer, shown, reader));
    blocks.extend(to_write(card, shown));
    let left = (room - height(&blocks, wide) - 2.0).floor();
    if left >= LEAST_SKETCH {
        let label = "Sketch: fire, drop tanks, way in and out, fill site".to_owned();
        blocks.push(Block::Frame { label, tall: left });
    }
    blocks
}
