//! The sheet in its order: the place, the apparatus, the sources, the cycles and credits, people and papers, drills,
//! the rules with their conditions, signatures.

use shuttle_report::evidence::{Evidence, Timed};
use shuttle_report::grade::{Alone, GradeAnswer, SiteGrade};
use shuttle_report::survey::{Aid, HeldDrill};

use super::super::{rules, tables};
use super::sources_and_tankers::{credits, cycles, source, tankers};
use super::{BLANK, blank, flow, length, number, percent, road, text, yes_or_no};
use crate::answer::Block;
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, name};

/// A table of what is asked for and what is stated.
fn asked(heading: &'static str, rows: Vec<(Sentence, Sentence)>) -> Table {
    let mut table = Table::new(vec![(say![heading], Align::Left), (say![""], Align::Left)]);
    for (what, stated) in rows {
        table.row(vec![what, stated]);
    }
    table
}

/// The sheet of one scenario, the `place`-th of the answer.
///
/// - Given: `tanker_crew`, people on a tanker.
pub fn sheet(sheet: &Evidence, place: usize, found: &GradeAnswer) -> Vec<Block> {
    let alone: Vec<&Alone> = found.alone.iter().filter(|one| one.scenario == place).collect();
    let best = found.ranked.iter().find(|one| one.scenario == place);
    let heading = say![
        "evidence sheet for the grading of hauled water: ",
        name(&sheet.title),
        ". ",
        BLANK,
        " is what the file does not state, to be filled in by hand.",
    ];
    let mut blocks = vec![Block::Paragraph(heading), Block::Gap];
    let mut tables = vec![the_place(sheet), apparatus(sheet)];
    tables.extend(sheet.sources.iter().map(source));
    tables.push(tankers(sheet));
    tables.extend(alone.iter().map(|one| cycles(one)));
    if !alone.is_empty() {
        tables.push(credits(&alone));
    }
    tables.extend(best.map(|best| what_is_shown(best, found)));
    tables.extend([
        people(sheet),
        papers(sheet),
        arrivals(sheet),
        drills(sheet),
        timed_work(sheet),
    ]);
    tables.extend(best.and_then(|best| tables::conditions(found, best)));
    tables.push(signatures());
    for table in tables {
        blocks.extend([Block::Table(table), Block::Gap]);
    }
    blocks.pop();
    blocks
}

fn the_place(sheet: &Evidence) -> Table {
    let survey = &sheet.survey;
    let edition = match &survey.edition {
        Some(edition) => say![name(edition)],
        None => say![BLANK, " (ask the grading body which edition)"],
    };
    asked(
        "place",
        vec![
            (say!["station to fire, by road"], road(survey.station_miles)),
            (say!["fire to a suction point"], length(survey.suction_point_ft)),
            (
                say!["large hose to one farther off, procedure shown"],
                yes_or_no(survey.large_hose_shown),
            ),
            (say!["edition"], edition),
            (say!["surveyed on, by"], say![BLANK, ", ", BLANK]),
        ],
    )
}

fn apparatus(sheet: &Evidence) -> Table {
    let survey = &sheet.survey;
    let mut rows = vec![
        (
            say!["first engine"],
            say![
                name(&sheet.first_engine),
                ": tank ",
                Piece::Volume(sheet.first_engine_tank_gal),
                ", pump ",
                flow(survey.first_engine_pump_gpm),
                " at ",
                Piece::Pressure(150.0),
            ],
        ),
        (
            say!["pump at the drop tanks"],
            say![
                name(&sheet.pumping_engine),
                ": rated ",
                flow(survey.drafting_pump_gpm),
                ", gives ",
                flow(sheet.pump_at_lift_gpm),
                " at its lift",
            ],
        ),
    ];
    for (place, tank) in sheet.drop_tanks.iter().enumerate() {
        let by = match &tank.brought_by {
            Some(unit) => say![name(unit)],
            None => say!["its own vehicle"],
        };
        rows.push((
            say!["drop tank ", Piece::Number((place + 1) as f64, 0)],
            say![
                "holds ",
                Piece::Volume(tank.capacity_gal),
                ", usable ",
                Piece::Volume(tank.usable_gal),
                "; brought by ",
                by,
                ", set up in ",
                Piece::Number(tank.setup_min, 1),
                " min",
            ],
        ));
    }
    if sheet.drop_tanks.is_empty() {
        rows.push((say!["drop tanks"], say!["none"]));
    }
    asked("apparatus at the fire", rows)
}

