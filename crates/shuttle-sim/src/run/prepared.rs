//! A plan prepared for runs: means, and samplers in the engine's own order.

use crate::luck::{Sampler, Tables, key_of};
use crate::plan::{
    Brought, Call, DropTank, DumpCurve, FillSite, Handling, Near, Plan, Tanker, TimeTaken,
};
use crate::scene::Pour;

/// A duration to draw, and its mean.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Duration {
    pub sampler: Sampler,
    /// Minutes.
    pub mean: f64,
}

/// A unit's call.
#[derive(Debug)]
pub(crate) struct PreparedCall {
    pub requested_at: f64,
    pub response: Duration,
    /// The key of the unit's draws.
    pub key: u64,
}

impl PreparedCall {
    /// When it should arrive, by means, minutes after the alarm.
    pub fn expected(&self) -> f64 {
        self.requested_at + self.response.mean
    }
}

/// One tanker.
#[derive(Debug)]
pub(crate) struct PreparedTanker {
    pub call: PreparedCall,
    /// What a whole fill takes, gal.
    pub fill: f64,
    /// What it delivers of that, gal: a full load.
    pub full_load: f64,
    pub capacity: f64,
    pub waste: f64,
    pub pour: Pour,
    pub dump_rate: f64,
    pub pump_off: f64,
    pub breakdown_per_trip: f64,
    pub repair: Option<Duration>,
    pub fill_site: Option<usize>,
    pub nurse_connect: Duration,
    pub nurse_disconnect: Duration,
    pub dump_position: Duration,
    pub dump_clear: Duration,
    pub fill_connect: Duration,
    pub fill_disconnect: Duration,
    /// The most it takes at each site, gpm.
    pub fill_limits: Vec<f64>,
}

/// One fill site.
#[derive(Debug)]
pub(crate) struct PreparedSite {
    pub ready: Duration,
    pub key: u64,
    pub flow: f64,
    pub out: Duration,
    pub back: Duration,
    pub positions: u32,
    pub lane: Option<usize>,
}

/// One drop tank.
#[derive(Debug)]
pub(crate) struct PreparedTank {
    pub brought: Brought,
    pub call: Option<PreparedCall>,
    pub setup: Duration,
    pub key: u64,
}

/// The whole plan.
#[derive(Debug)]
pub(crate) struct Prepared {
    pub tables: Tables,
    pub attack_engine: PreparedCall,
    pub water_on: Duration,
    pub supply_engine: Option<PreparedCall>,
    pub draft_setup: Duration,
    pub draft_key: u64,
    pub reprime: Duration,
    pub tanks: Vec<PreparedTank>,
    pub tankers: Vec<PreparedTanker>,
    pub sites: Vec<PreparedSite>,
    pub scene_lane: Option<usize>,
    pub lanes: Vec<Duration>,
}

impl Prepared {
    pub fn new(plan: &Plan) -> Prepared {
        let facts = plan.facts();
        let mut preparing = Preparing { tables: Tables::default() };
        let lane_near = |near| facts.one_lanes.iter().position(|lane| lane.near == near);
        let engine = &facts.supply.engine;
        let draft_setup = engine.as_ref().map_or(&facts.supply.setup, |engine| &engine.setup);
        Prepared {
            attack_engine: preparing.call(&facts.attack_engine.call, key_of("engine", "attack")),
            water_on: preparing.duration(&facts.attack_engine.water_on),
            supply_engine: (engine.as_ref())
                .map(|engine| preparing.call(&engine.call, key_of("engine", "supply"))),
            draft_setup: preparing.duration(draft_setup),
            draft_key: key_of("draft", ""),
            reprime: preparing.duration(&facts.supply.reprime),
            tanks: (facts.drop_tanks.iter().enumerate())
                .map(|(place, tank)| preparing.tank(place, tank))
                .collect(),
            tankers: (facts.tankers.iter())
                .map(|tanker| preparing.tanker(tanker, &facts.fill_sites))
                .collect(),
            sites: (facts.fill_sites.iter().enumerate())
                .map(|(place, site)| preparing.site(site, lane_near(Near::FillSite(place))))
                .collect(),
            scene_lane: lane_near(Near::Scene),
            lanes: facts.one_lanes.iter().map(|lane| preparing.duration(&lane.crossing)).collect(),
            tables: preparing.tables,
        }
    }
}

/// Gathers what the samplers look up.
struct Preparing {
    tables: Tables,
}

impl Preparing {
    fn duration(&mut self, time: &TimeTaken) -> Duration {
        Duration { sampler: Sampler::new(time, &mut self.tables), mean: time.mean() }
    }

    fn call(&mut self, call: &Call, key: u64) -> PreparedCall {
        let response = self.duration(&call.response);
        PreparedCall { requested_at: call.requested_at, response, key }
    }

    fn tank(&mut self, place: usize, tank: &DropTank) -> PreparedTank {
        let key = key_of("drop tank", &place.to_string());
        PreparedTank {
            brought: tank.brought.clone(),
            call: match &tank.brought {
                Brought::Itself(own) => Some(self.call(own, key)),
                _ => None,
            },
            setup: self.duration(&tank.setup),
            key,
        }
    }

    fn site(&mut self, site: &FillSite, lane: Option<usize>) -> PreparedSite {
        PreparedSite {
            ready: self.duration(&site.ready),
            key: key_of("fill site", &site.name),
            flow: site.flow,
            out: self.duration(&site.out.time),
            back: self.duration(&site.back.time),
            positions: site.positions,
            lane,
        }
    }

    fn tanker(&mut self, tanker: &Tanker, sites: &[FillSite]) -> PreparedTanker {
        let Handling {
            nurse_connect,
            nurse_disconnect,
            dump_position,
            dump_clear,
            fill_connect,
            fill_disconnect,
        } = &tanker.handling;
        let residual = tanker.capacity * tanker.residual;
        PreparedTanker {
            call: self.call(&tanker.call, key_of("tanker", &tanker.name)),
            fill: tanker.fill(),
            full_load: tanker.load(),
            capacity: tanker.capacity,
            waste: tanker.waste,
            pour: match tanker.dump_curve {
                DumpCurve::Steady => Pour::Steady { rate: tanker.dump_rate },
                DumpCurve::Gravity => {
                    Pour::by_gravity(tanker.load() + residual, residual, tanker.dump_rate)
                }
            },
            dump_rate: tanker.dump_rate,
            pump_off: tanker.pump_off,
            breakdown_per_trip: tanker.breakdown_per_trip,
            repair: tanker.repair.as_ref().map(|time| self.duration(time)),
            fill_site: tanker.fill_site,
            nurse_connect: self.duration(nurse_connect),
            nurse_disconnect: self.duration(nurse_disconnect),
            dump_position: self.duration(dump_position),
            dump_clear: self.duration(dump_clear),
            fill_connect: self.duration(fill_connect),
            fill_disconnect: self.duration(fill_disconnect),
            fill_limits: sites.iter().map(|site| tanker.fill_limit_at(site)).collect(),
        }
    }
}
