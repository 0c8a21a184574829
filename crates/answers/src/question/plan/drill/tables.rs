//! The tables of `drill`.

use drill_log::{Figures, Place, Step};
use shuttle_report::changes::input::Quantity;

use super::Found;
use super::course::everyone;
use super::timed::Timed;
use super::told::{step_words, tenth};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, name};

/// Decimal places of minutes: no more than the times were written with.
pub(super) fn digits(timed: &Timed) -> usize {
    if timed.log.grain > 0.2 { 1 } else { 2 }
}

fn heads(first: &'static str) -> Table {
    Table::new(vec![
        (say![first], Align::Left),
        (say!["readings"], Align::Right),
        (say!["median, min"], Align::Right),
        (say!["from"], Align::Right),
        (say!["to"], Align::Right),
        (say!["waited besides, min"], Align::Right),
        (say!["not told from waiting"], Align::Right),
    ])
}

fn figures_cells(of: Option<Figures>, digits: usize) -> [Sentence; 4] {
    match of {
        None => [say!["none"], say!["-"], say!["-"], say!["-"]],
        Some(of) => [
            say![Piece::Number(of.readings as f64, 0)],
            say![Piece::Number(of.median, digits)],
            say![Piece::Number(of.low, digits)],
            say![Piece::Number(of.high, digits)],
        ],
    }
}

/// What is waited for at the beginning of a step.
fn waits_before(step: Step, place: Place) -> bool {
    match step {
        Step::FillConnect => matches!(place, Place::Fill(_)),
        Step::Fill => matches!(place, Place::Water(_)),
        Step::DumpPosition => place == Place::Dump,
        _ => false,
    }
}

/// Every step over all tankers; drives by their fill site where there are several.
pub(super) fn steps(found: &Found<'_>) -> Table {
    let timed = found.timed;
    let facts = everyone(found.scenario);
    let mut table = heads("step");
    for step in Step::ALL {
        let by_site =
            matches!(step, Step::DriveOut | Step::DriveBack) && facts.fill_sites.len() > 1;
        let sites: Vec<Option<usize>> =
            if by_site { (0..facts.fill_sites.len()).map(Some).collect() } else { vec![None] };
        for site in sites {
            let at = site.map(|site| say![", ", name(&facts.fill_sites[site].name)]);
            let of = timed.figures(step, None, site);
            let waited: f64 = (timed.measured.waits.iter())
                .filter(|wait| waits_before(step, wait.place))
                .map(|wait| wait.minutes)
                .sum();
            let untold = timed.measured.untold.iter().filter(|one| one.step == step).count();
            let [readings, median, low, high] = figures_cells(of, digits(timed));
            table.row(vec![
                say![step_words(step), at],
                readings,
                median,
                low,
                high,
                if waited > 0.0 { say![Piece::Number(waited, 0)] } else { say![""] },
                if untold > 0 { say![Piece::Number(untold as f64, 0)] } else { say![""] },
            ]);
        }
    }
    table
}

/// Every step by tanker.
pub(super) fn by_tanker(found: &Found<'_>) -> Table {
    let facts = everyone(found.scenario);
    let mut table = Table::new(vec![
        (say!["step"], Align::Left),
        (say![Piece::Tanker], Align::Left),
        (say!["readings"], Align::Right),
        (say!["median, min"], Align::Right),
        (say!["from"], Align::Right),
        (say!["to"], Align::Right),
    ]);
    for step in Step::ALL {
        for (place, tanker) in facts.tankers.iter().enumerate() {
            let Some(of) = found.timed.figures(step, Some(place), None) else { continue };
            let [readings, median, low, high] = figures_cells(Some(of), digits(found.timed));
            table.row(vec![
                step_words(step),
                say![name(&tanker.name)],
                readings,
                median,
                low,
                high,
            ]);
        }
    }
    table
}

/// What the measured times put in place of what.
pub(super) fn values(found: &Found<'_>) -> Table {
    let mut table = Table::new(vec![
        (say!["in the scenario"], Align::Left),
        (say!["was"], Align::Left),
        (say!["readings"], Align::Right),
        (say!["measured"], Align::Left),
    ]);
    for put in &found.with.put {
        let value = &found.timed.values[put.of];
        table.row(vec![
            say![name(&put.place)],
            match &put.before {
                Some(before) => say![name(before)],
                None => say!["not stated"],
            },
            say![Piece::Number(value.readings as f64, 0)],
            say![name(&put.after)],
        ]);
    }
    table
}

/// What time saved at each step is worth.
pub(super) fn training(found: &Found<'_>) -> Table {
    let mut table = Table::new(vec![
        (say!["step"], Align::Left),
        (say!["takes, min"], Align::Right),
        (say!["known to"], Align::Right),
        (say!["readings"], Align::Right),
        (say!["min less"], Align::Right),
        (say!["short, of 100"], Align::Right),
    ]);
    for (row, read) in found.training.worth.rows.iter().zip(&found.training.read) {
        let Some(better) = &row.better else { continue };
        let chances = crate::say::Chances::of(better.interruption_probability, better.replications);
        let by = match row.amount {
            Quantity::Minutes(minutes) => minutes,
            _ => 0.0,
        };
        let (mean, known, readings) = match read {
            Some(of) => (
                say![Piece::Number(of.mean, 2)],
                say!["+-", Piece::Number(of.deviation / (of.readings as f64).sqrt(), 2)],
                say![Piece::Number(of.readings as f64, 0)],
            ),
            None => (
                match row.now {
                    Quantity::Minutes(minutes) => say![Piece::Number(minutes, 2)],
                    other => say![crate::shared::changes::quantity_words(other)],
                },
                say!["not timed"],
                say!["none"],
            ),
        };
        table.row(vec![
            crate::shared::changes::input_words(&row.input),
            mean,
            known,
            readings,
            tenth(by),
            say![Piece::OfHundred(chances, 1)],
        ]);
    }
    table.feet.push(say![
        "As it stands ",
        Piece::OfHundred(super::told::short(found), 1),
        " of 100, on the same luck. \"Known to\" is the standard error of the mean."
    ]);
    table
}
