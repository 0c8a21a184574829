//! The questions about those that could be asked for.

use std::io::{BufRead, Write};

use super::tankers::Whose;
use super::terminal::prompt::{Answers, Question};
use super::unsaid::unsaid_aid;
use super::{Asking, Halt};
use crate::alarms::{self, alarm_with_minute, put_on_alarm, yes_or_no};
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, named};
use crate::sentences::Topic;

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    pub(super) fn aid(&mut self) -> Result<(), Halt> {
        while self.next_aid()? {}
        let by_itself = |plan: &FirstPlan| plan.aid.iter().any(|one| one.alarm.is_none());
        if by_itself(&self.plan) { self.all_called_at() } else { Ok(()) }
    }

    /// From when all of them can be called; those on an alarm of your own come with that.
    fn all_called_at(&mut self) -> Result<(), Halt> {
        let all = self.plan.aid.iter().all(|one| one.alarm.is_none());
        let asked = match all {
            true => "From which minute after the alarm can you call your neighbours",
            false => "From which minute after the alarm can you call those on no later alarm",
        };
        self.amount(
            Question(
                asked,
                "0: at the alarm, by your run card. Later: when somebody who may ask is there, or has seen the smoke. Those on a \
                 later alarm come with that; one that is called at another minute is mended at the end.",
            ),
            Answers::Number,
            |plan| {
                let by_itself = plan.aid.iter().find(|one| one.alarm.is_none());
                by_itself.and_then(|one| one.called_at.clone()).unwrap_or(Amount::plain(0.0))
            },
            |plan, minute| {
                let by_themselves = plan.aid.iter_mut().filter(|one| one.alarm.is_none());
                by_themselves.for_each(|one| one.called_at = Some(minute.clone()));
            },
        )
    }

    /// Another tanker that could be asked for, if there is one.
    pub(super) fn next_aid(&mut self) -> Result<bool, Halt> {
        let named = self.optional_words(
            Question(
                "A tanker of others that you could ask for: its name (or name; department; water; minutes; dumps in 3)",
                "List all you could have, near and far: `bucketline request` says which of them to ask for. Behind the minutes \
                 may stand how often it comes, `3 in 4`; `all or none` where its department comes whole; `second alarm 15`, from \
                 the minute that is struck; `dumps in 5`.",
            ),
            (None, "no more"),
            |plan, name| {
                let units = plan.units;
                let name = name.map(named).transpose()?;
                let made = name.map(|name| unsaid_aid(units, name, plan.aid.last()));
                plan.aid.extend(made);
                Ok(())
            },
        )?;
        if named {
            self.usual_of(Topic::Aid(self.plan.aid.len() - 1))?;
        }
        Ok(named)
    }

    /// Whose it is.
    pub(super) fn department(&mut self, whose: Whose) -> Result<(), Halt> {
        self.optional_words(
            Question(
                "Whose is it, which department",
                "The dispatch card lists whom to call by department.",
            ),
            (whose.in_plan(&self.plan).department.clone(), "not said"),
            |plan, department| {
                let tanker = whose.of(plan);
                if tanker.department != department {
                    tanker.comes_whole = false;
                }
                tanker.department = department;
                Ok(())
            },
        )
        .map(|_| ())
    }

    /// Whether its department comes whole.
    pub(super) fn comes_whole(&mut self, whose: Whose) -> Result<(), Halt> {
        let comes_so = |plan: &FirstPlan| {
            let department = &whose.in_plan(plan).department;
            let mut all = plan.own.iter().chain(&plan.aid);
            all.any(|one| one.comes_whole && one.department == *department)
        };
        let known = if comes_so(&self.plan) { "yes" } else { "no" };
        self.words(
            Question(
                "Do those of this department come all together or not at all? yes or no",
                "yes: in every fire all that are listed come or none, as often as the one that comes least.",
            ),
            Some(known),
            |plan, typed| {
                let known = yes_or_no(&typed).ok_or_else(|| "write yes or no".to_owned())?;
                if known == comes_so(plan) {
                    return Ok(());
                }
                let department = whose.in_plan(plan).department.clone();
                let all = plan.own.iter_mut().chain(&mut plan.aid);
                let of_it = all.filter(|one| one.department == department);
                of_it.for_each(|one| one.comes_whole = false);
                whose.of(plan).comes_whole = known;
                Ok(())
            },
        )
    }

    /// How it is called: with an alarm, whose minute is asked once, or by itself.
    pub(super) fn alarm(&mut self, place: usize) -> Result<(), Halt> {
        let known = self.plan.aid[place].alarm.map(|alarm| alarm.key().to_owned());
        self.optional_words(
            Question(
                "Which alarm is it on: first, second, third",
                "Where your run card has alarms: striking one calls all that are on it.",
            ),
            (known, "it is called by itself"),
            |plan, typed| {
                let said =
                    match typed {
                        None => None,
                        Some(typed) => Some(alarm_with_minute(&typed).ok_or_else(|| {
                            format!("{}, as `second` or `second 15`", alarms::CURE)
                        })?),
                    };
                let (alarm, minute) = said.unzip();
                if plan.aid[place].alarm != alarm || minute.as_ref().is_some_and(Option::is_some) {
                    put_on_alarm(plan, place, alarm, minute.flatten());
                }
                Ok(())
            },
        )
        .map(|_| ())
    }

    /// When it, or the alarm it is on, can be called at the earliest.
    pub(super) fn called_at(&mut self, place: usize) -> Result<(), Halt> {
        let question = match self.plan.aid[place].alarm {
            None => "At which minute after the alarm can it be called at the earliest".to_owned(),
            Some(alarm) => format!(
                "At which minute after the alarm can the {} alarm be struck at the earliest",
                alarm.key()
            ),
        };
        let help =
            "0: at the alarm. Later: when somebody who may ask is there, or has seen the smoke.";
        self.amount(
            Question(&question, help),
            Answers::Number,
            |plan| plan.aid[place].called_at.clone().unwrap_or(Amount::plain(0.0)),
            |plan, minute| {
                let alarm = plan.aid[place].alarm;
                if alarm.is_none() && plan.aid[place].called_at.is_none() && minute.is_number(0.0) {
                    return;
                }
                // One minute for all that are on it.
                for one in plan.aid.iter_mut().filter(|one| alarm.is_some() && one.alarm == alarm) {
                    one.called_at = Some(minute.clone());
                }
                plan.aid[place].called_at = Some(minute);
            },
        )
    }
}
