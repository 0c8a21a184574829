//! People, training, papers, arrivals, drills, measured times and signatures.

use shuttle_report::evidence::{Arrival, Evidence, Timed};
use shuttle_report::grade::GradeAnswer;
use shuttle_report::grading_rules::Condition;
use shuttle_report::survey::HeldDrill;

use super::units::whose;
use super::{BLANK, LONG_BLANK, asked, blank, flow, number, percent, road, text};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, list, name};

/// Whether one of the rules asks for something.
fn is_asked(found: &GradeAnswer, test: fn(&Condition) -> bool) -> bool {
    found.rules.iter().any(|rule| rule.conditions.iter().any(test))
}

/// People, training and credits; what only some rules ask for stands there where one of them does, or it is stated.
pub fn people(sheet: &Evidence, found: &GradeAnswer) -> Table {
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
            say![Piece::TankerCount(sheet.tankers.len()), ", people ", BLANK],
        ),
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

/// Drills that were held, and a line to fill in.
pub fn drills(sheet: &Evidence) -> Table {
    let mut rows: Vec<(Sentence, Sentence)> = sheet
        .survey
        .drills
        .iter()
        .map(|drill| (say![name(&drill.date)], drill_told(drill)))
        .collect();
    rows.push((
        say![BLANK],
        say![
            "held ",
            BLANK,
            " ",
            Piece::FlowSign,
            " for ",
            BLANK,
            " min, water shown after ",
            BLANK,
            " min, source ",
            road(None),
            ", filled at ",
            LONG_BLANK,
            " with ",
            BLANK,
            " ",
            Piece::Tankers,
            ", by day or night ",
            BLANK,
            ", witness ",
            LONG_BLANK,
        ],
    ));
    rows.push((
        say!["brake set to water shown, as timed"],
        number(sheet.survey.water_shown_min, " min"),
    ));
    asked(say!["drills held"], rows)
}

fn drill_told(drill: &HeldDrill) -> Sentence {
    say![
        "held ",
        flow(drill.flow_gpm),
        " for ",
        number(drill.minutes, " min"),
        ", water shown after ",
        number(drill.water_shown_min, " min"),
        ", source ",
        road(drill.source_miles),
        ", witness ",
        text(drill.witness.as_ref()),
    ]
}

/// Times that were measured and stand in the file one by one.
pub fn timed_work(sheet: &Evidence) -> Table {
    let mut rows: Vec<(Sentence, Sentence)> = (sheet.drills.iter())
        .map(|drill| {
            let times = Piece::Number(drill.times as f64, 0);
            let mean = Piece::Number(drill.mean_min, 1);
            (timed(&drill.what), say![times, " timed, mean ", mean, " min"])
        })
        .collect();
    if rows.is_empty() {
        rows.push((say!["timed work"], blank()));
    }
    asked(say!["times measured"], rows)
}

fn timed(what: &Timed) -> Sentence {
    match what {
        Timed::DraftSetup => say!["set up the draft"],
        Timed::Reprime => say!["prime again"],
        Timed::SupplyEngineSetup => say!["set up the supply engine"],
        Timed::DropTankSetup => say!["set up a drop tank"],
        Timed::DriveTo(site) => say!["drive to ", name(site)],
        Timed::DriveBack(site) => say!["drive back from ", name(site)],
        Timed::SiteReady(site) => say!["make ", name(site), " ready"],
        Timed::FillConnect => say!["connect at the fill site"],
        Timed::FillDisconnect => say!["disconnect at the fill site"],
        Timed::DumpPosition => say!["get into place at the drop tank"],
        Timed::DumpClear => say!["pull clear of the drop tank"],
        Timed::NurseConnect => say!["connect to the engine"],
        Timed::NurseDisconnect => say!["disconnect from the engine"],
    }
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
