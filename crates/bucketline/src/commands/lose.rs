//! `lose`: what the plan cannot do without.

use std::borrow::Borrow;
use std::fmt::Write;

use shuttle_report::chart::differences::{self, Line, Mark};
use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{Kind, LossAnswer, LossRow, Stands, losses, what_a_loss_does};
use shuttle_report::units::{minutes, percent, whole};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::changes_in_words;
use crate::answers::charts::{Charts, point};
use crate::answers::closing::{FEWER_RUNS, Versioned, exit, print_answer};
use crate::answers::figures::{headline, percent_as_asked, points, points_range};
use crate::arguments::LoseArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &LoseArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    let plan = &scenario.plan;
    let control = control();
    let batch = &arguments.batch;
    let expected = batch.runs * (1 + losses(plan).len() as u64);
    let found = with_progress(&control, expected, || {
        what_a_loss_does(plan, arguments.target, batch.runs, batch.same_luck(), &control)
    });
    let charts = Charts::new(&arguments.charts, arguments.scenario.json, &found.title);
    if let Some(charts) = charts.as_ref().filter(|_| found.whole.replications > 0) {
        charts.write("losses", &chart(&found)?)?;
    }
    if arguments.scenario.json {
        print_json(&Versioned::of(&found))?;
    } else {
        let words = Words::new(arguments.scenario.tender);
        let mut text = headline(plan, scenario.units, words);
        text.push('\n');
        text.push_str(&answer(&found, words));
        print_answer(text, charts.filter(|_| found.whole.replications > 0).as_ref())?;
    }
    Ok(exit(found.ended_early))
}

fn chart(found: &LossAnswer) -> Result<String, shuttle_report::chart::ChartError> {
    let lines: Vec<Line> = (found.losses.iter())
        .map(|row| Line {
            label: lost(row),
            points: row.higher_by.iter().map(|apart| point(apart, Mark::First)).collect(),
            note: match row.verdict {
                Verdict::CannotWork => "cannot work".to_owned(),
                _ => percent(row.interruption_probability, row.replications),
            },
        })
        .collect();
    let shows = format!(
        "How the chance that the attack lines run short, {} with everything, changes when one thing is \
         lost. Marks: the difference on the same luck. Whiskers: its 95% interval, for all at once.",
        percent(found.whole.interruption_probability, found.whole.replications)
    );
    let made_from = format!(
        "Up to {} runs of each, seed {}, the same luck for all.",
        whole(found.whole.replications as f64),
        found.seed
    );
    differences::chart(
        &lines,
        differences::Words {
            measure: differences::Measure::Chance,
            title: &found.title,
            shows: &shows,
            marks: ["lost", ""],
            notes: "short in",
            made_from: &made_from,
        },
    )
}

