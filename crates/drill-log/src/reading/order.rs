//! The trips of each tanker in their order, and times that run backward.

use super::rows::RawTrip;
use crate::log::Trip;
use crate::mistakes::{Mistake, Wrong};

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
    let all: Vec<(f64, usize, usize)> = (own.iter())
        .flat_map(|(place, trip)| {
            (trip.at.iter().enumerate())
                .filter_map(|(stamp, time)| time.map(|time| (time, *place, stamp)))
        })
        .collect();
    let kept = longest_rising(&all.iter().map(|(time, ..)| *time).collect::<Vec<_>>());
    for at in 0..all.len() {
        if kept.contains(&at) {
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
