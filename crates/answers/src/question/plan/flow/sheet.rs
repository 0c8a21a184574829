//! What is worked out about a building for the rule that counts.

use fireground::attack_lines::{AttackLines, LineFlows, attack_lines};
use fireground::heat::{BTU_TO_BOIL_A_POUND, POUNDS_PER_GALLON, heat_absorbed};
use fireground::lost_fire::{BEYOND_ANY_SHUTTLE_GPM, exposures_only};
use fireground::minimum_supply::{enclosed_volume, minimum_supply};
use fireground::quick_flow_rules::total_water;
use fireground::side_by_side::Rule;
use fireground::{FactError, PSI_PER_FOOT, Worked};
use scenario_file::WaterWanted;
use shuttle_sim::{Luck, Shuttle};

use crate::shared::hose::{self, Compared, HoseInstead};

/// Temperature of the water at the nozzle for the heat it takes up, F. Judgement: well water.
const WATER_F: f64 = 62.0;

/// Share of the water that turns to steam, for the heat it takes up. Judgement.
const STEAM_SHARE: f64 = 0.5;

/// A building near, and whether it counts as a hazard.
pub struct Near {
    /// Distance, ft.
    pub distance_ft: f64,
    /// Its ground area, ft2.
    pub area_ft2: f64,
    /// Whether it counts as an exposure hazard.
    pub hazard: bool,
}

/// The constants of water as the trade has them, in the units of its rules.
pub struct Water {
    /// Temperature at the nozzle, F.
    pub fahrenheit: f64,
    /// Share that turns to steam.
    pub share_to_steam: f64,
    /// Weight, lb a gallon.
    pub pounds_a_gallon: f64,
    /// Heat to boil it off, Btu a pound.
    pub btu_to_boil_a_pound: f64,
    /// Heat from that temperature to steam, Btu a gallon.
    pub btu_to_steam_a_gallon: f64,
    /// Pressure under a column of it, psi a foot.
    pub psi_a_foot: f64,
}

/// What is worked out for the rule that counts.
pub struct Sheet {
    /// The rule.
    pub rule: Rule,
    /// What it asks for, gpm.
    pub flow: f64,
    /// Lines that carry it.
    pub lines: AttackLines,
    /// If the building is given up: what keeps the fire from those beside it, gpm.
    pub exposures_only: Option<Worked>,
    /// Water for it over the time it is wanted, gal.
    pub total: Worked,
    /// Enclosed volume of the building, ft3.
    pub volume: Worked,
    /// Minimum supply, gal.
    pub supply: Worked,
    /// Buildings near.
    pub near: Vec<Near>,
    /// Heat that the flow takes up with half of it to steam, Btu a minute.
    pub heat: Worked,
    /// Constants of water.
    pub water: Water,
    /// Hose in place of tankers.
    pub hose: Vec<HoseInstead>,
}

impl Sheet {
    /// Whether its flow is beyond what any tanker shuttle is known to have fed.
    pub fn is_beyond_any_shuttle(&self) -> bool {
        self.flow > BEYOND_ANY_SHUTTLE_GPM
    }

    /// What two crews put on with a hand line each, small ones and large ones, gpm.
    pub fn two_crews_gpm(&self) -> (f64, f64) {
        let flows = LineFlows::default();
        (2.0 * flows.small_gpm, 2.0 * flows.large_gpm)
    }
}

/// Works out the sheet of a rule.
///
/// - Errors: a flow that no hand lines carry.
pub fn sheet(wanted: &WaterWanted, rule: Rule) -> Result<Sheet, FactError> {
    let building = wanted.building();
    let flow = wanted.flow.asked(rule).flow.value;
    let rural = building.rural()?;
    let mut exposures = Vec::new();
    for near in &building.exposures {
        exposures.push(Near {
            distance_ft: near.distance_ft,
            area_ft2: near.area_ft2,
            hazard: building.is_hazard(near)?,
        });
    }
    Ok(Sheet {
        rule,
        flow,
        lines: attack_lines(flow, &LineFlows::default())?,
        exposures_only: exposures_only(building)?,
        total: total_water(flow, wanted.duration)?,
        volume: enclosed_volume(&rural)?,
        supply: minimum_supply(&rural)?,
        near: exposures,
        heat: heat_absorbed(flow, STEAM_SHARE, WATER_F)?,
        water: water()?,
        hose: lays(wanted, flow),
    })
}

fn lays(wanted: &WaterWanted, flow_gpm: f64) -> Vec<HoseInstead> {
    if let Some(scenario) = &wanted.scenario {
        let established = Shuttle::new(&scenario.plan).run(Luck::Planned).established;
        return hose::of_scenario(scenario, flow_gpm, established);
    }
    let compared = Compared {
        source: None,
        source_gpm: None,
        distance_ft: wanted.hose.distance_ft,
        flow_gpm,
        start_min: wanted.hose.start_min.unwrap_or(0.0),
        shuttle_min: None,
        shuttle_gpm: None,
    };
    vec![hose::compare(&wanted.hose, compared)]
}

fn water() -> Result<Water, FactError> {
    Ok(Water {
        fahrenheit: WATER_F,
        share_to_steam: STEAM_SHARE,
        pounds_a_gallon: POUNDS_PER_GALLON,
        btu_to_boil_a_pound: BTU_TO_BOIL_A_POUND,
        // One gpm for one minute is a gallon.
        btu_to_steam_a_gallon: heat_absorbed(1.0, 1.0, WATER_F)?.value,
        psi_a_foot: PSI_PER_FOOT,
    })
}

/// Least and greatest of what the rules ask for, gpm.
pub fn range(wanted: &WaterWanted) -> (f64, f64) {
    let flows = wanted.flow.rows.iter().map(|row| row.flow.value);
    flows.fold((f64::INFINITY, 0.0), |(least, most), flow| (least.min(flow), most.max(flow)))
}
