//! The trips of each tanker in their order, and times that run backward.

use super::rows::RawTrip;
use crate::log::Trip;
use crate::mistakes::{Mistake, Spot, Wrong};

/// Sorts the trips by tanker and then by number, where all of a tanker's rows have one, else by time; tells the
/// times that contradict the others.
pub(super) fn in_order(
    raw: &[RawTrip],
    trips: Vec<Trip>,
    mistakes: &mut Vec<Mistake>,
) -> Vec<Trip> {
    let first = |trip: &Trip| trip.at.iter().flatten().next().copied().unwrap_or(f64::INFINITY);
    let tankers = trips.iter().map(|trip| trip.tanker + 1).max().unwrap_or(0);
    let mut all: Vec<Trip> = Vec::with_capacity(trips.len());
    if let Some(mistake) = swapped(raw, &trips) {
        mistakes.push(mistake);
        return trips;
    }
    for tanker in 0..tankers {
        let mut own: Vec<(usize, &Trip)> =
            trips.iter().enumerate().filter(|(_, trip)| trip.tanker == tanker).collect();
        if own.iter().all(|(_, trip)| trip.number.is_some()) {
            own.sort_by_key(|(_, trip)| trip.number);
        } else {
            own.sort_by(|(_, a), (_, b)| first(a).total_cmp(&first(b)));
        }
        backward(raw, &own, mistakes);
        all.extend(own.into_iter().map(|(_, trip)| trip.clone()));
    }
    all
}

/// Times that do not fit between the others: all but the longest row of times that never goes back.
fn backward(raw: &[RawTrip], own: &[(usize, &Trip)], mistakes: &mut Vec<Mistake>) {
    let all: Vec<At> = (own.iter())
        .flat_map(|(place, trip)| {
            (trip.at.iter().enumerate())
                .filter_map(|(stamp, time)| time.map(|time| (time, *place, stamp)))
        })
        .collect();
    let kept = longest_rising(&all.iter().map(|(time, ..)| *time).collect::<Vec<_>>());
    let off = rows_off(&all, &kept);
    for (row, minutes) in &off {
        let place = Spot { row: raw[*row].row, column: String::new(), number: 0, letters: None };
        mistakes.push(Mistake { at: place, wrong: Wrong::RowOff { minutes: *minutes } });
    }
    for at in 0..all.len() {
        if kept.contains(&at) || off.iter().any(|(row, _)| *row == all[at].1) {
            continue;
        }
        let cell = |at: usize| raw[all[at].1].at[all[at].2].as_ref();
        let before = kept.iter().rev().find(|kept| **kept < at && all[**kept].0 > all[at].0);
        let behind = kept.iter().find(|kept| **kept > at && all[**kept].0 < all[at].0);
        let other = before.or(behind).copied();
        if let (Some(cell), Some(other)) = (cell(at), other.and_then(cell)) {
            let wrong = Wrong::Backwards {
                text: cell.text.clone(),
                other: other.at.clone(),
                other_text: other.text.clone(),
                other_is_before: before.is_some(),
            };
            mistakes.push(Mistake { at: cell.at.clone(), wrong });
        }
    }
}

/// A time with the place of its row and its stamp.
type At = (f64, usize, usize);

/// Rows none of whose times fits, and all of whose times would if they were so many minutes later.
///
/// - Returns: the place of the row, the minutes.
fn rows_off(all: &[At], kept: &[usize]) -> Vec<(usize, f64)> {
    /// An hour misread, and morning for evening.
    const SLIPS: [f64; 4] = [60.0, -60.0, 720.0, -720.0];
    /// Fewer times than this in a row tell no slip of the hour.
    const ENOUGH: usize = 3;
    let mut rows: Vec<usize> = all.iter().map(|(_, row, _)| *row).collect();
    rows.dedup();
    let fits = |row: usize, minutes: f64| {
        let moved: Vec<f64> = (all.iter().enumerate())
            .filter(|(at, one)| one.1 == row || kept.contains(at))
            .map(|(_, one)| if one.1 == row { one.0 + minutes } else { one.0 })
            .collect();
        moved.is_sorted()
    };
    (rows.into_iter())
        .filter(|row| {
            let own: Vec<usize> = (0..all.len()).filter(|at| all[*at].1 == *row).collect();
            own.len() >= ENOUGH && own.iter().all(|at| !kept.contains(at))
        })
        .filter_map(|row| SLIPS.into_iter().find(|slip| fits(row, *slip)).map(|slip| (row, slip)))
        .collect()
}

/// Two columns whose times run backward in most rows that have both.
fn swapped(raw: &[RawTrip], trips: &[Trip]) -> Option<Mistake> {
    /// Of fewer rows it may be the times.
    const ENOUGH: usize = 3;
    let stamps = trips.first()?.at.len();
    for (first, second) in (0..stamps - 1).map(|first| (first, first + 1)) {
        let both: Vec<usize> = (0..trips.len())
            .filter(|row| trips[*row].at[first].is_some() && trips[*row].at[second].is_some())
            .collect();
        let backward: Vec<usize> = (both.iter().copied())
            .filter(|row| trips[*row].at[first] > trips[*row].at[second])
            .collect();
        if backward.len() >= ENOUGH && 2 * backward.len() > both.len() {
            let cell = |stamp: usize| raw[backward[0]].at[stamp].as_ref();
            let (one, other) = (cell(first)?, cell(second)?);
            let wrong = Wrong::Swapped {
                first: one.at.column.clone(),
                second: other.at.column.clone(),
                rows: backward.len(),
                of: both.len(),
            };
            return Some(Mistake { at: one.at.clone(), wrong });
        }
    }
    None
}

/// The places of a longest subsequence that never falls, in order (patience sorting).
fn longest_rising(times: &[f64]) -> Vec<usize> {
    // Of each length the place of the least last time, and each place's forerunner.
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(times.len());
    for (place, time) in times.iter().enumerate() {
        let length = ends.partition_point(|end| times[*end] <= *time);
        before.push(length.checked_sub(1).map(|shorter| ends[shorter]));
        if length == ends.len() {
            ends.push(place);
        } else {
            ends[length] = place;
        }
    }
    let mut found = Vec::new();
    let mut at = ends.last().copied();
    while let Some(place) = at {
        found.push(place);
        at = before[place];
    }
    found.reverse();
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_wrong_time_is_one_mistake() {
        assert_eq!(longest_rising(&[1.0, 2.0, 9.0, 3.0, 4.0, 4.0]), [0, 1, 3, 4, 5]);
        assert_eq!(longest_rising(&[5.0, 1.0, 2.0, 3.0]), [1, 2, 3]);
        assert_eq!(longest_rising(&[]), [0; 0]);
    }
}
