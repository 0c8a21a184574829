//! The dispatcher's strip: how good the plan is, whom to ask and when; behind it the rest of them and the address.

use answers::question::card::{
    CardFigures, Role, UnitFigures, call_next_words, deadline_words, held_words,
    people_short_words, refuses_words,
};
use answers::say::{Chances, Piece, Sentence, joined, list, name};
use answers::shown::asked_words;
use answers::{Answer, Reader, say};

use super::failing::{ADD_OR_LESS, ask_instead, holds, not_enough};
use super::units::{come_together, minute, one_alarm, unit};
use super::{SIZE, Shown, strip_head, warned};
use crate::Made;
use crate::layout::block::Block;
use crate::pages::begun;

/// The title is so much larger than the rest, pt.
const TITLE_LARGER: f64 = 6.0;

pub(super) fn front(answer: &Answer<CardFigures>, shown: Shown, made: &Made) -> Vec<Block> {
    let reader = &made.reader;
    let card = &answer.figures;
    let larger = if shown.one_sheet { 0.0 } else { TITLE_LARGER };
    let mut blocks = vec![Block::Title(answer.title.clone(), shown.size + larger)];
    let changed = asked_words(&answer.asked);
    blocks.extend(changed.map(|told| Block::heavy(reader.put(&told), shown.size)));
    let chance = warned(answer, held_words(card), reader, shown.size);
    let wanted = match card.is_not_to_be_used() {
        true => Block::labelled("WANTED, NOT HELD", begun(reader, &flow(card)), shown.size),
        false => Block::heavy(begun(reader, &flow(card)), shown.size),
    };
    let as_simulated = || Block::heavy(chance_words(answer, reader), shown.size);
    blocks.extend([
        chance.unwrap_or_else(as_simulated),
        wanted,
        Block::Gap(2.0),
        Block::Heading(format!("DISPATCH, {}", made.day()), shown.head()),
    ]);
    let few = people_short_words(&card.people);
    blocks.extend(few.map(|told| Block::labelled("PEOPLE", reader.put(&told), shown.size)));
    // Where room is short the head's line is enough.
    let fails = card.is_not_to_be_used();
    blocks.extend((fails && !shown.brief).then(|| holds(card, shown.size, reader)));
    if let Some(instead) = &card.instead {
        let units = &card.units[..card.units.len().min(shown.units)];
        blocks.push(not_enough(units, shown.size, reader));
        blocks.extend(ask_instead(card, instead, shown, reader));
        return blocks;
    }
    let told = &card.units[..card.units.len().min(shown.units)];
    if fails {
        blocks.push(not_enough(told, shown.size, reader));
    } else {
        blocks.extend(calls(told, shown.size, reader));
    }
    let more = card.units.len() - told.len();
    if more > 0 {
        let what = if fails {
            " more of the plan: see the back."
        } else {
            " more to ask for: see the back."
        };
        let left = say![Piece::Number(more as f64, 0), what];
        blocks.push(Block::heavy(reader.put(&left), shown.size));
    }
    if fails {
        let labels = ["ASK ALSO FOR", "and"].map(str::to_owned).to_vec();
        blocks.push(Block::Blanks { labels, in_a_row: 2, size: shown.size });
        blocks.extend((!shown.brief).then(|| Block::heavy(ADD_OR_LESS, shown.size)));
        return blocks;
    }
    if let Some(deadline) = &card.deadline {
        let told = begun(reader, &deadline_words(deadline));
        blocks.push(Block::labelled("DEADLINE", told, shown.size));
    }
    // The worst where there is little room; the rest is on the back then.
    let away = (shown.away > 0).then(|| refuses(card, shown.away, shown.size, reader));
    blocks.extend(away.flatten());
    blocks.extend(call_next(card, shown, reader));
    blocks
}

/// Whom to call when one refuses or is lost, or command wants more: the soonest of the aid that is listed, or a line to write
/// on.
fn call_next(card: &CardFigures, shown: Shown, reader: &Reader) -> Option<Block> {
    card.tanker_lost.as_ref()?;
    let label = "ONE REFUSES OR IS LOST".to_owned();
    Some(match call_next_words(card, shown.rest) {
        Some(next) => Block::labelled(label, reader.put(&say!["call ", next, "."]), shown.size),
        None => {
            Block::Blanks { labels: vec![format!("{label}: call")], in_a_row: 1, size: shown.size }
        }
    })
}

