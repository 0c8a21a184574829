//! A plan made ready to run: numbers and samplers in the engine's own order.

use crate::draws::key_of;
use crate::dumping::Pour;
use crate::plan::{Brought, Call, DumpCurve, Handling, Near, Plan};
use crate::sampler::{Sampler, Tables};

/// A unit's call.
#[derive(Debug)]
pub(crate) struct ReadyCall {
    pub requested_at: f64,
    pub response: Sampler,
    pub key: u64,
}

/// One tanker.
#[derive(Debug)]
pub(crate) struct ReadyTanker {
    pub call: ReadyCall,
    /// What a whole fill takes, gal.
    pub fill: f64,
    /// What it delivers of that, gal, and what it spills.
    pub load: f64,
    pub spills: f64,
    pub capacity: f64,
    pub waste: f64,
    pub pour: Pour,
    pub pump_off: f64,
    pub fill_limit: f64,
    pub breakdown_per_trip: f64,
    pub repair: Option<Sampler>,
    pub fill_site: Option<usize>,
    pub nurse_connect: Sampler,
    pub nurse_disconnect: Sampler,
    pub dump_position: Sampler,
    pub dump_clear: Sampler,
    pub fill_connect: Sampler,
    pub fill_disconnect: Sampler,
    /// What it expects of each site.
    pub expects: Vec<Expected>,
}

/// What a tanker expects of a fill site.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Expected {
    /// Mean out + mean back, minutes.
    pub road: f64,
    /// Mean time at a position, `s`, minutes.
    pub at_position: f64,
}

/// One fill site.
#[derive(Debug)]
pub(crate) struct ReadySite {
    pub ready: Sampler,
    pub key: u64,
    pub out: Sampler,
    pub back: Sampler,
    pub positions: u32,
    pub lane: Option<usize>,
}

/// One drop tank.
#[derive(Debug)]
pub(crate) struct ReadyTank {
    pub brought: Brought,
    pub call: Option<ReadyCall>,
    pub setup: Sampler,
    pub key: u64,
}

/// The whole plan.
#[derive(Debug)]
pub(crate) struct Ready {
    pub tables: Tables,
    pub attack_engine: ReadyCall,
    pub water_on: Sampler,
    pub supply_engine: Option<ReadyCall>,
    pub draft_setup: Sampler,
    pub draft_key: u64,
    pub reprime: Sampler,
    pub tanks: Vec<ReadyTank>,
    pub tankers: Vec<ReadyTanker>,
    pub sites: Vec<ReadySite>,
    pub scene_lane: Option<usize>,
    pub lanes: Vec<Sampler>,
}

impl Ready {
    pub fn new(plan: &Plan) -> Ready {
        let facts = plan.facts();
        let mut tables = Tables::default();
        let lane_near = |near| facts.one_lanes.iter().position(|lane| lane.near == near);
        let engine = &facts.supply.engine;
        let draft_setup = engine.as_ref().map_or(&facts.supply.setup, |engine| &engine.setup);
        Ready {
            attack_engine: call(&facts.attack_engine.call, key_of("engine", "attack"), &mut tables),
            water_on: Sampler::new(&facts.attack_engine.water_on, &mut tables),
            supply_engine: (engine.as_ref())
                .map(|engine| call(&engine.call, key_of("engine", "supply"), &mut tables)),
            draft_setup: Sampler::new(draft_setup, &mut tables),
            draft_key: key_of("draft", ""),
            reprime: Sampler::new(&facts.supply.reprime, &mut tables),
            tanks: (facts.drop_tanks.iter().enumerate())
                .map(|(place, tank)| {
                    let key = key_of("drop tank", &place.to_string());
                    ReadyTank {
                        brought: tank.brought.clone(),
                        call: match &tank.brought {
                            Brought::Itself(own) => Some(call(own, key, &mut tables)),
                            _ => None,
                        },
                        setup: Sampler::new(&tank.setup, &mut tables),
                        key,
                    }
                })
                .collect(),
            tankers: (0..facts.tankers.len())
                .map(|place| ready_tanker(plan, place, &mut tables))
                .collect(),
            sites: (facts.fill_sites.iter().enumerate())
                .map(|(place, site)| ReadySite {
                    ready: Sampler::new(&site.ready, &mut tables),
                    key: key_of("fill site", &site.name),
                    out: Sampler::new(&site.out.time, &mut tables),
                    back: Sampler::new(&site.back.time, &mut tables),
                    positions: site.positions,
                    lane: lane_near(Near::FillSite(place)),
                })
                .collect(),
            scene_lane: lane_near(Near::Scene),
            lanes: (facts.one_lanes.iter())
                .map(|lane| Sampler::new(&lane.crossing, &mut tables))
                .collect(),
            tables,
        }
    }
}

fn call(call: &Call, key: u64, tables: &mut Tables) -> ReadyCall {
    ReadyCall {
        requested_at: call.requested_at,
        response: Sampler::new(&call.response, tables),
        key,
    }
}

fn ready_tanker(plan: &Plan, place: usize, tables: &mut Tables) -> ReadyTanker {
    let facts = plan.facts();
    let tanker = &facts.tankers[place];
    let Handling {
        nurse_connect,
        nurse_disconnect,
        dump_position,
        dump_clear,
        fill_connect,
        fill_disconnect,
    } = &tanker.handling;
    let residual = tanker.capacity * tanker.residual;
    let fill = tanker.fill();
    let load = fill * (1.0 - tanker.waste);
    ReadyTanker {
        call: call(&tanker.call, key_of("tanker", &tanker.name), tables),
        fill,
        load,
        spills: fill - load,
        capacity: tanker.capacity,
        waste: tanker.waste,
        pour: match tanker.dump_curve {
            DumpCurve::Steady => Pour::Steady { rate: tanker.dump_rate },
            DumpCurve::Gravity => {
                Pour::by_gravity(tanker.load() + residual, residual, tanker.dump_rate)
            }
        },
        pump_off: tanker.pump_off,
        fill_limit: tanker.fill_limit,
        breakdown_per_trip: tanker.breakdown_per_trip,
        repair: (tanker.repair.as_ref()).map(|time| Sampler::new(time, tables)),
        fill_site: tanker.fill_site,
        nurse_connect: Sampler::new(nurse_connect, tables),
        nurse_disconnect: Sampler::new(nurse_disconnect, tables),
        dump_position: Sampler::new(dump_position, tables),
        dump_clear: Sampler::new(dump_clear, tables),
        fill_connect: Sampler::new(fill_connect, tables),
        fill_disconnect: Sampler::new(fill_disconnect, tables),
        expects: (facts.fill_sites.iter())
            .map(|site| {
                let road = site.out.time.mean() + site.back.time.mean();
                let filling = tanker.fill() / tanker.fill_limit.min(site.flow);
                Expected {
                    road,
                    at_position: filling + fill_connect.mean() + fill_disconnect.mean(),
                }
            })
            .collect(),
    }
}
