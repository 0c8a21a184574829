//! What `drill` says.

mod asked;
mod read;
pub(super) mod the_day;
pub(super) mod unlike;
pub(super) mod written;

use drill_log::{Place, Stamp, Step, Wait};
use shuttle_report::levers::LeverRow;
use shuttle_report::options_compared::Verdict;
use shuttle_report::units::whole;

use super::Found;
use super::course::everyone;
use super::tables;
use crate::answer::{Advice, Block, Label, Told};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, list, name};
use crate::shared::changes::input_words;
use crate::shared::doubt::{anywhere, more as more_of_doubt, worth_timing};
use crate::shared::quantities::count;
use crate::shared::{headline, notes_that_matter};
use the_day::{lost, parts, the_day};

/// Up to so many of the eight steps read, the verdict says so: it rests on the scenario more than on the drill.
const FEW_STEPS: usize = 3;
/// Times written this coarsely, minutes, hide the spread of short steps. Judgement.
const WORTH_SECONDS: f64 = 0.2;
/// Steps to train that the answer shows.
const MOST_TRAINED: usize = 3;

/// A step in words.
pub(super) fn step_words(step: Step) -> Sentence {
    say![match step {
        Step::DriveOut => "drive to the fill site",
        Step::FillConnect => "connect",
        Step::Fill => "fill",
        Step::FillDisconnect => "disconnect",
        Step::DriveBack => "drive back",
        Step::DumpPosition => "position at the drop tank",
        Step::Dump => "dump",
        Step::DumpClear => "pull clear",
    }]
}

/// Minutes to a tenth, bare.
pub(super) fn tenth(minutes: f64) -> Sentence {
    say![Piece::Number(minutes, 1)]
}

/// A minute after the alarm as it is said.
pub(super) fn clock_minute(minute: f64) -> f64 {
    minute.round()
}

/// How often the lines run short with the measured times.
pub(super) fn short(found: &Found<'_>) -> Chances {
    Chances::of(found.tally.chance(), found.tally.runs)
}

/// "13:05": seconds after midnight.
fn time_of_day(seconds: f64) -> Piece {
    let minutes = (seconds / 60.0).round() as u64 % 1_440;
    Piece::Words(format!("{}:{:02}", minutes / 60, minutes % 60).into())
}

pub(super) fn told(found: &Found<'_>) -> Told {
    let mut points = Vec::new();
    if let Some(played) = &found.played {
        points.push(Block::Point(Label::Day, the_day(played)));
        points.push(Block::Point(Label::Blank, parts(found, played)));
        points.extend(lost(found, played).map(|told| Block::Point(Label::Lost, told)));
    }
    points.push(Block::Point(Label::Waiting, waiting(found)));
    points.extend(broken(found).map(|told| Block::Point(Label::Breakdown, told)));
    points.extend(rounding(found).map(|told| Block::Point(Label::Careful, told)));
    let asked = asked::all(found);
    points.extend(asked::short(&asked).map(|told| Block::Point(Label::Asked, told)));
    let guesses = read::all(found);
    if !guesses.is_empty() {
        let told = joined(guesses, "; ", "; ");
        points.push(Block::Point(Label::Read, say![told, "."]));
    }
    points.extend(unlike::all(found).map(|told| Block::Point(Label::Careful, told)));
    points.push(Block::Point(Label::Written, written::written(found)));
    points.push(Block::Gap);
    points.push(Block::Table(tables::steps(found)));
    points.push(Block::Gap);
    let mut more = Vec::new();
    if let Some(doubt) = &found.in_doubt {
        points.extend(worth_timing(doubt));
        more.extend(more_of_doubt(doubt));
    }
    for one in asked {
        more.push(Block::Point(Label::Asked, one));
    }
    more.extend([
        Block::Gap,
        Block::Table(tables::by_tanker(found)),
        Block::Gap,
        Block::Table(tables::values(found)),
        Block::Gap,
        Block::Table(tables::training(found)),
    ]);
    let mut told_notes = notes_that_matter(found.planned);
    told_notes.extend(written::not_put(found));
    Told {
        headline: headline(&found.planned.plan),
        verdict: verdict(found),
        points,
        advice: advice(found),
        more,
        notes: told_notes,
        small_print: small_print(found),
        ask_next: vec!["risk", "levers", "size"],
    }
}

