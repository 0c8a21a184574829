//! Published drills replayed: what the plan can carry against what the drill is reported to have
//! flowed.
//!
//! The scenario files in `scenarios/drills` hold what each report states, and say what is assumed
//! where it is silent. To find what a plan can carry the lines here ask for far more than it can
//! bring, and the pump operator gates down to what comes in, so that prime is never lost: what
//! reaches the lines is then what the shuttle brings. Nothing is adjusted to meet a drill.

#[path = "drills/chart.rs"]
mod chart;

use std::path::Path;
use std::sync::LazyLock;

use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_sim::{FlowStep, Plan, TimeTaken};

/// Asked for at the lines, gpm: about three times the greatest flow of any of the drills.
const MORE_THAN_ANY_BRINGS: f64 = 3000.0;
/// Minutes from first water left out of a sustained flow: more than the longest first round trip
/// (25 minutes), so the loads the tankers came with are used up.
const START_UP: f64 = 30.0;
/// Minutes over which a sustained flow is taken: many cycles, as tankers that start together come
/// in bunches, and over the two hours of a drill a bunch more or less at the end is up to 4%.
const SUSTAINED: f64 = 1200.0;
/// How far a drill with nearly all inputs stated may be from the model.
const ALLOWED: f64 = 0.20;
/// Runs for each figure; the mean then stands to well below one gpm.
const RUNS: u64 = 100;

/// How the report counts, and so how the model is counted beside it.
#[derive(Clone, Copy, PartialEq)]
enum Counts {
    /// All gallons over the stated time, from first water on, the attack engine's own not counted.
    WholeWatch,
    /// The flow kept up once the shuttle runs.
    AfterStartUp,
}

/// Sizes that a report allows, gal.
#[derive(Clone, Copy)]
enum Sizes {
    /// All tankers of one size between these.
    All(f64, f64),
    /// A mixed fleet with at least one tanker of either end.
    OneOfEachEnd(f64, f64),
}

/// Where sizes are not stated: from the ends of the one mixed fleet that is reported.
const NOT_STATED: Sizes = Sizes::All(1200.0, 3000.0);

/// Whether the model is held to the drill.
#[derive(Clone, Copy, PartialEq)]
enum Held {
    /// To 20%.
    Yes,
    /// It was meant to be, and misses by more.
    Missed,
    /// Too little is stated.
    No,
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
    sizes: Sizes,
    held: Held,
    /// Why the two differ, most likely.
    reason: &'static str,
}

