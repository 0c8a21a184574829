//! A plan prepared for runs: means, and samplers in the engine's own order.

use crate::luck::{Duration, Sampler, Tables, key_of};
use crate::plan::{
    Brought, Call, DropTank, DumpCurve, Failure, FillSite, Handling, Near, Plan, Supply, Tanker,
    TimeTaken,
};
use crate::scene::Pour;

/// A unit's call.
#[derive(Debug)]
pub(crate) struct PreparedCall {
    pub requested_at: f64,
    pub response: Duration,
    pub turnout: f64,
    /// The key of the unit's draws.
    pub key: u64,
    /// The key of the draw of whether it comes: its own, or that of its department.
    pub turnout_key: u64,
}

impl PreparedCall {
    /// When it should arrive, by means, minutes after the alarm.
    pub fn expected(&self) -> f64 {
        self.requested_at + self.response.mean
    }
}

/// What may fail in the course of the watch.
#[derive(Debug)]
pub(crate) struct PreparedFailure {
    pub chance: f64,
    pub repair: Option<Duration>,
}

/// The spreads of the factors that a whole fire shares.
#[derive(Debug)]
pub(crate) struct PreparedFire {
    pub driving: Sampler,
    pub handling: Sampler,
    pub response: Sampler,
    /// The key of its draws.
    pub key: u64,
}

/// One tanker.
#[derive(Debug)]
pub(crate) struct PreparedTanker {
    pub call: PreparedCall,
    /// The spread of its crew's own factor on handling.
    pub crew: Sampler,
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
    /// How it fills at each site.
    pub fills: Vec<PreparedFill>,
    /// The road to each site and back, where it drives in times of its own; empty where it takes those of the roads.
    roads: Vec<[Duration; 2]>,
}

/// How a tanker fills at a site.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PreparedFill {
    /// The most it takes, gpm.
    pub limit: f64,
    /// How fast it fills with the site to itself, gpm.
    pub rate: f64,
    /// Whether it fills itself, beside what the site gives.
    pub itself: bool,
}

/// The pump that someone brings to a fill site.
#[derive(Debug)]
pub(crate) struct PreparedPump {
    pub brought: Brought,
    pub call: Option<PreparedCall>,
    pub setup: Duration,
}

/// One fill site.
#[derive(Debug)]
pub(crate) struct PreparedSite {
    pub ready: Duration,
    pub pump: Option<PreparedPump>,
    pub failure: Option<PreparedFailure>,
    pub key: u64,
    /// Out and back, for who drives in the times of the roads.
    road: [Duration; 2],
    pub positions: u32,
    pub lane: Option<usize>,
}

/// One drop tank.
#[derive(Debug)]
pub(crate) struct PreparedTank {
    pub brought: Brought,
    pub call: Option<PreparedCall>,
    pub setup: Duration,
    /// The level at which the pump draws (again) where the draft stands in this one, gal.
    pub restart_level: f64,
    pub key: u64,
}

/// The whole plan.
#[derive(Debug)]
pub(crate) struct Prepared {
    pub fire: PreparedFire,
    pub attack_engine: PreparedCall,
    pub water_on: Duration,
    pub supply_engine: Option<PreparedCall>,
    pub draft_setup: Duration,
    pub draft_key: u64,
    pub draft_failure: Option<PreparedFailure>,
    /// Without the supply engine the attack engine cannot draft itself.
    pub has_lay: bool,
    pub reprime: Duration,
    pub tanks: Vec<PreparedTank>,
    pub tankers: Vec<PreparedTanker>,
    pub sites: Vec<PreparedSite>,
    pub scene_lane: Option<usize>,
    pub lanes: Vec<Duration>,
}

impl Prepared {
    /// The road out to a site and back, as this tanker drives it.
    pub fn road(&self, tanker: usize, site: usize) -> &[Duration; 2] {
        self.tankers[tanker].roads.get(site).unwrap_or(&self.sites[site].road)
    }

