//! What a reader is asked to look at: readings that stand out, more at a place than it has room for.

use drill_log::Place;

use super::super::Found;
use super::super::course::everyone;
use super::super::tables::digits;
use super::{rows, step_words};
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::quantities::count;

/// Questions that the answer shows by itself.
const SHOWN: usize = 3;

/// Every question, each with its row.
pub(super) fn all(found: &Found<'_>) -> Vec<Sentence> {
    let facts = everyone(found.scenario);
    let timed = found.timed;
    let mut told: Vec<Sentence> = (timed.outliers.iter())
        .map(|outlier| {
            let one = &timed.measured.readings[outlier.reading];
            say![
                "row ",
                count(one.row as u64),
                ": ",
                name(&facts.tankers[one.tanker].name),
                ", ",
                step_words(one.step),
                " took ",
                Piece::Number(one.minutes, digits(timed)),
                " min where ",
                Piece::Number(outlier.usual, 1),
                " is usual; is that right? It is counted; --leave-out ",
                count(one.row as u64),
                " leaves the row out",
            ]
        })
        .collect();
    told.extend(timed.measured.crowds.iter().map(|crowd| {
        let (site, positions) = match crowd.place {
            Place::Fill(site) | Place::Water(site) => {
                (say!["at ", name(&facts.fill_sites[site].name)], facts.fill_sites[site].positions)
            }
            Place::Dump => (say!["at the drop tanks"], timed.course.dump_positions),
        };
        say![
            "rows ",
            Piece::Words(rows(&crowd.rows).into()),
            ": ",
            count(crowd.rows.len() as u64),
            " at once ",
            site,
            " where the scenario has ",
            count(positions),
            if positions == 1 { " position" } else { " positions" },
            "; is a time wrong, or are there more? These are not counted as handling",
        ]
    }));
    told
}

/// The first of them in a paragraph; `None` where there is nothing to ask.
pub(super) fn short(all: &[Sentence]) -> Option<Sentence> {
    if all.is_empty() {
        return None;
    }
    let told = joined(all.iter().take(SHOWN).cloned(), ". ", ". ");
    let more = all.len().saturating_sub(SHOWN);
    let rest = (more > 0).then(|| say![" ", count(more as u64), " more: --more."]);
    Some(say![told, ".", rest])
}
