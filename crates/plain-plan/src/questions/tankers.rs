//! The questions about tankers: their own, and what is asked of any.

use std::io::{BufRead, Write};

use super::taken_out::{brings_nothing, is_counted_by_no_option};
use super::terminal::prompt::{Answers, Question};
use super::unsaid::unsaid_own;
use super::{Asking, Halt};
use crate::first_plan::{FirstPlan, Tanker, named, rename};
use crate::part::{OfUnit, Part};
use crate::sentences::Topic;

/// Where a tanker stands in the plan.
#[derive(Clone, Copy)]
pub(super) enum Whose {
    Own(usize),
    Aid(usize),
}

impl Whose {
    pub(super) fn of(self, plan: &mut FirstPlan) -> &mut Tanker {
        match self {
            Whose::Own(place) => &mut plan.own[place],
            Whose::Aid(place) => &mut plan.aid[place],
        }
    }

    fn part(self, of: OfUnit) -> Part {
        match self {
            Whose::Own(place) => Part::Own(place, of),
            Whose::Aid(place) => Part::Aid(place, of),
        }
    }

    pub(super) fn in_plan(self, plan: &FirstPlan) -> &Tanker {
        match self {
            Whose::Own(place) => &plan.own[place],
            Whose::Aid(place) => &plan.aid[place],
        }
    }

    fn take_out(self, plan: &mut FirstPlan) -> Result<(), String> {
        let tanker = match self {
            Whose::Own(_) if plan.own.len() == 1 => {
                return Err(
                    "it takes at least one own tanker; give this one its right name".to_owned()
                );
            }
            Whose::Own(place) => {
                is_counted_by_no_option(plan, "tankers", place)?;
                plan.own.remove(place)
            }
            Whose::Aid(place) => {
                is_counted_by_no_option(plan, "aid", place)?;
                plan.aid.remove(place)
            }
        };
        brings_nothing(plan, &tanker.name)
    }
}

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    pub(super) fn own_tankers(&mut self) -> Result<(), Halt> {
        self.words(
            Question(
                "Your first own tanker: its name (or name; water; minutes; dumps in 3)",
                "One that comes at the alarm without being asked for.",
            ),
            Some("Tanker 1"),
            |plan, name| {
                plan.own[0].name = named(name)?;
                Ok(())
            },
        )?;
        self.usual_of(Topic::Own(0))?;
        while self.next_own_tanker()? {}
        Ok(())
    }

    /// Another own tanker, if there is one.
    pub(super) fn next_own_tanker(&mut self) -> Result<bool, Halt> {
        let named = self.optional_words(
            Question(
                "Your next own tanker: its name (or name; water; minutes; dumps in 3)",
                "The next one that comes at the alarm; those of others are asked for afterwards.",
            ),
            (None, "no more"),
            |plan, name| {
                let name = name.map(named).transpose()?;
                plan.own.extend(name.map(|name| unsaid_own(plan.units, name)));
                Ok(())
            },
        )?;
        if named {
            self.usual_of(Topic::Own(self.plan.own.len() - 1))?;
        }
        Ok(named)
    }

    /// When a tanker is there.
    pub(super) fn minutes(&mut self, whose: Whose) -> Result<(), Halt> {
        let name = &whose.in_plan(&self.plan).name;
        let (after, help) = match whose {
            Whose::Own(_) => (
                "the alarm",
                "From the alarm to the brakes set, on an ordinary night: what your call records show.",
            ),
            Whose::Aid(_) => (
                "its call",
                "From the call to the brakes set at your fire: what a drill or the last fire showed.",
            ),
        };
        let asked = format!("How many minutes after {after} is {name} there");
        self.number(whose.part(OfUnit::Minutes), Question(&asked, help))
    }

    pub(super) fn water(&mut self, whose: Whose) -> Result<(), Halt> {
        let help = match whose {
            Whose::Own(_) => {
                "What its tank holds, as its plate says: 1,000 to 5,000 gal are common."
            }
            Whose::Aid(_) => {
                "What its tank holds, as its crew or your run card says; 1,000 to 5,000 gal are common."
            }
        };
        let name = &whose.in_plan(&self.plan).name;
        let asked = format!("How much water does {name} carry");
        self.number(whose.part(OfUnit::Water), Question(&asked, help))
    }

    /// The name of a tanker once more; whether it stays.
    pub(super) fn name_of(&mut self, whose: Whose) -> Result<bool, Halt> {
        let known = whose.in_plan(&self.plan).name.clone();
        self.optional_words(
            Question("Its name; `none` takes it out of the plan", "As your dispatcher calls it."),
            (Some(known), "none"),
            |plan, name| {
                let Some(name) = name else { return whose.take_out(plan) };
                let name = named(name)?;
                let old = std::mem::replace(&mut whose.of(plan).name, name.clone());
                rename(plan, &old, &name);
                Ok(())
            },
        )
    }

    /// How often a tanker comes.
    pub(super) fn often(&mut self, whose: Whose) -> Result<(), Halt> {
        let usual = if whose.in_plan(&self.plan).of_others { "90%" } else { "always" };
        self.number_or(whose.part(OfUnit::Turnout), Answers::Often, Question(
                "How often does it come when it is called",
                "Of ten calls, how many did it come to: crews at work, a truck in the shop. 9 in 10 is common of aid.",
            ), usual)
    }

    /// How fast a tanker empties.
    pub(super) fn empties(&mut self, whose: Whose) -> Result<(), Halt> {
        self.number_or(whose.part(OfUnit::Empties), Answers::Number, Question(
                "How many minutes does it take to dump its water",
                "From the valve open to the valve shut, as you timed it; 2,000 gal take some 2 to 5 minutes (common \
                 practice).",
            ), "not timed")
    }
}
