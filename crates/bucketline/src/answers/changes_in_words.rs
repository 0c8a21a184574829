//! Inputs, amounts and changes of a plan in words.

use shuttle_report::changes::input::{Change, Input, Quantity, Way};
use shuttle_report::losses::Lost;
use shuttle_report::request::AidChange;
use shuttle_report::units::{Units, minutes, whole};

use crate::answer_text::Words;

/// "flow at Quarry pond"; names stay as the scenario has them.
pub fn input(input: &Input, words: Words) -> String {
    let put = |ours: &str| words.put(ours);
    match input {
        Input::FillConnect => "connecting at the fill site".to_owned(),
        Input::FillDisconnect => "disconnecting at the fill site".to_owned(),
        Input::DumpPosition => "positioning at the drop tank".to_owned(),
        Input::DumpClear => "clearing the drop tank".to_owned(),
        Input::NurseConnect => put("connecting a nurse tanker"),
        Input::NurseDisconnect => put("disconnecting a nurse tanker"),
        Input::TankersArrive => put("arrival of every tanker"),
        Input::SupplyEngineArrives { engine } => format!("arrival of {engine}"),
        Input::DropTanksArrive => "arrival of drop tanks on their own".to_owned(),
        Input::FirstDropTankSetup => "setting up the first drop tank".to_owned(),
        Input::DraftSetup => "hooking up the draft".to_owned(),
        Input::Reprime => "priming again".to_owned(),
        Input::Drive { site } => format!("drive to {site}, each way"),
        Input::SpeedOnAllRoads => "driving on all roads".to_owned(),
        Input::SiteFlow { site } => format!("flow at {site}"),
        Input::FillPositions { site } => format!("fill positions at {site}"),
        Input::SiteReady { site } => format!("{site} ready"),
        Input::DropTankSize { tank, of } => format!("size of {}", drop_tank(*tank, *of)),
        Input::DumpPositions { tank, of } => {
            format!("dump positions at {}", drop_tank(*tank, *of))
        }
        Input::DumpRate => put("dump rate of every tanker"),
        Input::FillRate => put("fill rate every tanker takes"),
        Input::PumpOffRate => "pump-off rate when nursing".to_owned(),
        Input::Waste => "load spilled or not filled".to_owned(),
        Input::PumpAndLay => "flow through pump and lay".to_owned(),
        Input::RestartLevel => "level at which the pump draws".to_owned(),
        Input::Demand => "flow the lines need at most".to_owned(),
        Input::EngineTank => "attack engine's own tank".to_owned(),
        Input::Reserve => "reserve kept in the attack engine".to_owned(),
    }
}

fn drop_tank(place: usize, of: usize) -> String {
    if of == 1 { "the drop tank".to_owned() } else { format!("drop tank {}", place + 1) }
}

/// What an input is now.
pub fn now(input: &Input, quantity: Quantity, units: Units) -> String {
    match (input, quantity) {
        (Input::SpeedOnAllRoads, _) => "as planned".to_owned(),
        (_, Quantity::Minutes(time)) => format!("{} min", minutes(time)),
        (_, Quantity::Gpm(flow)) => units.gpm(flow),
        (_, Quantity::Gallons(volume)) => units.gallons(volume),
        (_, Quantity::Count(count)) => count.to_string(),
        (_, Quantity::Share(share)) => format!("{:.0}%", 100.0 * share),
    }
}

/// The amount an input is moved by.
pub fn amount(input: &Input, quantity: Quantity, units: Units) -> String {
    match (input, quantity) {
        (Input::SpeedOnAllRoads, Quantity::Share(share)) => {
            format!("{:.0}% slower", 100.0 * share)
        }
        (_, Quantity::Minutes(time)) => format!("{time} min"),
        (_, Quantity::Count(1)) => "one".to_owned(),
        (_, Quantity::Share(share)) => format!("{:.0} of 100", 100.0 * share),
        (input, quantity) => now(input, quantity, units),
    }
}

