//! One run of a scenario as JSON for the peers: what it gave, and what was drawn once a fire, so that another
//! program can run the same fire.
//!
//! ```text
//! one_run FILE            the planned run
//! one_run FILE SEED RUN   a drawn one
//! ```

use std::process::ExitCode;

use serde_json::{Map, Value, json};
use shuttle_sim::{
    Brought, Call, Doing, Happening, Luck, Plan, RunResult, Shuttle, Subject, Trace,
};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match told(&arguments) {
        Ok(run) => {
            println!("{run}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn told(arguments: &[String]) -> Result<Value, String> {
    let number = |text: &String| text.parse::<u64>().map_err(|error| format!("{text}: {error}"));
    let (file, luck) = match arguments {
        [file] => (file, Luck::Planned),
        [file, seed, run] => (file, Luck::Drawn { seed: number(seed)?, replication: number(run)? }),
        _ => return Err("FILE, or FILE SEED RUN".to_owned()),
    };
    let scenario = scenario_file::load(file.as_ref()).map_err(|error| error.to_string())?;
    let plan = &scenario.plan;
    let (result, trace) = Shuttle::new(plan).run_traced(luck);
    let mut run = given(plan, &result);
    run["shared_luck"] = shared_luck(plan, &result, &trace);
    Ok(run)
}

/// What the run gave; keys as of `bucketline replay --json`.
fn given(plan: &Plan, result: &RunResult) -> Value {
    let interruptions: Vec<Value> = (result.interruptions.iter())
        .map(
            |one| json!({"start_min": one.start, "minutes": one.minutes, "cause": one.cause.key()}),
        )
        .collect();
    let tankers: Vec<Value> = (plan.facts().tankers.iter().zip(&result.tankers))
        .map(|(tanker, record)| json!({"name": tanker.name, "trips": record.trips}))
        .collect();
    json!({
        "first_water_min": result.first_water,
        "established_min": result.established,
        "minutes_short": result.minutes_short.iter().sum::<f64>(),
        "unmet_gal": result.unmet.iter().sum::<f64>(),
        "delivered_gal": result.delivered,
        "lowest_engine_gal": result.lowest_engine,
        "reserve_touched": result.reserve_touched,
        "interruptions": interruptions,
        "tankers": tankers,
    })
}

/// What was drawn once this fire, by the names that the scenario gives: factors, who stays away, and where in
/// the watch (0 to 1) something fails.
fn shared_luck(plan: &Plan, result: &RunResult, trace: &Trace) -> Value {
    let facts = plan.facts();
    let (mut factors, mut fails) = (Map::new(), Map::new());
    for note in &trace.notes {
        let in_the_watch = (note.minute - result.first_water) / facts.incident.duration;
        match note.happening {
            Happening::WholeFire { driving, handling, response } => {
                factors.insert("driving".to_owned(), json!(driving));
                factors.insert("handling".to_owned(), json!(handling));
                factors.insert("response".to_owned(), json!(response));
            }
            Happening::Crew(tanker, factor) => {
                factors.insert(facts.tankers[tanker].name.clone(), json!(factor));
            }
            Happening::PumpFailed => {
                fails.insert("draft pump".to_owned(), json!(in_the_watch));
            }
            Happening::FillSiteFailed(site) => {
                fails.insert(facts.fill_sites[site].name.clone(), json!(in_the_watch));
            }
            _ => {}
        }
    }
    json!({"factors": factors, "away": away(plan, result, trace), "fails": fails})
}

/// Who stays away. Who has neither come nor been missed by the end of the watch makes no difference, and counts
/// as away.
fn away(plan: &Plan, result: &RunResult, trace: &Trace) -> Vec<String> {
    let facts = plan.facts();
    let mut units: Vec<(Subject, String, &Call)> = Vec::new();
    if let Some(engine) = &facts.supply.engine {
        units.push((Subject::SupplyEngine, engine.name.clone(), &engine.call));
    }
    for (place, tank) in facts.drop_tanks.iter().enumerate() {
        if let Brought::Itself(call) = &tank.brought {
            units.push((Subject::DropTank(place), format!("drop tank {}", place + 1), call));
        }
    }
    for (place, tanker) in facts.tankers.iter().enumerate() {
        units.push((Subject::Tanker(place), tanker.name.clone(), &tanker.call));
    }
    for (place, site) in facts.fill_sites.iter().enumerate() {
        let pump = site.source_pump.as_ref();
        if let Some((name, Brought::Itself(call))) = pump.map(|pump| (&pump.name, &pump.brought)) {
            units.push((Subject::SourcePump(place), name.clone(), call));
        }
    }
    let seen = |what: &dyn Fn(Happening) -> bool| trace.notes.iter().any(|n| what(n.happening));
    (units.into_iter())
        .filter(|(unit, _, call)| {
            let came = seen(&|happening| match happening {
                Happening::SupplyEngineArrived => *unit == Subject::SupplyEngine,
                Happening::DropTankArrived(tank) => *unit == Subject::DropTank(tank),
                Happening::FillSiteReady(site) => *unit == Subject::SourcePump(site),
                Happening::Tanker(tanker, Doing::WaitingAtScene) => {
                    *unit == Subject::Tanker(tanker)
                }
                _ => false,
            });
            let expected = call.requested_at + call.response.mean();
            seen(&|happening| happening == Happening::StaysAway(*unit))
                || (!came && expected >= result.end)
        })
        .map(|(_, name, _)| name)
        .collect()
}
