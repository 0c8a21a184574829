//! What the page may ask, and what it gets.

use std::path::Path;

use answers::json::json;
use answers::question::{self, Budget};
use answers::{Answer, Imprint, Reader};
use scenario_file::{Scenario, ScenarioError, Units};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use shuttle_report::batch::Control;

/// A question with all it depends on.
#[derive(Debug, Clone, Deserialize)]
pub struct Ask {
    /// Which question.
    #[serde(flatten)]
    pub question: Question,
    /// Most simulated fires, as the command's `--runs`.
    #[serde(default = "usual_runs")]
    pub runs: u64,
    /// Seed of all luck.
    #[serde(default = "usual_seed")]
    pub seed: u64,
    /// Whether a truck that carries water is a tender to the reader.
    #[serde(default)]
    pub tender: bool,
    /// Units of the answer; those of the scenario where they are not stated.
    #[serde(default)]
    pub units: Option<Unit>,
    /// Whether its pictures are wanted too.
    #[serde(default)]
    pub draws: bool,
}

/// As the command does where nothing else is said.
fn usual_runs() -> u64 {
    20_000
}

fn usual_seed() -> u64 {
    1
}

fn usual_target() -> f64 {
    0.05
}

fn usual_share() -> f64 {
    0.95
}

fn usual_beyond() -> usize {
    6
}

/// Units by their word in a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// US gallons and miles.
    Us,
    /// Litres and kilometres.
    Metric,
}

impl From<Unit> for Units {
    fn from(unit: Unit) -> Units {
        match unit {
            Unit::Us => Units::Us,
            Unit::Metric => Units::Metric,
        }
    }
}

/// A question: the name of the command, and what the command can be told.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(tag = "question", rename_all = "snake_case")]
pub enum Question {
    /// How often the lines run short.
    Risk {
        /// Whether changes that may help are tried as well.
        tries_help: bool,
    },
    /// What the plan comes to by hand.
    Check,
    /// How many tankers.
    Size {
        /// Chance of running short to stay below.
        #[serde(default = "usual_target")]
        target: f64,
        /// Tankers to try beyond those listed.
        #[serde(default = "usual_beyond")]
        beyond: usize,
    },
    /// Whom to ask, and when.
    Request {
        /// Chance of running short to stay below.
        #[serde(default = "usual_target")]
        target: f64,
    },
    /// What if one thing is lost.
    Lose {
        /// Chance of running short to stay below.
        #[serde(default = "usual_target")]
        target: f64,
    },
    /// What flow can be held, and from which minute.
    Hold {
        /// Share of fires in which the flow must hold.
        #[serde(default = "usual_share")]
        share: f64,
    },
    /// What a minute or a hundred gpm is worth.
    Levers,
    /// Which fill site is good for what.
    Grade {
        /// Share of fires in which the flow must hold.
        #[serde(default = "usual_share")]
        share: f64,
    },
    /// How far from water a flow holds.
    Reach {
        /// The fill site that moves, by place in the list.
        #[serde(default)]
        site: usize,
        /// Share of fires in which the flow must hold.
        #[serde(default = "usual_share")]
        share: f64,
        /// The day, for the chart: nothing here knows a clock.
        today: Day,
    },
    /// Options side by side.
    Compare,
}

/// A day, as the browser knows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub struct Day {
    /// Year.
    pub year: i64,
    /// Month, from 1.
    pub month: u32,
    /// Day of the month, from 1.
    pub day: u32,
}

impl From<Day> for answers::Date {
    fn from(Day { year, month, day }: Day) -> answers::Date {
        answers::Date { year, month, day }
    }
}

/// What is wrong with a text, in the words of the command.
#[derive(Debug, Clone, Serialize)]
pub struct Wrong {
    /// Path of keys, such as `tankers[1].capacity`; empty for the whole text.
    pub place: String,
    /// Line, from 1; 0 where the text was not looked into.
    pub line: usize,
    /// Column in characters, from 1; 0 as above.
    pub column: usize,
    /// What is wrong.
    pub problem: String,
    /// What is allowed, where that says more.
    pub limit: Option<String>,
    /// What would likely put it right.
    pub cure: String,
}

