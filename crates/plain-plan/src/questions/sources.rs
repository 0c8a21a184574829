//! The questions about sources and drop tanks.

use std::io::{BufRead, Write};

use super::taken_out::is_counted_by_no_option;
use super::terminal::prompt::{Answers, Question};
use super::unsaid::{unsaid_drop_tank, unsaid_source, usual};
use super::{Asking, Halt};
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, alike, named, names, nearest_unit, pump_bringer};
use crate::part::{OfSource, Part};
use crate::sentences::Topic;
use crate::source_text::arrival;

/// What is taken of a pump that a unit brings, where nobody says more.
const NOT_TIMED: &str = "some 8 min, not timed";

/// What stands before a minute after the alarm.
const AT_MINUTE: &str = "minute";

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    pub(super) fn sources(&mut self) -> Result<(), Halt> {
        self.words(
            Question(
                "Where do tankers fill? The nearest pond or hydrant: its name",
                "Where you would send the first tanker. Others are asked for afterwards.",
            ),
            Some("Pond"),
            |plan, name| {
                plan.sources[0].name = named(name)?;
                Ok(())
            },
        )?;
        self.usual_of(Topic::Source(0))?;
        while self.next_source()? {}
        Ok(())
    }

    /// Another source, if there is one.
    pub(super) fn next_source(&mut self) -> Result<bool, Halt> {
        let named = self.optional_words(
            Question(
                "Another source: its name (or name; flow; who pumps; from minute; miles; mph)",
                "A second one lets two tankers fill at once, and stands in when the first fails.",
            ),
            (None, "no more"),
            |plan, name| {
                let name = name.map(named).transpose()?;
                plan.sources.extend(name.map(|name| unsaid_source(plan.units, name)));
                Ok(())
            },
        )?;
        if named {
            self.usual_of(Topic::Source(self.plan.sources.len() - 1))?;
        }
        Ok(named)
    }

    /// The name of a source once more; whether it stays.
    pub(super) fn name_of_source(&mut self, place: usize) -> Result<bool, Halt> {
        let known = self.plan.sources[place].name.clone();
        self.optional_words(
            Question("Its name; `none` takes it out of the plan", "As the tanker crews know it."),
            (Some(known), "none"),
            |plan, name| {
                match name {
                    Some(name) => plan.sources[place].name = named(name)?,
                    None if plan.sources.len() == 1 => {
                        return Err("it takes at least one source".to_owned());
                    }
                    None => {
                        is_counted_by_no_option(plan, "fill_sites", place)?;
                        plan.sources.remove(place);
                    }
                }
                Ok(())
            },
        )
    }

    pub(super) fn source_flow(&mut self, place: usize) -> Result<(), Halt> {
        let asked =
            format!("What does {} give to tankers that fill there", self.plan.sources[place].name);
        self.number(Part::Source(place, OfSource::Flow), Question(
                &asked,
                "What the pump or hydrant was seen to give, all hoses together: 500 to 1,500 gpm are common.",
            ))
    }

    pub(super) fn positions(&mut self, place: usize) -> Result<(), Halt> {
        self.number_or(
            Part::Source(place, OfSource::Positions),
            Answers::Number,
            Question(
                "How many tankers can be hooked up there at once",
                "Places with a hose each, not how many could stand in line.",
            ),
            "1",
        )
    }

    pub(super) fn road(&mut self, place: usize) -> Result<(), Halt> {
        self.number(Part::Source(place, OfSource::Road), Question(
                "How far is it by road from the fire, one way",
                "By the road that tankers take, as the odometer has it; such as 2.4, 2.4 mi or 3.9 km.",
            ))
    }

    pub(super) fn speed(&mut self, place: usize) -> Result<(), Halt> {
        self.number_or(Part::Source(place, OfSource::Speed), Answers::Number, Question(
                "How fast do tankers drive there on average, with stops and hills",
                "Over the whole way with its stops and turns: 25 to 40 mph are common. Nobody is asked to drive faster. \
                 `none`: by the travel rule of the insurers' surveys.",
            ), "the travel rule")
    }

    pub(super) fn gravel(&mut self, place: usize) -> Result<(), Halt> {
        self.optional_amount(
            Question(
                "How much of that road is gravel or a track, one way",
                "The part where tankers are slower than the speed above.",
            ),
            Answers::Number,
            "none",
            |plan| plan.sources[place].gravel.clone(),
            |plan, gravel| {
                let units = plan.units;
                let source = &mut plan.sources[place];
                let known = source.gravel_speed.take();
                // Until it is asked, with a speed that is usual.
                let usual = || usual(units, (20.0, "mph"), (30.0, "km/h"));
                source.gravel_speed = gravel.as_ref().map(|_| known.unwrap_or_else(usual));
                source.gravel = gravel;
            },
        )?;
        if self.plan.sources[place].gravel.is_none() {
            return Ok(());
        }
        self.number(
            Part::Source(place, OfSource::GravelSpeed),
            Question(
                "How fast do they drive on that; the speed above is then that of the rest",
                "15 to 25 mph are common on gravel with a load.",
            ),
        )
    }

    pub(super) fn source_holds(&mut self, place: usize) -> Result<(), Halt> {
        self.number_or(Part::Source(place, OfSource::Holds), Answers::Number, Question(
                "How much water does it hold",
                "Of a cistern or a small pond what can be drawn from it; a river or a main has no end.",
            ), "more than you can use")
    }

    /// Who pumps at a source.
    pub(super) fn pump(&mut self, place: usize) -> Result<(), Halt> {
        self.optional_words(
            Question(
                "Who pumps there, if it takes a pump: the name",
                "A hydrant needs nobody. An engine of its own that drives to the pond and stays there, or one of your units or \
                 of the aid that brings a portable pump: then write that unit's name.",
            ),
            (self.plan.sources[place].pumped_by.clone(), "nobody"),
            |plan, typed| {
                let typed = typed.map(named).transpose()?;
                let is_another = plan.sources[place].pumped_by != typed;
                plan.sources[place].pumped_by = typed;
                plan.sources[place].pump_turnout.take_if(|_| is_another);
                let brought = pump_bringer(plan, &plan.sources[place]).is_some();
                let source = &mut plan.sources[place];
                if brought {
                    let known = source.pump_draws_in.take();
                    // Until it is asked.
                    source.pump_draws_in = Some(known.unwrap_or(Amount::plain(8.0)));
                    source.ready = None;
                } else {
                    source.pump_draws_in = None;
                    source.ready = Some(source.ready.take().unwrap_or(Amount::plain(15.0)));
                }
                Ok(())
            },
        )?;
        let source = &self.plan.sources[place];
        match &source.pumped_by {
            Some(engine) if pump_bringer(&self.plan, source).is_none() => {
                let near = nearest_unit(&self.plan, engine)
                    .map(|near| format!("; if you mean {near}, type `back`"))
                    .unwrap_or_default();
                let told = format!(
                    "  {engine} is taken as an engine that drives there and does nothing but pump{near}."
                );
                self.prompt.say(&told)
            }
            _ => Ok(()),
        }
    }

    /// When it can fill.
    pub(super) fn ready(&mut self, place: usize) -> Result<(), Halt> {
        if let Some(bringer) = pump_bringer(&self.plan, &self.plan.sources[place]) {
            // Between semicolons it is the minute at which the source is ready, as of any other.
            if !self.prompt.has_value_ahead() {
                self.prompt.reword_ahead(|minute| format!("{AT_MINUTE} {minute}"));
            }
            let has = self.plan.sources[place].pump_draws_in.as_ref().map(Amount::told);
            return self
                .optional_words(
                    Question(
                        &format!(
                            "How many minutes after {bringer} is at the fire does its pump draw (drive to the water and \
                             set-up)"
                        ),
                        "From the brakes set at the fire, through the drive to the water, to a primed pump: a drive of 5 min \
                         and 8 min of set-up are 13. Or as `minute 30`, after the alarm.",
                    ),
                    (has, NOT_TIMED),
                    |plan, typed| {
                        let draws_in = typed.map(|typed| draws_in(plan, &bringer, &typed));
                        plan.sources[place].pump_draws_in = draws_in.transpose()?;
                        Ok(())
                    },
                )
                .map(|_| ());
        }
        self.number(Part::Source(place, OfSource::Ready), Question(
                "From which minute after the alarm can it fill",
                "When water can go into the first tanker: the pump is there, set up and primed, or the hydrant opened.",
            ))
    }

    /// How often an engine comes that drives there.
    pub(super) fn pump_often(&mut self, place: usize) -> Result<(), Halt> {
        self.optional_amount(
            Question(
                "How often does that engine come when it is called",
                "One that does not leaves the source without a pump for that fire. Of an engine of others 9 in 10 is common.",
            ),
            Answers::Often,
            "always",
            |plan| plan.sources[place].pump_turnout.clone(),
            |plan, often| {
                // Silence is always.
                plan.sources[place].pump_turnout = often.filter(|often| !often.is_number(1.0));
            },
        )
    }

    pub(super) fn drop_tanks(&mut self) -> Result<(), Halt> {
        while self.next_drop_tank()? {}
        Ok(())
    }

    /// Another drop tank, if there is one.
    pub(super) fn next_drop_tank(&mut self) -> Result<bool, Halt> {
        let (asked, help, none) = if self.plan.drop_tanks.is_empty() {
            (
                "A drop tank: the name of the unit that brings it (or unit; gallons)",
                "The portable tank that tankers dump into. Name that first which is drafted from.",
                "none, tankers pump into the engine",
            )
        } else {
            (
                "Another drop tank: the name of the unit that brings it (or unit; gallons)",
                "A second place to dump; its water goes over into the first one.",
                "no more",
            )
        };
        let there = self.optional_words(Question(asked, help), (None, none), |plan, typed| {
            let Some(typed) = typed else { return Ok(()) };
            let brought_by = unit_called(plan, &typed)?;
            plan.drop_tanks.push(unsaid_drop_tank(plan.units, brought_by));
            Ok(())
        })?;
        if there {
            self.usual_of(Topic::DropTank(self.plan.drop_tanks.len() - 1))?;
        }
        Ok(there)
    }

    /// Who brings a drop tank, once more; whether it stays.
    pub(super) fn bringer(&mut self, place: usize) -> Result<bool, Halt> {
        let known = self.plan.drop_tanks[place].brought_by.clone();
        self.optional_words(
            Question(
                "The name of the unit that brings it; `none` takes the drop tank out of the plan",
                "One of your units or of the aid.",
            ),
            (Some(known), "none"),
            |plan, typed| {
                match typed {
                    Some(typed) => plan.drop_tanks[place].brought_by = unit_called(plan, &typed)?,
                    None => {
                        is_counted_by_no_option(plan, "drop_tanks", place)?;
                        plan.drop_tanks.remove(place);
                    }
                }
                Ok(())
            },
        )
    }

    pub(super) fn tank_holds(&mut self, place: usize) -> Result<(), Halt> {
        self.number(
            Part::TankHolds(place),
            Question(
                "How much does it hold",
                "1,500 to 5,000 gal are common; it should take the largest load.",
            ),
        )
    }
}

