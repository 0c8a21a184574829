//! The tables of `request`: what to say over the radio, the sets tried, the request changed a little.

use super::figures::{ChangeFigures, RequestFigures, UnitFigures};
use super::losses::LossFigures;
use super::told::cure_words;
use crate::say;
use crate::say::{Align, Chances, Piece, Sentence, Table, column_digits, list, name};
use crate::shared::against::digits_of;
use crate::shared::lost::{lost_alone, lost_words};
use crate::shared::target::{Side, below};

/// Whom to ask for and when, in the order to ask: the dispatch card.
pub fn to_ask(figures: &RequestFigures) -> Table {
    let request = &figures.request;
    let by_department = request.iter().any(|unit| unit.department.is_some());
    let mut heads = vec![(say!["ask"], Align::Left)];
    heads.extend(by_department.then(|| (say!["department"], Align::Left)));
    heads.extend([
        (say!["for"], Align::Left),
        (say!["brings"], Align::Left),
        (say!["away"], Align::Right),
        (say!["without"], Align::Right),
    ]);
    let mut table = Table::new(heads);
    let mut before: Option<&UnitFigures> = None;
    for unit in request {
        let is_asked_with = |other: &UnitFigures| {
            other.requested_at_min == unit.requested_at_min && other.alarm == unit.alarm
        };
        let when = if before.is_some_and(is_asked_with) { say![] } else { when(unit) };
        before = Some(unit);
        let tried = unit.without_it.as_ref().filter(|_| !figures.is_hopeless());
        let without = tried.map(ChangeFigures::chances);
        let department = unit.department.as_ref().map(|one| say![name(one)]).unwrap_or_default();
        let mut cells = vec![when];
        cells.extend(by_department.then_some(department));
        cells.extend([
            say![name(&unit.name)],
            say![list(brings(unit)), seldom(unit)],
            say![Piece::Number(unit.response_min, 0)],
            match without {
                // Told once for all that come together.
                _ if !figures.leads_call(unit) => say!["together"],
                None => say!["-"],
                Some(chances) => say![Piece::OfHundred(chances, 0)],
            },
        ]);
        table.row(cells);
    }
    let tried = !figures.is_hopeless() && request.iter().any(|unit| unit.without_it.is_some());
    // Nearest first needs no word.
    let by_cost = request.windows(2).any(|two| {
        two[0].requested_at_min == two[1].requested_at_min
            && two[0].call != two[1].call
            && two[0].response_min > two[1].response_min
    });
    table.feet.push(if tried {
        say!["Away: minutes from the call. Without: fires of 100 then short, all others coming."]
    } else {
        say!["Away: minutes from the call."]
    });
    if tried && by_cost {
        table.feet.push(say![
            "First whom it cannot do without, with the rest of that department; then the nearest."
        ]);
    }
    if figures.calls() < request.len() {
        // Of one alarm all are struck at once, and each may still fail to come.
        let by_alarm = |unit: &UnitFigures| unit.alarm.is_some_and(|alarm| alarm != "first");
        let all_by_alarm = request.iter().all(|unit| figures.leads_call(unit) || by_alarm(unit));
        table.feet.push(if all_by_alarm {
            say!["Together: the alarm calls it with the one above."]
        } else {
            say!["Together: with the one above or not at all."]
        });
    }
    table
}

/// ", 50% of times": of those who may well not come.
fn seldom(unit: &UnitFigures) -> Option<Sentence> {
    let share = Piece::Share(unit.comes_share);
    (unit.comes_share < SELDOM).then(|| say![", ", share, " of times"])
}

/// Who comes less often than is common of aid is told so (nine of ten, common practice).
const SELDOM: f64 = 0.9;

/// "3,000 gal", "a drop tank", "the pump for Quarry pond".
fn brings(unit: &UnitFigures) -> Vec<Sentence> {
    let mut brings = vec![say![Piece::Volume(unit.capacity_gal)]];
    brings.extend(unit.brings_drop_tank.then(|| say!["a drop tank"]));
    brings.extend(unit.brings_pump_to.iter().map(|site| say!["the pump for ", name(site)]));
    brings
}

/// "at the alarm", "at minute 4", "second alarm, minute 4".
fn when(unit: &UnitFigures) -> Sentence {
    match (unit.alarm, unit.requested_at_min) {
        (Some("first"), 0.0) => say!["first alarm"],
        (Some(alarm), at) => say![alarm, " alarm, ", Piece::Clock(at)],
        (None, 0.0) => say!["at the alarm"],
        (None, at) => say!["at ", Piece::Clock(at)],
    }
}

/// By number of units asked for: the best set.
pub fn sizes(figures: &RequestFigures) -> Table {
    let mut table = Table::new(vec![
        (say!["ask for"], Align::Right),
        (say!["sets tried"], Align::Right),
        (say!["the best of them"], Align::Left),
        (say!["short in"], Align::Right),
        (say!["95% interval"], Align::Left),
        (below(figures.target), Align::Left),
    ]);
    let rows = &figures.sizes;
    let digits = column_digits(rows.iter().map(|row| row.chances()));
    for row in rows {
        let works = row.verdict != Side::CannotWork;
        let or_dash = |cell: Sentence| if works { cell } else { say!["-"] };
        let end = |share| Piece::PercentTo(Chances::of(share, row.replications), digits);
        let best = if row.names.is_empty() {
            say!["none"]
        } else {
            list(row.names.iter().map(|one| say![name(one)]))
        };
        table.row(vec![
            say![Piece::Number(row.units as f64, 0)],
            say![Piece::Number(row.sets as f64, 0)],
            or_dash(best),
            or_dash(say![Piece::PercentTo(row.chances(), digits)]),
            or_dash(say![end(row.ci_low), " to ", end(row.ci_high)]),
            row.verdict.words(say!["cannot work: no water can reach the engine"]),
        ]);
    }
    table
}