/// A text as it was read.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "read", rename_all = "snake_case")]
pub enum Read {
    /// It may run.
    Sound {
        /// The units of its bare numbers.
        units: &'static str,
        /// What a person should know and need not fix.
        warnings: Vec<Warned>,
        /// Whether it lists anyone who could be asked for.
        can_request: bool,
        /// How many options it lists.
        options: usize,
        /// Its fill sites by name.
        fill_sites: Vec<String>,
    },
    /// It may not.
    Wrong {
        /// Every mistake, in the order of the text.
        mistakes: Vec<Wrong>,
        /// Whether the search stopped because there were too many.
        given_up: bool,
    },
}

/// A warning.
#[derive(Debug, Clone, Serialize)]
pub struct Warned {
    /// Path of keys.
    pub place: String,
    /// What it is about, in words; empty where the text says it.
    pub subject: String,
    /// What to know.
    pub text: String,
    /// Whether it asks about a value that nobody means.
    pub is_doubt: bool,
}

/// Why a sound scenario gets no answer to a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Refused {
    /// Everyone comes anyway.
    NobodyToAsk,
    /// There is only one plan.
    NothingToCompare,
    /// There is no fill site of this number.
    NoSuchSite,
    /// A share or target is not between 0 and 1, or the runs are none or beyond all use.
    OutOfRange,
}

/// A picture of an answer.
#[derive(Debug, Clone, Serialize)]
pub struct Drawn {
    /// The name of its file, without an ending.
    pub name: String,
    /// SVG.
    pub svg: String,
}

/// What comes of a question.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "reply", rename_all = "snake_case")]
#[allow(clippy::large_enum_variant)] // One of a kind, serialized at once.
pub enum ReplyOf<T> {
    /// The answer.
    Answered {
        /// As the command prints it with `--json`; of a fire, with what the clock shows.
        answer: T,
        /// Its pictures, where they were wanted.
        pictures: Vec<Drawn>,
    },
    /// The scenario is sound and has no answer to this.
    Refused {
        /// Why.
        why: Refused,
    },
    /// The text may not run.
    Wrong {
        /// Every mistake.
        mistakes: Vec<Wrong>,
    },
}

/// What comes of a question that the command answers too.
pub type Reply = ReplyOf<Value>;

/// Reads a text.
///
/// - Given: the name of its file, for messages.
pub fn read(name: &str, text: &str) -> Read {
    match scenario_file::read(Path::new(name), text) {
        Ok(scenario) => Read::Sound {
            units: match scenario.units {
                Units::Us => "us",
                Units::Metric => "metric",
            },
            can_request: question::request::has_aid(&scenario),
            options: scenario.options.len(),
            fill_sites: (scenario.plan.facts().fill_sites.iter())
                .map(|site| site.name.clone())
                .collect(),
            warnings: (scenario.warnings.into_iter())
                .map(|one| Warned {
                    place: one.place,
                    subject: one.subject,
                    text: one.text,
                    is_doubt: one.is_doubt,
                })
                .collect(),
        },
        Err(error) => {
            let given_up = matches!(&error, ScenarioError::Wrong(wrong) if wrong.given_up);
            Read::Wrong { mistakes: mistakes(error), given_up }
        }
    }
}

