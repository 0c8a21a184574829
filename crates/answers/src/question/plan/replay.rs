//! One simulated fire, told minute by minute.

mod figures;
mod story;
mod what;
mod who;

use std::sync::Arc;

use scenario_file::Scenario;
use shuttle_report::chart;
use shuttle_report::typical::typical_run;
use shuttle_sim::{Cause, CauseKind, Luck, Plan, RunResult, Shuttle, Subject, Trace};

use crate::answer::{Answer, Basis, Block, Label, Told};
use crate::picture::{Picture, luck_number};
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::cause_words_of;
use crate::shared::quantities::volume;
use crate::shared::{aid_not_asked, headline, notes_that_matter};

pub use figures::ReplayFigures;

/// Which fire to tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// Every duration at its mean, nothing breaks down.
    Planned,
    /// This fire of a batch.
    Drawn {
        /// Counted from 1.
        run: u64,
        /// Seed of the batch.
        seed: u64,
    },
}

impl Which {
    /// A fire of the batch that lies in its middle: about as many go better as go worse.
    pub fn typical(plan: &Plan, seed: u64) -> Which {
        Which::Drawn { run: typical_run(plan, seed), seed }
    }

    /// Its luck, to run it.
    pub fn luck(self) -> Luck {
        match self {
            Which::Planned => Luck::Planned,
            Which::Drawn { run, seed } => Luck::Drawn { seed, replication: run.saturating_sub(1) },
        }
    }
}

/// One fire and its story.
struct Fire {
    which: Which,
    result: RunResult,
    trace: Trace,
}

/// Tells one fire.
pub fn replay(scenario: &Scenario, which: Which) -> Answer<ReplayFigures> {
    let plan = &scenario.plan;
    let (result, trace) = Shuttle::new(plan).run_traced(which.luck());
    let fire = Fire { which, result, trace };
    let (replications, seed) = match which {
        Which::Planned => (0, 0),
        Which::Drawn { seed, .. } => (1, seed),
    };
    Answer {
        question: "replay",
        title: plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        told: told(scenario, &fire),
        basis: Basis { replications, seed, ended_early: false },
        figures: ReplayFigures::new(plan, &fire),
        pictures: vec![picture(plan, fire)],
    }
}

fn picture(plan: &Plan, fire: Fire) -> Picture {
    let (name, made_from) = match fire.which {
        Which::Planned => ("replay-planned".into(), say!["Every duration at its mean."]),
        Which::Drawn { run, seed } => {
            let told = say![
                "Fire ",
                Piece::Words(run.to_string().into()),
                " of ",
                luck_number(seed),
                "; another fire with the same plan goes otherwise."
            ];
            (format!("replay-run-{run}").into(), told)
        }
    };
    let title = verdict(&fire);
    let shows = say![
        "One fire by the alarm's clock: what each ",
        Piece::Tanker,
        " does, and the levels in the tanks. Bands from top to bottom: the lines are short. Loads: those brought in and \
         given.",
    ];
    let made_of = Arc::new((plan.clone(), fire));
    let draw = move |reader: &crate::Reader, sheet: &chart::Sheet<'_>| {
        let (plan, fire) = &*made_of;
        let (first_water, end) = (fire.result.first_water, fire.result.end);
        chart::timeline::chart(&fire.trace, plan, reader.units, (first_water, end), sheet)
    };
    Picture { name, title, shows, made_from, draw: Box::new(draw) }
}

fn told(scenario: &Scenario, fire: &Fire) -> Told {
    let (plan, result) = (&scenario.plan, &fire.result);
    let mut points = Vec::new();
    if result.interruptions.is_empty() {
        points.push(Block::Point(Label::Why, lowest(result)));
    } else {
        points.push(Block::Point(Label::When, when(result)));
        points.push(Block::Point(Label::Why, why(plan, result)));
        points.push(Block::Point(Label::Water, missing(result)));
    }
    let reserve = reserve(plan, result);
    if result.reserve_touched {
        points.extend(reserve.clone().map(|told| Block::Point(Label::Reserve, told)));
    }
    let aid = aid_not_asked(scenario);
    let most = if aid.is_some() { story::MOST_BESIDE_A_SENTENCE } else { story::MOST };
    points.extend(aid);
    points.push(Block::Gap);
    points.push(Block::Table(story::turning_points(plan, &fire.trace, most)));
    let mut more = vec![Block::Table(story::every_line(plan, &fire.trace)), Block::Gap];
    more.push(Block::Point(Label::Trips, trips(plan, result)));
    more.push(Block::Point(Label::Water, balance(result)));
    if !result.reserve_touched {
        more.extend(reserve.map(|told| Block::Point(Label::Reserve, told)));
    }
    Told {
        headline: headline(plan),
        verdict: verdict(fire),
        points,
        advice: Vec::new(),
        more,
        notes: notes_that_matter(scenario),
        small_print: vec![say![
            "Times count from the alarm; levels are those at that moment. Another fire with the same plan goes \
             otherwise."
        ]],
        ask_next: vec!["risk", "lose"],
    }
}

fn verdict(fire: &Fire) -> Sentence {
    let result = &fire.result;
    let which = match fire.which {
        Which::Planned => say!["With every duration at its mean the lines "],
        // Of which luck it is stands where it is told from what the answer was made.
        Which::Drawn { run, .. } => say!["In fire ", Piece::Number(run as f64, 0), " the lines "],
    };
    let short: f64 = result.minutes_short.iter().sum();
    let minutes = Piece::Minutes(short);
    match result.interruptions.len() {
        0 if short < 0.05 => say![which, "keep their flow throughout."],
        0 => {
            say![which, "keep their flow but for moments too brief to count, ", minutes, " in all."]
        }
        1 => say![which, "run short once, for ", minutes, "."],
        2 => say![which, "run short twice, for ", minutes, " in all."],
        many => say![
            which,
            "run short ",
            Piece::Number(many as f64, 0),
            " times, for ",
            minutes,
            " in all.",
        ],
    }
}

