//! Published drills replayed: what the plan can carry against what the drill is reported to have
//! flowed.
//!
//! The scenario files in `scenarios/drills` hold what each report states, and say what is assumed
//! where it is silent. To find what a plan can carry the lines here ask for far more than it can
//! bring, and the pump operator gates down to what comes in, so that prime is never lost: what
//! reaches the lines is then what the shuttle brings. Nothing is adjusted to meet a drill. Everything
//! that is assumed is a guess in the file, as wide as the range it was taken from; a drill is met when
//! the published flow lies in the range over those guesses.

#[path = "drills/chart.rs"]
mod chart;

use std::path::Path;
use std::sync::LazyLock;

use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_report::doubt::DRAWS;
use shuttle_report::doubt::outer::{OuterDraws, under_each};
use shuttle_report::doubt::range::{Figures, Range};
use shuttle_report::side_by_side::SameLuck;
use shuttle_sim::{FlowStep, Plan, TimeTaken};

/// Asked for at the lines, gpm: about three times the greatest flow of any of the drills.
const MORE_THAN_ANY_BRINGS: f64 = 3000.0;
/// Minutes from first water left out of a sustained flow: more than the longest first round trip
/// (25 minutes), so the loads the tankers came with are used up.
const START_UP: f64 = 30.0;
/// Minutes over which a sustained flow is taken: many cycles, as tankers that start together come
/// in bunches, and over the two hours of a drill a bunch more or less at the end is up to 4%.
const SUSTAINED: f64 = 1200.0;
/// Runs for each figure; the mean then stands to well below one gpm.
const RUNS: u64 = 100;
/// Runs under each draw of what is guessed: two tell the noise of their mean.
const RUNS_A_DRAW: u64 = 2;

/// How the report counts, and so how the model is counted beside it.
#[derive(Clone, Copy, PartialEq)]
enum Counts {
    /// All gallons over the stated time, from first water on, the attack engine's own not counted.
    WholeWatch,
    /// The flow kept up once the shuttle runs.
    AfterStartUp,
}

/// Where the published flow lies against the range over what was not stated.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Lies {
    /// In it: met.
    Within,
    /// Below it.
    Below,
    /// Above it.
    Above,
}

struct Drill {
    /// File in `scenarios/drills`.
    file: &'static str,
    /// What the source calls it.
    source: &'static str,
    /// In the report's words.
    reported: &'static str,
    /// What the report comes to, gpm.
    gpm: f64,
    counts: Counts,
    /// Where it lies; a change that moves it is seen.
    lies: Lies,
    /// Why model and report differ, most likely.
    reason: &'static str,
}

const DRILLS: [Drill; 6] = [
    Drill {
        file: "five_tankers_large_source",
        source: "Massachusetts, 2000",
        reported: "more than 70,000 gal in 90 min",
        gpm: 70_000.0 / 90.0,
        counts: Counts::WholeWatch,
        lies: Lies::Above,
        reason: "loads may have been counted as full tanks, without the 10% lost here",
    },
    Drill {
        file: "ten_tankers_one_pond",
        source: "Maryland, 2010",
        reported: "800 gpm for 2 h",
        gpm: 800.0,
        counts: Counts::AfterStartUp,
        lies: Lies::Within,
        reason: "the pond's assumed 1,000 gpm, less 10%, is the model's limit; the drill flowed what \
                 was asked for",
    },
    Drill {
        file: "nine_tankers_two_sites",
        source: "New York, 2022",
        reported: "1,000 gpm unbroken for 2 h",
        gpm: 1000.0,
        counts: Counts::AfterStartUp,
        lies: Lies::Within,
        reason: "sizes not stated: flow goes nearly with the size, and 2,100 gal is assumed",
    },
    Drill {
        file: "thirteen_tankers_two_sites",
        source: "New York, year not recorded",
        reported: "reached 1,000 gpm",
        gpm: 1000.0,
        counts: Counts::AfterStartUp,
        lies: Lies::Within,
        reason: "sizes not stated; a flow that was reached may be in part water from storage",
    },
    Drill {
        file: "five_tankers_short_course",
        source: "Alabama, 2019",
        reported: "500 gpm unbroken for 2 h",
        gpm: 500.0,
        counts: Counts::AfterStartUp,
        lies: Lies::Below,
        reason: "the drill flowed what was asked for, the model gives the most the plan could carry; \
                 sizes and the source's flow not stated",
    },
    Drill {
        file: "four_large_tankers_two_sites",
        source: "Pennsylvania, 2023",
        reported: "a peak of 750 gpm",
        gpm: 750.0,
        counts: Counts::AfterStartUp,
        lies: Lies::Above,
        reason: "a peak is water from storage (three drop tanks), not a sustained flow; sizes are \
                 only stated as more than 3,000 gal",
    },
];