/// Every mistake of a text that may not run.
pub(crate) fn mistakes(error: ScenarioError) -> Vec<Wrong> {
    match error {
        ScenarioError::Wrong(wrong) => (wrong.list.into_iter())
            .map(|one| Wrong {
                place: one.place,
                line: one.line,
                column: one.column,
                problem: one.problem,
                limit: one.limit,
                cure: one.cure,
            })
            .collect(),
        ScenarioError::Asked(wrong) => (wrong.list.into_iter())
            .map(|one| Wrong {
                place: one.argument,
                line: 0,
                column: 0,
                problem: one.problem,
                limit: one.limit,
                cure: one.cure,
            })
            .collect(),
        ScenarioError::Unreadable { problem, cure, .. } => {
            vec![Wrong { place: String::new(), line: 0, column: 0, problem, limit: None, cure }]
        }
    }
}

/// Answers a question, on the one thread there is.
///
/// - Given: the name of the scenario's file, for messages, and its text.
pub fn answer(name: &str, text: &str, ask: &Ask) -> Reply {
    if !ask.is_within_limits() {
        return Reply::Refused { why: Refused::OutOfRange };
    }
    let scenario = match scenario_file::read(Path::new(name), text) {
        Ok(scenario) => scenario,
        Err(error) => return Reply::Wrong { mistakes: mistakes(error) },
    };
    let reader =
        Reader { units: ask.units.map_or(scenario.units, Units::from), tender: ask.tender };
    let budget = Budget { replications: ask.runs, seed: ask.seed, threads: 1 };
    let control = Control::default();
    let mut given = Giving { reader, imprint: imprint_of(name), draws: ask.draws };
    match ask.question {
        Question::Risk { tries_help } => {
            given.reply(question::risk::risk(&scenario, budget, tries_help, &control))
        }
        Question::Check => given.reply(question::check::check(&scenario)),
        Question::Size { target, beyond } => {
            let asked = question::size::Asked { target, beyond_listed: beyond };
            given.reply(question::size::size(&scenario, budget, asked, &control))
        }
        Question::Request { .. } if !question::request::has_aid(&scenario) => {
            Reply::Refused { why: Refused::NobodyToAsk }
        }
        Question::Request { target } => {
            let asked = question::request::Asked { target, spare: true };
            given.reply(question::request::request(&scenario, budget, asked, &control))
        }
        Question::Lose { target } => {
            given.reply(question::lose::lose(&scenario, target, budget, &control))
        }
        Question::Hold { share } => {
            let asked = question::hold::Asked { minutes: Vec::new(), share };
            given.reply(question::hold::hold(&scenario, &asked, budget, &control))
        }
        Question::Levers => given.reply(question::levers::levers(&scenario, budget, &control)),
        Question::Grade { share } => {
            let scenarios = std::slice::from_ref(&scenario);
            // Many addresses are a row each, as the command has it.
            if scenario.survey.addresses.is_empty() {
                given.reply(question::grade::grade(scenarios, &[], share, budget, &control).answer)
            } else {
                let graded =
                    question::grade::grade_addresses(scenarios, &[], share, budget, &control);
                given.reply(graded.answer)
            }
        }
        Question::Reach { site, .. } if !has_site(&scenario, site) => {
            Reply::Refused { why: Refused::NoSuchSite }
        }
        Question::Reach { site, share, today } => {
            let asked = question::reach::Asked { site, wanted_gpm: None, share };
            given.imprint.day = Some(today.into());
            given.reply(question::reach::reach(&scenario, asked, budget, &control))
        }
        Question::Compare => {
            let scenarios = [scenario];
            if question::compare::plans_to_compare(&scenarios) < 2 {
                return Reply::Refused { why: Refused::NothingToCompare };
            }
            given.reply(question::compare::compare(&scenarios, None, budget, &control))
        }
    }
}

fn has_site(scenario: &Scenario, site: usize) -> bool {
    site < scenario.plan.facts().fill_sites.len()
}

