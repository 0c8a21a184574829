//! The plan by hand: mean times and the usual formula, as on paper.
//!
//! - Tanker rate: gpm = tank less 10%, divided by the cycle (NFPA 1142 annex C: Q = V / (A + T1 +
//!   T2 + B) less 10% for spill, underfill and incomplete unloading).
//! - Cap of a fill site or of the dump site: positions times a load, divided by the time a load occupies
//!   one.
//! - Sets of fill sites: each tanker goes to one site, by the [best assignment](assignment); what a site
//!   passes is capped by its positions, its flow, and its quantity over the time watched.
//! - Knee of the fleet: the tightest cap over one tanker's rate (operational laws of queueing: cycle time
//!   over bottleneck service time).

pub mod assignment;

mod caps;

pub mod unloading;

use shuttle_sim::{DropTank, FillSite, Part, Plan, PlanDraft, Tanker};

use caps::{draft_cap, pumped_flow, quantity_gpm};

pub use caps::{fill_cap, other_caps, tightest};

use assignment::{Assignment, Shuttling, SiteCredit, SiteLimit, Turn};
use unloading::{Unloaded, Unloading};

/// The standard's allowance for spill, underfill and incomplete unloading (NFPA 1142 annex C).
pub const HAND_ALLOWANCE: f64 = 0.10;

/// One tanker by hand, never waiting.
#[derive(Debug, Clone)]
pub struct TankerSheet {
    /// Its name.
    pub name: String,
    /// The site it is assigned to.
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
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
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
    /// The site's quantity over the time watched.
    Quantity,
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
    /// What the fill sites pass of the hand rates, each with the tankers assigned to it, gpm.
    pub passes_gpm: f64,
    /// What they pass of the rates with the plan's own waste, gpm.
    pub plan_passes_gpm: f64,
    /// By fill site: its tankers, and what it passes of their hand rates.
    pub site_credits: Vec<SiteCredit>,
    /// Whether every assignment of tankers to sites was weighed; else it was searched for.
    pub exact: bool,
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

impl Worksheet {
    /// What counts by hand: what the fill sites pass of the hand rates, no more than the scene does, and which place
    /// that is where it is less than the tankers make.
    pub fn counts(&self) -> (f64, Option<Station>) {
        let sites = match self.fill_caps.as_slice() {
            [only] => only.at.clone(),
            _ => Station::FillSites,
        };
        let (at, gpm) = (self.other_caps.iter().map(|cap| (&cap.at, cap.gpm))).fold(
            (&sites, self.passes_gpm),
            |least, one| if one.1 < least.1 { one } else { least },
        );
        (gpm, (gpm < self.hand_gpm - ROUNDING).then(|| at.clone()))
    }
}

/// Rates that differ by less are equal, gpm.
const ROUNDING: f64 = 1e-9;

/// What is asked of a hand calculation beyond the plan.
#[derive(Clone, Copy)]
pub struct HandTerms<'t> {
    /// Minutes over which a limited quantity must last.
    pub minutes: f64,
    /// Gallons of a tanker that are counted as a load.
    pub load: &'t dyn Fn(&Tanker) -> f64,
    /// Driving minutes to a site and back.
    pub drive: &'t dyn Fn(&FillSite) -> f64,
}

/// The tanker's capacity less the usual 10%, gal.
pub fn hand_load(tanker: &Tanker) -> f64 {
    tanker.capacity * (1.0 - HAND_ALLOWANCE)
}

/// Mean driving minutes to a site and back, as the plan states them.
pub fn stated_drive(site: &FillSite) -> f64 {
    site.out.time.mean() + site.back.time.mean()
}

/// Every tanker at every site, by hand: each drives, and the scene is not looked at.
pub fn shuttling(facts: &PlanDraft, terms: HandTerms<'_>) -> Shuttling {
    let limit = |site: &FillSite| SiteLimit {
        positions: f64::from(site.positions),
        flow_gpm: pumped_flow(facts, site),
        quantity_gpm: quantity_gpm(site, terms.minutes),
    };
    let turn = |tanker: &Tanker, site: &FillSite| {
        let drive = (terms.drive)(site) * tanker.drive_factor;
        let cycle = service(tanker, site) + drive + unloading(facts, tanker);
        Turn { rate_gpm: (terms.load)(tanker) / cycle, busy: service(tanker, site) / cycle }
    };
    Shuttling {
        sites: facts.fill_sites.iter().map(limit).collect(),
        turns: (facts.tankers.iter())
            .map(|tanker| facts.fill_sites.iter().map(|site| turn(tanker, site)).collect())
            .collect(),
        scene: None,
        may_stand: false,
    }
}

/// Where loads come off: with so many gallons of each counted, over the minutes that it takes with what is in it.
pub fn unloading_of(facts: &PlanDraft, load: &dyn Fn(&Tanker) -> f64) -> Unloading {
    let positions = if facts.drop_tanks.is_empty() {
        facts.attack_engine.intakes
    } else {
        facts.drop_tanks.iter().map(|tank: &DropTank| tank.dump_positions).sum()
    };
    let unloaded =
        |tanker: &Tanker| Unloaded { gallons: load(tanker), minutes: unloading(facts, tanker) };
    Unloading {
        positions: f64::from(positions),
        draft_gpm: draft_cap(facts).map_or(f64::INFINITY, |cap| cap.gpm),
        loads: facts.tankers.iter().map(unloaded).collect(),
    }
}

