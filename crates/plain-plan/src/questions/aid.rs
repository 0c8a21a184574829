//! The questions about those that could be asked for.

use std::io::{BufRead, Write};

use scenario_file::Alarm;

use super::{Asking, Halt, Usual, unsaid_tanker};
use crate::alarms::{self, alarm_of, greater_alarms, yes_or_no};
use crate::amount::Amount;
use crate::first_plan::FirstPlan;

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    pub(super) fn aid(&mut self) -> Result<(), Halt> {
        while self.optional_words(
            "A tanker of another department that you could ask for: its name. Enter: no more",
            |plan, name| {
                plan.aid.push(unsaid_tanker(name));
                Ok(())
            },
        )? {
            let last = self.plan.aid.len() - 1;
            self.optional_words(
                "Whose is it? The department. Enter: not said",
                |plan, department| {
                    plan.aid[last].department = Some(department);
                    Ok(())
                },
            )?;
            self.comes_whole(last)?;
            self.amount(
                "How much water does it carry",
                &Usual("2,500 gal", "10,000 L"),
                |plan, water| {
                    plan.aid[last].water = water;
                },
            )?;
            self.amount(
                "How many minutes after it is called is it there",
                &Usual("20", "20"),
                |plan, minutes| {
                    plan.aid[last].minutes = minutes;
                },
            )?;
            self.how_it_comes_and_dumps("90%", |plan| &mut plan.aid[last])?;
            self.alarm(last)?;
        }
        Ok(())
    }

    /// Whether the department comes whole: asked once of each.
    fn comes_whole(&mut self, last: usize) -> Result<(), Halt> {
        let (before, named) = self.plan.aid.split_at(last);
        let Some(department) = &named[0].department else { return Ok(()) };
        if before.iter().any(|one| one.department.as_ref() == Some(department)) {
            return Ok(());
        }
        self.words(
            "Do those of this department come all together or not at all? yes or no",
            Some("no"),
            |plan, typed| {
                let known = yes_or_no(&typed).ok_or_else(|| "write yes or no".to_owned())?;
                plan.aid[last].comes_whole = known;
                Ok(())
            },
        )
    }

    /// How it is called: with an alarm, whose minute is asked once, or by itself.
    fn alarm(&mut self, last: usize) -> Result<(), Halt> {
        self.optional_words(
            "Which alarm is it on: first, second, third? Enter: it is called by itself",
            |plan, typed| {
                let alarm = alarm_of(&typed).ok_or_else(|| alarms::CURE.to_owned())?;
                plan.aid[last].alarm = Some(alarm);
                // Until it is asked.
                plan.aid[last].called_at = match minute_of(plan, alarm) {
                    None if alarm != Alarm::First => Some(Amount::plain(10.0)),
                    known => known,
                };
                Ok(())
            },
        )?;
        let question = match self.plan.aid[last].alarm {
            None => "At which minute after the alarm can it be called at the earliest".to_owned(),
            Some(alarm) => {
                let alarms = greater_alarms(&self.plan.aid);
                if !alarms.iter().any(|(one, place, _)| *one == alarm && *place == last) {
                    return Ok(());
                }
                let alarm = alarm.key();
                format!(
                    "At which minute after the alarm can the {alarm} alarm be struck at the earliest"
                )
            }
        };
        let usual = if self.plan.aid[last].alarm.is_some() { "10" } else { "0" };
        self.amount(&question, &Usual(usual, usual), |plan, minute| {
            plan.aid[last].called_at = Some(minute);
        })
    }
}

/// When an alarm is struck, as far as others on it say.
fn minute_of(plan: &crate::FirstPlan, alarm: Alarm) -> Option<Amount> {
    let known = greater_alarms(&plan.aid).into_iter().find(|(one, ..)| *one == alarm);
    known.map(|(.., minute)| minute.clone())
}
