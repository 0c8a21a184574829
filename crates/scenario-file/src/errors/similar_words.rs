//! The known word that a misspelled one was likely meant to be.

/// Similarity from which a word is suggested, as measured by [`likest`]. Judgement.
const ALIKE: f64 = 0.8;

/// The known word most similar to the one given, if any is similar.
pub(crate) fn nearest<'w>(given: &str, known: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    likest(given, known).map(|(_, word)| word)
}

/// The known word most similar to the one given, if any is similar, with its similarity from 0.8 to 1.
pub(crate) fn likest<'w>(
    given: &str,
    known: impl Iterator<Item = &'w str>,
) -> Option<(f64, &'w str)> {
    /// Longer words are not typing slips, and comparing them is slow.
    const LONGEST: usize = 64;
    if given.chars().count() > LONGEST {
        return None;
    }
    let lower = given.to_lowercase();
    let likeness = |word: &str| {
        let word = word.to_lowercase();
        let alike = strsim::jaro_winkler(&lower, &word);
        // That measure weighs a single slip too heavily in short words.
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
