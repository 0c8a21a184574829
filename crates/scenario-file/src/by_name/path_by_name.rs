//! Paths by name, such as `fill_sites/Otter pond/flow`: where they lead in a scenario's text.
//!
//! An entry of a list is named, never counted. A path may begin with the name itself: `Otter pond/flow`.

use serde_json::Value as Json;

use super::entries::{NamedList, Thing, count_of, listed, members, named, names_of};
use crate::errors::excerpt::shorten;
use crate::errors::message::{Message, key as a_key, quoted, says, typed, whole_name};
use crate::errors::similar_words::nearest;
use crate::format::fire::incident_and_supply::{OfFlowStep, OfSupply};
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::whole_files::{OfScenario, SCENARIO};

/// Where a path by name leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Lead {
    /// The steps of the JSON Pointer (RFC 6901), not escaped.
    pub(crate) steps: Vec<String>,
    /// One of the equal tankers that the entry on the way stands for, counted from 1.
    pub(crate) member: Option<u64>,
}

impl Lead {
    /// The JSON Pointer.
    pub(crate) fn pointer(&self) -> String {
        self.steps.iter().map(|step| format!("/{}", escaped(step))).collect()
    }

    /// The path of keys as messages and the checker have it: `fill_sites[1].flow`.
    pub(crate) fn place(&self) -> String {
        let mut place = String::new();
        for (at, step) in self.steps.iter().enumerate() {
            match step.parse::<usize>() {
                Ok(number) if at > 0 => place.push_str(&format!("[{number}]")),
                _ if place.is_empty() => place.push_str(step),
                _ => place.push_str(&format!(".{step}")),
            }
        }
        place
    }
}

fn escaped(step: &str) -> String {
    step.replace('~', "~0").replace('/', "~1")
}

/// Why a path by name leads nowhere.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LostWay {
    pub(crate) problem: Message,
    pub(crate) cure: Message,
}

/// Where a path by name leads. Its last step may be a key that is not stated yet, and so may objects on the way
/// to it: whether the format knows them is for the check to say.
///
/// - Errors: the first step that cannot be taken.
pub(crate) fn lead(root: &Json, path: &str) -> Result<Lead, LostWay> {
    let mut lead = Lead { steps: Vec::new(), member: None };
    let mut at = Some(root);
    let mut rest = path;
    if let Some((thing, behind)) = begins_with_name(root, path) {
        lead = lead_to(thing);
        at = root.pointer(&lead.pointer());
        rest = behind;
    } else if rest.is_empty() || SCENARIO.field(first_step(rest).0).is_none() {
        return Err(no_such_beginning(root, path));
    }
    while !rest.is_empty() {
        match at {
            Some(Json::Array(entries)) => {
                let list = lead.steps.last().map_or("", String::as_str);
                let (place, member, behind) = entry_of(root, list, entries, rest)?;
                lead.steps.push(place);
                lead.member = lead.member.or(member);
                rest = behind;
                at = root.pointer(&lead.pointer());
            }
            None | Some(Json::Object(_)) => {
                let (key, behind) = first_step(rest);
                lead.steps.push(key.to_owned());
                at = at.and_then(|fields| fields.get(key));
                rest = behind;
            }
            Some(single) => {
                let holder = lead.steps.last().map_or("", String::as_str);
                return Err(LostWay {
                    problem: says![
                        a_key(holder),
                        " is ",
                        typed(shorten(&single.to_string())),
                        ": there is no ",
                        a_key(&shorten(first_step(rest).0)),
                        " in it"
                    ],
                    cure: "end the path there, or give all of it at once, as {\"mean\": 12, \"cv\": 0.2}"
                        .into(),
                });
            }
        }
    }
    Ok(lead)
}

fn first_step(path: &str) -> (&str, &str) {
    path.split_once('/').unwrap_or((path, ""))
}

/// What comes behind a name that the path begins with.
fn behind<'p>(path: &'p str, name: &str) -> Option<&'p str> {
    match path.strip_prefix(name)? {
        "" => Some(""),
        rest => rest.strip_prefix('/'),
    }
}

/// A thing by its own name at the beginning of a path; the longest name counts, for names may hold a "/".
fn begins_with_name<'p>(root: &Json, path: &'p str) -> Option<(Thing, &'p str)> {
    (named(root).into_iter())
        .filter_map(|(name, thing)| Some((name.len(), thing, behind(path, &name)?)))
        .max_by_key(|(length, ..)| *length)
        .map(|(_, thing, behind)| (thing, behind))
}

fn lead_to(thing: Thing) -> Lead {
    let steps = |steps: &[&str]| steps.iter().map(|step| (*step).to_owned()).collect();
    match thing {
        Thing::Entry { list, place, member } => {
            Lead { steps: vec![list.key().to_owned(), place.to_string()], member }
        }
        Thing::AttackEngine => {
            Lead { steps: steps(&[OfScenario::ATTACK_ENGINE.key()]), member: None }
        }
        Thing::SourcePump(site) => Lead {
            steps: vec![
                OfScenario::FILL_SITES.key().to_owned(),
                site.to_string(),
                OfFillSite::SOURCE_PUMP.key().to_owned(),
            ],
            member: None,
        },
        Thing::SupplyEngine => {
            Lead { steps: steps(&[OfScenario::SUPPLY.key(), OfSupply::ENGINE.key()]), member: None }
        }
    }
}

