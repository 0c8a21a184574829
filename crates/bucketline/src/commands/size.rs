//! `size`: how many tankers to ask for.

use std::fmt::Write;

use shuttle_report::chart;
use shuttle_report::fleet_size::{FleetRow, SizeAnswer, SizeQuestion, Verdict, fewest_tankers};
use shuttle_report::units::{Units, minutes, percent, whole};
use shuttle_report::worksheet::worksheet;
use shuttle_sim::{Brought, Cause, Plan};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::charts::Charts;
use crate::answers::closing::{FEWER_RUNS, exit, print_answer};
use crate::answers::figures::{headline, percent_as_asked};
use crate::arguments::{SizeArguments, threads_or_all};
use crate::asking;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;
use crate::progress::{control, with_progress};

/// A cap this little above the flow wanted is worth mentioning, percent. Judgement.
const LITTLE_SLACK: f64 = 10.0;

/// Runs the command.
pub fn run(arguments: &SizeArguments) -> Result<Exit, Failure> {
    let scenario = asking::load(&arguments.scenario.file)?;
    let control = control();
    let question = SizeQuestion {
        target: arguments.target,
        most_runs: arguments.runs,
        seed: arguments.seed,
        threads: threads_or_all(arguments.threads),
        beyond_listed: usize::from(arguments.beyond),
    };
    let expected = arguments.runs;
    let found =
        with_progress(&control, expected, || fewest_tankers(&scenario.plan, question, &control));
    let charts = Charts::new(&arguments.charts, arguments.scenario.showing.json, &found.title);
    if let Some(charts) = &charts {
        let points: Vec<chart::chance_by_tankers::FleetPoint> =
            found.rows.iter().map(point).collect();
        let svg =
            chart::chance_by_tankers::chart(&points, Some(found.target), &found.title, found.seed)?;
        charts.write("tankers", &svg)?;
    }
    if arguments.scenario.showing.json {
        print_json(&found)?;
    } else {
        let words = Words::new(arguments.scenario.showing.tender);
        let mut text = headline(&scenario.plan, scenario.units, words);
        text.push('\n');
        text.push_str(&answer(&found, &scenario.plan, scenario.units, words));
        print_answer(text, charts.as_ref())?;
    }
    Ok(exit(found.stopped_early))
}

fn point(row: &FleetRow) -> chart::chance_by_tankers::FleetPoint {
    chart::chance_by_tankers::FleetPoint {
        tankers: row.tankers,
        label: row.adds.clone(),
        runs: row.runs,
        probability: row.interruption_probability,
        low: row.low,
        high: row.high,
    }
}

