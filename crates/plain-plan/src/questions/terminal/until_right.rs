//! What was made, in sentences, until it is right: shown whole once, then what changed.

use std::cell::Cell;
use std::io::{BufRead, Write};

use super::super::{Asking, Halt};
use super::prompt::{Draft, Question};

/// What Enter means there.
const WRITE: &str = "yes, write it";

/// The question once something was mended.
const MORE: &str = "Is it right? `all` shows all of it; a number or a name mends more";

/// What was made, in words.
pub(in crate::questions) struct Told {
    /// What it is, above all.
    pub(in crate::questions) head: &'static str,
    /// A sentence for each thing in it, numbered in this order.
    pub(in crate::questions) lines: Vec<String>,
    /// What is to be known besides.
    pub(in crate::questions) besides: Vec<String>,
    /// What is odd about it.
    pub(in crate::questions) odd: Vec<String>,
    /// How many of those are values that nobody means.
    pub(in crate::questions) slips: usize,
    /// The question below.
    pub(in crate::questions) asked: &'static str,
}

impl Told {
    /// All of it.
    fn whole(&self) -> String {
        let lines = self.lines.iter().enumerate().map(numbered);
        let besides = self.besides.iter().map(|line| format!("      {line}\n"));
        let body: String = lines.chain(besides).chain(self.odd.iter().map(careful)).collect();
        format!("\n{}\n{body}", self.head)
    }

    /// What is new in it since it was shown before; all of it where its numbers are others.
    fn changed(&self, before: &Told) -> String {
        if self.lines.len() != before.lines.len() {
            return self.whole();
        }
        let lines = self.lines.iter().enumerate().filter(|(at, line)| before.lines[*at] != **line);
        let besides = self.besides.iter().filter(|line| !before.besides.contains(line));
        let odd = self.odd.iter().filter(|one| !before.odd.contains(one));
        let body: String = (lines.map(numbered))
            .chain(besides.map(|line| format!("      {line}\n")))
            .chain(odd.map(careful))
            .collect();
        let body = if body.is_empty() {
            "      That one is as it was; what was changed before stays.\n".to_owned()
        } else {
            body
        };
        format!("\n{body}")
    }
}

fn numbered((at, line): (usize, &String)) -> String {
    format!("{:>4}  {line}\n", at + 1)
}

fn careful(odd: &String) -> String {
    format!("      Careful: {odd}\n")
}

/// What was answered to the summary.
enum Said<T> {
    /// That it is right.
    Yes,
    /// That all of it is to be shown once more.
    All,
    Wanted(T),
}

const WRITE_ALL_THE_SAME: &str = "`Careful` stands beside what no shuttle has, and what is said to be meant is likely. What is \
                                  right all the same is written by `yes`; `no` shows the plan once more.";

impl<I: BufRead, O: Write, D: Draft> Asking<I, O, D> {
    /// Shows what was answered until it is right, and mends what is named. What looks like a slip is asked of once more
    /// before it is taken.
    ///
    /// - Given: all of it in words; what `?` says; what is wanted by a number or a name; what mends that.
    pub(in crate::questions) fn until_right<T>(
        &mut self,
        told: impl Fn(&D) -> Told,
        help: &str,
        wanted_of: impl Fn(&D, &str) -> Result<T, String>,
        mend: impl Fn(&mut Self, T) -> Result<(), Halt>,
    ) -> Result<(), Halt> {
        let mut shown: Option<Told> = None;
        loop {
            let now = told(&self.plan);
            let (text, asked) = match &shown {
                None => (now.whole(), now.asked),
                Some(before) => (now.changed(before), MORE),
            };
            self.prompt.show(&text)?;
            let mut said = self.said(Question(asked, help), Some(WRITE), &wanted_of)?;
            if matches!(said, Said::Yes) && now.slips > 0 {
                let things = match now.slips {
                    1 => "One thing looks like a slip".to_owned(),
                    many => format!("{many} things look like slips"),
                };
                let asked = format!(
                    "{things} (Careful, above): write it all the same? yes, or a number or a name to mend"
                );
                said = self.said(Question(&asked, WRITE_ALL_THE_SAME), None, &wanted_of)?;
            }
            shown = Some(now);
            match said {
                Said::Yes => return Ok(()),
                Said::All => shown = None,
                Said::Wanted(wanted) => match mend(self, wanted) {
                    Err(Halt::NotMended) => {}
                    mended => mended?,
                },
            }
        }
    }

    fn said<T>(
        &mut self,
        question: Question<'_>,
        enter: Option<&str>,
        wanted_of: impl Fn(&D, &str) -> Result<T, String>,
    ) -> Result<Said<T>, Halt> {
        let said = Cell::new(Said::Yes);
        self.words(question, enter, |plan, typed| {
            said.set(match typed.to_lowercase().as_str() {
                WRITE | "yes" | "y" | "ok" | "write" | "write it" => Said::Yes,
                "all" => Said::All,
                "no" | "n" if enter.is_none() => Said::All,
                _ => Said::Wanted(wanted_of(plan, &typed)?),
            });
            Ok(())
        })?;
        self.prompt.last_was_a_choice();
        Ok(said.into_inner())
    }
}
