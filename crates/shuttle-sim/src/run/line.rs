//! The line at the scene: who goes where next. Rules 1 to 4 of the model, and breaking off.

use crate::luck::Purpose;
use crate::plan::FlowStep;
use crate::run::boss;
use crate::run::shuttle::Shuttle;
use crate::run::tanker::Phase;
use crate::scene::{LEAST_TURN, Pump, SAME_LEVEL, SAME_RATE};
use crate::time::Moment;

/// What is at least so far off is not brought here by rounding, nor by what counts as the same level, minutes.
const NEAR: f64 = 0.01;

/// Where a tanker in the line goes.
#[derive(Debug, Clone, Copy)]
enum Takes {
    Intake,
    DumpPosition(usize),
}

impl Shuttle {
    /// A tanker has come to the scene and joins the line (rule 1).
    pub(crate) fn join_line(&mut self, tanker: usize) {
        self.enter(tanker, Phase::InLine { on_deck: false });
        let state = &self.tankers[tanker];
        self.tally.result.arrived += state.load + state.waste;
        self.line.push(tanker);
        if self.line.len() == 1 {
            self.head_may_go();
        }
    }

    /// Something has happened that may give the head of the line a place.
    pub(crate) fn head_may_go(&mut self) {
        self.head_waits_until = Moment::ALARM;
    }

    /// Whether the lines come first: nursing is allowed, and the pump has not drawn yet or has failed.
    fn lines_come_first(&self) -> bool {
        (self.tally.established.is_none() || self.draft.failed.is_some())
            && self.plan.facts().supply.nurse
            && !self.scene.tanks.is_empty()
    }

    /// Gives places to those in the line.
    ///
    /// - Returns: whether anyone broke off dumping, so that the line must be gone through again.
    pub(crate) fn serve_line(&mut self) -> bool {
        if self.now < self.head_waits_until && !self.scene.is_touched() {
            return false;
        }
        self.head_may_go();
        if self.lines_come_first() {
            return self.serve_lines_first();
        }
        while let Some(&head) = self.line.first() {
            let Some(takes) = self.open_to_head(head) else { break };
            self.line.remove(0);
            self.take(head, takes);
        }
        false
    }

    /// Rule 4: the head of the line takes the first drop tank in order that takes its whole load, else the
    /// first if nobody is at it. Without drop tanks it takes any free intake (rule 3).
    fn open_to_head(&self, head: usize) -> Option<Takes> {
        if self.scene.tanks.is_empty() {
            return self.scene.an_intake_is_free().then_some(Takes::Intake);
        }
        let place = self.scene.first;
        let first = &self.scene.tanks[place];
        self.first_to_take_whole(head)
            .or_else(|| (first.is_open() && first.at_it == 0).then_some(place))
            .map(Takes::DumpPosition)
    }

    /// Rule 2: from its head a tanker takes the first place that is open to it, and after each taking the
    /// line is gone through again from its head; then whoever may, breaks off.
    fn serve_lines_first(&mut self) -> bool {
        while let Some((place, takes)) = self.first_to_take() {
            let tanker = self.line.remove(place);
            self.take(tanker, takes);
        }
        self.break_off()
    }

    /// One pass through the line, by the clauses of rule 2.
    fn first_to_take(&mut self) -> Option<(usize, Takes)> {
        if self.line.is_empty() {
            return None;
        }
        let first = self.scene.first;
        let first_is_open = self.scene.tanks[first].is_open();
        let waits_for_water =
            self.scene.pump == Pump::WaitingForWater && self.draft.failed.is_none();
        let lacks_restart = self.scene.lacks_restart_level(self.now);
        let intake_is_free = self.scene.an_intake_is_free();
        let somebody_nurses = self.scene.somebody_nurses();
        let lines_want_more = self.pumped_off_at_most() < self.scene.engine.wanted - SAME_RATE;
        let mut water_lacking = self.water_lacking();
        for place in 0..self.line.len() {
            let tanker = self.line[place];
            // a. The pump waits for water.
            if waits_for_water && first_is_open && lacks_restart {
                return Some((place, Takes::DumpPosition(first)));
            }
            // b. Nobody nurses.
            if intake_is_free && !somebody_nurses {
                return Some((place, Takes::Intake));
            }
            // c. The lines need it before the pump is up: it nurses or is kept on deck.
            if water_lacking > SAME_LEVEL {
                if intake_is_free && lines_want_more {
                    return Some((place, Takes::Intake));
                }
                water_lacking -= self.tankers[tanker].load;
                self.keep_on_deck(tanker, true);
                continue;
            }
            // d. Toward the restart level; e. beyond it only whole loads.
            let tank = if lacks_restart {
                first_is_open.then_some(first)
            } else {
                self.first_to_take_whole(tanker)
            };
            if let Some(tank) = tank {
                return Some((place, Takes::DumpPosition(tank)));
            }
            // f. Else it waits, and those behind may pass.
            self.keep_on_deck(tanker, false);
        }
        None
    }

