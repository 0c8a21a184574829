//! The questions about the fire and the engines.

use std::io::{BufRead, Write};

use scenario_file::{Measure, Units, bare_number};
use serde_json::{Map, Value};

use super::terminal::prompt::{Answers, Question};
use super::unsaid::{unsaid, unsaid_supply, usual};
use super::{Asking, Depth, Halt};
use crate::amount::Amount;
use crate::amount::two_flows::first_and_whole;
use crate::first_plan::{FirstPlan, Start, named, rename};
use crate::part::{OfUnit, Part};
use crate::scenario_text::drafts_at_most;
use crate::sheets::sources_and_plan::units_of;

/// The most of an engine's tank that is kept back where nobody says how much. Judgement.
const KEPT_AT_MOST: f64 = 0.3;

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    pub(super) fn units(&mut self) -> Result<(), Halt> {
        self.words(
            Question(
                "Gallons and miles, or litres and kilometres? us or metric",
                "What a number without a unit counts as: gal, gpm, mi and mph, or L, L/min, km and km/h.",
            ),
            Some("us"),
            |plan, word| match units_of(&word.to_lowercase()) {
                Some(units) => {
                    *plan = unsaid(units);
                    Ok(())
                }
                None => Err("write us or metric".to_owned()),
            },
        )?;
        // A bare number is another amount now.
        self.prompt.forget_if_changed();
        Ok(())
    }

    /// What burns.
    pub(super) fn title(&mut self, depth: Depth) -> Result<(), Halt> {
        let title = (depth == Depth::All).then(|| self.plan.title.clone());
        self.words(
            Question(
                "What is burning, and where",
                "Such as: Hay barn, Quarry Lane. It stands above every answer.",
            ),
            title.as_deref(),
            |plan, words| {
                plan.title = words;
                Ok(())
            },
        )
    }

    /// The whole flow; with it, where that was said, what they begin with.
    pub(super) fn flow(&mut self) -> Result<(), Halt> {
        let begins_before = self.plan.start.clone();
        self.amount_of(
            Question(
                "How much water do all lines together need (such as 350, or 350 beginning with 150)",
                "The sum of what the nozzles flow: a 1-3/4 in hand line some 150 gpm, a 2-1/2 in line 250 gpm (common \
                 practice). Where they begin with less: `350, beginning with 150`. \
                 `bucketline new FILE --building --ask` and `bucketline flow` work it out by the building.",
            ),
            Answers::Number,
            |plan| plan.flow.clone(),
            |plan, typed| match first_and_whole(typed) {
                Some((first, whole)) => Ok((Some(first), whole)),
                None if typed.is_empty() => Ok((None, plan.flow.clone())),
                None => Answers::Number.read(typed).map(|whole| (None, whole)),
            },
            |plan, (first, whole)| {
                plan.flow = whole;
                match first {
                    Some(flow) => {
                        let until = minutes_until_all(plan);
                        let cure = format!("write `{}, beginning with {}` if that is meant", flow.told(), plan.flow.told());
                        plan.start = Some(less_than_all(plan, Start { flow, until }, &cure)?);
                    }
                    // What they begin with is less than the whole, or there is no such beginning.
                    None => {
                        let is_all = |start: &mut Start| {
                            start.flow.minus(&plan.flow).is_some_and(|more| more.is_at_least(0.0))
                        };
                        plan.start.take_if(is_all);
                    }
                }
                Ok(())
            },
        )?;
        if self.plan.start.is_none() || self.plan.start == begins_before {
            Ok(())
        } else {
            self.all_of_it_from()
        }
    }

    pub(super) fn duration(&mut self) -> Result<(), Halt> {
        self.number(
            Part::Duration,
            Question(
                "For how long, from first water",
                "Surveys ask for two hours or more (common practice); a barn of hay takes longer.",
            ),
        )
    }

    /// What they begin with.
    pub(super) fn start(&mut self) -> Result<(), Halt> {
        self.optional_amount_if(
            Question(
                "With how much do they start, if that is less",
                "Such as 150 gpm: one line, until there are hands and water for the others.",
            ),
            Answers::Number,
            "all of it at once",
            |plan| plan.start.as_ref().map(|start| start.flow.clone()),
            |plan, flow| {
                let until = minutes_until_all(plan);
                let cure = "write less, or `none` where they begin with all of it";
                let start = flow.map(|flow| less_than_all(plan, Start { flow, until }, cure));
                plan.start = start.transpose()?;
                Ok(())
            },
        )?;
        if self.plan.start.is_none() { Ok(()) } else { self.all_of_it_from() }
    }

    fn all_of_it_from(&mut self) -> Result<(), Halt> {
        self.number(
            Part::StartUntil,
            Question(
                "How many minutes after first water is the whole flow wanted",
                "From first water, not from the alarm.",
            ),
        )
    }

    pub(super) fn name_of_attack_engine(&mut self, depth: Depth) -> Result<(), Halt> {
        let known = (depth == Depth::All).then(|| self.plan.attack_engine.name.clone());
        self.words(
            Question(
                "The engine that pumps the attack lines: its name (or name; water; minutes)",
                "As your dispatcher calls it. Its lines are the ones that must not run dry.",
            ),
            Some(known.as_deref().unwrap_or("Engine 1")),
            |plan, name| {
                let name = named(name)?;
                let old = std::mem::replace(&mut plan.attack_engine.name, name.clone());
                rename(plan, &old, &name);
                Ok(())
            },
        )
    }

    /// Its water; with it, at first, what is kept of that.
    pub(super) fn engine_water(&mut self, depth: Depth) -> Result<(), Halt> {
        self.amount(
            Question(
                "How much water is in its tank",
                "Engines carry 500 to 1,500 gal (common practice).",
            ),
            Answers::Number,
            |plan| plan.attack_engine.water.clone().unwrap_or(Amount::plain(1_000.0)),
            |plan, water| {
                if depth == Depth::Usual {
                    plan.reserve = usual_reserve(plan, &water);
                }
                plan.attack_engine.water = Some(water);
            },
        )
    }

    pub(super) fn engine_minutes(&mut self) -> Result<(), Halt> {
        self.number(Part::AttackEngine(OfUnit::Minutes), Question(
                "How many minutes after the alarm is it there",
                "From the alarm to the brakes set, on an ordinary night: what your call records show.",
            ))
    }

    pub(super) fn reserve(&mut self) -> Result<(), Halt> {
        self.number(
            Part::Reserve,
            Question(
                "How much of its tank is kept for backing out",
                "Water that nobody plans with: 200 to 500 gal is common.",
            ),
        )
    }

    /// The supply engine's name; whether there is one.
    pub(super) fn name_of_supply_engine(&mut self) -> Result<bool, Halt> {
        let known = self.plan.supply_engine.as_ref().map(|engine| engine.name.clone());
        let (drafted, kept) = (drafter(&self.plan).to_owned(), self.plan.drafting.clone());
        let is_there = self.optional_words(
            Question(
                "A second engine that drafts from the drop tank: its name (or name; minutes)",
                "The supply engine, which feeds the attack engine. Without one the attack engine drafts itself. An \
                 engine that pumps at a pond is asked for with the pond.",
            ),
            (known, "none, the first one drafts"),
            |plan, name| {
                let Some(name) = name else {
                    return no_supply_engine(plan);
                };
                let name = named(name)?;
                match plan.supply_engine.as_mut() {
                    Some(engine) => {
                        let old = std::mem::replace(&mut engine.name, name.clone());
                        rename(plan, &old, &name);
                    }
                    None => {
                        plan.supply_engine = Some(unsaid_supply(name));
                        plan.drafting.clear();
                    }
                }
                Ok(())
            },
        )?;
        if self.plan.drafting != kept {
            self.say_what_went_with(&drafted, &kept)?;
        }
        Ok(is_there)
    }

    /// Says what was kept of an engine's drafting, and is not of the one that drafts now.
    fn say_what_went_with(&mut self, drafted: &str, kept: &Map<String, Value>) -> Result<(), Halt> {
        let keys: Vec<String> = kept.keys().map(|key| format!("`supply/{key}`")).collect();
        let unit = if self.plan.units == Units::Us { "gpm" } else { "L/min" };
        let notes = match self.plan.notes.is_empty() {
            true => "",
            false => " Your notes stay: see whether one tells of it.",
        };
        self.prompt.say(&format!(
            "  {drafted} drafts no more, and what the file says of its pump goes with it ({}): as usual {} drafts {} at \
             most.{notes}",
            keys.join(", "),
            drafter(&self.plan),
            drafts_at_most(&self.plan).told_in(unit),
        ))
    }

    pub(super) fn supply_engine_minutes(&mut self) -> Result<(), Halt> {
        self.number(
            Part::SupplyEngine(OfUnit::Minutes),
            Question(
                "How many minutes after the alarm is it there",
                "From the alarm to the brakes set, on an ordinary night.",
            ),
        )
    }
}

