//! A unit as dispatch reads it: where it is from, what it brings, how far away it is, with whom it comes.

use answers::question::card::{Role, UnitFigures};
use answers::say;
use answers::say::{Piece, Sentence, joined, list, name};

/// A minute of the clock; a part of one only where there is one.
pub(super) fn minute(at: f64) -> Piece {
    Piece::Number(at, usize::from(at.fract() != 0.0))
}

/// What is said once of a call that brings several.
pub(super) fn come_together(units: &[UnitFigures]) -> &'static str {
    if units.len() > 1 { ", all together" } else { "" }
}

/// The later alarm that brings all of these.
pub(super) fn one_alarm(together: &[UnitFigures]) -> Option<&'static str> {
    let alarm = together[0].alarm?;
    let is_later = together[0].requested_at_min > 0.0;
    (is_later && together.iter().all(|one| one.alarm == Some(alarm))).then_some(alarm)
}

/// "Birch Hill tanker 1 (Birch Hill; brings a drop tank; 12 min away)".
///
/// - Given: all that are told with it; who comes only with others says so once, and not under the heading of its alarm.
pub(super) fn unit(
    of: &UnitFigures,
    told: &[UnitFigures],
    alarm: Option<&'static str>,
) -> Sentence {
    let called = of.name.as_ref().map_or_else(|| say!["drop tank carrier"], |one| say![name(one)]);
    let mut beside: Vec<Sentence> = of.department.iter().map(|one| say![name(one)]).collect();
    match of.role {
        Role::AttackEngine => beside.push(say!["attack"]),
        Role::SupplyEngine => beside.push(say!["supply"]),
        Role::SourcePump => beside.push(say!["pumps at the source"]),
        Role::Tanker | Role::DropTankCarrier => {}
    }
    match of.brings_drop_tanks.as_slice() {
        [] => {}
        [_] => beside.push(say!["drop tank"]),
        several => {
            beside.push(say!["brings ", Piece::Count(several.len()), " drop tanks"]);
        }
    }
    beside.extend(of.brings_pump_to.iter().map(|site| say!["the pump for ", name(site)]));
    if alarm.is_none() {
        beside.extend(of.alarm.map(|alarm| say![alarm, " alarm"]));
    }
    let partners = &of.comes_only_with;
    let is_told = partners.iter().any(|partner| {
        told.iter()
            .take_while(|one| one.name != of.name)
            .any(|one| one.name.as_ref() == Some(partner))
    });
    if !is_told && alarm.is_none() {
        let names = || list(partners.iter().map(|one| say![name(one)]));
        match partners.len() {
            0 => {}
            1 => beside.push(say!["both or neither: with ", names()]),
            _ => beside.push(say!["all or none: with ", names()]),
        }
    }
    let away = match of.role {
        // The vehicle of a pump is told by when it is at the water, not by its road.
        Role::SourcePump => say!["at the source in ", Piece::Number(of.response_min, 0), " min"],
        _ => say![Piece::Number(of.response_min, 0), " min away"],
    };
    beside.push(away);
    say![called, " (", joined(beside, "; ", "; "), ")"]
}
