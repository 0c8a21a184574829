//! `reach`: how far from water a number of tankers holds a flow.

use std::fmt::Write;

use shuttle_report::chart;
use shuttle_report::demand::Demand;
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::reach::{
    ReachAnswer, ReachCell, ReachQuestion, distance_for_flow, flow_by_distance,
};
use shuttle_report::units::{Units, whole};
use shuttle_sim::Cause;

use super::grade::step_gpm;
use crate::answer_text::{Words, capital, wrapped};
use crate::answers::charts::Charts;
use crate::answers::closing::{CAUTION, exit};
use crate::answers::figures::{duration, percent_as_asked};
use crate::answers::hauls::{distances, driven, haul};
use crate::arguments::ReachArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{print, print_json};
use crate::progress::{control, with_progress};
use scenario_file::{self, Scenario};

/// Simulated fires that a search usually takes: for the progress bar alone.
const USUAL_RUNS: u64 = 2_500;

/// Runs the command.
pub fn run(arguments: &ReachArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    let units = scenario.units;
    let site = site(&scenario, arguments.site.as_deref())?;
    let question = ReachQuestion {
        site,
        hauls: distances(units, arguments.flow.is_some())
            .into_iter()
            .map(|miles| haul(&scenario, site, miles))
            .collect(),
        demand: demand(units, scenario.plan.facts().incident.duration),
        share: arguments.hold.share,
        most_runs: arguments.hold.runs,
        seed: arguments.hold.seed,
        threads: arguments.hold.threads(),
        step_gpm: step_gpm(units),
    };
    let control = control();
    let tankers = scenario.plan.facts().tankers.len() as u64;
    let cells = tankers * if arguments.flow.is_some() { 1 } else { question.hauls.len() as u64 };
    let found = with_progress(&control, USUAL_RUNS * cells, || match arguments.flow {
        Some(flow) => {
            distance_for_flow(&scenario.plan, &question, flow / units.flow(1.0), &control)
        }
        None => flow_by_distance(&scenario.plan, &question, &control),
    });
    let charts = Charts::new(&arguments.charts, arguments.scenario.json, &found.title)
        .filter(|_| !found.rows.is_empty());
    let words = Words::new(arguments.scenario.tender);
    if let Some(charts) = &charts {
        charts.write("reach", &chart::flow_by_distance::chart(&found, units, words.tanker)?)?;
    }
    if arguments.scenario.json {
        print_json(&found)?;
    } else {
        let mut text = answer(&found, &scenario, &question, words);
        if let Some(charts) = charts {
            let _ = writeln!(text, "Wall chart: {}reach.svg and .png", charts.folder());
        } else if found.wanted_gpm.is_some() {
            text.push_str("--flow draws no chart; without it `reach` draws the wall chart.\n");
        }
        let _ = writeln!(text, "{CAUTION}");
        print(&text)?;
    }
    Ok(exit(found.ended_early))
}

/// The place of the site asked for.
fn site(scenario: &Scenario, asked: Option<&str>) -> Result<usize, Failure> {
    let sites = &scenario.plan.facts().fill_sites;
    let Some(asked) = asked else {
        return Ok(0);
    };
    sites.iter().position(|site| site.name == asked).ok_or_else(|| Failure::NoSuchSite {
        asked: asked.to_owned(),
        file: scenario.path.clone(),
        there: sites.iter().map(|site| site.name.clone()).collect(),
    })
}

/// The start rule of a grading: the least flow within 5 minutes of the first engine, the whole flow
/// by the minute that the region's rule names.
fn demand(units: Units, minutes: f64) -> Demand {
    let rule = &GradingRule::usual(units)[0];
    Demand { minutes, ..rule.demand() }
}

