//! A building as far as it was said: a file that is sound after each answer.

use std::path::Path;

use scenario_file::{ScenarioError, Units, building_schema, read_building};
use serde_json::{Map, Value, json};

use super::super::terminal::prompt::{Draft, Refused};
use crate::amount::Amount;
use crate::tidy_json::tidy;

/// Height of a story where nobody says more, ft and m. Common practice.
const STORY: (f64, f64) = (10.0, 3.0);

#[derive(Clone)]
pub(super) struct BuildingDraft {
    pub(super) units: Units,
    pub(super) title: String,
    /// `None`: it is not said, and the rules take what is usual.
    pub(super) duration: Option<Amount>,
    pub(super) building: Map<String, Value>,
    /// What the file has beside all this, by its keys: the rule, and notes.
    beside: Map<String, Value>,
}

impl BuildingDraft {
    /// A sound one, with what is usual.
    pub(super) fn unsaid(units: Units) -> BuildingDraft {
        let us = units == Units::Us;
        let feet = |feet: &str, meters: &str| if us { feet.to_owned() } else { meters.to_owned() };
        let building = json!({
            "length": feet("40 ft", "12 m"), "width": feet("30 ft", "9 m"), "stories": 1,
            "height": feet("10 ft", "3 m"), "ridge": feet("8 ft", "2.5 m"),
            "use": "dwelling", "construction": "wood frame", "contents": "limited", "involved": 1,
        });
        let Value::Object(building) = building else { unreachable!("braces make an object") };
        let duration = Amount::plain(120.0);
        let duration = duration.bare_in("min").unwrap_or(duration);
        let beside = Map::from_iter([
            (
                "notes".to_owned(),
                json!([
                    "Made of what was asked. Measures from outside are estimates: what you see on the ground comes first.",
                    "A plan on paper. The incident commander, local rules and what you see on the ground come first.",
                ]),
            ),
            ("rule".to_owned(), json!("area")),
        ]);
        BuildingDraft { units, title: "?".to_owned(), duration: Some(duration), building, beside }
    }

    /// One that is there; what is not asked for stays as it is.
    ///
    /// - Given: the text of a building file that was read and found sound.
    pub(super) fn opened(text: &str) -> BuildingDraft {
        let file = serde_json::from_str(text.strip_prefix('\u{feff}').unwrap_or(text));
        let mut file: Map<String, Value> = file.unwrap_or_default();
        let units = match file.remove("units") {
            Some(units) if units == "metric" => Units::Metric,
            _ => Units::Us,
        };
        let title = file.remove("title").and_then(|title| title.as_str().map(str::to_owned));
        let duration = file.remove("duration").map(|time| Amount::of_json(&time));
        let building = match file.remove("building") {
            Some(Value::Object(building)) => building,
            _ => Map::new(),
        };
        BuildingDraft { units, title: title.unwrap_or_default(), duration, building, beside: file }
    }

    pub(super) fn text(&self) -> String {
        let mut file = Map::new();
        let mut beside = self.beside.clone();
        file.insert("title".to_owned(), json!(self.title));
        file.extend(beside.remove("notes").map(|notes| ("notes".to_owned(), notes)));
        let units = if self.units == Units::Us { "us" } else { "metric" };
        file.insert("units".to_owned(), json!(units));
        file.insert("building".to_owned(), Value::Object(self.building.clone()));
        file.extend(beside);
        file.extend(self.duration.as_ref().map(|time| ("duration".to_owned(), time.json())));
        tidy(&Value::Object(file))
    }

    /// A measure, as it was said.
    pub(super) fn measure(&self, key: &str) -> Option<Amount> {
        self.building.get(key).map(Amount::of_json)
    }

    /// A word of a choice, as it was said.
    pub(super) fn word(&self, key: &str) -> String {
        self.building.get(key).and_then(Value::as_str).unwrap_or_default().to_owned()
    }

    /// How many of its values are such as nobody means.
    pub(super) fn slips(&self) -> usize {
        let read = read_building(Path::new("the building"), &self.text());
        read.map_or(0, |read| read.warnings.iter().filter(|one| one.is_doubt()).count())
    }

    /// The height that goes with the stories.
    pub(super) fn height_of_stories(&self) -> Option<Amount> {
        let stories = self.building.get("stories")?.as_f64()?;
        let (story, unit) = if self.units == Units::Us { (STORY.0, "ft") } else { (STORY.1, "m") };
        Amount::plain(stories * story).bare_in(unit)
    }

    /// How the contents burn that go with the use: as in the words for each of them in the format.
    pub(super) fn usual_contents(&self) -> &'static str {
        match self.word("use").as_str() {
            "dwelling" | "apartments" | "office" | "school" | "church" => "limited",
            "barn" | "sawmill" => "free burning",
            _ => "combustible",
        }
    }
}

impl Draft for BuildingDraft {
    fn units(&self) -> Units {
        self.units
    }

    fn checked(&self) -> Result<Vec<String>, Vec<Refused>> {
        match read_building(Path::new("the building"), &self.text()) {
            Ok(read) => Ok(read.warnings.into_iter().map(|one| one.text.in_file()).collect()),
            Err(ScenarioError::Wrong(mistakes)) => Err((mistakes.list.into_iter())
                .map(|one| Refused {
                    problem: one.problem.in_file(),
                    limit: one.limit.map(|limit| limit.in_file()),
                    cure: one.cure.in_file(),
                })
                .collect()),
            Err(other) => Err(vec![Refused {
                problem: other.to_string(),
                limit: None,
                cure: "say it in fewer words".to_owned(),
            }]),
        }
    }
}

/// The words of a choice, and what each of them means, as the format has them.
pub(super) fn choices(key: &str) -> (Vec<String>, String) {
    let schema = building_schema();
    let field = &schema["$defs"]["building"]["properties"][key];
    let words = field["enum"].as_array().into_iter().flatten();
    let words = words.filter_map(|word| word.as_str().map(str::to_owned)).collect();
    let meanings = field["description"].as_str().unwrap_or_default();
    (words, meanings.replace(" \"", "\n    \"").replace('`', ""))
}
