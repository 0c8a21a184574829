//! All that was answered, in plain sentences, before it is written; and the way to mend one of them.

use std::cell::Cell;
use std::io::{BufRead, Write};

use super::prompt::{Draft, Question};
use super::{Asking, Depth, Halt};
use crate::careful::careful;
use crate::first_plan::{FirstPlan, alike};
use crate::scenario_text::checked;
use crate::sentences::{Say, Topic, besides, topics};

/// What may be added, by the words for it.
const MORE: [(&str, More); 5] = [
    ("own tanker", More::Own),
    ("aid tanker", More::Aid),
    ("source", More::Source),
    ("drop tank", More::DropTank),
    ("supply engine", More::SupplyEngine),
];

#[derive(Clone, Copy)]
enum More {
    Own,
    Aid,
    Source,
    DropTank,
    SupplyEngine,
}

/// What is wanted at the summary.
#[derive(Clone, Copy)]
enum Wanted {
    Mend(Topic),
    Add(More),
}

/// What Enter means there.
const WRITE: &str = "yes, write it";

const HELP: &str = "Nothing is written yet. A number, or a name, asks everything about that one again, with what it has \
                    in brackets: also how often it comes, how long it dumps, the alarm it is on, gravel, how much a pond \
                    holds. `none` for its name takes it out.";

/// All of it in words.
pub(super) struct Told {
    /// The words, with the question below.
    pub(super) text: String,
    /// How many things in it are values that nobody means.
    pub(super) slips: usize,
}

/// What was answered to the summary.
enum Said<T> {
    /// That it is right.
    Yes,
    /// That it is not to be written as it is.
    No,
    Wanted(T),
}

const WRITE_ALL_THE_SAME: &str = "`Careful` stands beside what no shuttle has, and what is said to be meant is likely. What is \
                                  right all the same is written by `yes`; `no` shows the plan once more.";

impl<I: BufRead, O: Write, D: Draft> Asking<I, O, D> {
    /// Shows what was answered until it is right, and mends what is named. What looks like a slip is asked of once more
    /// before it is taken.
    ///
    /// - Given: all of it in words; what `?` says; what is wanted by a number or a name; what mends that.
    pub(super) fn until_right<T: Copy>(
        &mut self,
        told: impl Fn(&D) -> Told,
        help: &str,
        wanted_of: impl Fn(&D, &str) -> Result<T, String>,
        mend: impl Fn(&mut Self, T) -> Result<(), Halt>,
    ) -> Result<(), Halt> {
        loop {
            let Told { text, slips } = told(&self.plan);
            let mut said = self.said(Question(&text, help), Some(WRITE), &wanted_of)?;
            if matches!(said, Said::Yes) && slips > 0 {
                let things = match slips {
                    1 => "One thing looks like a slip".to_owned(),
                    many => format!("{many} things look like slips"),
                };
                let asked = format!(
                    "{things} (Careful, above): write it all the same? yes, or a number or a name to mend"
                );
                said = self.said(Question(&asked, WRITE_ALL_THE_SAME), None, &wanted_of)?;
            }
            match said {
                Said::Yes => return Ok(()),
                Said::No => {}
                Said::Wanted(wanted) => mend(self, wanted)?,
            }
        }
    }