fn answer(
    found: &ReachAnswer,
    scenario: &Scenario,
    question: &ReachQuestion,
    words: Words,
) -> String {
    let units = scenario.units;
    let mut text = wrapped(&format!("{}: how far from {}", found.title, found.site));
    text.push('\n');
    text.push_str(&wrapped(&match found.wanted_gpm {
        Some(wanted) => distance_sentence(found, wanted, units, words),
        None => flow_sentence(found, units, words),
    }));
    text.push('\n');
    text.push_str(&match found.wanted_gpm {
        Some(_) => distance_table(found, units, words),
        None => flow_table(found, units, words),
    });
    let demand = found.demand;
    let passes = found.site_cap_gpm.map_or_else(String::new, |gpm| {
        format!(" ({} passes no more than {} by hand with all of them)", found.site, units.gpm(gpm))
    });
    let runs: u64 = (found.rows.iter().flat_map(|row| &row.cells).map(|cell| cell.replications))
        .chain(found.distances.iter().map(|row| row.replications))
        .sum();
    text.push_str(&wrapped(&format!(
        "\nHolds: unbroken in at least {} of fires for {} from minute {:.0} after the first engine's \
         arrival, and {} (or the flow, if less) from minute {:.0} on; the first loads and full tanks count, \
         so it may be more than by hand{}. Road: {}. {}s arrive as the scenario says, in its order. {} runs, seed {}; all words of the table hold together with 95% confidence. \
         bucketline {}.",
        percent_as_asked(found.share),
        duration(demand.minutes),
        demand.full_from,
        units.gpm(demand.minimum),
        demand.minimum_from,
        passes,
        driven(scenario, question.site),
        capital(words.tanker),
        whole(runs as f64),
        found.seed,
        env!("CARGO_PKG_VERSION")
    )));
    if found.ended_early {
        text.push_str("Ended early: what was not reached is left out.\n");
    }
    text
}

fn flow_sentence(found: &ReachAnswer, units: Units, words: Words) -> String {
    let held = |row: &shuttle_report::reach::ReachRow| {
        let last = row.cells.last()?;
        Some((units.miles(row.miles), last.tankers, units.gpm(last.held_gpm?)))
    };
    // At 2 miles, a usual haul, or the nearest to it that was worked out.
    let usual = (found.rows.iter())
        .filter(|row| held(row).is_some())
        .min_by(|a, b| (a.miles - 2.0).abs().total_cmp(&(b.miles - 2.0).abs()));
    match usual.and_then(|row| held(row).map(|told| (row, told))) {
        Some((row, (miles, tankers, flow))) => {
            let mut told = format!(
                "At {miles} one way {} hold {flow} in at least {} of fires, for {} from minute {:.0}; until \
                 then {}, or the flow if less.",
                words.count(tankers),
                percent_as_asked(found.share),
                duration(found.demand.minutes),
                found.demand.full_from,
                units.gpm(found.demand.minimum)
            );
            if let Some(enough) = row.enough {
                let _ = write!(
                    told,
                    " Beyond {} another adds no more than its first load.",
                    words.count(enough)
                );
            }
            told
        }
        None if found.ended_early => "Ended before anything was clear.".to_owned(),
        None if found
            .rows
            .iter()
            .flat_map(|row| &row.cells)
            .any(|c| c.not_clear_up_to_gpm.is_some()) =>
        {
            format!(
                "Not clear from this many runs: no flow surely holds in {} of fires; more runs (--runs) \
                 would show.",
                percent_as_asked(found.share)
            )
        }
        None => format!(
            "No flow surely holds in {} of fires at any distance tried: see what `bucketline risk` says \
             of the start.",
            percent_as_asked(found.share)
        ),
    }
}

