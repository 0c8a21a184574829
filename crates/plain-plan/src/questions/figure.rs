//! What is asked of each thing in the plan, in order, and the words that call for one of it alone.

use scenario_file::Units;

use super::summary::names_of;
use crate::alarms::{greater_alarms, yes_or_no};
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Tanker, alike, is_how_often, pump_bringer};
use crate::sentences::{Topic, topics};

/// Something that one question asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Figure {
    Name,
    Department,
    Water,
    Minutes,
    ComesWhole,
    Often,
    Empties,
    Alarm,
    CalledAt,
    Reserve,
    Flow,
    Start,
    Duration,
    Positions,
    Pump,
    Ready,
    PumpOften,
    Road,
    Speed,
    Gravel,
    Holds,
}

/// What a figure is called by, the word that we use first. A word may call for one thing of a tanker and for another of a
/// source: each topic has its own figures.
const WORDS: [(Figure, &[&str]); 21] = [
    (Figure::Name, &["name"]),
    (Figure::Department, &["department", "dept"]),
    (
        Figure::Water,
        &["water", "carries", "tank", "load", "gal", "gallons", "l", "litres", "liters"],
    ),
    (Figure::Minutes, &["minutes", "minute", "min", "there", "arrives"]),
    (Figure::ComesWhole, &["whole", "together"]),
    (Figure::Often, &["often", "comes"]),
    (Figure::Empties, &["dump", "dumps", "empties"]),
    (Figure::Alarm, &["alarm"]),
    (Figure::CalledAt, &["called", "call", "earliest"]),
    (Figure::Reserve, &["reserve", "kept", "keeps"]),
    (Figure::Flow, &["flow", "gpm", "l/min", "gives"]),
    (Figure::Start, &["start", "starts", "first", "begin", "begins", "beginning"]),
    (Figure::Duration, &["duration", "hours", "hour", "h", "minutes", "min"]),
    (Figure::Positions, &["places", "place", "tankers"]),
    (Figure::Pump, &["pump", "pumps", "pumped"]),
    (Figure::Ready, &["ready", "minute", "minutes", "min"]),
    (Figure::PumpOften, &["often", "comes"]),
    (Figure::Road, &["road", "miles", "mile", "mi", "km", "far"]),
    (Figure::Speed, &["speed", "mph", "km/h"]),
    (Figure::Gravel, &["gravel", "track"]),
    (Figure::Holds, &["holds", "gal", "gallons", "l", "litres", "liters"]),
];

/// Those of the words that are units: they stay with the number before them.
const UNITS: [&str; 18] = [
    "gal", "gallons", "l", "litres", "liters", "minutes", "minute", "min", "gpm", "l/min", "hours",
    "hour", "h", "mi", "miles", "km", "mph", "km/h",
];

/// Words between a figure and its value.
const BETWEEN: [&str; 11] =
    ["is", "are", "=", ":", "to", "at", "in", "with", "of", "from", "minute"];

/// Below this no tanker's water is meant by a number alone, gal or L: they carry 1,000 gal or more (common practice).
const NO_LOAD: f64 = 200.0;

impl Figure {
    fn words(self) -> &'static [&'static str] {
        WORDS.iter().find(|(figure, _)| *figure == self).map_or(&[], |(_, words)| words)
    }
}

