//! How much water a building wants, by every rule side by side.

mod figures;
mod more;
mod sheet;

use std::path::PathBuf;

use fireground::lost_fire::MOST_OF_ANY_DRILL_GPM;
use fireground::side_by_side::{Asked, Rule};
use scenario_file::{Replaced, WaterWanted};

use crate::answer::{Answer, Basis, Block, Label, Told};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, name};
use crate::shared::note;
use crate::shared::quantities::{bare_flow, flow as gpm, size, volume};
use crate::shared::{hose, people};

pub use figures::{FlowFigures, RuleKey};
pub use sheet::{Sheet, sheet};

/// Ratio of greatest to least flow up to which rules may be said to agree. Judgement.
const AGREE: f64 = 1.1;

/// A scenario that the building has been written into.
pub struct Written {
    /// The file.
    pub path: PathBuf,
    /// What was replaced in it.
    pub replaced: Replaced,
}

/// How much water a building wants.
///
/// - Given: its [`sheet`] by the rule that counts; the scenario it has been written into, if one.
pub fn flow(wanted: &WaterWanted, sheet: &Sheet, written: Option<&Written>) -> Answer<FlowFigures> {
    Answer {
        question: "flow",
        title: wanted.title.clone(),
        asked: scenario_file::Asked::default(),
        told: told(wanted, sheet, written),
        basis: Basis { replications: 0, seed: 0, ended_early: false },
        figures: FlowFigures::new(wanted, sheet, written),
        pictures: Vec::new(),
    }
}

fn told(wanted: &WaterWanted, sheet: &Sheet, written: Option<&Written>) -> Told {
    let mut points = Vec::new();
    points.extend(written.map(|written| {
        Block::Paragraph(is_written(written, sheet.rule, sheet.is_beyond_any_shuttle()))
    }));
    points.push(Block::Point(Label::Lines, lines(sheet)));
    points.push(Block::Point(Label::GivenUp, lost(sheet)));
    points.push(Block::Point(Label::Water, water(wanted, sheet)));
    for (place, one) in sheet.hose.iter().enumerate() {
        let label = if place == 0 { Label::Hose } else { Label::Blank };
        points.push(Block::Point(label, hose::in_short(one)));
    }
    if let Some(scenario) = &wanted.scenario {
        let needed = people::needed(scenario);
        points.push(Block::Point(Label::People, people::in_short(&needed)));
    }
    points.push(Block::Gap);
    points.push(Block::Table(rules(wanted, sheet)));
    points.push(Block::Gap);
    points.push(Block::Paragraph(say![
        "Which rule binds you, the local code and the authority having jurisdiction say; how much water the \
         fire gets, the incident commander."
    ]));
    Told {
        headline: headline(wanted),
        verdict: verdict(wanted, sheet),
        points,
        advice: Vec::new(),
        more: more::more(wanted, sheet),
        notes: wanted.warnings.iter().map(note).collect(),
        small_print: Vec::new(),
        // A building alone is nothing to check.
        ask_next: if wanted.scenario.is_some() { vec!["check"] } else { Vec::new() },
    }
}

fn headline(wanted: &WaterWanted) -> Sentence {
    let building = wanted.building();
    say![
        name(&wanted.title),
        ". ",
        size(building.length_ft),
        " x ",
        size(building.width_ft),
        ", ",
        crate::shared::quantities::count(building.stories),
        if building.stories == 1 { " story, " } else { " stories, " },
        size(building.eaves_ft),
        " to the eaves.",
    ]
}

fn verdict(wanted: &WaterWanted, sheet: &Sheet) -> Sentence {
    let (least, greatest) = sheet::range(wanted);
    // What speaks against the number stands before it.
    let counted = if is_beyond_range(wanted, sheet) {
        say![
            "So this fire is beyond the range of ",
            sheet.rule.name(),
            ", the rule that was to count here: the ",
            gpm(sheet.flow),
            " that it works out to are no attack flow to plan by."
        ]
    } else {
        say![
            "By ",
            sheet.rule.name(),
            ", the rule that counts here, the attack flow is ",
            gpm(sheet.flow),
            ".",
        ]
    };
    let by_rule = beyond(sheet).then(doubts(wanted, sheet)).then(counted);
    if greatest / least <= AGREE {
        return by_rule.then(say![
            "The rules agree: ",
            bare_flow(least),
            " to ",
            gpm(greatest),
            ".",
        ]);
    }
    by_rule.then(say![
        "The rules disagree: they ask for ",
        bare_flow(least),
        " to ",
        gpm(greatest),
        ", the most ",
        Piece::Number(greatest / least, 1),
        " times the least. Choose with --standard.",
    ])
}

