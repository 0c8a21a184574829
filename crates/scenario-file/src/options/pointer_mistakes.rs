//! Why a JSON Pointer (RFC 6901) leads nowhere in a document, and what stands there instead.

use serde_json::Value as Json;

use crate::errors::excerpt::shorten;
use crate::errors::message::{
    Message, count, joined, key as a_key, quoted, says, typed, whole_name,
};
use crate::errors::similar_words::nearest;
use crate::format::whole_files::OfScenario;

/// Why a pointer cannot be followed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LeadsNowhere {
    pub(super) problem: Message,
    pub(super) cure: Message,
}

/// What is said of a change to the options themselves, and its cure.
pub(super) const OPTIONS_STAY: &str = "an option cannot change `options`";
pub(super) const INTO_THE_OPTION: &str = "write the change into the option itself";

/// Why a text is no JSON Pointer at all (RFC 6901, section 3); `None`: it is one.
pub(super) fn no_pointer(text: &str) -> Option<LeadsNowhere> {
    if !text.is_empty() && !text.starts_with('/') {
        return Some(LeadsNowhere {
            problem: "a path is empty or begins with \"/\"".into(),
            cure: says![
                "write \"/",
                typed(shorten(&text.replace(['.', '['], "/").replace(']', ""))),
                "\""
            ],
        });
    }
    let stray = text.match_indices('~').find(|(at, _)| !text[at + 1..].starts_with(['0', '1']))?;
    let after: String = text[stray.0..].chars().take(2).collect();
    Some(LeadsNowhere {
        problem: says![quoted(&after), " stands for nothing in a path"],
        cure: "write ~0 for ~ and ~1 for / inside a key".into(),
    })
}

/// The place in a list that a step names: digits without leading zeros (RFC 6901, section 4).
fn place_in_list(step: &str) -> Option<usize> {
    let digits = !step.is_empty() && step.bytes().all(|byte| byte.is_ascii_digit());
    (digits && (step == "0" || !step.starts_with('0'))).then(|| step.parse().ok())?
}

/// The first step of a pointer that cannot be taken; `None` if all can.
///
/// - Given: `to_add`, whether the last step may name what is not there yet.
pub(super) fn leads_nowhere(document: &Json, pointer: &str, to_add: bool) -> Option<LeadsNowhere> {
    let steps: Vec<String> =
        pointer.split('/').skip(1).map(|step| step.replace("~1", "/").replace("~0", "~")).collect();
    let mut at = document;
    let mut above = String::new();
    for (place, step) in steps.iter().enumerate() {
        let may_be_new = to_add && place + 1 == steps.len();
        let next = match at {
            Json::Object(fields) => fields.get(step),
            Json::Array(entries) => place_in_list(step).and_then(|index| entries.get(index)),
            _ => None,
        };
        match (next, at) {
            (Some(next), _) => at = next,
            (None, Json::Object(_)) if may_be_new => return None,
            (None, Json::Array(entries))
                if may_be_new && (step == "-" || *step == entries.len().to_string()) =>
            {
                return None;
            }
            (None, at) => return Some(no_such_step(at, &above, step)),
        }
        above = format!("{above}/{}", step.replace('~', "~0").replace('/', "~1"));
    }
    None
}

