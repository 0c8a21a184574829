//! `grade`: fill sites compared for an insurance grading, with the evidence.

use std::fmt::Write;

use serde::Serialize;
use shuttle_report::evidence::{Evidence, evidence};
use shuttle_report::grade::{
    GradeAnswer, GradeQuestion, RuleResult, SiteGrade, Verdict, grade, searches,
};
use shuttle_report::grading_rules::{GradingRule, Seen};
use shuttle_report::units::{LITRES_PER_GALLON, Units, minutes, whole};
use shuttle_sim::{Cause, Plan};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::closing::{CAUTION, exit};
use crate::answers::figures::{duration, percent_as_asked};
use crate::answers::grade_evidence;
use crate::arguments::GradeArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{print, print_json};
use crate::progress::{control, with_progress};
use scenario_file::{self, Scenario};

/// Flows are tried this far apart, gpm; in metric scenarios 50 L/min.
const STEP_GPM: f64 = 10.0;
const STEP_LITRES: f64 = 50.0;
/// Simulated fires that a search usually takes: for the progress bar alone.
const USUAL_RUNS: u64 = 4_000;

/// Water from first loads is rounded to a hundred gallons or litres: the cap behind it is a mean.
const ROUND_VOLUME: f64 = 100.0;

/// Said with every grading.
const NOT_THE_BODY: &str = "Nothing here is said on a grading body's behalf: it decides alone, by its own \
    edition and by what it sees. The two hours of a higher flow are counted from the minute by which it \
    must be reached.";

/// Everything `--json` prints.
#[derive(Serialize)]
struct Json<'a> {
    #[serde(flatten)]
    answer: &'a GradeAnswer,
    evidence: Vec<Evidence>,
}

/// The step between flows tried, gpm.
pub fn step_gpm(units: Units) -> f64 {
    match units {
        Units::Us => STEP_GPM,
        Units::Metric => STEP_LITRES / LITRES_PER_GALLON,
    }
}

/// Runs the command.
pub fn run(arguments: &GradeArguments) -> Result<Exit, Failure> {
    let scenarios: Vec<Scenario> =
        arguments.files.iter().map(|file| scenario_file::load(file)).collect::<Result<_, _>>()?;
    let units = scenarios.first().map_or(Units::Us, |first| first.units);
    let plans: Vec<&Plan> = scenarios.iter().map(|scenario| &scenario.plan).collect();
    let rules: Vec<&GradingRule> = if arguments.rule.is_empty() {
        GradingRule::usual(units).iter().collect()
    } else {
        // In the order asked: the first one ranks.
        arguments.rule.iter().filter_map(|key| GradingRule::named(key)).collect()
    };
    let question = GradeQuestion {
        rules,
        share: arguments.hold.share,
        most_runs: arguments.hold.runs,
        seed: arguments.hold.seed,
        threads: arguments.hold.threads(),
        step_gpm: step_gpm(units),
    };
    let control = control();
    let expected = USUAL_RUNS * searches(&plans, question.rules.len()) as u64;
    let found = with_progress(&control, expected, || grade(&plans, &question, &control));
    let sheets: Vec<Evidence> =
        (scenarios.iter()).map(|scenario| evidence(&scenario.plan, &scenario.stated)).collect();
    if arguments.json {
        let json = Json { answer: &found, evidence: sheets };
        print_json(&json)?;
    } else {
        let words = Words::new(arguments.tender);
        let aid_left_out = scenarios.iter().any(|scenario| scenario.aid.is_listed());
        let mut text = answer(&found, units, words);
        for (place, sheet) in sheets.iter().enumerate() {
            text.push_str(&grade_evidence::sheet(sheet, place, &found, units, words));
        }
        text.push_str(&sources(&found, aid_left_out, words));
        let _ = writeln!(text, "{CAUTION}");
        print(&text)?;
    }
    Ok(exit(found.ended_early))
}

