//! Many addresses in sentences and tables.

use scenario_file::Scenario;
use shuttle_report::district::{Fails, PlaceResult, PlaceRow};
use shuttle_report::grade::Verdict;
use shuttle_report::grading_rules::GradingRule;

use super::Found;
use super::figures::{RuleCounts, passes};
use crate::answer::{Block, Label, Told};
use crate::question::grade::figures::Passes;
use crate::question::grade::{cautions, rules};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, name};
use crate::shared::cause_words;
use crate::shared::holding::cause_of;
use crate::shared::notes;

/// Addresses that a short answer shows: those that do not pass, first. Judgement: with the rest a screen.
const MOST_ROWS: usize = 12;

/// The answer in sentences.
pub fn told(title: &str, scenarios: &[Scenario], found: &Found) -> Told {
    let mut points: Vec<Block> = Vec::new();
    for (place, rule) in found.rules.iter().enumerate().skip(1) {
        let label = if place == 1 { Label::More } else { Label::Blank };
        points.push(Block::Point(label, counts(found, place, rule)));
    }
    points.extend(most_fail_by(found).map(|told| Block::Point(Label::Binds, told)));
    points.push(Block::Point(
        Label::Careful,
        say!["the grading body alone decides; aid counts only as it counts automatic aid."],
    ));
    let lacks = cautions::not_shown_in_short(&found.not_shown);
    if !lacks.is_empty() {
        points.push(Block::Point(
            Label::Blank,
            say!["only figures are graded; not shown: ", lacks, "."],
        ));
    }
    let silent = found.silent_aid;
    if silent > 0 {
        points.push(Block::Point(Label::Blank, cautions::counted_as_own(silent)));
    }
    if !found.options.is_empty() {
        points.extend([Block::Gap, Block::Table(options(found))]);
    }
    let mut rows: Vec<&PlaceRow> = found.rows.rows.iter().collect();
    rows.sort_by_key(|row| row.results.first().is_some_and(|one| one.verdict == Verdict::Pass));
    points.extend([Block::Gap, Block::Table(table(found, &rows, MOST_ROWS))]);
    let mut more = Vec::new();
    if rows.len() > MOST_ROWS {
        let all: Vec<&PlaceRow> = found.rows.rows.iter().collect();
        more.extend([Block::Table(table(found, &all, usize::MAX)), Block::Gap]);
    }
    more.extend(
        (found.rules.iter())
            .map(|rule| Block::Paragraph(rules::in_full(rule, found.edition.as_ref()))),
    );
    Told {
        headline: say![name(title), ". ", many(found.rows.rows.len()), " graded."],
        verdict: match found.rules.first() {
            Some(rule) => counts(found, 0, rule),
            None => say!["No rule was asked about."],
        },
        points,
        advice: Vec::new(),
        more,
        notes: scenarios.iter().flat_map(notes).collect(),
        small_print: vec![say![
            "Passes: the least that the rule credits is unbroken in at least ",
            Piece::Share(found.share),
            " of fires with the best set of fill sites by hand, the best site alone, or all that serve the \
             address; and nothing the file states stands against it. All words of the table hold together \
             with 95% confidence. Which flow above that holds: ",
            Piece::ByMedium { command: "`bucketline grade` of", page: "grade" },
            " one address.",
        ]],
        ask_next: vec!["grade", "reach", "check"],
    }
}

fn many(addresses: usize) -> Sentence {
    let count = Piece::Number(addresses as f64, 0);
    say![count, if addresses == 1 { " address" } else { " addresses" }]
}

/// "212 of 400 addresses pass, 18 are open, 170 fail: 250 gpm for 2 hours. Open: 18 too close to tell."
fn counts(found: &Found, place: usize, rule: &GradingRule) -> Sentence {
    let counted = RuleCounts::of(found, place, rule);
    let (pass, fail) = (counted.pass_count, counted.fail_count);
    let (as_far, no_road) = (counted.as_far_as_stated_count, counted.no_road_count);
    let unclear = counted.not_clear_count;
    let told = say![
        Piece::Number(pass as f64, 0),
        " of ",
        many(found.rows.rows.len()),
        if pass == 1 { " passes" } else { " pass" },
        ", ",
        Piece::Number((as_far + no_road + unclear) as f64, 0),
        if as_far + no_road + unclear == 1 { " is open, " } else { " are open, " },
        Piece::Number(fail as f64, 0),
        if fail == 1 { " fails: " } else { " fail: " },
        rules::title(rule),
    ];
    let open = [
        (as_far, "for what the file does not state"),
        (no_road, "without a road to a fill site"),
        (unclear, "too close to tell"),
    ];
    let open = open.into_iter().filter(|(count, _)| *count > 0);
    let open = open.map(|(count, why)| say![Piece::Number(count as f64, 0), " ", why]);
    let open = joined(open, "; ", "; ");
    if open.is_empty() { say![told, "."] } else { say![told, ". Open: ", open, "."] }
}

