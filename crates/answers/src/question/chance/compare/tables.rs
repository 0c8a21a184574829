//! The tables of `compare`: the options at a glance, and measure by measure with differences.

use shuttle_report::options_compared::Apart;

use super::figures::{CompareFigures, DifferenceFigures, OptionFigures};
use crate::answer::Block;
use crate::say;
use crate::say::{Align, Chances, Piece, Sentence, Table, column_digits, digits_apart, name};
use crate::shared::against::{Against, digits_of, is_nothing};

/// So many options fit a first answer.
const MOST_ROWS: usize = 7;

/// The options at a glance; of too many those that lower the chance most.
pub fn at_a_glance(figures: &CompareFigures) -> Table {
    let with_cost = figures.options.iter().any(|one| one.cost.is_some());
    // Where every fire is short, how long it is.
    let with_minutes = figures.options[0].chances().is_always();
    let mut columns = vec![
        (say![""], Align::Left),
        (say!["fires of 100 that run short"], Align::Right),
        (say!["minutes short a fire"], Align::Right),
        (say!["cost"], Align::Right),
        (say!["against the first"], Align::Left),
    ];
    if !with_cost {
        columns.remove(3);
    }
    if !with_minutes {
        columns.remove(2);
    }
    let mut table = Table::new(columns);
    let digits = digits(figures);
    let left_out = figures.options.len().saturating_sub(1 + MOST_ROWS);
    let mut by_chance: Vec<usize> = (1..figures.options.len()).collect();
    let by = |place: &usize| {
        let option = &figures.options[*place];
        if with_minutes {
            return option.interrupted_minutes_mean;
        }
        option.higher_by.as_ref().map_or(0.0, |apart| apart.interruption_probability.by)
    };
    by_chance.sort_by(|a, b| by(a).total_cmp(&by(b)));
    by_chance.truncate(MOST_ROWS);
    for (place, option) in figures.options.iter().enumerate() {
        if place > 0 && !by_chance.contains(&place) {
            continue;
        }
        let mut cells = vec![
            say![name(&option.name)],
            say![Piece::OfHundred(option.chances(), digits)],
            say![Piece::Number(option.interrupted_minutes_mean, 1)],
            option.cost.map_or_else(|| say![], |cost| say![Piece::Number(cost, 0)]),
            against(figures, place),
        ];
        if !with_cost {
            cells.remove(3);
        }
        if !with_minutes {
            cells.remove(2);
        }
        table.row(cells);
    }
    if left_out > 0 {
        table.feet.push(say![
            Piece::Count(left_out),
            " more options are listed ",
            Piece::ByMedium { command: "by --more", page: "behind" },
            "."
        ]);
    }
    table
}

/// Fires of 100 with the decimals it takes to tell better and worse from as it stands, if the fires support
/// them.
fn digits(figures: &CompareFigures) -> usize {
    let base = figures.options[0].chances();
    let told_apart = figures
        .options
        .iter()
        .filter(|one| matches!(one.verdict, Some(Against::LowerChance | Against::HigherChance)));
    let wanted = told_apart.map(|one| digits_apart(one.chances(), base)).max().unwrap_or(0);
    wanted.min(column_digits(figures.options.iter().map(OptionFigures::chances)))
}

/// "best", "worse", "no difference": an option held against the plan as it stands.
fn against(figures: &CompareFigures, place: usize) -> Sentence {
    let option = &figures.options[place];
    let as_good = figures.as_good_as_best.contains(&place);
    let apart = option.higher_by.as_ref().map(|apart| apart.interruption_probability);
    match option.verdict {
        None => say![],
        Some(Against::LowerChance) if figures.best == Some(place) => say!["best"],
        Some(Against::LowerChance) if as_good => say!["as good as the best"],
        Some(Against::LowerChance) => say!["better"],
        Some(Against::HigherChance) => say!["worse"],
        Some(Against::FewerMinutes) => say!["as often, but shorter"],
        Some(Against::MoreMinutes) => say!["as often, but longer"],
        Some(Against::NotToldApart) if apart.is_some_and(|apart| is_nothing(&apart)) => {
            say!["no difference"]
        }
        Some(Against::NotToldApart) => say!["too few fires to tell"],
    }
}

/// Measure by measure: each option, and how far it is from the plan as it stands.
pub fn by_measure(figures: &CompareFigures) -> Vec<Block> {
    let percent_digits = |share: fn(&OptionFigures) -> f64| {
        column_digits(figures.options.iter().map(|one| Chances::of(share(one), one.replications)))
    };
    let of_fires = |head: Sentence,
                    share: fn(&OptionFigures) -> f64,
                    apart: fn(&DifferenceFigures) -> Apart| {
        let digits = percent_digits(share);
        let all = figures.options.iter().filter_map(|one| one.higher_by.as_ref()).map(apart);
        let places = digits_of(all);
        measure(
            figures,
            [head, say!["of fires"]],
            &|one| Piece::PercentTo(Chances::of(share(one), one.replications), digits),
            &|one| Some(apart(one)),
            &|by| Piece::Signed(100.0 * by, places),
        )
    };
    let tables = [
        of_fires(
            say!["lines run short"],
            |one| one.interruption_probability,
            |apart| apart.interruption_probability,
        ),
        of_fires(
            say!["reserve drawn on"],
            |one| one.reserve_touched,
            |apart| apart.reserve_touched,
        ),
        measure(
            figures,
            [say!["minutes short a fire"], say!["mean"]],
            &|one| Piece::Number(one.interrupted_minutes_mean, 2),
            &|apart| apart.interrupted_minutes_mean,
            &|by| Piece::Signed(by, 2),
        ),
        measure(
            figures,
            [say!["engine's tank at its lowest, ", Piece::VolumeSign], say!["mean"]],
            &|one| Piece::BareVolume(one.lowest_engine_gal_mean),
            &|apart| apart.lowest_engine_gal_mean,
            &|by| Piece::BareVolume(by),
        ),
        measure(
            figures,
            [say!["flow, ", Piece::FlowSign], say!["mean"]],
            &|one| Piece::BareFlow(one.flow_gpm_mean),
            &|apart| apart.flow_gpm_mean,
            &|by| Piece::BareFlow(by),
        ),
    ];
    let mut blocks = Vec::new();
    for table in tables {
        if !blocks.is_empty() {
            blocks.push(Block::Gap);
        }
        blocks.push(Block::Table(table));
    }
    blocks
}

/// One measure: with each option, the difference, its interval.
fn measure(
    figures: &CompareFigures,
    heads: [Sentence; 2],
    value: &dyn Fn(&OptionFigures) -> Piece,
    apart: &dyn Fn(&DifferenceFigures) -> Option<Apart>,
    difference: &dyn Fn(f64) -> Piece,
) -> Table {
    let [head, of] = heads;
    let mut table = Table::new(vec![
        (head, Align::Left),
        (of, Align::Right),
        (say!["change"], Align::Right),
        (say!["95% interval"], Align::Right),
    ]);
    for option in &figures.options {
        let cells = match option.higher_by.as_ref().map(apart) {
            None => [say![], say![]],
            Some(None) => [say!["-"], say![]],
            Some(Some(Apart { by, ci_low, ci_high, .. })) => {
                [say![difference(by)], say![difference(ci_low), " to ", difference(ci_high)]]
            }
        };
        let [change, interval] = cells;
        table.row(vec![say![name(&option.name)], say![value(option)], change, interval]);
    }
    table
}
