//! What the things in a scenario's lists are called, and which thing a name means.

use serde_json::Value as Json;

use crate::errors::message::{Message, joined, quoted, says};
use crate::format::fire::incident_and_supply::{OfAttackEngine, OfSupply, OfSupplyEngine};
use crate::format::haul::drop_tanks::OfDropTank;
use crate::format::haul::fill_sites::{OfFillSite, OfSourcePump};
use crate::format::haul::roads::OfOneLane;
use crate::format::haul::tankers::OfTanker;
use crate::format::takes::Text;
use crate::format::whole_files::OfScenario;

/// A list whose entries have names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum NamedList {
    Tankers,
    Aid,
    FillSites,
    DropTanks,
    OneLane,
}

impl NamedList {
    pub(crate) const ALL: [NamedList; 5] = [
        NamedList::Tankers,
        NamedList::Aid,
        NamedList::FillSites,
        NamedList::DropTanks,
        NamedList::OneLane,
    ];
    /// Those whose entries haul.
    pub(crate) const HAULING: [NamedList; 2] = [NamedList::Tankers, NamedList::Aid];

    /// Its key in the file.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            NamedList::Tankers => OfScenario::TANKERS.key(),
            NamedList::Aid => OfScenario::AID.key(),
            NamedList::FillSites => OfScenario::FILL_SITES.key(),
            NamedList::DropTanks => OfScenario::DROP_TANKS.key(),
            NamedList::OneLane => OfScenario::ONE_LANE.key(),
        }
    }

    /// The list with this key.
    pub(crate) fn of(key: &str) -> Option<NamedList> {
        NamedList::ALL.into_iter().find(|list| list.key() == key)
    }

    /// Whether its entries haul.
    pub(crate) fn hauls(self) -> bool {
        NamedList::HAULING.contains(&self)
    }
}

/// A thing that a name means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Thing {
    /// An entry of a list, or one of the equal tankers that an entry stands for, counted from 1.
    Entry { list: NamedList, place: usize, member: Option<u64> },
    /// The attack engine.
    AttackEngine,
    /// The supply engine.
    SupplyEngine,
    /// The pump that someone brings to the fill site at this place.
    SourcePump(usize),
}

/// The entries of a list; none where the scenario has no such list.
pub(crate) fn list_of(root: &Json, list: NamedList) -> &[Json] {
    root.get(list.key()).and_then(Json::as_array).map_or(&[], Vec::as_slice)
}

/// The name of a tanker's entry: as stated, or else as the reading gives it.
///
/// - Given: a list of those that haul, and the place in it.
pub(crate) fn tanker_name(root: &Json, list: NamedList, place: usize) -> String {
    let stated = list_of(root, list)[place].get(OfTanker::NAME.key()).and_then(Json::as_str);
    let before = if list == NamedList::Aid { list_of(root, NamedList::Tankers).len() } else { 0 };
    stated.map_or_else(|| format!("Tanker {}", before + place + 1), str::to_owned)
}

/// The names of the tankers that an entry stands for.
pub(crate) fn members(root: &Json, list: NamedList, place: usize) -> Vec<String> {
    let name = tanker_name(root, list, place);
    match count_of(&list_of(root, list)[place]) {
        Some(count) => (1..=count).map(|number| format!("{name} {number}")).collect(),
        None => vec![name],
    }
}

/// How many equal tankers an entry stands for, if it says so.
pub(crate) fn count_of(entry: &Json) -> Option<u64> {
    let count = entry.get(OfTanker::COUNT.key())?;
    // A count may be written as 3.0.
    count.as_u64().or_else(|| count.as_f64().map(|count| count as u64))
}

