//! What the things in a scenario's lists are called, and which thing a name means.

use serde_json::Value as Json;

/// The lists whose entries have names, as the file calls them.
pub(crate) const LISTS: [&str; 5] = ["tankers", "aid", "fill_sites", "drop_tanks", "one_lane"];

/// A thing that a name means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Thing {
    /// An entry of a list, or one of the equal tankers that an entry stands for, counted from 1.
    Entry { list: &'static str, place: usize, member: Option<u64> },
    /// The attack engine.
    AttackEngine,
    /// The supply engine.
    SupplyEngine,
    /// The pump that someone brings to the fill site at this place.
    SourcePump(usize),
}

/// The entries of a list; none where the scenario has no such list.
pub(crate) fn list_of<'j>(root: &'j Json, list: &str) -> &'j [Json] {
    root.get(list).and_then(Json::as_array).map_or(&[], Vec::as_slice)
}

/// The name of a tanker's entry: as stated, or else as the reading gives it.
///
/// - Given: the list, `tankers` or `aid`, and the place in it.
pub(crate) fn tanker_name(root: &Json, list: &str, place: usize) -> String {
    let stated = list_of(root, list)[place].get("name").and_then(Json::as_str);
    let before = if list == "aid" { list_of(root, "tankers").len() } else { 0 };
    stated.map_or_else(|| format!("Tanker {}", before + place + 1), str::to_owned)
}

/// The names of the tankers that an entry stands for.
pub(crate) fn members(root: &Json, list: &str, place: usize) -> Vec<String> {
    let name = tanker_name(root, list, place);
    match count_of(&list_of(root, list)[place]) {
        Some(count) => (1..=count).map(|number| format!("{name} {number}")).collect(),
        None => vec![name],
    }
}

/// How many equal tankers an entry stands for, if it says so.
pub(crate) fn count_of(entry: &Json) -> Option<u64> {
    let count = entry.get("count")?;
    // A count may be written as 3.0.
    count.as_u64().or_else(|| count.as_f64().map(|count| count as u64))
}

/// Every name of an entry, the one to call it by first.
pub(crate) fn names_of(root: &Json, list: &str, place: usize) -> Vec<String> {
    let Some(entry) = list_of(root, list).get(place) else {
        return Vec::new();
    };
    let text = |key: &str| entry.get(key).and_then(Json::as_str).map(str::to_owned);
    match list {
        "tankers" | "aid" => vec![tanker_name(root, list, place)],
        "fill_sites" => {
            vec![text("name").unwrap_or_else(|| format!("Fill site {}", place + 1))]
        }
        "drop_tanks" => {
            let tanks = list_of(root, "drop_tanks");
            let mut names = Vec::new();
            if let Some(by) = text("brought_by") {
                let brings =
                    |tank: &&Json| tank.get("brought_by").and_then(Json::as_str) == Some(&by);
                if tanks.iter().filter(brings).count() == 1 {
                    names.push(format!("drop tank of {by}"));
                }
            }
            // As the answers call it.
            names.push(if tanks.len() == 1 {
                "drop tank".to_owned()
            } else {
                format!("drop tank {}", place + 1)
            });
            names
        }
        "one_lane" => text("near").into_iter().collect(),
        _ => Vec::new(),
    }
}

/// Everything that has a name of its own, with the name.
pub(crate) fn named(root: &Json) -> Vec<(String, Thing)> {
    let mut named = Vec::new();
    for list in ["tankers", "aid", "fill_sites", "drop_tanks"] {
        for place in 0..list_of(root, list).len() {
            let entry = Thing::Entry { list, place, member: None };
            named.extend(names_of(root, list, place).into_iter().map(|name| (name, entry.clone())));
            if matches!(list, "tankers" | "aid") && count_of(&list_of(root, list)[place]).is_some()
            {
                named.extend((1_u64..).zip(members(root, list, place)).map(|(number, name)| {
                    (name, Thing::Entry { list, place, member: Some(number) })
                }));
            }
        }
    }
    for place in 0..list_of(root, "fill_sites").len() {
        let pump = &list_of(root, "fill_sites")[place]["source_pump"];
        if pump.is_object() {
            let stated = pump.get("name").and_then(Json::as_str).map(str::to_owned);
            let site = names_of(root, "fill_sites", place).remove(0);
            named.push((
                stated.unwrap_or_else(|| format!("Pump at {site}")),
                Thing::SourcePump(place),
            ));
        }
    }
    let engine = |at: &str, otherwise: &str| {
        let engine = root.pointer(at).filter(|engine| engine.is_object())?;
        let name = engine.get("name").and_then(Json::as_str).unwrap_or(otherwise);
        Some(name.to_owned())
    };
    named.extend(engine("/attack_engine", "Attack engine").map(|name| (name, Thing::AttackEngine)));
    named.extend(engine("/supply/engine", "Supply engine").map(|name| (name, Thing::SupplyEngine)));
    named
}

/// The thing with this name; but for capitals, where only one is called so.
pub(crate) fn thing(root: &Json, name: &str) -> Option<Thing> {
    let all = named(root);
    if let Some((_, thing)) = all.iter().find(|(known, _)| known == name) {
        return Some(thing.clone());
    }
    let mut alike =
        all.into_iter().filter(|(known, _)| known.to_lowercase() == name.to_lowercase());
    alike.next().filter(|_| alike.next().is_none()).map(|(_, thing)| thing)
}

/// The names as a message lists them: in quotes, no more than a dozen.
pub(crate) fn listed(names: &[String]) -> String {
    const MOST: usize = 12;
    let shown: Vec<String> = (names.iter().take(MOST))
        .map(|name| format!("\"{}\"", crate::errors::excerpt::shorten(name)))
        .collect();
    let more = if names.len() > MOST { " and more" } else { "" };
    format!("{}{more}", shown.join(", "))
}
