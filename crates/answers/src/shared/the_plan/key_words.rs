//! A value of the scenario by its path of keys, in words for whoever has no file before him.

use scenario_file::Scenario;

use crate::say;
use crate::say::{Piece, Sentence, name};

/// The path of keys, and on a page what it is: "Quarry pond, the road out".
pub fn key_words(path: &str, scenario: &Scenario) -> Piece {
    Piece::Key { path: path.to_owned(), page: words(path, scenario) }
}

fn words(path: &str, scenario: &Scenario) -> Sentence {
    let facts = scenario.plan.facts();
    let (place, keys) = split(path);
    let whose = match (place.split('[').next().unwrap_or_default(), number(place)) {
        ("fill_sites", Some(site)) => facts.fill_sites.get(site).map(|one| say![name(&one.name)]),
        ("drop_tanks", Some(tank)) => Some(match facts.drop_tanks.len() {
            1 => say!["the drop tank"],
            _ => say!["drop tank ", Piece::Number((tank + 1) as f64, 0)],
        }),
        ("tankers", Some(entry)) => (facts.tankers.iter())
            .find(|tanker| tanker.listed == entry)
            .map(|tanker| say![name(&tanker.name)]),
        ("supply", _) => Some(say!["the supply"]),
        ("attack_engine", _) => Some(say![name(&facts.attack_engine.name)]),
        ("incident", _) => Some(say!["the fire"]),
        _ => None,
    };
    let whose = whose.unwrap_or_default();
    match what(keys) {
        "" if whose.is_empty() => say![Piece::Words(path.replace(['_', '.'], " ").into())],
        "" => whose,
        what if whose.is_empty() => say![what],
        what => say![whose, ", ", what],
    }
}

/// "fill_sites[0]" and "out" of `fill_sites[0].out`.
fn split(path: &str) -> (&str, &str) {
    path.split_once('.').unwrap_or((path, ""))
}

/// The number in `fill_sites[0]`.
fn number(place: &str) -> Option<usize> {
    place.split_once('[')?.1.trim_end_matches(']').parse().ok()
}

/// What its keys stand for; nothing for those that no fact is worked out for.
fn what(keys: &str) -> &'static str {
    const WORDS: [(&str, &str); 9] = [
        ("out", "the road out"),
        ("back", "the road back"),
        ("attack_flow", "the flow wanted"),
        ("flow", "its flow"),
        ("volume", "what it holds"),
        ("capacity", "what it holds"),
        ("size", "what it holds"),
        ("draft_limit", "what its pump can draft"),
        ("lay", "the lay"),
    ];
    WORDS.into_iter().find(|(key, _)| keys.starts_with(key)).map_or("", |(_, words)| words)
}