    fn said<T: Copy>(
        &mut self,
        question: Question<'_>,
        enter: Option<&str>,
        wanted_of: impl Fn(&D, &str) -> Result<T, String>,
    ) -> Result<Said<T>, Halt> {
        let said = Cell::new(Said::Yes);
        self.words(question, enter, |plan, typed| {
            said.set(match typed.to_lowercase().as_str() {
                WRITE | "yes" | "y" | "ok" | "write" | "write it" => Said::Yes,
                "no" | "n" if enter.is_none() => Said::No,
                _ => Said::Wanted(wanted_of(plan, &typed)?),
            });
            Ok(())
        })?;
        self.prompt.last_was_a_choice();
        Ok(said.into_inner())
    }
}

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    /// Shows the plan until it is right.
    pub(super) fn summary(&mut self) -> Result<(), Halt> {
        self.until_right(told, HELP, wanted_of, |asking, wanted| match wanted {
            Wanted::Mend(topic) => asking.mend(topic),
            Wanted::Add(more) => asking.add(more),
        })
    }

    fn mend(&mut self, topic: Topic) -> Result<(), Halt> {
        match topic {
            Topic::Fire => self.fire(Depth::All),
            Topic::AttackEngine => self.attack_engine(Depth::All),
            Topic::SupplyEngine => self.supply_engine(),
            Topic::Own(place) => self.mend_own(place),
            Topic::Aid(place) => self.mend_aid(place),
            Topic::Source(place) => self.mend_source(place),
            Topic::DropTank(place) => self.mend_drop_tank(place),
        }
    }

    fn add(&mut self, more: More) -> Result<(), Halt> {
        match more {
            More::Own => self.next_own_tanker().map(|_| ()),
            More::Aid => self.next_aid().map(|_| ()),
            More::Source => self.next_source().map(|_| ()),
            More::DropTank => self.next_drop_tank().map(|_| ()),
            More::SupplyEngine => self.supply_engine(),
        }
    }
}

/// What was meant by a number or a name.
fn wanted_of(plan: &FirstPlan, typed: &str) -> Result<Wanted, String> {
    let topics = topics(plan);
    let more = MORE.iter().find(|(words, _)| alike(words, typed)).map(|(_, more)| *more);
    if let Some(more) = more {
        return Ok(Wanted::Add(more));
    }
    // A unit may be called by a number alone, and is then meant by it.
    let named =
        topics.iter().find(|topic| names_of(plan, **topic).iter().any(|one| alike(one, typed)));
    let counted = typed.parse::<usize>().ok().and_then(|number| topics.get(number.checked_sub(1)?));
    named.or(counted).map(|topic| Wanted::Mend(*topic)).ok_or_else(|| {
        format!(
            "write a number from 1 to {}, or a name as it stands there; Enter alone writes the plan",
            topics.len()
        )
    })
}

/// What a topic may be called by.
fn names_of(plan: &FirstPlan, topic: Topic) -> Vec<String> {
    match topic {
        Topic::Fire => ["fire", "the fire", &plan.title, "flow"].map(str::to_owned).to_vec(),
        Topic::AttackEngine => vec![plan.attack_engine.name.clone(), "attack engine".to_owned()],
        Topic::SupplyEngine => plan.supply_engine.iter().map(|one| one.name.clone()).collect(),
        Topic::Own(place) => vec![plan.own[place].name.clone()],
        Topic::Aid(place) => vec![plan.aid[place].name.clone()],
        Topic::Source(place) => vec![plan.sources[place].name.clone()],
        Topic::DropTank(place) => {
            vec![format!("drop tank of {}", plan.drop_tanks[place].brought_by)]
        }
    }
}

/// The plan in plain sentences, one a line, and what is odd about it.
fn told(plan: &FirstPlan) -> Told {
    let say = Say(plan.units);
    let mut told = String::from("\nThe plan, as you said it:\n");
    for (place, topic) in topics(plan).into_iter().enumerate() {
        told.push_str(&format!("{:>4}  {}\n", place + 1, say.topic(plan, topic)));
    }
    besides(plan).iter().for_each(|line| told.push_str(&format!("      {line}\n")));
    let warnings = checked(plan).map(|(_, warnings)| warnings).unwrap_or_default();
    let odd = careful(plan, &warnings);
    odd.iter().for_each(|one| told.push_str(&format!("      Careful: {}\n", one.told)));
    Told {
        text: told
            + "\nIs it right? A number or a name mends that one or says more of it; `own tanker`, `aid tanker`, \
               `source`, `drop tank` or `supply engine` adds one",
        slips: odd.iter().filter(|one| one.is_slip).count(),
    }
}
