//! The tables of `card`.

use super::sources::{Loading, SourceFigures};
use super::wires::{CellFigures, WiresFigures};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, column_digits, name};

/// The levels to act at, by the minutes without a load.
pub fn wires(of: &WiresFigures) -> Table {
    let mut table = Table::new(vec![
        (say!["no load in the next"], Align::Left),
        (say!["ask at, ", Piece::VolumeSign], Align::Right),
        (say!["gate down at, ", Piece::VolumeSign], Align::Right),
        (say!["min of water"], Align::Right),
        (say!["then short in"], Align::Right),
    ]);
    for wire in &of.wires {
        let level = |cell: Option<CellFigures>| {
            cell.map_or_else(|| say!["-"], |cell| say![Piece::BareVolume(cell.level_gal)])
        };
        let sight = if wire.no_load_within_min == of.in_sight_min { ", none in sight" } else { "" };
        table.row(vec![
            say![Piece::Minutes(wire.no_load_within_min), sight],
            level(wire.ask),
            level(wire.gate_down),
            wire.gate_down.map_or_else(|| say!["-"], |cell| say![Piece::Number(cell.lasts_min, 1)]),
            wire.gate_down.map_or_else(|| say!["-"], |cell| share(&cell)),
        ]);
    }
    table
}

/// "56%"; "-" where too few fires came so far.
fn share(cell: &CellFigures) -> Sentence {
    cell.chances().map_or_else(|| say!["-"], |of| say![Piece::PercentTo(of, 0)])
}

/// Every level with every number of minutes.
pub fn every_level(of: &WiresFigures) -> Table {
    let mut heads = vec![
        (say!["level, ", Piece::VolumeSign], Align::Right),
        (say!["min of water"], Align::Right),
    ];
    heads.extend(of.wires.iter().map(|wire| {
        (say!["none in ", Piece::Number(wire.no_load_within_min, 0), " min"], Align::Right)
    }));
    let mut table = Table::new(heads);
    let digits = column_digits(of.table.iter().filter_map(CellFigures::chances)).min(1);
    for row in of.table.chunks(of.wires.len().max(1)) {
        let mut cells = vec![
            say![Piece::BareVolume(row[0].level_gal)],
            say![Piece::Number(row[0].lasts_min, 1)],
        ];
        cells.extend(row.iter().map(|cell| {
            cell.chances().map_or_else(|| say!["-"], |of| say![Piece::PercentTo(of, digits)])
        }));
        table.row(cells);
    }
    table.feet.push(say![
        "Share of the fires that fell through the level so in which the lines then ran short; -: fewer than 100 \
         fires did.",
    ]);
    table
}

/// Where tankers load.
pub fn sources(of: &[SourceFigures]) -> Table {
    let mut table = Table::new(vec![
        (say!["source"], Align::Left),
        (say!["flow, ", Piece::FlowSign], Align::Right),
        (say!["places"], Align::Right),
        (say!["loading"], Align::Left),
        (say!["min out"], Align::Right),
        (say!["min back"], Align::Right),
        (say!["ready at"], Align::Right),
    ]);
    for source in of {
        let loading = match source.loading {
            Loading::OnePlace => say!["one place"],
            Loading::OneAtATime => say!["connect beside, load one at a time"],
            Loading::SideBySide => say!["side by side"],
        };
        table.row(vec![
            say![name(&source.name)],
            say![Piece::BareFlow(source.flow_gpm)],
            say![Piece::Number(f64::from(source.positions), 0)],
            loading,
            say![Piece::Number(source.out_min, 1)],
            say![Piece::Number(source.back_min, 1)],
            say![Piece::Number(source.ready_min, 0)],
        ]);
    }
    table
}
