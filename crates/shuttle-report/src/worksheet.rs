//! The plan by hand: mean times and the usual formula, as on paper.
//!
//! - Tanker rate: gpm = tank less 10%, divided by the cycle (NFPA 1142 annex C: Q = V / (A + T1 +
//!   T2 + B) less 10% for spill, underfill and incomplete unloading).
//! - Cap of a fill site or of the dump site: positions times a load, divided by the time a load occupies
//!   one.
//! - Knee of the fleet: the tightest cap over one tanker's rate (operational laws of queueing: cycle time
//!   over bottleneck service time).

use shuttle_sim::{DropTank, FillSite, Part, Plan, Tanker};

/// The standard's allowance for spill, underfill and incomplete unloading (NFPA 1142 annex C).
pub const HAND_ALLOWANCE: f64 = 0.10;

/// One tanker by hand, never waiting.
#[derive(Debug, Clone)]
pub struct TankerSheet {
    /// Its name.
    pub name: String,
    /// The site it would drive to first.
    pub fill_site: String,
    /// Minutes by part, means.
    pub parts: Vec<(Part, f64)>,
    /// Their sum, minutes.
    pub cycle_min: f64,
    /// By the hand formula: capacity less 10% over the cycle, gpm.
    pub hand_gpm: f64,
    /// With the plan's own waste and residual, gpm.
    pub plan_gpm: f64,
    /// What a whole load delivers, gal.
    pub load_gal: f64,
}

/// A place that all water, or all of a site, passes through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Station {
    /// The fill site of this name.
    FillSite(String),
    /// All fill sites together.
    FillSites,
    /// The dump site.
    DumpSite,
    /// The attack engine's intakes.
    Intakes,
    /// The draft with its lay.
    DraftAndLay,
}

/// What caps a station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CappedBy {
    /// The site's flow, less waste.
    Flow,
    /// Positions x load / (connect + fill + disconnect).
    FillPositions,
    /// Positions x load / (position + dump + clear).
    DumpPositions,
    /// Intakes x load / (connect + pump off + disconnect).
    Intakes,
    /// The least of the limits stated for pump and lay.
    StatedLimits,
}

/// The capacity of one station, gpm.
#[derive(Debug, Clone)]
pub struct Cap {
    /// The station.
    pub at: Station,
    /// Delivered gpm at most, with the tankers of the plan.
    pub gpm: f64,
    /// How it is worked out.
    pub by: CappedBy,
}

impl Station {
    /// The station in the words of reports.
    pub fn words(&self) -> &str {
        match self {
            Station::FillSite(name) => name,
            Station::FillSites => "fill sites",
            Station::DumpSite => "dump site",
            Station::Intakes => "attack engine intakes",
            Station::DraftAndLay => "draft and lay",
        }
    }
}

/// The whole plan by hand.
#[derive(Debug, Clone)]
pub struct Worksheet {
    /// Greatest attack flow, gpm.
    pub peak_flow_gpm: f64,
    /// One a tanker, in order.
    pub tankers: Vec<TankerSheet>,
    /// Sum of the hand rates, gpm.
    pub hand_gpm: f64,
    /// Sum of the rates with the plan's own waste, gpm.
    pub plan_gpm: f64,
    /// Fill sites, in order.
    pub fill_caps: Vec<Cap>,
    /// Dump site and draft: the other possible bottlenecks.
    pub other_caps: Vec<Cap>,
    /// The tightest of the caps (fill sites taken together), gpm, and which it is in words.
    pub tightest: Option<(String, f64)>,
    /// The same, with the station as a value.
    pub tightest_station: Option<(Station, f64)>,
    /// Tankers like the average one that reach the tightest cap; more add nothing.
    pub knee: Option<f64>,
    /// Deliverable water on wheels, gal.
    pub on_wheels_gal: f64,
    /// The same as minutes of the greatest attack flow.
    pub on_wheels_min: f64,
    /// The attack engine's own tank as minutes of the greatest attack flow.
    pub engine_tank_min: f64,
    /// Usable water of full drop tanks as minutes of the greatest attack flow.
    pub drop_tanks_min: f64,
    /// Gallons wanted over the watch.
    pub wanted_gal: f64,
}

