//! A scenario with what is asked for: the document changed, the whole checked again, mistakes led back to the
//! arguments and remarks to the lines of the file.

use std::path::Path;

use serde_json::Value as Json;
use shuttle_report::survey::Address;

use super::changes::{Ask, Asked, AskedChange, Asks};
use super::document::Document;
use super::together::Base;
use crate::by_name::entries::{NamedList, named, names_of};
use crate::errors::asked_mistakes::{AskedMistake, AskedMistakes};
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, says, typed, whole_name};
use crate::errors::mistakes::ScenarioError;
use crate::errors::position::Lines;
use crate::format::whole_files::OfScenario;
use crate::options::option_findings::with_option;
use crate::options::scenario_options::{ScenarioOption, new_ones};
use crate::quantities::quantity::Units;
use crate::read::checked_plan::{Changed, plan_of};
use crate::scenario::{Scenario, read_text};
use crate::structure::sound_text::scenario_structure;
use crate::told::places::Places;
use crate::told::warnings::Warning;

/// The scenario with what is asked for.
///
/// - Given: the text of the file, without a byte order mark, and the scenario as the file has it.
/// - Errors: every mistake in what is asked, at once.
pub(crate) fn changed(
    path: &Path,
    text: &str,
    as_stated: Scenario,
    asks: &Asks,
) -> Result<Scenario, ScenarioError> {
    let each = asks.each();
    let mut json = serde_json::from_str::<Json>(text).unwrap_or_default();
    json.as_object_mut().map(|root| root.shift_remove(OfScenario::OPTIONS.key()));
    let mut values = Document::of(json, as_stated.units);
    set_values(&mut values, &each);
    let mut whole = values.clone();
    set_who_comes(&mut whole, &each);
    let refused = |list: Vec<AskedMistake>| {
        ScenarioError::Asked(AskedMistakes { path: path.to_path_buf(), list })
    };
    let mut document = whole.json.clone();
    // Their roads may lead to sites of options, which are not in this document.
    document.as_object_mut().map(|root| root.shift_remove("addresses"));
    let read = read_text(path, &document.to_string());
    let read = read.map_err(|error| blamed(error, &whole, &each, None));
    if !whole.mistakes.is_empty() {
        // With those that show only in the whole, all at once.
        let all = whole.mistakes.into_iter().chain(read.err().unwrap_or_default());
        return Err(refused(all.collect()));
    }
    let mut scenario = read.map_err(refused)?;
    let own = scenario.warnings.clone();
    let mut mistakes = Vec::new();
    for option in &as_stated.options {
        match option_with(path, option, &values, &each) {
            Ok(changed) => scenario.options.push(ScenarioOption {
                plan: changed.plan,
                everyone: changed.everyone,
                survey: changed.survey,
                warnings: of_option(option, new_ones(changed.warnings, &own)),
                ..option.clone()
            }),
            Err(wrong) => mistakes.extend(wrong),
        }
    }
    if !mistakes.is_empty() {
        return Err(refused(mistakes));
    }
    scenario.survey.addresses = served(as_stated.survey.addresses, &scenario);
    scenario.warnings = placed(path, text, scenario.warnings, &whole, &each);
    whole.changes.sort_by_key(|(number, _)| *number);
    let steps = &scenario.plan.facts().incident.attack_flow;
    let changes = (whole.changes.into_iter())
        .map(|(_, change)| match change {
            AskedChange::Flow(_) => AskedChange::Flow(steps.clone()),
            other => other,
        })
        .collect();
    let words = each.iter().flat_map(|ask| ask.words()).collect();
    scenario.asked = Asked { changes, words };
    scenario.base = Base { json: values.json, asks: asks.clone() };
    Ok(scenario)
}

/// The addresses with the roads that still lead to a site, of the plan or of one of its options.
fn served(mut addresses: Vec<Address>, scenario: &Scenario) -> Vec<Address> {
    let plans = [&scenario.aid.everyone]
        .into_iter()
        .chain(scenario.options.iter().map(|option| &option.everyone));
    let sites: Vec<&str> = plans
        .flat_map(|plan| plan.facts().fill_sites.iter().map(|site| site.name.as_str()))
        .collect();
    for address in &mut addresses {
        address.roads.retain(|road| sites.contains(&road.site.as_str()));
    }
    addresses
}

