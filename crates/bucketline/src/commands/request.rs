//! `request`: the mutual-aid request.

use std::fmt::Write;

use shuttle_report::chart::differences::{self, Line, Mark};
use shuttle_report::fleet_size::Verdict;
use shuttle_report::options_compared::Verdict as Told;
use shuttle_report::request::{
    Around, MOST_SETS, RequestAnswer, RequestQuestion, SizeRow, Unit, smallest_request,
};
use shuttle_report::units::{Units, percent, whole};

use crate::answer_text::{WIDTH, Words, paragraph, wrapped};
use crate::answers::charts::{Charts, point};
use crate::answers::closing::{FEWER_RUNS, Versioned, exit, print_answer};
use crate::answers::figures::{headline, percent_as_asked, points, points_range};
use crate::arguments::RequestArguments;
use crate::asking;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &RequestArguments) -> Result<Exit, Failure> {
    let file = &arguments.scenario.file;
    let scenario = asking::load(file)?;
    let aid = &scenario.aid;
    let candidates = aid.candidates();
    if candidates.is_empty() {
        return Err(Failure::NobodyToAsk { path: file.clone() });
    }
    let control = control();
    let batch = &arguments.batch;
    let question = RequestQuestion {
        target: arguments.target,
        most_runs: batch.runs,
        luck: batch.same_luck(),
        most_sets: MOST_SETS,
    };
    // Most sets are clear after a few hundred runs; how many there will be is not known beforehand.
    let found = with_progress(&control, batch.runs, || {
        smallest_request(&aid.everyone, &candidates, question, &control)
    });
    let charts = Charts::new(&arguments.charts, arguments.scenario.showing.json, &found.title);
    let has_chart = !found.late.is_empty() || !found.one_more.is_empty();
    if let Some(charts) = charts.as_ref().filter(|_| has_chart) {
        charts.write("request", &chart(&found)?)?;
    }
    if arguments.scenario.showing.json {
        print_json(&Versioned::of(&found))?;
    } else {
        let words = Words::new(arguments.scenario.showing.tender);
        let mut text = headline(&scenario.plan, scenario.units, words);
        text.push('\n');
        let own = aid.everyone.facts().tankers.len() - candidates.len();
        let there = There { aid: candidates.len(), own };
        text.push_str(&answer(&found, there, scenario.units, words));
        print_answer(text, charts.filter(|_| has_chart).as_ref())?;
    }
    Ok(exit(found.stopped_early))
}

/// How many there are.
#[derive(Clone, Copy)]
struct There {
    aid: usize,
    own: usize,
}

fn chart(found: &RequestAnswer) -> Result<String, shuttle_report::chart::ChartError> {
    let line = |label: String, around: &Around, mark| Line {
        label,
        points: vec![point(&around.higher_by, mark)],
        note: percent(around.interruption_probability, around.runs),
    };
    let mut lines: Vec<Line> = Vec::new();
    for unit in &found.request {
        if let Some(without) = &unit.without_it {
            lines.push(line(format!("without {}", unit.name), without, Mark::Second));
        }
    }
    for more in &found.one_more {
        lines.push(line(format!("one more: {}", more.what), more, Mark::First));
    }
    for late in &found.late {
        lines.push(line(format!("asked for {}", late.what), late, Mark::Second));
    }
    let asked: Vec<&str> = found.request.iter().map(|unit| unit.name.as_str()).collect();
    let shows = format!(
        "The request: {}. How the chance that the attack lines run short, {}, changes when one unit is \
         left out, one more comes, or all are asked for later.",
        if asked.is_empty() { "no aid".to_owned() } else { asked.join(", ") },
        percent(found.interruption_probability, found.runs)
    );
    let made_from = format!("Seed {}, the same luck for all.", found.seed);
    differences::chart(
        &lines,
        differences::Words {
            measure: differences::Measure::Chance,
            title: &found.title,
            shows: &shows,
            marks: ["more", "less or later"],
            notes: "short in",
            made_from: &made_from,
        },
    )
}