/// That no shuttle brings the flow that counts.
fn beyond(sheet: &Sheet) -> Sentence {
    if !sheet.is_beyond_any_shuttle() {
        return Sentence::default();
    }
    say![
        "Beyond any tanker shuttle: published drills held ",
        gpm(MOST_OF_ANY_DRILL_GPM),
        " at most. Plan for what the water you have can do: `hold` says how much that is, `Given up` below what \
         it may protect."
    ]
}

/// What is left to do where the building is given up.
fn lost(sheet: &Sheet) -> Sentence {
    let (small, large) = sheet.two_crews_gpm();
    let crews = say![
        "two crews with a small hand line each put on ",
        gpm(small),
        ", with large ones ",
        gpm(large),
        "."
    ];
    match &sheet.exposures_only {
        Some(cover) => {
            say!["to keep the fire from the buildings beside it takes ", gpm(cover.value), ";"]
                .then(crews)
        }
        None => say!["no building near counts as an exposure hazard;"].then(crews),
    }
}

/// Doubts about the flow that counts.
fn doubts(wanted: &WaterWanted, sheet: &Sheet) -> Sentence {
    let mut told = Sentence::default();
    if !wanted.says_what_burns() {
        told = told.then("It takes the whole building as burning: `involved` is not stated.");
    }
    for warning in
        wanted.flow.rows.iter().filter(|row| counts(row, sheet)).flat_map(|row| &row.flow.warnings)
    {
        told = told.then(say![warning, "."]);
    }
    told
}

/// Whether this row is the one that counts.
fn counts(row: &Asked, sheet: &Sheet) -> bool {
    row.rule == sheet.rule && row.taken
}

/// Whether the rule that counts is used beyond the range it is made for.
fn is_beyond_range(wanted: &WaterWanted, sheet: &Sheet) -> bool {
    wanted.flow.rows.iter().any(|row| counts(row, sheet) && row.flow.is_beyond_range)
}

fn lines(sheet: &Sheet) -> Sentence {
    let mut told = say![&sheet.lines.how, "."];
    for warning in &sheet.lines.warnings {
        told = told.then(say!["Careful: ", warning, "."]);
    }
    told
}

fn water(wanted: &WaterWanted, sheet: &Sheet) -> Sentence {
    let wish = if sheet.is_beyond_any_shuttle() || is_beyond_range(wanted, sheet) {
        say![gpm(sheet.flow), " over ", Piece::Duration(wanted.duration), " would be "]
    } else {
        say![
            "plan for ",
            gpm(sheet.flow),
            " over ",
            Piece::Duration(wanted.duration),
            ", which is "
        ]
    };
    say![
        wish,
        volume(sheet.total.value),
        "; the minimum supply, ",
        volume(sheet.supply.value),
        " in all, is the least that NFPA 1142 wants brought.",
    ]
}

/// The rules, one under the other, with what each is made for.
fn rules(wanted: &WaterWanted, sheet: &Sheet) -> Table {
    let mut table = Table::new(vec![
        (say!["rule"], Align::Left),
        (say![Piece::FlowSign], Align::Right),
        (say!["made for"], Align::Left),
    ]);
    for row in &wanted.flow.rows {
        table.row(vec![
            say![row.name(), if counts(row, sheet) { " *" } else { "" }],
            say![bare_flow(row.flow.value)],
            say![&row.limits],
        ]);
    }
    table.feet.push(if is_beyond_range(wanted, sheet) {
        say!["* the rule that counts within its range, which ends short of this; how each is worked out: --more"]
    } else {
        say!["* the rule that counts; how each is worked out: --more"]
    });
    table
}

fn is_written(written: &Written, rule: Rule, is_beyond_any_shuttle: bool) -> Sentence {
    let replaced = &written.replaced;
    let file = written.path.display().to_string();
    let told = say![
        name(&file),
        " is written: ",
        name(&replaced.place),
        " was ",
        gpm(replaced.before),
        " and is now given by the building, ",
        gpm(replaced.after),
        " by ",
        rule.name(),
        ".",
    ];
    let steps = &replaced.scenario.plan.facts().incident.attack_flow;
    let most = steps.iter().fold(0.0_f64, |most, step| most.max(step.flow));
    let other =
        (most > replaced.after).then(|| say!["Another step asks for more: ", gpm(most), "."]);
    let next = ["bucketline", "check", &file].map(str::to_owned).to_vec();
    let beyond = is_beyond_any_shuttle.then(|| {
        say![
            "No shuttle brings that: ask the plan for what can be held or for what protects the buildings beside it",
            crate::say::on_command(" (--flow)"),
            "."
        ]
    });
    told.then(other).then(beyond).then(say!["Next: ", Piece::Command(next)])
}
