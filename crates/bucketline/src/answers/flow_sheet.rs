//! What is worked out about a building for the rule that counts: the sheet behind the answer of `flow`.

use fireground::attack_lines::{AttackLines, LineFlows, attack_lines};
use fireground::heat::{BTU_TO_BOIL_A_POUND, POUNDS_PER_GALLON, heat_absorbed};
use fireground::minimum_supply::{enclosed_volume, minimum_supply};
use fireground::quick_flow_rules::total_water;
use fireground::side_by_side::Rule;
use fireground::{FactError, PSI_PER_FOOT, Worked};
use serde::Serialize;
use shuttle_sim::{Luck, Shuttle};

use super::hose_instead::{self, Compared, HoseInstead};
use scenario_file::WaterWanted;

/// Temperature of the water at the nozzle for the heat it takes up, F. Judgement: well water.
pub const WATER_F: f64 = 62.0;

/// Share of the water that turns to steam, for the heat it takes up. Judgement.
const STEAM_SHARE: f64 = 0.5;

/// A building near, and whether it counts as a hazard.
#[derive(Serialize)]
pub struct ExposureTold {
    pub distance_ft: f64,
    pub area_ft2: f64,
    pub hazard: bool,
}

/// The program's own figures of water, and the heat that the attack flow takes up.
#[derive(Serialize)]
pub struct Water {
    pub temperature_f: f64,
    pub psi_per_foot: f64,
    pub pounds_per_gallon: f64,
    pub btu_to_boil_a_pound: f64,
    pub btu_a_gallon_to_steam: f64,
    pub steam_share: f64,
    pub btu_a_minute: f64,
}

/// What is worked out for the rule that counts.
pub struct Sheet {
    pub rule: Rule,
    /// What the rule asks for, gpm.
    pub flow: f64,
    pub lines: AttackLines,
    pub total: Worked,
    pub volume: Worked,
    pub supply: Worked,
    pub exposures: Vec<ExposureTold>,
    pub water: Water,
    pub hose: Vec<HoseInstead>,
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
        exposures.push(ExposureTold {
            distance_ft: near.distance_ft,
            area_ft2: near.area_ft2,
            hazard: building.is_hazard(near)?,
        });
    }
    Ok(Sheet {
        rule,
        flow,
        lines: attack_lines(flow, &LineFlows::default())?,
        total: total_water(flow, wanted.duration)?,
        volume: enclosed_volume(&rural)?,
        supply: minimum_supply(&rural)?,
        exposures,
        water: Water {
            temperature_f: WATER_F,
            psi_per_foot: PSI_PER_FOOT,
            pounds_per_gallon: POUNDS_PER_GALLON,
            btu_to_boil_a_pound: BTU_TO_BOIL_A_POUND,
            // One gpm for one minute is a gallon.
            btu_a_gallon_to_steam: heat_absorbed(1.0, 1.0, WATER_F)?.value,
            steam_share: STEAM_SHARE,
            btu_a_minute: heat_absorbed(flow, STEAM_SHARE, WATER_F)?.value,
        },
        hose: hose(wanted, flow),
    })
}

fn hose(wanted: &WaterWanted, flow_gpm: f64) -> Vec<HoseInstead> {
    if let Some(scenario) = &wanted.scenario {
        let established = Shuttle::new(&scenario.plan).run(Luck::Planned).established;
        return hose_instead::of_scenario(scenario, flow_gpm, established);
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
    vec![hose_instead::compare(&wanted.hose, compared)]
}

/// Least and greatest of what the rules ask for, gpm.
pub fn range(wanted: &WaterWanted) -> (f64, f64) {
    let flows = wanted.flow.rows.iter().map(|row| row.flow.value);
    flows.fold((f64::INFINITY, 0.0), |(least, most), flow| (least.min(flow), most.max(flow)))
}
