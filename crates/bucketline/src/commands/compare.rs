//! `compare`: options side by side.

use std::fmt::Write;

use serde::Serialize;
use shuttle_report::chart::differences::{self, Line, Mark, Point};
use shuttle_report::options_compared::{Apart, Choice, Comparison, Row, Verdict, compare};
use shuttle_report::units::{Units, fires, percent, whole};

use super::{CAUTION, Charts, headline, points, points_range, signed};
use crate::arguments::CompareArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{Words, paragraph, print, wrapped};
use crate::scenario_file::{self, Scenario};
use crate::watching::{control, with_progress};

/// What the plan without options is called.
const AS_IT_STANDS: &str = "as it stands";

#[derive(Serialize)]
struct Json<'a> {
    #[serde(flatten)]
    found: &'a Comparison,
    version: &'static str,
}

/// Runs the command.
pub fn run(arguments: &CompareArguments) -> Result<Exit, Failure> {
    let mut scenarios = Vec::new();
    for file in &arguments.files {
        scenarios.push(scenario_file::load(file)?);
    }
    let choices = choices(&scenarios);
    let Some(base) = scenarios.first().filter(|_| choices.len() > 1) else {
        return Err(Failure::NothingToCompare { path: arguments.files[0].clone() });
    };
    let control = control();
    let expected = arguments.batch.runs * choices.len() as u64;
    let found = with_progress(&control, expected, || {
        compare(&choices, arguments.batch.runs, arguments.batch.same_luck(), &control)
    });
    let charts = Charts::new(&arguments.charts, arguments.json, &found.title);
    if let Some(charts) = charts.as_ref().filter(|_| found.runs > 0) {
        charts.write("options", &chart(&found)?)?;
    }
    if arguments.json {
        let json = Json { found: &found, version: env!("CARGO_PKG_VERSION") };
        let mut text = serde_json::to_string_pretty(&json).unwrap_or_default();
        text.push('\n');
        print(&text)?;
    } else {
        let words = Words::new(arguments.tender);
        let mut text = headline(&base.plan, base.units, words);
        text.push('\n');
        text.push_str(&answer(&found, base.units));
        if let Some(charts) = charts.filter(|_| found.runs > 0) {
            let _ = writeln!(text, "Charts: {}", charts.folder());
        }
        let _ = writeln!(text, "{CAUTION}");
        print(&text)?;
    }
    Ok(if found.stopped_early { Exit::EndedEarly } else { Exit::Answered })
}

/// One file: itself and its options. Several: each as it stands.
fn choices(scenarios: &[Scenario]) -> Vec<Choice<'_>> {
    match scenarios {
        [only] => {
            let base = Choice { name: AS_IT_STANDS.to_owned(), cost: None, plan: &only.plan };
            let options = only.options.iter().map(|option| Choice {
                name: option.name.clone(),
                cost: option.cost,
                plan: &option.plan,
            });
            [base].into_iter().chain(options).collect()
        }
        several => (several.iter())
            .map(|scenario| Choice {
                name: scenario.plan.facts().title.clone(),
                cost: None,
                plan: &scenario.plan,
            })
            .collect(),
    }
}

fn chart(found: &Comparison) -> Result<String, shuttle_report::chart::ChartError> {
    let lines: Vec<Line> = (found.rows.iter())
        .filter_map(|row| {
            let apart = row.differences.as_ref()?.interruption_probability;
            Some(Line {
                label: row.name.clone(),
                points: vec![point(&apart, Mark::First)],
                note: percent(row.interruption_probability, found.runs),
            })
        })
        .collect();
    let base = found.rows.first().map_or(0.0, |row| row.interruption_probability);
    differences::chart(
        &lines,
        differences::Words {
            measure: differences::Measure::Chance,
            title: &found.title,
            shows: &format!(
                "How each option changes the chance that the attack lines run short, which is {} as it \
                 stands. Marks: the difference on the same luck. Whiskers: its 95% interval.",
                percent(base, found.runs)
            ),
            marks: ["option", ""],
            notes: "short in",
            made_from: &format!(
                "{} runs of each, seed {}, the same luck for all.",
                whole(found.runs as f64),
                found.seed
            ),
        },
    )
}

