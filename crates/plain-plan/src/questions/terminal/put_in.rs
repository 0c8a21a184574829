//! An answer put into what is made, if that is sound with it; explained and asked again where it is not.

use std::io::{BufRead, Write};

use super::super::{Asking, Halt};
use super::prompt::{Answers, Draft, Question};
use crate::amount::{Amount, NoAmount};
use crate::first_plan::FirstPlan;
use crate::part::Part;

/// What leaves out what can be left out, beside what stands in the brackets.
const NOTHING: [&str; 3] = ["none", "no", "-"];

impl<I: BufRead, O: Write, D: Draft> Asking<I, O, D> {
    /// Takes an answer into the plan if the plan is sound with it, else says what is wrong. What is odd about it, and
    /// was not before, is said and taken.
    ///
    /// - Returns: whether it was taken.
    pub(in crate::questions) fn take(
        &mut self,
        put: impl FnOnce(&mut D) -> Result<(), String>,
    ) -> Result<bool, Halt> {
        let is_taken = self.take_untold(put)?;
        if is_taken {
            let odd = self.plan.checked().unwrap_or_default();
            for one in odd.iter().filter(|one| !self.odd.contains(one)) {
                self.prompt.say(&format!("  Careful: {one} (it is taken; `back` mends it)"))?;
            }
            self.odd = odd;
        }
        Ok(is_taken)
    }

    /// The same, with nothing said of what is odd: it may be of what was put in until it is asked, next.
    fn take_untold(
        &mut self,
        put: impl FnOnce(&mut D) -> Result<(), String>,
    ) -> Result<bool, Halt> {
        let mut tried = self.plan.clone();
        if let Err(why) = put(&mut tried) {
            self.prompt.refuse(&format!("  Not taken: {why}."))?;
            return Ok(false);
        }
        // All that was said before is sound, so what is wrong is this answer.
        let Err(wrong) = tried.checked() else {
            self.plan = tried;
            return Ok(true);
        };
        let told = wrong.into_iter().map(|one| {
            let limit = one.limit.map(|limit| format!("; {limit}")).unwrap_or_default();
            format!("  Not taken: {}{limit}. {}.", one.problem, capital(&one.cure))
        });
        self.prompt.refuse(&told.collect::<Vec<_>>().join("\n"))?;
        Ok(false)
    }

    /// Words that must be said.
    pub(in crate::questions) fn words(
        &mut self,
        question: Question<'_>,
        usual: Option<&str>,
        put: impl Fn(&mut D, String) -> Result<(), String>,
    ) -> Result<(), Halt> {
        loop {
            let typed = self.prompt.answer(question, Answers::Words, usual)?;
            let words = match (typed.as_str(), usual) {
                ("", Some(usual)) => usual.to_owned(),
                ("", None) => {
                    self.prompt.refuse("  This one needs an answer.")?;
                    continue;
                }
                _ => typed,
            };
            if self.take(|plan| put(plan, words))? {
                return Ok(());
            }
        }
    }

    /// Words that may be left out; whether there are any.
    ///
    /// - Given: what there is, which Enter keeps, and what it means that there is nothing; what takes the words in,
    ///   `None` where they are left out.
    pub(in crate::questions) fn optional_words(
        &mut self,
        question: Question<'_>,
        (has, none): (Option<String>, &str),
        put: impl Fn(&mut D, Option<String>) -> Result<(), String>,
    ) -> Result<bool, Halt> {
        let shown = has.as_deref().unwrap_or(none);
        loop {
            let typed = self.prompt.answer(question, Answers::Words, Some(shown))?;
            if typed.is_empty() {
                return Ok(has.is_some());
            }
            let said = Some(typed).filter(|typed| !is_nothing(typed, none));
            let is_said = said.is_some();
            if self.take_untold(|plan| put(plan, said))? {
                return Ok(is_said);
            }
        }
    }

