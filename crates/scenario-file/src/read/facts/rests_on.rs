//! Reading what the inputs rest on: who says `samples`, `timed` or `guess`, wherever it stands.

use shuttle_sim::{Owner, PlanPart as Part, RestsOn, Unsure};

use crate::format::description::Field;
use crate::format::fire::incident_and_supply::{OfAttackEngine, OfSupply, OfSupplyEngine};
use crate::format::haul::drop_tanks::OfDropTank;
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::haul::roads::{Leg, OfLegMinutes, OfOneLane};
use crate::format::haul::tankers::{OfHandling, OfTanker};
use crate::format::shared_fields::OfFailure;
use crate::format::takes::Either;
use crate::format::values::durations::OfSamples;
use crate::format::values::rests_on::{GUESS, TIMED};
use crate::format::whole_files::OfScenario;
use crate::read::plan_draft::{SCENE, one_lanes};
use crate::read::tankers_and_sites::hauling;
use crate::structure::entry::Entry;

/// Handling times.
const HANDLING: [(Field, Part); 6] = [
    (OfHandling::NURSE_CONNECT.field, Part::NurseConnect),
    (OfHandling::NURSE_DISCONNECT.field, Part::NurseDisconnect),
    (OfHandling::DUMP_POSITION.field, Part::DumpPosition),
    (OfHandling::DUMP_CLEAR.field, Part::DumpClear),
    (OfHandling::FILL_CONNECT.field, Part::FillConnect),
    (OfHandling::FILL_DISCONNECT.field, Part::FillDisconnect),
];

/// What each entry of a kind may rest on something with.
const OF_TANKER: [(Field, Part); 7] = [
    (OfTanker::RESPONSE.field, Part::Response),
    (OfTanker::REPAIR.field, Part::Repair),
    (OfTanker::CAPACITY.field, Part::Capacity),
    (OfTanker::DUMP_RATE.field, Part::DumpRate),
    (OfTanker::PUMP_OFF.field, Part::PumpOff),
    (OfTanker::FILL_LIMIT.field, Part::FillLimit),
    (OfTanker::WASTE.field, Part::Waste),
];
const OF_DROP_TANK: [(Field, Part); 3] = [
    (OfDropTank::RESPONSE.field, Part::Response),
    (OfDropTank::SETUP.field, Part::Setup),
    (OfDropTank::TRANSFER.field, Part::Transfer),
];
const OF_FILL_SITE: [(Field, Part); 3] = [
    (OfFillSite::FLOW.field, Part::Flow),
    (OfFillSite::RECHARGE.field, Part::Recharge),
    (OfFillSite::READY.field, Part::Ready),
];
const OF_ATTACK_ENGINE: [(Field, Part); 3] = [
    (OfAttackEngine::RESPONSE.field, Part::Response),
    (OfAttackEngine::WATER_ON.field, Part::WaterOn),
    (OfAttackEngine::TANK_REFILL.field, Part::TankRefill),
];
const OF_SUPPLY: [(Field, Part); 3] = [
    (OfSupply::SETUP.field, Part::Setup),
    (OfSupply::REPRIME.field, Part::Reprime),
    (OfSupply::DRAFT_LIMIT.field, Part::DraftLimit),
];
const OF_SUPPLY_ENGINE: [(Field, Part); 2] =
    [(OfSupplyEngine::RESPONSE.field, Part::Response), (OfSupplyEngine::SETUP.field, Part::Setup)];

/// Every input that rests on readings or a guess, in the order of the file.
pub(crate) fn unsure(root: &Entry<'_, OfScenario>) -> Vec<Unsure> {
    let mut found = Found::default();
    found.each(&root.get(&OfScenario::ATTACK_ENGINE), &Owner::AttackEngine, &OF_ATTACK_ENGINE);
    let supply = root.get(&OfScenario::SUPPLY);
    found.each(&supply, &Owner::Supply, &OF_SUPPLY);
    found.repair(supply.get(&OfSupply::FAILURE), &Owner::Supply);
    if let Some(engine) = supply.get(&OfSupply::ENGINE) {
        found.each(&engine, &Owner::SupplyEngine, &OF_SUPPLY_ENGINE);
    }
    for (listed, tank) in root.get(&OfScenario::DROP_TANKS).iter().enumerate() {
        found.each(tank, &Owner::DropTank(listed), &OF_DROP_TANK);
    }
    found.tankers(root);
    for (place, site) in root.get(&OfScenario::FILL_SITES).iter().enumerate() {
        let name = site.get(&OfFillSite::NAME).map_or_else(
            // As the site is then called.
            || format!("Fill site {}", place + 1),
            str::to_string,
        );
        let owner = Owner::FillSite(name);
        found.each(site, &owner, &OF_FILL_SITE);
        found.repair(site.get(&OfFillSite::FAILURE), &owner);
        found.legs(site, &owner);
    }
    for lane in &one_lanes(root) {
        let near = lane.get(&OfOneLane::NEAR);
        let owner = Owner::OneLane((near != SCENE).then(|| near.to_owned()));
        found.each(lane, &owner, &[(OfOneLane::CROSSING.field, Part::Crossing)]);
    }
    found.0
}

