//! Is the scenario sound, and what does a hand calculation say.

mod figures;
mod more;

use scenario_file::Scenario;
use shuttle_report::worksheet::{Station, Worksheet, worksheet};
use shuttle_sim::{Luck, Plan, RunResult, Shuttle};

use crate::answer::{Answer, Basis, Block, Label, Told};
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::cause_words_of;
use crate::shared::hose::{self, HoseInstead};
use crate::shared::people::{self, PeopleFigures};
use crate::shared::quantities::{flow, volume};
use crate::shared::station::{keeps_up_with, station_words};
use crate::shared::{every_note, headline, pumps_not_asked};

pub use figures::{CheckFigures, FlowStepFigures, PartByHand, TankerByHand, WorksheetFigures};

/// A source that holds less than this many times what is wanted is told at once. Judgement.
const AMPLE: f64 = 2.0;

/// What was worked out by hand, to be told and to be given as figures.
struct ByHand {
    sheet: Worksheet,
    /// One fire with every duration at its mean.
    planned: RunResult,
    people: PeopleFigures,
    hose: Vec<HoseInstead>,
}

/// Works the plan out by hand.
pub fn check(scenario: &Scenario) -> Answer<CheckFigures> {
    let sheet = worksheet(&scenario.plan);
    let planned = Shuttle::new(&scenario.plan).run(Luck::Planned).clone();
    let by_hand = ByHand {
        people: people::needed(scenario),
        hose: hose::of_scenario(scenario, sheet.peak_flow_gpm, planned.established),
        sheet,
        planned,
    };
    Answer {
        question: "check",
        title: scenario.plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        told: told(scenario, &by_hand),
        basis: Basis { replications: 0, seed: 0, ended_early: false },
        figures: CheckFigures::new(scenario, &by_hand),
        pictures: Vec::new(),
    }
}

fn told(scenario: &Scenario, by_hand: &ByHand) -> Told {
    let sheet = &by_hand.sheet;
    let mut points = vec![Block::Point(Label::Start, start(&by_hand.planned, &scenario.plan))];
    points.extend(tightest(sheet).map(|told| Block::Point(Label::AtMost, told)));
    points.push(Block::Point(Label::Water, water(scenario, sheet)));
    points.extend(
        sources(scenario, sheet, |times| times < AMPLE)
            .into_iter()
            .map(|told| Block::Point(Label::Careful, told)),
    );
    let missed = pumps_not_asked(scenario);
    points.extend((!missed.is_empty()).then_some(Block::Point(Label::Aid, missed)));
    points.push(Block::Point(Label::People, people::in_short(&by_hand.people)));
    for (place, one) in by_hand.hose.iter().enumerate() {
        let label = if place == 0 { Label::Hose } else { Label::Blank };
        points.push(Block::Point(label, hose::in_short(one)));
    }
    points.push(Block::Gap);
    points.push(Block::Table(more::cycles(sheet)));
    Told {
        headline: headline(&scenario.plan),
        verdict: verdict(sheet, &by_hand.planned),
        points,
        advice: Vec::new(),
        more: more::more(scenario, by_hand),
        notes: all_notes(scenario),
        small_print: vec![say![
            "By hand: mean times, nobody waits, nothing breaks down. It says what the plan can make at best; \
             ",
            Piece::ByMedium { command: "`bucketline risk`", page: "the answer to the plan" },
            " says how often the lines run short all the same."
        ]],
        ask_next: vec!["risk", "size", "replay"],
    }
}

/// "The file is in order. By hand two tankers make 331 gpm, and 285 gpm are wanted: 16% to spare."
///
/// - Given: `planned`, one fire with every duration at its mean: a mean flow says nothing of the first minutes.
fn verdict(sheet: &Worksheet, planned: &RunResult) -> Sentence {
    let (makes, wants) = (sheet.hand_gpm, sheet.peak_flow_gpm);
    let (best, capped) = sheet.counts();
    let by_hand = say![
        "The file is in order. By hand ",
        Piece::TankerCount(sheet.tankers.len()),
        if sheet.tankers.len() == 1 { " makes " } else { " make " },
        flow(makes),
    ];
    let and = match capped {
        Some(station) => say![
            ", but ",
            station_words(&station),
            if station == Station::FillSites || station == Station::Intakes {
                " pass no more than "
            } else {
                " passes no more than "
            },
            flow(best),
        ],
        None => Sentence::default(),
    };
    let margin = 100.0 * (best / wants - 1.0);
    let spare = if margin < 0.0 {
        say![
            " of the ",
            flow(wants),
            " wanted: the lines run short once the water on wheels is gone.",
        ]
    } else {
        let spare = if margin < 0.5 {
            say!["nothing to spare"]
        } else {
            say![Piece::Number(margin, 0), "% to spare"]
        };
        let yet = planned.interruptions.first().map(|first| {
            say![
                ", and yet the lines run short from minute ",
                Piece::Number(first.start, 1),
                " with every duration at its mean"
            ]
        });
        say![" for the ", flow(wants), " wanted: ", spare, yet.unwrap_or_default(), "."]
    };
    say![by_hand, and, spare]
}

