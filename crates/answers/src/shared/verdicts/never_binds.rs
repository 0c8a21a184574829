//! Changes that change nothing in any fire, in words.

use crate::say;
use crate::say::{Piece, Sentence, list};

/// More than this are counted, not named.
const MOST_NAMED: usize = 3;

/// "a second dump position, 250 gpm more at Quarry pond: no difference in any of 4,096 fires."
///
/// - Given: each with the fires in which it was tried.
pub fn never_bind(tried: &[(Sentence, u64)]) -> Option<Sentence> {
    let fires = tried.iter().map(|(_, fires)| *fires).min()?;
    // One beyond takes no more room by its name.
    let shown = if tried.len() > MOST_NAMED + 1 { MOST_NAMED } else { tried.len() };
    let mut named: Vec<Sentence> = tried.iter().take(shown).map(|(name, _)| name.clone()).collect();
    if tried.len() > shown {
        named.push(say![Piece::Number((tried.len() - shown) as f64, 0), " others"]);
    }
    Some(say![list(named), ": no difference in any of ", Piece::Number(fires as f64, 0), " fires."])
}