impl Ask {
    /// Whether every number is one that the command line would take.
    fn is_within_limits(&self) -> bool {
        let share = match self.question {
            Question::Size { target, .. }
            | Question::Request { target }
            | Question::Lose { target } => target,
            Question::Grade { share }
            | Question::Reach { share, .. }
            | Question::Hold { share } => share,
            Question::Risk { .. } | Question::Check | Question::Levers | Question::Compare => 0.5,
        };
        let beyond = match self.question {
            Question::Size { beyond, .. } => beyond,
            _ => 0,
        };
        share > 0.0 && share < 1.0 && beyond <= 100 && (1..=1_000_000_000).contains(&self.runs)
    }
}

/// How answers are given.
struct Giving {
    reader: Reader,
    imprint: Imprint,
    draws: bool,
}

impl Giving {
    fn reply<F: Serialize>(&self, answer: Answer<F>) -> Reply {
        let pictures =
            if self.draws { drawn(&answer, &self.reader, &self.imprint) } else { Vec::new() };
        Reply::Answered { answer: json(&answer, &self.reader), pictures }
    }
}

/// What the foot of a picture says of a file of this name.
pub(crate) fn imprint_of(name: &str) -> Imprint {
    Imprint { file: Some(name.to_owned()), ..Imprint::default() }
}

/// The pictures of an answer; one that cannot be drawn is left out, as its figures stand in the tables.
pub(crate) fn drawn<F>(answer: &Answer<F>, reader: &Reader, imprint: &Imprint) -> Vec<Drawn> {
    (answer.pictures.iter())
        .filter_map(|picture| {
            let svg = answer.drawn(picture, reader, imprint).ok()?;
            Some(Drawn { name: picture.name.clone().into_owned(), svg })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use scenario_file::STARTER;

    use super::*;

    fn asked(text: &str, ask: &str) -> Reply {
        answer("starter.json", text, &serde_json::from_str(ask).expect("a question"))
    }

    #[test]
    fn what_has_no_answer_is_refused_with_its_reason() {
        for (ask, expected) in [
            (r#"{"question": "size", "target": 0}"#, Refused::OutOfRange),
            (r#"{"question": "lose", "target": 1.5}"#, Refused::OutOfRange),
            (r#"{"question": "size", "beyond": 101}"#, Refused::OutOfRange),
            (r#"{"question": "check", "runs": 0}"#, Refused::OutOfRange),
            (r#"{"question": "compare"}"#, Refused::NothingToCompare),
            (
                r#"{"question": "reach", "site": 1, "today": {"year": 2026, "month": 1, "day": 1}}"#,
                Refused::NoSuchSite,
            ),
        ] {
            let Reply::Refused { why } = asked(STARTER, ask) else { panic!("{ask} is answered") };
            assert_eq!(why, expected, "{ask}");
        }
        let alone = STARTER.replace("\"requested_at\": 4,", "");
        let Reply::Refused { why } = asked(&alone, r#"{"question": "request"}"#) else {
            panic!("everyone comes anyway")
        };
        assert_eq!(why, Refused::NobodyToAsk);
    }

    #[test]
    fn a_mistake_is_told_for_its_place_whatever_is_asked() {
        let text = STARTER.replace("\"waste\": 0.05", "\"waste\": 5");
        let Reply::Wrong { mistakes } = asked(&text, r#"{"question": "check"}"#) else {
            panic!("5 is no share")
        };
        assert_eq!(mistakes[0].place, "tankers[0].waste");
        let Read::Wrong { mistakes: read, given_up } = read("starter.json", &text) else {
            panic!("5 is no share")
        };
        assert_eq!((read[0].cure.as_str(), given_up), (mistakes[0].cure.as_str(), false));
    }

    #[test]
    fn pictures_come_where_they_are_wanted() {
        for (draws, expected) in [("false", 0), ("true", 1)] {
            let ask = format!(r#"{{"question": "lose", "runs": 64, "draws": {draws}}}"#);
            let Reply::Answered { pictures, .. } = asked(STARTER, &ask) else {
                panic!("the starter is sound")
            };
            assert_eq!(pictures.len(), expected);
            assert!(pictures.iter().all(|one| one.svg.starts_with("<svg")));
        }
    }
}