fn answer(found: &GradeAnswer, units: Units, words: Words) -> String {
    let several = found.titles.len() > 1;
    let mut text = match found.titles.as_slice() {
        [only] => wrapped(&format!("{only}: fill sites compared for a grading")),
        _ => wrapped(&format!("{} places: fill sites compared for a grading", found.titles.len())),
    };
    if several {
        for (place, title) in found.titles.iter().enumerate() {
            text.push_str(&paragraph(&format!("  {}", letter(place)), title));
        }
    }
    text.push('\n');
    text.push_str(&wrapped(&first_sentence(found, units)));
    text.push('\n');
    text.push_str(&table(found, units));
    text.push('\n');
    for (place, one) in found.ranked.iter().enumerate() {
        let label = if place == 0 { "What binds" } else { "" };
        text.push_str(&paragraph(label, &limits(one, found, units, words)));
    }
    let runs: u64 =
        found.ranked.iter().flat_map(|one| &one.results).map(|one| one.replications).sum();
    text.push_str(&wrapped(&format!(
        "\nHolds: unbroken in at least {} of fires, from the minute the rule names to the end; the first loads \
         and full tanks count, so it may be more than the hand cap. {} runs, most where it was close; seed {}; all words of the table hold together with 95% confidence. \
         bucketline {}.",
        percent_as_asked(found.share),
        whole(runs as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    )));
    if found.ended_early {
        text.push_str("Ended early: fill sites that were not reached are left out.\n");
    }
    text
}

fn letter(place: usize) -> String {
    let letters = (b'A'..=b'Z').map(char::from);
    letters.clone().nth(place).map_or_else(|| (place + 1).to_string(), |one| one.to_string())
}

/// The sites of a set: "Mill pond + River bridge".
fn name(one: &SiteGrade, found: &GradeAnswer) -> String {
    let sites = match one.sites.as_slice() {
        few @ ([_] | [_, _]) => few.join(" + "),
        many => format!("all {} together", many.len()),
    };
    if found.titles.len() > 1 { format!("{}: {sites}", letter(one.scenario)) } else { sites }
}

fn first_sentence(found: &GradeAnswer, units: Units) -> String {
    let (Some(best), Some(rule)) = (found.ranked.first(), found.rules.first()) else {
        return "Ended before anything was clear.".to_owned();
    };
    let Some(result) = best.results.first() else {
        return "No rule was asked about.".to_owned();
    };
    let long = duration(rule.duration_min);
    let held = result.held_gpm.map_or_else(
        || "no flow holds".to_owned(),
        |gpm| format!("{} holds unbroken for {long}", units.gpm(gpm)),
    );
    let asked = units.gpm(rule.minimum_gpm);
    let sure = percent_as_asked(found.share);
    let who = name(best, found);
    match result.verdict {
        Verdict::Pass => format!(
            "Best is {who}: {held} in at least {sure} of fires; {asked} is the least that is credited. By \
             hand {}.",
            by_hand(best, units)
        ),
        Verdict::NotClear => format!(
            "Not clear from this many runs: no fill site surely holds the {asked} that is the least \
             credited. {who} comes nearest; more runs (--runs) would show."
        ),
        Verdict::Fail if result.near_enough == Some(false) => format!(
            "No fill site passes. Best is {who}: {held} in at least {sure} of fires, but it lies farther \
             than the rule allows."
        ),
        Verdict::Fail => format!(
            "No fill site holds the {asked} that is the least credited. Best is {who}: {held} in at least \
             {sure} of fires."
        ),
    }
}

/// What counts by hand, and why it is less than the sum where it is.
fn by_hand(one: &SiteGrade, units: Units) -> String {
    let counts = units.gpm(one.counts_gpm);
    match &one.tightest {
        Some((place, cap)) if *cap < one.hand_gpm => format!(
            "{counts} counts: the credits come to {}, but no more than that passes through {place}",
            units.gpm(one.hand_gpm)
        ),
        _ => format!("the credit is {counts}"),
    }
}

/// One way to each of two sites, or to the nearest and the farthest of more.
fn one_way(one: &SiteGrade, units: Units) -> String {
    let told = |miles: &Option<f64>| {
        miles.map_or("____".to_owned(), |miles| format!("{:.1}", units.distance(miles)))
    };
    match one.site_miles.as_slice() {
        few @ ([_] | [_, _]) => few.iter().map(told).collect::<Vec<_>>().join("/"),
        many => match many.iter().copied().collect::<Option<Vec<f64>>>() {
            Some(all) => {
                let nearest = all.iter().copied().fold(f64::INFINITY, f64::min);
                format!("{}-{}", told(&Some(nearest)), told(&one.miles))
            }
            None => "____".to_owned(),
        },
    }
}

fn table(found: &GradeAnswer, units: Units) -> String {
    let sign = units.flow_sign();
    let heads: Vec<String> = (found.rules.iter())
        .map(|rule| {
            let time = if rule.duration_min < 60.0 {
                format!("{:.0} min", rule.duration_min)
            } else {
                format!("{:.0} h", rule.duration_min / 60.0)
            };
            format!("{}, {time}", whole(units.flow(rule.minimum_gpm)))
        })
        .collect();
    let mut text = format!(
        "    {:<34} {:>9} {:>8} {:>8} {:>9}",
        "", "one way", "by hand", "hand cap", "holds"
    );
    heads.iter().for_each(|head| {
        let _ = write!(text, "  {head:<9}");
    });
    text = format!("{}\n", text.trim_end());
    let _ = writeln!(
        text,
        "    {:<34} {:>9} {sign:>8} {sign:>8} {sign:>9}",
        "fill sites",
        units.distance_sign()
    );
    for (place, one) in found.ranked.iter().enumerate() {
        let flow = |gpm: f64| whole(units.flow(gpm));
        let first = one.results.first();
        let held = first.and_then(|first| first.held_gpm).map_or("none".to_owned(), flow);
        let open = first.is_some_and(|first| first.not_clear_up_to_gpm.is_some());
        let short: String = name(one, found).chars().take(34).collect();
        let mut line = format!(
            "{:>2}  {short:<34} {:>9} {:>8} {:>8} {:>9}",
            place + 1,
            one_way(one, units),
            flow(one.counts_gpm),
            one.tightest.as_ref().map_or("none".to_owned(), |(_, gpm)| flow(*gpm)),
            format!("{held}{}", if open { "+" } else { "" }),
        );
        for (result, head) in one.results.iter().zip(&heads) {
            let verdict = match result.verdict {
                Verdict::Pass if result.minimum_above_cap => "pass*",
                Verdict::Pass => "pass",
                Verdict::Fail => "fail",
                Verdict::NotClear => "not clear",
            };
            let _ = write!(line, "  {verdict:<0$}", head.len().max(9));
        }
        let _ = writeln!(text, "{}", line.trim_end());
    }
    if found
        .ranked
        .iter()
        .any(|one| one.results.first().is_some_and(|r| r.not_clear_up_to_gpm.is_some()))
    {
        text.push_str("+ surely this much; a little more is not clear from this many runs.\n");
    }
    let on_loads =
        |result: &RuleResult| result.minimum_above_cap && result.verdict == Verdict::Pass;
    if found.ranked.iter().any(|one| one.results.iter().any(on_loads)) {
        text.push_str("* passes only on first loads and full tanks, which are used up once.\n");
    }
    text
}

/// What holds one set back.
fn limits(one: &SiteGrade, found: &GradeAnswer, units: Units, words: Words) -> String {
    let Some(result) = one.results.first() else {
        return name(one, found);
    };
    let mut parts = Vec::new();
    if result.near_enough == Some(false)
        && let (Some(miles), Some(most)) =
            (one.miles, found.rules.first().and_then(|rule| rule.source_within_miles))
    {
        let most = units.miles(most);
        parts.push(format!("{} is farther than the {most} the rule allows", units.miles(miles)));
    }
    parts.push(breaks(result, units, words));
    if let Some((place, gpm)) = &one.tightest {
        let at_most = units.gpm(*gpm);
        if let (Some(held), Some(gallons)) = (result.held_gpm, result.first_loads_gal) {
            let does = match result.verdict {
                Verdict::Pass if result.minimum_above_cap => "passes only",
                _ => "it holds",
            };
            parts.push(format!(
                "{does}, at {}, on about {} {} that first loads and full tanks bring once; when they are used up, \
                 by hand no more than {at_most} passes through {place}",
                units.gpm(held),
                whole((units.volume(gallons) / ROUND_VOLUME).round() * ROUND_VOLUME),
                units.volume_sign()
            ));
        } else if *gpm < one.hand_gpm {
            parts.push(format!("by hand no more than {at_most} can pass through {place}"));
        }
    }
    if result.uneven {
        parts
            .push("a greater flow was seen to hold where a lesser one fails: take care".to_owned());
    }
    format!("{}: {}.", name(one, found), parts.join("; "))
}

fn breaks(result: &RuleResult, units: Units, words: Words) -> String {
    let Some(fails) = result.fails_gpm else {
        return match result.not_clear_up_to_gpm {
            Some(_) => "not clear from this many runs".to_owned(),
            None => "no flow that was tried breaks it".to_owned(),
        };
    };
    let at = units.gpm(fails);
    if result.late_share > 0.05 {
        return format!(
            "at {at} the crew has no water in time in {:.0}% of runs",
            100.0 * result.late_share
        );
    }
    let cause = result.binds.and_then(|(key, share)| {
        let cause = Cause::ALL.into_iter().find(|cause| cause.key() == key)?;
        Some((words.put(cause.words()), share))
    });
    match cause {
        Some((cause, share)) => {
            format!(
                "at {at} it breaks, mostly because {cause} ({:.0}% of first breaks)",
                100.0 * share
            )
        }
        None => format!("{at} cannot work at all"),
    }
}

/// What the rules are, where from, and what else they ask.
fn sources(found: &GradeAnswer, aid_left_out: bool, words: Words) -> String {
    let mut text = "\n".to_owned();
    for rule in &found.rules {
        let seen = match rule.seen {
            Seen::Seen => "",
            Seen::Memory => "; value from memory",
        };
        let higher = rule.higher_within_min.map_or_else(String::new, |within| {
            format!(", a higher flow within {}", minutes(within).trim_end_matches(".0"))
        });
        let mut told = format!(
            "{}: within {} min of the first engine's arrival{higher}; source: {}; {}{seen}.",
            rule.name,
            minutes(rule.within_min).trim_end_matches(".0"),
            rule.source,
            rule.edition
        );
        if !rule.also.is_empty() {
            let _ = write!(told, " Not known to the scenario: {}.", rule.also.join("; "));
        }
        text.push_str(&paragraph("Rule", &told));
    }
    let left_out = if aid_left_out { "; those under `aid` are left out" } else { "" };
    text.push_str(&wrapped(&format!(
        "Every {} under `tankers` is counted, whosever it is{left_out}: aid counts only as the grading body \
         counts automatic aid. {NOT_THE_BODY}",
        words.tanker
    )));
    text
}
