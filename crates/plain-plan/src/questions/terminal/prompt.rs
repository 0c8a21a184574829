//! One question asked on the terminal, and its answer; the steps back.

use std::collections::{HashMap, VecDeque};
use std::io::{BufRead, Read, Write};

use scenario_file::{Units, harmless};

use super::super::{AskError, Halt};
use crate::amount::{Amount, NoAmount};
use crate::sentences::broken;

/// The longest line that is taken, bytes. A terminal may cut one at 4,095 without a word (termios(3), canonical mode), so
/// that of a longer one nobody knows whether it is whole.
const LONGEST: usize = 4_000;

/// Between several answers on one line.
const NEXT: char = ';';

/// What is made answer by answer: sound after each.
pub(in crate::questions) trait Draft: Clone {
    /// The units of bare numbers.
    fn units(&self) -> Units;

    /// What is odd about it and likely a slip.
    ///
    /// - Errors: what is wrong with it.
    fn checked(&self) -> Result<Vec<String>, Vec<Refused>>;
}

/// Why an answer is not taken.
pub(in crate::questions) struct Refused {
    pub(in crate::questions) problem: String,
    pub(in crate::questions) limit: Option<String>,
    pub(in crate::questions) cure: String,
}

/// A question, and what `?` says of it beside how it can be answered.
#[derive(Clone, Copy)]
pub(in crate::questions) struct Question<'a>(
    pub(in crate::questions) &'a str,
    pub(in crate::questions) &'a str,
);

/// Where questions go and answers come from.
pub(in crate::questions) struct Prompt<I, O> {
    answers: I,
    questions: O,
    repeat_answers: bool,
    /// Every answer that was taken so far.
    taken: Vec<Given>,
    /// What was answered before a step back: by what `?` says of the question, and how often that was asked before it.
    before: HashMap<(String, usize), String>,
    /// Whether the last answer is another than before a step back.
    is_changed: bool,
    /// Answers to be taken again, unasked, after a step back.
    again: VecDeque<String>,
    /// Answers that stood on one line with the last one.
    ahead: VecDeque<String>,
    /// Whether the first of those is a value that was said with what is to be mended.
    is_value_ahead: bool,
    /// Whether an answer was taken from those, and its question not shown.
    ran_ahead: bool,
    /// Whether the last answer was taken again, unasked: what there is to say of it was said.
    is_unasked: bool,
}

/// An answer that was taken.
struct Given {
    /// What `?` says of the question: each has words of its own.
    help: String,
    answer: String,
    /// Whether it says what is asked next, so that what was answered behind it is of something else once it is given anew.
    is_choice: bool,
    /// Whether it stood behind an answer, and no question was asked for it: one goes back to the question.
    is_besides: bool,
    /// Whether it was said with what is to be mended, which is the answer before it.
    is_value: bool,
}

/// What may be answered to a question.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::questions) enum Answers {
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
            Answers::Share => "a percentage such as 50%, or half, a quarter, all",
        }
    }

    pub(in crate::questions) fn read(self, typed: &str) -> Result<Amount, NoAmount> {
        match self {
            Answers::Often => Amount::how_often(typed),
            Answers::Share => Amount::share(typed),
            Answers::Number | Answers::Words => Amount::typed(typed),
        }
    }

    /// An amount as it can be typed again.
    pub(in crate::questions) fn shown(self, amount: &Amount) -> String {
        match self {
            Answers::Often | Answers::Share => amount.told_as_share(),
            Answers::Number | Answers::Words => amount.told(),
        }
    }
}

impl<I: BufRead, O: Write> Prompt<I, O> {
    pub(in crate::questions) fn new(
        answers: I,
        questions: O,
        repeat_answers: bool,
    ) -> Prompt<I, O> {
        Prompt {
            answers,
            questions,
            repeat_answers,
            taken: Vec::new(),
            before: HashMap::new(),
            is_changed: false,
            again: VecDeque::new(),
            ahead: VecDeque::new(),
            is_value_ahead: false,
            ran_ahead: false,
            is_unasked: false,
        }
    }