    pub fn new(plan: &Plan) -> Prepared {
        let facts = plan.facts();
        let mut preparing = Preparing { tables: Tables::default() };
        let lane_near = |near| facts.one_lanes.iter().position(|lane| lane.near == near);
        let engine = &facts.supply.engine;
        let draft_setup = engine.as_ref().map_or(&facts.supply.setup, |engine| &engine.setup);
        Prepared {
            fire: PreparedFire {
                driving: preparing.factor(facts.whole_fire.driving_cv),
                handling: preparing.factor(facts.whole_fire.handling_cv),
                response: preparing.factor(facts.whole_fire.response_cv),
                key: key_of("fire", ""),
            },
            attack_engine: preparing.call(&facts.attack_engine.call, key_of("engine", "attack")),
            water_on: preparing.duration(&facts.attack_engine.water_on),
            supply_engine: (engine.as_ref())
                .map(|engine| preparing.call(&engine.call, key_of("engine", "supply"))),
            draft_setup: preparing.duration(draft_setup),
            draft_key: key_of("draft", ""),
            draft_failure: preparing.failure(&facts.supply.failure),
            has_lay: facts.supply.has_lay(),
            reprime: preparing.duration(&facts.supply.reprime),
            tanks: (facts.drop_tanks.iter().enumerate())
                .map(|(place, tank)| preparing.tank(place, tank, &facts.supply))
                .collect(),
            tankers: (facts.tankers.iter())
                .map(|tanker| preparing.tanker(tanker, &facts.fill_sites))
                .collect(),
            sites: (facts.fill_sites.iter().enumerate())
                .map(|(place, site)| preparing.site(site, lane_near(Near::FillSite(place))))
                .collect(),
            scene_lane: lane_near(Near::Scene),
            lanes: facts.one_lanes.iter().map(|lane| preparing.duration(&lane.crossing)).collect(),
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

    /// A factor of mean 1; always 1 where it has no spread.
    fn factor(&mut self, cv: f64) -> Sampler {
        Sampler::new(&TimeTaken::Lognormal { mean: 1.0, cv }, &mut self.tables)
    }

    fn failure(&mut self, failure: &Option<Failure>) -> Option<PreparedFailure> {
        let Failure { chance, repair } = failure.as_ref()?;
        let repair = repair.as_ref().map(|time| self.duration(time));
        Some(PreparedFailure { chance: *chance, repair })
    }

    fn call(&mut self, call: &Call, key: u64) -> PreparedCall {
        let response = self.duration(&call.response);
        let Call { requested_at, turnout, .. } = *call;
        PreparedCall { requested_at, response, turnout, key, turnout_key: key }
    }

    /// A tanker's call; one whose department comes whole comes with that.
    fn tanker_call(&mut self, tanker: &Tanker) -> PreparedCall {
        let own = self.call(&tanker.call, key_of("tanker", &tanker.name));
        let department = tanker.comes_with.as_ref().map(|name| key_of("department", name));
        PreparedCall { turnout_key: department.unwrap_or(own.key), ..own }
    }

    fn tank(&mut self, place: usize, tank: &DropTank, supply: &Supply) -> PreparedTank {
        let key = key_of("drop tank", &place.to_string());
        PreparedTank {
            brought: tank.brought.clone(),
            call: match &tank.brought {
                Brought::Itself(own) => Some(self.call(own, key)),
                _ => None,
            },
            setup: self.duration(&tank.setup),
            restart_level: supply.restart_level_for(tank),
            key,
        }
    }

    fn site(&mut self, site: &FillSite, lane: Option<usize>) -> PreparedSite {
        PreparedSite {
            ready: self.duration(&site.ready),
            pump: site.source_pump.as_ref().map(|pump| PreparedPump {
                brought: pump.brought.clone(),
                call: pump.call().map(|call| self.call(call, key_of("source pump", &pump.name))),
                setup: self.duration(&pump.setup),
            }),
            failure: self.failure(&site.failure),
            key: key_of("fill site", &site.name),
            road: [&site.out, &site.back].map(|leg| self.duration(&leg.time)),
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
        let fill_at = |site: &FillSite| PreparedFill {
            limit: tanker.fill_limit_at(site),
            rate: tanker.fill_rate_at(site),
            itself: tanker.self_fill_at(site).is_some(),
        };
        let roads: Vec<[Duration; 2]> = (sites.iter())
            .filter(|_| tanker.drive_factor != 1.0)
            .map(|site| {
                [&site.out, &site.back]
                    .map(|leg| self.duration(&leg.time.scaled(tanker.drive_factor)))
            })
            .collect();
        PreparedTanker {
            call: self.tanker_call(tanker),
            crew: self.factor(tanker.crew_cv),
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
            fills: sites.iter().map(fill_at).collect(),
            roads,
        }
    }
}
