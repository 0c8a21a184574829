//! A plan in a few sentences, however many rows it has.

use std::ops::Range;

use scenario_file::{Measure, bare_number, harmless};

use super::{Say, Topic, at_minute, besides, broken};
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Tanker};

/// So many of a kind are told one by one, more of them together. Judgement: two screens are not read.
const ONE_BY_ONE: usize = 4;

/// A plan in sentences, each a line that is set in; of many units of a kind what they are together.
pub fn in_sentences(plan: &FirstPlan) -> String {
    let say = Say(plan.units);
    let each = |topics: Vec<Topic>| -> Vec<String> {
        topics.into_iter().map(|topic| say.topic(plan, topic)).collect()
    };
    let all = |of: fn(usize) -> Topic, places: Range<usize>| each(places.map(of).collect());
    // What was said of one alone is not lost in the sum.
    let of_its_own = |tankers: &[Tanker]| -> Vec<String> {
        let said = tankers.iter().filter_map(|one| Some((one, said_of_one(one)?)));
        said.map(|(one, said)| format!("{} {said}.", one.name)).collect()
    };
    let mut lines = each(vec![Topic::Fire, Topic::AttackEngine, Topic::SupplyEngine]);
    if plan.own.len() <= ONE_BY_ONE {
        lines.extend(all(Topic::Own, 0..plan.own.len()));
    } else {
        let own: Vec<&Tanker> = plan.own.iter().collect();
        lines.push(format!(
            "Your own: {} after the alarm or their call.",
            together(&say, plan, &own)
        ));
        lines.extend(of_its_own(&plan.own));
    }
    if plan.aid.len() <= ONE_BY_ONE {
        lines.extend(all(Topic::Aid, 0..plan.aid.len()));
    } else {
        lines.extend(by_department(&say, plan));
        lines.extend(of_its_own(&plan.aid));
    }
    // What is not told in full is counted.
    for (of, many, what) in [
        (Topic::Source as fn(usize) -> Topic, plan.sources.len(), "sources"),
        (Topic::DropTank, plan.drop_tanks.len(), "drop tanks"),
    ] {
        let shown = if many > ONE_BY_ONE { ONE_BY_ONE - 1 } else { many };
        lines.extend(all(of, 0..shown));
        lines.extend((shown < many).then(|| format!("And {} more {what}.", many - shown)));
    }
    lines.extend(besides(plan));
    lines.iter().map(|line| broken(&harmless(&format!("  {line}"))) + "\n").collect()
}

/// The aid, a line for each department.
fn by_department(say: &Say, plan: &FirstPlan) -> Vec<String> {
    let mut departments: Vec<Option<&String>> = Vec::new();
    for one in &plan.aid {
        if !departments.contains(&one.department.as_ref()) {
            departments.push(one.department.as_ref());
        }
    }
    if departments.len() > ONE_BY_ONE {
        let all: Vec<&Tanker> = plan.aid.iter().collect();
        let from = format!("{} departments", departments.len());
        return vec![format!(
            "You could ask {from}: {} after their call.",
            together(say, plan, &all)
        )];
    }
    let of = |department: Option<&String>| {
        let tankers: Vec<&Tanker> =
            plan.aid.iter().filter(|one| one.department.as_ref() == department).collect();
        let whom = department.map_or("others", String::as_str);
        format!("You could ask {whom}: {} after the call.", together(say, plan, &tankers))
    };
    departments.into_iter().map(of).collect()
}

/// Several tankers as one: how many, with how much water, from when to when they are there.
fn together(say: &Say, plan: &FirstPlan, tankers: &[&Tanker]) -> String {
    let bare = |amount: &Amount, measure| bare_number(&amount.json(), measure, plan.units);
    let water: f64 = tankers.iter().filter_map(|one| bare(&one.water, Measure::Volume)).sum();
    let water = say.volume(&Amount::plain(water.round()));
    let minutes = tankers.iter().filter_map(|one| bare(&one.minutes, Measure::Time));
    let minutes: Vec<f64> = minutes.collect();
    let first = Amount::plain(minutes.iter().copied().fold(f64::INFINITY, f64::min));
    let last = Amount::plain(minutes.iter().copied().fold(0.0, f64::max));
    let there = match first == last {
        true => last.told_in("min"),
        false => format!("{} to {}", first.told(), last.told_in("min")),
    };
    let whole = tankers.len() > 1 && tankers.iter().any(|one| one.comes_whole);
    let whole = if whole { ", all of them or none" } else { "" };
    match tankers {
        [one] => format!("{} with {water}, there {there}", one.name),
        _ => format!("{} tankers with {water} in all{whole}, there {there}", tankers.len()),
    }
}

/// How often a tanker comes, how long it dumps and when it can be called, as far as that was said of it.
fn said_of_one(tanker: &Tanker) -> Option<String> {
    let often = tanker.turnout.as_ref();
    let dumps = tanker.empties_in.as_ref();
    let called = tanker.called_at.as_ref().filter(|minute| !minute.is_number_of(0.0));
    let called = match (tanker.alarm, called) {
        (Some(alarm), _) => Some(format!("is on the {} alarm{}", alarm.key(), at_minute(tanker))),
        (None, Some(minute)) => {
            Some(format!("can be called from minute {} after the alarm on", minute.told()))
        }
        (None, None) => None,
    };
    let said = [
        often.map(|often| format!("comes to {} of fires", often.told_as_share())),
        dumps.map(|minutes| format!("dumps in {}", minutes.told_in("min"))),
        called,
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(", "))
}