fn answer(found: &RequestAnswer, there: There, units: Units, words: Words) -> String {
    if found.sizes.is_empty() && found.stopped_early {
        return "Ended before it was clear: nothing to say.\n".to_owned();
    }
    let mut text = wrapped(&first_sentence(found, there, words));
    text.push('\n');
    if found.meets_target && !found.request.is_empty() {
        text.push_str(&request_list(&found.request, units));
    }
    if let Some(told) = late(&found.late) {
        text.push_str(&paragraph("If later", &told));
    }
    if !found.add_nothing.is_empty() {
        let with = if found.meets_target { "beside these" } else { "even of all there is" };
        let told = format!(
            "{}: {with} no difference that is clear on the same luck.",
            found.add_nothing.join(", "),
        );
        text.push_str(&paragraph("No gain", &told));
    }
    if !found.in_the_way.is_empty() {
        let told = format!(
            "{}: coming, each surely makes it worse: do not ask for it.",
            found.in_the_way.join(", "),
        );
        text.push_str(&paragraph("In the way", &told));
    }
    let more: Vec<String> = (found.one_more.iter())
        .filter(|more| matches!(more.told, Told::LowerChance | Told::FewerMinutes))
        .map(|more| format!("{} {}", more.what, change(more)))
        .collect();
    if !more.is_empty() {
        text.push_str(&paragraph("One more", &format!("{}.", more.join("; "))));
    }
    text.push('\n');
    let _ = writeln!(
        text,
        "{:>5} {:>5}  {:<40} {:>9}  {:>16}  below {}",
        "ask",
        "sets",
        "best of them",
        "short in",
        "95% sure",
        percent_as_asked(found.target)
    );
    for row in &found.sizes {
        text.push_str(&line(row));
    }
    text.push('\n');
    let most = found.sizes.iter().map(|row| row.runs).max().unwrap_or(0);
    let how = if found.all_sets_tried {
        format!(
            "Every set of the aid there is, by size, up to the first size that does; {}s alike but for \
             their names once.",
            words.tanker
        )
    } else {
        format!(
            "Too many sets to try all: {}s were added one by one, each time the one that helps most, and \
             then each was tried to be left out. A smaller set that differs in more than one is not ruled \
             out.",
            words.tanker
        )
    };
    text.push_str(&wrapped(&format!(
        "{how} Up to {} runs for each set, as many as it took to be clear; seed {}; the intervals hold for \
         all sets at once. {FEWER_RUNS} bucketline {}.",
        whole(most as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    )));
    if found.stopped_early {
        text.push_str("Ended early: this rests on the runs made so far.\n");
    }
    text
}

fn change(around: &Around) -> String {
    let apart = &around.higher_by;
    let width = apart.ci_high - apart.ci_low;
    format!(
        "{} ({} points; 95% sure: {})",
        percent(around.interruption_probability, around.runs),
        points(apart.by, width),
        points_range(apart)
    )
}

/// "all four tankers there are", "two of the four tankers there are".
fn asked(asked: usize, there: usize, words: Words) -> String {
    match (asked, there) {
        (1, 1) => format!("the one {} there is", words.tanker),
        (asked, there) if asked == there => format!("all {} there are", words.count(there)),
        (asked, there) => {
            format!("{} of the {} there are", words.number(asked), words.count(there))
        }
    }
}

fn first_sentence(found: &RequestAnswer, there: There, words: Words) -> String {
    let target = percent_as_asked(found.target);
    let chance = format!(
        "{}, at most {}",
        percent(found.interruption_probability, found.runs),
        percent(found.high, found.runs)
    );
    let beside = match there.own {
        0 => String::new(),
        own => format!(", beside your own {}", words.number(own)),
    };
    let mut text = if found.meets_target && found.request.is_empty() {
        format!(
            "Ask for nobody: with the {} that come anyway the chance that the attack lines run short is \
             below {target} with 95% confidence ({chance}).",
            words.count(there.own)
        )
    } else if found.meets_target {
        format!(
            "Ask for {}{beside}: the chance that the attack lines run short is then below \
             {target} with 95% confidence ({chance}).",
            asked(found.request.len(), there.aid, words)
        )
    } else if found.stopped_early {
        "Ended before it was clear.".to_owned()
    } else if found.perhaps.is_some() {
        format!("Not clear from this many runs: no set that was tried is surely below {target}.")
    } else {
        format!(
            "No request helps enough: even with all {} of the aid there is{beside}, the lines run short in {} of \
             fires, and no smaller set that was tried is below {target}.",
            words.number(there.aid),
            percent(found.interruption_probability, found.runs)
        )
    };
    if let Some(perhaps) = found.perhaps {
        let _ = write!(
            text,
            " With {} it is too close to {target} to tell; more runs (--runs) would show.",
            words.count(perhaps)
        );
    }
    text
}

/// What to say over the radio.
fn request_list(request: &[Unit], units: Units) -> String {
    let mut text = String::new();
    let mut asked_at = f64::NEG_INFINITY;
    for (place, unit) in request.iter().enumerate() {
        let label = if place == 0 { "Request" } else { "" };
        let when = if unit.requested_at_min == asked_at {
            String::new()
        } else if unit.requested_at_min == 0.0 {
            "at the alarm".to_owned()
        } else {
            format!("at minute {:.0}", unit.requested_at_min)
        };
        asked_at = unit.requested_at_min;
        let indent = format!("{label:<13}{when:<13} {:>2}. ", place + 1);
        let options = textwrap::Options::new(WIDTH)
            .initial_indent(&indent)
            .subsequent_indent("                              ")
            .break_words(false);
        text.push_str(&textwrap::fill(&told(unit, units), options));
        text.push('\n');
    }
    text
}

fn told(unit: &Unit, units: Units) -> String {
    let without = unit.without_it.as_ref().map_or_else(String::new, |without| {
        format!("; without it {}", percent(without.interruption_probability, without.runs))
    });
    let tank = if unit.brings_drop_tank { " and a drop tank" } else { "" };
    format!(
        "{}: {}{tank}, {:.0} min away{without}",
        unit.name,
        units.gallons(unit.capacity_gal),
        unit.response_min
    )
}

fn late(late: &[Around]) -> Option<String> {
    if late.is_empty() {
        return None;
    }
    let told: Vec<String> =
        late.iter().map(|one| format!("{}: {}", one.what, change(one))).collect();
    Some(format!("all of them, asked for {}.", told.join("; ")))
}

fn line(row: &SizeRow) -> String {
    let best = if row.names.is_empty() { "none".to_owned() } else { row.names.join(", ") };
    let names = textwrap::wrap(&best, 40);
    let first = names.first().map_or("", |part| part.as_ref());
    let mut text = if row.verdict == Verdict::CannotWork {
        format!("{:>5} {:>5}  cannot work: no water can reach the engine\n", row.units, row.sets)
    } else {
        let range = format!(
            "{} to {}",
            percent(row.low, row.runs).trim_end_matches('%'),
            percent(row.high, row.runs)
        );
        let verdict = match row.verdict {
            Verdict::Below => "yes",
            Verdict::Above => "no",
            Verdict::NotClear => "not clear",
            Verdict::CannotWork => "",
        };
        format!(
            "{:>5} {:>5}  {first:<40} {:>9}  {range:>16}  {verdict}\n",
            row.units,
            row.sets,
            percent(row.interruption_probability, row.runs),
        )
    };
    if row.verdict != Verdict::CannotWork {
        for rest in names.iter().skip(1) {
            let _ = writeln!(text, "{:13}{rest}", "");
        }
    }
    text
}