fn flow_table(found: &ReachAnswer, units: Units, words: Words) -> String {
    // Ten columns fit; with more, every second or third and the last are shown.
    let count = found.tankers.len();
    let every = count.div_ceil(10);
    let shown: Vec<usize> = (1..=count).filter(|n| n % every == 0 || *n == count).collect();
    let mut text = format!(
        "{:>8}  {}, with so many {}s (in brackets by hand)\n",
        "one way",
        units.flow_sign(),
        words.tanker
    );
    let mut head = format!("{:>8}", units.distance_sign());
    for n in &shown {
        let _ = write!(head, "{n:>9}");
    }
    let _ = writeln!(text, "{head}  enough");
    for row in &found.rows {
        let mut line = format!("{:>8.1}", units.distance(row.miles));
        for n in &shown {
            let _ = write!(line, "{:>9}", cell(&row.cells[n - 1], units));
        }
        let enough = row.enough.map_or_else(|| "-".to_owned(), |n| n.to_string());
        let _ = writeln!(text, "{line}  {enough:>6}");
        let mut by_hand = " ".repeat(8);
        for n in &shown {
            let one = &row.cells[n - 1];
            let said = if one.can_work {
                format!("({})", whole(units.flow(one.hand_gpm)))
            } else {
                String::new()
            };
            let _ = write!(by_hand, "{said:>9}");
        }
        let _ = writeln!(text, "{}", by_hand.trim_end());
    }
    let any =
        |test: fn(&ReachCell) -> bool| found.rows.iter().any(|row| row.cells.iter().any(test));
    if any(|cell| !cell.can_work) {
        text.push_str(
            "x cannot work: no drop tank comes with so few, and nursing is not allowed\n",
        );
    }
    if any(|cell| cell.not_clear_up_to_gpm.is_some()) {
        text.push_str("+ surely this much; a little more is not clear from this many runs\n");
    }
    text
}

fn cell(one: &ReachCell, units: Units) -> String {
    if !one.can_work {
        return "x".to_owned();
    }
    let held = one.held_gpm.map_or("none".to_owned(), |gpm| whole(units.flow(gpm)));
    format!("{held}{}", if one.not_clear_up_to_gpm.is_some() { "+" } else { "" })
}

fn distance_sentence(found: &ReachAnswer, wanted: f64, units: Units, words: Words) -> String {
    let wanted = units.gpm(wanted);
    let sure = percent_as_asked(found.share);
    match found.distances.iter().rev().find_map(|row| Some((row, row.held_miles?))) {
        Some((row, miles)) => {
            let beyond =
                if row.at_the_end { " and perhaps beyond, the farthest tried" } else { "" };
            format!(
                "{wanted} holds up to {} from water with {}, in at least {sure} of fires{beyond}.",
                units.miles(miles),
                words.count(row.tankers)
            )
        }
        None if found.ended_early => "Ended before anything was clear.".to_owned(),
        None if found.distances.iter().any(|row| row.not_clear_up_to_miles.is_some()) => format!(
            "Not clear from this many runs: at no distance tried does {wanted} surely hold in {sure} of \
             fires; more runs (--runs) would show."
        ),
        None => format!("{wanted} surely holds at no distance tried in {sure} of fires."),
    }
}

fn distance_table(found: &ReachAnswer, units: Units, words: Words) -> String {
    let sign = units.distance_sign();
    let mut text = format!(
        "{:>8}  {:>10}  {:>9}   what breaks it farther out\n",
        format!("{}s", words.tanker),
        format!("by hand {sign}"),
        format!("holds {sign}")
    );
    let told = |miles: Option<f64>| {
        miles.map_or("none".to_owned(), |miles| format!("{:.1}", units.distance(miles)))
    };
    for row in &found.distances {
        let why = row.binds.and_then(|(key, share)| {
            let cause = Cause::ALL.into_iter().find(|cause| cause.key() == key)?;
            Some(format!("{} ({:.0}%)", words.put(cause.words()), 100.0 * share))
        });
        let line = format!(
            "{:>8}  {:>10}  {:>9}{}  {}",
            row.tankers,
            told(row.hand_miles),
            told(row.held_miles),
            if row.not_clear_up_to_miles.is_some() { '+' } else { ' ' },
            why.unwrap_or_default()
        );
        let _ = writeln!(text, "{}", line.trim_end());
    }
    if found.distances.iter().any(|row| row.not_clear_up_to_miles.is_some()) {
        text.push_str("+ surely this far; a little farther is not clear from this many runs\n");
    }
    text
}
