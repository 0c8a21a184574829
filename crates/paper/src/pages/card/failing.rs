//! What the card of a plan that fails says in place of orders: what its units hold, whom to ask for, how to make a card
//! that may be used.

use answers::question::card::{
    CardFigures, InsteadFigures, UnitFigures, held_words, instead_words,
};
use answers::question::request::flows;
use answers::say::{Chances, Piece, joined, list, name};
use answers::{Reader, say};

use super::Shown;
use super::units::{minute, one_alarm, unit};
use crate::layout::block::Block;

/// The file that the better plan is written to.
const CARD_FILE: &str = "CARD.json";

/// What is left where a plan fails and its file lists nobody else.
pub(super) const ADD_OR_LESS: &str =
    "No aid is listed: add whom you could ask, or want less, and print it again.";

/// "HOLDS 410 gpm from minute 16, nothing used before." - what the units of a plan that fails can do.
pub(super) fn holds(card: &CardFigures, size: f64, reader: &Reader) -> Block {
    let told = held_words(card).map_or_else(
        || say!["no flow is shown to hold with these units."],
        |held| say!["these units hold ", held, " to the end, if none is used before."],
    );
    Block::labelled("CAN BE HELD", reader.put(&told), size)
}

/// The units of a plan that fails, told and not to be ticked: "Engine 3 (attack; 9 min away), ..., from minute 4 Tanker 5".
pub(super) fn not_enough(units: &[UnitFigures], size: f64, reader: &Reader) -> Block {
    let same_minute = |a: &UnitFigures, b: &UnitFigures| a.requested_at_min == b.requested_at_min;
    let calls = units.chunk_by(same_minute).map(|together| {
        let at = match together[0].requested_at_min {
            0.0 => say!["at alarm "],
            later => say!["at minute ", minute(later), " "],
        };
        let alarm = one_alarm(together);
        say![at, joined(together.iter().map(|one| unit(one, units, alarm)), ", ", ", ")]
    });
    let told = say![joined(calls, "; ", "; "), "."];
    Block::labelled("AS PLANNED, NOT ENOUGH", reader.put(&told), size)
}

/// Whom to ask for where the plan fails, and how to make the card of that: nobody is to tick off a plan that fails.
pub(super) fn ask_instead(
    card: &CardFigures,
    instead: &InsteadFigures,
    shown: Shown,
    reader: &Reader,
) -> Vec<Block> {
    let fires = Piece::Fires(Chances::of(instead.interruption_probability, instead.replications));
    let ask = instead.ask_for.iter().take(shown.units).map(instead_words);
    let more = instead.ask_for.len().saturating_sub(shown.units);
    let more = (more > 0).then(|| say!["; and ", Piece::Count(more), " more"]);
    let told = say![joined(ask, "; ", "; "), more, ". With all of them short in ", fires, "."];
    let mut blocks = vec![Block::labelled("ASK ALSO FOR", reader.put(&told), shown.size)];
    let make = |flow: Option<&str>| {
        let words = ["bucketline", "request", &instead.file].map(str::to_owned);
        let flow = flow.into_iter().flat_map(|flow| ["--flow".to_owned(), flow.to_owned()]);
        let to = ["--write", CARD_FILE].map(str::to_owned);
        let write = words.into_iter().chain(flow).chain(to).collect();
        let print = ["bucketline", "card", CARD_FILE].map(str::to_owned).to_vec();
        say![Piece::Command(write), ", then ", Piece::Command(print), "."]
    };
    blocks.push(match (instead.meets_target, &instead.is_enough_for) {
        (true, _) => {
            let told = crate::pages::put(reader, &make(None));
            Block::labelled("MAKE THE CARD OF THAT", told, shown.size)
        }
        (false, Some(less)) => {
            let told = say![
                flows(less, card.clock.first_water_min),
                ": ",
                make(instead.flow_argument.as_deref())
            ];
            let told = crate::pages::put(reader, &told);
            Block::labelled("NOT ENOUGH. WHAT CAN BE HAD IS", told, shown.size)
        }
        (false, None) => Block::heavy(
            "Even that is not enough: want less flow, or find more water first.",
            shown.size,
        ),
    });
    blocks
}

/// "Dispatch asks also for Tanker 7 and Aid tanker 2." - of a plan that fails, for those who do not ask; nothing where its file
/// lists nobody.
pub(super) fn whom_else(card: &CardFigures, shown: Shown, reader: &Reader) -> Option<Block> {
    let instead = card.instead.as_ref()?;
    let named = instead.ask_for.iter().take(shown.units).map(|unit| say![name(&unit.name)]);
    let more = instead.ask_for.len().saturating_sub(shown.units);
    let more = (more > 0).then(|| say![Piece::Count(more), " more"]);
    let told = say![list(named.chain(more)), "."];
    Some(Block::labelled("DISPATCH ASKS ALSO FOR", reader.put(&told), shown.size))
}
