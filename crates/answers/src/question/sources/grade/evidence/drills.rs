//! Drills that were held, beside what is claimed, and times that were measured.

use shuttle_report::evidence::{Evidence, Timed};
use shuttle_report::grade::{GradeAnswer, RuleResult};
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::survey::HeldDrill;

use super::claim::best_by_rule;
use super::{BLANK, LONG_BLANK, asked, blank, flow, number, road, text};
use crate::question::grade::rules;
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, name};

/// Each rule's claim beside the drill that shows most of it: the greatest flow held for at least as long as the rule
/// asks for.
pub fn shown_in_drills(sheet: &Evidence, found: &GradeAnswer, place: usize) -> Table {
    let mut table = Table::new(vec![
        (say!["shown in a drill"], Align::Left),
        (say!["claimed, ", Piece::FlowSign], Align::Right),
        (say!["held in a drill"], Align::Left),
        (say!["seen"], Align::Left),
    ]);
    for (rule, _, result) in best_by_rule(found, place) {
        table.row(vec![
            rules::title(rule),
            say![Piece::BareFlow(result.hand.counts_gpm)],
            shown(&sheet.survey.drills, rule, result),
            say![super::TICK],
        ]);
    }
    table
}

/// "500 gpm for 120 min on 3 May 2026, 108 gpm less than claimed", or a blank that says what is missing.
fn shown(drills: &[HeldDrill], rule: &GradingRule, result: &RuleResult) -> Sentence {
    let long_enough = drills
        .iter()
        .filter(|drill| drill.minutes.is_some_and(|minutes| minutes >= rule.duration_min));
    let best = long_enough
        .filter_map(|drill| Some((drill, drill.flow_gpm?, drill.minutes?)))
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((drill, held, minutes)) = best else {
        return say![
            BLANK,
            " ",
            Piece::FlowSign,
            " for ",
            Piece::Duration(rule.duration_min),
            " or longer: the file states no such drill",
        ];
    };
    let told =
        say![Piece::Flow(held), " for ", Piece::Duration(minutes), ", ", name(&drill.date), ": ",];
    let lacks = result.hand.counts_gpm - held;
    // Shown to the whole gpm or litre.
    if lacks < 0.5 {
        say![told, "all that is claimed"]
    } else {
        say![told, Piece::Flow(lacks), " less than claimed"]
    }
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
