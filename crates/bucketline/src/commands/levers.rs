//! `levers`: what one minute or one hundred gpm is worth.

use std::fmt::Write;

use shuttle_report::changes::input::{Input, Way};
use shuttle_report::chart::differences::{self, Line, Mark, Measure};
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved, what_each_is_worth};
use shuttle_report::moved_inputs::levers;
use shuttle_report::options_compared::Verdict;
use shuttle_report::units::{Units, minutes, percent, whole};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::changes_in_words;
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
    let words = Words::new(arguments.scenario.tender);
    let say = Say { units, words };
    let charts = Charts::new(&arguments.charts, arguments.scenario.json, &found.title);
    if let Some(charts) = charts.as_ref().filter(|_| found.replications > 0) {
        charts.write("levers", &chart(&found, say)?)?;
    }
    if arguments.scenario.json {
        print_json(&Versioned::of(&found))?;
    } else {
        let mut text = headline(plan, units, words);
        text.push('\n');
        text.push_str(&answer(&found, say));
        print_answer(text, charts.filter(|_| found.replications > 0).as_ref())?;
    }
    Ok(exit(found.ended_early))
}

/// How the reader says it.
#[derive(Clone, Copy)]
struct Say {
    units: Units,
    words: Words,
}

fn input(row: &LeverRow, say: Say) -> String {
    changes_in_words::input(&row.input, say.words)
}

fn now(row: &LeverRow, say: Say) -> String {
    changes_in_words::now(&row.input, row.now, say.units)
}

fn amount(row: &LeverRow, say: Say) -> String {
    changes_in_words::amount(&row.input, row.amount, say.units)
}

fn moved_words(row: &LeverRow, say: Say) -> String {
    let amount = amount(row, say);
    let way = |moved: &Moved| changes_in_words::way(&row.input, moved.way);
    match (&row.better, &row.worse) {
        (Some(better), Some(worse)) => {
            format!("{amount}{}/{}", way(better), way(worse).trim_start())
        }
        (Some(only), None) | (None, Some(only)) => format!("{amount}{}", way(only)),
        (None, None) => amount,
    }
}

fn chart(found: &LeverAnswer, say: Say) -> Result<String, shuttle_report::chart::ChartError> {
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
                label: format!("{} ({})", input(row, say), now(row, say)),
                points: moved.map(|by| point(&by, mark(by.by))).collect(),
                note: amount(row, say),
            }
        })
        .collect();
    let what = match measure {
        Measure::Chance => format!(
            "how the chance that the attack lines run short, {} as it stands, changes",
            percent(found.interruption_probability, found.replications)
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
        whole(found.replications as f64),
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
fn most_minutes(found: &LeverAnswer, say: Say) -> Option<String> {
    let (row, moved, by) = (found.rows.iter())
        .filter_map(|row| Some((row, row.better.as_ref()?)))
        .filter(|(_, moved)| moved.verdict == Verdict::FewerMinutes)
        .filter_map(|(row, moved)| Some((row, moved, moved.more_minutes?.by)))
        .min_by(|a, b| a.2.total_cmp(&b.2))?;
    let way = changes_in_words::way(&row.input, moved.way);
    let now = found.interrupted_minutes_mean;
    Some(format!(
        " The minutes short do change, most by {} ({}{way}): {} -> {} on average.",
        input(row, say),
        amount(row, say),
        minutes(now),
        minutes(now + by)
    ))
}

fn answer(found: &LeverAnswer, say: Say) -> String {
    if found.replications == 0 {
        return "Ended before the first simulated fires were done: nothing to say.\n".to_owned();
    }
    let mut text = wrapped(&first_sentence(found, say));
    text.push('\n');
    if let Some(told) = reserve(found, say) {
        text.push_str(&paragraph("Reserve", &told));
    }
    let unclear: Vec<String> = (found.rows.iter())
        .filter(|row| !row.is_clear && row.input != Input::Reserve)
        .map(|row| format!("{} ({})", input(row, say), moved_words(row, say)))
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
            "", "now", "moved by", "less, points", "more, points"
        );
        for row in found.rows.iter().filter(|row| row.is_clear) {
            text.push_str(&line(row, say));
        }
        text.push('\n');
    }
    text.push_str(&wrapped(&format!(
        "Up to {} runs of each on the same luck, as many as it took to be clear; seed {}. Percentage \
         points of the chance to run short, with their 95% intervals below; minus helps; ! hurts although \
         one would expect help; what is called clear is so for all inputs at once; min: where only the \
         minutes short differ clearly. Times are moved with their spread in proportion. A shorter drive \
         means a nearer fill site, never more speed. {FEWER_RUNS} bucketline {}.",
        whole(found.replications as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    )));
    if found.ended_early {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

fn first_sentence(found: &LeverAnswer, say: Say) -> String {
    let now = percent(found.interruption_probability, found.replications);
    let moved = |demand: bool| {
        (found.rows.iter())
            .filter(move |row| (row.input == Input::Demand) == demand)
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
        let way = changes_in_words::way(&row.input, moved.way);
        format!(
            "{} ({}{way}): {now} -> {}",
            input(row, say),
            amount(row, say),
            percent(moved.interruption_probability, moved.replications)
        )
    };
    match (best, worst) {
        (None, None) => format!(
            "Nothing that was moved changes the chance that the attack lines run short, {now}, by an \
             amount that is clear from this many runs.{}",
            most_minutes(found, say).unwrap_or_default()
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
fn reserve(found: &LeverAnswer, say: Say) -> Option<String> {
    let row = found.rows.iter().find(|row| row.input == Input::Reserve)?;
    let touched = |moved: &Moved| {
        percent(found.reserve_touched + moved.reserve_touched_by.by, moved.replications)
    };
    let mut text = format!(
        "the {} for backing out is touched in {} of runs",
        now(row, say),
        percent(found.reserve_touched, found.replications)
    );
    if let Some(less) = &row.better {
        let _ = write!(text, "; {} less would be in {}", amount(row, say), touched(less));
    }
    if let Some(more) = &row.worse {
        let _ = write!(text, ", {} more in {}", amount(row, say), touched(more));
    }
    text.push('.');
    Some(text)
}

fn line(row: &LeverRow, say: Say) -> String {
    let label = textwrap::fill(&input(row, say), 28);
    let label: Vec<&str> = label.lines().collect();
    let of = |way: Way| {
        let moved = row.better.iter().chain(&row.worse).find(|moved| moved.way == way);
        let mut cell = cell(moved);
        let is_odd = row.better.as_ref().is_some_and(|better| {
            better.way == way
                && matches!(better.verdict, Verdict::HigherChance | Verdict::MoreMinutes)
        });
        if is_odd {
            cell[0] = format!("! {}", cell[0]);
        }
        cell
    };
    let (less, more) = (of(Way::Less), of(Way::More));
    let mut text = String::new();
    for place in 0..label.len().max(2) {
        let left = label.get(place).copied().unwrap_or_default();
        let (now, moved) = match place {
            0 => (now(row, say), amount(row, say)),
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
