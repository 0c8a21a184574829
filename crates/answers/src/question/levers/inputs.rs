//! Inputs in words. What is moved and by how much comes as finished phrases, with the user's names in them:
//! this file alone knows that.

use shuttle_report::levers::{LeverRow, Moved};
use shuttle_report::moved_inputs::{DEMAND, RESERVE, Way};

use crate::say;
use crate::say::{Sentence, name};

/// What is moved: "flow at Quarry pond".
pub fn input_words(row: &LeverRow) -> Sentence {
    say![name(&row.input)]
}

/// What it is as planned: "900 gpm".
pub fn now_words(row: &LeverRow) -> Sentence {
    say![name(&row.now)]
}

/// By how much it is moved: "100 gpm".
pub fn amount_words(row: &LeverRow) -> Sentence {
    say![name(&row.amount)]
}

/// How it is moved: "100 gpm less".
pub fn moved_words(row: &LeverRow, moved: &Moved) -> Sentence {
    let way = match moved.way {
        Way::More => " more",
        Way::Less => " less",
        // The amount says all.
        Way::Instead => "",
    };
    say![amount_words(row), way]
}

/// The demand itself, which no purchase lowers.
pub fn is_demand(row: &LeverRow) -> bool {
    row.input == DEMAND
}

/// The reserve, which moves no water.
pub fn is_reserve(row: &LeverRow) -> bool {
    row.input == RESERVE
}
