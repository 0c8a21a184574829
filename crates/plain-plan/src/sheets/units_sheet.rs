//! The sheet of units: who comes, who could, what they bring.

use drill_log::Row;

use super::columns::Column;
use super::mistakes::{SheetMistake, Spot};
use super::rows::{Sheet, nearest};
use crate::amount::{Amount, unquoted};
use crate::first_plan::{DropTank, Engine, Tanker};
use crate::part::{OfUnit, Part};

/// What kind of unit a row is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    AttackEngine,
    SupplyEngine,
    Own,
    Aid,
}

/// The kinds as they are written, the first of each as handed out.
const KINDS: [(&str, Kind); 12] = [
    ("attack engine", Kind::AttackEngine),
    ("supply engine", Kind::SupplyEngine),
    ("own tanker", Kind::Own),
    ("aid tanker", Kind::Aid),
    ("engine", Kind::AttackEngine),
    ("draft engine", Kind::SupplyEngine),
    ("tanker", Kind::Own),
    ("tender", Kind::Own),
    ("own tender", Kind::Own),
    ("aid tender", Kind::Aid),
    ("aid", Kind::Aid),
    ("mutual aid", Kind::Aid),
];

/// The units of the sheet.
#[derive(Default)]
pub(crate) struct Units {
    pub(crate) attack_engine: Option<Engine>,
    pub(crate) supply_engine: Option<Engine>,
    pub(crate) own: Vec<Tanker>,
    pub(crate) aid: Vec<Tanker>,
    /// Of own units first: the first one is drafted from.
    pub(crate) drop_tanks: Vec<DropTank>,
    pub(crate) spots: Vec<(Part, Spot)>,
}

/// Reads the sheet.
pub(crate) fn read(sheet: &Sheet, wrong: &mut Vec<SheetMistake>) -> Units {
    let mut units = Units::default();
    let mut tanks = Vec::new();
    for row in &sheet.rows {
        let spot = |column| sheet.spot(row, column);
        let name = sheet.needed_text(row, Column::Unit, wrong);
        let name = name.unwrap_or_else(|| format!("the unit of row {}", row.number));
        let kind = kind_of(sheet, row, wrong);
        let minutes = sheet.needed_amount(row, Column::Minutes, wrong);
        let minutes = minutes.unwrap_or_else(|| Amount::plain(10.0));
        // A supply engine's own tank does not count.
        let water = match kind {
            Some(Kind::SupplyEngine) => sheet.amount(row, Column::Water, wrong),
            _ => sheet.needed_amount(row, Column::Water, wrong),
        };
        let water_or = water.clone().unwrap_or_else(|| Amount::plain(2_000.0));
        let part: fn(usize, OfUnit) -> Part = match kind {
            Some(Kind::AttackEngine) => |_, of| Part::AttackEngine(of),
            Some(Kind::SupplyEngine) => |_, of| Part::SupplyEngine(of),
            Some(Kind::Aid) => Part::Aid,
            Some(Kind::Own) | None => Part::Own,
        };
        let tanker = || Tanker {
            name: name.clone(),
            department: None,
            water: water_or.clone(),
            minutes: minutes.clone(),
            called_at: None,
        };
        let place = match kind {
            Some(Kind::AttackEngine | Kind::SupplyEngine) => {
                let engine = Engine { name: name.clone(), water: Some(water_or), minutes };
                let (taken, what) = match kind {
                    Some(Kind::AttackEngine) => (&mut units.attack_engine, "attack engine"),
                    _ => (&mut units.supply_engine, "supply engine"),
                };
                if taken.is_some() {
                    wrong.push(SheetMistake::new(
                        spot(Column::Kind),
                        format!("there is an {what} already in a row above").replace("an s", "a s"),
                        "leave out engines that neither pump the lines nor draft from the drop tank",
                    ));
                    continue;
                }
                *taken = Some(engine);
                0
            }
            Some(Kind::Aid) => {
                let department = sheet.text(row, Column::Department);
                let called_at = sheet.amount(row, Column::EarliestCall, wrong);
                units.aid.push(Tanker { department, called_at, ..tanker() });
                units.aid.len() - 1
            }
            Some(Kind::Own) => {
                let department = sheet.text(row, Column::Department);
                let called_at = sheet.amount(row, Column::EarliestCall, wrong);
                units.own.push(Tanker { department, called_at, ..tanker() });
                units.own.len() - 1
            }
            None => continue,
        };
        for (of, column) in [
            (OfUnit::Name, Column::Unit),
            (OfUnit::Department, Column::Department),
            (OfUnit::Water, Column::Water),
            (OfUnit::Minutes, Column::Minutes),
            (OfUnit::CalledAt, Column::EarliestCall),
        ] {
            units.spots.push((part(place, of), spot(column)));
        }
        if let Some(holds) = sheet.amount(row, Column::DropTank, wrong) {
            let tank = DropTank { brought_by: name, holds };
            tanks.push((kind == Some(Kind::Aid), tank, spot(Column::DropTank)));
        }
    }
    // In the order of the sheet otherwise.
    tanks.sort_by_key(|(is_aid, ..)| *is_aid);
    for (number, (_, tank, spot)) in tanks.into_iter().enumerate() {
        units.drop_tanks.push(tank);
        units.spots.push((Part::TankHolds(number), spot.clone()));
        units.spots.push((Part::TankBringer(number), spot));
    }
    let whole = || Spot::file(&sheet.file);
    // Where rows were given up, what they hold is not missing.
    if !sheet.rows.is_empty() && wrong.iter().all(|one| one.at.file != sheet.file) {
        if units.attack_engine.is_none() {
            wrong.push(SheetMistake::new(
                whole(),
                "no row is the attack engine",
                "write 'attack engine' as the kind of the engine that pumps the lines",
            ));
        }
        if units.own.is_empty() {
            wrong.push(SheetMistake::new(
                whole(),
                "no row is an own tanker",
                "write 'own tanker' as the kind of at least one that comes at the alarm",
            ));
        }
    }
    if sheet.rows.is_empty() && wrong.iter().all(|one| one.at.file != sheet.file) {
        wrong.push(SheetMistake::new(
            whole(),
            "there are no rows below the headings",
            "write one row for each engine and tanker",
        ));
    }
    units
}

fn kind_of(sheet: &Sheet, row: &Row, wrong: &mut Vec<SheetMistake>) -> Option<Kind> {
    let text = sheet.needed_text(row, Column::Kind, wrong)?;
    let plain = unquoted(&text).to_lowercase();
    let found = KINDS.iter().find(|(word, _)| *word == plain).map(|(_, kind)| *kind);
    if found.is_none() {
        let words = KINDS.map(|(word, _)| word);
        let near = nearest(&text, &words);
        wrong.push(SheetMistake::new(
            sheet.spot(row, Column::Kind),
            "there is no such kind of unit",
            match near {
                Some(near) => format!("did you mean '{near}'?"),
                None => format!("write one of: {}", words[..4].join(", ")),
            },
        ));
    }
    found
}
