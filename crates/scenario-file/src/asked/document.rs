//! A scenario's document while it is being changed: where its entries came from, what was touched by which
//! change, and what is wrong with what was asked.

use std::collections::BTreeMap;

use serde_json::Value as Json;

use super::changes::AskedChange;
use crate::by_name::entries::{NamedList, count_of, list_of, members, names_of};
use crate::errors::asked_mistakes::AskedMistake;
use crate::format::haul::tankers::OfTanker;
use crate::quantities::quantity::Units;

/// The document.
#[derive(Debug, Clone)]
pub(super) struct Document {
    pub(super) json: Json,
    pub(super) units: Units,
    /// The place in the file of each entry of each list that has names: `tankers[3]`.
    origins: BTreeMap<NamedList, Vec<String>>,
    /// Places of the file that were changed, and by which ask.
    pub(super) touched: Vec<(String, usize)>,
    /// What each ask came to.
    pub(super) changes: Vec<(usize, AskedChange)>,
    pub(super) mistakes: Vec<AskedMistake>,
}

impl Document {
    pub(super) fn of(json: Json, units: Units) -> Document {
        let origins = (NamedList::ALL.into_iter())
            .map(|list| {
                let count = list_of(&json, list).len();
                (list, (0..count).map(|place| format!("{}[{place}]", list.key())).collect())
            })
            .collect();
        let (touched, changes, mistakes) = Default::default();
        Document { json, units, origins, touched, changes, mistakes }
    }

    /// The same changes so far, in another version of the document.
    pub(super) fn with_json(&self, json: Json) -> Document {
        Document { touched: self.touched.clone(), ..Document::of(json, self.units) }
    }

    /// The place of the file behind a place of the document: `tankers[4].capacity` where an entry before it was
    /// taken out.
    pub(super) fn origin_of(&self, place: &str) -> String {
        let entry = place.split_once('[').and_then(|(list, rest)| {
            let (number, rest) = rest.split_once(']')?;
            let origins = self.origins.get(&NamedList::of(list)?)?;
            Some((origins.get(number.parse::<usize>().ok()?)?, rest))
        });
        entry.map_or_else(|| place.to_owned(), |(origin, rest)| format!("{origin}{rest}"))
    }

    pub(super) fn touch(&mut self, place: &str, ask: usize) {
        let origin = self.origin_of(place);
        self.touched.push((origin, ask));
    }

    fn entries(&mut self, list: NamedList) -> &mut Vec<Json> {
        let root = self.json.as_object_mut();
        let entries = root.and_then(|root| {
            root.entry(list.key()).or_insert_with(|| Json::Array(Vec::new())).as_array_mut()
        });
        match entries {
            Some(entries) => entries,
            None => unreachable!("`{}` has been checked to be a list", list.key()),
        }
    }

    /// Takes an entry out of its list.
    pub(super) fn take(&mut self, list: NamedList, place: usize) -> (Json, String) {
        let entry = self.entries(list).remove(place);
        let origin = self.origins.entry(list).or_default().remove(place);
        (entry, origin)
    }

    /// Puts an entry at the end of a list, or in a place of it.
    pub(super) fn put(&mut self, list: NamedList, place: Option<usize>, one: (Json, String)) {
        let place = place.unwrap_or(list_of(&self.json, list).len());
        self.entries(list).insert(place, one.0);
        self.origins.entry(list).or_default().insert(place, one.1);
    }

    /// Spells a group of equal tankers out, so that one of them can be told from the others.
    ///
    /// - Returns: the place of the one with this number, from 1.
    pub(super) fn spelled_out(&mut self, list: NamedList, place: usize, number: u64) -> usize {
        let names = members(&self.json, list, place);
        let (group, origin) = self.take(list, place);
        for (at, name) in names.into_iter().enumerate() {
            let mut one = group.clone();
            if let Some(fields) = one.as_object_mut() {
                fields.shift_remove(OfTanker::COUNT.key());
                fields.insert(OfTanker::NAME.key().to_owned(), name.into());
            }
            self.put(list, Some(place + at), (one, origin.clone()));
        }
        // Counted and checked: it fits.
        place + number as usize - 1
    }

    /// Writes down the names that stand for a place in a list, before places change.
    pub(super) fn keep_names(&mut self) {
        for list in [NamedList::Tankers, NamedList::Aid, NamedList::FillSites] {
            for place in 0..list_of(&self.json, list).len() {
                let name = names_of(&self.json, list, place);
                if let (Some(name), Some(fields)) =
                    (name.into_iter().next(), self.entries(list)[place].as_object_mut())
                {
                    fields.entry(OfTanker::NAME.key()).or_insert_with(|| name.into());
                }
            }
        }
    }

    /// How many tankers an entry stands for.
    pub(super) fn is_group(&self, list: NamedList, place: usize) -> bool {
        count_of(&list_of(&self.json, list)[place]).is_some()
    }
}
