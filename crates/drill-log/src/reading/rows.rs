//! The rows below the headings, one a trip: names, numbers and times as written.

use super::clock::{NoTime, Written, written};
use super::headings::Columns;
use super::names::{Matched, matched};
use super::{Field, spot};
use crate::course::Course;
use crate::guesses::Guess;
use crate::mistakes::{Mistake, Spot, Wrong};
use crate::stamp::Stamp;
use crate::table::{Cell, Row, Table};

/// A time with the place where it stands.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Timed {
    pub time: Written,
    pub text: String,
    pub at: Spot,
}

/// A row before its clock is known.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RawTrip {
    pub row: usize,
    pub tanker: usize,
    pub number: Option<u32>,
    pub site: Option<usize>,
    pub at: [Option<Timed>; 8],
    pub breakdown: bool,
    pub nursed: bool,
    pub remark: Option<String>,
}

/// Words that mean a breakdown where a remark has them; judgement, and each time told.
const BREAKDOWN_WORDS: [&str; 8] = [
    "breakdown",
    "broke down",
    "broken down",
    "flat tire",
    "flat tyre",
    "puncture",
    "stalled",
    "out of service",
];
/// Words that mean a load was pumped straight into the engine.
const NURSING_WORDS: [&str; 3] = ["nursed", "nursing", "nurse"];

/// Reads all rows below the headings.
pub(super) fn trips(
    table: &Table,
    columns: &Columns,
    course: &Course,
    guesses: &mut Vec<Guess>,
    mistakes: &mut Vec<Mistake>,
) -> Vec<RawTrip> {
    let mut reading = Rows { table, columns, course, guesses, mistakes, as_numbers: 0 };
    let trips: Vec<RawTrip> =
        (table.rows[columns.headings + 1..].iter()).filter_map(|row| reading.trip(row)).collect();
    if reading.as_numbers > 0 {
        let count = reading.as_numbers;
        guesses.push(Guess::NumbersAsTimes(count));
    }
    nobody_known(table, course, mistakes);
    twice(&trips, mistakes);
    trips
}

/// Where no row's tanker is known, that is one mistake and not one a row.
fn nobody_known(table: &Table, course: &Course, mistakes: &mut Vec<Mistake>) {
    let of_tanker = |one: &Mistake| match &one.wrong {
        Wrong::Unknown { field: Field::Tanker, text, .. } => Some((one.at.clone(), text.clone())),
        _ => None,
    };
    let unknown: Vec<(Spot, String)> = mistakes.iter().filter_map(of_tanker).collect();
    let rows: Vec<usize> = unknown.iter().map(|(at, _)| at.row).collect();
    let is_named = |row: &&Row| row.cells.iter().any(|cell| !cell.is_blank());
    let headings = 1;
    if unknown.len() < 2 || rows.len() + headings < table.rows.iter().filter(is_named).count() {
        return;
    }
    let mut named: Vec<String> = unknown.iter().map(|(_, text)| text.clone()).collect();
    named.sort_unstable();
    named.dedup();
    let known = course.tankers.iter().map(|one| one.name.clone()).collect();
    mistakes.retain(|one| of_tanker(one).is_none());
    mistakes.push(Mistake { at: unknown[0].0.clone(), wrong: Wrong::NobodyKnown { named, known } });
}

struct Rows<'a> {
    table: &'a Table,
    columns: &'a Columns,
    course: &'a Course,
    guesses: &'a mut Vec<Guess>,
    mistakes: &'a mut Vec<Mistake>,
    as_numbers: usize,
}