fn no_such_beginning(root: &Json, path: &str) -> LostWay {
    let (first, _) = first_step(path);
    let names = named(root).into_iter().map(|(name, _)| name);
    let keys = root.as_object().into_iter().flat_map(|fields| fields.keys().cloned());
    let known: Vec<String> = keys
        .filter(|key| key != OfScenario::OPTIONS.key() && !key.starts_with('$'))
        .chain(names)
        .collect();
    let cure = match nearest(first, known.iter().map(String::as_str)) {
        Some(near) => says!["something with a similar name is there: ", whole_name(near)],
        None => {
            says!["begin with the name of a unit or source, or with one of ", listed(&known)]
        }
    };
    LostWay { problem: says!["the scenario has no ", a_key(&shorten(first))], cure }
}

/// The entry of a list that the path goes on with, and what comes behind it.
fn entry_of<'p>(
    root: &Json,
    list: &str,
    entries: &[Json],
    path: &'p str,
) -> Result<(String, Option<u64>, &'p str), LostWay> {
    if let Some(rest) = behind(path, "-") {
        return Ok(("-".to_owned(), None, rest));
    }
    if list == OfScenario::ADDRESSES.key() {
        return Err(LostWay {
            problem: "the addresses of a scenario are not changed beside its file".into(),
            cure: "change the address in the file, or in the table given with --addresses".into(),
        });
    }
    let named_list = NamedList::of(list);
    let mut known: Vec<(String, usize, Option<u64>)> = Vec::new();
    for (place, entry) in entries.iter().enumerate() {
        let names = match named_list {
            Some(list) => names_of(root, list, place),
            // Steps of the attack flow go by their minute.
            None => entry
                .get(OfFlowStep::FROM.key())
                .map(|from| vec![from.to_string()])
                .unwrap_or_default(),
        };
        known.extend(names.into_iter().map(|name| (name, place, None)));
        if let Some(list) = named_list.filter(|list| list.hauls())
            && count_of(entry).is_some()
        {
            let of_it = (1_u64..).zip(members(root, list, place));
            known.extend(of_it.map(|(number, name)| (name, place, Some(number))));
        }
    }
    let found = (known.iter())
        .filter_map(|(name, place, member)| Some((name.len(), place, member, behind(path, name)?)))
        .max_by_key(|(length, ..)| *length);
    if let Some((_, place, member, rest)) = found {
        return Ok((place.to_string(), *member, rest));
    }
    let names: Vec<String> = known.into_iter().map(|(name, ..)| name).collect();
    let (given, _) = first_step(path);
    let cure = match nearest(given, names.iter().map(String::as_str)) {
        Some(near) => says!["a similar name is there: ", whole_name(near)],
        None if names.is_empty() => "the list is empty".into(),
        None => says!["name one of ", listed(&names)],
    };
    let problem = says!["nothing in ", a_key(list), " is called ", quoted(given)];
    Err(LostWay { problem, cure })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn scenario() -> Json {
        json!({
            "tankers": [{"name": "Tanker 5"}, {"name": "Aid tanker", "count": 3}, {}],
            "aid": [{"name": "Fox/Elk tanker", "response": 12}],
            "fill_sites": [{"name": "Otter pond"}, {"name": "Otter pond 2"}],
            "drop_tanks": [{"brought_by": "Tanker 5"}, {"response": 3}],
            "attack_engine": {"name": "Engine 1", "tank": 1000},
            "supply": {"engine": {"name": "Engine 9"}},
        })
    }

    #[test]
    fn a_path_leads_to_what_it_names() {
        let rows = [
            ("fill_sites/Otter pond/flow", "/fill_sites/0/flow", None),
            ("fill_sites/Otter pond 2/out/miles", "/fill_sites/1/out/miles", None),
            ("Otter pond/flow", "/fill_sites/0/flow", None),
            ("tankers/Aid tanker/capacity", "/tankers/1/capacity", None),
            ("tankers/Aid tanker 2/capacity", "/tankers/1/capacity", Some(2)),
            ("tankers/Tanker 3/capacity", "/tankers/2/capacity", None),
            ("aid/Fox/Elk tanker/response", "/aid/0/response", None),
            ("Fox/Elk tanker/response", "/aid/0/response", None),
            ("drop_tanks/drop tank of Tanker 5/capacity", "/drop_tanks/0/capacity", None),
            ("drop tank 2/capacity", "/drop_tanks/1/capacity", None),
            ("Engine 1/tank", "/attack_engine/tank", None),
            ("Engine 9/response", "/supply/engine/response", None),
            ("supply/low_water", "/supply/low_water", None),
            ("crew/on_hand", "/crew/on_hand", None),
        ];
        for (path, pointer, member) in rows {
            let lead = lead(&scenario(), path).unwrap_or_else(|lost| panic!("{path}: {lost:?}"));
            assert_eq!((lead.pointer().as_str(), lead.member), (pointer, member), "{path}");
        }
    }

    #[test]
    fn the_first_step_that_leads_nowhere_is_told_with_a_name_that_does() {
        let rows = [
            ("fill_sites/Oter pond/flow", "nothing in `fill_sites`", "\"Otter pond\""),
            ("fill_sites/0/flow", "nothing in `fill_sites` is called \"0\"", "\"Otter pond\""),
            ("Oter pond/flow", "has no `Oter pond`", "\"Otter pond\""),
            ("suply/low_water", "has no `suply`", "\"supply\""),
            ("Engine 1/tank/size", "`tank` is 1000", "end the path there"),
            ("", "has no ``", "begin with"),
        ];
        for (path, problem, cure) in rows {
            let lost = lead(&scenario(), path).unwrap_err();
            assert!(
                lost.problem.in_file().contains(problem) && lost.cure.in_file().contains(cure),
                "{path}: {lost:?}"
            );
        }
    }
}
