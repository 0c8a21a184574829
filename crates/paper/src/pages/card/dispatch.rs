//! The dispatcher's strip: how good the plan is, whom to ask and when; behind it the rest of them and the address.

use answers::question::card::{CardFigures, Role, UnitFigures, call_next_words};
use answers::say::{Chances, Piece, Sentence, joined, list, name};
use answers::shown::asked_words;
use answers::{Answer, Reader, say};

use super::{HEAD_LARGER, SIZE, Shown};
use crate::layout::block::Block;
use crate::pages::begun;

/// From this share of fires on that run short, nobody should rely on the plan. Judgement.
const NOT_TO_RELY_ON: f64 = 0.5;

pub(super) fn front(answer: &Answer<CardFigures>, shown: Shown, reader: &Reader) -> Vec<Block> {
    let card = &answer.figures;
    let mut blocks = vec![Block::Title(answer.title.clone(), shown.size + 6.0)];
    let changed = asked_words(&answer.asked);
    blocks.extend(changed.map(|told| Block::heavy(reader.put(&told), shown.size)));
    blocks.extend([
        Block::heavy(chance(answer, reader), shown.size),
        Block::heavy(begun(reader, &flow(card, shown)), shown.size),
        Block::Gap(2.0),
        Block::Heading("DISPATCH".to_owned(), shown.size + HEAD_LARGER),
    ]);
    let told = &card.units[..card.units.len().min(shown.units)];
    blocks.extend(calls(told, shown.size, reader));
    let more = card.units.len() - told.len();
    if more > 0 {
        let left = say![Piece::Number(more as f64, 0), " more to ask for: see the back."];
        blocks.push(Block::heavy(reader.put(&left), shown.size));
    }
    blocks.extend(call_next(card, shown, reader));
    blocks
}

/// Whom to call when a tanker is lost or command wants more: the soonest of the aid that is listed, or a line to write
/// on.
fn call_next(card: &CardFigures, shown: Shown, reader: &Reader) -> Option<Block> {
    card.tanker_lost.as_ref()?;
    let label = reader.put(&say![Piece::Tanker, " lost, or more wanted"]).to_uppercase();
    Some(match call_next_words(card, shown.rest) {
        Some(next) => Block::labelled(label, reader.put(&say!["call ", next, "."]), shown.size),
        None => {
            Block::Blanks { labels: vec![format!("{label}: call")], in_a_row: 1, size: shown.size }
        }
    })
}

/// "Short of water in 12 fires of 100, as simulated."
fn chance(answer: &Answer<CardFigures>, reader: &Reader) -> String {
    let share = answer.figures.interruption_probability;
    let fires = Piece::Fires(Chances::of(share, answer.basis.replications));
    match share {
        1.0.. => {
            let told =
                say!["This plan runs short in ", fires, ": do not use it, ask for more first."];
            reader.put(&told).to_uppercase()
        }
        NOT_TO_RELY_ON.. => reader.put(&say![
            "This plan runs short in ",
            fires,
            ": do not rely on it, ask for more."
        ]),
        _ => reader.put(&say!["Short of water in ", fires, ", as simulated."]),
    }
}

/// "150 gpm from first water, 600 gpm from 10 minutes on, for 2 hours."
fn flow(card: &CardFigures, shown: Shown) -> Sentence {
    let steps = card.attack_flow.iter().take(shown.rest).map(|step| {
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
    let peak = (card.attack_flow.len() > shown.rest)
        .then(|| say![", at most ", Piece::Flow(card.peak_flow_gpm)]);
    say![joined(steps, ", ", ", "), peak, ", for ", Piece::Duration(card.duration_min), "."]
}

/// Boxes to tick, one list a minute of asking.
fn calls(units: &[UnitFigures], size: f64, reader: &Reader) -> Vec<Block> {
    let same_minute = |a: &UnitFigures, b: &UnitFigures| a.requested_at_min == b.requested_at_min;
    (units.chunk_by(same_minute))
        .map(|together| {
            let at = together[0].requested_at_min;
            let label = if at == 0.0 {
                "ASK AT ALARM".to_owned()
            } else {
                let digits = usize::from(at.fract() != 0.0);
                reader.put(&say!["ASK AT MINUTE ", Piece::Number(at, digits)])
            };
            let items = together.iter().map(|one| reader.put(&unit(one, units))).collect();
            Block::Boxes { label, items, size }
        })
        .collect()
}

/// "Birch Hill tanker 1 (Birch Hill; brings a drop tank; 12 min)".
///
/// - Given: all that are told with it; who comes only with others says so once.
fn unit(of: &UnitFigures, told: &[UnitFigures]) -> Sentence {
    let called = of.name.as_ref().map_or_else(|| say!["drop tank carrier"], |one| say![name(one)]);
    let mut beside: Vec<Sentence> = of.department.iter().map(|one| say![name(one)]).collect();
    match of.role {
        Role::AttackEngine => beside.push(say!["attack"]),
        Role::SupplyEngine => beside.push(say!["supply"]),
        Role::SourcePump => beside.push(say!["pumps at the source"]),
        Role::Tanker | Role::DropTankCarrier => {}
    }
    match of.brings_drop_tanks.as_slice() {
        [] => {}
        [_] => beside.push(say!["brings a drop tank"]),
        several => {
            beside.push(say!["brings ", Piece::Count(several.len()), " drop tanks"]);
        }
    }
    beside.extend(of.alarm.map(|alarm| say![alarm, " alarm"]));
    let partners = &of.comes_only_with;
    let is_told = partners.iter().any(|partner| {
        told.iter()
            .take_while(|one| one.name != of.name)
            .any(|one| one.name.as_ref() == Some(partner))
    });
    if !is_told {
        let names = || list(partners.iter().map(|one| say![name(one)]));
        match partners.len() {
            0 => {}
            1 => beside.push(say!["both or neither: with ", names()]),
            _ => beside.push(say!["all or none: with ", names()]),
        }
    }
    beside.push(say![Piece::Number(of.response_min, 0), " min"]);
    say![called, " (", joined(beside, "; ", "; "), ")"]
}

/// Behind the strip: who did not fit on its front, the aid that nobody asks for, and what the dispatcher notes.
pub(super) fn back(answer: &Answer<CardFigures>, shown: Shown, reader: &Reader) -> Vec<Block> {
    let card = &answer.figures;
    let mut blocks = vec![Block::Heading("DISPATCH, back".to_owned(), SIZE + HEAD_LARGER)];
    blocks.extend(calls(card.units.get(shown.units..).unwrap_or_default(), SIZE, reader));
    if !card.aid_not_asked.is_empty() {
        let aid = say![
            "listed as aid, not on this card: ",
            list(card.aid_not_asked.iter().map(|one| say![name(one)])),
            "."
        ];
        blocks.push(Block::labelled("NOT ASKED", begun(reader, &aid), SIZE));
    }
    for (labels, in_a_row) in [(&["Address"][..], 1), (&["Alarm at", "Asked at", "Command"][..], 3)]
    {
        let labels = labels.iter().map(|&label| label.to_owned()).collect();
        blocks.push(Block::Blanks { labels, in_a_row, size: SIZE });
    }
    blocks
}