/// What holds without one that does not come, or a department that comes whole.
fn refuses(card: &CardFigures, most: usize, size: f64, reader: &Reader) -> Option<Block> {
    let told = begun(reader, &refuses_words(card, most)?);
    Some(Block::labelled("ONE DOES NOT COME", told, size))
}

/// "Short of water in 3 fires of 100, as simulated."
fn chance_words(answer: &Answer<CardFigures>, reader: &Reader) -> String {
    let share = answer.figures.interruption_probability;
    let fires = Piece::Fires(Chances::of(share, answer.basis.replications));
    reader.put(&say!["Short of water in ", fires, ", as simulated."])
}

/// Most steps of the flow that are told one by one.
const MOST_STEPS: usize = 6;

/// "150 gpm; 600 gpm from 10 minutes after first water (minute 20), for 2 hours."
fn flow(card: &CardFigures) -> Sentence {
    say![flow_steps(card), ", for ", Piece::Duration(card.duration_min), "."]
}

/// The same without how long.
pub(super) fn flow_steps(card: &CardFigures) -> Sentence {
    let told = card.attack_flow.len().min(MOST_STEPS);
    let begins = card.attack_flow.first().map_or(0.0, |step| step.from_first_water_min);
    let closed = match begins > 0.0 {
        true => say!["NO WATER before ", Piece::Minutes(begins), " after first water; "],
        false => Sentence::default(),
    };
    let steps = card.attack_flow.iter().take(told).enumerate().map(|(place, step)| {
        if step.from_first_water_min == 0.0 {
            return say![Piece::Flow(step.flow_gpm)];
        }
        let after = (place + 1 == told).then(|| {
            let at = Piece::Clock(card.clock.first_water_min + step.from_first_water_min);
            say![" minutes after first water (", at, ")"]
        });
        let digits = usize::from(step.from_first_water_min.fract() != 0.0);
        let from = Piece::Number(step.from_first_water_min, digits);
        say![Piece::Flow(step.flow_gpm), " from ", from, after]
    });
    let peak = (card.attack_flow.len() > told)
        .then(|| say![", at most ", Piece::Flow(card.peak_flow_gpm)]);
    say![closed, joined(steps, "; ", "; "), peak]
}

/// Boxes to tick, one list a minute of asking.
fn calls(units: &[UnitFigures], size: f64, reader: &Reader) -> Vec<Block> {
    let same_minute = |a: &UnitFigures, b: &UnitFigures| a.requested_at_min == b.requested_at_min;
    (units.chunk_by(same_minute))
        .map(|together| {
            let at = together[0].requested_at_min;
            let alarm = one_alarm(together);
            let label = match (alarm, at) {
                (Some(alarm), _) => {
                    let told =
                        say![alarm, " alarm (minute ", minute(at), ")", come_together(together)];
                    reader.put(&told).to_uppercase()
                }
                (None, 0.0) => "ASK AT ALARM".to_owned(),
                (None, _) => {
                    reader.put(&say!["ASK AT MINUTE ", minute(at), " unless command says no"])
                }
            };
            let items = (together.iter())
                .map(|one| format!("{} ans. __", reader.put(&unit(one, units, alarm))))
                .collect();
            Block::Boxes { label, items, size }
        })
        .collect()
}

/// "Engine 8 97%, Tanker 3 and Tanker 5 95%, Aid tanker 1 to Aid tanker 4 90%": those who may not come, who are listed one
/// behind the other and come as often together; "each tanker 90%" where that is all there is to say.
fn how_often_they_come(units: &[UnitFigures]) -> Vec<Sentence> {
    let unsure: Vec<(&String, f64)> = (units.iter())
        .filter(|one| one.comes_share < 1.0)
        .filter_map(|one| Some((one.name.as_ref()?, one.comes_share)))
        .collect();
    let tankers = units.iter().filter(|one| one.role == Role::Tanker);
    let tankers: Vec<f64> = tankers.map(|one| one.comes_share).collect();
    if let [first, _, ..] = tankers.as_slice()
        && tankers.len() == unsure.len()
        && tankers.iter().all(|share| share == first && *share < 1.0)
    {
        return vec![say!["each ", Piece::Tanker, " ", Piece::Share(*first)]];
    }
    (unsure.chunk_by(|a, b| a.1 == b.1))
        .map(|together| {
            let (first, last) = (together[0].0, together[together.len() - 1].0);
            let who = match together.len() {
                1 => say![name(first)],
                2 => say![name(first), " and ", name(last)],
                // Between these two there may be others, that come as often as not.
                _ => list(together.iter().map(|one| say![name(one.0)])),
            };
            say![who, " ", Piece::Share(together[0].1)]
        })
        .collect()
}