/// "With the times of this drill the plan holds in 60 fires of 100; train connecting at the fill site first. It runs
/// short in 40 of 100. With these timings, anywhere from 20 to 65."
fn verdict(found: &Found<'_>) -> Sentence {
    let short = short(found);
    if short.fires == 0 {
        return say!["The times are read; no fire was simulated."];
    }
    let holds = Chances::of(1.0 - short.share, short.fires);
    let better = |verdict: Verdict| {
        let is_so = |row: &&LeverRow| row.better.as_ref().is_some_and(|one| one.verdict == verdict);
        found.training.worth.rows.iter().find(is_so).map(|row| input_words(&row.input))
    };
    let then = match (better(Verdict::LowerChance), better(Verdict::FewerMinutes)) {
        (Some(step), _) => say!["; train ", step, " first."],
        (None, Some(step)) => say!["; training ", step, " only shortens how long."],
        (None, None) if short.is_never() => say!["."],
        (None, None) => say!["; no step that a crew can train clearly helps."],
    };
    let times = match steps_read(found) {
        read if read <= FEW_STEPS => say![
            "With the times of this drill (only ",
            Piece::Count(read),
            " of ",
            Piece::Count(Step::ALL.len()),
            " steps could be read; the others are as the scenario has them) the plan holds in "
        ],
        _ => say!["With the times of this drill the plan holds in "],
    };
    let told = say![times, Piece::Fires(holds), then];
    let told = if short.is_never() {
        told
    } else {
        told.then(say!["It runs short in ", Piece::OfHundred(short, 0), " of 100."])
    };
    match &found.in_doubt {
        Some(doubt) => told.then(anywhere(doubt)),
        None => told,
    }
}

/// Steps of which there is any reading.
pub(super) fn steps_read(found: &Found<'_>) -> usize {
    Step::ALL.into_iter().filter(|step| !found.timed.of(*step, None, None).is_empty()).count()
}

/// "34 minutes in line at Quarry pond (12 times); counted as no work."
fn waiting(found: &Found<'_>) -> Sentence {
    let waits = &found.timed.measured.waits;
    let facts = everyone(found.scenario);
    let places = waited_at(waits);
    let comes = [Stamp::ArrivedAtFill, Stamp::ArrivedAtScene];
    let is_told =
        |stamp: Stamp| found.timed.log.trips.iter().any(|trip| trip.time(stamp).is_some());
    if places.is_empty() && !comes.into_iter().all(is_told) {
        return say!["the log does not say when they arrived: waiting cannot be told from work."];
    }
    if places.is_empty() {
        return say![
            "none that the log shows: no place was held by another when a ",
            Piece::Tanker,
            " came."
        ];
    }
    let each = places.into_iter().map(|(place, times, minutes)| {
        let at = match place {
            Place::Fill(site) => say![" for a position at ", name(&facts.fill_sites[site].name)],
            Place::Water(site) => {
                say![" connected at ", name(&facts.fill_sites[site].name), " while another filled"]
            }
            Place::Dump => say![" for a dump position"],
        };
        say![Piece::Minutes(minutes.round()), at, " (", count(times as u64), " times)"]
    });
    say![list(each), ". It is counted apart and not as handling."]
}

/// Where there was waiting, how often, and how many minutes in all.
pub(super) fn waited_at(waits: &[Wait]) -> Vec<(Place, usize, f64)> {
    let mut places: Vec<Place> = waits.iter().map(|wait| wait.place).collect();
    places.sort_unstable();
    places.dedup();
    (places.into_iter())
        .map(|place| {
            let own = || waits.iter().filter(|wait| wait.place == place);
            (place, own().count(), own().map(|wait| wait.minutes).sum())
        })
        .collect()
}

