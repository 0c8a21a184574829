//! Values asked for: the attack flow, later aid, any value by its path.

use serde_json::{Value as Json, json};

use super::changes::{Ask, AskedChange};
use super::document::Document;
use crate::by_name::entries::{NamedList, list_of, names_of, tanker_name};
use crate::by_name::path_by_name::{Lead, lead};
use crate::errors::asked_mistakes::AskedMistake;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, says, whole_name};
use crate::format::fire::incident_and_supply::{OfFlowStep, OfIncident, OfSupply, OfSupplyEngine};
use crate::format::haul::tankers::OfTanker;
use crate::format::shared_fields::REQUESTED_AT;
use crate::format::whole_files::OfScenario;
use crate::quantities::quantity::Quantity;

/// A value as typed: JSON where it is, and else text.
fn typed(value: &str) -> Json {
    let value = value.trim();
    serde_json::from_str(value).unwrap_or_else(|_| Json::String(value.to_owned()))
}

fn mistake(
    ask: Ask<'_>,
    kind: MistakeKind,
    problem: impl Into<Message>,
    cure: impl Into<Message>,
) -> AskedMistake {
    let (problem, cure) = (problem.into(), cure.into());
    AskedMistake { argument: ask.argument(), kind, problem, limit: None, cure }
}

impl Document {
    /// Another attack flow. What it came to is known once the whole is checked.
    pub(super) fn set_flow(&mut self, ask: Ask<'_>, number: usize, flow: &str) {
        let steps: Vec<&str> = flow.split(',').collect();
        let flow = match steps.as_slice() {
            [only] if !only.contains('@') => typed(only),
            [first, ..] if !first.contains('@') => {
                let cure = "write one flow, as 400 (thousands without a comma), or steps with their minutes after \
                            first water, as 150@0,500@20";
                let problem = says!["the step ", whole_name(first.trim()), " has no minute"];
                self.mistakes.push(mistake(ask, MistakeKind::Missing, problem, cure));
                return;
            }
            steps => {
                let mut list = Vec::new();
                for step in steps {
                    let Some((flow, from)) = step.split_once('@') else {
                        let problem = says!["the step ", whole_name(step.trim()), " has no minute"];
                        let cure =
                            "write each step with its minute after first water, as 150@0,500@20";
                        self.mistakes.push(mistake(ask, MistakeKind::Missing, problem, cure));
                        return;
                    };
                    list.push(json!({OfFlowStep::FROM.key(): typed(from), OfFlowStep::FLOW.key(): typed(flow)}));
                }
                Json::Array(list)
            }
        };
        if let Some(incident) =
            self.json.get_mut(OfScenario::INCIDENT.key()).and_then(Json::as_object_mut)
        {
            incident.insert(OfIncident::ATTACK_FLOW.key().to_owned(), flow);
        }
        let place = format!("{}.{}", OfScenario::INCIDENT.key(), OfIncident::ATTACK_FLOW.key());
        self.touch(&place, number);
        self.changes.push((number, AskedChange::Flow(Vec::new())));
    }

    /// Everything that is not asked for at the alarm comes later: all aid, and own units asked for later.
    pub(super) fn make_late(&mut self, ask: Ask<'_>, number: usize, minutes: f64) {
        let mut late: Vec<(String, String)> = Vec::new();
        for list in NamedList::HAULING {
            for place in 0..list_of(&self.json, list).len() {
                let pointer = format!("/{}/{place}", list.key());
                if list == NamedList::Aid || self.requested_at(&pointer) > 0.0 {
                    let name = tanker_name(&self.json, list, place);
                    late.push((pointer, name));
                }
            }
        }
        let engine = format!("/{}/{}", OfScenario::SUPPLY.key(), OfSupply::ENGINE.key());
        if self.requested_at(&engine) > 0.0 {
            let stated = self.json.pointer(&format!("{engine}/{}", OfSupplyEngine::NAME.key()));
            let name = stated.and_then(Json::as_str).or(OfSupplyEngine::NAME.silent);
            late.extend(name.map(|name| (engine.clone(), name.to_owned())));
        }
        for place in 0..list_of(&self.json, NamedList::DropTanks).len() {
            let pointer = format!("/{}/{place}", NamedList::DropTanks.key());
            if self.requested_at(&pointer) > 0.0 {
                let names = names_of(&self.json, NamedList::DropTanks, place);
                late.extend(names.into_iter().next().map(|name| (pointer, name)));
            }
        }
        if late.is_empty() {
            let problem = "nobody is asked for after the alarm, and the file lists no aid";
            let cure = "say who is aid: list it in `aid`, or give it a `requested_at`";
            self.mistakes.push(mistake(ask, MistakeKind::NoSuchName, problem, cure));
            return;
        }
        let mut units = Vec::new();
        for (pointer, name) in late {
            let at = self.requested_at(&pointer) + minutes;
            if let Some(unit) = self.json.pointer_mut(&pointer).and_then(Json::as_object_mut) {
                unit.insert(REQUESTED_AT.key().to_owned(), json!(at));
            }
            let steps = pointer.split('/').skip(1).map(str::to_owned).collect();
            let unit = Lead { steps, member: None }.place();
            self.touch(&format!("{unit}.{}", REQUESTED_AT.key()), number);
            units.push(name);
        }
        self.changes.push((number, AskedChange::Late { minutes, units }));
    }

