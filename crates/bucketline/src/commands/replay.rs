//! `replay`: one simulated fire, minute by minute.

use std::fmt::Write;

use serde::Serialize;
use shuttle_report::chart;
use shuttle_report::units::{Units, minutes, whole};
use shuttle_sim::{Cause, Doing, Happening, Luck, Note, Plan, RunResult, Shuttle, Trace};

use crate::answer_text::{WIDTH, Words, wrapped};
use crate::answers::charts::Charts;
use crate::answers::closing::print_answer;
use crate::answers::figures::headline;
use crate::arguments::ReplayArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print_json;

/// Width of what happened in the timeline, characters.
const WHAT: usize = 34;

/// Everything `--json` prints.
#[derive(Serialize)]
struct Json {
    title: String,
    planned: bool,
    run: Option<u64>,
    seed: Option<u64>,
    first_water_min: f64,
    end_min: f64,
    established_min: Option<f64>,
    interruptions: Vec<JsonInterruption>,
    minutes_short: f64,
    unmet_gal: f64,
    delivered_gal: f64,
    wanted_gal: f64,
    spilled_gal: f64,
    arrived_gal: f64,
    remaining_gal: f64,
    carried_away_gal: f64,
    reserve_touched: bool,
    lowest_engine_gal: f64,
    lowest_drop_tanks_gal: Vec<Option<f64>>,
    tankers: Vec<JsonTanker>,
    timeline: Vec<JsonNote>,
}

#[derive(Serialize)]
struct JsonInterruption {
    start_min: f64,
    minutes: f64,
    before_supply: bool,
    cause: &'static str,
}

#[derive(Serialize)]
struct JsonTanker {
    name: String,
    trips: u32,
    delivered_gal: f64,
}

#[derive(Serialize)]
struct JsonNote {
    minute: f64,
    who: String,
    what: String,
    drop_tanks_gal: Vec<f64>,
    attack_engine_gal: f64,
}

/// Runs the command.
pub fn run(arguments: &ReplayArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    let plan = &scenario.plan;
    let luck = if arguments.planned {
        Luck::Planned
    } else {
        Luck::Drawn { seed: arguments.seed, replication: arguments.run - 1 }
    };
    let (result, trace) = Shuttle::new(plan).run_traced(luck);
    let json = arguments.scenario.showing.json;
    let charts = Charts::new(&arguments.charts, json, &plan.facts().title);
    if let Some(charts) = &charts {
        let svg =
            chart::timeline::chart(&trace, plan, scenario.units, result.first_water, result.end)?;
        let name = if arguments.planned {
            "replay-planned".to_owned()
        } else {
            format!("replay-run-{}", arguments.run)
        };
        charts.write(&name, &svg)?;
    }
    let words = Words::new(arguments.scenario.showing.tender);
    if json {
        let json = as_json(plan, arguments, &result, &trace, words);
        print_json(&json)?;
    } else {
        let mut text = headline(plan, scenario.units, words);
        text.push('\n');
        text.push_str(&first_sentence(&result, arguments, scenario.units, words));
        text.push('\n');
        text.push_str(&timeline(plan, &trace, scenario.units, words));
        text.push('\n');
        text.push_str(&totals(plan, &result, scenario.units));
        print_answer(text, charts.as_ref())?;
    }
    Ok(Exit::Answered)
}

fn first_sentence(
    result: &RunResult,
    arguments: &ReplayArguments,
    units: Units,
    words: Words,
) -> String {
    let which = if arguments.planned {
        "With every duration at its mean".to_owned()
    } else {
        format!("In run {} of seed {}", arguments.run, arguments.seed)
    };
    let text = match result.interruptions.as_slice() {
        [] => format!("{which} the attack lines keep their flow throughout."),
        all @ [first, ..] => {
            let short: f64 = result.minutes_short.iter().sum();
            let times = match all.len() {
                1 => "once".to_owned(),
                2 => "twice".to_owned(),
                many => format!("{many} times"),
            };
            format!(
                "{which} the attack lines run short {times}, {} minutes and {} in all, the first time \
                 {} minutes after first water (minute {} after the alarm): {}.",
                minutes(short),
                units.gallons(result.unmet.iter().sum()),
                minutes(first.start - result.first_water),
                minutes(first.start),
                words.put(first.cause.words())
            )
        }
    };
    wrapped(&text)
}

