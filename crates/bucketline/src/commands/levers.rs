//! `levers`: what one minute or one hundred gpm is worth.

use std::fmt::Write;

use shuttle_report::chart::differences::{self, Line, Mark, Measure};
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved, what_each_is_worth};
use shuttle_report::moved_inputs::{DEMAND, RESERVE, Way, levers};
use shuttle_report::options_compared::Verdict;
use shuttle_report::units::{minutes, percent, whole};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::charts::{Charts, point};
use crate::answers::closing::{FEWER_RUNS, Versioned, exit, print_answer};
use crate::answers::figures::{headline, points, points_range, signed};
use crate::arguments::LeversArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;
use crate::progress::{control, with_progress};

/// Most lines of a chart: the others matter little.
const MOST_LINES: usize = 16;

/// Runs the command.
pub fn run(arguments: &LeversArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    let (plan, units) = (&scenario.plan, scenario.units);
    let control = control();
    let batch = &arguments.batch;
    let expected = batch.runs * (1 + 2 * levers(plan, units).len() as u64);
    let found = with_progress(&control, expected, || {
        what_each_is_worth(plan, units, batch.runs, batch.same_luck(), &control)
    });
    let words = Words::new(arguments.scenario.showing.tender);
    let charts = Charts::new(&arguments.charts, arguments.scenario.showing.json, &found.title);
    if let Some(charts) = charts.as_ref().filter(|_| found.runs > 0) {
        charts.write("levers", &chart(&found, words)?)?;
    }
    if arguments.scenario.showing.json {
        print_json(&Versioned::of(&found))?;
    } else {
        let mut text = headline(plan, units, words);
        text.push('\n');
        text.push_str(&answer(&found, words));
        print_answer(text, charts.filter(|_| found.runs > 0).as_ref())?;
    }
    Ok(exit(found.stopped_early))
}

/// The input in the reader's words; names of fill sites and engines stay as they are.
fn input(row: &LeverRow, words: Words) -> String {
    let mut text = row.input.clone();
    for ours in ["every tanker", "a nurse tanker"] {
        text = text.replace(ours, &words.put(ours));
    }
    text
}

fn moved_words(row: &LeverRow) -> String {
    let amount = &row.amount;
    match (&row.better, &row.worse) {
        (Some(better), Some(worse)) => format!("{amount}{}/{}", way(better), way(worse).trim()),
        (Some(only), None) | (None, Some(only)) => format!("{amount}{}", way(only)),
        (None, None) => amount.clone(),
    }
}

/// " more", " less", or nothing where the amount says all.
fn way(moved: &Moved) -> &'static str {
    match moved.way {
        Way::More => " more",
        Way::Less => " less",
        Way::Instead => "",
    }
}

fn chart(found: &LeverAnswer, words: Words) -> Result<String, shuttle_report::chart::ChartError> {
    // Where the chance stays as it is, the minutes short may still tell.
    let measure = if moves_the_chance(found) { Measure::Chance } else { Measure::MinutesShort };
    let apart = |moved: &Moved| match measure {
        Measure::Chance => Some(moved.higher_by),
        Measure::MinutesShort => moved.more_minutes,
    };
    let lines: Vec<Line> = (found.rows.iter())
        .filter(|row| row.is_clear)
        .take(MOST_LINES)
        .map(|row| {
            // Marked by its effect, not by what was expected.
            let mark = |by: f64| if by <= 0.0 { Mark::First } else { Mark::Second };
            let moved = row.better.iter().chain(&row.worse).filter_map(apart);
            Line {
                label: format!("{} ({})", input(row, words), row.now),
                points: moved.map(|by| point(&by, mark(by.by))).collect(),
                note: row.amount.clone(),
            }
        })
        .collect();
    let what = match measure {
        Measure::Chance => format!(
            "how the chance that the attack lines run short, {} as it stands, changes",
            percent(found.interruption_probability, found.runs)
        ),
        Measure::MinutesShort => format!(
            "how the minutes that the attack lines are short, {} on average as it stands, change",
            minutes(found.interrupted_minutes_mean)
        ),
    };
    let shows = format!(
        "What each input is worth: {what} when it is moved. The inputs that make a clear difference, \
         greatest first, the demand last."
    );
    let made_from = format!(
        "Up to {} runs of each, seed {}, the same luck for all.",
        whole(found.runs as f64),
        found.seed
    );
    differences::chart(
        &lines,
        differences::Words {
            measure,
            title: &found.title,
            shows: &shows,
            marks: ["helps", "hurts"],
            notes: "moved by",
            made_from: &made_from,
        },
    )
}

