//! One question: asked, its answer checked in its place in the plan, explained and asked again where it is wrong.

use std::collections::VecDeque;
use std::io::{BufRead, Write};

use scenario_file::{Units, harmless};

use super::{AskError, Asking, Halt};
use crate::amount::{Amount, NoAmount};

/// The longest line that is read, bytes; longer ones are cut and then refused by the limits of the plan.
const LONGEST: u64 = 10_000;

/// Columns.
const WIDTH: usize = 100;

/// Between several answers on one line.
const NEXT: char = ';';

/// What leaves out what can be left out, beside what stands in the brackets.
const NOTHING: [&str; 3] = ["none", "no", "-"];

/// What is made answer by answer: sound after each.
pub(super) trait Draft: Clone {
    /// The units of bare numbers.
    fn units(&self) -> Units;

    /// What is odd about it and likely a slip.
    ///
    /// - Errors: what is wrong with it.
    fn checked(&self) -> Result<Vec<String>, Vec<Refused>>;
}

/// Why an answer is not taken.
pub(super) struct Refused {
    pub(super) problem: String,
    pub(super) limit: Option<String>,
    pub(super) cure: String,
}

/// A question, and what `?` says of it beside how it can be answered.
#[derive(Clone, Copy)]
pub(super) struct Question<'a>(pub(super) &'a str, pub(super) &'a str);

/// Where questions go and answers come from.
pub(super) struct Prompt<I, O> {
    answers: I,
    questions: O,
    repeat_answers: bool,
    /// Every answer that was taken so far.
    taken: Vec<String>,
    /// Answers to be taken again, unasked, after a step back.
    again: VecDeque<String>,
    /// Answers that stood on one line with the last one.
    ahead: VecDeque<String>,
    /// Whether the last answer was taken again, unasked: what there is to say of it was said.
    is_unasked: bool,
}

/// What may be answered to a question.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Answers {
    Words,
    Number,
    /// How often of all times.
    Often,
    /// What part of a whole.
    Share,
}

impl Answers {
    fn told(self) -> &'static str {
        match self {
            Answers::Words => "words, as you say them",
            Answers::Number => {
                "a number, such as 2,000 or 2.5, alone or with its unit: 11,000 L, 400 gpm, 3 km, 90 s, 1.5 h"
            }
            Answers::Often => "such as always, 4 in 5, or 80%",
            Answers::Share => "a percentage such as 50%, or all",
        }
    }

    fn read(self, typed: &str) -> Result<Amount, NoAmount> {
        match self {
            Answers::Often => Amount::how_often(typed),
            Answers::Share => Amount::share(typed),
            Answers::Number | Answers::Words => Amount::typed(typed),
        }
    }

    /// An amount as it can be typed again.
    fn shown(self, amount: &Amount) -> String {
        match self {
            Answers::Often | Answers::Share => amount.told_as_share(),
            Answers::Number | Answers::Words => amount.told(),
        }
    }
}

impl<I: BufRead, O: Write> Prompt<I, O> {
    pub(super) fn new(answers: I, questions: O, repeat_answers: bool) -> Prompt<I, O> {
        Prompt {
            answers,
            questions,
            repeat_answers,
            taken: Vec::new(),
            again: VecDeque::new(),
            ahead: VecDeque::new(),
            is_unasked: false,
        }
    }

    /// Says something of the last answer, unless it was said when it was given.
    pub(super) fn say(&mut self, words: &str) -> Result<(), Halt> {
        if self.is_unasked {
            return Ok(());
        }
        let said = writeln!(self.questions, "{}", on_screen(words));
        said.and_then(|()| self.questions.flush()).map_err(failed)
    }

    /// Makes all answers but the last be taken again, unasked.
    pub(super) fn go_back(&mut self) {
        self.taken.pop();
        self.again = std::mem::take(&mut self.taken).into();
    }

    /// Gives up the last answer, and those that stood on one line behind it.
    pub(super) fn refuse(&mut self, why: &str) -> Result<(), Halt> {
        self.taken.pop();
        self.ahead.clear();
        self.say(why)
    }

    /// The answer, without the spaces around it; empty where Enter alone was pressed.
    fn answer(
        &mut self,
        Question(asked, help): Question<'_>,
        answers: Answers,
        enter: Option<&str>,
    ) -> Result<String, Halt> {
        if let Some(answer) = self.again.pop_front() {
            self.is_unasked = true;
            self.taken.push(answer.clone());
            return Ok(answer);
        }
        self.is_unasked = false;
        loop {
            let answer = self.line(asked, enter)?;
            match answer.to_lowercase().as_str() {
                "back" => {
                    self.ahead.clear();
                    if !self.taken.is_empty() {
                        return Err(Halt::Back);
                    }
                    self.say("  This is the first question.")?;
                }
                "?" => {
                    self.ahead.clear();
                    let enter = match enter {
                        Some(enter) => format!("Enter alone: {enter}"),
                        None => "it needs an answer".to_owned(),
                    };
                    self.say(&format!(
                        "  {help}\n  What can be answered: {}; {enter}. `back` goes to the question before.",
                        answers.told()
                    ))?;
                }
                _ => {
                    self.taken.push(answer.clone());
                    return Ok(answer);
                }
            }
        }
    }