/// "first at minute 27.7 after the alarm, 19.1 minutes after first water and before the supply is
/// established, for 2.1 minutes; again at minute 40.2 for 1.3."
fn when(result: &RunResult) -> Sentence {
    /// Shortfalls beyond the first that are told one by one.
    const TOLD: usize = 3;
    let Some((first, others)) = result.interruptions.split_first() else {
        return Sentence::default();
    };
    let tenth = |minutes| Piece::Number(minutes, 1);
    let mut told = say![
        if others.is_empty() { "at minute " } else { "first at minute " },
        tenth(first.start),
        " after the alarm, ",
        Piece::Minutes(first.start - result.first_water),
        " after first water and ",
        if first.before_supply { "before" } else { "after" },
        " the supply is established",
    ];
    if !others.is_empty() {
        told.push(", for ");
        told.push(Piece::Minutes(first.minutes));
        let each = (others.iter().take(TOLD))
            .map(|one| say!["at minute ", tenth(one.start), " for ", tenth(one.minutes)]);
        told.push("; again ");
        told.push(joined(each, ", ", ", "));
    }
    if others.len() > TOLD {
        told.push(", and ");
        told.push(Piece::Number((others.len() - TOLD) as f64, 0));
        told.push(" times more");
    }
    told.push(".");
    told
}

/// Why they run short, each cause once, in the order they come up.
fn why(plan: &Plan, result: &RunResult) -> Sentence {
    type Why = (Cause, Option<CauseKind>, Option<Subject>);
    let mut causes: Vec<Why> = Vec::new();
    for one in &result.interruptions {
        let why = (one.cause, one.kind, one.about);
        if !causes.contains(&why) {
            causes.push(why);
        }
    }
    let words = |&(cause, kind, about): &Why| cause_words_of(cause, kind, about, plan);
    match causes.as_slice() {
        [only] => say![words(only), "."],
        several => {
            say!["first ", joined(several.iter().map(words), "; later ", "; later "), "."]
        }
    }
}

fn lowest(result: &RunResult) -> Sentence {
    say!["the attack engine's tank never had less than ", volume(result.lowest_engine), "."]
}

fn missing(result: &RunResult) -> Sentence {
    say![
        volume(result.unmet.iter().sum()),
        " of the ",
        volume(result.wanted),
        " wanted did not come.",
    ]
}

fn reserve(plan: &Plan, result: &RunResult) -> Option<Sentence> {
    let kept = plan.facts().incident.reserve;
    (kept > 0.0).then(|| {
        let touched = if result.reserve_touched { "were touched" } else { "were not touched" };
        say![
            "the ",
            volume(kept),
            " for backing out ",
            touched,
            ": the attack engine's tank fell to ",
            volume(result.lowest_engine),
            ".",
        ]
    })
}

fn trips(plan: &Plan, result: &RunResult) -> Sentence {
    let each = (plan.facts().tankers.iter().zip(&result.tankers)).map(|(tanker, record)| {
        say![name(&tanker.name), ": ", Piece::Number(f64::from(record.trips), 0)]
    });
    joined(each, " · ", " · ")
}

/// Where all water that came on scene went.
fn balance(result: &RunResult) -> Sentence {
    let rests = (result.carried_away > 0.0)
        .then(|| say![" + ", volume(result.carried_away), " carried away as rests"]);
    say![
        volume(result.arrived),
        " came on scene = ",
        volume(result.delivered),
        " delivered + ",
        volume(result.spilled),
        " spilled or underfilled + ",
        volume(result.remaining),
        " still there",
        rests,
        "; ",
        volume(result.wanted),
        " were wanted.",
    ]
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;
    use shuttle_sim::Interruption;

    use super::*;

    fn said(interruptions: usize, minutes_short: f64, which: Which) -> String {
        let one = Interruption {
            start: 30.0,
            minutes: 1.0,
            before_supply: false,
            cause: Cause::HaulTooLong,
            kind: None,
            about: None,
        };
        let result = RunResult {
            interruptions: vec![one; interruptions],
            minutes_short: [0.0, minutes_short],
            ..RunResult::default()
        };
        let fire = Fire { which, result, trace: Trace::default() };
        crate::Reader { units: Units::Us, tender: false }.put(&verdict(&fire))
    }

    #[test]
    fn the_outcome_of_one_fire_is_said_in_a_sentence() {
        let drawn = Which::Drawn { run: 12, seed: 1 };
        for (times, minutes, which, expected) in [
            (
                0,
                0.0,
                Which::Planned,
                "With every duration at its mean the lines keep their flow throughout.",
            ),
            (
                0,
                0.2,
                drawn,
                "In fire 12 the lines keep their flow but for moments too brief to count, 0.2 \
                 minutes in all.",
            ),
            (1, 1.0, drawn, "In fire 12 the lines run short once, for 1 minute."),
            (2, 3.4, drawn, "In fire 12 the lines run short twice, for 3.4 minutes in all."),
            (7, 9.0, drawn, "In fire 12 the lines run short 7 times, for 9 minutes in all."),
        ] {
            assert_eq!(said(times, minutes, which), expected);
        }
    }
}