impl Rows<'_> {
    fn cell<'r>(&self, row: &'r Row, field: Field) -> Option<(usize, &'r Cell)> {
        let column = self.columns.fields.iter().position(|one| *one == Some(field))?;
        row.cells.get(column).filter(|cell| !cell.is_blank()).map(|cell| (column, cell))
    }

    fn at(&self, row: &Row, column: Option<usize>) -> Spot {
        spot(self.table, row.number, &self.columns.written, column)
    }

    fn wrong(&mut self, row: &Row, column: Option<usize>, wrong: Wrong) {
        let at = self.at(row, column);
        self.mistakes.push(Mistake { at, wrong });
    }

    fn trip(&mut self, row: &Row) -> Option<RawTrip> {
        let used = (self.columns.fields.iter().zip(&row.cells))
            .any(|(field, cell)| field.is_some() && !cell.is_blank());
        if !used || self.is_headings_again(row) {
            return None;
        }
        let at: [Option<Timed>; 8] = std::array::from_fn(|place| self.time(row, Stamp::ALL[place]));
        let tanker = self.tanker(row);
        let remark = self.cell(row, Field::Remark).map(|(_, cell)| cell.shown());
        let marked = self.cell(row, Field::Breakdown);
        let is_no = |cell: &Cell| matches!(cell.shown().to_lowercase().as_str(), "no" | "n" | "0");
        let mut breakdown = marked.is_some_and(|(_, cell)| !is_no(cell));
        let mut nursed = false;
        if let Some(text) = &remark {
            let lower = text.to_lowercase();
            let says = |words: &[&str]| words.iter().any(|word| lower.contains(word));
            if !breakdown && says(&BREAKDOWN_WORDS) {
                breakdown = true;
                let told = Guess::RemarkAsBreakdown { row: row.number, text: text.clone() };
                self.guesses.push(told);
            }
            if says(&NURSING_WORDS) {
                nursed = true;
                let told = Guess::RemarkAsNursing { row: row.number, text: text.clone() };
                self.guesses.push(told);
            }
        }
        let marked = marked.filter(|(_, cell)| !is_no(cell)).map(|(_, cell)| cell.shown());
        let number = self.number(row);
        let site = self.site(row, tanker);
        // A time that is wrong has been told; only a row without any is one.
        let any_time = (self.columns.fields.iter().zip(&row.cells))
            .any(|(field, cell)| matches!(field, Some(Field::At(_))) && !cell.is_blank());
        if !any_time {
            let unread = (self.columns.written.iter().zip(&self.columns.fields).zip(&row.cells))
                .filter(|((heading, field), cell)| {
                    field.is_none() && !heading.trim().is_empty() && !cell.is_blank()
                })
                .map(|((heading, _), _)| heading.clone())
                .collect();
            self.wrong(row, None, Wrong::NoTimeInRow { unread });
        }
        Some(RawTrip {
            row: row.number,
            tanker: tanker?,
            number,
            site,
            at,
            breakdown,
            nursed,
            remark: remark.or(marked),
        })
    }

    /// Long logs repeat their headings on every page.
    fn is_headings_again(&self, row: &Row) -> bool {
        let headings = &self.table.rows[self.columns.headings].cells;
        let mut same = 0;
        for (cell, heading) in row.cells.iter().zip(headings) {
            if cell == heading && *cell != Cell::Empty {
                same += 1;
            } else if *cell != Cell::Empty {
                return false;
            }
        }
        same >= 2
    }

    fn time(&mut self, row: &Row, stamp: Stamp) -> Option<Timed> {
        let (column, cell) = self.cell(row, Field::At(stamp))?;
        let text = cell.shown();
        match written(cell) {
            Ok((time, was_number)) => {
                self.as_numbers += usize::from(was_number);
                Some(Timed { time, text, at: self.at(row, Some(column)) })
            }
            Err(why) => {
                let wrong = match why {
                    NoTime::Point(meant) => Wrong::Point { text, meant },
                    NoTime::BeyondTheClock => Wrong::BeyondTheClock { text },
                    NoTime::NotATime => Wrong::NotATime { text },
                };
                self.wrong(row, Some(column), wrong);
                None
            }
        }
    }

    fn tanker(&mut self, row: &Row) -> Option<usize> {
        let Some((column, cell)) = self.cell(row, Field::Tanker) else {
            let column = self.columns.fields.iter().position(|one| *one == Some(Field::Tanker));
            self.wrong(row, column, Wrong::NoTanker);
            return None;
        };
        let names: Vec<String> = self.course.tankers.iter().map(|one| one.name.clone()).collect();
        self.name(row, column, cell, Field::Tanker, names)
    }

    fn site(&mut self, row: &Row, tanker: Option<usize>) -> Option<usize> {
        if let Some((column, cell)) = self.cell(row, Field::Site) {
            let names = self.course.sites.iter().map(|site| site.name.clone()).collect();
            return self.name(row, column, cell, Field::Site, names);
        }
        if self.course.sites.len() == 1 {
            return Some(0);
        }
        let assigned = tanker.and_then(|tanker| self.course.tankers[tanker].site);
        let has_times =
            (Stamp::ALL[..4].iter()).any(|stamp| self.cell(row, Field::At(*stamp)).is_some());
        let column = self.columns.fields.iter().position(|one| *one == Some(Field::Site));
        if assigned.is_none() && has_times {
            let known = self.course.sites.iter().map(|site| site.name.clone()).collect();
            let field = Field::Site;
            let wrong = Wrong::Unknown { field, text: String::new(), nearest: None, known };
            self.wrong(row, column, wrong);
        }
        assigned
    }

    fn name(
        &mut self,
        row: &Row,
        column: usize,
        cell: &Cell,
        field: Field,
        names: Vec<String>,
    ) -> Option<usize> {
        let text = cell.shown();
        match matched(&text, &names) {
            Matched::Same(place) => Some(place),
            Matched::Guess(place) => {
                let told = Guess::Name { text, name: names[place].clone() };
                if !self.guesses.contains(&told) {
                    self.guesses.push(told);
                }
                Some(place)
            }
            Matched::No { nearest } => {
                let nearest = nearest.map(|place| names[place].clone());
                let wrong = Wrong::Unknown { field, text, nearest, known: names };
                self.wrong(row, Some(column), wrong);
                None
            }
        }
    }

    fn number(&mut self, row: &Row) -> Option<u32> {
        let (column, cell) = self.cell(row, Field::Trip)?;
        let number = match cell {
            Cell::Number(number) if number.fract() == 0.0 && (0.0..1e6).contains(number) => {
                Some(*number as u32)
            }
            Cell::Text(text) => text.trim().trim_start_matches('#').trim().parse::<u32>().ok(),
            _ => None,
        };
        if number.is_none() {
            self.wrong(row, Some(column), Wrong::NotANumber { text: cell.shown() });
        }
        number
    }
}

