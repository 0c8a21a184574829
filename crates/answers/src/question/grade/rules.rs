//! Grading rules in words.

use shuttle_report::grading_rules::{Also, Class, GradingRule, Seen};

use crate::say;
use crate::say::{Piece, Sentence, joined};

/// "250 gpm for 2 hours".
pub fn title(rule: &GradingRule) -> Sentence {
    let asked = say![Piece::Flow(rule.minimum_gpm), " for ", Piece::Duration(rule.duration_min)];
    match rule.class {
        Class::Hauled => asked,
        Class::HauledLesser => say!["lesser class, ", asked],
        Class::CanadianDwellings => say!["Canadian accreditation, dwellings, ", asked],
        Class::CanadianCommercial => say!["Canadian accreditation, commercial, ", asked],
    }
}

/// What a rule is, where it is from, and what else it asks.
pub fn in_full(rule: &GradingRule) -> Sentence {
    let minutes = |minutes: f64| Piece::Number(minutes, usize::from(minutes.fract() != 0.0));
    let mut told = say![
        "rule: ",
        title(rule),
        ", begun within ",
        minutes(rule.within_min),
        " min of the first engine's arrival",
    ];
    if let Some(within) = rule.higher_within_min {
        told.push(say![", a higher flow within ", minutes(within)]);
    }
    told.push(say!["; source: ", rule.source, "; ", rule.edition]);
    match rule.seen {
        Seen::Seen => told.push("."),
        Seen::Memory => told.push("; value from memory."),
    }
    if !rule.also.is_empty() {
        let also = joined(rule.also.iter().map(also), "; ", "; ");
        told.push(say![" Not known to the scenario: ", also, "."]);
    }
    told
}

/// What a rule asks for and a scenario does not say.
pub fn also(also: &Also) -> Sentence {
    match *also {
        Also::AllYear => say!["the source must be there all year and in a 50-year drought"],
        Also::SuctionPointWithin(feet) => say![
            "the scene must lie within ",
            Piece::Length(feet),
            " of a suction point, or be reached with large hose by a procedure that is shown",
        ],
        Also::FirstEnginePump(gpm) => {
            say!["the first engine needs a pump of ", Piece::Flow(gpm), " or more"]
        }
        Also::PropertyWithin(miles) => {
            say!["the property must lie within ", Piece::Distance(miles), " of the fire station"]
        }
    }
}
