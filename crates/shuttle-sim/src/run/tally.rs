//! What is counted while a run goes on.

use crate::plan::Plan;
use crate::results::RunResult;
use crate::run::judge::Shortfall;
use crate::run::tanker::{Place, TankerState};
use crate::scene::Scene;
use crate::time::{Moment, Ticks};

/// The counts of a run so far.
#[derive(Debug)]
pub(crate) struct Tally {
    pub first_water: Moment,
    /// When the attack engine arrives.
    pub engine_arrives: Moment,
    /// When the watch ends.
    pub end: Moment,
    /// When the supply was established.
    pub established: Option<Moment>,
    /// The present shortfall; `None` while there is none.
    pub shortfall: Option<Shortfall>,
    /// Units and drop tanks that have not yet reached the scene.
    pub still_to_come: u32,
    /// How long places were held within the watch: at fill sites, at drop tanks, at the engine.
    fill_held: Vec<Ticks>,
    dump_held: Vec<Ticks>,
    intake_held: Ticks,
    pub result: RunResult,
}

impl Tally {
    pub fn new(plan: &Plan) -> Tally {
        let facts = plan.facts();
        Tally {
            first_water: Moment::NEVER,
            engine_arrives: Moment::NEVER,
            end: Moment::NEVER,
            established: None,
            shortfall: None,
            still_to_come: 0,
            fill_held: vec![Ticks::NONE; facts.fill_sites.len()],
            dump_held: vec![Ticks::NONE; facts.drop_tanks.len()],
            intake_held: Ticks::NONE,
            result: RunResult { interruptions: Vec::with_capacity(64), ..RunResult::default() },
        }
    }

    pub fn reset(&mut self, plan: &Plan) {
        let facts = plan.facts();
        self.established = None;
        self.shortfall = None;
        self.still_to_come = 0;
        self.fill_held.fill(Ticks::NONE);
        self.dump_held.fill(Ticks::NONE);
        self.intake_held = Ticks::NONE;
        let result = &mut self.result;
        result.interruptions.clear();
        result.lowest_tanks.clear();
        result.tankers.clear();
        result.tankers.resize(facts.tankers.len(), Default::default());
        result.fill_held.clear();
        result.dump_held.clear();
        result.taken.clear();
        result.taken.resize(facts.fill_sites.len(), 0.0);
        result.arrived = facts.attack_engine.tank;
        result.spilled = 0.0;
        result.carried_away = 0.0;
        result.levels.clear();
        result.events = 0;
    }

    /// A place was held between these moments; what lies within the watch counts.
    pub fn held(&mut self, place: Place, from: Moment, to: Moment) {
        let time = to.min(self.end).since(from.max(self.first_water));
        match place {
            Place::Intake => self.intake_held += time,
            Place::DumpPosition(tank) => self.dump_held[tank] += time,
            Place::FillPosition(site) => self.fill_held[site] += time,
        }
    }

    /// The watch is over: everything that was summed elsewhere comes in.
    pub fn close(&mut self, scene: &Scene, tankers: &[TankerState]) {
        let result = &mut self.result;
        result.first_water = self.first_water.minutes();
        result.end = self.end.minutes();
        result.established = self.established.map(Moment::minutes);
        result.intake_held = self.intake_held.minutes();
        result.fill_held.extend(self.fill_held.iter().map(|held| held.minutes()));
        result.dump_held.extend(self.dump_held.iter().map(|held| held.minutes()));
        result.remaining = scene.water_held();
        for tanker in tankers.iter().filter(|tanker| tanker.phase.holds_water_at_scene()) {
            result.remaining += tanker.load + tanker.waste;
        }
        for (tanker, rest) in scene.moving_rests() {
            result.tankers[tanker].delivered += tankers[tanker].began_with - rest;
        }
        for (record, tanker) in result.tankers.iter_mut().zip(tankers) {
            record.trips = tanker.trips;
            record.cycles = tanker.cycles;
            record.parts = tanker.of_whole_cycles();
            record.held_up = tanker.held_up;
        }
        let meter = &scene.meter;
        result.minutes_short = meter.minutes_short;
        result.unmet = meter.unmet;
        result.delivered = meter.delivered;
        result.wanted = meter.wanted;
        result.reserve_touched = meter.reserve_touched;
        result.lowest_engine = meter.lowest_engine;
        result.lowest_tanks.extend(scene.tanks.iter().map(|tank| tank.lowest));
        result.levels.extend_from_slice(&meter.levels);
    }
}