/// All that is asked of a topic behind its name, in order, each with whether it is asked of most plans.
///
/// What is not there, as the engine at a source where nobody pumps, is not asked.
pub(super) fn figures(plan: &FirstPlan, topic: Topic) -> Vec<(Figure, bool)> {
    let (usual, more) = (true, false);
    match topic {
        Topic::Fire => {
            vec![(Figure::Flow, usual), (Figure::Start, more), (Figure::Duration, usual)]
        }
        Topic::AttackEngine => {
            vec![(Figure::Water, usual), (Figure::Minutes, usual), (Figure::Reserve, usual)]
        }
        Topic::SupplyEngine if plan.supply_engine.is_none() => Vec::new(),
        Topic::SupplyEngine => vec![(Figure::Minutes, usual)],
        Topic::Own(place) => {
            let tanker = &plan.own[place];
            let mut all = vec![
                (Figure::Department, more),
                (Figure::Water, usual),
                (Figure::Minutes, usual),
                (Figure::ComesWhole, more),
                (Figure::Often, more),
                (Figure::Empties, more),
            ];
            // Nobody is asked whose his own is; of others are those of a request that was made a plan.
            all.retain(|(figure, _)| match figure {
                Figure::Department => tanker.of_others,
                Figure::ComesWhole => tanker.of_others && tanker.department.is_some(),
                _ => true,
            });
            all
        }
        Topic::Aid(place) => {
            let mut all = vec![
                (Figure::Department, usual),
                (Figure::Water, usual),
                (Figure::Minutes, usual),
                (Figure::ComesWhole, more),
                (Figure::Often, more),
                (Figure::Empties, more),
                (Figure::Alarm, more),
                (Figure::CalledAt, more),
            ];
            let tanker = &plan.aid[place];
            all.retain(|(figure, _)| match figure {
                Figure::ComesWhole => tanker.department.is_some(),
                // The first alarm is the alarm itself; the minute of another is asked of the first on it.
                Figure::CalledAt => tanker.alarm.is_none_or(|alarm| {
                    let alarms = greater_alarms(&plan.aid);
                    alarms.iter().any(|(one, first, _)| *one == alarm && *first == place)
                }),
                _ => true,
            });
            all
        }
        Topic::Source(place) => {
            let source = &plan.sources[place];
            let has_engine = source.pumped_by.is_some() && pump_bringer(plan, source).is_none();
            let mut all = vec![
                (Figure::Flow, usual),
                (Figure::Positions, more),
                (Figure::Pump, usual),
                (Figure::Ready, usual),
                (Figure::PumpOften, more),
                (Figure::Road, usual),
                (Figure::Speed, usual),
                (Figure::Gravel, more),
                (Figure::Holds, more),
            ];
            all.retain(|(figure, _)| has_engine || *figure != Figure::PumpOften);
            all
        }
        Topic::DropTank(_) => vec![(Figure::Holds, usual)],
    }
}

/// What is to be mended, as it was typed: all of a topic, or a figure of it, perhaps with its value.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mend {
    pub(super) topic: Topic,
    pub(super) figure: Option<Figure>,
    pub(super) value: Option<String>,
}