    /// Says something of the last answer, unless it was said when it was given.
    pub(in crate::questions) fn say(&mut self, words: &str) -> Result<(), Halt> {
        if self.is_unasked { Ok(()) } else { self.put(words) }
    }

    /// Shows what the next question is about, unless its answer is known.
    pub(in crate::questions) fn show(&mut self, words: &str) -> Result<(), Halt> {
        if self.again.is_empty() { self.put(words) } else { Ok(()) }
    }

    fn put(&mut self, words: &str) -> Result<(), Halt> {
        let said = writeln!(self.questions, "{}", on_screen(words));
        said.and_then(|()| self.questions.flush()).map_err(failed)
    }

    /// Makes all answers but the last be taken again, unasked; that one then stands in the brackets of its question.
    pub(in crate::questions) fn go_back(&mut self) {
        while self.taken.pop_if(|last| last.is_besides).is_some() {}
        if let Some(last) = self.taken.pop() {
            if last.is_choice {
                self.before.clear();
            } else {
                let number = self.times_asked(&last.help);
                self.before.insert((last.help, number), last.answer);
            }
        }
        self.again = std::mem::take(&mut self.taken).into_iter().map(|one| one.answer).collect();
    }

    /// That this value answers what is asked next: it was said with what is to be mended.
    pub(in crate::questions) fn comes_next(&mut self, value: String) {
        // After a step back it is among those that are taken again, or is the one to be given anew.
        if !self.is_unasked {
            self.ahead.push_front(value);
            self.is_value_ahead = true;
        }
    }

    /// Whether what stands next was said with what is to be mended.
    pub(in crate::questions) fn has_value_ahead(&self) -> bool {
        self.is_value_ahead
    }

    /// Says what stands next on the same line in words that mean the same to a question that was shown.
    pub(in crate::questions) fn reword_ahead(&mut self, reword: impl Fn(&str) -> String) {
        if let Some(next) = self.ahead.front_mut().filter(|next| !next.is_empty()) {
            *next = reword(next);
        }
    }

    /// What stands next on the same line, where it says more of what was asked than is asked on the way through.
    pub(in crate::questions) fn said_besides<T>(
        &mut self,
        read: impl Fn(&str) -> Option<T>,
    ) -> Option<T> {
        let is_again = !self.again.is_empty();
        let next = if is_again { &mut self.again } else { &mut self.ahead };
        let found = read(next.front()?)?;
        let answer = next.pop_front()?;
        self.is_unasked = is_again;
        self.taken.push(Given {
            help: String::new(),
            answer,
            is_choice: false,
            is_besides: true,
            is_value: false,
        });
        Some(found)
    }

    /// Whether a question was not shown since this was last asked, because its answer was there.
    pub(in crate::questions) fn ran_ahead(&mut self) -> bool {
        std::mem::take(&mut self.ran_ahead)
    }

    /// That the last answer says what is asked next.
    pub(in crate::questions) fn last_was_a_choice(&mut self) {
        self.taken.iter_mut().last().into_iter().for_each(|last| last.is_choice = true);
    }

    /// Lets go of what was answered before a step back, if the last answer is another one than then: what was answered
    /// behind it no longer means the same.
    pub(in crate::questions) fn forget_if_changed(&mut self) {
        if self.is_changed {
            self.before.clear();
        }
    }

    fn times_asked(&self, help: &str) -> usize {
        self.taken.iter().filter(|one| one.help == help).count()
    }

    fn is_taken(&mut self, help: &str, answer: String, is_value: bool) -> String {
        self.taken.push(Given {
            help: help.to_owned(),
            answer: answer.clone(),
            is_choice: false,
            is_besides: false,
            is_value,
        });
        answer
    }

