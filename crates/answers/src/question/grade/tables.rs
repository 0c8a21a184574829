//! The ranking of `grade` as a table.

use shuttle_report::grade::{GradeAnswer, RuleResult, SiteGrade, Verdict};

use super::{rules, sites};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined};
use crate::shared::holding::{held_or_open, signs};

/// Sets of sites that a short table shows.
const MOST_ROWS: usize = 8;

/// The best sets: how far, what is credited by hand, what holds, and which rules it passes.
pub fn short(found: &GradeAnswer) -> Table {
    let mut table = ranking(found, MOST_ROWS);
    let left_out = found.ranked.len().saturating_sub(MOST_ROWS);
    if left_out > 0 {
        let sets = if left_out == 1 { " set" } else { " sets" };
        table.feet.push(say!["Not shown here: ", Piece::Count(left_out), sets, " behind these."]);
    }
    table
}

/// All sets in the same way; `None` where the short table has them all.
pub fn full(found: &GradeAnswer) -> Option<Table> {
    (found.ranked.len() > MOST_ROWS).then(|| ranking(found, found.ranked.len()))
}

fn ranking(found: &GradeAnswer, most: usize) -> Table {
    let mut columns = vec![
        (say![""], Align::Right),
        (say!["fill sites"], Align::Left),
        (say!["road, ", Piece::DistanceSign], Align::Right),
        (say!["credit, ", Piece::FlowSign], Align::Right),
        (say!["holds, ", Piece::FlowSign], Align::Right),
    ];
    columns
        .extend(found.rules.iter().map(|rule| (say![Piece::Flow(rule.minimum_gpm)], Align::Left)));
    let mut table = Table::new(columns);
    for (place, one) in found.ranked.iter().take(most).enumerate() {
        let mut cells = vec![say![Piece::Number((place + 1) as f64, 0)], sites(one, found)];
        cells.extend([one_way(one), say![Piece::BareFlow(one.counts_gpm)], holds(one)]);
        cells.extend(one.results.iter().map(passes));
        table.row(cells);
    }
    table.feet = feet(found);
    table
}

/// All sets by hand: what the tankers make, what passes the tightest place, what counts of it.
pub fn by_hand(found: &GradeAnswer) -> Table {
    let mut table = Table::new(vec![
        (say!["fill sites, by hand"], Align::Left),
        (say!["made, ", Piece::FlowSign], Align::Right),
        (say!["passes, ", Piece::FlowSign], Align::Right),
        (say!["credit, ", Piece::FlowSign], Align::Right),
        (say!["fires"], Align::Right),
    ]);
    for one in &found.ranked {
        let cap = match &one.tightest {
            Some((_, gpm)) => say![Piece::BareFlow(*gpm)],
            None => say!["no limit"],
        };
        let fires: u64 = one.results.iter().map(|result| result.replications).sum();
        table.row(vec![
            sites(one, found),
            say![Piece::BareFlow(one.hand_gpm)],
            cap,
            say![Piece::BareFlow(one.counts_gpm)],
            say![Piece::Number(fires as f64, 0)],
        ]);
    }
    table
}

/// One way to each of two sites, or to the nearest and the farthest of more.
fn one_way(one: &SiteGrade) -> Sentence {
    let told = |miles: &Option<f64>| match miles {
        Some(miles) => say![Piece::BareDistance(*miles)],
        None => say!["?"],
    };
    match one.site_miles.as_slice() {
        few @ ([_] | [_, _]) => joined(few.iter().map(told), "/", "/"),
        many => match many.iter().copied().collect::<Option<Vec<f64>>>() {
            Some(all) => {
                let nearest = all.iter().copied().fold(f64::INFINITY, f64::min);
                say![Piece::BareDistance(nearest), "-", told(&one.miles)]
            }
            None => say!["?"],
        },
    }
}

fn holds(one: &SiteGrade) -> Sentence {
    let first = one.results.first();
    held_or_open(
        first.and_then(|first| first.held_gpm).map(|gpm| say![Piece::BareFlow(gpm)]),
        first.is_some_and(|first| first.not_clear_up_to_gpm.is_some()),
    )
}

fn passes(result: &RuleResult) -> Sentence {
    match result.verdict {
        Verdict::Pass if result.minimum_above_cap => say!["passes*"],
        Verdict::Pass => say!["passes"],
        Verdict::Fail => say!["fails"],
        Verdict::NotClear => say!["open"],
    }
}

/// What the signs in the table mean, where they stand.
fn feet(found: &GradeAnswer) -> Vec<Sentence> {
    let any =
        |test: fn(&RuleResult) -> bool| found.ranked.iter().any(|one| one.results.iter().any(test));
    let first = found.ranked.iter().filter_map(|one| one.results.first());
    let mut feet = signs(
        first.map(|result| (result.held_gpm.is_some(), result.not_clear_up_to_gpm.is_some())),
    );
    if any(|result| result.minimum_above_cap && result.verdict == Verdict::Pass) {
        feet.push(say!["* passes only on first loads and full tanks, which are used up once."]);
    }
    if any(|result| result.verdict == Verdict::NotClear) {
        feet.push(say!["Open: too close to tell; more fires (--runs) would."]);
    }
    let rules = joined(found.rules.iter().map(|rule| rules::title(rule)), "; ", "; ");
    feet.push(say![if found.rules.len() == 1 { "Rule: " } else { "Rules: " }, rules, "."]);
    feet
}