fn plan_of(drill: &Drill) -> Plan {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/drills");
    let file = folder.join(drill.file).with_extension("json");
    scenario_file::load(&file).unwrap_or_else(|error| panic!("{error}")).plan
}

/// Gallons that reach the lines in the first `minutes` from first water when they take all that
/// comes; mean over runs.
fn gallons_within(plan: &Plan, minutes: f64) -> f64 {
    let plan = asking_for_more(plan, minutes);
    let runs = Runs { first: 0, count: RUNS, seed: 1, threads: 2 };
    let tally = run_batch(&plan, runs, Keep::Sums, &Control::default()).tally;
    tally.details.expect("kept").delivered[0] / tally.runs as f64
}

/// What the plan carries as the report counts it, gpm.
fn carried(plan: &Plan, counts: Counts) -> f64 {
    match counts {
        Counts::WholeWatch => {
            let minutes = plan.facts().incident.duration;
            (gallons_within(plan, minutes) - plan.facts().attack_engine.tank) / minutes
        }
        // Both watches meet the same luck, so the difference is what came in between.
        Counts::AfterStartUp => {
            let all = gallons_within(plan, START_UP + SUSTAINED);
            (all - gallons_within(plan, START_UP)) / SUSTAINED
        }
    }
}

/// The plan with so much more asked for, watched for so long.
fn asking_for_more(plan: &Plan, minutes: f64) -> Plan {
    let mut facts = plan.facts().clone();
    facts.incident.duration = minutes;
    facts.incident.attack_flow = vec![FlowStep { from: 0.0, flow: MORE_THAN_ANY_BRINGS }];
    Plan::check(facts).expect("a drill with more asked for is still a plan")
}

/// What the plan carries over what its guesses may be, gpm.
fn range(plan: &Plan, counts: Counts) -> Range {
    let draws = OuterDraws::of(plan, 1, DRAWS).expect("every drill guesses something");
    let luck = SameLuck { seed: 1, threads: 2 };
    let gallons = |minutes: f64| -> Vec<Vec<f64>> {
        let plan = asking_for_more(plan, minutes);
        let delivered = |run: &shuttle_sim::RunResult| run.delivered;
        under_each(&plan, &draws, (DRAWS, RUNS_A_DRAW), luck, &Control::default(), delivered)
            .expect("not stopped")
    };
    let flows: Vec<Vec<f64>> = match counts {
        Counts::WholeWatch => {
            let minutes = plan.facts().incident.duration;
            let own = plan.facts().attack_engine.tank;
            let flow = |gallons: &f64| (gallons - own) / minutes;
            gallons(minutes).iter().map(|runs| runs.iter().map(flow).collect()).collect()
        }
        Counts::AfterStartUp => (gallons(START_UP + SUSTAINED).iter().zip(gallons(START_UP)))
            .map(|(all, first)| {
                all.iter().zip(first).map(|(all, first)| (all - first) / SUSTAINED).collect()
            })
            .collect(),
    };
    let estimates: Vec<(f64, f64)> = flows
        .iter()
        .map(|runs| (0.5 * (runs[0] + runs[1]), 0.25 * (runs[0] - runs[1]).powi(2)))
        .collect();
    Figures::of(&estimates).range
}

/// Where a flow lies against a range.
fn lies(gpm: f64, range: Range) -> Lies {
    if gpm < range.low {
        Lies::Below
    } else if gpm > range.high {
        Lies::Above
    } else {
        Lies::Within
    }
}

/// What the model gives for a drill, gpm.
struct Replayed {
    model: f64,
    range: Range,
}

/// One for each drill, worked out once for the table and the chart.
static REPLAYED: LazyLock<Vec<Replayed>> = LazyLock::new(|| {
    let replay = |drill: &Drill| {
        let plan = plan_of(drill);
        Replayed { model: carried(&plan, drill.counts), range: range(&plan, drill.counts) }
    };
    DRILLS.iter().map(replay).collect()
});

fn in_words(lies: Lies) -> &'static str {
    match lies {
        Lies::Within => "met",
        Lies::Below => "no: below the range",
        Lies::Above => "no: above the range",
    }
}

/// The table as it stands in VALIDATION.md.
fn table() -> String {
    let mut lines = vec![
        "| drill | reported | gpm | model as assumed | range over what was assumed | width | met \
         | likely reason of the difference |"
            .to_string(),
        "| --- | --- | ---: | ---: | ---: | ---: | --- | --- |".to_string(),
    ];
    for (drill, Replayed { model, range }) in DRILLS.iter().zip(&*REPLAYED) {
        lines.push(format!(
            "| {} (`{}`) | {} | {:.0} | {:.0} | {:.0} to {:.0} | {:.0} | {} | {} |",
            drill.source,
            drill.file,
            drill.reported,
            drill.gpm,
            model,
            range.low,
            range.high,
            range.high - range.low,
            in_words(lies(drill.gpm, *range)),
            drill.reason,
        ));
    }
    lines.join("\n")
}