/// Works a plan out by hand.
pub fn worksheet(plan: &Plan) -> Worksheet {
    let facts = plan.facts();
    let peak = (facts.incident.attack_flow.iter()).fold(0.0, |most: f64, step| most.max(step.flow));
    let tankers: Vec<TankerSheet> =
        facts.tankers.iter().map(|one| tanker_sheet(plan, one)).collect();
    let fill_caps: Vec<Cap> = facts.fill_sites.iter().map(|site| fill_cap(plan, site)).collect();
    let other_caps: Vec<Cap> = [dump_cap(plan), draft_cap(plan)].into_iter().flatten().collect();
    let plan_gpm: f64 = tankers.iter().map(|sheet| sheet.plan_gpm).sum();
    let all_sites = (Station::FillSites, fill_caps.iter().map(|cap| cap.gpm).sum());
    let tightest_station = (other_caps.iter().map(|cap| (cap.at.clone(), cap.gpm)))
        .chain([match fill_caps.as_slice() {
            [only] => (only.at.clone(), only.gpm),
            _ => all_sites,
        }])
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let tightest =
        tightest_station.as_ref().map(|(station, gpm)| (station.words().to_owned(), *gpm));
    let knee = (tightest.as_ref()).map(|(_, gpm)| gpm * tankers.len() as f64 / plan_gpm);
    let on_wheels_gal: f64 = facts.tankers.iter().map(Tanker::load).sum();
    let usable: f64 = facts.drop_tanks.iter().map(|tank| tank.capacity - tank.unusable).sum();
    Worksheet {
        peak_flow_gpm: peak,
        hand_gpm: tankers.iter().map(|sheet| sheet.hand_gpm).sum(),
        plan_gpm,
        tankers,
        fill_caps,
        other_caps,
        tightest,
        tightest_station,
        knee,
        on_wheels_gal,
        on_wheels_min: on_wheels_gal / peak,
        engine_tank_min: facts.attack_engine.tank / peak,
        drop_tanks_min: usable / peak,
        wanted_gal: crate::runs::details::wanted_gallons(plan),
    }
}

/// The site a tanker drives to when no other is under way.
fn first_site<'a>(plan: &'a Plan, tanker: &Tanker) -> &'a FillSite {
    let sites = &plan.facts().fill_sites;
    let alone = |site: &FillSite| {
        let handling = &tanker.handling;
        site.out.time.mean()
            + site.back.time.mean()
            + tanker.fill() / tanker.fill_rate_at(site)
            + handling.fill_connect.mean()
            + handling.fill_disconnect.mean()
    };
    match tanker.fill_site {
        Some(place) => &sites[place],
        None => (sites.iter().skip(1))
            .fold(&sites[0], |best, site| if alone(site) < alone(best) { site } else { best }),
    }
}