    /// A number; in brackets what the plan has, which Enter keeps.
    pub(in crate::questions) fn amount(
        &mut self,
        question: Question<'_>,
        answers: Answers,
        has: impl Fn(&D) -> Amount,
        put: impl Fn(&mut D, Amount),
    ) -> Result<(), Halt> {
        let kept = &has;
        let read = |plan: &D, typed: &str| match typed {
            "" => Ok(kept(plan)),
            _ => answers.read(typed),
        };
        self.amount_of(question, answers, kept, read, |plan, amount| {
            put(plan, amount);
            Ok(())
        })
    }

    /// The same where more than a number may be said.
    ///
    /// - Given: what reads an answer, empty where it is to be kept; what takes in what was read, or says why not.
    pub(in crate::questions) fn amount_of<T>(
        &mut self,
        question: Question<'_>,
        answers: Answers,
        has: impl Fn(&D) -> Amount,
        read: impl Fn(&D, &str) -> Result<T, NoAmount>,
        put: impl Fn(&mut D, T) -> Result<(), String>,
    ) -> Result<(), Halt> {
        loop {
            let shown = answers.shown(&has(&self.plan));
            let typed = self.prompt.answer(question, answers, Some(&shown))?;
            // Also what is kept is put: something may go with it.
            let taken = read(&self.plan, &typed);
            if self.take_read(taken, &put)? {
                return Ok(());
            }
        }
    }

    /// A number that may be left out; in brackets what the plan has, which Enter keeps, or what none means.
    pub(in crate::questions) fn optional_amount(
        &mut self,
        question: Question<'_>,
        answers: Answers,
        none: &str,
        has: impl Fn(&D) -> Option<Amount>,
        put: impl Fn(&mut D, Option<Amount>),
    ) -> Result<(), Halt> {
        let put = |plan: &mut D, amount| {
            put(plan, amount);
            Ok(())
        };
        self.optional_amount_if(question, answers, none, has, put)
    }

    /// The same where a number may be refused.
    ///
    /// - Given: what takes it in, or says why not.
    pub(in crate::questions) fn optional_amount_if(
        &mut self,
        question: Question<'_>,
        answers: Answers,
        none: &str,
        has: impl Fn(&D) -> Option<Amount>,
        put: impl Fn(&mut D, Option<Amount>) -> Result<(), String>,
    ) -> Result<(), Halt> {
        loop {
            let shown = has(&self.plan).map_or(none.to_owned(), |amount| answers.shown(&amount));
            let typed = self.prompt.answer(question, answers, Some(&shown))?;
            if typed.is_empty() {
                return Ok(());
            }
            let taken = if is_nothing(&typed, none) {
                self.take(|plan| put(plan, None))?
            } else {
                self.take_read(answers.read(&typed), |plan, amount| put(plan, Some(amount)))?
            };
            if taken {
                return Ok(());
            }
        }
    }

    fn take_read<T>(
        &mut self,
        typed: Result<T, NoAmount>,
        put: impl Fn(&mut D, T) -> Result<(), String>,
    ) -> Result<bool, Halt> {
        self.take(|plan| match typed {
            Ok(amount) => put(plan, amount),
            Err(why) => {
                let (problem, cure) = why.told();
                Err(format!("{problem}; {cure}"))
            }
        })
    }
}

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    /// The number that a part of the plan is; in brackets what it is, which Enter keeps.
    pub(in crate::questions) fn number(
        &mut self,
        part: Part,
        question: Question<'_>,
    ) -> Result<(), Halt> {
        let has = |plan: &FirstPlan| part.said(plan).unwrap_or(Amount::plain(0.0));
        self.amount(question, Answers::Number, has, |plan, amount| part.put(plan, Some(amount)))
    }

    /// The same of a part that may be left out.
    pub(in crate::questions) fn number_or(
        &mut self,
        part: Part,
        answers: Answers,
        question: Question<'_>,
        none: &str,
    ) -> Result<(), Halt> {
        let has = |plan: &FirstPlan| part.said(plan);
        self.optional_amount(question, answers, none, has, |plan, amount| part.put(plan, amount))
    }
}

/// Whether something that can be left out is.
fn is_nothing(typed: &str, none: &str) -> bool {
    let typed = typed.to_lowercase();
    NOTHING.contains(&typed.as_str()) || typed == none.to_lowercase()
}

pub(in crate::questions) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