/// The chart as it is kept beside VALIDATION.md.
fn drawn() -> String {
    let lines = DRILLS.iter().zip(&*REPLAYED).map(|(drill, replayed)| chart::Line {
        source: drill.source,
        reported: drill.reported,
        gpm: drill.gpm,
        model: replayed.model,
        range: [replayed.range.low, replayed.range.high],
        held: in_words(lies(drill.gpm, replayed.range)),
    });
    chart::chart(&lines.collect::<Vec<_>>())
}

#[test]
fn each_drill_lies_where_it_is_said_to_lie() {
    for (drill, replayed) in DRILLS.iter().zip(&*REPLAYED) {
        let Range { low, high, .. } = replayed.range;
        assert_eq!(
            lies(drill.gpm, replayed.range),
            drill.lies,
            "{}: {:.0} gpm ({}), range {low:.0} to {high:.0}",
            drill.source,
            drill.gpm,
            drill.reported
        );
    }
}

/// A range so wide that it holds any flow would tell nothing: with three times the haul no drill is met.
#[test]
fn three_times_the_haul_would_not_be_taken_for_a_drill_that_is_met() {
    for drill in DRILLS.iter().filter(|drill| drill.lies == Lies::Within) {
        let mut facts = plan_of(drill).facts().clone();
        for site in &mut facts.fill_sites {
            for leg in [&mut site.out, &mut site.back] {
                let TimeTaken::Fixed(minutes) = leg.time else { panic!("{}", drill.file) };
                leg.time = TimeTaken::Fixed(3.0 * minutes);
            }
        }
        let plan = Plan::check(facts).expect("a longer haul is still a plan");
        let range = range(&plan, drill.counts);
        assert_eq!(lies(drill.gpm, range), Lies::Above, "{}: {range:?}", drill.source);
    }
}

#[test]
fn the_lines_ask_for_more_than_any_drill_brings() {
    for drill in &DRILLS {
        let got = carried(&plan_of(drill), Counts::AfterStartUp);
        assert!(got < MORE_THAN_ANY_BRINGS / 2.0, "{}: {got:.0} gpm", drill.file);
    }
}

#[test]
fn the_drill_files_say_what_is_stated_and_ask_for_the_reported_flow() {
    for drill in &DRILLS {
        let facts = plan_of(drill).facts().clone();
        let [step] = facts.incident.attack_flow[..] else { panic!("{}: one flow", drill.file) };
        assert!((step.flow - drill.gpm).abs() < 0.5, "{}: {} gpm", drill.file, step.flow);
    }
}

#[test]
fn the_printed_table_is_current() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("VALIDATION.md");
    let kept = std::fs::read_to_string(file).expect("tests/VALIDATION.md");
    let table = table();
    println!("{table}");
    assert!(kept.contains(&table), "tests/VALIDATION.md should hold this table:\n{table}");
}

/// `DRAW_DRILLS=1 cargo test -p bucketline-tests --test drills` draws it anew.
#[test]
fn the_kept_chart_is_current() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("validation_drills.svg");
    let drawn = drawn();
    if std::env::var_os("DRAW_DRILLS").is_some() {
        std::fs::write(&file, &drawn).expect("a chart written");
    }
    let kept = std::fs::read_to_string(&file).unwrap_or_default();
    assert!(kept == drawn, "{} is out of date: DRAW_DRILLS=1 draws it anew", file.display());
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("VALIDATION.md");
    let page = std::fs::read_to_string(page).expect("tests/VALIDATION.md");
    assert!(page.contains("](validation_drills.svg)"), "tests/VALIDATION.md should show the chart");
    shuttle_report::chart::png(&drawn, 860).expect("a picture");
}

/// A drill's marks lie where its figures are: the chart is drawn from them and from nothing else.
#[test]
fn another_figure_makes_another_chart() {
    let line = |gpm| chart::Line {
        source: "A drill",
        reported: "a flow",
        gpm,
        model: 700.0,
        range: [600.0, 800.0],
        held: "held",
    };
    let svg = chart::chart(&[line(350.0)]);
    // A quarter of the way along the scale of 1,400 gpm, from 250 to 680 px.
    assert!(svg.contains("<circle cx=\"357.5\""), "{svg}");
    assert!(svg.contains("+100%"), "{svg}");
    assert_ne!(svg, chart::chart(&[line(360.0)]));
}