/// When all is wanted, where less is at first: until it is asked, a minute that is usual.
fn minutes_until_all(plan: &FirstPlan) -> Amount {
    plan.start.as_ref().map_or(Amount::plain(10.0), |one| one.until.clone())
}

/// A beginning, which is less than the whole.
///
/// - Errors: it is as much, or more.
fn less_than_all(plan: &FirstPlan, start: Start, cure: &str) -> Result<Start, String> {
    let bare = |amount: &Amount| bare_number(&amount.json(), Measure::Flow, plan.units);
    // What is no flow is told by the plan's own check.
    let is_less = bare(&start.flow).zip(bare(&plan.flow)).is_none_or(|(first, all)| first < all);
    if is_less {
        return Ok(start);
    }
    Err(format!(
        "the lines cannot begin with {} where all of them together need {}: a beginning is less; {cure}",
        start.flow.told(),
        plan.flow.told()
    ))
}

/// The engine that drafts.
fn drafter(plan: &FirstPlan) -> &str {
    &plan.supply_engine.as_ref().unwrap_or(&plan.attack_engine).name
}

/// What is kept of drafting was of the engine that goes.
fn no_supply_engine(plan: &mut FirstPlan) -> Result<(), String> {
    let Some(engine) = plan.supply_engine.take() else { return Ok(()) };
    plan.drafting.clear();
    super::taken_out::brings_nothing(plan, &engine.name)
}

/// What is kept of a tank, where nobody has said it: the usual water, or of a small tank a part.
fn usual_reserve(plan: &FirstPlan, water: &Amount) -> Amount {
    let kept = usual(plan.units, (300.0, "gal"), (1_000.0, "L"));
    let bare = |amount: &Amount| bare_number(&amount.json(), Measure::Volume, plan.units);
    match (bare(water), bare(&kept)) {
        (Some(water), Some(most)) if water > 0.0 && most > KEPT_AT_MOST * water => {
            let part = (KEPT_AT_MOST * water / 10.0).round() * 10.0;
            usual(plan.units, (part, "gal"), (part, "L"))
        }
        _ => kept,
    }
}