/// Reads `8`, `Tanker 5`, `8 minutes`, `Tanker 5 minutes 23`, `8 23 min`, `Tanker 5 23`.
///
/// - Errors: `None` where no topic is named; else of the topic that is, what can be mended.
pub(super) fn mend_of(plan: &FirstPlan, typed: &str) -> Result<Mend, Option<String>> {
    let words: Vec<&str> = typed.split_whitespace().collect();
    let topics = topics(plan);
    // The longest beginning that is a name: "Tanker 1" is not meant by "Tanker 12 minutes 5".
    let named = (1..=words.len()).rev().find_map(|count| {
        let name = words[..count].join(" ");
        let name = name.trim_end_matches(':');
        let is_it = |topic: &&Topic| names_of(plan, **topic).iter().any(|one| alike(one, name));
        topics.iter().find(is_it).map(|topic| (*topic, count))
    });
    let counted = || {
        let number = words.first()?.trim_end_matches([':', '.']).parse::<usize>().ok()?;
        Some((*topics.get(number.checked_sub(1)?)?, 1))
    };
    // "flow 350", "reserve 200": of one thing alone, which need not be named.
    let unnamed = || {
        let first = words.first()?.to_lowercase();
        let alone = [
            (Topic::Fire, Figure::Flow),
            (Topic::Fire, Figure::Start),
            (Topic::Fire, Figure::Duration),
            (Topic::AttackEngine, Figure::Reserve),
        ];
        let meant = |(_, figure): &(Topic, Figure)| figure.words().first() == Some(&first.as_str());
        alone.into_iter().find(meant).map(|(topic, _)| (topic, 0))
    };
    // "Elk Prairie comes whole": a department is called where all of it is meant.
    let of_department = || {
        let is_whole =
            |word: &&str| Figure::ComesWhole.words().contains(&word.to_lowercase().as_str());
        words.iter().find(|word| is_whole(word))?;
        (1..words.len()).rev().find_map(|count| {
            let name = words[..count].join(" ");
            let is_of_it = |tanker: &Tanker| {
                tanker.department.as_ref().is_some_and(|department| alike(department, &name))
            };
            let of_others = |tanker: &Tanker| tanker.of_others && is_of_it(tanker);
            let own = plan.own.iter().position(of_others).map(Topic::Own);
            let aid = plan.aid.iter().position(is_of_it).map(Topic::Aid);
            Some((own.or(aid)?, count))
        })
    };
    // A unit may be called by a number alone, and is then meant by it.
    let (topic, count) =
        named.or_else(counted).or_else(unnamed).or_else(of_department).ok_or(None)?;
    let (typed_name, rest) = (words[..count].join(" "), &words[count..]);
    if rest.is_empty() {
        return Ok(Mend { topic, figure: None, value: None });
    }
    let known: Vec<Figure> = [Figure::Name]
        .into_iter()
        .chain(figures(plan, topic).into_iter().map(|(figure, _)| figure))
        .collect();
    // "comes whole" is no word of how often.
    let says_whole =
        |word: &&str| Figure::ComesWhole.words().contains(&word.to_lowercase().as_str());
    if known.contains(&Figure::ComesWhole) && rest.iter().any(says_whole) {
        let answer = rest.iter().find(|word| yes_or_no(word).is_some()).copied();
        let value = Some(answer.unwrap_or("yes").to_owned());
        return Ok(Mend { topic, figure: Some(Figure::ComesWhole), value });
    }
    let called_by = |word: &str| {
        let word = word.to_lowercase();
        known.iter().copied().find(|figure| figure.words().contains(&word.as_str()))
    };
    let found = (0..rest.len()).find_map(|at| Some((at, called_by(rest[at])?)));
    let Some((at, figure)) = found else {
        // "Fox 2 3 in 4".
        let is_tanker = matches!(topic, Topic::Own(_) | Topic::Aid(_));
        if is_tanker && is_how_often(&rest.join(" ")) {
            return Ok(Mend { topic, figure: Some(Figure::Often), value: Some(rest.join(" ")) });
        }
        if let Some(mend) = minutes_or_water(plan, topic, &typed_name, &rest.join(" ")) {
            return mend.map_err(Some);
        }
        let words: Vec<&str> =
            known.iter().filter_map(|figure| figure.words().first().copied()).collect();
        return Err(Some(format!(
            "what can be mended there: {}; write `{} {}`, or that and its value",
            words.join(", "),
            typed_name,
            words.get(1).or(words.first()).copied().unwrap_or_default(),
        )));
    };
    let is_unit = UNITS.contains(&rest[at].to_lowercase().as_str());
    let behind = &rest[at + 1..];
    let value: Vec<&str> = match at {
        0 => behind.to_vec(),
        // "second alarm", "second alarm at 15".
        _ if is_unit || figure == Figure::Alarm => rest.to_vec(),
        // "can be called from minute 12", "2 places".
        _ if behind.iter().any(|word| word.contains(|c: char| c.is_ascii_digit())) => {
            behind.to_vec()
        }
        _ => rest[..at].to_vec(),
    };
    // What is called "of the mill" keeps its words.
    let is_name = matches!(figure, Figure::Name | Figure::Department | Figure::Pump);
    let is_between =
        |word: &&str| !is_name && BETWEEN.contains(word) || figure == Figure::Pump && *word == "by";
    let value: Vec<&str> = value.into_iter().skip_while(is_between).collect();
    Ok(Mend {
        topic,
        figure: Some(figure),
        value: Some(value.join(" ")).filter(|value| !value.is_empty()),
    })
}

/// "Tanker 9 15": a number alone behind a tanker's name.
///
/// - Returns: `None` where it is none.
/// - Errors: it may be its minutes or its water.
fn minutes_or_water(
    plan: &FirstPlan,
    topic: Topic,
    name: &str,
    typed: &str,
) -> Option<Result<Mend, String>> {
    let number = Amount::typed(typed).ok()?.json().as_f64().filter(|number| *number > 0.0)?;
    if !matches!(topic, Topic::Own(_) | Topic::Aid(_)) {
        return None;
    }
    if number < NO_LOAD {
        let (figure, value) = (Some(Figure::Minutes), Some(typed.to_owned()));
        return Some(Ok(Mend { topic, figure, value }));
    }
    let unit = if plan.units == Units::Us { "gal" } else { "L" };
    Some(Err(format!(
        "{typed} can be its minutes or its water; write `{name} minutes {typed}` or `{name} {typed} {unit}`"
    )))
}