    /// Gives up the last answer, and those that stood on one line behind it.
    ///
    /// - Errors: [`Halt::NotMended`] where it was said with what is to be mended, which is given up with it: nobody was
    ///   asked for it alone, and what is typed next answers the question that was.
    pub(in crate::questions) fn refuse(&mut self, why: &str) -> Result<(), Halt> {
        let is_value = self.taken.pop().is_some_and(|last| last.is_value);
        self.ahead.clear();
        self.say(why)?;
        if is_value {
            self.taken.pop();
            return Err(Halt::NotMended);
        }
        Ok(())
    }

    /// The answer, without the spaces around it; empty where Enter alone was pressed.
    pub(in crate::questions) fn answer(
        &mut self,
        Question(asked, help): Question<'_>,
        answers: Answers,
        enter: Option<&str>,
    ) -> Result<String, Halt> {
        if let Some(answer) = self.again.pop_front() {
            self.is_unasked = true;
            return Ok(self.is_taken(help, answer, false));
        }
        self.is_unasked = false;
        let before = self.before.get(&(help.to_owned(), self.times_asked(help))).cloned();
        let said_before = before.as_deref().filter(|before| !before.is_empty());
        let enter = said_before.or(enter);
        loop {
            let is_value = std::mem::take(&mut self.is_value_ahead);
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
                typed => {
                    let answer = match said_before {
                        Some(before) if typed.is_empty() => before.to_owned(),
                        _ => answer,
                    };
                    self.is_changed = before.as_ref().is_some_and(|before| *before != answer);
                    return Ok(self.is_taken(help, answer, is_value));
                }
            }
        }
    }

    fn line(&mut self, question: &str, enter: Option<&str>) -> Result<String, Halt> {
        if let Some(answer) = self.ahead.pop_front() {
            self.ran_ahead = true;
            return Ok(answer);
        }
        let enter = enter.map(|enter| format!(" [{enter}]")).unwrap_or_default();
        let asked = on_screen(&format!("{question}{enter}"));
        let line = loop {
            let written = write!(self.questions, "{asked}\n> ");
            written.and_then(|()| self.questions.flush()).map_err(failed)?;
            match self.typed()? {
                Ok(line) => break line,
                Err(why) => self.say(&format!("  Not taken: {why}."))?,
            }
        };
        let line = line.trim().trim_start_matches('\u{feff}').to_owned();
        let mut answers = line.split(NEXT).map(|answer| answer.trim().to_owned());
        let first = answers.next().unwrap_or_default();
        self.ahead = answers.collect();
        if self.repeat_answers {
            self.say(&line)?;
        }
        Ok(first)
    }

    /// The next line as it was typed.
    ///
    /// - Errors: why nothing of it is taken.
    fn typed(&mut self) -> Result<Result<String, String>, Halt> {
        let mut line = Vec::new();
        let limit = LONGEST as u64 + 1;
        let read = self.answers.by_ref().take(limit).read_until(b'\n', &mut line);
        if read.map_err(failed)? == 0 {
            return Err(Halt::Ended(AskError::EndOfAnswers));
        }
        if line.len() > LONGEST && !line.ends_with(b"\n") {
            // Its end would be taken for the next answer.
            self.answers.skip_until(b'\n').map_err(failed)?;
            return Ok(Err(format!(
                "that line is longer than {LONGEST} bytes, and nothing of it is taken; say it in fewer words, or on several lines"
            )));
        }
        Ok(String::from_utf8(line).map_err(|_| {
            "that line has signs that are not UTF-8, and a name of them would be another one; write it with others, such as e \
             for an accented e"
                .to_owned()
        }))
    }
}

/// The words as a terminal may be given them.
fn on_screen(words: &str) -> String {
    broken(&harmless(words))
}

fn failed(why: std::io::Error) -> Halt {
    Halt::Ended(AskError::Terminal(why))
}
