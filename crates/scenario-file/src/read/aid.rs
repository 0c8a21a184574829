//! Who could be asked for.

use shuttle_report::departments::Department;
use shuttle_sim::{Plan, Tanker};

use crate::format::haul::alarms::Alarm;

/// The tankers that come anyway and those that could be asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Aid {
    /// The plan with everyone.
    pub everyone: Plan,
    /// Entries of the file's `tankers`; later ones are of its `aid`.
    own: usize,
    /// How they are called, by entry, those of `aid` behind the others.
    called: Vec<Called>,
}

/// How a tanker is called.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Called {
    /// The department that sends it.
    pub(crate) department: Option<String>,
    /// Whether that comes whole or not at all.
    pub(crate) comes_whole: bool,
    /// The alarm it is on.
    pub(crate) alarm: Option<Alarm>,
}

impl Aid {
    /// - Given: `own`, how many entries the file's `tankers` has; how each entry is called.
    pub(crate) fn of(everyone: Plan, own: usize, called: Vec<Called>) -> Aid {
        Aid { everyone, own, called }
    }

    /// The department of a tanker, by its name, if the file states it.
    pub fn department_of(&self, name: &str) -> Option<String> {
        self.called(name)?.department.clone()
    }

    /// The alarm that a tanker is on, by its name, if the file states it.
    pub fn alarm_of(&self, name: &str) -> Option<Alarm> {
        self.called(name)?.alarm
    }

    fn called(&self, name: &str) -> Option<&Called> {
        let tanker = self.everyone.facts().tankers.iter().find(|tanker| tanker.name == name)?;
        self.called.get(tanker.listed)
    }

    /// The calls that can be made, each the places of the [`candidates`](Aid::candidates) it brings: those on one
    /// alarm, those of a department that comes whole, anyone else alone. What shares a tanker is one call.
    pub fn calls(&self) -> Vec<Vec<usize>> {
        let tankers = &self.everyone.facts().tankers;
        let how = |place: usize| &self.called[tankers[place].listed];
        let candidates = self.candidates();
        // One entry that says so is enough, also one that comes anyway.
        let whole: Vec<&String> = (self.called.iter())
            .filter(|one| one.comes_whole)
            .filter_map(|one| one.department.as_ref())
            .collect();
        let come_together = |a: usize, b: usize| {
            let (a, b) = (how(a), how(b));
            let same_alarm = a.alarm.is_some() && a.alarm == b.alarm;
            let same_department = a.department.is_some() && a.department == b.department;
            same_alarm || same_department && a.department.iter().any(|one| whole.contains(&one))
        };
        let mut calls: Vec<Vec<usize>> = Vec::new();
        for place in candidates {
            // Calls that it joins become one with it.
            let (joined, others): (Vec<_>, Vec<_>) = std::mem::take(&mut calls)
                .into_iter()
                .partition(|call| call.iter().any(|other| come_together(*other, place)));
            let mut call: Vec<usize> = joined.into_iter().flatten().chain([place]).collect();
            call.sort_unstable();
            calls = others;
            calls.push(call);
        }
        calls.sort_unstable();
        calls
    }

    /// The other tankers that come with this one or not at all, as listed: of a department that comes whole, or on the
    /// same later alarm; also where they are asked for already.
    pub fn comes_only_with(&self, name: &str) -> Vec<String> {
        let tankers = &self.everyone.facts().tankers;
        let how = |tanker: &Tanker| self.called.get(tanker.listed);
        let Some(of) = self.called(name) else { return Vec::new() };
        let is_of_it =
            |other: &Called| of.department.is_some() && other.department == of.department;
        let comes_whole =
            tankers.iter().filter_map(how).any(|other| other.comes_whole && is_of_it(other));
        let is_later = of.alarm.is_some_and(|alarm| alarm != Alarm::First);
        let comes_with =
            |other: &Called| is_later && other.alarm == of.alarm || comes_whole && is_of_it(other);
        (tankers.iter())
            .filter(|tanker| tanker.name != name && how(tanker).is_some_and(comes_with))
            .map(|tanker| tanker.name.clone())
            .collect()
    }

    /// The departments that the file names, each with all its tankers, in the order in which they are first named.
    pub fn departments(&self) -> Vec<Department> {
        let mut all: Vec<Department> = Vec::new();
        for tanker in &self.everyone.facts().tankers {
            let Some(called) = self.called.get(tanker.listed) else { continue };
            let Some(name) = &called.department else { continue };
            let tankers = vec![tanker.name.clone()];
            match all.iter_mut().find(|one| one.name == *name) {
                Some(there) => {
                    there.tankers.extend(tankers);
                    there.comes_whole |= called.comes_whole;
                }
                None => all.push(Department {
                    name: name.clone(),
                    tankers,
                    comes_whole: called.comes_whole,
                }),
            }
        }
        all
    }

    /// Whether the file has a list of aid.
    pub fn is_listed(&self) -> bool {
        self.everyone.facts().tankers.iter().any(|tanker| tanker.listed >= self.own)
    }

    /// By place in the plan with everyone: whether a tanker is in the file's `tankers`.
    pub(crate) fn comes_anyway(&self) -> Vec<bool> {
        self.everyone.facts().tankers.iter().map(|tanker| tanker.listed < self.own).collect()
    }

    /// Places, in the plan with everyone, of those that could be asked for: the file's `aid`; where it
    /// has none, the tankers that are not asked for at the alarm.
    pub fn candidates(&self) -> Vec<usize> {
        let listed = self.is_listed();
        (self.everyone.facts().tankers.iter().enumerate())
            .filter(
                |(_, tanker)| {
                    if listed { tanker.listed >= self.own } else { tanker.call.requested_at > 0.0 }
                },
            )
            .map(|(place, _)| place)
            .collect()
    }
}
