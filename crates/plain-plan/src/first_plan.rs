//! What a chief knows without a stopwatch: the fire, who comes, who could, where the water is.

use scenario_file::{Alarm, Units};
use serde_json::{Map, Value};

use crate::amount::Amount;

/// A first plan. Amounts without a unit are in `units`; times are minutes.
#[derive(Debug, Clone, PartialEq)]
pub struct FirstPlan {
    /// The units of bare numbers, and of the scenario.
    pub units: Units,
    /// What burns, and where.
    pub title: String,
    /// What all lines together need.
    pub flow: Amount,
    /// What they start with, where that is less, and the minutes after first water at which all is wanted.
    pub start: Option<Start>,
    /// How long water is wanted, from first water.
    pub duration: Amount,
    /// Water kept in the attack engine's tank so that the crew can back out.
    pub reserve: Amount,
    /// The engine whose lines must not run dry.
    pub attack_engine: Engine,
    /// The engine that drafts from the drop tank; `None`: the attack engine does.
    pub supply_engine: Option<Engine>,
    /// A second one that drafts beside it.
    pub second_supply_engine: Option<Engine>,
    /// Own tankers.
    pub own: Vec<Tanker>,
    /// Tankers that could be asked for.
    pub aid: Vec<Tanker>,
    /// What a scenario that is there says of drafting otherwise than is usual: what its pump moves at most and how it
    /// fails, by the keys of `supply`; `null` where it says nothing. It is not asked for and stays, as long as the same
    /// engine drafts.
    pub drafting: Map<String, Value>,
    /// Drop tanks, the first the one that is drafted from.
    pub drop_tanks: Vec<DropTank>,
    /// Where tankers load.
    pub sources: Vec<Source>,
    /// Notes of the chief's own, beside those that say what was taken where nothing was said.
    pub notes: Vec<String>,
    /// What a scenario that is there has beside all this, by its keys, as it stands there: options, addresses and the
    /// like, which are not asked for and stay.
    pub beside: Map<String, Value>,
}

/// A smaller flow to begin with.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// What the lines start with.
    pub flow: Amount,
    /// Minutes after first water at which the whole flow is wanted.
    pub until: Amount,
}

/// An engine.
#[derive(Debug, Clone, PartialEq)]
pub struct Engine {
    /// Its name.
    pub name: String,
    /// Water in its tank; of a supply engine it does not count.
    pub water: Option<Amount>,
    /// Minutes from the alarm until it is there.
    pub minutes: Amount,
}

/// A tanker.
#[derive(Debug, Clone, PartialEq)]
pub struct Tanker {
    /// Its name.
    pub name: String,
    /// The department that sends it.
    pub department: Option<String>,
    /// Whether it is of others, and its crew and its coming differ as theirs do: of aid always, of those that come with
    /// the alarm where a request was made a plan.
    pub of_others: bool,
    /// Whether its department comes whole or not at all.
    pub comes_whole: bool,
    /// The alarm it is on; `None`: it is called by itself.
    pub alarm: Option<Alarm>,
    /// The water it carries.
    pub water: Amount,
    /// Minutes it takes to dump that; `None`: at the rate the apparatus standard asks for.
    pub empties_in: Option<Amount>,
    /// Minutes from the call until it is there.
    pub minutes: Amount,
    /// Share of calls to which it comes; `None`: what is usual.
    pub turnout: Option<Amount>,
    /// The earliest minute after the alarm at which it can be called, or at which its alarm can be struck; `None`: at the
    /// alarm, or when others on its alarm say.
    pub called_at: Option<Amount>,
}

/// A drop tank.
#[derive(Debug, Clone, PartialEq)]
pub struct DropTank {
    /// The unit that brings it.
    pub brought_by: String,
    /// What it holds.
    pub holds: Amount,
}

/// A place where tankers load.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// Its name.
    pub name: String,
    /// What it gives to all tankers that fill at once.
    pub flow: Amount,
    /// Tankers that can be hooked up at once; `None`: one.
    pub positions: Option<Amount>,
    /// Minutes after the alarm until it can fill; `None` only where a unit of the plan brings its pump: then
    /// `pump_draws_in` says it.
    pub ready: Option<Amount>,
    /// Who pumps there: a unit of the plan that brings a pump, or an engine that drives there; `None`: nobody need.
    pub pumped_by: Option<String>,
    /// Minutes from the arrival of the unit that brings the pump until it draws; `None`: what `ready` leaves, or what is
    /// usual.
    pub pump_draws_in: Option<Amount>,
    /// Share of calls to which an engine comes that drives there to pump; `None`: to all.
    pub pump_turnout: Option<Amount>,
    /// Road from the fire, one way.
    pub road: Amount,
    /// Average speed of a tanker on that road; `None`: the travel rule of the insurers' surveys.
    pub speed: Option<Amount>,
    /// How much of that road is gravel or a track.
    pub gravel: Option<Amount>,
    /// Average speed on that part.
    pub gravel_speed: Option<Amount>,
    /// Water to be had from it; `None`: without end.
    pub holds: Option<Amount>,
}