/// Rows that say the same as another, and trips that are there already.
fn twice(trips: &[RawTrip], mistakes: &mut Vec<Mistake>) {
    let times = |trip: &RawTrip| -> Vec<Option<Written>> {
        trip.at.iter().map(|cell| cell.as_ref().map(|cell| cell.time)).collect()
    };
    let mut seen: Vec<(usize, Vec<Option<Written>>)> = Vec::new();
    for (place, trip) in trips.iter().enumerate() {
        let own = times(trip);
        let same = |(other, theirs): &&(usize, Vec<Option<Written>>)| {
            let other = &trips[*other];
            other.tanker == trip.tanker && *theirs == own && own.iter().flatten().count() > 1
        };
        let numbered = |(other, _): &&(usize, Vec<Option<Written>>)| {
            let other = &trips[*other];
            other.tanker == trip.tanker && trip.number.is_some() && other.number == trip.number
        };
        let at = Spot { row: trip.row, column: String::new(), number: 0, letters: None };
        if let Some((first, _)) = seen.iter().find(same) {
            mistakes.push(Mistake { at, wrong: Wrong::SameRow { first: trips[*first].row } });
        } else if let (Some((first, _)), Some(number)) = (seen.iter().find(numbered), trip.number) {
            let wrong = Wrong::SameTrip { first: trips[*first].row, trip: number };
            mistakes.push(Mistake { at, wrong });
        }
        seen.push((place, own));
    }
}
