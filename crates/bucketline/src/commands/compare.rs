//! `compare`: options side by side.

use std::fmt::Write;
use std::path::PathBuf;

use serde::Serialize;
use shuttle_report::chart::differences::{self, Line, Mark};
use shuttle_report::options_compared::{Choice, Comparison, Row, Verdict, compare};
use shuttle_report::units::{Units, fires, percent, percent_digits, percent_to, whole};
use shuttle_sim::Plan;

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::charts::{Charts, point};
use crate::answers::closing::{FEWER_RUNS, Versioned, exit, print_answer};
use crate::answers::compare_table::table;
use crate::answers::figures::{headline, points};
use crate::answers::unlike_fires::unlike_fires;
use crate::arguments::CompareArguments;
use crate::asking;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;
use crate::progress::{control, with_progress};
use scenario_file::{self, Scenario, Warning};

/// What the plan without options is called.
const AS_IT_STANDS: &str = "as it stands";

/// What `--json` prints.
#[derive(Serialize)]
struct Json<'a> {
    #[serde(flatten)]
    found: &'a Comparison,
    warnings: Vec<String>,
}

/// Runs the command.
pub fn run(arguments: &CompareArguments) -> Result<Exit, Failure> {
    let mut scenarios = Vec::new();
    for file in &arguments.files {
        scenarios.push(asking::load(file)?);
    }
    let choices = choices(&scenarios);
    let Some(base) = scenarios.first().filter(|_| choices.len() > 1) else {
        return Err(Failure::NothingToCompare { path: arguments.files[0].clone() });
    };
    let plans: Vec<&Plan> = scenarios.iter().map(|scenario| &scenario.plan).collect();
    let unlike = unlike_fires(&plans, base.units);
    let odd: Vec<String> = if arguments.showing.json {
        oddities(&scenarios, &arguments.files, |file, warning| format!("{file}{warning}"))
    } else {
        oddities(&scenarios, &arguments.files, |file, one| {
            format!("{file} {}", one.in_words()).trim_start().to_owned()
        })
    };
    let control = control();
    let expected = arguments.batch.runs * choices.len() as u64;
    let found = with_progress(&control, expected, || {
        compare(&choices, arguments.batch.runs, arguments.batch.same_luck(), &control)
    });
    let charts = Charts::new(&arguments.charts, arguments.showing.json, &found.title);
    if let Some(charts) = charts.as_ref().filter(|_| found.runs > 0) {
        charts.write("options", &chart(&found)?)?;
    }
    if arguments.showing.json {
        let json = Json { found: &found, warnings: unlike.into_iter().chain(odd).collect() };
        print_json(&Versioned::of(&json))?;
    } else {
        let words = Words::new(arguments.showing.tender);
        let mut text = headline(&base.plan, base.units, words);
        text.push('\n');
        text.push_str(&answer(&found, unlike.as_deref(), &odd, base.units));
        print_answer(text, charts.filter(|_| found.runs > 0).as_ref())?;
    }
    Ok(exit(found.stopped_early))
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

/// What is odd with an option and not without it; where several files are compared, what is odd with each.
fn oddities(
    scenarios: &[Scenario],
    files: &[PathBuf],
    told: impl Fn(&str, &Warning) -> String,
) -> Vec<String> {
    match scenarios {
        [only] => (only.options.iter())
            .flat_map(|option| option.warnings.iter().map(|warning| told("", warning)))
            .collect(),
        several => (several.iter().zip(files))
            .flat_map(|(scenario, file)| {
                let file = format!("{}:", file.display());
                let told = &told;
                scenario.warnings.iter().map(move |warning| told(&file, warning))
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

fn answer(found: &Comparison, unlike: Option<&str>, odd: &[String], units: Units) -> String {
    if found.runs == 0 {
        return "Ended before the first simulated fires were done: nothing to say.\n".to_owned();
    }
    let mut text = String::new();
    if let Some(buy) = what_to_buy(found) {
        text.push_str(&wrapped(&buy));
    }
    let first = first_sentence(found);
    text.push_str(&wrapped(&match unlike {
        Some(unlike) => format!("{first} {unlike}"),
        None => first,
    }));
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
        // The first sentence already covers a single option that is worse.
        if let Some(told) = told.filter(|_| label != "Worse" || found.rows.len() > 2) {
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
        text.push_str(&table(row, found.runs, digits_of_chances(found), units));
    }
    text.push('\n');
    if !odd.is_empty() {
        let odd: String = odd.iter().map(|one| paragraph("Note", one)).collect();
        let _ = writeln!(text, "{odd}");
    }
    text.push_str(&wrapped(&format!(
        "{} runs of each on the same luck, seed {}, bucketline {}. Differences: the option less the \
         first line; chances in percentage points; below them their 95% intervals. Verdicts hold for all \
         options at once. Engine low: lowest level of its tank, mean. Flow: delivered over the watch. \
         {FEWER_RUNS}",
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
    let digits = digits_of_chances(found);
    let hits = |row: &Row| (row.interruption_probability * found.runs as f64).round() as u64;
    let told = match (found.best.map(|best| &found.rows[best]), &found.rows[1..]) {
        (Some(best), _) => format!(
            "Helps most: {}. The attack lines then run short {}, {}",
            best.name,
            fires(hits(best), found.runs),
            instead(best, base, digits)
        ),
        (None, [only]) if only.verdict == Some(Verdict::HigherChance) => format!(
            "Worse: {}. The attack lines then run short {}, {}",
            only.name,
            fires(hits(only), found.runs),
            instead(only, base, digits)
        ),
        (None, options) => {
            let what = match options.len() {
                1 => "The option does not surely lower".to_owned(),
                several => format!("None of the {several} options surely lowers"),
            };
            let now = percent_to(base.interruption_probability, digits);
            format!("{what} the chance that the attack lines run short, {now} as it stands.")
        }
    };
    match none_saves(found) {
        Some(warning) => format!("{warning} {told}"),
        None => told,
    }
}

/// The opening where the plan fails more often than it holds under every option.
fn none_saves(found: &Comparison) -> Option<&'static str> {
    let fails = found.rows.iter().all(|row| row.interruption_probability > 0.5);
    fails.then_some("None of these saves the plan: it fails more often than it holds with each.")
}

/// "3.4% instead of 4.3%: 0.9 percentage points less; 95% sure: 0.4 to 1.4."
fn instead(row: &Row, base: &Row, digits: usize) -> String {
    let shown = |row: &Row| percent_to(row.interruption_probability, digits);
    let figures = format!("{} instead of {}", shown(row), shown(base));
    let Some(apart) = row.differences.as_ref().map(|one| one.interruption_probability) else {
        return format!("{figures}.");
    };
    let width = apart.ci_high - apart.ci_low;
    let sign = if apart.by < 0.0 { -1.0 } else { 1.0 };
    let size = |by: f64| points(sign * by, width).trim_start_matches('+').to_owned();
    let ends =
        if sign < 0.0 { [apart.ci_high, apart.ci_low] } else { [apart.ci_low, apart.ci_high] };
    let number = |row: &Row| shown(row).trim_end_matches('%').parse::<f64>().ok();
    // Figures and difference are rounded separately; a reader who subtracts is told so.
    let adds_up = match (number(row), number(base), size(apart.by).parse::<f64>()) {
        (Some(with), Some(without), Ok(by)) => (sign * (with - without) - by).abs() < 1e-6,
        _ => false,
    };
    format!(
        "{figures}: {}{} percentage points {}; 95% sure: {} to {}.",
        if adds_up { "" } else { "about " },
        size(apart.by),
        if sign < 0.0 { "less" } else { "more" },
        size(ends[0]),
        size(ends[1])
    )
}

/// The same number of decimals for every option's chance, so that they can be compared.
fn digits_of_chances(found: &Comparison) -> usize {
    let digits = |row: &Row| percent_digits(row.interruption_probability, found.runs);
    found.rows.iter().map(digits).max().unwrap_or(1)
}

fn listed(names: &[&str]) -> String {
    names.join("; ")
}

fn as_good(found: &Comparison) -> Option<String> {
    // What cannot be told apart from the plan as it stands is listed as such.
    let names: Vec<&str> = (found.as_good_as_best.iter().map(|place| &found.rows[*place]))
        .filter(|row| row.verdict == Some(Verdict::LowerChance))
        .map(|row| row.name.as_str())
        .collect();
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
    let worth: Vec<&str> = worth_having(found).map(|row| row.name.as_str()).collect();
    if !worth.is_empty() && none_saves(found).is_none() {
        let told = format!(
            "{}. Whatever else there is costs as much as one of these, or more, and is not surely better.",
            listed(&worth)
        );
        text.push_str(&paragraph("Worth it", &told));
    }
    text
}

fn worth_having(found: &Comparison) -> impl Iterator<Item = &Row> {
    found.rows.iter().filter(|row| row.worth_having == Some(true))
}

/// The advice in one line, where every cost is known and something saves the plan.
fn what_to_buy(found: &Comparison) -> Option<String> {
    if none_saves(found).is_some() || worth_having(found).next().is_none() {
        return None;
    }
    let is_bought = |row: &Row| row.verdict == Some(Verdict::LowerChance);
    let bought: Vec<&Row> = worth_having(found).filter(|row| is_bought(row)).collect();
    let Some(best) = bought.iter().map(|row| row.interruption_probability).reduce(f64::min) else {
        return Some("Buy: none of these.".to_owned());
    };
    let others =
        || found.rows[1..].iter().filter(|row| !bought.iter().any(|one| one.name == row.name));
    let rest = if others().next().is_none() {
        ""
    } else if others().all(|row| row.interruption_probability >= best) {
        " Not the others."
    } else {
        " The others are not surely better."
    };
    let priced = |row: &&Row| format!("{} ({})", row.name, whole(row.cost.unwrap_or(0.0)));
    Some(match bought.as_slice() {
        [only] => format!("Buy: {}.{rest}", only.name),
        several => {
            let names: Vec<String> = several.iter().map(priced).collect();
            format!("Buy one of: {}; what costs more helps more.{rest}", names.join("; "))
        }
    })
}

/// Money with no more digits than a simulated difference supports.
fn two_figures(price: f64) -> String {
    if price < 1.0 {
        return format!("{price:.2}");
    }
    let step = 10f64.powf(price.log10().floor() - 1.0);
    whole((price / step).round() * step)
}
