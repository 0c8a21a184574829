//! Two flows on one line: the whole, and what the lines begin with.

use super::Amount;

/// Beginnings of words that say with which flow the lines begin. Common speech.
const BEGIN: &[&str] = &["begin", "start", "first"];

/// The same of words that say which flow comes after that.
const THEN: &[&str] = &["then", "later"];

/// Words that may stand between the two.
const BETWEEN: [&str; 6] = ["at", "with", "and", "to", "from", "on"];

/// Units that may stand behind one of two flows.
const FLOW_UNITS: [&str; 4] = ["gpm", "l/min", "l/s", "m3/h"];

/// Two flows on one line, the one to begin with first: "350, beginning with 150", "150 gpm at first, then 350".
///
/// - Returns: `None` where it is not said so.
pub(crate) fn first_and_whole(typed: &str) -> Option<(Amount, Amount)> {
    let words: Vec<&str> = typed
        .split_whitespace()
        .map(|word| word.trim_matches([',', '(', ')', '.', ':']))
        .filter(|word| !word.is_empty())
        .collect();
    let is_number = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    let plain: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
    let says_when = |word: &String| says(BEGIN, word) || says(THEN, word);
    let is_known = |word: &String| {
        let plain = word.as_str();
        is_number(plain)
            || says_when(word)
            || FLOW_UNITS.contains(&plain)
            || BETWEEN.contains(&plain)
    };
    if !plain.iter().all(is_known) || !plain.iter().any(says_when) {
        return None;
    }
    let flow_at = |at: usize| {
        let unit =
            words.get(at + 1).filter(|word| FLOW_UNITS.contains(&word.to_lowercase().as_str()));
        Amount::typed(&format!("{} {}", words[at], unit.unwrap_or(&""))).ok()
    };
    let places: Vec<usize> = (0..words.len()).filter(|at| is_number(words[*at])).collect();
    let [first, second] = places[..] else { return None };
    let (one, other) = (flow_at(first)?, flow_at(second)?);
    // "150, then 350 gpm": one unit for both.
    let (one, other) = (one.in_unit_of(&other), other.in_unit_of(&one));
    let said = begins_with_first(&plain[..first], &plain[first + 1..second], &plain[second + 1..]);
    let is_in_order = match said {
        Some(said) => said,
        None => other.minus(&one)?.is_at_least(0.0),
    };
    Some(if is_in_order { (one, other) } else { (other, one) })
}

/// Whether of two flows the first is the one to begin with, by the words before, between and behind them.
///
/// - Returns: `None` where they do not say which: "150 first, 350" and "350, first 150".
fn begins_with_first(before: &[String], between: &[String], behind: &[String]) -> Option<bool> {
    let any = |words: &[String], of: &[&str]| words.iter().any(|word| says(of, word));
    // "150 at first", "150 to begin with" are said of what stands before, "beginning with 150" of what stands behind.
    let of_first =
        |pair: &[String]| ["at", "to"].contains(&pair[0].as_str()) && says(BEGIN, &pair[1]);
    if any(before, BEGIN) {
        Some(true)
    } else if any(behind, BEGIN) {
        Some(false)
    } else if any(between, THEN) || any(behind, THEN) || between.windows(2).any(of_first) {
        Some(true)
    } else {
        any(between, &["begin", "start"]).then_some(false)
    }
}

fn says(words: &[&str], word: &str) -> bool {
    words.iter().any(|one| word.starts_with(one))
}