fn tanker_sheet(plan: &Plan, tanker: &Tanker) -> TankerSheet {
    let site = first_site(plan, tanker);
    let handling = &tanker.handling;
    let fill = tanker.fill() / tanker.fill_rate_at(site);
    let mut parts = vec![
        (Part::TravelOut, site.out.time.mean()),
        (Part::FillConnect, handling.fill_connect.mean()),
        (Part::Fill, fill),
        (Part::FillDisconnect, handling.fill_disconnect.mean()),
        (Part::TravelBack, site.back.time.mean()),
    ];
    if plan.facts().drop_tanks.is_empty() {
        parts.extend([
            (Part::NurseConnect, handling.nurse_connect.mean()),
            (Part::PumpOff, tanker.load() / tanker.pump_off),
            (Part::NurseDisconnect, handling.nurse_disconnect.mean()),
        ]);
    } else {
        parts.extend([
            (Part::DumpPosition, handling.dump_position.mean()),
            (Part::Dump, tanker.load() / tanker.dump_rate),
            (Part::DumpClear, handling.dump_clear.mean()),
        ]);
    }
    let cycle: f64 = parts.iter().map(|(_, minutes)| minutes).sum();
    TankerSheet {
        name: tanker.name.clone(),
        fill_site: site.name.clone(),
        parts,
        cycle_min: cycle,
        hand_gpm: tanker.capacity * (1.0 - HAND_ALLOWANCE) / cycle,
        plan_gpm: tanker.load() / cycle,
        load_gal: tanker.load(),
    }
}

/// Delivered gpm that a station can pass on: `positions` loads at a time, each holding one for
/// `holds` minutes, over the tankers given.
fn positions_cap<'a>(
    tankers: impl Iterator<Item = &'a Tanker> + Clone,
    positions: u32,
    holds: impl Fn(&Tanker) -> f64,
) -> f64 {
    let loads: f64 = tankers.clone().map(Tanker::load).sum();
    let minutes: f64 = tankers.map(holds).sum();
    f64::from(positions) * loads / minutes
}

fn fill_cap(plan: &Plan, site: &FillSite) -> Cap {
    let facts = plan.facts();
    let place = facts.fill_sites.iter().position(|other| std::ptr::eq(other, site));
    // Those that could come here; if every tanker is assigned elsewhere, all of them.
    let mut users: Vec<&Tanker> = (facts.tankers.iter())
        .filter(|tanker| tanker.fill_site.is_none() || tanker.fill_site == place)
        .collect();
    if users.is_empty() {
        users = facts.tankers.iter().collect();
    }
    let users = users.into_iter();
    let by_positions = positions_cap(users.clone(), site.positions, |tanker| {
        let handling = &tanker.handling;
        tanker.fill() / tanker.fill_rate_at(site)
            + handling.fill_connect.mean()
            + handling.fill_disconnect.mean()
    });
    let delivered: f64 = users.clone().map(Tanker::load).sum();
    let taken: f64 = users.map(Tanker::fill).sum();
    let by_flow = site.flow * delivered / taken;
    if by_flow < by_positions {
        Cap { at: Station::FillSite(site.name.clone()), gpm: by_flow, by: CappedBy::Flow }
    } else {
        let at = Station::FillSite(site.name.clone());
        Cap { at, gpm: by_positions, by: CappedBy::FillPositions }
    }
}

fn dump_cap(plan: &Plan) -> Option<Cap> {
    let facts = plan.facts();
    let tankers = facts.tankers.iter();
    if facts.drop_tanks.is_empty() {
        let gpm = positions_cap(tankers, facts.attack_engine.intakes, |tanker| {
            tanker.load() / tanker.pump_off
                + tanker.handling.nurse_connect.mean()
                + tanker.handling.nurse_disconnect.mean()
        });
        return Some(Cap { at: Station::Intakes, gpm, by: CappedBy::Intakes });
    }
    let positions = facts.drop_tanks.iter().map(|tank: &DropTank| tank.dump_positions).sum();
    let gpm = positions_cap(tankers, positions, |tanker| {
        tanker.load() / tanker.dump_rate
            + tanker.handling.dump_position.mean()
            + tanker.handling.dump_clear.mean()
    });
    Some(Cap { at: Station::DumpSite, gpm, by: CappedBy::DumpPositions })
}

fn draft_cap(plan: &Plan) -> Option<Cap> {
    let limit = plan.draft_limit();
    (limit.is_finite() && !plan.facts().drop_tanks.is_empty()).then_some(Cap {
        at: Station::DraftAndLay,
        gpm: limit,
        by: CappedBy::StatedLimits,
    })
}
