//! The sheet in its order: what is claimed and whether it passes, the place, the apparatus, the sources, the units, how
//! the claim comes about, what the rules ask for, people and papers, drills, signatures.

use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{Alone, GradeAnswer};

use super::super::{letter, tables};
use super::claim::{assignments, conditions, flows, verdicts};
use super::department::{arrivals, papers, people, signatures};
use super::drills::{drills, shown_in_drills, timed_work};
use super::sources::source;
use super::units::{credits, tankers};
use super::{BLANK, LONG_BLANK, asked, flow, length, road, yes_or_no};
use crate::answer::Block;
use crate::say;
use crate::say::{Piece, Sentence, Table, name};

/// The sheet of one scenario, the `place`-th of the answer.
///
/// - Given: `changed`, what was asked for beside the file, and `water_takes`, the people that the water takes, both in
///   words.
pub fn sheet(
    sheet: &Evidence,
    place: usize,
    found: &GradeAnswer,
    changed: Option<Sentence>,
    water_takes: Sentence,
) -> Vec<Block> {
    let alone: Vec<&Alone> = found.alone.iter().filter(|one| one.scenario == place).collect();
    let title = if found.titles.len() > 1 {
        say![letter(place), ": ", name(&sheet.title)]
    } else {
        say![name(&sheet.title)]
    };
    let heading = say![
        "evidence sheet for the grading of hauled water: ",
        title,
        ". ",
        BLANK,
        " is what the file does not state, to be filled in by hand; the surveyor ticks what was seen.",
    ];
    let mut blocks = vec![Block::Paragraph(heading), Block::Gap];
    if let Some(changed) = changed {
        blocks.extend([Block::Paragraph(changed), Block::Gap]);
    }
    let mut tables = vec![verdicts(sheet, found, place), the_place(sheet), apparatus(sheet)];
    tables.extend(sheet.sources.iter().map(source));
    tables.push(tankers(sheet));
    tables.push(assignments(found, place));
    tables.push(flows(found, place));
    tables.extend(tables::by_aid(found, place));
    if let (false, Some(rule)) = (alone.is_empty(), found.rules.first()) {
        tables.extend(alone.iter().map(|one| credits(one, rule)));
    }
    tables.extend(conditions(sheet, found, place));
    tables.extend([
        people(sheet, found, water_takes),
        papers(sheet),
        arrivals(sheet),
        shown_in_drills(sheet, found, place),
        drills(sheet),
        timed_work(sheet),
        signatures(),
    ]);
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
        say!["place"],
        vec![
            (say!["station to fire, by road"], road(survey.station_miles)),
            (say!["fire to a suction point"], length(survey.suction_point_ft)),
            (
                say!["large hose to one farther off, procedure shown"],
                yes_or_no(survey.large_hose_shown),
            ),
            (say!["edition"], edition),
            (say!["surveyed on, by"], say![BLANK, ", ", LONG_BLANK]),
        ],
    )
}

/// What the pump at the drop tanks counts for: what it gives at its lift, no more than it is rated at, gpm.
fn counted_pump(sheet: &Evidence) -> Option<f64> {
    let rated = sheet.survey.drafting_pump_gpm.unwrap_or(f64::INFINITY);
    sheet.pump_at_lift_gpm.map(|gpm| gpm.min(rated))
}

fn apparatus(sheet: &Evidence) -> Table {
    let survey = &sheet.survey;
    let capped = counted_pump(sheet) < sheet.pump_at_lift_gpm;
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
                ", lift ",
                length(survey.drafting_lift_ft),
                ", gives ",
                flow(counted_pump(sheet)),
                " there, ",
                if capped { "no more than it is rated at" } else { "at that lift" },
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
    asked(say!["apparatus at the fire"], rows)
}