/// Chosen before the model was run, to be held to 20%, were the two whose reports leave least open.
/// The Maryland report states the number of tankers, the haul, the one source, both drop tanks and
/// the times to fill and dump, which bound the sizes it does not state. The Massachusetts report
/// states the number of tankers, their range of sizes, the haul and the pump at the source, and a
/// total of gallons, which is what was hauled and not what the lines asked for; the model misses
/// it by a little more than 20%, and the table says so. The others state no sizes, or a peak, or the
/// flow that was asked for.
const DRILLS: [Drill; 6] = [
    Drill {
        file: "five_tankers_large_source",
        source: "Massachusetts, 2000",
        reported: "more than 70,000 gal in 90 min",
        gpm: 70_000.0 / 90.0,
        counts: Counts::WholeWatch,
        sizes: Sizes::OneOfEachEnd(1200.0, 3000.0),
        held: Held::Missed,
        reason: "the largest fleet the range allows still falls 10% short; loads may have been \
                 counted as full tanks, without the 10% lost here",
    },
    Drill {
        file: "ten_tankers_one_pond",
        source: "Maryland, 2010",
        reported: "800 gpm for 2 h",
        gpm: 800.0,
        counts: Counts::AfterStartUp,
        sizes: NOT_STATED,
        held: Held::Yes,
        reason: "the pond's assumed 1,000 gpm, less 10%, is the model's limit; the drill flowed what \
                 was asked for",
    },
    Drill {
        file: "nine_tankers_two_sites",
        source: "New York, 2022",
        reported: "1,000 gpm unbroken for 2 h",
        gpm: 1000.0,
        counts: Counts::AfterStartUp,
        sizes: NOT_STATED,
        held: Held::No,
        reason: "sizes not stated: flow goes nearly with the size, and 2,100 gal is assumed",
    },
    Drill {
        file: "thirteen_tankers_two_sites",
        source: "New York, year not recorded",
        reported: "reached 1,000 gpm",
        gpm: 1000.0,
        counts: Counts::AfterStartUp,
        sizes: NOT_STATED,
        held: Held::No,
        reason: "sizes not stated; a flow that was reached may be in part water from storage",
    },
    Drill {
        file: "five_tankers_short_course",
        source: "Alabama, 2019",
        reported: "500 gpm unbroken for 2 h",
        gpm: 500.0,
        counts: Counts::AfterStartUp,
        sizes: NOT_STATED,
        held: Held::No,
        reason: "the drill flowed what was asked for, the model gives the most the plan could carry; \
                 sizes and the source's flow not stated",
    },
    Drill {
        file: "four_large_tankers_two_sites",
        source: "Pennsylvania, 2023",
        reported: "a peak of 750 gpm",
        gpm: 750.0,
        counts: Counts::AfterStartUp,
        sizes: Sizes::All(3000.0, 4000.0),
        held: Held::No,
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
    let mut facts = plan.facts().clone();
    facts.incident.duration = minutes;
    facts.incident.attack_flow = vec![FlowStep { from: 0.0, flow: MORE_THAN_ANY_BRINGS }];
    let plan = Plan::check(facts).expect("a drill with more asked for is still a plan");
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

/// The same drill with a fleet of other sizes that its report allows.
fn with_sizes(plan: &Plan, size: impl Fn(usize) -> f64) -> Plan {
    let mut facts = plan.facts().clone();
    for (place, tanker) in facts.tankers.iter_mut().enumerate() {
        tanker.capacity = size(place);
    }
    Plan::check(facts).expect("other sizes are still a plan")
}

/// Least and most that the plan carries with the sizes the report allows, gpm.
fn range(drill: &Drill) -> [f64; 2] {
    let plan = plan_of(drill);
    let last = plan.facts().tankers.len() - 1;
    let ends: [Box<dyn Fn(usize) -> f64>; 2] = match drill.sizes {
        Sizes::All(least, most) => [Box::new(move |_| least), Box::new(move |_| most)],
        Sizes::OneOfEachEnd(least, most) => [
            Box::new(move |place| if place == last { most } else { least }),
            Box::new(move |place| if place == 0 { least } else { most }),
        ],
    };
    ends.map(|size| carried(&with_sizes(&plan, size), drill.counts))
}

fn difference(got: f64, drill: &Drill) -> f64 {
    got / drill.gpm - 1.0
}

/// What the model gives for a drill, gpm.
struct Replayed {
    model: f64,
    range: [f64; 2],
}

/// One for each drill, worked out once for the table and the chart.
static REPLAYED: LazyLock<Vec<Replayed>> = LazyLock::new(|| {
    let replay = |drill: &Drill| Replayed {
        model: carried(&plan_of(drill), drill.counts),
        range: range(drill),
    };
    DRILLS.iter().map(replay).collect()
});

/// The table as it stands in VALIDATION.md.
fn table() -> String {
    let mut lines = vec![
        "| drill | reported | gpm | model | difference | model, by sizes left open | held to 20% \
         | likely reason of the difference |"
            .to_string(),
        "| --- | --- | ---: | ---: | ---: | ---: | --- | --- |".to_string(),
    ];
    for (drill, Replayed { model, range: [least, most] }) in DRILLS.iter().zip(&*REPLAYED) {
        lines.push(format!(
            "| {} (`{}`) | {} | {:.0} | {:.0} | {:+.0}% | {:.0} to {:.0} | {} | {} |",
            drill.source,
            drill.file,
            drill.reported,
            drill.gpm,
            model,
            100.0 * difference(*model, drill),
            least,
            most,
            match drill.held {
                Held::Yes => "yes",
                Held::Missed => "missed",
                Held::No => "no",
            },
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
        range: replayed.range,
        held: match drill.held {
            Held::Yes => "held to 20%, met",
            Held::Missed => "held to 20%, missed",
            Held::No => "too little stated to hold",
        },
    });
    chart::chart(&lines.collect::<Vec<_>>())
}

fn held_to_20_percent() -> impl Iterator<Item = &'static Drill> {
    DRILLS.iter().filter(|drill| drill.held == Held::Yes)
}

#[test]
fn drills_with_nearly_all_inputs_stated_are_met_within_20_percent() {
    for drill in held_to_20_percent() {
        let got = carried(&plan_of(drill), drill.counts);
        let off = difference(got, drill);
        assert!(
            off.abs() <= ALLOWED,
            "{}: model {got:.0} gpm, drill {:.0} gpm ({}): {:+.1}%",
            drill.source,
            drill.gpm,
            drill.reported,
            100.0 * off
        );
    }
}

#[test]
fn a_drill_shown_as_missed_is_missed() {
    for drill in DRILLS.iter().filter(|drill| drill.held == Held::Missed) {
        let off = difference(carried(&plan_of(drill), drill.counts), drill);
        assert!(off.abs() > ALLOWED, "{}: {:+.1}%, hold it to 20%", drill.source, 100.0 * off);
    }
}

#[test]
fn twice_the_haul_would_not_be_taken_for_the_drill() {
    for drill in held_to_20_percent() {
        let mut facts = plan_of(drill).facts().clone();
        for site in &mut facts.fill_sites {
            for leg in [&mut site.out, &mut site.back] {
                let TimeTaken::Fixed(minutes) = leg.time else { panic!("{}", drill.file) };
                leg.time = TimeTaken::Fixed(2.0 * minutes);
            }
        }
        let plan = Plan::check(facts).expect("a longer haul is still a plan");
        let got = carried(&plan, drill.counts);
        assert!(difference(got, drill).abs() > ALLOWED, "{}: {got:.0} gpm", drill.source);
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
