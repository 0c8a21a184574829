//! One question: asked, its answer checked in its place in the plan, explained and asked again where it is wrong.

use std::collections::VecDeque;
use std::io::{BufRead, Write};

use scenario_file::{Units, harmless};

use super::{AskError, Asking, Halt, Usual};
use crate::amount::Amount;

/// The longest answer that is read, bytes; longer ones are cut and then refused by the limits of the plan.
const LONGEST: u64 = 10_000;

/// What is made answer by answer: sound after each.
pub(super) trait Draft: Clone {
    /// The units of bare numbers.
    fn units(&self) -> Units;

    /// What is wrong with it; nothing where it is sound.
    fn wrong(&self) -> Vec<Refused>;
}

/// Why an answer is not taken.
pub(super) struct Refused {
    pub(super) problem: String,
    pub(super) limit: Option<String>,
    pub(super) cure: String,
}

/// Where questions go and answers come from.
pub(super) struct Prompt<I, O> {
    answers: I,
    questions: O,
    repeat_answers: bool,
    /// Every answer that was taken so far.
    taken: Vec<String>,
    /// Answers to be taken again, unasked, after a step back.
    again: VecDeque<String>,
}

/// What may be answered to a question.
#[derive(Clone, Copy)]
enum Answers {
    Words,
    Number,
}

impl Answers {
    fn told(self, usual: Option<&str>, needed: bool) -> String {
        let what = match self {
            Answers::Words => "words, as you say them",
            Answers::Number => {
                "a number, such as 2,000 or 2.5, alone or with its unit: 11,000 L, 400 gpm, 3 km, 90 s, 1.5 h"
            }
        };
        let enter = match (usual, needed) {
            (Some(usual), _) => format!("Enter alone: {usual}"),
            (None, true) => "it needs an answer".to_owned(),
            (None, false) => "Enter alone leaves it out".to_owned(),
        };
        format!("  What can be answered: {what}; {enter}. `back` goes to the question before.")
    }
}

impl<I: BufRead, O: Write> Prompt<I, O> {
    pub(super) fn new(answers: I, questions: O, repeat_answers: bool) -> Prompt<I, O> {
        let (taken, again) = (Vec::new(), VecDeque::new());
        Prompt { answers, questions, repeat_answers, taken, again }
    }

    pub(super) fn say(&mut self, words: &str) -> Result<(), Halt> {
        let said = writeln!(self.questions, "{}", harmless(words));
        said.and_then(|()| self.questions.flush()).map_err(failed)
    }

    /// Makes all answers but the last be taken again, unasked.
    pub(super) fn go_back(&mut self) {
        self.taken.pop();
        self.again = std::mem::take(&mut self.taken).into();
    }

    /// The answer, without the spaces around it; empty where Enter alone was pressed.
    fn answer(
        &mut self,
        question: &str,
        answers: Answers,
        usual: Option<&str>,
        needed: bool,
    ) -> Result<String, Halt> {
        if let Some(answer) = self.again.pop_front() {
            self.taken.push(answer.clone());
            return Ok(answer);
        }
        loop {
            let answer = self.line(question, usual)?;
            match answer.to_lowercase().as_str() {
                "back" if self.taken.is_empty() => self.say("  This is the first question.")?,
                "back" => return Err(Halt::Back),
                "?" => self.say(&answers.told(usual, needed))?,
                _ => {
                    self.taken.push(answer.clone());
                    return Ok(answer);
                }
            }
        }
    }

    fn line(&mut self, question: &str, usual: Option<&str>) -> Result<String, Halt> {
        let usual = usual.map(|usual| format!(" [{usual}]")).unwrap_or_default();
        write!(self.questions, "{question}{usual}\n> ")
            .and_then(|()| self.questions.flush())
            .map_err(failed)?;
        let mut line = Vec::new();
        let read = std::io::Read::take(&mut self.answers, LONGEST).read_until(b'\n', &mut line);
        if read.map_err(failed)? == 0 {
            return Err(Halt::Ended(AskError::EndOfAnswers));
        }
        let line = String::from_utf8_lossy(&line).trim().trim_start_matches('\u{feff}').to_owned();
        if self.repeat_answers {
            self.say(&line)?;
        }
        Ok(line)
    }
}

