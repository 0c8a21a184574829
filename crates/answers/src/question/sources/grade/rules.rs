//! Grading rules and their conditions in words.

use fireground::told::Part;
use shuttle_report::conditions::State;
use shuttle_report::grading_rules::{Class, Condition, GradingRule, Seen};

use crate::say;
use crate::say::{Piece, Sentence, name};

/// "250 gpm for 2 hours".
pub fn title(rule: &GradingRule) -> Sentence {
    let asked = say![Piece::Flow(rule.minimum_gpm), " for ", Piece::Duration(rule.duration_min)];
    match &rule.class {
        Class::Hauled => asked,
        Class::Class8b => say!["class 8B, ", asked],
        Class::OwnApparatus => say!["own apparatus, ", asked],
        Class::CanadianDwellings => say!["Canadian accreditation, dwellings, ", asked],
        Class::CanadianCommercial => say!["Canadian accreditation, commercial, ", asked],
        Class::Own(own) => say![name(own), ", ", asked],
    }
}

/// The same for the head of a column.
pub fn short_title(rule: &GradingRule) -> Sentence {
    match &rule.class {
        Class::Class8b => say!["8B"],
        Class::OwnApparatus => say!["own only"],
        Class::Own(own) => say![name(own)],
        _ => say![Piece::Flow(rule.minimum_gpm)],
    }
}

/// "0.65 + 1.70 x miles each way"; 1.70 minutes for a mile are 1.06 for a km.
pub fn travel_rule() -> Piece {
    Piece::Worked(Part::Constant {
        us: "0.65 + 1.70 x miles each way",
        metric: "0.65 + 1.06 x km each way",
    })
}

fn bare(value: f64) -> Piece {
    Piece::Number(value, usize::from(value.fract() != 0.0))
}

/// What a rule is and where it is from.
///
/// - Given: the edition that a scenario states for the grading body.
pub fn in_full(rule: &GradingRule, stated: Option<&String>) -> Sentence {
    let mut told = say![
        "rule: ",
        title(rule),
        ", begun within ",
        bare(rule.within_min),
        " min of the first engine's arrival",
    ];
    if let Some(within) = rule.higher_within_min {
        told.push(say![", a higher flow within ", bare(within)]);
    }
    if rule.own_only {
        told.push(", with the department's own apparatus alone");
    }
    if let Some(who) = rule.sealed_counts_whole {
        told.push(say!["; a sealed vacuum tank without 10% off (", who, ")"]);
    }
    told.push(say!["; source: ", name(&rule.source), ", "]);
    told.push(match rule.seen {
        Seen::Seen => "read",
        Seen::SeenInPart => "read in part",
        Seen::Memory => "from memory",
        Seen::OfTheFile => "as the scenario gives it",
    });
    told.push("; edition: ");
    told.push(match (&rule.edition, stated) {
        (Some(edition), _) => say![name(edition), "."],
        (None, Some(edition)) => say!["the body works by ", name(edition), ", as the file states."],
        (None, None) => say!["ask the grading body which edition."],
    });
    told
}

/// What a rule asks for beyond the flow: "road to the station 5.0 mi or less".
pub fn condition(condition: &Condition) -> Sentence {
    let percent = |share: f64| say![Piece::Number(100.0 * share, 0), "%"];
    match *condition {
        Condition::StationWithin(miles) => {
            say!["road to the station ", Piece::ExactDistance(miles), " or less"]
        }
        Condition::SuctionPointWithin(feet) => say![
            "suction point within ",
            Piece::Length(feet),
            ", or large hose by a shown procedure",
        ],
        Condition::SourceWithin(miles) => {
            say!["road to every source used ", Piece::ExactDistance(miles), " or less"]
        }
        Condition::AllYear => say!["every source used all year and in a 50-year drought"],
        Condition::FirstEnginePump(gpm) => {
            say!["first engine's pump ", Piece::Flow(gpm), " or more at ", Piece::Pressure(150.0)]
        }
        Condition::Firefighters(count) => {
            say!["firefighters on average ", bare(count), " or more"]
        }
        Condition::TrainingHours(hours) => {
            say!["structural training of each ", bare(hours), " h a year or more"]
        }
        Condition::BuildingsInReach(share) => {
            say!["buildings in reach ", percent(share), " or more"]
        }
        Condition::CreditShare(share) => say!["credit earned ", percent(share), " or more"],
        Condition::AlarmCredit(points) => {
            say!["credit for alarms ", bare(points), " points or more"]
        }
        Condition::WaterShownWithin(minutes) => {
            say!["tank deployed and water shown within ", bare(minutes), " min of the brake set"]
        }
        Condition::RenewedWithin(years) => say!["renewed within ", bare(years), " years"],
        Condition::TestedAt(miles) => {
            say!["test run at ", Piece::ExactDistance(miles), " from the source or more"]
        }
    }
}

/// "met", "not met", "not known to the file".
pub fn state(state: State) -> &'static str {
    match state {
        State::Met => "met",
        State::NotMet => "NOT MET",
        State::NotKnown => "not known to the file",
    }
}
