//! A building asked for question by question: what the flow rules want to know of it.

mod draft;
mod words;

use std::cell::Cell;
use std::io::{BufRead, Write};

use scenario_file::Units;
use serde_json::{Value, json};

use super::terminal::prompt::{Answers, Draft, Prompt, Question};
use super::terminal::until_right::Told;
use super::{AskError, Asking, BEGIN, Depth, Halt, all_asked};
use crate::amount::Amount;
use crate::first_plan::alike;
use crate::sheets::sources_and_plan::units_of;
use draft::{BuildingDraft, choices};
use words::{Meant, meant};

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
    let unsaid = || BuildingDraft::unsaid(Units::Us);
    let asked = all_asked(prompt, BEGIN, unsaid, Asking::<_, _, BuildingDraft>::all);
    asked.map(|draft| draft.text())
}

/// Shows a building that is there, and asks for what is named of it.
///
/// - Given: the text of a building file that was read and found sound; the rest, and errors: as [`super::ask`].
/// - Returns: the text of the file as it is to be; `None` where nothing was changed.
pub fn ask_to_mend_building(
    text: &str,
    answers: impl BufRead,
    questions: impl Write,
    repeat_answers: bool,
) -> Result<Option<String>, AskError> {
    let prompt = Prompt::new(answers, questions, repeat_answers);
    let draft = BuildingDraft::opened(text);
    let asked = all_asked(prompt, OPEN, || draft.clone(), Asking::<_, _, BuildingDraft>::summary);
    asked.map(|mended| Some(mended.text()).filter(|text| *text != draft.text()))
}

/// What is said first of a building that is there.
const OPEN: &str = "The building is there: name what is to be changed. Enter keeps what stands in [brackets], `back` goes to \
                    the question before, `?` helps. Nothing is written before you say so.";

const HELP: &str = "Nothing is written yet. A number or its word asks that one again, with what it has in brackets; with a \
                    value behind it nothing is asked: `length 80`.";

/// What is asked of a building, in this order.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Topic {
    Title,
    Use,
    Length,
    Width,
    Stories,
    Height,
    Ridge,
    OpenHeight,
    Construction,
    Contents,
    Involved,
    Beside,
    Duration,
}

/// Each with the word it is called by in the summary.
const TOPICS: [(Topic, &str); 13] = [
    (Topic::Title, "name"),
    (Topic::Use, "use"),
    (Topic::Length, "length"),
    (Topic::Width, "width"),
    (Topic::Stories, "stories"),
    (Topic::Height, "eaves"),
    (Topic::Ridge, "ridge"),
    (Topic::OpenHeight, "open space"),
    (Topic::Construction, "construction"),
    (Topic::Contents, "contents"),
    (Topic::Involved, "burning"),
    (Topic::Beside, "beside"),
    (Topic::Duration, "duration"),
];

/// What it means that the duration is not said.
const NO_DURATION: &str = "not said";

/// The uses of buildings that have one story on the drawing and one high room behind it.
const OPEN_INSIDE: [&str; 6] = ["church", "store", "workshop", "barn", "sawmill", "other"];

impl<I: BufRead, O: Write> Asking<I, O, BuildingDraft> {
    fn all(&mut self) -> Result<(), Halt> {
        self.words(
            Question(
                "Feet, or meters? us or metric",
                "What a number without a unit counts as: ft and ft2, or m and m2.",
            ),
            Some("us"),
            |draft, word| match units_of(&word.to_lowercase()) {
                Some(units) => {
                    *draft = BuildingDraft::unsaid(units);
                    Ok(())
                }
                None => Err("write us or metric".to_owned()),
            },
        )?;
        self.prompt.forget_if_changed();
        for (topic, _) in TOPICS {
            let is_plain = !OPEN_INSIDE.contains(&self.plan.word("use").as_str());
            if topic == Topic::OpenHeight && is_plain {
                continue;
            }
            self.topic(topic, Depth::Usual)?;
        }
        self.summary()
    }

    /// Shows the building until it is right.
    fn summary(&mut self) -> Result<(), Halt> {
        self.until_right(told, HELP, wanted_of, |asking, (topic, value)| {
            value.into_iter().for_each(|value| asking.prompt.comes_next(value));
            asking.topic(topic, Depth::All)
        })
    }

