//! Every input of a plan that can be moved, and the plans with it moved to either side.
//!
//! A time is moved by a minute, or by half a minute where it is shorter than two, with its spread in
//! proportion; a flow by 100 gpm (400 L/min). The drive to a site is a time like others, moved to both
//! sides: a shorter one stands for a nearer site. Speed on all roads is only moved to the slower side: no
//! plan should call for driving faster. What the pump operator does at low water is a habit, not an amount:
//! it is exchanged for the other one.

use shuttle_sim::{Brought, Handling, LowWater, Plan, PlanDraft, TimeTaken};

use super::input::{Habit, Input, Quantity, round_flow};
use super::variation::{fit_restart_level, with_other_low_water};
use crate::units::Units;

pub use super::input::Way;

/// An input, and the plans with it moved.
#[derive(Debug, Clone)]
pub struct Lever {
    /// What is moved.
    pub input: Input,
    /// What it is now; of times that are moved together, the mean.
    pub now: Quantity,
    /// The amount it is moved by.
    pub amount: Quantity,
    /// Moved to the side that should help, with which way that is.
    pub better: Option<(Way, Plan)>,
    /// Moved to the other side.
    pub worse: Option<(Way, Plan)>,
}

/// The levers collected so far.
struct Making<'p> {
    facts: &'p PlanDraft,
    units: Units,
    levers: Vec<Lever>,
}

/// Everything that can be moved. What a plan has no room for is left out.
pub fn levers(plan: &Plan, units: Units) -> Vec<Lever> {
    let mut making = Making { facts: plan.facts(), units, levers: Vec::new() };
    making.handling();
    making.responses();
    making.fill_sites();
    making.dump_site();
    making.loads();
    making.engine();
    making.levers
}

