//! `risk`: the chance that the attack lines lose water, why, and what would help.

use std::fmt::Write;

use serde::Serialize;
use shuttle_report::batch::Control;
use shuttle_report::changes::common_changes::common_changes;
use shuttle_report::chart;
use shuttle_report::summary::{Chance, Summary};
use shuttle_report::units::{
    Units, fires, minutes, percent, percent_at_least, percent_at_most, whole,
};
use shuttle_report::what_would_help::{Help, risk};
use shuttle_sim::{Cause, Part, Plan};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::changes_in_words;
use crate::answers::charts::Charts;
use crate::answers::closing::{print_answer, warnings};
use crate::answers::figures::headline;
use crate::arguments::RiskArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;
use crate::progress::{control, with_progress};
use scenario_file::{self, Scenario};

/// Everything `--json` prints.
#[derive(Serialize)]
struct Json<'a> {
    #[serde(flatten)]
    summary: &'a Summary,
    would_help: &'a [Help],
    warnings: Vec<String>,
    ended_early: bool,
    version: &'static str,
}

/// Runs the command.
pub fn run(arguments: &RiskArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    let plan = &scenario.plan;
    let control = control();
    let batch = &arguments.batch;
    let changes =
        if arguments.no_help { 0 } else { common_changes(plan, scenario.units).len() as u64 };
    // A change takes about so many.
    let expected = batch.runs + changes * batch.runs.min(1_000);
    let found = with_progress(&control, expected, || {
        let luck = batch.same_luck();
        risk(plan, scenario.units, !arguments.no_help, batch.runs, luck, &control)
    });
    let (summary, helps, ended_early) = (found.summary, found.helps, found.ended_early);
    let charts = Charts::new(&arguments.charts, arguments.scenario.json, &summary.title);
    if let Some(charts) = &charts {
        write_charts(charts, &summary, plan, scenario.units)?;
    }
    if arguments.scenario.json {
        let json = Json {
            summary: &summary,
            would_help: &helps,
            warnings: scenario.warnings.iter().map(ToString::to_string).collect(),
            ended_early,
            version: env!("CARGO_PKG_VERSION"),
        };
        print_json(&json)?;
    } else {
        let words = Words::new(arguments.scenario.tender);
        let text = answer(&scenario, &summary, (changes > 0, &helps), words, &control);
        print_answer(text, charts.as_ref())?;
    }
    Ok(if ended_early { Exit::EndedEarly } else { Exit::Answered })
}

fn write_charts(
    charts: &Charts,
    summary: &Summary,
    plan: &Plan,
    units: Units,
) -> Result<(), Failure> {
    charts.write("levels", &chart::levels::chart(summary, plan, units)?)?;
    charts.write("first-short-of-water", &chart::first_interruption::chart(summary, plan)?)?;
    charts.write("short-of-water-by-minute", &chart::chance_by_minute::chart(summary, plan)?)?;
    charts.write("cycle", &chart::cycle::chart(summary, plan)?)
}

