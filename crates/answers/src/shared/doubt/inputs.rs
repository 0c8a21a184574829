//! What an input in doubt is called among people.

use super::figures::{InputFigures, OwnerFigures, RestsOnFigures};
use crate::say;
use crate::say::{Piece, Sentence, name};

/// "connecting at the fill site", "the drive to Quarry pond and back".
pub fn input(of: &InputFigures) -> Sentence {
    let fact = of.facts.first().copied().unwrap_or_default();
    match &of.of {
        OwnerFigures::EveryTanker => say![handling(fact)],
        OwnerFigures::Tankers { name: tanker } => match of_tanker(fact) {
            Some(what) => say![what, " of ", name(tanker)],
            None => say![handling(fact), ", ", name(tanker)],
        },
        OwnerFigures::FillSite { name: site } => match (fact, of.facts.len()) {
            ("out", 2) => say!["the drive to ", name(site), " and back"],
            ("out", _) => say!["the drive to ", name(site)],
            ("back", _) => say!["the drive back from ", name(site)],
            ("ready", _) => say!["getting ", name(site), " ready"],
            ("repair", _) => say!["the repair of ", name(site)],
            ("recharge", _) => say!["what runs into ", name(site)],
            _ => say!["the flow of ", name(site)],
        },
        OwnerFigures::DropTank { number } => {
            let tank = say!["drop tank ", Piece::Number(*number as f64, 0)];
            match fact {
                "setup" => say!["setting up ", tank],
                "transfer" => say!["the transfer from ", tank],
                _ => say!["the response of ", tank],
            }
        }
        OwnerFigures::OneLane { fill_site: Some(site) } => {
            say!["crossing the one-lane stretch near ", name(site)]
        }
        OwnerFigures::OneLane { fill_site: None } => {
            say!["crossing the one-lane stretch near the scene"]
        }
        OwnerFigures::AttackEngine => say![match fact {
            "water_on" => "first water after arrival",
            "tank_refill" => "the refill of the engine's tank",
            _ => "the response of the attack engine",
        }],
        OwnerFigures::SupplyEngine => say![match fact {
            "setup" => "hooking up the draft",
            _ => "the response of the supply engine",
        }],
        OwnerFigures::Supply => say![match fact {
            "setup" => "hooking up the draft",
            "reprime" => "priming again",
            "repair" => "the repair of the drafting pump",
            _ => "the flow through pump and hose",
        }],
    }
}

/// Those that are guessed, in words.
pub fn guessed<'f>(of: impl Iterator<Item = &'f InputFigures>) -> Vec<Sentence> {
    of.filter(|one| matches!(one.rests_on, RestsOnFigures::Guess { .. })).map(input).collect()
}

/// Those that rest on readings, in words.
pub fn timed<'f>(of: impl Iterator<Item = &'f InputFigures>) -> Vec<Sentence> {
    of.filter(|one| matches!(one.rests_on, RestsOnFigures::Readings { .. })).map(input).collect()
}

/// "a guess, up to a factor of 1.25 either way", "12 readings".
pub fn rests_on(what: RestsOnFigures) -> Sentence {
    match what {
        RestsOnFigures::Readings { readings } => {
            say![Piece::Number(f64::from(readings), 0), " readings"]
        }
        RestsOnFigures::Guess { factor } => {
            say!["a guess, factor ", Piece::Number(factor, 2), " either way"]
        }
    }
}

fn of_tanker(fact: &str) -> Option<&'static str> {
    Some(match fact {
        "response" => "the response",
        "repair" => "the repair",
        "capacity" => "the size",
        "dump_rate" => "the dump rate",
        "pump_off" => "the pump-off rate",
        "fill_limit" => "the fill rate",
        "waste" => "the waste",
        _ => return None,
    })
}

fn handling(fact: &str) -> &'static str {
    match fact {
        "nurse_connect" => "connecting a nurse to the engine",
        "nurse_disconnect" => "disconnecting a nurse",
        "dump_position" => "getting into place at the drop tank",
        "dump_clear" => "pulling clear of the drop tank",
        "fill_connect" => "connecting at the fill site",
        _ => "disconnecting at the fill site",
    }
}