fn answer(found: &LossAnswer, words: Words) -> String {
    if found.whole.replications == 0 {
        return "Ended before the first simulated fires were done: nothing to say.\n".to_owned();
    }
    let mut text = wrapped(&words_of(&first_sentence(found), words));
    text.push('\n');
    if let Some(told) = not_clear(found) {
        text.push_str(&paragraph("Not clear", &told));
    }
    if let Some(told) = cannot_work(found, words) {
        text.push_str(&paragraph("No water", &told));
    }
    if let Some(told) = holds_without(found) {
        text.push_str(&paragraph("Stands", &told));
    }
    if !text.ends_with("\n\n") {
        text.push('\n');
    }
    let _ = writeln!(
        text,
        "{:<42} {:>8} {:>22} {:>10}  below {}",
        "lost",
        "short in",
        "points more, 95% sure",
        "min short",
        percent_as_asked(found.target)
    );
    for row in [&found.whole].into_iter().chain(&found.losses) {
        text.push_str(&line(row));
    }
    text.push('\n');
    text.push_str(&wrapped(&format!(
        "Up to {} runs of each on the same luck, as many as it took to be clear; seed {}; the intervals \
         hold for the whole table at once. A loss is for the whole fire; half a flow is no loss of the \
         site. A {} whose fill site is lost fills at another one; without the supply engine the \
         attack engine drafts itself, if no lay lies between. {FEWER_RUNS} bucketline {}.",
        whole(found.whole.replications as f64),
        found.seed,
        words.tanker,
        env!("CARGO_PKG_VERSION")
    )));
    if found.ended_early {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

/// Our wording with the reader's word for a tanker; names are not quoted, so only whole phrases change.
fn words_of(ours: &str, words: Words) -> String {
    ours.replace("one tanker", &format!("one {}", words.tanker))
}

/// What is lost in these rows: the names of the first few.
fn names<'a>(rows: impl Iterator<Item = &'a LossRow>) -> Vec<String> {
    rows.map(lost).collect()
}

fn lost(row: &LossRow) -> String {
    row.lost.as_ref().map_or_else(String::new, changes_in_words::lost)
}

fn told(names: &[String]) -> String {
    const MOST: usize = 6;
    let mut text = names[..names.len().min(MOST)].join("; ");
    if names.len() > MOST {
        let _ = write!(text, " and {} more", names.len() - MOST);
    }
    text
}

/// "A, B and C", all up to five; then the number of the others.
fn in_a_sentence<Name: Borrow<str>>(names: &[Name]) -> String {
    const MOST: usize = 5;
    let others = names.len().saturating_sub(MOST);
    let (shown, last) = match names.split_last() {
        _ if others > 0 => (&names[..MOST], format!("{others} more")),
        Some((last, rest)) => (rest, last.borrow().to_owned()),
        None => (names, String::new()),
    };
    // A name may hold a comma itself.
    if shown.is_empty() {
        last
    } else if names.iter().any(|name| name.borrow().contains(',')) {
        format!("{}; and {last}", shown.join("; "))
    } else {
        format!("{} and {last}", shown.join(", "))
    }
}

fn whole_losses(found: &LossAnswer) -> impl Iterator<Item = &LossRow> {
    found.losses.iter().filter(|row| row.kind != Some(Kind::HalfFlow))
}

fn first_sentence(found: &LossAnswer) -> String {
    let target = percent_as_asked(found.target);
    let whole = percent(found.whole.interruption_probability, found.whole.replications);
    let broken = || {
        whole_losses(found)
            .filter(|row| matches!(row.verdict, Verdict::Above | Verdict::CannotWork))
    };
    let worst = found
        .losses
        .first()
        .map_or_else(String::new, |worst| format!(" The worst to lose: {}.", lost(worst)));
    match found.stands {
        Stands::AnyOne => format!(
            "The plan stands the loss of any one: whatever one thing is lost, the chance that the attack \
             lines run short stays below {target} ({whole} with everything).{worst}"
        ),
        Stands::NotAnyOne => format!(
            "The plan does not stand every single loss: it fails without {}. The chance that the attack \
             lines run short is {whole} with everything, and above {target} without {}.",
            in_a_sentence(&names(broken())),
            if broken().count() == 1 { "it" } else { "any one of these" }
        ),
        Stands::NotEvenWhole => format!(
            "The plan can spare nothing: with everything in service the attack lines run short in {whole} \
             of fires, above {target}.{worst}"
        ),
        Stands::NotClear => format!(
            "Not clear from this many runs: no loss surely brings the chance that the attack lines run \
             short above {target}, but not all surely leave it below ({whole} with everything).{worst}"
        ),
    }
}

fn not_clear(found: &LossAnswer) -> Option<String> {
    let names = names(whole_losses(found).filter(|row| row.verdict == Verdict::NotClear));
    (!names.is_empty()).then(|| {
        format!(
            "{}: too close to {} to tell; more runs (--runs) would show.",
            told(&names),
            percent_as_asked(found.target)
        )
    })
}

fn cannot_work(found: &LossAnswer, words: Words) -> Option<String> {
    let names = names(found.losses.iter().filter(|row| row.verdict == Verdict::CannotWork));
    (!names.is_empty()).then(|| {
        format!(
            "without {} no {} can get its water to the engine: there is nothing to dump into, and the \
             scenario does not allow nursing.",
            told(&names),
            words.tanker
        )
    })
}

/// Losses that the plan withstands, where it does not withstand all of them.
fn holds_without(found: &LossAnswer) -> Option<String> {
    let names = names(whole_losses(found).filter(|row| row.verdict == Verdict::Below));
    (!names.is_empty() && found.stands != Stands::AnyOne).then(|| {
        format!("holds without: {} (below {}).", told(&names), percent_as_asked(found.target))
    })
}

fn line(row: &LossRow) -> String {
    let lost = lost(row);
    let label = textwrap::wrap(&lost, 42);
    let first = label.first().map_or("", |part| part.as_ref());
    let mut text = if row.verdict == Verdict::CannotWork {
        format!("{first:<42} no water reaches the engine\n")
    } else {
        let verdict = match row.verdict {
            Verdict::Below => "yes",
            Verdict::Above => "no",
            Verdict::NotClear => "not clear",
            Verdict::CannotWork => "",
        };
        let apart = row.higher_by.map_or_else(String::new, |apart| {
            let width = apart.ci_high - apart.ci_low;
            format!("{} ({})", points(apart.by, width), points_range(&apart))
        });
        let line = format!(
            "{first:<42} {:>8} {apart:>22} {:>10}  {verdict}",
            percent(row.interruption_probability, row.replications),
            minutes(row.interrupted_minutes_mean),
        );
        format!("{}\n", line.trim_end())
    };
    for rest in label.iter().skip(1) {
        let _ = writeln!(text, "  {rest}");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_that_is_not_stood_is_named_up_to_five() {
        assert_eq!(in_a_sentence(&["A"]), "A");
        assert_eq!(in_a_sentence(&["A", "B", "C"]), "A, B and C");
        assert_eq!(in_a_sentence(&["A, with a", "B", "C"]), "A, with a; B; and C");
        assert_eq!(in_a_sentence(&["A", "B", "C", "D", "E"]), "A, B, C, D and E");
        assert_eq!(in_a_sentence(&["A", "B", "C", "D", "E", "F", "G"]), "A, B, C, D, E and 2 more");
    }
}