/// Every name of an entry, the one to call it by first.
pub(crate) fn names_of(root: &Json, list: NamedList, place: usize) -> Vec<String> {
    let Some(entry) = list_of(root, list).get(place) else {
        return Vec::new();
    };
    let text = |key: &str| entry.get(key).and_then(Json::as_str).map(str::to_owned);
    match list {
        NamedList::Tankers | NamedList::Aid => vec![tanker_name(root, list, place)],
        NamedList::FillSites => {
            vec![text(OfFillSite::NAME.key()).unwrap_or_else(|| format!("Fill site {}", place + 1))]
        }
        NamedList::DropTanks => {
            let tanks = list_of(root, NamedList::DropTanks);
            let mut names = Vec::new();
            if let Some(by) = text(OfDropTank::BROUGHT_BY.key()) {
                let brings = |tank: &&Json| {
                    tank.get(OfDropTank::BROUGHT_BY.key()).and_then(Json::as_str) == Some(&by)
                };
                if tanks.iter().filter(brings).count() == 1 {
                    names.push(format!("drop tank of {by}"));
                }
            }
            // As the answers call it.
            names.push(if tanks.len() == 1 {
                "drop tank".to_owned()
            } else {
                format!("drop tank {}", place + 1)
            });
            names
        }
        NamedList::OneLane => text(OfOneLane::NEAR.key()).into_iter().collect(),
    }
}

/// Everything that has a name of its own, with the name.
pub(crate) fn named(root: &Json) -> Vec<(String, Thing)> {
    let mut named = Vec::new();
    for list in NamedList::ALL.into_iter().filter(|list| *list != NamedList::OneLane) {
        for place in 0..list_of(root, list).len() {
            let entry = Thing::Entry { list, place, member: None };
            named.extend(names_of(root, list, place).into_iter().map(|name| (name, entry.clone())));
            if list.hauls() && count_of(&list_of(root, list)[place]).is_some() {
                named.extend((1_u64..).zip(members(root, list, place)).map(|(number, name)| {
                    (name, Thing::Entry { list, place, member: Some(number) })
                }));
            }
        }
    }
    for place in 0..list_of(root, NamedList::FillSites).len() {
        let pump = &list_of(root, NamedList::FillSites)[place][OfFillSite::SOURCE_PUMP.key()];
        if pump.is_object() {
            let stated =
                pump.get(OfSourcePump::NAME.key()).and_then(Json::as_str).map(str::to_owned);
            let site = names_of(root, NamedList::FillSites, place).remove(0);
            named.push((
                stated.unwrap_or_else(|| format!("Pump at {site}")),
                Thing::SourcePump(place),
            ));
        }
    }
    let named_as = |key: &str, silent: Option<Text>, engine: Option<&Json>| {
        let engine = engine.filter(|engine| engine.is_object())?;
        let stated = engine.get(key).and_then(Json::as_str);
        stated.or(silent).map(str::to_owned)
    };
    let attack_engine = root.get(OfScenario::ATTACK_ENGINE.key());
    let supply_engine =
        root.get(OfScenario::SUPPLY.key()).and_then(|supply| supply.get(OfSupply::ENGINE.key()));
    named.extend(
        named_as(OfAttackEngine::NAME.key(), OfAttackEngine::NAME.silent, attack_engine)
            .map(|name| (name, Thing::AttackEngine)),
    );
    named.extend(
        named_as(OfSupplyEngine::NAME.key(), OfSupplyEngine::NAME.silent, supply_engine)
            .map(|name| (name, Thing::SupplyEngine)),
    );
    named
}

/// The thing with this name; but for capitals, where only one is called so.
pub(crate) fn thing(root: &Json, name: &str) -> Option<Thing> {
    let all = named(root);
    if let Some((_, thing)) = all.iter().find(|(known, _)| known == name) {
        return Some(thing.clone());
    }
    let mut alike =
        all.into_iter().filter(|(known, _)| known.to_lowercase() == name.to_lowercase());
    alike.next().filter(|_| alike.next().is_none()).map(|(_, thing)| thing)
}

/// The names as a message lists them: in quotes, no more than a dozen.
pub(crate) fn listed(names: &[String]) -> Message {
    const MOST: usize = 12;
    let shown = joined(names.iter().take(MOST).map(|name| quoted(name).into()), ", ");
    says![shown, if names.len() > MOST { " and more" } else { "" }]
}
