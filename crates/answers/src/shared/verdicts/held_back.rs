//! What holds a plan back that is not enough: causes by their share of first shortfalls, with what cures them.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_sim::Plan;

use super::causes::{cause_of_key, cause_words, cure_words};
use crate::say;
use crate::say::{Piece, Sentence, joined};

/// Less than this share of the shortfalls is not worth a word. Judgement.
const LEAST_SHARE: f64 = 0.05;
/// More causes than these are no answer.
const MOST_CAUSES: usize = 3;

/// A cause and its share of first shortfalls.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CauseShare {
    /// Where the water was.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
    pub cause: &'static str,
    /// Its share.
    pub share: f64,
}

/// From what was found out, by their keys.
pub fn cause_shares(found: &[(&'static str, f64)]) -> Vec<CauseShare> {
    found.iter().map(|(cause, share)| CauseShare { cause, share: *share }).collect()
}

/// "the haul was too long for the tankers there are (80 of 100 shortfalls): more tankers or a nearer source; ..."
pub fn held_back(shares: &[CauseShare], plan: &Plan) -> Option<Sentence> {
    let causes = shares.iter().take(MOST_CAUSES).filter(|one| one.share >= LEAST_SHARE).enumerate();
    let causes: Vec<Sentence> = causes
        .filter_map(|(place, one)| {
            let cause = cause_of_key(one.cause)?;
            let hundredths = Piece::Number(100.0 * one.share, 0);
            let share = match place {
                _ if one.share > 0.995 => say![],
                0 => say![" (", hundredths, " of 100 shortfalls)"],
                _ => say![" (", hundredths, ")"],
            };
            Some(say![cause_words(cause), share, ": ", cure_words(cause, plan)])
        })
        .collect();
    (!causes.is_empty()).then(|| say![joined(causes, "; ", "; "), "."])
}