/// The text with what is asked for, its options too.
///
/// - Given: the text of a sound scenario.
/// - Errors: every mistake in what is asked, at once.
pub(crate) fn changed_text(path: &Path, text: &str, asks: &Asks) -> Result<String, ScenarioError> {
    let each = asks.each();
    let json = serde_json::from_str::<Json>(text).unwrap_or_default();
    let units = if json.get("units").and_then(Json::as_str) == Some("metric") {
        Units::Metric
    } else {
        Units::Us
    };
    let mut document = Document::of(json, units);
    set_values(&mut document, &each);
    set_who_comes(&mut document, &each);
    let refused = |list: Vec<AskedMistake>| {
        ScenarioError::Asked(AskedMistakes { path: path.to_path_buf(), list })
    };
    if !document.mistakes.is_empty() {
        return Err(refused(document.mistakes));
    }
    let text = format!("{:#}\n", document.json);
    let read = read_text(path, &text);
    read.map_err(|error| refused(blamed(error, &document, &each, None)))?;
    Ok(text)
}

/// Values as the file names them: no entry of a list moves.
fn set_values(document: &mut Document, each: &[Ask<'_>]) {
    for (number, ask) in each.iter().enumerate() {
        match ask {
            Ask::Set(set) => document.set(*ask, number, set, false),
            Ask::Flow(flow) => document.set_flow(*ask, number, flow),
            _ => {}
        }
    }
    // On top of what was set.
    for (number, ask) in each.iter().enumerate() {
        if let Ask::Late(minutes) = ask {
            document.make_late(*ask, number, *minutes);
        }
    }
}

/// Who comes and who does not, and values of one of a group.
pub(super) fn set_who_comes(document: &mut Document, each: &[Ask<'_>]) {
    document.keep_names();
    for (number, ask) in each.iter().enumerate() {
        if let Ask::Set(set) = ask {
            document.set(*ask, number, set, true);
        }
    }
    for (number, ask) in each.iter().enumerate() {
        match ask {
            Ask::With(name) => document.join(*ask, number, name),
            Ask::AllAid => document.join_all(*ask, number),
            _ => {}
        }
    }
    let there = named(&document.json);
    for (number, ask) in each.iter().enumerate() {
        if let Ask::Without(name) = ask {
            document.leave_out(*ask, number, name, &there);
        }
    }
}

/// The plan of an option: its changes made in the document with the values asked for, then who comes.
fn option_with(
    path: &Path,
    option: &ScenarioOption,
    values: &Document,
    each: &[Ask<'_>],
) -> Result<Changed, Vec<AskedMistake>> {
    let mut json = values.json.clone();
    if let Err(error) = json_patch::patch(&mut json, &option.patch) {
        return Err(vec![AskedMistake {
            argument: all(each),
            kind: MistakeKind::NoSuchChange,
            problem: says![
                "option ",
                whole_name(&option.name),
                " cannot be made any more: ",
                typed(error.to_string())
            ],
            limit: None,
            cure: "ask for it without the option, or take the option out of the file".into(),
        }]);
    }
    let mut document = values.with_json(json);
    set_who_comes(&mut document, each);
    let name = |problem: Message| says!["with option ", whole_name(&option.name), ": ", problem];
    if !document.mistakes.is_empty() {
        let named = |one: AskedMistake| AskedMistake { problem: name(one.problem), ..one };
        return Err(document.mistakes.into_iter().map(named).collect());
    }
    plan_of(path, &document.json.to_string())
        .map_err(|error| blamed(error, &document, each, Some(&option.name)))
}

/// What is wrong with the changed document, by the arguments that led to it.
fn blamed(
    error: ScenarioError,
    document: &Document,
    each: &[Ask<'_>],
    option: Option<&str>,
) -> Vec<AskedMistake> {
    let with =
        option.map_or_else(Message::default, |name| says!["with option ", whole_name(name), ": "]);
    let wrong = match error {
        ScenarioError::Wrong(wrong) => wrong.list,
        ScenarioError::Asked(asked) => return asked.list,
        ScenarioError::Unreadable { problem, cure, .. } => {
            let (argument, kind) = (all(each), MistakeKind::TooMuch);
            return vec![AskedMistake { argument, kind, problem, limit: None, cure }];
        }
    };
    (wrong.into_iter())
        .map(|one| {
            let place = document.origin_of(&one.place);
            let by = document.touched.iter().rev().find(|(touched, _)| meet(touched, &place));
            let at = match by {
                Some((touched, _)) if place == *touched => Message::default(),
                _ => says![typed(shown(&one.place, document)), ": "],
            };
            AskedMistake {
                argument: by.map_or_else(|| all(each), |(_, number)| each[*number].argument()),
                kind: one.kind,
                problem: says![with.clone(), at, one.problem],
                limit: one.limit,
                cure: one.cure,
            }
        })
        .collect()
}

/// A place with the names of its entries in place of their numbers: "tankers/Tanker 5/capacity".
fn shown(place: &str, document: &Document) -> String {
    let mut shown = Vec::new();
    for step in place.split('.') {
        match step.strip_suffix(']').and_then(|step| step.split_once('[')) {
            Some((list, number)) => {
                let name = NamedList::of(list).and_then(|list| {
                    let names = names_of(&document.json, list, number.parse().ok()?);
                    names.into_iter().next()
                });
                shown.push(list.to_owned());
                shown.push(name.unwrap_or_else(|| number.to_owned()));
            }
            None => shown.push(step.to_owned()),
        }
    }
    shown.join("/")
}

fn all(each: &[Ask<'_>]) -> String {
    each.iter().map(|ask| ask.argument()).collect::<Vec<_>>().join(" ")
}

/// Whether one path is the other or lies below it.
fn meet(a: &str, b: &str) -> bool {
    let below = |path: &str, above: &str| {
        path.strip_prefix(above).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
    };
    below(a, b) || below(b, a)
}

/// The remarks at their lines of the file; one about what was asked has none, and names the argument.
fn placed(
    path: &Path,
    text: &str,
    warnings: Vec<Warning>,
    document: &Document,
    each: &[Ask<'_>],
) -> Vec<Warning> {
    let Ok(structure) = scenario_structure(path, text) else { return warnings };
    let (places, lines) = (Places { root: &structure.root }, Lines::of(text));
    (warnings.into_iter())
        .filter_map(|one| {
            let place = document.origin_of(&one.place);
            let asked = document.touched.iter().rev().find(|(touched, _)| {
                place == *touched
                    || place.starts_with(&format!("{touched}."))
                    || place.starts_with(&format!("{touched}["))
            });
            match asked.map(|(_, number)| each[*number]) {
                // A source that is out of service is not late by mistake.
                Some(Ask::Without(_)) => None,
                Some(ask @ (Ask::Set(_) | Ask::Flow(_) | Ask::Late(_))) => {
                    let text = says![typed(ask.argument()), ": ", one.said()];
                    // It comes with what was asked for, so it is told with the answer.
                    let (subject, is_counted) = (Message::default(), false);
                    Some(Warning { line: 0, column: 0, text, subject, is_counted, ..one })
                }
                _ => {
                    let (line, column) = lines.line_and_column(places.mark(&place).start);
                    Some(Warning { place, line, column, ..one })
                }
            }
        })
        .collect()
}

/// The remarks about an option, at the lines they have for the option as the file has it.
fn of_option(option: &ScenarioOption, warnings: Vec<Warning>) -> Vec<Warning> {
    (warnings.into_iter())
        .map(|one| {
            let text = with_option(&option.name, one.said());
            let known = option.warnings.iter().find(|known| known.text == text);
            known.cloned().unwrap_or(Warning {
                line: 0,
                column: 0,
                subject: Message::default(),
                text,
                ..one
            })
        })
        .collect()
}
