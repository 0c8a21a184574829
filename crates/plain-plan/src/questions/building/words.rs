//! The words that people have for buildings, and what the format calls them.

use crate::amount::unquoted;
use crate::first_plan::alike;
use crate::sheets::nearest;

/// Words for a use, a construction, contents, beside those of the format. Common speech; what is called differently from
/// county to county, such as a shed, is left to be asked.
const SAID: [(&str, &[&str]); 17] = [
    ("dwelling", &["house", "home", "farmhouse", "cabin", "cottage", "duplex"]),
    ("apartments", &["apartment", "flats", "condominium"]),
    ("office", &["offices", "bank"]),
    ("school", &["schoolhouse"]),
    ("church", &["chapel"]),
    ("store", &["shop", "market"]),
    ("workshop", &["garage", "woodshop"]),
    ("barn", &["barns", "stable"]),
    ("sawmill", &["lumber mill", "saw mill"]),
    ("fire resistive", &["concrete"]),
    ("noncombustible", &["steel", "metal"]),
    ("ordinary", &["brick", "block", "masonry", "stone"]),
    ("heavy timber", &["post and beam", "mill construction"]),
    ("wood frame", &["wood", "wooden", "frame", "framed", "log"]),
    ("combustible", &["goods", "machinery"]),
    ("free burning", &["hay", "straw", "furniture", "lumber"]),
    ("rapid burning", &["fuel", "gasoline", "paint", "solvents"]),
];

/// What was meant by something typed where one of these words is wanted.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Meant<'a> {
    /// That word.
    Word(&'a str),
    /// One word of ours for it.
    Kind(&'a str),
    /// Nothing that we know; the nearest word, if one is near.
    Nothing(Option<&'a str>),
}

pub(super) fn meant<'a>(typed: &str, words: &'a [String]) -> Meant<'a> {
    if let Some(word) = words.iter().find(|word| alike(word, typed)) {
        return Meant::Word(word);
    }
    let plain = unquoted(typed).to_lowercase();
    let parts: Vec<&str> =
        plain.split(|c: char| !c.is_alphanumeric()).filter(|one| !one.is_empty()).collect();
    // "Hay barn" has the word barn in it, and "fire resistive" both of its words in a row.
    let has = |said: &str| {
        let said: Vec<&str> = said.split(' ').collect();
        parts.windows(said.len()).any(|window| window == said)
    };
    let mut kinds = words.iter().map(String::as_str).filter(|word| {
        let said = SAID.iter().find(|(one, _)| one == word).map_or(&[][..], |(_, said)| said);
        has(word) || said.iter().any(|one| has(one))
    });
    match (kinds.next(), kinds.next()) {
        (Some(kind), None) => Meant::Kind(kind),
        // A school house may be a school or a house.
        (Some(_), Some(_)) => Meant::Nothing(None),
        _ => {
            let all: Vec<&str> = words.iter().map(String::as_str).collect();
            Meant::Nothing(nearest(&plain, &all))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::draft::choices;
    use super::*;

    #[test]
    fn what_people_call_a_building_is_understood_where_it_is_one_thing() {
        for (key, typed, expected) in [
            ("use", "Barn", Meant::Word("barn")),
            ("use", "hay barn", Meant::Kind("barn")),
            ("use", "a 2-story house", Meant::Kind("dwelling")),
            ("use", "repair garage", Meant::Kind("workshop")),
            ("use", "school house", Meant::Nothing(None)),
            ("use", "machinery shed", Meant::Nothing(None)),
            ("use", "dweling", Meant::Nothing(Some("dwelling"))),
            ("construction", "wood", Meant::Kind("wood frame")),
            ("construction", "brick walls", Meant::Kind("ordinary")),
            // Its walls are brick, its frame wood: of a mix the chief says which burns most.
            ("construction", "brick and wood", Meant::Nothing(None)),
            ("contents", "hay", Meant::Kind("free burning")),
            ("contents", "noncombustible", Meant::Word("noncombustible")),
        ] {
            assert_eq!(meant(typed, &choices(key).0), expected, "{typed}");
        }
    }

    /// Each word of ours leads to a word that the format has, and to one alone in each choice.
    #[test]
    fn every_word_leads_to_one_of_the_format() {
        let all = ["use", "construction", "contents"].map(|key| choices(key).0);
        for (word, said) in SAID {
            let lists: Vec<&Vec<String>> =
                all.iter().filter(|list| list.iter().any(|one| one == word)).collect();
            assert!(!lists.is_empty(), "{word}");
            for (list, one) in lists.iter().flat_map(|list| said.iter().map(move |one| (list, one)))
            {
                assert_eq!(meant(one, list), Meant::Kind(word), "{one}");
            }
        }
    }
}