    /// The draft is to work again: nobody is kept for the lines any more.
    pub(crate) fn nobody_is_on_deck(&mut self) {
        for place in 0..self.line.len() {
            self.keep_on_deck(self.line[place], false);
        }
    }

    fn keep_on_deck(&mut self, tanker: usize, on_deck: bool) {
        if self.tankers[tanker].phase != (Phase::InLine { on_deck }) {
            self.enter(tanker, Phase::InLine { on_deck });
        }
    }

    /// The sum of the rates of those nursing and connecting, gpm.
    fn pumped_off_at_most(&self) -> f64 {
        let nursing: f64 = self.scene.nurses.iter().map(|nurse| nurse.pump_off).sum();
        let connecting = self.scene.engine.connecting.iter();
        nursing + connecting.map(|tanker| self.prepared.tankers[*tanker].pump_off).sum::<f64>()
    }

    /// Water needed for the lines until the pump should be hooked up, less the water on hand before any load
    /// is kept on deck, gal; nothing while the engine is not there.
    fn water_lacking(&self) -> f64 {
        let is_up = self.scene.pump != Pump::NotHookedUp && self.draft.failed.is_none();
        if !self.scene.engine.is_here || is_up {
            return 0.0;
        }
        let incident = &self.plan.facts().incident;
        let first_water = self.first_water_expected();
        let end = first_water.after(incident.duration);
        let steps = &incident.attack_flow;
        let until = self.should_be_up();
        let begins = |step: &FlowStep| first_water.after(step.from).max(self.asked_from);
        let needed = boss::planned_water(steps, begins, end, self.now, until);
        let above_reserve = self.scene.engine_level(self.now) - incident.reserve;
        let connecting = self.scene.engine.connecting.iter();
        let connecting: f64 = connecting.map(|tanker| self.tankers[*tanker].load).sum();
        needed - self.scene.nursed_rests(self.now) - connecting - above_reserve.max(0.0)
    }

    /// First water; while it is not there, by means from the engine's arrival: nobody knows beforehand how
    /// long the lines will take.
    fn first_water_expected(&self) -> Moment {
        if self.now >= self.tally.first_water {
            return self.tally.first_water;
        }
        self.tally.engine_arrives.after(self.prepared.water_on.mean).max(self.now)
    }

    /// When the pump should be hooked up and work, by means.
    fn should_be_up(&self) -> Moment {
        let hooked_up = match self.scene.pump {
            Pump::NotHookedUp => self.should_be_hooked_up(),
            _ => self.now,
        };
        hooked_up.max(self.pump_should_be_repaired().unwrap_or(self.now))
    }

    /// When the pump should be hooked up, by means; never while nobody could, or no drop tank is to come.
    fn should_be_hooked_up(&self) -> Moment {
        let setup = self.prepared.draft_setup.mean;
        if let Some(began) = self.draft.began {
            return began.after(setup);
        }
        let (Some(pump), Some(first)) = (self.drafting_unit(), self.first_tank_expected()) else {
            return Moment::NEVER;
        };
        let pump = boss::expected(self.draft.arrived, self.call_of(pump).expected(), self.now);
        let tank = &self.scene.tanks[first];
        let tank_is_ready = if tank.is_ready {
            self.now
        } else {
            let bringer = self.call_of(self.bringer(first));
            let arrives = boss::expected(tank.arrived, bringer.expected(), self.now);
            arrives.after(self.prepared.tanks[first].setup.mean).max(self.now)
        };
        pump.max(tank_is_ready).after(setup)
    }

