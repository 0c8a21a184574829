//! The picture of `size`: the chance and the minutes short by number of tankers.

use shuttle_report::chart::Sheet;
use shuttle_report::chart::chance_by_tankers::{FleetPoint, Who, chart};

use super::figures::{FleetFigures, SizeFigures};
use crate::picture::{Picture, luck_number};
use crate::reader::Reader;
use crate::say;
use crate::say::{Chances, Piece, Sentence};
use crate::shared::target::Side;

/// One picture; none where nothing was run.
pub(super) fn pictures(figures: &SizeFigures, verdict: &Sentence, seed: u64) -> Vec<Picture> {
    if figures.rows.is_empty() {
        return Vec::new();
    }
    let points: Vec<FleetPoint> = figures.rows.iter().map(point).collect();
    let lines = (Some(figures.target), figures.tankers);
    let shows = say![
        "Above, how often the lines run short, with the 95% interval; below, for how many minutes a fire on average: \
         by number of ",
        Piece::Tankers,
        ", in the order they arrive.",
    ];
    vec![Picture {
        name: "tankers".into(),
        title: title(figures).unwrap_or_else(|| verdict.clone()),
        shows,
        made_from: made_from(figures, seed),
        draw: Box::new(move |reader: &Reader, sheet: &Sheet<'_>| {
            chart(&points, lines, [reader.tanker(), reader.tankers()], sheet)
        }),
    }]
}

/// "With two tankers the lines run short in 29 fires of 100, with three in none of 20,000 fires."; `None` where no
/// number is the answer.
fn title(figures: &SizeFigures) -> Option<Sentence> {
    let row = figures.row(figures.tankers?)?;
    let fires = |row: &FleetFigures| {
        Piece::Fires(Chances::of(row.interruption_probability, row.replications))
    };
    let one_less = figures.row(row.tankers.saturating_sub(1)).filter(|row| row.replications > 0);
    Some(match one_less {
        Some(less) => say![
            "With ",
            Piece::TankerCount(less.tankers),
            " the lines run short in ",
            fires(less),
            ", with ",
            Piece::Count(row.tankers),
            " in ",
            fires(row),
            ".",
        ],
        None => say![
            "With ",
            Piece::TankerCount(row.tankers),
            " the lines run short in ",
            fires(row),
            ".",
        ],
    })
}

fn point(row: &FleetFigures) -> FleetPoint {
    FleetPoint {
        tankers: row.tankers,
        label: if row.listed { row.adds.clone() } else { "another, not yours yet".to_owned() },
        who: match (row.listed, row.of_the_aid) {
            (false, _) => Who::Invented,
            (true, true) => Who::Aid,
            (true, false) => Who::Own,
        },
        minutes_short: row.interrupted_minutes_mean,
        runs: if row.verdict == Side::CannotWork { 0 } else { row.replications },
        probability: row.interruption_probability,
        low: row.ci_low,
        high: row.ci_high,
    }
}

/// "600 to 20,000 fires for each number of tankers, luck number 1, the same luck for all."
fn made_from(figures: &SizeFigures, seed: u64) -> Sentence {
    let runs = || figures.rows.iter().map(|row| row.replications).filter(|runs| *runs > 0);
    let number = |runs: u64| Piece::Number(runs as f64, 0);
    let fires = match (runs().min(), runs().max()) {
        (Some(fewest), Some(most)) if fewest == most => say![number(most)],
        (Some(fewest), Some(most)) => say![number(fewest), " to ", number(most)],
        _ => return say!["No fires were simulated."],
    };
    say![
        fires,
        " fires for each number of ",
        Piece::Tankers,
        ", ",
        luck_number(seed),
        ", the same luck for all.",
    ]
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use shuttle_report::batch::Control;

    use super::*;
    use crate::question::Budget;
    use crate::question::size::{Asked, size};

    #[test]
    fn the_title_is_the_answer_and_the_number_before_it() {
        let file =
            concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/hay_barn_two_tankers.json");
        let scenario = scenario_file::load(Path::new(file)).expect("the demo is sound");
        let budget = Budget { replications: 2_000, seed: 1, threads: 2 };
        let asked = Asked { target: 0.05, beyond_listed: 3 };
        let answer = size(&scenario, budget, asked, &Control::default());
        let enough = answer.figures.tankers.expect("some number is enough");
        let title = &answer.pictures[0].title.0;
        for tankers in [enough - 1, enough] {
            let row = answer.figures.row(tankers).expect("a row");
            let said = Piece::Fires(Chances::of(row.interruption_probability, row.replications));
            assert!(title.contains(&said), "{tankers}: {title:?}");
        }
        assert!(title.contains(&Piece::TankerCount(enough - 1)), "{title:?}");
        assert!(title.contains(&Piece::Count(enough)), "{title:?}");
    }
}