fn failed(why: std::io::Error) -> Halt {
    Halt::Ended(AskError::Terminal(why))
}

impl<I: BufRead, O: Write, D: Draft> Asking<I, O, D> {
    /// Takes an answer into the plan if the plan is sound with it, else says what is wrong.
    ///
    /// - Returns: whether it was taken.
    fn take(&mut self, put: impl FnOnce(&mut D) -> Result<(), String>) -> Result<bool, Halt> {
        let mut tried = self.plan.clone();
        if let Err(why) = put(&mut tried) {
            self.prompt.taken.pop();
            self.prompt.say(&format!("  Not taken: {why}."))?;
            return Ok(false);
        }
        // All that was said before is sound, so what is wrong is this answer.
        let wrong = tried.wrong();
        if wrong.is_empty() {
            self.plan = tried;
            return Ok(true);
        }
        self.prompt.taken.pop();
        for one in wrong {
            let limit = one.limit.map(|limit| format!("; {limit}")).unwrap_or_default();
            let (problem, cure) = (one.problem, capital(&one.cure));
            self.prompt.say(&format!("  Not taken: {problem}{limit}. {cure}."))?;
        }
        Ok(false)
    }

    /// Words that must be said.
    pub(super) fn words(
        &mut self,
        question: &str,
        usual: Option<&str>,
        put: impl Fn(&mut D, String) -> Result<(), String>,
    ) -> Result<(), Halt> {
        loop {
            let typed = self.prompt.answer(question, Answers::Words, usual, true)?;
            let words = match (typed.as_str(), usual) {
                ("", Some(usual)) => usual.to_owned(),
                ("", None) => {
                    self.prompt.taken.pop();
                    self.prompt.say("  This one needs an answer.")?;
                    continue;
                }
                _ => typed,
            };
            if self.take(|plan| put(plan, words))? {
                return Ok(());
            }
        }
    }

    /// Words that may be left out; whether they were said.
    pub(super) fn optional_words(
        &mut self,
        question: &str,
        put: impl Fn(&mut D, String) -> Result<(), String>,
    ) -> Result<bool, Halt> {
        loop {
            let typed = self.prompt.answer(question, Answers::Words, None, false)?;
            if typed.is_empty() {
                return Ok(false);
            }
            if self.take(|plan| put(plan, typed))? {
                return Ok(true);
            }
        }
    }

    /// A number.
    pub(super) fn amount(
        &mut self,
        question: &str,
        usual: &Usual,
        put: impl Fn(&mut D, Amount),
    ) -> Result<(), Halt> {
        let usual = usual.of(self.plan.units());
        loop {
            let typed = self.prompt.answer(question, Answers::Number, Some(usual), true)?;
            let typed = if typed.is_empty() { usual } else { &typed };
            if self.take_amount(typed, &put)? {
                return Ok(());
            }
        }
    }

    /// A number that may be left out; whether it was said.
    pub(super) fn optional_amount(
        &mut self,
        question: &str,
        put: impl Fn(&mut D, Amount),
    ) -> Result<bool, Halt> {
        loop {
            let typed = self.prompt.answer(question, Answers::Number, None, false)?;
            if typed.is_empty() {
                return Ok(false);
            }
            if self.take_amount(&typed, &put)? {
                return Ok(true);
            }
        }
    }

    fn take_amount(&mut self, typed: &str, put: &impl Fn(&mut D, Amount)) -> Result<bool, Halt> {
        self.take(|plan| match Amount::typed(typed) {
            Ok(amount) => {
                put(plan, amount);
                Ok(())
            }
            Err(why) => {
                let (problem, cure) = why.told();
                Err(format!("{problem}; {cure}"))
            }
        })
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