fn answer(found: &SizeAnswer, plan: &Plan, units: Units, words: Words) -> String {
    let mut text = first_sentence(found, plan, words);
    text.push('\n');
    if !found.held_back_by.is_empty() {
        text.push_str(&paragraph("What fails", &held_back(found, plan, words)));
    }
    if let Some(cap) = tightest_cap(found, plan, units, words) {
        text.push_str(&paragraph("At most", &cap));
    }
    if let Some(row) =
        (found.tankers).and_then(|number| found.rows.iter().find(|row| row.tankers == number))
    {
        text.push_str(&with_that_many(row, plan, words));
    }
    if let Some(last) = found.adds_nothing_after {
        let more = format!(
            "beyond {} another one adds nothing that shows on the same luck.",
            words.count(last)
        );
        text.push_str(&paragraph("More", &more));
    }
    text.push('\n');
    let head = format!(
        "{:>8}  {:<26} {:>9}  {:>16}  {:>9}  below {}",
        format!("{}s", words.tanker),
        "adds",
        "short in",
        "95% sure",
        "min short",
        percent_as_asked(found.target)
    );
    text.push_str(&head);
    text.push('\n');
    for row in &found.rows {
        text.push_str(&line(row));
    }
    let most = found.rows.iter().map(|row| row.runs).max().unwrap_or(0);
    let _ = writeln!(
        text,
        "\nUp to {} runs for each number, as many as it took to be clear; seed {}; the intervals hold \
         for\nthe whole table at once. {FEWER_RUNS}\nbucketline {}.",
        whole(most as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    );
    if found.rows.iter().any(|row| !row.listed) {
        text.push_str("* not in the scenario: one more like the last that is listed.\n");
    }
    if found.stopped_early {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

/// What the number asked for means besides the chance: the drop tanks that stay away, the reserve.
fn with_that_many(row: &FleetRow, plan: &Plan, words: Words) -> String {
    let facts = plan.facts();
    let mut text = String::new();
    let bringers: Vec<&str> = (facts.drop_tanks.iter())
        .filter_map(|tank| match tank.brought {
            Brought::ByTanker(place) if place >= row.tankers => {
                Some(facts.tankers[place].name.as_str())
            }
            _ => None,
        })
        .collect();
    if !bringers.is_empty() {
        let rest = match row.drop_tanks {
            0 => format!("no drop tank comes: the {}s can only nurse the engine", words.tanker),
            1 => "only one drop tank comes".to_owned(),
            more => format!("only {more} drop tanks come"),
        };
        let told = format!(
            "with {} {rest}. {} would bring {} more.",
            words.count(row.tankers),
            bringers.join(" and "),
            if bringers.len() == 1 { "one" } else { "some" },
        );
        text.push_str(&paragraph("Careful", &told));
    }
    if row.reserve_touched > 0.0 && facts.incident.reserve > 0.0 {
        let told = format!(
            "with {} the water kept for backing out is touched in {} of runs.",
            words.count(row.tankers),
            percent(row.reserve_touched, row.runs)
        );
        text.push_str(&paragraph("Reserve", &told));
    }
    text
}

fn first_sentence(found: &SizeAnswer, plan: &Plan, words: Words) -> String {
    let target = percent_as_asked(found.target);
    let listed = plan.facts().tankers.len();
    let mut text = match found.tankers {
        Some(number) => {
            let row = found.rows.iter().find(|row| row.tankers == number);
            let chance = row.map_or_else(String::new, |row| {
                format!(
                    " ({}, at most {})",
                    percent(row.interruption_probability, row.runs),
                    percent(row.high, row.runs)
                )
            });
            let beyond = if number > listed {
                format!(" The scenario lists only {listed}.")
            } else {
                String::new()
            };
            format!(
                "Ask for {}: the chance that the attack lines run short is then below {target} with \
                 95% confidence{chance}.{beyond}",
                words.count(number)
            )
        }
        None if found.stopped_early => "Ended before it was clear.".to_owned(),
        None if found.perhaps.is_some() => format!(
            "Not clear from this many runs: no number of {}s tried is surely below {target}.",
            words.tanker
        ),
        None => format!(
            "No number of {}s, up to {}, brings the chance that the attack lines run short below \
             {target}.",
            words.tanker,
            found.rows.len()
        ),
    };
    if let Some(perhaps) = found.perhaps {
        let _ = write!(
            text,
            " With {} it is too close to {target} to tell; more runs (--runs) would show.",
            words.count(perhaps)
        );
    }
    wrapped(&text)
}

/// Why the best number tried still fails, and what that calls for.
fn held_back(found: &SizeAnswer, plan: &Plan, words: Words) -> String {
    let facts = plan.facts();
    let asks_late = facts.tankers.iter().any(|tanker| tanker.call.requested_at > 0.0);
    let told = found.held_back_by.iter().take(3).filter(|(_, share)| *share >= 0.05);
    let told: Vec<String> = told
        .filter_map(|(key, share)| {
            let cause = Cause::ALL.into_iter().find(|cause| cause.key() == *key)?;
            let cure = match cause {
                Cause::NotCome if asks_late => "ask earlier, or for aid that is nearer",
                Cause::NotCome => "aid that is nearer, or a lower flow until it is there",
                Cause::PumpFailed => "a second pump that can draft",
                Cause::DraftOrLayTooSmall => {
                    "a bigger pump, a shorter lift, a larger or second line"
                }
                Cause::DraftNotUp if facts.supply.nurse => "a quicker hook-up, or a second intake",
                Cause::DraftNotUp => "a quicker hook-up, or nurse until then",
                Cause::PrimeLost => "a pump operator who gates down before prime is lost",
                Cause::SourceNotReady => "a source that is ready sooner and does not run down",
                Cause::FillSiteQueue => "more fill positions or flow, or a second fill site",
                Cause::DumpSiteQueue if facts.drop_tanks.is_empty() => "a drop tank",
                Cause::DumpSiteQueue => "another dump position or drop tank",
                Cause::OutOfService => "a spare",
                Cause::HaulTooLong => "a nearer fill site or bigger loads",
            };
            Some(format!("{} ({:.0}%): {cure}", words.put(cause.words()), 100.0 * share))
        })
        .collect();
    format!("{}.", told.join("; "))
}

/// The bottleneck where no number of tankers is enough: a cap below the flow wanted, or hardly above it.
fn tightest_cap(found: &SizeAnswer, plan: &Plan, units: Units, words: Words) -> Option<String> {
    if found.tankers.is_some() {
        return None;
    }
    let sheet = worksheet(plan);
    let (place, gpm) = sheet.tightest?;
    let wants = units.gpm(sheet.peak_flow_gpm);
    let tankers = format!("{}s", words.tanker);
    let more = 100.0 * (gpm / sheet.peak_flow_gpm - 1.0);
    let against = match more {
        less if less < 0.0 => {
            format!("less than the {wants} wanted: more {tankers} add only the load they come with")
        }
        slack if slack < LITTLE_SLACK => {
            format!(
                "{slack:.0}% more than the {wants} wanted: what is lost once is hardly made good"
            )
        }
        _ => return None,
    };
    Some(format!("{} through {place}, by hand; {against}.", units.gpm(gpm)))
}

fn line(row: &FleetRow) -> String {
    let star = if row.listed { ' ' } else { '*' };
    let adds: String = row.adds.chars().take(25).collect();
    if row.verdict == Verdict::CannotWork {
        return format!(
            "{:>8}  {adds:<26} cannot work: no drop tank comes, and nursing is not allowed\n",
            row.tankers
        );
    }
    let verdict = match row.verdict {
        Verdict::Below => "yes",
        Verdict::Above => "no",
        Verdict::NotClear => "not clear",
        Verdict::CannotWork => "",
    };
    let range = format!(
        "{} to {}",
        percent(row.low, row.runs).trim_end_matches('%'),
        percent(row.high, row.runs)
    );
    let line = format!(
        "{:>7}{star}  {adds:<26} {:>9}  {range:>16}  {:>9}  {verdict:<10}",
        row.tankers,
        percent(row.interruption_probability, row.runs),
        minutes(row.interrupted_minutes_mean),
    );
    format!("{}\n", line.trim_end())
}