/// Everyone who could bring a drop tank or a pump.
pub(crate) fn names(plan: &FirstPlan) -> Vec<String> {
    let engines = [Some(&plan.attack_engine), plan.supply_engine.as_ref()];
    let engines = engines.into_iter().flatten().map(|engine| engine.name.clone());
    engines.chain(plan.own.iter().chain(&plan.aid).map(|tanker| tanker.name.clone())).collect()
}

/// The unit of the plan that brings the pump of a source; `None`: nobody need, or an engine of its own drives there.
pub(crate) fn pump_bringer(plan: &FirstPlan, source: &Source) -> Option<String> {
    let pump = source.pumped_by.as_ref()?;
    names(plan).into_iter().find(|name| alike(name, pump))
}

/// Of the units of the plan the one whose name is nearest to this, if one is near.
pub(crate) fn nearest_unit(plan: &FirstPlan, typed: &str) -> Option<String> {
    /// Judgement: of "Tnaker 2" and "Tanker 2" two letters in eight differ.
    const LEAST: f64 = 0.7;
    let plain = crate::amount::unquoted(typed).to_lowercase();
    let number = |name: &str| name.chars().filter(char::is_ascii_digit).collect::<String>();
    let like = |name: &str| {
        let name = name.to_lowercase();
        if plain.contains(&name) {
            1.0
        } else if number(&name) != number(&plain) {
            // Engine 12 is not Engine 4 misspelt.
            0.0
        } else {
            strsim::normalized_damerau_levenshtein(&plain, &name)
        }
    };
    let all = names(plan).into_iter().map(|name| (like(&name), name));
    all.filter(|(like, _)| *like >= LEAST).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, name)| name)
}

/// Each source that is pumped by none of the plan's units, with who pumps there: an engine of its own that drives there.
pub(crate) fn engines_at_sources(plan: &FirstPlan) -> Vec<(&Source, &str)> {
    let own = |source: &&Source| pump_bringer(plan, source).is_none();
    let pumped = plan.sources.iter().filter(own);
    pumped.filter_map(|source| Some((source, source.pumped_by.as_deref()?))).collect()
}

/// A name as it was typed.
///
/// - Errors: it is an amount with its unit, how often something comes, or a yes: nothing is called so.
pub(crate) fn named(typed: String) -> Result<String, String> {
    if is_how_often(&typed) || ["yes", "y", "ok"].iter().any(|word| alike(word, &typed)) {
        return Err(format!("{typed} is no name, and a name is asked for here"));
    }
    let mut words = typed.split_whitespace();
    let is_number = words.next().is_some_and(|word| word.starts_with(|c: char| c.is_ascii_digit()));
    let is_unit = |word: &str| OF_AMOUNTS.contains(&word.to_lowercase().as_str());
    if is_number && words.next().is_some_and(is_unit) && words.next().is_none() {
        return Err(format!("{typed} reads like an amount, and a name is asked for here"));
    }
    Ok(typed)
}

/// Whether this says how often of all times: "3 in 4", "90%", "always"; a bare number may be a name.
pub(crate) fn is_how_often(typed: &str) -> bool {
    let plain = crate::amount::unquoted(typed).to_lowercase();
    let says_so = [" in ", " of ", "/", "%", "always"].iter().any(|sign| plain.contains(sign));
    says_so && crate::amount::Amount::how_often(typed).is_ok()
}

/// Units that people type behind numbers.
const OF_AMOUNTS: [&str; 17] = [
    "gal", "gallons", "l", "litres", "liters", "gpm", "l/min", "min", "minutes", "h", "hours",
    "mi", "miles", "km", "mph", "km/h", "%",
];

/// Gives a unit another name, also where it is said what it brings.
pub(crate) fn rename(plan: &mut FirstPlan, old: &str, new: &str) {
    for tank in plan.drop_tanks.iter_mut().filter(|tank| alike(&tank.brought_by, old)) {
        tank.brought_by = new.to_owned();
    }
    for pump in plan.sources.iter_mut().filter_map(|source| source.pumped_by.as_mut()) {
        if alike(pump, old) {
            *pump = new.to_owned();
        }
    }
}

/// Whether a name is meant by what was typed: capitals, spaces and the kind of quotes do not count.
pub(crate) fn alike(name: &str, typed: &str) -> bool {
    let plain = |text: &str| {
        let small = crate::amount::unquoted(text).to_lowercase();
        small.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    plain(name) == plain(typed)
}