    fn line(&mut self, question: &str, enter: Option<&str>) -> Result<String, Halt> {
        let enter = enter.map(|enter| format!(" [{enter}]")).unwrap_or_default();
        write!(self.questions, "{}\n> ", on_screen(&format!("{question}{enter}")))
            .and_then(|()| self.questions.flush())
            .map_err(failed)?;
        if let Some(answer) = self.ahead.pop_front() {
            self.say(&answer)?;
            return Ok(answer);
        }
        let mut line = Vec::new();
        let read = std::io::Read::take(&mut self.answers, LONGEST).read_until(b'\n', &mut line);
        if read.map_err(failed)? == 0 {
            return Err(Halt::Ended(AskError::EndOfAnswers));
        }
        let line = String::from_utf8_lossy(&line).trim().trim_start_matches('\u{feff}').to_owned();
        let mut answers = line.split(NEXT).map(|answer| answer.trim().to_owned());
        let first = answers.next().unwrap_or_default();
        self.ahead = answers.collect();
        if self.repeat_answers {
            self.say(&first)?;
        }
        Ok(first)
    }
}

/// The words as a terminal may be given them, line by line broken to the width; what follows is set in as the text of the
/// line is.
fn on_screen(words: &str) -> String {
    let broken = |line: &str| {
        let text = line.trim_start_matches(|c: char| c == ' ' || c.is_ascii_digit());
        // "   4  Tanker 3": a number in the margin, and the text behind it.
        let margin = if line.starts_with("  ") { line.len() - text.len() } else { 0 };
        let options = textwrap::Options::new(WIDTH)
            .break_words(false)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        textwrap::fill(line, options.subsequent_indent(&" ".repeat(margin)))
    };
    harmless(words).split('\n').map(broken).collect::<Vec<_>>().join("\n")
}

fn failed(why: std::io::Error) -> Halt {
    Halt::Ended(AskError::Terminal(why))
}

impl<I: BufRead, O: Write, D: Draft> Asking<I, O, D> {
    /// Takes an answer into the plan if the plan is sound with it, else says what is wrong. What is odd about it, and
    /// was not before, is said and taken.
    ///
    /// - Returns: whether it was taken.
    fn take(&mut self, put: impl FnOnce(&mut D) -> Result<(), String>) -> Result<bool, Halt> {
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
        for (place, one) in wrong.into_iter().enumerate() {
            let limit = one.limit.map(|limit| format!("; {limit}")).unwrap_or_default();
            let told = format!("  Not taken: {}{limit}. {}.", one.problem, capital(&one.cure));
            if place == 0 { self.prompt.refuse(&told)? } else { self.prompt.say(&told)? }
        }
        Ok(false)
    }

    /// Words that must be said.
    pub(super) fn words(
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
    pub(super) fn optional_words(
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
    pub(super) fn amount(
        &mut self,
        question: Question<'_>,
        answers: Answers,
        has: impl Fn(&D) -> Amount,
        put: impl Fn(&mut D, Amount),
    ) -> Result<(), Halt> {
        loop {
            let shown = answers.shown(&has(&self.plan));
            let typed = self.prompt.answer(question, answers, Some(&shown))?;
            // Also what is kept is put: something may go with it.
            let taken = if typed.is_empty() { Ok(has(&self.plan)) } else { answers.read(&typed) };
            if self.take_amount(taken, |plan, amount| put(plan, amount))? {
                return Ok(());
            }
        }
    }

    /// A number that may be left out; in brackets what the plan has, which Enter keeps, or what none means.
    pub(super) fn optional_amount(
        &mut self,
        question: Question<'_>,
        answers: Answers,
        none: &str,
        has: impl Fn(&D) -> Option<Amount>,
        put: impl Fn(&mut D, Option<Amount>),
    ) -> Result<(), Halt> {
        loop {
            let shown = has(&self.plan).map_or(none.to_owned(), |amount| answers.shown(&amount));
            let typed = self.prompt.answer(question, answers, Some(&shown))?;
            if typed.is_empty() {
                return Ok(());
            }
            let taken = if is_nothing(&typed, none) {
                self.take(|plan| {
                    put(plan, None);
                    Ok(())
                })?
            } else {
                self.take_amount(answers.read(&typed), |plan, amount| put(plan, Some(amount)))?
            };
            if taken {
                return Ok(());
            }
        }
    }

    fn take_amount(
        &mut self,
        typed: Result<Amount, NoAmount>,
        put: impl Fn(&mut D, Amount),
    ) -> Result<bool, Halt> {
        self.take(|plan| match typed {
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

/// Whether something that can be left out is.
fn is_nothing(typed: &str, none: &str) -> bool {
    let typed = typed.to_lowercase();
    NOTHING.contains(&typed.as_str()) || typed == none.to_lowercase()
}

pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