/// How the first minutes go with every duration at its mean.
fn start(planned: &RunResult, plan: &Plan) -> Sentence {
    let tenth = |minutes| Piece::Number(minutes, 1);
    let supply = match planned.established {
        Some(established) => say!["supply established at ", Piece::Clock(established)],
        None => say!["the supply is never established"],
    };
    let short = match planned.interruptions.first() {
        None => say!["the lines keep their flow"],
        Some(first) => say![
            "the lines first run short at minute ",
            tenth(first.start),
            ", ",
            tenth(planned.minutes_short.iter().sum()),
            " minutes in all, because ",
            cause_words_of(first.cause, first.kind, first.about, plan),
        ],
    };
    say![
        "on means, first water at ",
        Piece::Clock(planned.first_water),
        " after the alarm",
        steps(planned, plan),
        ", ",
        supply,
        "; ",
        short,
        ".",
    ]
}

/// " (150 gpm, 600 gpm from minute 19.5)": what the lines are to have by the alarm's clock; nothing for one flow throughout.
fn steps(planned: &RunResult, plan: &Plan) -> Sentence {
    /// More are read in the file.
    const MOST: usize = 4;
    let all = &plan.facts().incident.attack_flow;
    if !(2..=MOST).contains(&all.len()) {
        return Sentence::default();
    }
    let told = all.iter().map(|step| {
        if step.from <= 0.0 {
            say![flow(step.flow)]
        } else {
            say![flow(step.flow), " from ", Piece::Clock(planned.first_water + step.from)]
        }
    });
    say![" (", joined(told, ", ", ", "), ")"]
}

/// "541 gpm through Quarry pond, the tightest place, which keeps up with three tankers like these; ..."
fn tightest(sheet: &Worksheet) -> Option<Sentence> {
    let (station, gpm) = sheet.tightest_station.as_ref()?;
    let through = say![flow(*gpm), " through ", station_words(station), ", the tightest place"];
    Some(match sheet.knee {
        Some(knee) => say![through, ": it ", keeps_up_with(knee), "."],
        None => say![through, "."],
    })
}

/// How long the water on hand lasts.
fn water(scenario: &Scenario, sheet: &Worksheet) -> Sentence {
    let facts = scenario.plan.facts();
    let last = |minutes| Piece::Number(minutes, 1);
    let mut told = say![
        volume(sheet.on_wheels_gal),
        " on wheels last ",
        last(sheet.on_wheels_min),
        " minutes at ",
        flow(sheet.peak_flow_gpm),
        ", the attack engine's ",
        volume(facts.attack_engine.tank),
        " ",
        last(sheet.engine_tank_min),
    ];
    if facts.incident.reserve > 0.0 {
        let of_that = facts.incident.reserve / sheet.peak_flow_gpm;
        told = say![told, ", ", last(of_that), " of it the reserve"];
    }
    if sheet.drop_tanks_min > 0.0 {
        told.push(", full drop tanks ");
        told.push(last(sheet.drop_tanks_min));
    }
    say![told, "; ", volume(sheet.wanted_gal), " are wanted in all."]
}

/// Sources that hold a stated volume, where the times it covers what is wanted are such.
fn sources(scenario: &Scenario, sheet: &Worksheet, is_told: impl Fn(f64) -> bool) -> Vec<Sentence> {
    let facts = scenario.plan.facts();
    (facts.fill_sites.iter())
        .filter_map(|site| {
            let holds = site.volume?;
            let times = (holds + site.recharge * facts.incident.duration) / sheet.wanted_gal;
            is_told(times).then(|| {
                say![
                    name(&site.name),
                    " holds ",
                    volume(holds),
                    ": ",
                    Piece::Number(times, usize::from(times < 10.0)),
                    " times what is wanted.",
                ]
            })
        })
        .collect()
}

/// What is odd with the scenario as it stands, then what is odd with an option and not without it.
fn all_notes(scenario: &Scenario) -> Vec<Sentence> {
    let of_options = scenario.options.iter().flat_map(|option| &option.warnings);
    every_note(scenario).into_iter().chain(of_options.map(crate::shared::note)).collect()
}
