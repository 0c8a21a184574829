//! Where the file states the facts of a plan.

use shuttle_sim::{Place, PlanPart as Part, Step};

use crate::format::fire::incident_and_supply::{OfAttackEngine, OfFlowStep, OfIncident, OfSupply};
use crate::format::haul::drop_tanks::OfDropTank;
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::haul::roads::{OfLegMiles, OfLegMinutes, OfOneLane};
use crate::format::haul::tankers::{OfHandling, OfTanker};
use crate::format::shared_fields::OfFailure;
use crate::format::values::durations::{OfLognormal, OfSamples, OfTriangular};
use crate::format::values::flow_facts::OfPump;
use crate::format::whole_files::{OfScenario, OfWholeFire};

/// The path of a place in the file: `tankers[1].handling.fill_connect`.
pub(super) fn path(place: &Place) -> String {
    let mut path = String::new();
    for step in &place.0 {
        match step {
            Step::Entry(index) => path.push_str(&format!("[{index}]")),
            Step::Part(part) => {
                if !path.is_empty() {
                    path.push('.');
                }
                path.push_str(key_of(*part));
            }
        }
    }
    path
}

/// The key of a fact; where several objects have it, the key is the same.
fn key_of(part: Part) -> &'static str {
    match part {
        Part::Title => OfScenario::TITLE.key(),
        Part::Incident => OfScenario::INCIDENT.key(),
        Part::Duration => OfIncident::DURATION.key(),
        Part::Tolerance => OfIncident::TOLERANCE.key(),
        Part::Reserve => OfIncident::RESERVE.key(),
        Part::AttackFlow => OfIncident::ATTACK_FLOW.key(),
        Part::From => OfFlowStep::FROM.key(),
        Part::Flow => OfFlowStep::FLOW.key(),
        Part::AttackEngine => OfScenario::ATTACK_ENGINE.key(),
        Part::Name => OfAttackEngine::NAME.key(),
        Part::Tank => OfAttackEngine::TANK.key(),
        Part::RequestedAt => OfAttackEngine::REQUESTED_AT.key(),
        Part::Response => OfAttackEngine::RESPONSE.key(),
        Part::WaterOn => OfAttackEngine::WATER_ON.key(),
        Part::Intakes => OfAttackEngine::INTAKES.key(),
        Part::TankRefill => OfAttackEngine::TANK_REFILL.key(),
        Part::Supply => OfScenario::SUPPLY.key(),
        Part::Engine => OfSupply::ENGINE.key(),
        Part::Setup => OfSupply::SETUP.key(),
        Part::DraftLimit => OfSupply::DRAFT_LIMIT.key(),
        Part::Pump => OfSupply::PUMP.key(),
        Part::Rated => OfPump::RATED.key(),
        Part::Lay => OfSupply::LAY.key(),
        Part::Reprime => OfSupply::REPRIME.key(),
        Part::RestartLevel => OfSupply::RESTART_LEVEL.key(),
        Part::LowWater => OfSupply::LOW_WATER.key(),
        Part::DropTanks => OfScenario::DROP_TANKS.key(),
        Part::Capacity => OfDropTank::CAPACITY.key(),
        Part::Unusable => OfDropTank::UNUSABLE.key(),
        Part::BroughtBy => OfDropTank::BROUGHT_BY.key(),
        Part::DumpPositions => OfDropTank::DUMP_POSITIONS.key(),
        Part::Transfer => OfDropTank::TRANSFER.key(),
        Part::Tankers => OfScenario::TANKERS.key(),
        Part::DumpRate => OfTanker::DUMP_RATE.key(),
        Part::PumpOff => OfTanker::PUMP_OFF.key(),
        Part::FillLimit => OfTanker::FILL_LIMIT.key(),
        Part::Waste => OfTanker::WASTE.key(),
        Part::Residual => OfTanker::RESIDUAL.key(),
        Part::BreakdownPerTrip => OfTanker::BREAKDOWN_PER_TRIP.key(),
        Part::Repair => OfTanker::REPAIR.key(),
        Part::FillSite => OfTanker::FILL_SITE.key(),
        Part::Handling => OfScenario::HANDLING.key(),
        Part::NurseConnect => OfHandling::NURSE_CONNECT.key(),
        Part::NurseDisconnect => OfHandling::NURSE_DISCONNECT.key(),
        Part::DumpPosition => OfHandling::DUMP_POSITION.key(),
        Part::DumpClear => OfHandling::DUMP_CLEAR.key(),
        Part::FillConnect => OfHandling::FILL_CONNECT.key(),
        Part::FillDisconnect => OfHandling::FILL_DISCONNECT.key(),
        Part::FillSites => OfScenario::FILL_SITES.key(),
        Part::Positions => OfFillSite::POSITIONS.key(),
        Part::Ready => OfFillSite::READY.key(),
        Part::Volume => OfFillSite::VOLUME.key(),
        Part::Recharge => OfFillSite::RECHARGE.key(),
        Part::Out => OfFillSite::OUT.key(),
        Part::Back => OfFillSite::BACK.key(),
        Part::Miles => OfLegMiles::MILES.key(),
        Part::Minutes => OfLegMinutes::MINUTES.key(),
        Part::OneLane => OfScenario::ONE_LANE.key(),
        Part::Crossing => OfOneLane::CROSSING.key(),
        Part::Near => OfOneLane::NEAR.key(),
        Part::Mean => OfLognormal::MEAN.key(),
        Part::Cv => OfLegMiles::CV.key(),
        Part::Low => OfTriangular::LOW.key(),
        Part::Likely => OfTriangular::LIKELY.key(),
        Part::High => OfTriangular::HIGH.key(),
        Part::Samples => OfSamples::SAMPLES.key(),
        Part::Turnout => OfDropTank::TURNOUT.key(),
        Part::Failure => OfSupply::FAILURE.key(),
        Part::Chance => OfFailure::CHANCE.key(),
        Part::CrewCv => OfTanker::CREW_CV.key(),
        Part::DriveFactor => OfTanker::DRIVE_FACTOR.key(),
        Part::SelfFill => OfTanker::SELF_FILL.key(),
        Part::SourcePump => OfFillSite::SOURCE_PUMP.key(),
        Part::WholeFire => OfScenario::WHOLE_FIRE.key(),
        Part::DrivingCv => OfWholeFire::DRIVING_CV.key(),
        Part::HandlingCv => OfWholeFire::HANDLING_CV.key(),
        Part::ResponseCv => OfWholeFire::RESPONSE_CV.key(),
    }
}