fn answer(
    scenario: &Scenario,
    summary: &Summary,
    (tried, helps): (bool, &[Help]),
    words: Words,
    control: &Control,
) -> String {
    let units = scenario.units;
    let mut text = headline(&scenario.plan, units, words);
    text.push('\n');
    if summary.replications == 0 {
        text.push_str("Ended before the first simulated fires were done: nothing to say.\n");
        return text;
    }
    text.push_str(&first_sentence(summary));
    text.push('\n');
    text.push_str(&paragraph("Why", &why(summary, scenario, words)));
    match helps {
        [] if tried && summary.interruption_probability > 0.0 && !control.is_stopped() => {
            text.push_str(&paragraph("Would help", &no_single_change(scenario, words)));
        }
        helps => text.push_str(&would_help(summary, helps, units, words)),
    }
    text.push_str(&reserve(summary, scenario));
    if let Some(run) = summary.worst_run {
        let seed =
            if summary.seed == 1 { String::new() } else { format!(" --seed {}", summary.seed) };
        let told = format!(
            "the worst of these fires, minute by minute: `bucketline replay {} --run {run}{seed}`",
            scenario.path.display()
        );
        text.push_str(&paragraph("To see one", &told));
    }
    text.push('\n');
    text.push_str(&figures(summary, scenario));
    text.push('\n');
    text.push_str(&cycle(summary));
    text.push_str(&busy(summary));
    let oddities = warnings(&scenario.warnings);
    if !oddities.is_empty() {
        let _ = write!(text, "\n{oddities}");
    }
    let _ = writeln!(
        text,
        "\n{} runs, seed {}, bucketline {}. Times count from first water unless said otherwise.",
        whole(summary.replications as f64),
        summary.seed,
        env!("CARGO_PKG_VERSION")
    );
    if control.is_stopped() {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

fn first_sentence(summary: &Summary) -> String {
    let runs = summary.replications;
    let hits = (summary.interruption_probability * runs as f64).round() as u64;
    if hits == runs {
        return wrapped(&format!(
            "The attack lines run short {} (95% sure: in at least {}).",
            fires(hits, runs),
            percent_at_least(summary.ci_low, runs)
        ));
    }
    if hits == 0 {
        return wrapped(&format!(
            "The attack lines kept their flow {} (95% sure: short in at most {}).",
            fires(runs, runs).replace("in every one", "in all"),
            percent_at_most(summary.ci_high, runs)
        ));
    }
    wrapped(&format!(
        "The attack lines run short {} ({}; 95% sure: {}).",
        fires(hits, runs),
        percent(summary.interruption_probability, runs),
        interval(summary.ci_low, summary.ci_high, runs)
    ))
}

/// "16.7 to 17.7%".
fn interval(low: f64, high: f64, runs: u64) -> String {
    let low = percent(low, runs);
    format!("{} to {}", low.trim_end_matches('%'), percent(high, runs))
}

fn why(summary: &Summary, scenario: &Scenario, words: Words) -> String {
    let runs = summary.replications;
    let Some(first) = summary.first_interruption_min else {
        let gal = |gallons| scenario.units.gallons(gallons);
        return format!(
            "In no run did the flow fall short long enough to count. The attack engine's tank never \
             had less than {} in 95% of runs.",
            gal(summary.lowest_engine_gal.worst_5_percent.unwrap_or(0.0))
        );
    };
    let mut sentences = Vec::new();
    let both =
        [summary.before_supply, summary.after_supply].map(|chance: Chance| chance.probability);
    sentences.push(match both {
        [before, 0.0] if before > 0.0 => {
            "Every break begins before the supply is established.".to_owned()
        }
        [0.0, _] => "Every break begins after the supply is established.".to_owned(),
        [before, after] => format!(
            "Before the supply is established the lines run short in {} of fires, after it in {}.",
            percent(before, runs),
            percent(after, runs)
        ),
    });
    if summary.established_share < 0.9995 {
        sentences.push(format!(
            "In {} of fires the supply is never established within the watch.",
            percent(1.0 - summary.established_share, runs)
        ));
    }
    sentences.push(format!(
        "The first break comes {} minutes after first water on average.",
        minutes(first.mean)
    ));
    sentences.push(format!("At that moment {}.", causes(summary, words)));
    sentences.join(" ")
}

/// "aid was still on the road (64 of 100), tankers queued at the fill site (20)".
fn causes(summary: &Summary, words: Words) -> String {
    let mut shares: Vec<(Cause, f64)> = (Cause::ALL.into_iter())
        .filter_map(|cause| Some((cause, *summary.causes.get(cause.key())?)))
        .collect();
    shares.sort_by(|a, b| b.1.total_cmp(&a.1));
    let told = shares.iter().take_while(|(_, share)| *share >= 0.05).take(3);
    let told: Vec<String> = told
        .map(|(cause, share)| {
            let ours = words.put(cause.words());
            if *share > 0.995 { ours } else { format!("{ours} ({:.0}%)", 100.0 * share) }
        })
        .collect();
    match told.as_slice() {
        [] => "no one cause stands out".to_owned(),
        [only] => only.clone(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

fn no_single_change(scenario: &Scenario, words: Words) -> String {
    format!(
        "no single change that was tried brings the chance down clearly. `bucketline size {}` tells how \
         many {}s it takes.",
        scenario.path.display(),
        words.tanker
    )
}

fn would_help(summary: &Summary, helps: &[Help], units: Units, words: Words) -> String {
    let runs = summary.replications;
    let mut text = String::new();
    for (place, help) in helps.iter().enumerate() {
        let label = if place == 0 { "Would help" } else { "" };
        let change = format!("{}:", changes_in_words::change(&help.change, units, words));
        let _ = writeln!(
            text,
            "{label:<13}{change:<62} {:>6} -> {}",
            percent(summary.interruption_probability, runs),
            percent(help.interruption_probability, help.replications)
        );
    }
    text
}

fn reserve(summary: &Summary, scenario: &Scenario) -> String {
    let reserve = scenario.plan.facts().incident.reserve;
    if reserve <= 0.0 {
        return String::new();
    }
    let touched = summary.reserve_touched;
    paragraph(
        "Reserve",
        &format!(
            "the {} for backing out is touched in {} of runs.",
            scenario.units.gallons(reserve),
            percent(touched.probability, summary.replications)
        ),
    )
}

fn figures(summary: &Summary, scenario: &Scenario) -> String {
    let units = scenario.units;
    let volume = |gallons: f64| whole(units.volume(gallons));
    let sign = units.volume_sign();
    let mut text = format!("{:<26}{:>10}   {:>10}\n", "", "mean", "worst 5%");
    let mut line = |label: &str, mean: String, worst: String, note: String| {
        let line = format!("{label:<26}{mean:>10}   {worst:>10}   {note}");
        text.push_str(line.trim_end());
        text.push('\n');
    };
    if let Some(first) = summary.first_interruption_min {
        let worst = first.worst_5_percent.map_or_else(String::new, minutes);
        line(
            "first short of water",
            minutes(first.mean),
            worst,
            "min, of runs that run short".into(),
        );
    }
    line(
        "minutes short",
        format!("{:.2}", summary.interrupted_minutes_mean),
        summary.interrupted_minutes_worst_5_percent.map_or_else(String::new, minutes),
        format!("min, mean +/- {:.2}", 1.96 * summary.interrupted_minutes_se),
    );
    if let Some(lowest) = summary.lowest_drop_tank_gal {
        let unusable = scenario.plan.facts().drop_tanks.first().map_or(0.0, |tank| tank.unusable);
        line(
            "first drop tank, lowest",
            volume(lowest.mean),
            lowest.worst_5_percent.map_or_else(String::new, volume),
            format!("{sign}, unusable below {}", volume(unusable)),
        );
    }
    line(
        "attack engine, lowest",
        volume(summary.lowest_engine_gal.mean),
        summary.lowest_engine_gal.worst_5_percent.map_or_else(String::new, volume),
        format!("{sign} of {}", volume(scenario.plan.facts().attack_engine.tank)),
    );
    line(
        "water delivered",
        volume(summary.delivered_gal_mean),
        summary.delivered_gal_worst_5_percent.map_or_else(String::new, volume),
        format!("{sign} of {} wanted", volume(summary.wanted_gal)),
    );
    if let Some(established) = summary.established_min_mean {
        let after_alarm = minutes(established);
        let nursing_only = scenario.plan.facts().drop_tanks.is_empty();
        let what = if nursing_only { "first nurse connected" } else { "the pump first draws" };
        let note = format!("min after the alarm: {what}");
        line("supply established", after_alarm, String::new(), note);
    }
    text
}

fn cycle(summary: &Summary) -> String {
    let Some(total) = summary.cycle_minutes() else {
        return paragraph("A cycle", "no tanker came back for a second load within the watch.");
    };
    let parts: Vec<String> = (Part::ALL.iter())
        .filter_map(|part| {
            let mean = *summary.cycle_min.get(part.key())?;
            (mean >= 0.05).then(|| format!("{} {}", part.words(), minutes(mean)))
        })
        .collect();
    paragraph("A cycle", &format!("{} = {} min", parts.join(" · "), minutes(total)))
}

fn busy(summary: &Summary) -> String {
    let share = |share: f64| format!("{:.0}%", 100.0 * share);
    let mut parts: Vec<String> = (summary.busy.fill_positions.iter())
        .map(|(site, busy)| format!("fill positions at {site} {}", share(*busy)))
        .collect();
    for (place, busy) in summary.busy.dump_positions.iter().enumerate() {
        parts.push(format!("dump positions at drop tank {} {}", place + 1, share(*busy)));
    }
    if summary.busy.intakes > 0.0 {
        parts.push(format!("engine intakes {}", share(summary.busy.intakes)));
    }
    paragraph("Busy", &format!("{} of the time watched", parts.join(" · ")))
}