fn no_such_step(at: &Json, above: &str, step: &str) -> LeadsNowhere {
    let holder = || -> Message {
        if above.is_empty() { "the scenario".into() } else { whole_name(above).into() }
    };
    let at_path = |step: &str| whole_name(&format!("{above}/{step}"));
    let step = shorten(step);
    let (problem, cure) = match at {
        Json::Array(_)
            if place_in_list(&step).is_none()
                && step.trim_start_matches('+').parse::<usize>().is_ok() =>
        {
            let plain = step.trim_start_matches('+').trim_start_matches('0');
            let plain = if plain.is_empty() { "0" } else { plain };
            (
                says![
                    whole_name(&step),
                    " is no place in a list: it has no leading zeros and no sign"
                ],
                says!["write ", at_path(plain)],
            )
        }
        Json::Array(entries) => {
            let cure = match entries.len() {
                0 => "the list is empty: add an entry first".into(),
                1 => says!["the only one is ", at_path("0")],
                several => says![
                    "the first is ",
                    at_path("0"),
                    ", the last ",
                    at_path(&(several - 1).to_string())
                ],
            };
            let problem = says![
                holder(),
                " has ",
                count(entries.len()),
                if entries.len() == 1 { " entry" } else { " entries" },
                " and counting starts at 0: no entry ",
                typed(step)
            ];
            (problem, cure)
        }
        Json::Object(_) if above.is_empty() && step == OfScenario::OPTIONS.key() => {
            (OPTIONS_STAY.into(), INTO_THE_OPTION.into())
        }
        Json::Object(fields) => {
            let cure = match nearest(&step, fields.keys().map(String::as_str)) {
                Some(near) => says!["a field with a similar name is there: ", at_path(near)],
                None => {
                    let keys =
                        joined(fields.keys().take(20).map(|key| a_key(&shorten(key)).into()), ", ");
                    says![
                        "there is ",
                        if fields.is_empty() { "nothing".into() } else { keys },
                        "; \"add\" puts there what is not there yet"
                    ]
                }
            };
            (says![holder(), " has no ", a_key(&step)], cure)
        }
        single => (
            says![
                holder(),
                " is ",
                typed(shorten(&single.to_string())),
                ": there is no ",
                a_key(&step),
                " in it"
            ],
            "end the path there, or replace it by an object or a list".into(),
        ),
    };
    LeadsNowhere { problem, cure }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    /// RFC 6901, section 3: a pointer is empty or begins with "/"; "~" is followed by 0 or 1.
    #[test]
    fn what_is_no_pointer_is_told_with_the_reason() {
        let rows = [
            ("tankers[0].capacity", "begins with", "write \"/tankers/0/capacity\""),
            ("/tankers/~2", "\"~2\" stands for nothing", "~0 for ~"),
            ("/tankers~", "\"~\" stands for nothing", "~1 for /"),
        ];
        for (text, problem, cure) in rows {
            let told = no_pointer(text).unwrap();
            assert!(
                told.problem.in_file().contains(problem) && told.cure.in_file().contains(cure),
                "{text}: {told:?}"
            );
        }
        for text in ["", "/", "/tankers/0", "/a~0b~1c"] {
            assert_eq!(no_pointer(text), None, "{text}");
        }
    }

    #[test]
    fn the_first_step_that_is_not_there_is_told_with_what_is() {
        let document =
            json!({"fill_sites": [{"name": "Pond", "flow": 900}], "tankers": [1, 2], "none": []});
        // (pointer, whether the last step may be new, problem, cure; RFC 6901, section 4)
        let rows = [
            (
                "/fill_sites/1/flow",
                false,
                "has 1 entry and counting starts at 0",
                "\"/fill_sites/0\"",
            ),
            (
                "/tankers/2",
                false,
                "has 2 entries and counting starts at 0",
                "the last \"/tankers/1\"",
            ),
            ("/tankers/3", true, "has 2 entries", "/tankers/0"),
            ("/tankers/-", false, "no entry -", "/tankers/0"),
            ("/none/0", false, "0 entries", "empty"),
            ("/fill_sites/0/flwo", false, "has no `flwo`", "\"/fill_sites/0/flow\""),
            ("/fill_sites/0/flow/gpm", false, "is 900: there is no `gpm` in it", "end the path"),
            ("/options/0", false, "cannot change `options`", "the option itself"),
            ("/tankers/00", false, "no leading zeros", "write \"/tankers/0\""),
            ("/tankers/01", true, "no leading zeros", "write \"/tankers/1\""),
            ("/tankers/+1", false, "no sign", "write \"/tankers/1\""),
        ];
        for (pointer, to_add, problem, cure) in rows {
            let told = leads_nowhere(&document, pointer, to_add).unwrap();
            assert!(told.problem.in_file().contains(problem), "{pointer}: {told:?}");
            assert!(told.cure.in_file().contains(cure), "{pointer}: {told:?}");
        }
        for (pointer, to_add) in [
            ("", false),
            ("/tankers/1", false),
            ("/tankers/2", true),
            ("/tankers/-", true),
            ("/a", true),
        ] {
            assert_eq!(leads_nowhere(&document, pointer, to_add), None, "{pointer}");
        }
    }
}
