//! The plain loop of `scenarios/plain_loop_six_tankers.json` on a lean general-purpose event
//! simulator: six tankers, one fill and one dump position, four drawn times a cycle, the drop tank's
//! level looked at whenever a load comes. No flows, causes or cycle parts: less than the model keeps.

use std::cmp::Ordering;
use std::collections::VecDeque;
use std::ops::Add;

use desque::serial::{Event, Simulation};
use desque::{Result, SimState, SimTime};
use rand::SeedableRng;
use rand_distr::{Distribution, LogNormal};
use rand_pcg::Pcg64;

const TANKERS: usize = 6;
const WATCHED: f64 = 120.0;
/// 2,000 gal less 10%.
const LOAD: f64 = 1800.0;
const ATTACK_FLOW: f64 = 400.0;
/// 2,000 gal and 1,800 gal at 1,000 gpm.
const FILL: f64 = 2.0;
const DUMP: f64 = 1.8;

#[derive(Copy, Clone, Debug, PartialEq)]
struct Minute(f64);

impl Eq for Minute {}
impl Ord for Minute {
    fn cmp(&self, other: &Minute) -> Ordering {
        self.0.total_cmp(&other.0)
    }
}
impl PartialOrd for Minute {
    fn partial_cmp(&self, other: &Minute) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl SimTime for Minute {}
impl Add<f64> for Minute {
    type Output = Minute;
    fn add(self, minutes: f64) -> Minute {
        Minute(self.0 + minutes)
    }
}

#[derive(Default)]
struct Position {
    busy: bool,
    waiting: VecDeque<usize>,
}

struct World {
    random: Pcg64,
    out: LogNormal<f64>,
    back: LogNormal<f64>,
    connect: LogNormal<f64>,
    position: LogNormal<f64>,
    fill: Position,
    dump: Position,
    level: f64,
    at: f64,
    ran_dry: bool,
}

impl SimState<Minute> for World {
    fn is_complete(&self, now: &Minute) -> bool {
        now.0 >= WATCHED
    }
}

type Loop = Simulation<World, Minute>;

fn lognormal(mean: f64, cv: f64) -> LogNormal<f64> {
    LogNormal::from_mean_cv(mean, cv).expect("a mean and a spread")
}

fn after(sim: &mut Loop, event: impl Event<World, Minute> + 'static, minutes: f64) -> Result {
    let time = *sim.current_time() + minutes;
    sim.schedule(event, time)
}

#[derive(Debug)]
struct AtFillSite(usize);
#[derive(Debug)]
struct Filled(usize);
#[derive(Debug)]
struct AtScene(usize);
#[derive(Debug)]
struct Dumped(usize);

impl Event<World, Minute> for AtFillSite {
    fn execute(&mut self, sim: &mut Loop) -> Result {
        let world = sim.state_mut();
        if std::mem::replace(&mut world.fill.busy, true) {
            world.fill.waiting.push_back(self.0);
            return Ok(());
        }
        let minutes = world.connect.sample(&mut world.random) + FILL;
        after(sim, Filled(self.0), minutes)
    }
}

impl Event<World, Minute> for Filled {
    fn execute(&mut self, sim: &mut Loop) -> Result {
        let world = sim.state_mut();
        let minutes = world.back.sample(&mut world.random);
        after(sim, AtScene(self.0), minutes)?;
        let world = sim.state_mut();
        let Some(next) = world.fill.waiting.pop_front() else {
            world.fill.busy = false;
            return Ok(());
        };
        let minutes = world.connect.sample(&mut world.random) + FILL;
        after(sim, Filled(next), minutes)
    }
}

impl Event<World, Minute> for AtScene {
    fn execute(&mut self, sim: &mut Loop) -> Result {
        let world = sim.state_mut();
        if std::mem::replace(&mut world.dump.busy, true) {
            world.dump.waiting.push_back(self.0);
            return Ok(());
        }
        let minutes = world.position.sample(&mut world.random) + DUMP;
        after(sim, Dumped(self.0), minutes)
    }
}

impl Event<World, Minute> for Dumped {
    fn execute(&mut self, sim: &mut Loop) -> Result {
        let now = sim.current_time().0;
        let world = sim.state_mut();
        world.level -= ATTACK_FLOW * (now - world.at);
        world.at = now;
        if world.level < 0.0 {
            world.ran_dry = true;
            world.level = 0.0;
        }
        world.level += LOAD;
        let minutes = world.out.sample(&mut world.random);
        after(sim, AtFillSite(self.0), minutes)?;
        let world = sim.state_mut();
        let Some(next) = world.dump.waiting.pop_front() else {
            world.dump.busy = false;
            return Ok(());
        };
        let minutes = world.position.sample(&mut world.random) + DUMP;
        after(sim, Dumped(next), minutes)
    }
}

/// Runs the loop; returns in how many runs the tank ran dry.
pub fn run(runs: u64) -> u64 {
    let mut dry = 0;
    for run in 0..runs {
        let world = World {
            random: Pcg64::seed_from_u64(run),
            out: lognormal(5.0, 0.2),
            back: lognormal(6.0, 0.2),
            connect: lognormal(1.5, 0.3),
            position: lognormal(1.0, 0.3),
            fill: Position::default(),
            dump: Position::default(),
            level: 0.0,
            at: 0.0,
            ran_dry: false,
        };
        let mut sim = Simulation::new(world, Minute(0.0));
        for tanker in 0..TANKERS {
            sim.schedule(AtScene(tanker), Minute(0.0)).expect("minute 0 is not past");
        }
        sim.run().expect("the loop runs to its end");
        dry += u64::from(sim.state().ran_dry);
    }
    dry
}