impl Making<'_> {
    /// One input with the change that moves it by a signed share of the amount: -1 or 1.
    fn add(
        &mut self,
        input: Input,
        now: Quantity,
        amount: Quantity,
        helps: Way,
        change: impl Fn(&mut PlanDraft, f64) -> bool,
    ) {
        let moved = |way: Way| {
            let mut facts = self.facts.clone();
            let sign = if way == Way::More { 1.0 } else { -1.0 };
            if !change(&mut facts, sign) {
                return None;
            }
            fit_restart_level(&mut facts);
            Some((way, Plan::check(facts).ok()?))
        };
        let (better, worse) = (moved(helps), moved(helps.other()));
        if better.is_some() || worse.is_some() {
            self.levers.push(Lever { input, now, amount, better, worse });
        }
    }

    /// Times that are moved together, each by the same amount.
    fn times(&mut self, input: Input, all: impl Fn(&mut PlanDraft) -> Vec<&mut TimeTaken>) {
        let mut facts = self.facts.clone();
        let means: Vec<f64> = all(&mut facts).iter().map(|time| time.mean()).collect();
        if means.is_empty() {
            return;
        }
        let mean = means.iter().sum::<f64>() / means.len() as f64;
        let amount = if mean >= 2.0 { 1.0 } else { 0.5 };
        let (now, by) = (Quantity::Minutes(mean), Quantity::Minutes(amount));
        self.add(input, now, by, Way::Less, |facts, sign| {
            all(facts).into_iter().all(|time| shift(time, sign * amount))
        });
    }

    fn flow(&mut self, input: Input, now: f64, helps: Way, change: impl Fn(&mut PlanDraft, f64)) {
        let step = round_flow(self.units, 100.0, 400.0);
        let (now, amount) = (Quantity::Gpm(now), Quantity::Gpm(step));
        self.add(input, now, amount, helps, |facts, sign| {
            change(facts, sign * step);
            true
        });
    }

    fn volume(
        &mut self,
        input: Input,
        now: f64,
        (us, litres): (f64, f64),
        helps: Way,
        change: impl Fn(&mut PlanDraft, f64),
    ) {
        // A volume a minute: the same factor.
        let step = round_flow(self.units, us, litres);
        let (now, amount) = (Quantity::Gallons(now), Quantity::Gallons(step));
        self.add(input, now, amount, helps, |facts, sign| {
            change(facts, sign * step);
            true
        });
    }

    fn count(&mut self, input: Input, now: u32, change: impl Fn(&mut PlanDraft) -> &mut u32) {
        self.add(input, Quantity::Count(now), Quantity::Count(1), Way::More, |facts, sign| {
            let count = change(facts);
            let moved = f64::from(*count) + sign;
            *count = moved as u32;
            moved >= 1.0
        });
    }

    fn handling(&mut self) {
        type Part = fn(&mut Handling) -> &mut TimeTaken;
        let dumps = !self.facts.drop_tanks.is_empty();
        let nurses = self.facts.supply.nurse;
        let parts: [(Input, bool, Part); 6] = [
            (Input::FillConnect, true, |handling| &mut handling.fill_connect),
            (Input::FillDisconnect, true, |handling| &mut handling.fill_disconnect),
            (Input::DumpPosition, dumps, |handling| &mut handling.dump_position),
            (Input::DumpClear, dumps, |handling| &mut handling.dump_clear),
            (Input::NurseConnect, nurses, |handling| &mut handling.nurse_connect),
            (Input::NurseDisconnect, nurses, |handling| &mut handling.nurse_disconnect),
        ];
        for (input, happens, part) in parts {
            if happens {
                self.times(input, move |facts| {
                    facts.tankers.iter_mut().map(|tanker| part(&mut tanker.handling)).collect()
                });
            }
        }
    }

    fn responses(&mut self) {
        self.times(Input::TankersArrive, |facts| {
            facts.tankers.iter_mut().map(|tanker| &mut tanker.call.response).collect()
        });
        if self.facts.drop_tanks.is_empty() {
            return;
        }
        self.times(Input::FirstDropTankSetup, |facts| {
            facts.drop_tanks.iter_mut().take(1).map(|tank| &mut tank.setup).collect()
        });
        match &self.facts.supply.engine {
            Some(engine) => {
                let input = Input::SupplyEngineArrives { engine: engine.name.clone() };
                self.times(input, |facts| {
                    facts.supply.engine.iter_mut().map(|engine| &mut engine.call.response).collect()
                });
                self.times(Input::DraftSetup, |facts| {
                    facts.supply.engine.iter_mut().map(|engine| &mut engine.setup).collect()
                });
            }
            None => self.times(Input::DraftSetup, |facts| vec![&mut facts.supply.setup]),
        }
        self.low_water();
        if self.facts.supply.low_water == LowWater::LosePrime {
            self.times(Input::Reprime, |facts| vec![&mut facts.supply.reprime]);
        }
    }

    fn low_water(&mut self) {
        let Some(plan) = with_other_low_water(self.facts) else { return };
        let moved = Some((Way::Instead, plan));
        let habit = Quantity::LowWater;
        let (now, amount, better, worse) = match self.facts.supply.low_water {
            LowWater::Throttle => (habit(Habit::GatesDown), habit(Habit::DrawsOn), None, moved),
            LowWater::LosePrime => (habit(Habit::DrawsOn), habit(Habit::GatesDown), moved, None),
        };
        self.levers.push(Lever { input: Input::LowWater, now, amount, better, worse });
    }

    fn fill_sites(&mut self) {
        for (place, site) in self.facts.fill_sites.iter().enumerate() {
            let name = || site.name.clone();
            self.times(Input::Drive { site: name() }, move |facts| {
                let site = &mut facts.fill_sites[place];
                vec![&mut site.out.time, &mut site.back.time]
            });
            self.flow(Input::SiteFlow { site: name() }, site.flow, Way::More, move |facts, by| {
                facts.fill_sites[place].flow += by;
            });
            self.count(Input::FillPositions { site: name() }, site.positions, move |facts| {
                &mut facts.fill_sites[place].positions
            });
            if site.ready.mean() > 0.0 {
                self.times(Input::SiteReady { site: name() }, move |facts| {
                    vec![&mut facts.fill_sites[place].ready]
                });
            }
        }
        self.add(
            Input::SpeedOnAllRoads,
            Quantity::Share(1.0),
            Quantity::Share(0.1),
            Way::More,
            |facts, sign| {
                for site in &mut facts.fill_sites {
                    for leg in [&mut site.out, &mut site.back] {
                        leg.time = leg.time.scaled(1.0 / 0.9);
                    }
                }
                sign < 0.0
            },
        );
    }

    fn dump_site(&mut self) {
        for (place, tank) in self.facts.drop_tanks.iter().enumerate() {
            let of = self.facts.drop_tanks.len();
            let (now, steps) = (tank.capacity, (500.0, 2000.0));
            self.volume(
                Input::DropTankSize { tank: place, of },
                now,
                steps,
                Way::More,
                move |facts, by| {
                    facts.drop_tanks[place].capacity += by;
                },
            );
            self.count(
                Input::DumpPositions { tank: place, of },
                tank.dump_positions,
                move |facts| &mut facts.drop_tanks[place].dump_positions,
            );
        }
        if self.facts.drop_tanks.is_empty() {
            return;
        }
        let rate = mean_of(self.facts, |tanker| tanker.dump_rate);
        self.flow(Input::DumpRate, rate, Way::More, |facts, by| {
            facts.tankers.iter_mut().for_each(|tanker| tanker.dump_rate += by);
        });
        let limit = self.facts.supply.draft_limit();
        if limit.is_finite() {
            self.flow(Input::PumpAndLay, limit, Way::More, |facts, by| {
                facts.supply.draft_limits.iter_mut().for_each(|limit| limit.flow += by);
            });
        }
        let plan_level =
            self.facts.drop_tanks.first().map(|first| self.facts.supply.restart_level_for(first));
        if let Some(level) = plan_level {
            self.volume(Input::RestartLevel, level, (100.0, 400.0), Way::Less, move |facts, by| {
                facts.supply.restart_level = Some(level + by);
            });
        }
    }

    fn loads(&mut self) {
        let limit = mean_of(self.facts, |tanker| self.facts.greatest_fill_limit(tanker));
        self.flow(Input::FillRate, limit, Way::More, |facts, by| {
            let limits: Vec<f64> =
                facts.tankers.iter().map(|tanker| facts.greatest_fill_limit(tanker)).collect();
            for (tanker, limit) in facts.tankers.iter_mut().zip(limits) {
                tanker.fill_limit = Some(limit + by);
            }
        });
        if self.facts.supply.nurse {
            let rate = mean_of(self.facts, |tanker| tanker.pump_off);
            self.flow(Input::PumpOffRate, rate, Way::More, |facts, by| {
                facts.tankers.iter_mut().for_each(|tanker| tanker.pump_off += by);
            });
        }
        let waste = Quantity::Share(mean_of(self.facts, |tanker| tanker.waste));
        self.add(Input::Waste, waste, Quantity::Share(0.05), Way::Less, |facts, sign| {
            facts.tankers.iter_mut().all(|tanker| {
                tanker.waste += 0.05 * sign;
                // Slightly below zero is rounding: 0.05 - 0.05.
                tanker.waste = if tanker.waste.abs() < 1e-9 { 0.0 } else { tanker.waste };
                tanker.waste >= 0.0
            })
        });
    }

    fn engine(&mut self) {
        let facts = self.facts;
        let peak =
            facts.incident.attack_flow.iter().fold(0.0_f64, |most, step| most.max(step.flow));
        self.flow(Input::Demand, peak, Way::Less, move |facts, by| {
            for step in &mut facts.incident.attack_flow {
                if step.flow == peak {
                    step.flow += by;
                }
            }
        });
        let tank = facts.attack_engine.tank;
        self.volume(Input::EngineTank, tank, (250.0, 1000.0), Way::More, |facts, by| {
            facts.attack_engine.tank += by;
        });
        let reserve = facts.incident.reserve;
        if reserve > 0.0 {
            self.volume(Input::Reserve, reserve, (100.0, 400.0), Way::Less, |facts, by| {
                facts.incident.reserve += by;
            });
        }
        if facts.drop_tanks.iter().any(|tank| matches!(tank.brought, Brought::Itself(_))) {
            self.times(Input::DropTanksArrive, |facts| {
                (facts.drop_tanks.iter_mut())
                    .filter_map(|tank| match &mut tank.brought {
                        Brought::Itself(call) => Some(&mut call.response),
                        _ => None,
                    })
                    .collect()
            });
        }
    }
}

fn mean_of(facts: &PlanDraft, of: impl Fn(&shuttle_sim::Tanker) -> f64) -> f64 {
    facts.tankers.iter().map(of).sum::<f64>() / facts.tankers.len().max(1) as f64
}

/// Moves the mean by `by` minutes, its spread in proportion; false if too little is left of it.
fn shift(time: &mut TimeTaken, by: f64) -> bool {
    let mean = time.mean();
    if mean + by < 0.05 {
        return false;
    }
    *time = if mean > 0.0 { time.scaled((mean + by) / mean) } else { TimeTaken::Fixed(by) };
    true
}
