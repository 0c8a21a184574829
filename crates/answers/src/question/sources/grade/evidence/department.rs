//! People, training, papers, arrivals and signatures.

use shuttle_report::evidence::{Arrival, Evidence};
use shuttle_report::grade::GradeAnswer;
use shuttle_report::grading_rules::Condition;

use super::units::whose;
use super::{BLANK, LONG_BLANK, asked, number, percent, text};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, list, name};

/// Whether one of the rules asks for something.
fn is_asked(found: &GradeAnswer, test: fn(&Condition) -> bool) -> bool {
    found.rules.iter().any(|rule| rule.conditions.iter().any(test))
}

/// People, training and credits, with what the water takes of them in words; what only some rules ask for stands there where one of them does, or it is stated.
pub fn people(sheet: &Evidence, found: &GradeAnswer, water_takes: Sentence) -> Table {
    let survey = &sheet.survey;
    let mut rows = vec![
        (say!["firefighters who respond, on average"], number(survey.firefighters, "")),
        (
            say!["structural training of each in a year"],
            say![number(survey.training_hours, " h"), ", average over the 12 months to ", BLANK],
        ),
        (say!["buildings in reach"], percent(survey.buildings_in_reach)),
    ];
    if survey.credit_share.is_some()
        || is_asked(found, |one| matches!(one, Condition::CreditShare(_)))
    {
        rows.push((say!["credit earned when last graded"], percent(survey.credit_share)));
    }
    rows.extend([
        (say!["credit for receiving and handling alarms"], number(survey.alarm_credit, " points")),
        (
            say!["apparatus and people on water, not counted as suppression"],
            say![
                Piece::TankerCount(sheet.tankers.len()),
                ", people ",
                number(survey.people_on_water, ""),
            ],
        ),
        (say!["people that the water takes"], water_takes),
        (say!["joint training with automatic aid"], text(survey.joint_training.as_ref())),
    ]);
    asked(say!["people and training"], rows)
}

/// Procedures and agreements.
pub fn papers(sheet: &Evidence) -> Table {
    let survey = &sheet.survey;
    let rows = vec![
        (say!["written procedures for piped and hauled areas"], text(survey.procedures.as_ref())),
        (say!["agreements for automatic and mutual aid"], text(survey.agreements.as_ref())),
        (say!["alarm handling of outside apparatus"], text(survey.alarm_handling.as_ref())),
        (
            say!["fireground communications of outside apparatus"],
            text(survey.communications.as_ref()),
        ),
        (say!["accreditation last renewed"], number(survey.renewed_years, " years ago")),
    ];
    asked(say!["papers"], rows)
}

/// When units arrive; those that are alike stand in one row.
pub fn arrivals(sheet: &Evidence) -> Table {
    let mut table = Table::new(vec![
        (say!["arrival"], Align::Left),
        (say!["whose"], Align::Left),
        (say!["asked for, min"], Align::Right),
        (say!["response, mean min"], Align::Right),
        (say!["seen"], Align::Left),
    ]);
    let alike = |a: &Arrival, b: &Arrival| Arrival { name: b.name.clone(), ..a.clone() } == *b;
    for group in sheet.arrivals.chunk_by(alike) {
        let one = &group[0];
        table.row(vec![
            list(group.iter().map(|one| say![name(&one.name)])),
            whose(one.aid),
            say![Piece::Number(one.asked_at_min, 1)],
            say![Piece::Number(one.response_min, 1)],
            say![super::TICK],
        ]);
    }
    table
}

pub fn signatures() -> Table {
    let line = || say!["name ", LONG_BLANK, " signature ", LONG_BLANK, " date ", BLANK];
    asked(
        say!["to sign"],
        vec![
            (say!["prepared by"], line()),
            (say!["fire chief"], line()),
            (say!["witness of the drill"], line()),
            (say!["surveyor"], line()),
        ],
    )
}