fn what_is_shown(best: &SiteGrade, found: &GradeAnswer) -> Table {
    let mut rows = Vec::new();
    for (rule, result) in found.rules.iter().zip(&best.results) {
        let held = match result.held_gpm {
            Some(gpm) => say![
                Piece::Flow(gpm),
                " unbroken for ",
                Piece::Duration(rule.duration_min),
                " in ",
                Piece::Share(found.share),
                " of simulated fires",
            ],
            None => say!["no flow"],
        };
        let with = joined(result.held_with.iter().map(|site| say![name(site)]), ", ", " and ");
        rows.push((rules::title(rule), say![held, ", filling at ", with]));
        rows.push((
            say!["    by hand"],
            say![
                Piece::Flow(result.hand.counts_gpm),
                " with stated speeds; own alone ",
                Piece::Flow(result.hand.own_gpm),
                ", with automatic aid ",
                Piece::Flow(result.hand.automatic_gpm),
                ", with all ",
                Piece::Flow(result.hand.all_gpm),
            ],
        ));
        let by_rule = match result.hand.by_travel_rule_gpm {
            Some(gpm) => say![Piece::Flow(gpm)],
            None => blank(),
        };
        rows.push((say!["    by ", rules::travel_rule()], by_rule));
    }
    asked("flow, best set of fill sites", rows)
}

fn people(sheet: &Evidence) -> Table {
    let survey = &sheet.survey;
    asked(
        "people and training",
        vec![
            (say!["firefighters who respond, on average"], number(survey.firefighters, "")),
            (say!["structural training of each in a year"], number(survey.training_hours, " h")),
            (say!["buildings in reach"], percent(survey.buildings_in_reach)),
            (say!["credit earned when last graded"], percent(survey.credit_share)),
            (
                say!["credit for receiving and handling alarms"],
                number(survey.alarm_credit, " points"),
            ),
            (
                say!["apparatus and people on water, not counted as suppression"],
                say![apparatus_on_water(sheet), ", people ", BLANK],
            ),
            (say!["joint training with automatic aid"], text(survey.joint_training.as_ref())),
        ],
    )
}

fn apparatus_on_water(sheet: &Evidence) -> Sentence {
    let many = sheet.tankers.len();
    say![Piece::TankerCount(many)]
}

fn papers(sheet: &Evidence) -> Table {
    let survey = &sheet.survey;
    asked(
        "papers",
        vec![
            (
                say!["written procedures for piped and hauled areas"],
                text(survey.procedures.as_ref()),
            ),
            (say!["agreements for automatic and mutual aid"], text(survey.agreements.as_ref())),
            (
                say!["alarm handling and fireground communications of outside apparatus"],
                text(survey.communications.as_ref()),
            ),
            (say!["accreditation last renewed"], number(survey.renewed_years, " years ago")),
        ],
    )
}

/// Whose, in a word.
pub(super) fn whose(aid: Aid) -> Sentence {
    match aid {
        Aid::Own => say!["own"],
        Aid::Automatic => say!["automatic aid"],
        Aid::Mutual => say!["mutual aid"],
    }
}

fn arrivals(sheet: &Evidence) -> Table {
    let mut table = Table::new(vec![
        (say!["arrival"], Align::Left),
        (say!["whose"], Align::Left),
        (say!["asked for, min"], Align::Right),
        (say!["response, mean min"], Align::Right),
    ]);
    for one in &sheet.arrivals {
        table.row(vec![
            say![name(&one.name)],
            whose(one.aid),
            say![Piece::Number(one.asked_at_min, 1)],
            say![Piece::Number(one.response_min, 1)],
        ]);
    }
    table
}

/// Drills that were held, and a line to fill in.
fn drills(sheet: &Evidence) -> Table {
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
            ", witness ",
            BLANK,
        ],
    ));
    rows.push((
        say!["brake set to water shown, as timed"],
        number(sheet.survey.water_shown_min, " min"),
    ));
    asked("drills held", rows)
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
fn timed_work(sheet: &Evidence) -> Table {
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
    asked("times measured", rows)
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

fn signatures() -> Table {
    let line = || say!["name ", BLANK, " signature ", BLANK, " date ", BLANK];
    asked(
        "to sign",
        vec![
            (say!["prepared by"], line()),
            (say!["fire chief"], line()),
            (say!["witness of the drill"], line()),
            (say!["surveyor"], line()),
        ],
    )
}
