//! One question: asked, its answer checked in its place in the plan, explained and asked again where it is wrong.

use std::io::{BufRead, Write};

use scenario_file::harmless;

use super::{AskError, Asking, Usual};
use crate::amount::Amount;
use crate::first_plan::FirstPlan;
use crate::scenario_text::scenario_text;

/// The longest answer that is read, bytes; longer ones are cut and then refused by the limits of the plan.
const LONGEST: u64 = 10_000;

/// Where questions go and answers come from.
pub(super) struct Prompt<I, O> {
    pub(super) answers: I,
    pub(super) questions: O,
    pub(super) repeat_answers: bool,
}

impl<I: BufRead, O: Write> Prompt<I, O> {
    pub(super) fn say(&mut self, words: &str) -> Result<(), AskError> {
        let said = writeln!(self.questions, "{}", harmless(words));
        said.and_then(|()| self.questions.flush()).map_err(AskError::Terminal)
    }

    /// The answer, without the spaces around it; empty where Enter alone was pressed.
    fn answer(&mut self, question: &str, usual: Option<&str>) -> Result<String, AskError> {
        let usual = usual.map(|usual| format!(" [{usual}]")).unwrap_or_default();
        write!(self.questions, "{question}{usual}\n> ")
            .and_then(|()| self.questions.flush())
            .map_err(AskError::Terminal)?;
        let mut line = Vec::new();
        let read = std::io::Read::take(&mut self.answers, LONGEST).read_until(b'\n', &mut line);
        if read.map_err(AskError::Terminal)? == 0 {
            return Err(AskError::EndOfAnswers);
        }
        let line = String::from_utf8_lossy(&line).trim().trim_start_matches('\u{feff}').to_owned();
        if self.repeat_answers {
            self.say(&line)?;
        }
        Ok(line)
    }
}

impl<I: BufRead, O: Write> Asking<I, O> {
    /// Takes an answer into the plan if the plan is sound with it, else says what is wrong.
    ///
    /// - Returns: whether it was taken.
    fn take(
        &mut self,
        put: impl FnOnce(&mut FirstPlan) -> Result<(), String>,
    ) -> Result<bool, AskError> {
        let mut tried = self.plan.clone();
        if let Err(why) = put(&mut tried) {
            self.prompt.say(&format!("  Not taken: {why}."))?;
            return Ok(false);
        }
        // All that was said before is sound, so what is wrong is this answer.
        match scenario_text(&tried) {
            Ok(_) => {
                self.plan = tried;
                Ok(true)
            }
            Err(wrong) => {
                for one in wrong {
                    let limit = one.limit.map(|limit| format!("; {limit}")).unwrap_or_default();
                    self.prompt.say(&format!(
                        "  Not taken: {}{limit}. {}.",
                        one.problem,
                        capital(&one.cure)
                    ))?;
                }
                Ok(false)
            }
        }
    }

    /// Words that must be said.
    pub(super) fn words(
        &mut self,
        question: &str,
        usual: Option<&str>,
        put: impl Fn(&mut FirstPlan, String) -> Result<(), String>,
    ) -> Result<(), AskError> {
        loop {
            let typed = self.prompt.answer(question, usual)?;
            let words = match (typed.as_str(), usual) {
                ("", Some(usual)) => usual.to_owned(),
                ("", None) => {
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
        put: impl Fn(&mut FirstPlan, String) -> Result<(), String>,
    ) -> Result<bool, AskError> {
        loop {
            let typed = self.prompt.answer(question, None)?;
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
        put: impl Fn(&mut FirstPlan, Amount),
    ) -> Result<(), AskError> {
        let usual = usual.of(self.plan.units);
        loop {
            let typed = self.prompt.answer(question, Some(usual))?;
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
        put: impl Fn(&mut FirstPlan, Amount),
    ) -> Result<bool, AskError> {
        loop {
            let typed = self.prompt.answer(question, None)?;
            if typed.is_empty() {
                return Ok(false);
            }
            if self.take_amount(&typed, &put)? {
                return Ok(true);
            }
        }
    }

    fn take_amount(
        &mut self,
        typed: &str,
        put: &impl Fn(&mut FirstPlan, Amount),
    ) -> Result<bool, AskError> {
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