/// What fails most under the first rule: "no site within reach at 12, ...".
fn most_fail_by(found: &Found) -> Option<Sentence> {
    let mut reasons: Vec<(Sentence, usize)> = Vec::new();
    let fails = found.rows.rows.iter().filter_map(|row| row.results.first());
    for reason in fails.flat_map(|one| &one.fails) {
        let told = words(reason, found);
        match reasons.iter_mut().find(|(known, _)| *known == told) {
            Some((_, count)) => *count += 1,
            None => reasons.push((told, 1)),
        }
    }
    reasons.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let all = reasons
        .into_iter()
        .map(|(told, count)| say![told, " (", Piece::Number(count as f64, 0), ")"]);
    let all = joined(all, "; ", "; ");
    (!all.is_empty()).then(|| say!["what fails, and at how many: ", all, "."])
}

/// Why a rule is not met, or cannot be told.
pub fn why(one: &PlaceResult, found: &Found) -> Vec<Sentence> {
    let no_road = one.no_road.then(|| say!["no road to a fill site is stated"]);
    one.fails.iter().map(|fails| words(fails, found)).chain(no_road).collect()
}

fn words(fails: &Fails, found: &Found) -> Sentence {
    match fails {
        Fails::ByHand(_) => say!["too little by hand"],
        Fails::Drill(drill) => match found.drills.get(*drill) {
            Some(drill) => cautions::drill_told(drill),
            None => say!["a drill fell short"],
        },
        Fails::Condition(condition) => say![rules::condition(condition), ": not met"],
        Fails::Flow(cause) => match cause.and_then(cause_of) {
            Some(cause) => say!["the flow breaks: ", cause_words(cause)],
            None => say!["the flow cannot work at all"],
        },
        Fails::Late => say!["the crew has no water in time"],
    }
}

fn table(found: &Found, rows: &[&PlaceRow], most: usize) -> Table {
    let mut columns = vec![
        (say!["address"], Align::Left),
        (say!["fill sites, by hand"], Align::Left),
        (say!["credit, ", Piece::FlowSign], Align::Right),
    ];
    columns.extend(found.rules.iter().map(|rule| (rules::short_title(rule), Align::Left)));
    columns.push((say!["what fails"], Align::Left));
    let mut table = Table::new(columns);
    for row in rows.iter().take(most) {
        let sites = if row.best_set.is_empty() {
            say!["none"]
        } else {
            joined(row.best_set.iter().map(|site| say![name(site)]), " + ", " + ")
        };
        let mut cells = vec![
            say![name(&row.name)],
            sites,
            say![Piece::BareFlow(row.hand.as_ref().map_or(0.0, |hand| hand.credited_gpm))],
        ];
        cells.extend(row.results.iter().map(|one| say![passes(one).word()]));
        cells.push(reasons(found, row));
        table.row(cells);
    }
    if rows.len() > most {
        let left = Piece::Number((rows.len() - most) as f64, 0);
        table.feet.push(say![
            "Not shown here: ",
            left,
            " more, those that pass last",
            crate::say::on_command(" (--more, --csv)"),
            "."
        ]);
    }
    let any = |test: fn(&PlaceResult) -> bool| {
        rows.iter().take(most).any(|row| row.results.iter().any(test))
    };
    if any(|one| passes(one) == Passes::AsFarAsStated) {
        table.feet.push(say![
            "passes?: as far as the file says; not all that the rule asks for is stated",
            crate::say::on_command(" (--csv names it)"),
            "."
        ]);
    }
    if any(|one| one.verdict == Verdict::NotClear && !one.no_road) {
        table.feet.push(say![
            "Open: too close to tell; more fires",
            crate::say::on_command(" (--runs)"),
            " would."
        ]);
    }
    table
        .feet
        .push(say![
            "Credit: by hand with these fill sites, the best set under the first rule; a road without a speed takes ",
            rules::travel_rule(),
            ".",
        ]);
    table
}

/// Whether two reasons are told alike.
fn is_as(one: &Fails, other: &Fails) -> bool {
    one == other || matches!((one, other), (Fails::ByHand(_), Fails::ByHand(_)))
}

/// What fails, once each; where not under the first rule, with the rules under which.
fn reasons(found: &Found, row: &PlaceRow) -> Sentence {
    let first = row.results.first().map(|one| one.fails.as_slice()).unwrap_or_default();
    let mut told: Vec<Sentence> =
        row.results.first().map(|one| why(one, found)).unwrap_or_default();
    for (rule, one) in found.rules.iter().zip(&row.results).skip(1) {
        let is_told = |fails: &&Fails| first.iter().any(|other| is_as(fails, other));
        let others = one.fails.iter().filter(|fails| !is_told(fails));
        told.extend(others.map(|fails| say![rules::short_title(rule), ": ", words(fails, found)]));
    }
    joined(told, "; ", "; ")
}

fn options(found: &Found) -> Table {
    let mut table = Table::new(vec![
        (say!["option"], Align::Left),
        (say!["cost"], Align::Right),
        (say!["more pass"], Align::Right),
        (say!["no longer pass"], Align::Right),
    ]);
    for one in &found.options {
        table.row(vec![
            say![name(&one.name)],
            one.cost.map_or_else(|| say![""], |cost| say![Piece::Number(cost, 0)]),
            say![Piece::Number(one.more.len() as f64, 0)],
            say![Piece::Number(one.fewer.len() as f64, 0)],
        ]);
    }
    table.feet.push(say![
        "Addresses that pass under the first rule, as far as the file says; each option by itself."
    ]);
    table
}