    fn topic(&mut self, topic: Topic, depth: Depth) -> Result<(), Halt> {
        match topic {
            Topic::Title => {
                let known = (depth == Depth::All).then(|| self.plan.title.clone());
                self.words(
                    Question(
                        "Which building is it, and where",
                        "Such as: Machinery shed, County Road 14. It stands above the answer.",
                    ),
                    known.as_deref(),
                    |draft, words| {
                        draft.title = words;
                        Ok(())
                    },
                )
            }
            Topic::Use => self.use_and_class(depth),
            Topic::Length => {
                self.measure("length", "How long is it", "Outside, wall to wall; paced off will do.")
            }
            Topic::Width => self.measure("width", "How wide", "Outside too; of an L the wings together, so that the area is right."),
            Topic::Stories => {
                self.measure(
                    "stories",
                    "How many stories; count a basement that is lived in",
                    "Floors one above the other; a loft that holds hay or is lived in counts, an empty attic does not.",
                )?;
                if depth == Depth::Usual
                    && let Some(height) = self.plan.height_of_stories()
                {
                    self.plan.building.insert("height".to_owned(), height.json());
                }
                Ok(())
            }
            Topic::Height => self.measure(
                "height",
                "How high from the lowest floor to the eaves, all stories together",
                "In brackets stands what the stories make, 10 ft or 3 m each (common practice); a barn or a shop is higher.",
            ),
            Topic::Ridge => self.measure(
                "ridge",
                "How much higher is the ridge than the eaves; 0: a flat roof",
                "6 to 12 ft are usual under a pitched roof (judgement). Half of it counts as volume.",
            ),
            Topic::OpenHeight => self.optional_amount(
                Question(
                    "How high is its largest open space, to the underside of the roof",
                    "The rule volume / 100 counts one open space as one: a barn up to its roof, a shop up to its ceiling.",
                ),
                Answers::Number,
                "no higher than a story",
                |draft| draft.measure("open_height"),
                |draft, height| put(draft, "open_height", height),
            ),
            Topic::Construction => self.choice(
                "What is it built of; of a mix what burns most",
                "construction",
                |_, _| {},
            ),
            Topic::Contents => {
                self.choice("How do its contents burn; of a mix the worst", "contents", |_, _| {})
            }
            Topic::Involved => self.amount(
                Question(
                    "What share of it burns when you begin",
                    "An interior attack can hope to meet 25% to 50%; a barn that is seen from the road burns whole (common \
                     practice).",
                ),
                Answers::Share,
                |draft| draft.measure("involved").unwrap_or(Amount::plain(1.0)),
                |draft, share| put(draft, "involved", Some(share)),
            ),
            Topic::Beside => self.beside(),
            Topic::Duration => self.optional_amount(
                Question(
                    "For how long is the flow wanted",
                    "Surveys ask for two hours or more (common practice); a barn of hay takes longer.",
                ),
                Answers::Number,
                NO_DURATION,
                |draft| draft.duration.clone(),
                |draft, time| draft.duration = time,
            ),
        }
    }

    fn use_and_class(&mut self, depth: Depth) -> Result<(), Halt> {
        self.choice("What is it used for; of a mix the worst", "use", |draft, word| {
            // A class has to be said with it, and is asked for next.
            if word == "other" {
                draft.building.entry("hazard_class").or_insert(json!(5));
            } else {
                draft.building.remove("hazard_class");
            }
            if depth == Depth::Usual {
                let contents = draft.usual_contents();
                draft.building.insert("contents".to_owned(), json!(contents));
            }
        })?;
        if self.plan.word("use") != "other" {
            return Ok(());
        }
        self.measure(
            "hazard_class",
            "Its occupancy hazard class by NFPA 1142, 3 (severe) to 7 (light)",
            "3: burns fast and hard, as lumber, fuel, feed mills; 4: as barns and repair shops; 5: as stores; 6: as churches; \
             7: as dwellings and offices. The code in force says which (classes of these uses: values from memory).",
        )
    }

    fn beside(&mut self) -> Result<(), Halt> {
        // All of them are asked for once more.
        self.plan.building.remove("exposures");
        loop {
            let before = exposures(&self.plan);
            self.optional_amount(
                Question(
                    "How far away is the next building beside it, wall to wall",
                    "Those within 50 ft (15 m) count in the rules (NFPA 1142); name each.",
                ),
                Answers::Number,
                "no more",
                |_| None,
                |draft, distance| {
                    let area = if draft.units() == Units::Us { "900 ft2" } else { "80 m2" };
                    let Some(distance) = distance else { return };
                    let beside = draft.building.entry("exposures").or_insert(json!([]));
                    if let Some(list) = beside.as_array_mut() {
                        list.push(json!({"distance": distance.json(), "area": area}));
                    }
                },
            )?;
            let Some(last) = exposures(&self.plan).checked_sub(1).filter(|last| *last >= before)
            else {
                return Ok(());
            };
            self.amount(
                Question("What ground does that one cover", "Its length times its width."),
                Answers::Number,
                |draft| Amount::of_json(&draft.building["exposures"][last]["area"]),
                |draft, area| draft.building["exposures"][last]["area"] = area.json(),
            )?;
        }
    }

    fn measure(&mut self, key: &str, question: &str, help: &str) -> Result<(), Halt> {
        self.amount(
            Question(question, help),
            Answers::Number,
            |draft| draft.measure(key).unwrap_or(Amount::plain(1.0)),
            |draft, amount| put(draft, key, Some(amount)),
        )
    }