/// Works a plan out by hand.
pub fn worksheet(plan: &Plan) -> Worksheet {
    let facts = plan.facts();
    let peak = (facts.incident.attack_flow.iter()).fold(0.0, |most: f64, step| most.max(step.flow));
    let minutes = facts.incident.duration;
    let terms = HandTerms { minutes, load: &hand_load, drive: &stated_drive };
    let by_hand = shuttling(facts, terms);
    let only: Vec<Option<usize>> = facts.tankers.iter().map(|tanker| tanker.fill_site).collect();
    let all = sites_in_use(facts, &only);
    let Assignment { site_of, gpm: passes_gpm, exact } = by_hand.best(&all, &[], &only);
    let by_plan = shuttling(facts, HandTerms { load: &Tanker::load, ..terms });
    // Nobody stands: each is at one site.
    let tankers: Vec<TankerSheet> = (facts.tankers.iter().zip(&site_of))
        .filter_map(|(one, site)| Some(tanker_sheet(facts, one, &facts.fill_sites[(*site)?])))
        .collect();
    let fill_caps: Vec<Cap> =
        facts.fill_sites.iter().map(|site| fill_cap(facts, site, minutes)).collect();
    let other_caps: Vec<Cap> = other_caps(facts);
    let plan_gpm: f64 = tankers.iter().map(|sheet| sheet.plan_gpm).sum();
    let tightest_station = tightest(&fill_caps, &other_caps);
    let tightest =
        tightest_station.as_ref().map(|(station, gpm)| (station.words().to_owned(), *gpm));
    let knee = (tightest.as_ref()).map(|(_, gpm)| gpm * tankers.len() as f64 / plan_gpm);
    let on_wheels_gal: f64 = facts.tankers.iter().map(Tanker::load).sum();
    let usable: f64 = facts.drop_tanks.iter().map(|tank| tank.capacity - tank.unusable).sum();
    Worksheet {
        peak_flow_gpm: peak,
        hand_gpm: tankers.iter().map(|sheet| sheet.hand_gpm).sum(),
        plan_gpm,
        passes_gpm,
        plan_passes_gpm: by_plan.passed(&site_of),
        site_credits: by_hand.credits(&site_of),
        exact,
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

/// The places of the fill sites that open before the watch is over, or to which a tanker is assigned; every one where
/// that is none: nobody drives to a source that nobody can use, such as one whose pump stays away.
fn sites_in_use(facts: &PlanDraft, only: &[Option<usize>]) -> Vec<usize> {
    let engine = &facts.attack_engine;
    let first_water =
        engine.call.requested_at + engine.call.response.mean() + engine.water_on.mean();
    let end = first_water + facts.incident.duration;
    let is_used = |place: &usize| {
        let site = &facts.fill_sites[*place];
        site.self_fill || site.ready.mean() < end || only.contains(&Some(*place))
    };
    let every = 0..facts.fill_sites.len();
    let used: Vec<usize> = every.clone().filter(is_used).collect();
    if used.is_empty() { every.collect() } else { used }
}

/// Minutes for which a tanker holds a fill position.
pub fn service(tanker: &Tanker, site: &FillSite) -> f64 {
    tanker.fill() / tanker.fill_rate_at(site)
        + tanker.handling.fill_connect.mean()
        + tanker.handling.fill_disconnect.mean()
}

/// Minutes it takes to get a load off, all handling included.
fn unloading(facts: &PlanDraft, tanker: &Tanker) -> f64 {
    unloading_parts(facts, tanker).iter().map(|(_, minutes)| minutes).sum()
}

fn unloading_parts(facts: &PlanDraft, tanker: &Tanker) -> [(Part, f64); 3] {
    let handling = &tanker.handling;
    if facts.drop_tanks.is_empty() {
        [
            (Part::NurseConnect, handling.nurse_connect.mean()),
            (Part::PumpOff, tanker.load() / tanker.pump_off),
            (Part::NurseDisconnect, handling.nurse_disconnect.mean()),
        ]
    } else {
        [
            (Part::DumpPosition, handling.dump_position.mean()),
            (Part::Dump, tanker.load() / tanker.dump_rate),
            (Part::DumpClear, handling.dump_clear.mean()),
        ]
    }
}

/// One tanker at one site.
pub fn tanker_sheet(facts: &PlanDraft, tanker: &Tanker, site: &FillSite) -> TankerSheet {
    let handling = &tanker.handling;
    let fill = tanker.fill() / tanker.fill_rate_at(site);
    let [out, back] = tanker.drive_to(site);
    let mut parts = vec![
        (Part::TravelOut, out),
        (Part::FillConnect, handling.fill_connect.mean()),
        (Part::Fill, fill),
        (Part::FillDisconnect, handling.fill_disconnect.mean()),
        (Part::TravelBack, back),
    ];
    parts.extend(unloading_parts(facts, tanker));
    let cycle: f64 = parts.iter().map(|(_, minutes)| minutes).sum();
    TankerSheet {
        name: tanker.name.clone(),
        fill_site: site.name.clone(),
        parts,
        cycle_min: cycle,
        hand_gpm: hand_load(tanker) / cycle,
        plan_gpm: tanker.load() / cycle,
        load_gal: tanker.load(),
    }
}