    /// The first drop tank in order with a free position that takes the whole load of this tanker. One of
    /// the others that is as good as empty, and nobody at it, counts as well: else a drop tank smaller
    /// than a load would never be used.
    fn first_to_take_whole(&self, tanker: usize) -> Option<usize> {
        let load = self.tankers[tanker].load;
        let minutes = self.scene.minutes_until(self.now);
        self.scene.tanks.iter().enumerate().position(|(place, tank)| {
            tank.is_open()
                && (boss::takes_whole_load(
                    tank.unclaimed_after(minutes),
                    self.drawn_meanwhile(place, tanker),
                    load,
                ) || (place != self.scene.first
                    && tank.at_it == 0
                    && tank.level_after(minutes) <= tank.unusable + SAME_LEVEL))
        })
    }

    /// What the lines draw from the first drop tank while a tanker dumps its load, gal.
    fn drawn_meanwhile(&self, tank: usize, tanker: usize) -> f64 {
        if tank != self.scene.first {
            return 0.0;
        }
        self.scene.lines_draw() * self.tankers[tanker].load
            / self.prepared.tankers[tanker].dump_rate
    }

    fn take(&mut self, tanker: usize, takes: Takes) {
        match takes {
            Takes::Intake => {
                self.scene.engine.take_intake(tanker);
                self.enter_drawn(tanker, Phase::NurseConnect, Purpose::NurseConnect);
            }
            Takes::DumpPosition(tank) => {
                self.scene.tanks[tank].take_position(self.tankers[tanker].load);
                self.enter_drawn(tanker, Phase::DumpPosition(tank), Purpose::DumpPosition);
            }
        }
    }

    /// If an intake is free and nobody nurses or connects, whoever began first of those dumping at a full
    /// drop tank gives up its position and takes the intake.
    fn break_off(&mut self) -> bool {
        if !self.scene.an_intake_is_free() || self.scene.somebody_nurses() {
            return false;
        }
        let began_first = (0..self.tankers.len())
            .filter_map(|tanker| match self.tankers[tanker].phase {
                Phase::Dumping(tank) if self.scene.is_full(tank, self.now) => Some((tanker, tank)),
                _ => None,
            })
            .min_by_key(|(tanker, _)| self.tankers[*tanker].since);
        let Some((tanker, tank)) = began_first else { return false };
        let rest = self.stop_dumping(tanker, tank);
        self.tankers[tanker].load = rest;
        self.scene.tanks[tank].free_positions += 1;
        self.scene.engine.take_intake(tanker);
        self.enter_drawn(tanker, Phase::BreakOff(tank), Purpose::DumpClear);
        true
    }

    /// It has pulled away from the drop tank, and connects.
    pub(crate) fn broke_off(&mut self, tanker: usize) {
        self.enter_drawn(tanker, Phase::NurseConnect, Purpose::NurseConnect);
    }

    /// When a drop tank comes to take a load that waits: an event, though nothing else happens then.
    ///
    /// It is rounded to its tick from the instant before it. So while only the head of the line may take a place, and
    /// nothing changes for it, that is not asked before the moment is near.
    ///
    /// - Given: when something else happens next; whether the flows at the scene are new.
    pub(crate) fn when_a_load_fits(&mut self, else_next: Moment, flows_are_new: bool) -> Moment {
        let is_far_off = !flows_are_new && else_next < self.head_waits_until;
        if is_far_off || self.line.is_empty() || self.scene.tanks.is_empty() {
            return Moment::NEVER;
        }
        let any_may = self.lines_come_first();
        let who_may = if any_may { self.line.len() } else { 1 };
        let minutes = self.scene.minutes_until(self.now);
        let mut soonest = f64::INFINITY;
        for (place, tank) in self.scene.tanks.iter().enumerate() {
            if tank.is_open()
                && let Some((claimed, unclaimed)) = tank.claimed_from(minutes)
            {
                for &tanker in &self.line[..who_may] {
                    let room = self.tankers[tanker].load - self.drawn_meanwhile(place, tanker);
                    soonest = soonest.min(claimed.minutes_to_pass(unclaimed - room));
                }
            }
        }
        let fits = self.now.after(soonest.max(LEAST_TURN));
        if !any_may {
            self.head_waits_until = fits.min(self.scene.next).before(NEAR);
        }
        fits
    }
}