/// A difference as a chart has it.
pub fn point(apart: &Apart, mark: Mark) -> Point {
    Point { by: apart.by, low: apart.ci_low, high: apart.ci_high, mark }
}

fn answer(found: &Comparison, units: Units) -> String {
    if found.runs == 0 {
        return "Ended before the first simulated fires were done: nothing to say.\n".to_owned();
    }
    let mut text = wrapped(&first_sentence(found));
    text.push('\n');
    for (label, told) in [
        ("As good", as_good(found)),
        ("Not clear", named(found, Verdict::NotToldApart, NOT_TOLD_APART)),
        (
            "Minutes",
            named(
                found,
                Verdict::FewerMinutes,
                "the chance cannot be told apart, but there are surely fewer minutes short",
            ),
        ),
        (
            "",
            named(
                found,
                Verdict::MoreMinutes,
                "the chance cannot be told apart, but there are surely more minutes short",
            ),
        ),
        ("Worse", named(found, Verdict::HigherChance, "the chance is surely higher")),
    ] {
        if let Some(told) = told {
            text.push_str(&paragraph(label, &told));
        }
    }
    text.push_str(&costs(found));
    if !text.ends_with("\n\n") {
        text.push('\n');
    }
    let _ = writeln!(
        text,
        "{:<22} {:>15} {:>15} {:>14} {:>15} {:>13}",
        "",
        "short in",
        "reserve used",
        "min short",
        format!("engine low, {}", units.volume_sign()),
        format!("flow, {}", units.flow_sign())
    );
    for row in &found.rows {
        text.push_str(&table(row, found.runs, units));
    }
    text.push('\n');
    text.push_str(&wrapped(&format!(
        "{} runs of each on the same luck, seed {}, bucketline {}. Differences: the option less the \
         first line; chances in percentage points; below them their 95% intervals. Verdicts hold for all \
         options at once. Engine low: lowest level of its tank, mean. Flow: delivered over the watch.",
        whole(found.runs as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    )));
    if found.stopped_early {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

const NOT_TOLD_APART: &str = "no difference from the plan as it stands that this many runs show";

fn first_sentence(found: &Comparison) -> String {
    let base = &found.rows[0];
    let now = percent(base.interruption_probability, found.runs);
    let Some(best) = found.best.map(|best| &found.rows[best]) else {
        let what = match found.rows.len() - 1 {
            1 => "The option does not surely lower".to_owned(),
            several => format!("None of the {several} options surely lowers"),
        };
        return format!("{what} the chance that the attack lines run short, {now} as it stands.");
    };
    let hits = (best.interruption_probability * found.runs as f64).round() as u64;
    let apart = best.differences.as_ref().map(|one| one.interruption_probability);
    let range = apart.map_or_else(String::new, |apart| {
        let width = apart.ci_high - apart.ci_low;
        let less = |by: f64| points(-by, width).trim_start_matches('+').to_owned();
        format!(
            " {} percentage points less; 95% sure: {} to {}.",
            less(apart.by),
            less(apart.ci_high),
            less(apart.ci_low)
        )
    });
    format!(
        "Helps most: {}. The attack lines then run short {}, {} instead of {now}:{range}",
        best.name,
        fires(hits, found.runs),
        percent(best.interruption_probability, found.runs)
    )
}

fn listed(names: &[&str]) -> String {
    names.join("; ")
}

fn as_good(found: &Comparison) -> Option<String> {
    let names: Vec<&str> =
        found.as_good_as_best.iter().map(|place| found.rows[*place].name.as_str()).collect();
    let best = &found.rows[found.best?].name;
    (!names.is_empty()).then(|| {
        format!("{}: cannot be told apart from \"{best}\" by this many runs.", listed(&names))
    })
}

fn named(found: &Comparison, verdict: Verdict, told: &str) -> Option<String> {
    let names: Vec<&str> = (found.rows.iter())
        .filter(|row| row.verdict == Some(verdict))
        .map(|row| row.name.as_str())
        .collect();
    (!names.is_empty()).then(|| format!("{}: {told}.", listed(&names)))
}

/// What a percentage point costs, and what is worth having.
fn costs(found: &Comparison) -> String {
    let mut text = String::new();
    let mut priced: Vec<(&Row, f64)> =
        found.rows.iter().filter_map(|row| Some((row, row.cost_of_a_point?))).collect();
    priced.sort_by(|a, b| a.1.total_cmp(&b.1));
    for (place, (row, price)) in priced.iter().enumerate() {
        let label = if place == 0 { "Cost" } else { "" };
        let told = format!(
            "{}: {} in all, {} for each percentage point of risk less.",
            row.name,
            whole(row.cost.unwrap_or(0.0)),
            two_figures(*price)
        );
        text.push_str(&paragraph(label, &told));
    }
    let worth: Vec<&str> = (found.rows.iter())
        .filter(|row| row.worth_having == Some(true))
        .map(|row| row.name.as_str())
        .collect();
    if !worth.is_empty() {
        let told = format!(
            "{}. Whatever else there is costs as much as one of these, or more, and is not surely better.",
            listed(&worth)
        );
        text.push_str(&paragraph("Worth it", &told));
    }
    text
}

/// Money with no more digits than a difference of runs supports.
fn two_figures(price: f64) -> String {
    if price < 1.0 {
        return format!("{price:.2}");
    }
    let step = 10f64.powf(price.log10().floor() - 1.0);
    whole((price / step).round() * step)
}

fn table(row: &Row, runs: u64, units: Units) -> String {
    let name = textwrap::wrap(&row.name, 22);
    let mut lines = vec![[
        percent(row.interruption_probability, runs),
        percent(row.reserve_touched, runs),
        format!("{:.2}", row.interrupted_minutes_mean),
        whole(units.volume(row.lowest_engine_gal_mean)),
        whole(units.flow(row.flow_gpm_mean)),
    ]];
    if let Some(apart) = &row.differences {
        let chances = [&apart.interruption_probability, &apart.reserve_touched];
        let minutes = apart.interrupted_minutes_mean.as_ref();
        let volume = |value: f64| units.volume(value);
        let level = apart.lowest_engine_gal_mean.as_ref();
        let flow = apart.flow_gpm_mean.as_ref();
        let by = |one: Option<&Apart>, scale: &dyn Fn(f64) -> f64, digits| {
            one.map_or_else(|| "-".to_owned(), |one| signed(scale(one.by), digits))
        };
        let range = |one: Option<&Apart>, scale: &dyn Fn(f64) -> f64, digits| {
            one.map_or_else(String::new, |one| {
                let (low, high) = (scale(one.ci_low), scale(one.ci_high));
                format!("{} to {}", signed(low, digits), signed(high, digits))
            })
        };
        let own = |value: f64| value;
        let difference = |one: &Apart| points(one.by, one.ci_high - one.ci_low);
        lines.push([
            difference(chances[0]),
            difference(chances[1]),
            by(minutes, &own, minute_digits(minutes)),
            by(level, &volume, 0),
            by(flow, &volume, digits_of(flow, units)),
        ]);
        lines.push([
            points_range(chances[0]),
            points_range(chances[1]),
            range(minutes, &own, minute_digits(minutes)),
            range(level, &volume, 0),
            range(flow, &volume, digits_of(flow, units)),
        ]);
    }
    let mut text = String::new();
    for place in 0..lines.len().max(name.len()) {
        let left = name.get(place).map_or("", |part| part.as_ref());
        let empty = <[String; 5]>::default();
        let [a, b, c, d, e] = lines.get(place).unwrap_or(&empty);
        let line = format!("{left:<22} {a:>15} {b:>15} {c:>14} {d:>15} {e:>13}");
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// Small differences of the flow need a digit more.
fn digits_of(flow: Option<&Apart>, units: Units) -> usize {
    let is_small = |flow: &Apart| {
        units.flow(flow.ci_high - flow.ci_low) < 2.0 && units.flow(flow.by.abs()) < 50.0
    };
    flow.map_or(0, |flow| usize::from(is_small(flow)))
}

/// Minutes to a hundredth where there are only a few.
fn minute_digits(minutes: Option<&Apart>) -> usize {
    minutes.map_or(
        2,
        |minutes| if minutes.ci_low.abs().max(minutes.ci_high.abs()) < 9.0 { 2 } else { 1 },
    )
}
