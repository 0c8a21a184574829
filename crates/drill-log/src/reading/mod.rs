//! From a table to a log: every mistake at once, every guess told.

pub mod clock;

pub(crate) mod headings;

mod names;

mod order;

mod rows;

use crate::course::Course;
use crate::guesses::Guess;
use crate::log::{Log, Trip, Zero};
use crate::mistakes::{LogError, Mistake, Spot, Wrong};
use crate::stamp::Stamp;
use crate::table::{Table, letters};
use clock::{ClockOf, Written, beginning, clock_of, seconds};
use rows::RawTrip;

/// What a column can hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// The tanker's name.
    Tanker,
    /// The number of the trip.
    Trip,
    /// The fill site's name.
    Site,
    /// The time of a stamp.
    At(Stamp),
    /// Marks a trip with a breakdown.
    Breakdown,
    /// Anything else worth knowing.
    Remark,
}

/// Reads a log.
///
/// - Given: the course it is held against, which has a fill site.
/// - Errors: [`LogError::Wrong`] with every mistake at once, each with its row and column.
pub fn read(table: &Table, course: &Course) -> Result<Log, LogError> {
    let (mut guesses, mut mistakes) = (Vec::new(), Vec::new());
    guesses.extend(table.sheet.clone().map(Guess::Sheet));
    let Some(columns) = headings::columns(table, &mut guesses, &mut mistakes) else {
        let row = table.rows.first().map_or(1, |row| row.number);
        let at = Spot { row, column: String::new(), number: 0, letters: None };
        return Err(LogError::Wrong(vec![Mistake { at, wrong: Wrong::NoHeadings }]));
    };
    let has = |field: Field| columns.fields.contains(&Some(field));
    let at = spot(table, table.rows[columns.headings].number, &columns.written, None);
    if !has(Field::Tanker) {
        mistakes.push(Mistake { at: at.clone(), wrong: Wrong::NoColumn(Field::Tanker) });
    }
    if !columns.fields.iter().any(|field| matches!(field, Some(Field::At(_)))) {
        mistakes.push(Mistake { at: at.clone(), wrong: Wrong::NoTimes });
    }
    let all_assigned = course.tankers.iter().all(|tanker| tanker.site.is_some());
    if course.sites.len() > 1 && !all_assigned && !has(Field::Site) {
        mistakes.push(Mistake { at: at.clone(), wrong: Wrong::NoColumn(Field::Site) });
    }
    if table.rows.len() == columns.headings + 1 {
        mistakes.push(Mistake { at, wrong: Wrong::NoRows });
    }
    if !mistakes.is_empty() {
        return Err(LogError::Wrong(mistakes));
    }
    let raw = rows::trips(table, &columns, course, &mut guesses, &mut mistakes);
    let (trips, zero) = on_one_clock(&raw, &mut guesses, &mut mistakes);
    let trips = order::in_order(&raw, trips, &mut mistakes);
    if !mistakes.is_empty() {
        mistakes.sort_by_key(|mistake| mistake.at.row);
        return Err(LogError::Wrong(mistakes));
    }
    let grain = grain(&trips);
    Ok(Log { trips, zero, grain, guesses })
}

/// The trips with their times in minutes after the log's minute 0.
fn on_one_clock(
    raw: &[RawTrip],
    guesses: &mut Vec<Guess>,
    mistakes: &mut Vec<Mistake>,
) -> (Vec<Trip>, Zero) {
    let rows: Vec<Vec<Written>> =
        raw.iter().map(|trip| trip.at.iter().flatten().map(|cell| cell.time).collect()).collect();
    let (clock, guessed) = clock_of(&rows);
    let says_its_half = rows.iter().flatten().any(|time| matches!(time, Written::OfDay(_)));
    if guessed && !(clock == ClockOf::HalfDay && says_its_half) {
        guesses.push(Guess::Clock(clock));
    }
    let mut on_clock = |trip: &RawTrip, place: usize| {
        let cell = trip.at[place].as_ref()?;
        let found = seconds(cell.time, clock);
        if found.is_none() {
            let wrong = Wrong::BeyondTheClock { text: cell.text.clone() };
            mistakes.push(Mistake { at: cell.at.clone(), wrong });
        }
        found
    };
    let all: Vec<[Option<f64>; 8]> =
        (raw.iter()).map(|trip| std::array::from_fn(|place| on_clock(trip, place))).collect();
    let times: Vec<f64> = all.iter().flatten().flatten().copied().collect();
    let round = match clock {
        ClockOf::Day => Some(86_400.0),
        ClockOf::HalfDay => Some(43_200.0),
        ClockOf::Stopwatch => None,
    };
    let first = round.map(|round| (round, beginning(&times, round).unwrap_or(0.0)));
    let minutes = |time: f64| match first {
        Some((round, first)) => (time - first).rem_euclid(round) / 60.0,
        None => time / 60.0,
    };
    let trips = (raw.iter().zip(&all))
        .map(|(trip, at)| Trip {
            row: trip.row,
            tanker: trip.tanker,
            number: trip.number,
            site: trip.site,
            at: at.map(|time| time.map(minutes)),
            breakdown: trip.breakdown,
            nursed: trip.nursed,
            remark: trip.remark.clone(),
        })
        .collect();
    // On a clock of 12 hours the first time that says its half of the day settles it for all.
    let shift = match (clock, first) {
        (ClockOf::HalfDay, Some((round, first))) => {
            let sure = rows.iter().flatten().find_map(|time| match time {
                Written::OfDay(seconds) => Some(*seconds),
                _ => None,
            });
            sure.map_or(first, |sure| sure - (sure - first).rem_euclid(round))
        }
        (_, first) => first.map_or(0.0, |(_, first)| first),
    };
    let zero = if clock == ClockOf::Stopwatch { Zero::Stopwatch } else { Zero::OfDay(shift) };
    (trips, zero)
}

/// What all times are whole multiples of, minutes.
fn grain(trips: &[Trip]) -> f64 {
    /// Fewer times than this tell nothing.
    const ENOUGH: usize = 8;
    let seconds: Vec<f64> =
        trips.iter().flat_map(|trip| trip.at).flatten().map(|minute| 60.0 * minute).collect();
    let all_of = |grain: f64| {
        seconds.iter().all(|time| ((time / grain).round() * grain - time).abs() < 1e-3)
    };
    let found = [60.0, 30.0, 15.0, 10.0, 5.0].into_iter().find(|grain| all_of(*grain));
    if seconds.len() < ENOUGH { 1.0 / 60.0 } else { found.unwrap_or(1.0) / 60.0 }
}

/// A place in the table.
pub(crate) fn spot(table: &Table, row: usize, written: &[String], column: Option<usize>) -> Spot {
    Spot {
        row,
        column: column.and_then(|column| written.get(column).cloned()).unwrap_or_default(),
        number: column.map_or(0, |column| column + 1),
        letters: column.filter(|_| table.has_letters).map(letters),
    }
}