/// Behind the strip: who did not fit on its front, the aid that nobody asks for, and what the dispatcher notes.
pub(super) fn back(
    answer: &Answer<CardFigures>,
    shown: Shown,
    made: &Made,
    wide: f64,
) -> Vec<Block> {
    let (card, reader) = (&answer.figures, &made.reader);
    let head =
        || strip_head("DISPATCH, back", &answer.title, made, Shown { size: SIZE, ..shown }, wide);
    let mut blocks: Vec<Block> = (!shown.one_sheet).then(head).into_iter().collect();
    let left = card.units.get(shown.units..).filter(|left| !left.is_empty());
    blocks.extend(match left.filter(|_| card.instead.is_none()) {
        Some(left) if card.is_not_to_be_used() => vec![not_enough(left, SIZE, reader)],
        Some(left) => calls(left, SIZE, reader),
        None => Vec::new(),
    });
    let away = (shown.away_behind > 0).then(|| refuses(card, shown.away_behind, SIZE, reader));
    blocks.extend(away.flatten());
    let unsure = how_often_they_come(&card.units);
    if !unsure.is_empty() {
        let told = reader.put(&say![joined(unsure, ", ", ", "), " of fires."]);
        blocks.push(Block::labelled("HOW OFTEN THEY COME", told, SIZE));
    }
    // Whom the front says to ask for is not left out.
    let asked = card.instead.iter().flat_map(|instead| &instead.ask_for);
    let asked: Vec<&String> = asked.map(|unit| &unit.name).collect();
    let left = card.aid_not_asked.iter().filter(|one| !asked.contains(one));
    let left: Vec<Sentence> = left.map(|one| say![name(one)]).collect();
    if !left.is_empty() {
        // Of a plan that holds the front says when to call them.
        let when = if card.instead.is_none() && card.tanker_lost.is_some() {
            "listed as aid, called only where one refuses or is lost: "
        } else {
            "listed as aid, not on this card: "
        };
        let aid = say![when, list(left), "."];
        blocks.push(Block::labelled("NOT ASKED", begun(reader, &aid), SIZE));
    }
    let row = |labels: &[&str]| labels.iter().map(|&label| label.to_owned()).collect::<Vec<_>>();
    let mut blanks = match (shown.one_sheet, shown.brief) {
        (true, _) => {
            vec![
                row(&["Address", "Channel"]),
                row(&["Alarm at", "Asked at", "Command", "Report to"]),
            ]
        }
        (false, brief) => {
            let last: &[&str] = if brief { &["Fill site boss"] } else { &[] };
            vec![
                row(&["Address"]),
                row(&["Alarm at", "Asked at", "Command"]),
                row(&[&["Report to", "Channel"], last].concat()),
            ]
        }
    };
    // A sheet that stays whole is one because it is full.
    match phones(card) {
        one if shown.one_sheet && one.len() == 1 => blanks[0].extend(one),
        row => blanks.insert(blanks.len() - 1, row),
    }
    blocks.extend(blanks.into_iter().map(|labels| {
        let in_a_row = labels.len();
        Block::Blanks { labels, in_a_row, size: SIZE }
    }));
    blocks
}

/// Where to write the phones: no file knows them, and some know no department.
fn phones(card: &CardFigures) -> Vec<String> {
    /// So many departments have a line to their names.
    const MOST: usize = 3;
    let mut departments: Vec<&String> = Vec::new();
    for department in card.units.iter().filter_map(|unit| unit.department.as_ref()) {
        if !departments.contains(&department) {
            departments.push(department);
        }
    }
    let all_named = card.units.iter().all(|unit| unit.department.is_some());
    let named = || departments.iter().map(|one| format!("{one}, phone"));
    match departments.len() {
        0 => vec!["Departments and phones".to_owned()],
        1..=MOST if all_named => named().collect(),
        1..MOST => named().chain(["Others".to_owned()]).collect(),
        _ if all_named => vec!["Phones".to_owned()],
        _ => vec!["Phones, and departments of the others".to_owned()],
    }
}
