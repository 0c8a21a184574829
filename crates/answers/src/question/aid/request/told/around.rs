//! The request changed a little, in words: all sure to come, asked for later, those who add nothing or are in the way.

use super::super::figures::{LateFigures, RequestFigures};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, list, name};
use crate::shared::against::Against;

/// What that some units may not come costs.
pub(super) fn turnout(figures: &RequestFigures, chances: Chances) -> Option<Sentence> {
    let all = figures.all_come.as_ref()?;
    // Then there is nothing to say of it: it is counted in the chance above.
    if all.verdict == Against::NotToldApart {
        return None;
    }
    Some(say![
        "were every unit sure to come, short in ",
        Piece::Fires(all.chances()),
        " instead of ",
        Piece::Fires(chances),
        "."
    ])
}

/// What asking later costs.
pub(super) fn late(late: &[LateFigures]) -> Option<Sentence> {
    let latest = late.last()?;
    if late.iter().all(|one| one.change.verdict == Against::NotToldApart) {
        let told = say!["asking up to ", Piece::Minutes(latest.later_by_min), " later"];
        return Some(told.then(say!["makes no difference to speak of."]));
    }
    let of_a_hundred = late[0].change.chances().is_of_a_hundred();
    let parts = late.iter().enumerate().map(|(place, one)| {
        let chances = one.change.chances();
        let by = if place == 0 {
            say!["all asked for ", Piece::Minutes(one.later_by_min), " later:"]
        } else {
            say![Piece::Number(one.later_by_min, 0), " later:"]
        };
        by.then(if place > 0 && of_a_hundred {
            Piece::OfHundred(chances, 0)
        } else {
            Piece::Fires(chances)
        })
    });
    Some(say![joined(parts, "; ", "; "), "."])
}

/// "Fox 2 and Elk 1".
pub(super) fn names(of: &[String]) -> Sentence {
    list(of.iter().map(|one| say![name(one)]))
}

/// Those who add nothing that shows.
pub(super) fn no_difference(of: &[String]) -> Option<Sentence> {
    match of {
        [] => None,
        _ => Some(say![names(of), ": no difference to speak of beside the others."]),
    }
}

/// Those who make it worse.
pub(super) fn in_the_way(of: &[String]) -> Option<Sentence> {
    match of {
        [] => None,
        [_] => Some(say![names(of), ": it is in the way; do not ask for it."]),
        _ => Some(say![names(of), ": each is in the way; do not ask for them."]),
    }
}
