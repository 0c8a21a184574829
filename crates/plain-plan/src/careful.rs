//! What is allowed in a first plan and likely a slip: told with what may be meant, and taken all the same.

use scenario_file::{Measure, Units, Warning, bare_number};

use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Tanker, names};
use crate::part::{OfSource, OfUnit, Part};
use crate::scenario_text::{all_wrong_parts, checked};

/// Something to look at once more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Careful {
    /// What it is about; `None`: the whole.
    pub part: Option<Part>,
    /// What to know, and what may be meant.
    pub told: String,
    /// Whether it is a value that nobody means, and not only something to know.
    pub is_slip: bool,
}

/// What to be careful of in a sound plan, in the order of its scenario.
pub(crate) fn careful(plan: &FirstPlan, warnings: &[Warning]) -> Vec<Careful> {
    let mut all: Vec<Careful> = Vec::new();
    for warning in warnings {
        let part = Part::of_remark(plan, &warning.place);
        let told = match (part, said_of_dump(plan, part)) {
            // The file has a rate, and nobody typed one.
            (_, Some(minutes)) if warning.is_doubt() => minutes,
            _ => warning.text.in_file(),
        };
        let slip = part.filter(|_| warning.is_doubt()).and_then(|part| likely_slip(plan, part));
        let told = slip.map_or(told.clone(), |slip| format!("{told} (or is {slip} meant?)"));
        let found = Careful { part, told, is_slip: warning.is_doubt() };
        // The way out and the way back are one answer.
        if all.iter().all(|one| one.part != found.part || !same_road(one, &found)) {
            all.push(found);
        }
    }
    let sources = plan.sources.iter().map(|source| source.name.clone());
    let numbers = names(plan).into_iter().chain(sources).filter(|name| is_a_number(name));
    all.extend(numbers.map(|name| Careful {
        part: None,
        told: format!(
            "{name} is a name that is a number alone: what it is called, or a figure meant for another question?"
        ),
        is_slip: false,
    }));
    all.extend(late_own(plan));
    all
}

/// Own tankers usually come within so many minutes of the alarm. Common practice.
const OWN_COME_WITHIN: f64 = 30.0;

/// The own tanker that alone comes later than own ones do, and later than all that could be asked for: a slip, or kept far
/// away. Where several do the county is so; where nobody is listed to be asked for there is nothing to hold it against.
fn late_own(plan: &FirstPlan) -> Option<Careful> {
    let minutes = |amount: &Amount| bare_number(&amount.json(), Measure::Time, plan.units);
    let there = |tanker: &Tanker| {
        Some(tanker.called_at.as_ref().map_or(Some(0.0), minutes)? + minutes(&tanker.minutes)?)
    };
    let of_aid: Option<Vec<f64>> = plan.aid.iter().map(there).collect();
    let last = of_aid?.into_iter().max_by(f64::total_cmp)?;
    let is_late = |one: &&Tanker| there(one).is_some_and(|at| at > last.max(OWN_COME_WITHIN));
    let late: Vec<&Tanker> = plan.own.iter().filter(|one| !one.of_others).filter(is_late).collect();
    let [one] = late[..] else { return None };
    Some(Careful {
        // What is said of the aid may still change it.
        part: None,
        told: format!(
            "{} is your own and there {} after the alarm, later than all that you could ask for (the last of them after {}); \
             own ones usually come within {OWN_COME_WITHIN} min (common practice)",
            one.name,
            one.minutes.told_in("min"),
            Amount::plain(last).told_in("min"),
        ),
        is_slip: false,
    })
}

fn is_a_number(name: &str) -> bool {
    name.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
}

/// Whether two are about one road, there and back.
fn same_road(one: &Careful, other: &Careful) -> bool {
    let is_road = |part| matches!(part, Some(Part::Source(_, of)) if of >= OfSource::Road && of <= OfSource::GravelSpeed);
    one == other || (is_road(one.part) && one.part == other.part)
}

/// The minutes that a tanker takes to dump, where the rate they make is in doubt.
fn said_of_dump(plan: &FirstPlan, part: Option<Part>) -> Option<String> {
    let tanker = match part? {
        Part::Own(place, OfUnit::Empties) => &plan.own[place],
        Part::Aid(place, OfUnit::Empties) => &plan.aid[place],
        _ => return None,
    };
    let Tanker { water, empties_in, .. } = tanker;
    let minutes = empties_in.as_ref()?;
    let (volume, rate) = match plan.units {
        Units::Us => ("gal", "gpm"),
        Units::Metric => ("L", "L/min"),
    };
    Some(format!(
        "{} to dump {} is {}, which no tanker takes (common practice: 1 to 10 min a load)",
        minutes.told_in("min"),
        water.told_in(volume),
        water.in_minutes(minutes).told_in(rate),
    ))
}

/// The number of a part read otherwise, if the plan is sound and plausible with it: with a comma for a decimal point or
/// the other way round, and a time in seconds.
pub(crate) fn likely_slip(plan: &FirstPlan, part: Part) -> Option<String> {
    let mut tried = plan.clone();
    let typed = part.amount(&mut tried)?.clone();
    let thousandth = typed.times(0.001);
    let is_short = thousandth.as_ref().is_some_and(|one| one.is_at_least(1.0));
    let readings = [
        // "1,500" was read as fifteen hundred, "1.500" as one and a half.
        thousandth.filter(|_| is_short),
        typed.times(1000.0).filter(|_| !is_short),
        part.is_a_time().then(|| typed.bare_in("s")).flatten(),
    ];
    readings.into_iter().flatten().find_map(|reading| {
        *part.amount(&mut tried)? = reading.clone();
        is_plausible(&tried, part).then(|| reading.told())
    })
}

/// Whether nothing is wrong and nothing odd at a part.
fn is_plausible(plan: &FirstPlan, part: Part) -> bool {
    match checked(plan) {
        Ok((_, warnings)) => warnings
            .iter()
            .all(|one| !one.is_doubt() || Part::of_remark(plan, &one.place) != Some(part)),
        // Something else may be wrong besides.
        Err(_) => all_wrong_parts(plan).iter().all(|one| one.part != Some(part)),
    }
}

impl Part {
    /// The part that a remark is about: as of what is wrong; of a road as a whole its speed.
    fn of_remark(plan: &FirstPlan, place: &str) -> Option<Part> {
        let speed =
            || ["mph", "kmh"].iter().find_map(|key| Part::at(plan, &format!("{place}.{key}")));
        Part::at(plan, place).or_else(speed)
    }

    fn is_a_time(self) -> bool {
        match self {
            Part::StartUntil | Part::Duration | Part::Source(_, OfSource::Ready) => true,
            Part::AttackEngine(of)
            | Part::SupplyEngine(of)
            | Part::Own(_, of)
            | Part::Aid(_, of) => {
                matches!(of, OfUnit::Minutes | OfUnit::Empties | OfUnit::CalledAt)
            }
            _ => false,
        }
    }
}