    /// When a unit is asked for, minutes after the alarm; 0 where there is no such unit.
    fn requested_at(&self, pointer: &str) -> f64 {
        let alarm = self.json.pointer(&format!("{pointer}/{}", OfTanker::ALARM.key()));
        let alarm = alarm.and_then(Json::as_str);
        // As the scenario is read: its own minute, else that of its alarm.
        let of_alarm = || self.json.get(OfScenario::ALARMS.key())?.get(alarm?);
        match self.json.pointer(&format!("{pointer}/{}", REQUESTED_AT.key())).or_else(of_alarm) {
            Some(Json::Number(minutes)) => minutes.as_f64().unwrap_or(0.0),
            Some(Json::String(text)) => Quantity::Time.read_text(text, self.units).unwrap_or(0.0),
            _ => 0.0,
        }
    }

    /// Any value, by its path.
    ///
    /// - Given: `of_members`, whether to set values of one of a group now: that spells the group out, and so
    ///   comes after all changes that do not.
    pub(super) fn set(&mut self, ask: Ask<'_>, number: usize, set: &str, of_members: bool) {
        let Some((path, value)) = self.parted(set) else {
            let problem = "there is no \"=\" in it";
            let cure = "write the path by name, = and the value: --set \"fill_sites/Otter pond/flow=400 gpm\"";
            if !of_members {
                self.mistakes.push(mistake(ask, MistakeKind::NoSuchChange, problem, cure));
            }
            return;
        };
        let mut there = match lead(&self.json, path.trim()) {
            Ok(there) => there,
            Err(lost) => {
                if !of_members {
                    let kind = MistakeKind::NoSuchName;
                    self.mistakes.push(mistake(ask, kind, lost.problem, lost.cure));
                }
                return;
            }
        };
        if there.member.is_some() != of_members {
            return;
        }
        if there.steps.first().is_some_and(|step| step == OfScenario::OPTIONS.key()) {
            let cure = "change the plan itself: the options are tried with what is asked";
            let problem = "the options cannot be changed";
            self.mistakes.push(mistake(ask, MistakeKind::NoSuchChange, problem, cure));
            return;
        }
        if there.steps.len() < 2 && self.json.get(&there.steps[0]).is_some_and(Json::is_array) {
            let cure =
                "name the entry and the value of it: --set \"fill_sites/Otter pond/flow=400 gpm\"";
            let problem = "that is a whole list";
            self.mistakes.push(mistake(ask, MistakeKind::NoSuchChange, problem, cure));
            return;
        }
        if let Some(member) = there.member.take() {
            let list = NamedList::of(&there.steps[0]).unwrap_or(NamedList::Tankers);
            let place = there.steps[1].parse::<usize>().unwrap_or(0);
            there.steps[1] = self.spelled_out(list, place, member).to_string();
        }
        let before = self.json.pointer(&there.pointer()).cloned();
        let value = value.trim().to_owned();
        put_at(&mut self.json, &there.steps, typed(&value));
        self.touch(&there.place(), number);
        self.changes
            .push((number, AskedChange::Set { path: path.trim().to_owned(), value, before }));
    }

    /// The path and the value: parted at the first "=" that a path ends before, for names may hold one.
    fn parted<'s>(&self, set: &'s str) -> Option<(&'s str, &'s str)> {
        let parts = || set.match_indices('=').map(|(at, _)| (&set[..at], &set[at + 1..]));
        parts().find(|(path, _)| lead(&self.json, path.trim()).is_ok()).or_else(|| parts().next())
    }
}

/// Puts a value at the end of these steps; objects on the way that are not stated are begun.
fn put_at(root: &mut Json, steps: &[String], value: Json) {
    let mut at = root;
    for step in steps {
        at = match at {
            Json::Array(entries) => {
                if step == "-" {
                    entries.push(Json::Null);
                }
                let place = step.parse::<usize>().unwrap_or(entries.len().saturating_sub(1));
                match entries.get_mut(place) {
                    Some(entry) => entry,
                    None => return,
                }
            }
            other => {
                if !other.is_object() {
                    *other = json!({});
                }
                match other.as_object_mut() {
                    Some(fields) => fields.entry(step.clone()).or_insert(Json::Null),
                    None => return,
                }
            }
        };
    }
    *at = value;
}