#[derive(Default)]
struct Found(Vec<Unsure>);

impl Found {
    fn add(&mut self, of: &Owner, parts: Vec<Part>, rests_on: RestsOn) {
        self.0.push(Unsure { of: of.clone(), parts, rests_on });
    }

    fn each<O>(&mut self, entry: &Entry<'_, O>, of: &Owner, rows: &[(Field, Part)]) {
        for (field, part) in rows {
            if let Some(rests_on) = entry.in_braces(field).and_then(|value| rests_on(&value)) {
                self.add(of, vec![*part], rests_on);
            }
        }
    }

    fn repair(&mut self, failure: Option<Entry<'_, OfFailure>>, of: &Owner) {
        if let Some(failure) = failure {
            self.each(&failure, of, &[(OfFailure::REPAIR.field, Part::Repair)]);
        }
    }

    /// Each entry's own, then what is common to all that have no own.
    fn tankers(&mut self, root: &Entry<'_, OfScenario>) {
        let entries = hauling(root);
        for (listed, tanker) in entries.iter().enumerate() {
            let name = tanker
                .get(&OfTanker::NAME)
                .map_or_else(|| format!("Tanker {}", listed + 1), str::to_string);
            let owner = Owner::Tankers { name, listed };
            self.each(tanker, &owner, &OF_TANKER);
            self.each(&tanker.get(&OfTanker::HANDLING), &owner, &HANDLING);
        }
        let common = root.get(&OfScenario::HANDLING);
        for (field, part) in HANDLING {
            let who: Vec<usize> = (0..entries.len())
                .filter(|listed| !entries[*listed].get(&OfTanker::HANDLING).has_stated(&field))
                .collect();
            if !who.is_empty() {
                self.each(&common, &Owner::EveryTanker(who), &[(field, part)]);
            }
        }
    }

    /// The road both ways. Guessed alike it is one guess: who drives slower out drives slower back.
    fn legs(&mut self, site: &Entry<'_, OfFillSite>, of: &Owner) {
        let leg = |(how, leg): (Leg, Entry<'_, Leg>)| match how {
            Leg::Minutes => {
                leg.in_braces(&OfLegMinutes::MINUTES.field).and_then(|value| rests_on(&value))
            }
            Leg::Miles | Leg::Km | Leg::Stretches => rests_on(&leg),
        };
        match (leg(site.get(&OfFillSite::OUT)), leg(site.get(&OfFillSite::BACK))) {
            (Some(out @ RestsOn::Guess(_)), Some(back)) if out == back => {
                self.add(of, vec![Part::Out, Part::Back], out);
            }
            (out, back) => {
                out.into_iter().for_each(|out| self.add(of, vec![Part::Out], out));
                back.into_iter().for_each(|back| self.add(of, vec![Part::Back], back));
            }
        }
    }
}

/// What a value in braces says that it rests on; `None`: it is taken as known.
fn rests_on<O>(value: &Entry<'_, O>) -> Option<RestsOn> {
    if let Some(value) = value.if_is::<OfSamples>() {
        let readings = value.get(&OfSamples::SAMPLES).len() as u32;
        // One reading gives a value and no spread.
        let alone = RestsOn::Guess(RestsOn::GUESS);
        return Some(if readings > 1 { RestsOn::Readings(readings) } else { alone });
    }
    if let Some(readings) = value.shared(&TIMED).flatten() {
        return Some(RestsOn::Readings(readings));
    }
    match value.shared(&GUESS).flatten()? {
        Either::This(true) => Some(RestsOn::Guess(RestsOn::GUESS)),
        Either::That(factor) if factor > 1.0 => Some(RestsOn::Guess(factor)),
        Either::This(false) | Either::That(_) => None,
    }
}