fn timeline(plan: &Plan, trace: &Trace, units: Units, words: Words) -> String {
    let facts = plan.facts();
    let columns = facts.drop_tanks.len() + 1;
    let sign = units.volume_sign();
    // With three drop tanks or more the columns are narrower and the names shorter.
    let level_width = if columns <= 3 { 9 } else { 7 };
    let taken = 6 + 2 + 1 + WHAT + columns * (1 + level_width) + 2 + sign.len();
    let who_width = WIDTH.saturating_sub(taken).clamp(10, 20);
    let mut head = format!("{:>6}  {:<who_width$} {:<WHAT$}", "minute", "who", "what");
    for place in 0..facts.drop_tanks.len() {
        let _ = write!(head, " {:>level_width$}", format!("tank {}", place + 1));
    }
    let _ = writeln!(head, " {:>level_width$}  {sign}", "engine");
    let mut text = format!("Minutes after the alarm; levels at that moment.\n\n{head}");
    for (note, levels) in trace.notes.iter().zip(trace.levels.chunks(columns)) {
        let (who, what) = told(plan, note, units, words);
        let mut line = format!(
            "{:>6}  {:<who_width$} {:<WHAT$}",
            minutes(note.minute),
            cut(&who, who_width),
            cut(&what, WHAT)
        );
        for level in levels {
            let _ = write!(line, " {:>level_width$}", whole(units.volume(*level)));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let mut short: String = text.chars().take(most - 1).collect();
    short.push('…');
    short
}

/// Who, and what happened.
fn told(plan: &Plan, note: &Note, units: Units, words: Words) -> (String, String) {
    let facts = plan.facts();
    let site = |place: usize| facts.fill_sites[place].name.clone();
    let tank = |place: usize| format!("drop tank {}", place + 1);
    let capital = |place: usize| format!("Drop tank {}", place + 1);
    let engine = facts.attack_engine.name.clone();
    let pump = (facts.supply.engine.as_ref()).map_or(engine.clone(), |supply| supply.name.clone());
    let lines = "Attack lines".to_owned();
    match note.happening {
        Happening::AttackEngineArrived | Happening::SupplyEngineArrived => {
            let who = if note.happening == Happening::AttackEngineArrived { engine } else { pump };
            (who, "on scene".into())
        }
        Happening::FirstWater => (lines, "first water".into()),
        Happening::FlowWanted(flow) => (lines, format!("need {}", units.gpm(flow))),
        Happening::DropTankArrived(place) => (capital(place), "on scene, setting up".into()),
        Happening::DropTankReady(place) => (capital(place), "ready".into()),
        Happening::HookedUp => (pump, "hooked up to draft".into()),
        Happening::Primed => (pump, "draws: supply established".into()),
        Happening::PrimeLost => (pump, "PRIME LOST".into()),
        Happening::Repriming => (pump, "priming again".into()),
        Happening::PrimeBack => (pump, "draws again".into()),
        Happening::FillSiteReady(place) => (site(place), "ready".into()),
        Happening::FillSiteDry(place) => (site(place), "GONE DRY".into()),
        Happening::Tanker(place, doing) => {
            let what = match doing {
                Doing::Responding => "responding".into(),
                Doing::WaitingAtScene => "in line at the scene".into(),
                Doing::OnDeck => "on deck, kept for the lines".into(),
                Doing::NurseConnecting => "connects to the engine".into(),
                Doing::PumpingOff => "pumps off into the engine".into(),
                Doing::NurseDisconnecting => "empty, disconnects".into(),
                Doing::Positioning(at) => format!("positions at {}", tank(at)),
                Doing::Dumping(at) => format!("dumps into {}", tank(at)),
                Doing::Clearing(at) => format!("pulls clear of {}", tank(at)),
                Doing::BreakingOff(_) => "breaks off dumping to nurse".into(),
                Doing::InRepair => "BROKEN DOWN, being repaired".into(),
                Doing::OutOfService => "OUT OF SERVICE".into(),
                Doing::StandingBy => "stands by: no source can fill it".into(),
                Doing::WaitingForRoad => "waits for the one-lane road".into(),
                Doing::CrossingOneLane => "on the one-lane road".into(),
                Doing::TravelingOut(at) => format!("leaves for {}", site(at)),
                Doing::WaitingToFill(at) => format!("at {}", site(at)),
                Doing::Connecting(_) => "connects to fill".into(),
                Doing::Filling(_) => "fills".into(),
                Doing::Disconnecting(_) => "disconnects".into(),
                Doing::TravelingBack => "drives back".into(),
            };
            (facts.tankers[place].name.clone(), what)
        }
        Happening::RestAboard(place, rest) => {
            let what = format!("can pour no more, {} aboard", units.gallons(rest));
            (facts.tankers[place].name.clone(), what)
        }
        Happening::ShortfallBegan => (lines, "SHORT OF WATER".into()),
        Happening::ShortfallEnded => (lines, "have their flow again".into()),
        Happening::WatchEnded => (lines, words.put("end of the watch")),
    }
}

fn totals(plan: &Plan, result: &RunResult, units: Units) -> String {
    let facts = plan.facts();
    let trips: Vec<String> = (facts.tankers.iter().zip(&result.tankers))
        .map(|(tanker, record)| format!("{}: {}", tanker.name, record.trips))
        .collect();
    let mut text = wrapped(&format!("Trips: {}.", trips.join(" · ")));
    let rests = if result.carried_away > 0.0 {
        format!(" + {} carried away as rests", units.gallons(result.carried_away))
    } else {
        String::new()
    };
    text.push_str(&wrapped(&format!(
        "Water: {} came on scene = {} delivered + {} spilled or underfilled + {} still there{rests}; {} were \
         wanted.",
        units.gallons(result.arrived),
        units.gallons(result.delivered),
        units.gallons(result.spilled),
        units.gallons(result.remaining),
        units.gallons(result.wanted)
    )));
    if facts.incident.reserve > 0.0 {
        text.push_str(&wrapped(&format!(
            "Reserve: the attack engine's tank fell to {} at its lowest; {} are kept for backing out{}.",
            units.gallons(result.lowest_engine),
            units.gallons(facts.incident.reserve),
            if result.reserve_touched { ", and were touched" } else { ", and were not touched" }
        )));
    }
    text
}

fn as_json(
    plan: &Plan,
    arguments: &ReplayArguments,
    result: &RunResult,
    trace: &Trace,
    words: Words,
) -> Json {
    let facts = plan.facts();
    let columns = facts.drop_tanks.len() + 1;
    let drawn = !arguments.planned;
    Json {
        title: facts.title.clone(),
        planned: arguments.planned,
        run: drawn.then_some(arguments.run),
        seed: drawn.then_some(arguments.seed),
        first_water_min: result.first_water,
        end_min: result.end,
        established_min: result.established,
        interruptions: (result.interruptions.iter())
            .map(|one| JsonInterruption {
                start_min: one.start,
                minutes: one.minutes,
                before_supply: one.before_supply,
                cause: Cause::key(one.cause),
            })
            .collect(),
        minutes_short: result.minutes_short.iter().sum(),
        unmet_gal: result.unmet.iter().sum(),
        delivered_gal: result.delivered,
        wanted_gal: result.wanted,
        spilled_gal: result.spilled,
        arrived_gal: result.arrived,
        remaining_gal: result.remaining,
        carried_away_gal: result.carried_away,
        reserve_touched: result.reserve_touched,
        lowest_engine_gal: result.lowest_engine,
        lowest_drop_tanks_gal: (result.lowest_tanks.iter())
            .map(|level| level.is_finite().then_some(*level))
            .collect(),
        tankers: (facts.tankers.iter().zip(&result.tankers))
            .map(|(tanker, record)| JsonTanker {
                name: tanker.name.clone(),
                trips: record.trips,
                delivered_gal: record.delivered,
            })
            .collect(),
        timeline: (trace.notes.iter().zip(trace.levels.chunks(columns)))
            .map(|(note, levels)| {
                let (who, what) = told(plan, note, Units::Us, words);
                JsonNote {
                    minute: note.minute,
                    who,
                    what,
                    drop_tanks_gal: levels[..columns - 1].to_vec(),
                    attack_engine_gal: levels[columns - 1],
                }
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    /// Whatever a tanker does is told whole, with as many drop tanks and as large a rest as one meets.
    #[test]
    fn no_word_of_what_a_tanker_does_is_cut() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        let scenario = scenario_file::load(&root.join("scenarios/orchard_metric.json")).unwrap();
        let (tank, site) = (9, 0);
        let doings = [
            Doing::Responding,
            Doing::WaitingAtScene,
            Doing::OnDeck,
            Doing::NurseConnecting,
            Doing::PumpingOff,
            Doing::NurseDisconnecting,
            Doing::Positioning(tank),
            Doing::Dumping(tank),
            Doing::Clearing(tank),
            Doing::BreakingOff(tank),
            Doing::InRepair,
            Doing::OutOfService,
            Doing::StandingBy,
            Doing::WaitingForRoad,
            Doing::CrossingOneLane,
            Doing::TravelingOut(site),
            Doing::WaitingToFill(site),
            Doing::Connecting(site),
            Doing::Filling(site),
            Doing::Disconnecting(site),
            Doing::TravelingBack,
        ];
        let happenings = doings.map(|doing| Happening::Tanker(0, doing));
        // A tenth of a load of 5,000 gal.
        let rest = [Happening::RestAboard(0, 500.0)];
        for happening in happenings.into_iter().chain(rest) {
            let note = Note { minute: 0.0, happening };
            let (_, what) = told(&scenario.plan, &note, Units::Metric, Words::new(false));
            assert_eq!(cut(&what, WHAT), what);
        }
    }
}
