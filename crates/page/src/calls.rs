//! The calls: a text is read, a question is answered.

use std::path::Path;

use answers::json::{json, told_for_page};
use answers::question::{self, Budget};
use answers::say::{self, Piece, Sentence};
use answers::{Answer, Imprint, Reader};
use scenario_file::{Before, Scenario, ScenarioError, Units, Warning};
use serde::Serialize;
use shuttle_report::batch::Control;

use crate::asked::{Ask, Question};
use crate::reply::{Drawn, Read, Refused, Reply, Warned, mistakes};

/// Reads a text.
///
/// - Given: the name of its file, for messages; whether a truck that carries water is a tender to the reader.
pub fn read(name: &str, text: &str, tender: bool) -> Read {
    let before = Before::Page { tender };
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
            warnings: warned(scenario.warnings, before),
        },
        Err(error) => {
            let given_up = matches!(&error, ScenarioError::Wrong(wrong) if wrong.given_up);
            let warnings = warned(scenario_file::doubts_of(Path::new(name), text), before);
            Read::Wrong { mistakes: mistakes(error, before), given_up, warnings }
        }
    }
}

fn warned(warnings: Vec<Warning>, before: Before) -> Vec<Warned> {
    (warnings.into_iter())
        .map(|one| Warned {
            about: one.subject.to(before),
            kind: one.kind.key(),
            text: one.text.to(before),
            is_doubt: one.is_doubt(),
            place: one.place,
        })
        .collect()
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
        Err(error) => {
            let before = Before::Page { tender: ask.tender };
            return Reply::Wrong { mistakes: mistakes(error, before) };
        }
    };
    let reader =
        Reader { units: ask.units.map_or(scenario.units, Units::from), tender: ask.tender };
    let budget = Budget { replications: ask.runs, seed: ask.seed, threads: 1 };
    let control = Control::default();
    let mut given = Giving {
        reader,
        imprint: imprint_of(name),
        draws: ask.draws,
        reserve: kept_for_backing_out(&scenario).map(|told| reader.put(&told)),
    };
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
        Question::Card => given.reply(question::card::card(&scenario, budget, &control)),
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

/// "At 400 gal left in Engine 3 the crew backs out. A fire counts as short once those are gone too: how often they are
/// touched is told under Reserve."
pub(crate) fn kept_for_backing_out(scenario: &Scenario) -> Option<Sentence> {
    let facts = scenario.plan.facts();
    let reserve = facts.incident.reserve;
    (reserve > 0.0).then(|| {
        answers::say![
            "At ",
            Piece::Volume(reserve),
            " left in ",
            say::name(&facts.attack_engine.name),
            " the crew backs out. A fire counts as short only once those are gone too; how often they are touched \
             is told under Reserve.",
        ]
    })
}

fn has_site(scenario: &Scenario, site: usize) -> bool {
    site < scenario.plan.facts().fill_sites.len()
}

/// How answers are given.
struct Giving {
    reader: Reader,
    imprint: Imprint,
    draws: bool,
    reserve: Option<String>,
}

impl Giving {
    fn reply<F: Serialize>(&self, answer: Answer<F>) -> Reply {
        let pictures =
            if self.draws { drawn(&answer, &self.reader, &self.imprint) } else { Vec::new() };
        Reply::Answered {
            answer: json(&answer, &self.reader),
            told: told_for_page(&answer, &self.reader),
            reserve: self.reserve.clone(),
            pictures,
        }
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
        let Read::Wrong { mistakes: read, given_up, .. } = read("starter.json", &text, false)
        else {
            panic!("5 is no share")
        };
        assert_eq!((read[0].cure.as_str(), given_up), (mistakes[0].cure.as_str(), false));
    }

    /// Every message of a plan with many slips, to either reader: a page shows no file.
    #[test]
    fn a_page_is_told_of_no_key_and_no_command_and_in_the_readers_word() {
        let slips = [
            ("\"waste\": 0.05", "\"waste\": 5"),
            ("\"dump_rate\"", "\"dumprate\""),
            ("\"nurse\": true", "\"nurse\": \"yes\""),
            ("\"duration\": ", "\"x\": null, \"duration\": null, \"y\": "),
            ("\"response\": ", "\"response\": \"9 gal\", \"respnse\": "),
            ("\"miles\": ", "\"miles\": \"2,4\", \"km\": "),
        ];
        let mut told = Vec::new();
        for (from, to) in slips {
            for tender in [false, true] {
                let text = STARTER.replacen(from, to, 1);
                if let Read::Wrong { mistakes, .. } = read("starter.json", &text, tender) {
                    told.extend(mistakes.into_iter().flat_map(|one| {
                        [one.problem, one.limit.unwrap_or_default(), one.cure]
                            .map(|say| (tender, say))
                    }));
                }
            }
        }
        assert!(told.len() > 20, "{told:?}");
        for (tender, says) in &told {
            for word in ["`", "_", "bucketline", "null", "the key", "quotes", "braces", "brackets"]
            {
                assert!(!says.contains(word), "{word}: {says}");
            }
            assert!(!(*tender && says.contains("tanker")), "{says}");
        }
        assert!(
            told.iter().any(|(tender, says)| *tender && says == "a tender has no dumprate"),
            "{told:?}"
        );
    }

    #[test]
    fn a_value_that_nobody_means_is_told_also_while_something_is_missing() {
        let text =
            STARTER.replacen("\"miles\": ", "\"miles\": 20", 1).replace("\"duration\"", "\"x\"");
        let Read::Wrong { warnings, .. } = read("starter.json", &text, false) else {
            panic!("nobody says how long")
        };
        let far = warnings.iter().find(|one| one.is_doubt).expect("a road of hundreds of miles");
        assert_eq!(far.place, "fill_sites[0].out.miles");
    }

    #[test]
    fn pictures_come_where_they_are_wanted() {
        for (draws, expected) in [("false", 0), ("true", 1)] {
            let ask = format!(r#"{{"question": "lose", "runs": 64, "draws": {draws}}}"#);
            let Reply::Answered { pictures, reserve, .. } = asked(STARTER, &ask) else {
                panic!("the starter is sound")
            };
            assert!(reserve.is_some_and(|told| told.contains("the crew backs out")), "its reserve");
            assert_eq!(pictures.len(), expected);
            assert!(pictures.iter().all(|one| one.svg.starts_with("<svg")));
        }
    }
}