/// Whether any input significantly changes the chance of an interruption.
fn moves_the_chance(found: &LeverAnswer) -> bool {
    (found.rows.iter())
        .flat_map(|row| row.better.iter().chain(&row.worse))
        .any(|moved| matches!(moved.verdict, Verdict::LowerChance | Verdict::HigherChance))
}

/// The input that shortens the minutes short most, where the chance stays as it is.
fn most_minutes(found: &LeverAnswer, words: Words) -> Option<String> {
    let (row, moved, by) = (found.rows.iter())
        .filter_map(|row| Some((row, row.better.as_ref()?)))
        .filter(|(_, moved)| moved.verdict == Verdict::FewerMinutes)
        .filter_map(|(row, moved)| Some((row, moved, moved.more_minutes?.by)))
        .min_by(|a, b| a.2.total_cmp(&b.2))?;
    let now = found.interrupted_minutes_mean;
    Some(format!(
        " The minutes short do change, most by {} ({}{}): {} -> {} on average.",
        input(row, words),
        row.amount,
        way(moved),
        minutes(now),
        minutes(now + by)
    ))
}

fn answer(found: &LeverAnswer, words: Words) -> String {
    if found.runs == 0 {
        return "Ended before the first simulated fires were done: nothing to say.\n".to_owned();
    }
    let mut text = wrapped(&first_sentence(found, words));
    text.push('\n');
    if let Some(told) = reserve(found) {
        text.push_str(&paragraph("Reserve", &told));
    }
    let unclear: Vec<String> = (found.rows.iter())
        .filter(|row| !row.is_clear && row.input != RESERVE)
        .map(|row| format!("{} ({})", input(row, words), moved_words(row)))
        .collect();
    if !unclear.is_empty() {
        let told =
            format!("no difference that is clear from this many runs: {}.", unclear.join("; "));
        text.push_str(&paragraph("Not clear", &told));
    }
    if !text.ends_with("\n\n") {
        text.push('\n');
    }
    if found.rows.iter().any(|row| row.is_clear) {
        let _ = writeln!(
            text,
            "{:<28} {:>12} {:>19} {:>18} {:>18}",
            "", "now", "moved by", "less, points", "more/other, points"
        );
        for row in found.rows.iter().filter(|row| row.is_clear) {
            text.push_str(&line(row, words));
        }
        text.push('\n');
    }
    text.push_str(&wrapped(&format!(
        "Up to {} runs of each on the same luck, as many as it took to be clear; seed {}. Percentage \
         points of the chance to run short, with their 95% intervals below; minus helps; ! hurts although \
         one would expect help; what is called clear is so for all inputs at once; min: where only the \
         minutes short differ clearly. Times are moved with their spread in proportion. A shorter drive \
         means a nearer fill site, never more speed. {FEWER_RUNS} bucketline {}.",
        whole(found.runs as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    )));
    if found.stopped_early {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

fn first_sentence(found: &LeverAnswer, words: Words) -> String {
    let now = percent(found.interruption_probability, found.runs);
    let moved = |demand: bool| {
        (found.rows.iter())
            .filter(move |row| (row.input == DEMAND) == demand)
            .flat_map(|row| row.better.iter().chain(&row.worse).map(move |moved| (row, moved)))
    };
    // No purchase lowers the demand: it is named only where nothing else is.
    let best = |demand| {
        moved(demand)
            .filter(|(_, moved)| moved.verdict == Verdict::LowerChance)
            .min_by(|a, b| a.1.higher_by.by.total_cmp(&b.1.higher_by.by))
    };
    let worst = |demand| {
        moved(demand)
            .filter(|(_, moved)| moved.verdict == Verdict::HigherChance)
            .max_by(|a, b| a.1.higher_by.by.total_cmp(&b.1.higher_by.by))
    };
    let (best, worst) = (best(false).or_else(|| best(true)), worst(false).or_else(|| worst(true)));
    let told = |(row, moved): (&LeverRow, &Moved)| {
        format!(
            "{} ({}{}): {now} -> {}",
            input(row, words),
            row.amount,
            way(moved),
            percent(moved.interruption_probability, moved.runs)
        )
    };
    match (best, worst) {
        (None, None) => format!(
            "Nothing that was moved changes the chance that the attack lines run short, {now}, by an \
             amount that is clear from this many runs.{}",
            most_minutes(found, words).unwrap_or_default()
        ),
        (Some(best), None) => format!("Worth most: {}.", told(best)),
        (None, Some(worst)) => {
            format!("Nothing surely helps. What hurts most: {}.", told(worst))
        }
        (Some(best), Some(worst)) => {
            format!("Worth most: {}. What hurts most: {}.", told(best), told(worst))
        }
    }
}

/// What another reserve would mean: it moves no water.
fn reserve(found: &LeverAnswer) -> Option<String> {
    let row = found.rows.iter().find(|row| row.input == RESERVE)?;
    let touched =
        |moved: &Moved| percent(found.reserve_touched + moved.reserve_touched_by.by, moved.runs);
    let mut text = format!(
        "the {} for backing out is touched in {} of runs",
        row.now,
        percent(found.reserve_touched, found.runs)
    );
    if let Some(less) = &row.better {
        let _ = write!(text, "; {} less would be in {}", row.amount, touched(less));
    }
    if let Some(more) = &row.worse {
        let _ = write!(text, ", {} more in {}", row.amount, touched(more));
    }
    text.push('.');
    Some(text)
}

fn line(row: &LeverRow, words: Words) -> String {
    let label = textwrap::fill(&input(row, words), 28);
    let label: Vec<&str> = label.lines().collect();
    let of = |ways: &[Way]| {
        let moved = row.better.iter().chain(&row.worse).find(|moved| ways.contains(&moved.way));
        let mut cell = cell(moved);
        let is_odd = row.better.as_ref().is_some_and(|better| {
            ways.contains(&better.way)
                && matches!(better.verdict, Verdict::HigherChance | Verdict::MoreMinutes)
        });
        if is_odd {
            cell[0] = format!("! {}", cell[0]);
        }
        cell
    };
    // What is done instead stands on the right, where the eye ends.
    let (less, more) = (of(&[Way::Less]), of(&[Way::More, Way::Instead]));
    let mut text = String::new();
    for place in 0..label.len().max(2) {
        let left = label.get(place).copied().unwrap_or_default();
        let (now, moved) = match place {
            0 => (row.now.clone(), row.amount.clone()),
            _ => (String::new(), String::new()),
        };
        let cell = |cell: &[String; 2]| cell.get(place).cloned().unwrap_or_default();
        let line =
            format!("{left:<28} {now:>12} {moved:>19} {:>18} {:>18}", cell(&less), cell(&more));
        if !line.trim().is_empty() {
            text.push_str(line.trim_end());
            text.push('\n');
        }
    }
    text
}

/// A difference and its interval.
fn cell(moved: Option<&Moved>) -> [String; 2] {
    let Some(moved) = moved else {
        return [String::new(), String::new()];
    };
    match (moved.verdict, &moved.more_minutes) {
        (Verdict::NotToldApart, _) => ["not clear".to_owned(), String::new()],
        (Verdict::FewerMinutes | Verdict::MoreMinutes, Some(minutes)) => [
            format!("{} min", signed(minutes.by, 2)),
            format!("{} to {}", signed(minutes.ci_low, 2), signed(minutes.ci_high, 2)),
        ],
        _ => {
            let apart = &moved.higher_by;
            [points(apart.by, apart.ci_high - apart.ci_low), points_range(apart)]
        }
    }
}