/// Breakdowns, and how often that is.
fn broken(found: &Found<'_>) -> Option<Sentence> {
    let breakdowns = &found.timed.measured.breakdowns;
    let facts = everyone(found.scenario);
    if breakdowns.is_empty() {
        return None;
    }
    let each = breakdowns.iter().map(|one| {
        let cost = match one.cost {
            Some((step, minutes)) => {
                say![
                    ", ",
                    Piece::Minutes(minutes),
                    " beyond the usual on the step: ",
                    step_words(step)
                ]
            }
            None => say![", no step of it longer than usual"],
        };
        say![name(&facts.tankers[one.tanker].name), " in row ", count(one.row as u64), cost]
    });
    let trips = found.timed.log.trips.len();
    let share = breakdowns.len() as f64 / trips.max(1) as f64;
    Some(say![
        list(each),
        ". It is out of the step's times. ",
        count(breakdowns.len() as u64),
        " in ",
        count(trips as u64),
        " trips, which says little of how often: it is not written into the scenario. To count on it give the ",
        Piece::Tankers,
        " \"breakdown_per_trip\": ",
        Piece::Number(share, 3),
        " and a \"repair\" of so many minutes.",
    ])
}

/// What writing times to the minute does.
fn rounding(found: &Found<'_>) -> Option<Sentence> {
    let log = &found.timed.log;
    if log.grain < WORTH_SECONDS {
        return None;
    }
    let to = if log.grain >= 0.999 {
        say!["the whole minute"]
    } else {
        say![Piece::Number(60.0 * log.grain, 0), " seconds"]
    };
    Some(say![
        "times are written to ",
        to,
        ", so the difference of two is off by some ",
        Piece::Number(log.reading_error(), 1),
        " min. Short steps are known by their mean only. Write seconds next time.",
    ])
}

fn rows(rows: &[usize]) -> String {
    rows.iter().map(|row| whole(*row as f64)).collect::<Vec<_>>().join(", ")
}

/// What to train, best first.
fn advice(found: &Found<'_>) -> Vec<Advice> {
    (found.training.worth.rows.iter().zip(&found.training.read))
        .filter_map(|(row, read)| Some((row, row.better.as_ref()?, read)))
        .filter(|(_, better, _)| better.verdict == Verdict::LowerChance)
        .take(MOST_TRAINED)
        .map(|(row, better, read)| {
            let by = crate::shared::changes::quantity_words(row.amount);
            let now = match read {
                Some(of) => say![
                    " (now ",
                    Piece::Number(of.mean, 1),
                    ", ",
                    count(of.readings as u64),
                    " readings)"
                ],
                None => {
                    say![" (now ", crate::shared::changes::quantity_words(row.now), ", not timed)"]
                }
            };
            Advice {
                what: say![input_words(&row.input), ", ", by, " less", now],
                before: short(found),
                after: Chances::of(better.interruption_probability, better.replications),
                higher_by: better.higher_by,
                cost: None,
            }
        })
        .collect()
}

fn small_print(found: &Found<'_>) -> Vec<Sentence> {
    let mut told = Vec::new();
    if let Some(played) = &found.played {
        let day = &played.day;
        let clock = day.alarm_clock.map(|clock| say![" is ", time_of_day(clock), ","]);
        told.push(if day.alarm_is_stated {
            say!["Minute 0", clock, " the alarm as stated."]
        } else {
            say![
                "Minute 0",
                clock,
                " worked out: the scenario has whoever was first at the scene there so long after the alarm. \
                 Give --alarm for another.",
            ]
        });
    }
    told.push(say![
        "A place is held from when it could be taken until its ",
        Piece::Tanker,
        " leaves; whoever found all places held waited, and its work begins when one was free. Readings that stand \
         out are counted unless --leave-out names their rows. Dumps into a full drop tank follow what is drawn, and \
         a log cannot show it.",
    ]);
    told.push(say![
        "The day parts from the model where it lies further out than 19 of 20 runs do at any minute. Each \
         assumption was tried on the same luck."
    ]);
    told
}
