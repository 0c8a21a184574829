//! One fire as the clock shows it: the story that `replay` tells, and the levels and flows between its lines.

use std::path::Path;

use answers::Reader;
use answers::json::{json, told_for_page};
use answers::question::replay::{Which, replay};
use scenario_file::{Before, Units};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use shuttle_sim::Shuttle;

use crate::asked::Unit;
use crate::calls::{drawn, imprint_of, kept_for_backing_out};
use crate::reply::{ReplyOf, mistakes};

/// Which fire.
#[derive(Debug, Clone, Deserialize)]
pub struct FireAsk {
    /// Its number in the batch, from 1; the one with every duration at its mean where it is not stated.
    #[serde(default)]
    pub run: Option<u64>,
    /// Whether it is the one in the middle of the batch.
    #[serde(default)]
    pub typical: bool,
    /// Seed of the batch.
    #[serde(default)]
    pub seed: u64,
    /// Whether a truck that carries water is a tender to the reader.
    #[serde(default)]
    pub tender: bool,
    /// Units of volumes and flows; those of the scenario where they are not stated.
    #[serde(default)]
    pub units: Option<Unit>,
    /// Whether its picture is wanted too.
    #[serde(default)]
    pub draws: bool,
}

/// One fire.
#[derive(Debug, Clone, Serialize)]
pub struct Fire {
    /// As `replay` prints it with `--json`.
    pub story: Value,
    /// The units of the figures below, as signs: of volumes and of flows.
    pub signs: [&'static str; 2],
    /// What the attack engine's tank holds.
    pub engine_holds: f64,
    /// What each drop tank holds.
    pub drop_tanks_hold: Vec<f64>,
    /// What each tanker carries when full, in the order of the story's tankers.
    pub tankers_hold: Vec<f64>,
    /// When each tanker is asked for, minutes after the alarm.
    pub tankers_asked_min: Vec<f64>,
    /// Levels and flows at every moment at which a flow changed, in order of time.
    pub course: Vec<Level>,
}

/// Levels at a moment, and the flows from then on.
#[derive(Debug, Clone, Serialize)]
pub struct Level {
    /// Minutes after the alarm.
    pub minute: f64,
    /// In the drop tanks.
    pub drop_tanks: Vec<f64>,
    /// In the attack engine's tank.
    pub engine: f64,
    /// The flow that the attack lines want.
    pub wanted: f64,
    /// The flow that they are given.
    pub given: f64,
}

/// Tells one fire.
///
/// - Given: the name of the scenario's file, for messages, and its text.
pub fn fire(name: &str, text: &str, ask: &FireAsk) -> ReplyOf<Fire> {
    let scenario = match scenario_file::read(Path::new(name), text) {
        Ok(scenario) => scenario,
        Err(error) => {
            let before = Before::Page { tender: ask.tender };
            return ReplyOf::Wrong { mistakes: mistakes(error, before) };
        }
    };
    let units = ask.units.map_or(scenario.units, Units::from);
    let reader = Reader { units, tender: ask.tender };
    let which = match ask.run {
        _ if ask.typical => Which::typical(&scenario.plan, ask.seed),
        None => Which::Planned,
        Some(run) => Which::Drawn { run, seed: ask.seed },
    };
    let luck = which.luck();
    let told = replay(&scenario, which);
    let pictures = if ask.draws { drawn(&told, &reader, &imprint_of(name)) } else { Vec::new() };
    let facts = scenario.plan.facts();
    let (_, trace) = Shuttle::new(&scenario.plan).run_traced(luck);
    let course = (trace.course.iter().zip(&trace.lines))
        .filter_map(|((minute, levels), (wanted, given))| {
            let (engine, drop_tanks) = levels.split_last()?;
            Some(Level {
                minute: *minute,
                drop_tanks: drop_tanks.iter().map(|level| units.volume(*level)).collect(),
                engine: units.volume(*engine),
                wanted: units.flow(*wanted),
                given: units.flow(*given),
            })
        })
        .collect();
    let answer = Fire {
        story: json(&told, &reader),
        signs: [units.volume_sign(), units.flow_sign()],
        engine_holds: units.volume(facts.attack_engine.tank),
        drop_tanks_hold: (facts.drop_tanks.iter()).map(|one| units.volume(one.capacity)).collect(),
        tankers_hold: (facts.tankers.iter()).map(|one| units.volume(one.capacity)).collect(),
        tankers_asked_min: facts.tankers.iter().map(|one| one.call.requested_at).collect(),
        course,
    };
    let reserve = kept_for_backing_out(&scenario).map(|of| reader.put(&of));
    ReplyOf::Answered { answer, told: told_for_page(&told, &reader), reserve, pictures }
}
