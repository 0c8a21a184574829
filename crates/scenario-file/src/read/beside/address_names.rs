//! Addresses by their names: two of one name, two roads to one site, roads to a site that is not there. Only texts are
//! looked at, so that all of it is found also where something else in the file is wrong.

use std::collections::HashSet;

use serde_json::Value as Json;

use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{says, whole_name};
use crate::format::beside::addresses::{OfAddress, TO};
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::rows::Row;
use crate::format::takes::List;
use crate::format::whole_files::OfScenario;
use crate::quantities::quantity::Units;
use crate::read::reader::Reader;
use crate::structure::checked_value::{Node, Value};
use crate::told::places::{Places, findings_of_misfits};

/// What a road of an address leads to, and what to do where it is not there.
const SITE: (&str, &str) = (
    "fill site",
    "name a fill site that is listed or that one of the `options` adds, or leave the road out",
);

/// What is wrong with the names of addresses and of the sites that their roads lead to.
///
/// - Given: `sites`, the names of all fill sites, with those that options add; `None`: they are not known, and no road is
///   held against them.
pub(crate) fn wrong_names(
    root: &Node,
    sites: Option<&HashSet<String>>,
    units: Units,
) -> Vec<Finding> {
    let mut reader = Reader::new(units);
    let known: Option<Vec<&str>> = sites.map(|sites| {
        let mut known: Vec<&str> = sites.iter().map(String::as_str).collect();
        known.sort_unstable();
        known
    });
    let mut names: HashSet<String> = HashSet::new();
    for (place, address) in list(root, &OfScenario::ADDRESSES).iter().enumerate() {
        // Nobody tells two addresses apart by capitals or spaces.
        let spoken =
            |name: &str| name.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
        if let Some(name) =
            text(address, &OfAddress::NAME).filter(|name| !names.insert(spoken(name)))
        {
            let told = (
                says!["a second address is called ", whole_name(name)],
                Some("each address by a name of its own".into()),
                "give it another name".into(),
            );
            reader.mistake(format!("addresses[{place}].name"), MistakeKind::Taken, told);
        }
        let mut led: HashSet<&str> = HashSet::new();
        for (number, road) in list(address, &OfAddress::ROADS).iter().enumerate() {
            let Some(site) = text(road, &TO) else { continue };
            let at = format!("addresses[{place}].roads[{number}].to");
            if !led.insert(site) {
                let told = (
                    says!["a second road leads to ", whole_name(site)],
                    Some("one road to each fill site".into()),
                    "leave one of the two out".into(),
                );
                reader.mistake(at, MistakeKind::Taken, told);
            } else if let Some(known) = &known {
                reader.resolve(at, site, known, SITE);
            }
        }
    }
    findings_of_misfits(reader.mistakes, &Places { root })
}

/// The fill sites as they are written, where the plan cannot be made of them: those of the file, and everything that an
/// option puts in place of a text; `None` where one has no name of its own.
pub(crate) fn sites_as_written(root: &Node, text_of_file: &str) -> Option<HashSet<String>> {
    let named = list(root, &OfScenario::FILL_SITES)
        .iter()
        .map(|site| text(site, &OfFillSite::NAME).map(str::to_owned));
    let mut sites: HashSet<String> = named.collect::<Option<_>>()?;
    let json: Json = serde_json::from_str(text_of_file).ok()?;
    put_texts(json.get(OfScenario::OPTIONS.key()).unwrap_or(&Json::Null), &mut sites);
    Some(sites)
}

fn put_texts(json: &Json, texts: &mut HashSet<String>) {
    match json {
        Json::String(text) => {
            texts.insert(text.clone());
        }
        Json::Array(list) => list.iter().for_each(|inner| put_texts(inner, texts)),
        Json::Object(fields) => fields.values().for_each(|inner| put_texts(inner, texts)),
        Json::Null | Json::Bool(_) | Json::Number(_) => {}
    }
}

fn list<'n, O, T>(node: &'n Node, row: &Row<O, List<T>>) -> &'n [Node] {
    match node.child(row.key()).map(|node| &node.value) {
        Some(Value::List(nodes)) => nodes,
        _ => &[],
    }
}

fn text<'n, O, T>(node: &'n Node, row: &Row<O, T>) -> Option<&'n str> {
    match node.child(row.key()).map(|node| &node.value) {
        Some(Value::Text(text)) => Some(text),
        _ => None,
    }
}