/// Minutes from the arrival of the unit that brings a pump until it draws: "13", or "minute 30" after the alarm.
fn draws_in(plan: &FirstPlan, bringer: &str, typed: &str) -> Result<Amount, String> {
    let read = |typed: &str| {
        Amount::typed(typed).map_err(|why| {
            let (problem, cure) = why.told();
            format!("{problem}; {cure}")
        })
    };
    let Some(minute) = typed.to_lowercase().strip_prefix(AT_MINUTE).map(str::to_owned) else {
        return read(typed);
    };
    let minute = read(&minute)?;
    let (at, there) = minute.json().as_f64().zip(arrival(plan, bringer)).ok_or_else(|| {
        format!("write it as minutes alone, or how many minutes after {bringer} is there")
    })?;
    if at > there {
        return Ok(Amount::plain(at - there));
    }
    let there = Amount::plain(there).told();
    Err(format!(
        "{bringer} is at the fire at minute {there} after the alarm, and its pump draws after that, not at minute {}",
        minute.told()
    ))
}

/// The unit that is meant, named as it is.
fn unit_called(plan: &FirstPlan, typed: &str) -> Result<String, String> {
    let names = names(plan);
    let found = names.iter().find(|name| alike(name, typed)).cloned();
    found.ok_or_else(|| format!("no unit of yours is named so; they are {}", names.join(", ")))
}
