//! Names in a log against those of the scenario.

/// Which name was meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Matched {
    /// This one, but for capitals and spaces.
    Same(usize),
    /// Surely this one, though written otherwise: "T3" for "Tanker 3".
    Guess(usize),
    /// None.
    No {
        /// The one it is nearest to.
        nearest: Option<usize>,
    },
}

/// Letters of a single word that stands for a name of several. Judgement.
const LEAST_WORD: usize = 3;

/// Finds a name.
pub(super) fn matched(text: &str, names: &[String]) -> Matched {
    let plain = |text: &str| -> String {
        text.to_lowercase().chars().filter(|letter| letter.is_alphanumeric()).collect()
    };
    if let Some(place) = names.iter().position(|name| name == text) {
        return Matched::Same(place);
    }
    let wanted = plain(text);
    let mut same = (0..names.len()).filter(|place| plain(&names[*place]) == wanted);
    if let (Some(place), None) = (same.next(), same.next()) {
        return Matched::Same(place);
    }
    let mut short = (0..names.len()).filter(|place| is_short_for(&wanted, &names[*place]));
    if let (Some(place), None) = (short.next(), short.next()) {
        return Matched::Guess(place);
    }
    let has_word = |place: &usize| {
        let name = &names[*place];
        wanted.chars().count() >= LEAST_WORD
            && name.split_whitespace().any(|word| plain(word) == wanted)
    };
    let mut by_word = (0..names.len()).filter(has_word);
    if let (Some(place), None) = (by_word.next(), by_word.next()) {
        return Matched::Guess(place);
    }
    /// Names less alike than this (Jaro-Winkler, 0 to 1) are not offered. Judgement.
    const ALIKE: f64 = 0.75;
    let likeness = |place: &usize| strsim::jaro_winkler(&wanted, &plain(&names[*place]));
    let nearest = (0..names.len())
        .max_by(|a, b| likeness(a).total_cmp(&likeness(b)))
        .filter(|place| likeness(place) >= ALIKE);
    Matched::No { nearest }
}

/// "t3", "3", "tk3" for "Tanker 3": the same number at the end, and nothing before it but the first letters or
/// the initials of the name.
fn is_short_for(short: &str, name: &str) -> bool {
    let split = |text: &str| -> (String, String) {
        let digits = text.chars().rev().take_while(char::is_ascii_digit).count();
        let at = text.chars().count() - digits;
        (text.chars().take(at).collect(), text.chars().skip(at).collect())
    };
    let (own, number) = split(short);
    let (words, of_name) = split(&name.to_lowercase());
    if number.is_empty() || number.trim_start_matches('0') != of_name.trim_start_matches('0') {
        return false;
    }
    let letters: String = words.chars().filter(|letter| letter.is_alphanumeric()).collect();
    let initials: String =
        words.split_whitespace().filter_map(|word| word.chars().next()).collect();
    own.is_empty() || letters.starts_with(&own) || initials == own
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_found_as_people_write_them() {
        let names: Vec<String> =
            ["Tanker 3", "Tanker 5", "Maple Ford Tanker 5", "Aid tanker 1", "Old Mack"]
                .map(str::to_owned)
                .to_vec();
        for (text, expected) in [
            ("Tanker 3", Matched::Same(0)),
            ("tanker  3", Matched::Same(0)),
            ("TANKER-3", Matched::Same(0)),
            ("T3", Matched::Guess(0)),
            ("3", Matched::Guess(0)),
            ("MFT5", Matched::Guess(2)),
            ("mack", Matched::Guess(4)),
            // Of two names.
            ("Tanker", Matched::No { nearest: Some(1) }),
            // Two have this number.
            ("5", Matched::No { nearest: None }),
            ("Tnaker 3", Matched::No { nearest: Some(0) }),
            ("Brush 9", Matched::No { nearest: None }),
        ] {
            assert_eq!(matched(text, &names), expected, "{text}");
        }
    }
}
