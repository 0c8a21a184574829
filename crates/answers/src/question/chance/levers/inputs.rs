//! How an input is moved, in words.

use shuttle_report::changes::input::{Input, Quantity, Way};
use shuttle_report::levers::{LeverRow, Moved};

use crate::say;
use crate::say::{Piece, Sentence};
use crate::shared::changes::{self, quantity_words};

/// What is moved: "flow at Quarry pond".
pub fn input_words(row: &LeverRow) -> Sentence {
    changes::input_words(&row.input)
}

/// What it is as planned: "900 gpm".
pub fn now_words(row: &LeverRow) -> Sentence {
    match row.input {
        Input::SpeedOnAllRoads => say!["as planned"],
        _ => quantity_words(row.now),
    }
}

/// By how much it is moved: "100 gpm".
pub fn amount_words(row: &LeverRow) -> Sentence {
    match (&row.input, row.amount) {
        (Input::SpeedOnAllRoads, Quantity::Share(share)) => {
            say![Piece::Number(100.0 * share, 0), "% slower"]
        }
        (_, Quantity::Share(share)) => say![Piece::Number(100.0 * share, 0), " of 100"],
        (_, Quantity::Count(1)) => say!["one"],
        (_, amount) => quantity_words(amount),
    }
}

/// How it is moved: "100 gpm less".
pub fn moved_words(row: &LeverRow, moved: &Moved) -> Sentence {
    let way = match (&row.input, moved.way) {
        // The amount says all.
        (Input::SpeedOnAllRoads, _) | (_, Way::Instead) => "",
        (_, Way::More) => " more",
        (_, Way::Less) => " less",
    };
    say![amount_words(row), way]
}

/// The demand itself, which no purchase lowers.
pub fn is_demand(row: &LeverRow) -> bool {
    row.input == Input::Demand
}

/// The reserve, which moves no water.
pub fn is_reserve(row: &LeverRow) -> bool {
    row.input == Input::Reserve
}
