//! The sheet of units: who comes, who could, what they bring.

use drill_log::Row;
use scenario_file::Alarm;

use super::columns::Column;
use super::mistakes::{SheetMistake, Spot};
use super::rows::{Sheet, nearest};
use crate::alarms::{self, alarm_of, greater_alarms, yes_or_no};
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

/// What to do with an engine of no kind.
const ENGINES: &str = "write 'attack engine', or 'supply engine' for the one that drafts from the drop tank; an engine that \
                       pumps at a source goes into 'pumped by' of the sources; leave others out";

/// The units of the sheet.
#[derive(Default)]
pub(crate) struct Units {
    pub(crate) attack_engine: Option<Engine>,
    pub(crate) supply_engine: Option<Engine>,
    pub(crate) second_supply_engine: Option<Engine>,
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
        let empties_in = sheet.amount(row, Column::Empties, wrong);
        let turnout = sheet.amount(row, Column::Turnout, wrong);
        let part: fn(usize, OfUnit) -> Part = match kind {
            Some(Kind::AttackEngine) => |_, of| Part::AttackEngine(of),
            Some(Kind::SupplyEngine) => |_, of| Part::SupplyEngine(of),
            Some(Kind::Aid) => Part::Aid,
            Some(Kind::Own) | None => Part::Own,
        };
        let tanker = || Tanker {
            name: name.clone(),
            department: None,
            of_others: matches!(kind, Some(Kind::Aid)),
            comes_whole: false,
            alarm: None,
            water: water_or.clone(),
            empties_in: empties_in.clone(),
            minutes: minutes.clone(),
            turnout: turnout.clone(),
            called_at: None,
        };
        let place = match kind {
            Some(Kind::AttackEngine | Kind::SupplyEngine) => {
                let engine = Engine { name: name.clone(), water: Some(water_or), minutes };
                let taken = match kind {
                    Some(Kind::AttackEngine) => &mut units.attack_engine,
                    _ if units.supply_engine.is_some() => {
                        // Beside the first one; only its name can be wrong.
                        if units.second_supply_engine.is_some() {
                            wrong.push(already(spot(Column::Kind), "there are two supply engines"));
                        }
                        units.second_supply_engine = Some(engine);
                        units.spots.push((Part::SecondSupplyEngine, spot(Column::Unit)));
                        continue;
                    }
                    _ => &mut units.supply_engine,
                };
                if taken.is_some() {
                    wrong.push(already(spot(Column::Kind), "there is an attack engine"));
                    continue;
                }
                *taken = Some(engine);
                0
            }
            Some(Kind::Aid) => {
                let department = sheet.text(row, Column::Department);
                let called_at = sheet.amount(row, Column::EarliestCall, wrong);
                let (comes_whole, alarm) = how_called(sheet, row, wrong);
                units.aid.push(Tanker { department, comes_whole, alarm, called_at, ..tanker() });
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
        if kind != Some(Kind::Aid) {
            for column in [Column::ComesWhole, Column::Alarm] {
                if sheet.text(row, column).is_some() {
                    wrong.push(SheetMistake::new(
                        spot(column),
                        "only of an aid tanker is it asked how it is called",
                        "leave the cell blank, or write 'aid tanker' as its kind",
                    ));
                }
            }
        }
        if matches!(kind, Some(Kind::AttackEngine | Kind::SupplyEngine)) {
            for column in [Column::Empties, Column::Turnout] {
                if sheet.text(row, column).is_some() {
                    wrong.push(SheetMistake::new(
                        spot(column),
                        "of an engine this is not asked",
                        "leave the cell blank",
                    ));
                }
            }
        }
        for (of, column) in [
            (OfUnit::Name, Column::Unit),
            (OfUnit::Department, Column::Department),
            (OfUnit::ComesWhole, Column::ComesWhole),
            (OfUnit::Alarm, Column::Alarm),
            (OfUnit::Water, Column::Water),
            (OfUnit::Empties, Column::Empties),
            (OfUnit::Turnout, Column::Turnout),
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
    one_minute_an_alarm(&mut units, wrong);
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

fn already(spot: Spot, what: &str) -> SheetMistake {
    SheetMistake::new(
        spot,
        format!("{what} already in a row above"),
        "leave out engines that neither pump the lines nor draft from the drop tank",
    )
}

/// Whether its department comes whole, and the alarm it is on.
fn how_called(sheet: &Sheet, row: &Row, wrong: &mut Vec<SheetMistake>) -> (bool, Option<Alarm>) {
    let whole = sheet.text(row, Column::ComesWhole).and_then(|text| {
        let known = yes_or_no(&text);
        if known.is_none() {
            let spot = sheet.spot(row, Column::ComesWhole);
            wrong.push(SheetMistake::new(spot, "it is neither yes nor no", "write yes or no"));
        }
        known
    });
    let alarm = sheet.text(row, Column::Alarm).and_then(|text| {
        let known = alarm_of(&text);
        if known.is_none() {
            let spot = sheet.spot(row, Column::Alarm);
            wrong.push(SheetMistake::new(spot, "there is no such alarm", alarms::CURE));
        }
        known
    });
    (whole == Some(true), alarm)
}

/// An alarm is struck once: all that are on it say the same minute or none, and one of them must say it; the first is the
/// alarm itself.
fn one_minute_an_alarm(units: &mut Units, wrong: &mut Vec<SheetMistake>) {
    let spot = |place: usize, of: OfUnit| {
        let part = Part::Aid(place, of);
        units.spots.iter().find(|(one, _)| *one == part).map(|(_, spot)| spot.clone())
    };
    let alarms = greater_alarms(&units.aid);
    let mut untold = Vec::new();
    for (place, tanker) in units.aid.iter().enumerate() {
        let Some(alarm) = tanker.alarm else { continue };
        let first = alarms.iter().find(|(one, ..)| *one == alarm);
        let (problem, cure, of) = match (alarm, first, &tanker.called_at) {
            (Alarm::First, _, Some(minute)) if *minute != Amount::plain(0.0) => (
                "the first alarm is the alarm itself".to_owned(),
                "leave it blank, or put the tanker on a greater alarm".to_owned(),
                OfUnit::CalledAt,
            ),
            (Alarm::First, ..) => continue,
            (_, None, _) => (
                format!("nothing says when the {} alarm can be struck", alarm.key()),
                format!("write the minute into '{}'", Column::EarliestCall.heading()),
                OfUnit::Alarm,
            ),
            (_, Some((_, _, said)), Some(minute)) if minute != *said => (
                format!("another row has the {} alarm struck at another minute", alarm.key()),
                "write the same minute, or leave it blank".to_owned(),
                OfUnit::CalledAt,
            ),
            _ => continue,
        };
        wrong.extend(spot(place, of).map(|spot| SheetMistake::new(spot, problem, cure)));
        if of == OfUnit::Alarm {
            untold.push(place);
        }
    }
    // The scenario's check need not say it again.
    for place in untold {
        units.aid[place].alarm = None;
    }
}

/// Whether a row is of an engine that pumps the lines, or of one that drafts.
pub(crate) fn engine_kind(sheet: &Sheet, row: &Row) -> Option<&'static str> {
    match kind_of(sheet, row, &mut Vec::new())? {
        Kind::AttackEngine => Some(KINDS[0].0),
        Kind::SupplyEngine => Some(KINDS[1].0),
        Kind::Own | Kind::Aid => None,
    }
}

/// The kind of a supply engine, as it is written.
pub(crate) const SUPPLY_ENGINE: &str = KINDS[1].0;

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
                // Engines are taken for what they are not: what pumps at a source is no unit of the fire.
                _ if plain.contains("engine") || plain.contains("pumper") => ENGINES.to_owned(),
                Some(near) => format!("did you mean '{near}'?"),
                None => format!("write one of: {}", words[..4].join(", ")),
            },
        ));
    }
    found
}