/// " more", " less", or nothing where the amount says it already.
pub fn way(input: &Input, way: Way) -> &'static str {
    match (input, way) {
        (Input::SpeedOnAllRoads, _) => "",
        (_, Way::More) => " more",
        (_, Way::Less) => " less",
    }
}

/// A change that would help: "a second fill position at Quarry pond".
pub fn change(change: &Change, units: Units, words: Words) -> String {
    match change {
        Change::Moved {
            input: Input::FillPositions { site }, now: Quantity::Count(now), ..
        } => {
            format!("{} fill position at {site}", one_more_than(*now))
        }
        Change::Moved { input: Input::DumpPositions { .. }, now: Quantity::Count(now), .. } => {
            format!("{} dump position", one_more_than(*now))
        }
        Change::Moved { input: Input::SiteFlow { site }, by, .. } => {
            format!("{} more at {site}", amount(&Input::Demand, *by, units))
        }
        Change::Moved { input: Input::PumpAndLay, by, .. } => {
            format!("{} more through pump and lay", amount(&Input::PumpAndLay, *by, units))
        }
        Change::Moved { input: moved, by, way: to, .. } => {
            format!("{} {}{}", input(moved, words), amount(moved, *by, units), way(moved, *to))
        }
        Change::AidAtTheAlarm { latest_min } => {
            format!("all aid asked for at the alarm, not as late as minute {latest_min:.0}")
        }
        Change::OneMoreTanker { like } => format!("one more {} like {like}", words.tanker),
        Change::SiteReadyAtTheAlarm { site } => format!("{site} ready from the alarm on"),
        Change::LoadOneByOne { site } => format!("connect two, load one at {site}"),
        Change::OneMoreDropTank => "one more drop tank like the first".to_owned(),
        Change::NurseUntilTheDraft => "nursing the engine until the draft is hooked up".to_owned(),
        Change::GateDown => "the pump operator gating down before prime is lost".to_owned(),
    }
}

/// "a second" for one that there is, "a third" for two, ...
fn one_more_than(there_are: u32) -> String {
    match there_are {
        0 => "a".to_owned(),
        1 => "a second".to_owned(),
        2 => "a third".to_owned(),
        3 => "a fourth".to_owned(),
        more => format!("one more than {}", whole(f64::from(more))),
    }
}

/// What is lost: "one of Tanker 1 to Tanker 3", "half the flow at Quarry pond".
pub fn lost(lost: &Lost) -> String {
    let with_tanks = |drop_tanks: usize| match drop_tanks {
        0 => "",
        1 => ", with the drop tank it brings",
        _ => ", with the drop tanks it brings",
    };
    match lost {
        Lost::OneTankerOf { names, drop_tanks } => {
            let parts: Vec<String> = (names.iter())
                .map(|together| match together.as_slice() {
                    [first, .., last] => format!("{first} to {last}"),
                    one => one.concat(),
                })
                .collect();
            let one = names.iter().map(Vec::len).sum::<usize>() == 1;
            match parts.as_slice() {
                [only] if one => format!("{only}{}", with_tanks(*drop_tanks)),
                [most @ .., last] if !most.is_empty() => {
                    format!("one of {} and {last}", most.join(", "))
                }
                parts => format!("one of {}", parts.concat()),
            }
        }
        Lost::FillSite { name } => name.clone(),
        Lost::HalfTheFlow { site } => format!("half the flow at {site}"),
        Lost::DropTank { place, of } => drop_tank(*place, *of),
        Lost::SupplyEngine { name, drop_tanks } => format!("{name}{}", with_tanks(*drop_tanks)),
    }
}

/// A unit's name, or "5 min later".
pub fn aid(change: &AidChange) -> String {
    match change {
        AidChange::Without(name) | AidChange::OneMore(name) => name.clone(),
        AidChange::Later(minutes) => format!("{minutes:.0} min later"),
    }
}