/// One call less, one more, all later, all sure to come: with the differences; `None` where none of that was tried.
pub fn changes(figures: &RequestFigures) -> Option<Table> {
    let mut rows: Vec<(Sentence, &ChangeFigures)> = Vec::new();
    for unit in figures.request.iter().filter(|unit| figures.leads_call(unit)) {
        let called = list(figures.of_call(unit.call).into_iter().map(|one| say![name(one)]));
        rows.extend(unit.without_it.as_ref().map(|less| (say!["without ", called], less)));
    }
    for more in &figures.one_more {
        let called = list(more.names.iter().map(|one| say![name(one)]));
        rows.push((say!["with ", called, " as well"], &more.change));
    }
    for late in &figures.late {
        let later = say!["asked for ", Piece::Minutes(late.later_by_min), " later"];
        rows.push((later, &late.change));
    }
    if let Some(all) = &figures.all_come {
        rows.push((say!["every unit sure to come"], all));
    }
    if rows.is_empty() {
        return None;
    }
    let mut table = Table::new(vec![
        (say!["the request changed"], Align::Left),
        (say!["short in"], Align::Right),
        (say!["change, points"], Align::Right),
        (say!["95% interval"], Align::Left),
    ]);
    let digits = column_digits(rows.iter().map(|(_, change)| change.chances()));
    let places = digits_of(rows.iter().map(|(_, change)| change.higher_by));
    let points = |by: f64| Piece::Signed(100.0 * by, places);
    for (what, change) in rows {
        let apart = change.higher_by;
        table.row(vec![
            what,
            say![Piece::PercentTo(change.chances(), digits)],
            say![points(apart.by)],
            say![points(apart.ci_low), " to ", points(apart.ci_high)],
        ]);
    }
    Some(table)
}

/// The losses with the request: of one unit or source, of several of a department, and those that no request makes up
/// for.
pub fn losses(figures: &RequestFigures) -> Option<Table> {
    let spare = figures.spare.as_ref()?;
    let of_the_rest = spare.not_made_up_for.iter().map(|one| &one.loss);
    let mut rows: Vec<&LossFigures> =
        spare.losses.iter().chain(&spare.departments).chain(of_the_rest).collect();
    if rows.is_empty() {
        return None;
    }
    rows.sort_by(|a, b| b.interruption_probability.total_cmp(&a.interruption_probability));
    let mut table = Table::new(vec![
        (say!["lost, for the whole fire"], Align::Left),
        (say!["short in"], Align::Right),
        (say!["fires"], Align::Right),
        (below(figures.target), Align::Left),
    ]);
    let digits = column_digits(rows.iter().map(|one| one.chances()));
    for one in rows {
        table.row(vec![
            lost_words(&one.lost),
            say![Piece::PercentTo(one.chances(), digits)],
            say![Piece::Number(one.replications as f64, 0)],
            one.verdict.words(say!["no water can reach the engine"]),
        ]);
    }
    if !spare.departments.is_empty() {
        table.feet.push(say![
            "All of a department that may each stay home are more than one loss: the request need not stand that."
        ]);
    }
    Some(table)
}

/// What was tried against each loss that no request makes up for, and the flow that then holds.
pub fn cures(figures: &RequestFigures) -> Option<Table> {
    let spare = figures.spare.as_ref().filter(|spare| !spare.not_made_up_for.is_empty())?;
    let mut table = Table::new(vec![
        (say!["lost"], Align::Left),
        (say!["with"], Align::Left),
        (say!["short in"], Align::Right),
        (say!["fires"], Align::Right),
        (below(figures.target), Align::Left),
    ]);
    for one in &spare.not_made_up_for {
        let holds = one.holds.as_ref().map(|holds| {
            let chances = Chances::of(holds.interruption_probability, holds.replications);
            (say!["no more than ", Piece::Flow(holds.flow_gpm), " asked for"], chances, Side::Below)
        });
        let tried = one
            .tried
            .iter()
            .map(|tried| (cure_words(&tried.cure, &one.loss.lost), tried.chances(), tried.verdict));
        let rows: Vec<(Sentence, Chances, Side)> = tried.chain(holds).collect();
        let digits = column_digits(rows.iter().map(|(_, chances, _)| *chances));
        for (place, (what, chances, side)) in rows.into_iter().enumerate() {
            let lost = if place == 0 { lost_alone(&one.loss.lost) } else { say![] };
            table.row(vec![
                lost,
                what,
                say![Piece::PercentTo(chances, digits)],
                say![Piece::Number(chances.fires as f64, 0)],
                side.words(say!["no water can reach the engine"]),
            ]);
        }
    }
    table.feet.push(say!["Each was run with this request and without what is lost."]);
    Some(table)
}