    fn choice(
        &mut self,
        question: &str,
        key: &str,
        with: impl Fn(&mut BuildingDraft, &str),
    ) -> Result<(), Halt> {
        let (words, meanings) = choices(key);
        let asked = format!("{question}: {}", words.join(", "));
        let known = self.plan.word(key);
        let taken_as = Cell::new(None);
        self.words(Question(&asked, &meanings), Some(&known), |draft, typed| {
            let word = match meant(&typed, &words) {
                Meant::Word(word) => word,
                Meant::Kind(word) => {
                    taken_as.set(Some(format!("  {typed} is taken as {word}; `back` mends it.")));
                    word
                }
                Meant::Nothing(near) => {
                    let near =
                        near.map(|near| format!("did you mean {near}? ")).unwrap_or_default();
                    return Err(format!(
                        "{near}write one of: {}; `?` says what each means",
                        words.join(", ")
                    ));
                }
            };
            draft.building.insert(key.to_owned(), json!(word));
            with(draft, word);
            Ok(())
        })?;
        taken_as.take().map_or(Ok(()), |told| self.prompt.say(&told))
    }
}

fn put(draft: &mut BuildingDraft, key: &str, amount: Option<Amount>) {
    match amount {
        Some(amount) => draft.building.insert(key.to_owned(), amount.json()),
        None => draft.building.remove(key),
    };
}

fn exposures(draft: &BuildingDraft) -> usize {
    draft.building.get("exposures").and_then(Value::as_array).map_or(0, Vec::len)
}

/// The building in plain sentences, one a line, and what is odd about it.
fn told(draft: &BuildingDraft) -> Told {
    let lines = TOPICS.into_iter().map(|(topic, word)| format!("{word}: {}", said(draft, topic)));
    Told {
        head: "The building, as you said it:",
        lines: lines.collect(),
        besides: Vec::new(),
        odd: draft.checked().unwrap_or_default(),
        slips: draft.slips(),
        asked: "Is it right? A number or a word mends that one, as `3` or `length 80`",
    }
}

fn said(draft: &BuildingDraft, topic: Topic) -> String {
    let unit = if draft.units() == Units::Us { "ft" } else { "m" };
    let measure = |key: &str| draft.measure(key).map(|amount| amount.told_in(unit));
    let of = |key: &str, rest: &str| format!("{} {rest}", measure(key).unwrap_or_default());
    match topic {
        Topic::Title => draft.title.clone(),
        Topic::Use => match draft.measure("hazard_class") {
            Some(class) => format!("{}, of hazard class {}", draft.word("use"), class.told()),
            None => draft.word("use"),
        },
        Topic::Length => of("length", "long"),
        Topic::Width => of("width", "wide"),
        Topic::Stories => draft.measure("stories").map(|one| one.told()).unwrap_or_default(),
        Topic::Height => of("height", "from the lowest floor to the eaves"),
        Topic::Ridge => of("ridge", "from the eaves up to the ridge"),
        Topic::OpenHeight => measure("open_height")
            .map_or("no higher than a story".to_owned(), |high| format!("{high} high")),
        Topic::Construction => draft.word("construction"),
        Topic::Contents => draft.word("contents"),
        Topic::Involved => {
            let share = draft.measure("involved").map(|share| share.told_as_share());
            format!("{} of it when you begin", share.unwrap_or_default())
        }
        Topic::Beside => {
            let list = draft.building.get("exposures").and_then(Value::as_array);
            let far = list.into_iter().flatten().map(|one| Amount::of_json(&one["distance"]));
            let far: Vec<String> = far.map(|one| one.told_in(unit)).collect();
            if far.is_empty() {
                "no building near".to_owned()
            } else {
                format!("{} away", far.join(", "))
            }
        }
        Topic::Duration => {
            draft.duration.as_ref().map_or(NO_DURATION.to_owned(), |time| time.told_in("min"))
        }
    }
}

/// What was meant by a number or a word, and the value behind it: `3`, `length`, `length 80`, `open space 20 ft`.
fn wanted_of(_: &BuildingDraft, typed: &str) -> Result<(Topic, Option<String>), String> {
    let words: Vec<&str> = typed.split_whitespace().collect();
    let found = (1..=words.len()).rev().find_map(|count| {
        let called = words[..count].join(" ");
        let named = TOPICS.iter().find(|(_, word)| alike(word, &called));
        let number = called.parse::<usize>().ok();
        let counted = || TOPICS.get(number?.checked_sub(1)?);
        let (topic, _) = named.or_else(counted)?;
        let value = words[count..].join(" ");
        Some((*topic, Some(value).filter(|value| !value.is_empty())))
    });
    found.ok_or_else(|| {
        format!(
            "write a number from 1 to {}, or a word as it stands there; Enter alone writes the building",
            TOPICS.len()
        )
    })
}
