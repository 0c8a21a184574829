//! Reading what the inputs rest on: who says `samples`, `timed` or `guess`, wherever it stands.

use shuttle_sim::{Owner, PlanPart as Part, RestsOn, Unsure};

use crate::structure::checked_value::Value;
use crate::structure::entry::Entry;

/// Handling times by key.
const HANDLING: [(&str, Part); 6] = [
    ("nurse_connect", Part::NurseConnect),
    ("nurse_disconnect", Part::NurseDisconnect),
    ("dump_position", Part::DumpPosition),
    ("dump_clear", Part::DumpClear),
    ("fill_connect", Part::FillConnect),
    ("fill_disconnect", Part::FillDisconnect),
];

/// What each entry of a kind may rest on something with, by key.
const OF_TANKER: [(&str, Part); 7] = [
    ("response", Part::Response),
    ("repair", Part::Repair),
    ("capacity", Part::Capacity),
    ("dump_rate", Part::DumpRate),
    ("pump_off", Part::PumpOff),
    ("fill_limit", Part::FillLimit),
    ("waste", Part::Waste),
];
const OF_DROP_TANK: [(&str, Part); 3] =
    [("response", Part::Response), ("setup", Part::Setup), ("transfer", Part::Transfer)];
const OF_FILL_SITE: [(&str, Part); 3] =
    [("flow", Part::Flow), ("recharge", Part::Recharge), ("ready", Part::Ready)];
const OF_ATTACK_ENGINE: [(&str, Part); 3] =
    [("response", Part::Response), ("water_on", Part::WaterOn), ("tank_refill", Part::TankRefill)];
const OF_SUPPLY: [(&str, Part); 3] =
    [("setup", Part::Setup), ("reprime", Part::Reprime), ("draft_limit", Part::DraftLimit)];
const OF_SUPPLY_ENGINE: [(&str, Part); 2] = [("response", Part::Response), ("setup", Part::Setup)];

/// Every input that rests on readings or a guess, in the order of the file.
pub(super) fn unsure(root: &Entry<'_>) -> Vec<Unsure> {
    let mut found = Found::default();
    found.each(&root.entry_stated("attack_engine"), &Owner::AttackEngine, &OF_ATTACK_ENGINE);
    let supply = root.entry("supply");
    found.each(&supply, &Owner::Supply, &OF_SUPPLY);
    found.repair(&supply, &Owner::Supply);
    if let Some(engine) = supply.some_entry("engine") {
        found.each(&engine, &Owner::SupplyEngine, &OF_SUPPLY_ENGINE);
    }
    for (listed, tank) in root.list("drop_tanks").iter().enumerate() {
        found.each(tank, &Owner::DropTank(listed), &OF_DROP_TANK);
    }
    found.tankers(root);
    for (place, site) in root.list("fill_sites").iter().enumerate() {
        let name = site.some_text("name").map_or_else(
            // As the site is then called.
            || format!("Fill site {}", place + 1),
            str::to_string,
        );
        let owner = Owner::FillSite(name);
        found.each(site, &owner, &OF_FILL_SITE);
        found.repair(site, &owner);
        found.legs(site, &owner);
    }
    let lanes = match root.some_entry("one_lane") {
        Some(only) => vec![only],
        None => root.list("one_lane"),
    };
    for lane in &lanes {
        let near = lane.text_stated("near");
        let owner = Owner::OneLane((near != "scene").then_some(near));
        found.each(lane, &owner, &[("crossing", Part::Crossing)]);
    }
    found.0
}

#[derive(Default)]
struct Found(Vec<Unsure>);

impl Found {
    fn add(&mut self, of: &Owner, parts: Vec<Part>, rests_on: RestsOn) {
        self.0.push(Unsure { of: of.clone(), parts, rests_on });
    }

    fn each(&mut self, entry: &Entry<'_>, of: &Owner, keys: &[(&str, Part)]) {
        for (key, part) in keys {
            if let Some(rests_on) = entry.some_entry(key).and_then(|value| rests_on(&value)) {
                self.add(of, vec![*part], rests_on);
            }
        }
    }

    fn repair(&mut self, entry: &Entry<'_>, of: &Owner) {
        if let Some(failure) = entry.some_entry("failure") {
            self.each(&failure, of, &[("repair", Part::Repair)]);
        }
    }

    /// Each entry's own, then what is common to all that have no own.
    fn tankers(&mut self, root: &Entry<'_>) {
        let mut entries = root.list("tankers");
        entries.extend(root.list("aid"));
        for (listed, tanker) in entries.iter().enumerate() {
            let name = tanker
                .some_text("name")
                .map_or_else(|| format!("Tanker {}", listed + 1), str::to_string);
            let owner = Owner::Tankers { name, listed };
            self.each(tanker, &owner, &OF_TANKER);
            self.each(&tanker.entry("handling"), &owner, &HANDLING);
        }
        let common = root.entry("handling");
        for (key, part) in HANDLING {
            let who: Vec<usize> = (0..entries.len())
                .filter(|listed| entries[*listed].entry("handling").stated(key).is_none())
                .collect();
            if !who.is_empty() {
                self.each(&common, &Owner::EveryTanker(who), &[(key, part)]);
            }
        }
    }

    /// The road both ways. Guessed alike it is one guess: who drives slower out drives slower back.
    fn legs(&mut self, site: &Entry<'_>, of: &Owner) {
        let leg = |key: &str| {
            let leg = site.entry_stated(key);
            match leg.shape() {
                "leg_minutes" => leg.some_entry("minutes").and_then(|value| rests_on(&value)),
                _ => rests_on(&leg),
            }
        };
        match (leg("out"), leg("back")) {
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
fn rests_on(value: &Entry<'_>) -> Option<RestsOn> {
    if value.knows("samples") {
        let readings = value.numbers("samples").len() as u32;
        // One reading gives a value and no spread.
        let alone = RestsOn::Guess(RestsOn::GUESS);
        return Some(if readings > 1 { RestsOn::Readings(readings) } else { alone });
    }
    if value.knows("timed") && value.stated("timed").is_some() {
        return Some(RestsOn::Readings(value.count("timed")));
    }
    if !value.knows("guess") {
        return None;
    }
    match value.stated("guess").map(|node| &node.value) {
        Some(Value::Flag(true)) => Some(RestsOn::Guess(RestsOn::GUESS)),
        Some(Value::Number(factor)) if *factor > 1.0 => Some(RestsOn::Guess(*factor)),
        _ => None,
    }
}
