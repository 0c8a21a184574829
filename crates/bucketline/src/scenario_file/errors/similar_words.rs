//! The known word that a misspelled one was likely meant to be.

/// Likeness from which a word is offered, by the measure of [`likest`]. Judgement.
const ALIKE: f64 = 0.8;

/// The known word most like the one given, if any is like it.
pub(crate) fn nearest<'w>(given: &str, known: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    likest(given, known).map(|(_, word)| word)
}

/// The known word most like the one given, if any is like it, with its likeness from 0.8 to 1.
pub(crate) fn likest<'w>(
    given: &str,
    known: impl Iterator<Item = &'w str>,
) -> Option<(f64, &'w str)> {
    /// Longer words are no slip of the finger, and comparing them takes long.
    const LONGEST: usize = 64;
    if given.chars().count() > LONGEST {
        return None;
    }
    let lower = given.to_lowercase();
    let likeness = |word: &str| {
        let word = word.to_lowercase();
        let alike = strsim::jaro_winkler(&lower, &word);
        // In short words one slip weighs too much by that measure.
        let one_slip = lower.chars().count() > 1
            && word.chars().count() > 1
            && strsim::damerau_levenshtein(&lower, &word) == 1;
        if one_slip { alike.max(ALIKE) } else { alike }
    };
    known
        .map(|word| (likeness(word), word))
        .filter(|(likeness, _)| *likeness >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
}
