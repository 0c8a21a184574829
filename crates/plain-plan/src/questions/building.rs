//! A building asked for question by question: what the flow rules want to know of it.

use std::io::{BufRead, Write};
use std::path::Path;

use scenario_file::{ScenarioError, Units, building_schema, read_building};
use serde_json::{Map, Value, json};

use super::prompt::{Draft, Prompt, Refused};
use super::{AskError, Asking, Halt, Usual, all_asked};
use crate::amount::Amount;
use crate::sheets::sources_and_plan::units_of;
use crate::tidy_json::tidy;

/// Asks for a building.
///
/// - Given, errors: as [`super::ask`].
/// - Returns: the text of a building file, which was read and found sound.
pub fn ask_building(
    answers: impl BufRead,
    questions: impl Write,
    repeat_answers: bool,
) -> Result<String, AskError> {
    let prompt = Prompt::new(answers, questions, repeat_answers);
    all_asked(prompt, BuildingDraft::unsaid, Asking::<_, _, BuildingDraft>::all)
        .map(|draft| draft.text())
}

#[derive(Clone)]
struct BuildingDraft {
    units: Units,
    title: String,
    duration: Value,
    building: Map<String, Value>,
}

impl BuildingDraft {
    /// A sound one, so that each answer is checked in its place.
    fn unsaid() -> BuildingDraft {
        let building = json!({
            "length": 40, "width": 30, "stories": 1, "height": 10, "ridge": 0,
            "use": "dwelling", "construction": "wood frame", "contents": "limited", "involved": 1,
        });
        let Value::Object(building) = building else { unreachable!("braces make an object") };
        BuildingDraft { units: Units::Us, title: "?".to_owned(), duration: json!(120), building }
    }

    fn text(&self) -> String {
        tidy(&json!({
            "title": self.title,
            "notes": [
                "Made of what was asked. Measures from outside are estimates: what you see on the ground comes first.",
                "A plan on paper. The incident commander, local rules and what you see on the ground come first.",
            ],
            "units": if self.units == Units::Us { "us" } else { "metric" },
            "building": self.building,
            "rule": "area",
            "duration": self.duration,
        }))
    }
}

impl Draft for BuildingDraft {
    fn units(&self) -> Units {
        self.units
    }

    fn wrong(&self) -> Vec<Refused> {
        match read_building(Path::new("the building"), &self.text()) {
            Ok(_) => Vec::new(),
            Err(ScenarioError::Wrong(mistakes)) => (mistakes.list.into_iter())
                .map(|one| Refused {
                    problem: one.problem.in_file(),
                    limit: one.limit.map(|limit| limit.in_file()),
                    cure: one.cure.in_file(),
                })
                .collect(),
            Err(other) => vec![Refused {
                problem: other.to_string(),
                limit: None,
                cure: "say it in fewer words".to_owned(),
            }],
        }
    }
}

/// The words of a choice, as the format has them.
fn choices(key: &str) -> Vec<String> {
    let schema = building_schema();
    let words = &schema["$defs"]["building"]["properties"][key]["enum"];
    let words = words.as_array().into_iter().flatten();
    words.filter_map(|word| word.as_str().map(str::to_owned)).collect()
}

impl<I: BufRead, O: Write> Asking<I, O, BuildingDraft> {
    fn all(&mut self) -> Result<(), Halt> {
        self.words("Feet, or meters? us or metric", Some("us"), |draft, word| {
            match units_of(&word.to_lowercase()) {
                Some(units) => draft.units = units,
                None => return Err("write us or metric".to_owned()),
            }
            Ok(())
        })?;
        self.words("Which building is it, and where", None, |draft, words| {
            draft.title = words;
            Ok(())
        })?;
        self.measure("How long is it", "length", &Usual("40 ft", "12 m"))?;
        self.measure("How wide", "width", &Usual("30 ft", "9 m"))?;
        self.measure(
            "How many stories; count a basement that is lived in",
            "stories",
            &Usual("1", "1"),
        )?;
        self.measure(
            "How high from the lowest floor to the eaves, all stories together",
            "height",
            &Usual("10 ft", "3 m"),
        )?;
        self.measure(
            "How much higher is the ridge than the eaves; 0: a flat roof",
            "ridge",
            &Usual("8 ft", "2.5 m"),
        )?;
        self.optional_amount(
            "How high is its largest open space, to the underside of the roof, as in a barn or a shop? Enter: no \
             higher than a story",
            |draft, height| {
                draft.building.insert("open_height".to_owned(), height.json());
            },
        )?;
        self.choice("What is it used for; of a mix the worst", "use", "dwelling")?;
        if self.plan.building["use"] == "other" {
            self.measure(
                "Its occupancy hazard class by NFPA 1142, 3 (severe) to 7 (light)",
                "hazard_class",
                &Usual("5", "5"),
            )?;
        }
        self.choice("What is it built of; of a mix what burns most", "construction", "wood frame")?;
        self.choice("How do its contents burn; of a mix the worst", "contents", "combustible")?;
        self.measure(
            "What share of it burns when you begin; an interior attack can hope to meet 25% to 50% (common practice)",
            "involved",
            &Usual("100%", "100%"),
        )?;
        while self.optional_amount(
            "How far away is the next building beside it, wall to wall? Enter: no more",
            |draft, distance| {
                let beside = draft.building.entry("exposures").or_insert(json!([]));
                if let Some(list) = beside.as_array_mut() {
                    list.push(json!({"distance": distance.json(), "area": 1000}));
                }
            },
        )? {
            self.amount(
                "What ground does that one cover",
                &Usual("900 ft2", "80 m2"),
                |draft, area| {
                    let list = draft.building.get_mut("exposures").and_then(Value::as_array_mut);
                    if let Some(last) = list.and_then(|list| list.last_mut()) {
                        last["area"] = area.json();
                    }
                },
            )?;
        }
        self.amount(
            "For how long is the flow wanted",
            &Usual("120 min", "120 min"),
            |draft, time| {
                draft.duration = time.json();
            },
        )
    }

    fn measure(&mut self, question: &str, key: &str, usual: &Usual) -> Result<(), Halt> {
        self.amount(question, usual, |draft, amount: Amount| {
            draft.building.insert(key.to_owned(), amount.json());
        })
    }

    fn choice(&mut self, question: &str, key: &str, usual: &str) -> Result<(), Halt> {
        let words = choices(key);
        let asked = format!("{question}: {}", words.join(", "));
        self.words(&asked, Some(usual), |draft, typed| {
            let typed = typed.to_lowercase();
            let Some(word) = words.iter().find(|word| **word == typed) else {
                return Err(format!("write one of: {}", words.join(", ")));
            };
            draft.building.insert(key.to_owned(), json!(word));
            // A class has to be said with it, and is asked for next.
            if word == "other" {
                draft.building.insert("hazard_class".to_owned(), json!(5));
            } else if key == "use" {
                draft.building.remove("hazard_class");
            }
            Ok(())
        })
    }
}
