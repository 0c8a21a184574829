//! The questions about the fire and the engines.

use std::io::{BufRead, Write};

use scenario_file::{Measure, bare_number};

use super::prompt::{Answers, Question};
use super::unsaid::{unsaid, unsaid_supply, usual};
use super::{Asking, Depth, Halt};
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Start, rename};
use crate::part::{OfUnit, Part};
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

    pub(super) fn fire(&mut self, depth: Depth) -> Result<(), Halt> {
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
        )?;
        self.number(Part::Flow, Question(
                "How much water do all lines together need",
                "The sum of what the nozzles flow: a 1-3/4 in hand line some 150 gpm, a 2-1/2 in line 250 gpm (common \
                 practice). What they start with, where that is less, is asked when the fire is mended at the end. \
                 `bucketline new FILE --building --ask` and `bucketline flow` work it out by the building.",
            ))?;
        if depth == Depth::All {
            self.start()?;
        }
        self.number(
            Part::Duration,
            Question(
                "For how long, from first water",
                "Surveys ask for two hours or more (common practice); a barn of hay takes longer.",
            ),
        )
    }

    fn start(&mut self) -> Result<(), Halt> {
        self.optional_amount(
            Question(
                "With how much do they start, if that is less",
                "Such as 150 gpm: one line, until there are hands and water for the others.",
            ),
            Answers::Number,
            "all of it at once",
            |plan| plan.start.as_ref().map(|start| start.flow.clone()),
            |plan, flow| {
                // Until it is asked, with a minute that is usual.
                let until =
                    plan.start.as_ref().map_or(Amount::plain(10.0), |one| one.until.clone());
                plan.start = flow.map(|flow| Start { flow, until });
            },
        )?;
        if self.plan.start.is_none() {
            return Ok(());
        }
        self.number(
            Part::StartUntil,
            Question(
                "How many minutes after first water is the whole flow wanted",
                "From first water, not from the alarm.",
            ),
        )
    }

    pub(super) fn attack_engine(&mut self, depth: Depth) -> Result<(), Halt> {
        let known = (depth == Depth::All).then(|| self.plan.attack_engine.name.clone());
        self.words(
            Question(
                "The engine that pumps the attack lines: its name",
                "As your dispatcher calls it. Its lines are the ones that must not run dry.",
            ),
            Some(known.as_deref().unwrap_or("Engine 1")),
            |plan, name| {
                let old = std::mem::replace(&mut plan.attack_engine.name, name.clone());
                rename(plan, &old, &name);
                Ok(())
            },
        )?;
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
        )?;
        self.number(Part::AttackEngine(OfUnit::Minutes), Question(
                "How many minutes after the alarm is it there",
                "From the alarm to the brakes set, on an ordinary night: what your call records show.",
            ))?;
        self.number(
            Part::Reserve,
            Question(
                "How much of its tank is kept for backing out",
                "Water that nobody plans with: 200 to 500 gal is common.",
            ),
        )
    }

    pub(super) fn supply_engine(&mut self) -> Result<(), Halt> {
        let known = self.plan.supply_engine.as_ref().map(|engine| engine.name.clone());
        let drafts = self.optional_words(
            Question(
                "A second engine that drafts from the drop tank: its name",
                "The supply engine, which feeds the attack engine. Without one the attack engine drafts itself. An \
                 engine that pumps at a pond is asked for with the pond.",
            ),
            (known, "none, the first one drafts"),
            |plan, name| {
                let Some(name) = name else {
                    return no_supply_engine(plan);
                };
                match plan.supply_engine.as_mut() {
                    Some(engine) => {
                        let old = std::mem::replace(&mut engine.name, name.clone());
                        rename(plan, &old, &name);
                    }
                    None => plan.supply_engine = Some(unsaid_supply(name)),
                }
                Ok(())
            },
        )?;
        if !drafts {
            return Ok(());
        }
        self.number(
            Part::SupplyEngine(OfUnit::Minutes),
            Question(
                "How many minutes after the alarm is it there",
                "From the alarm to the brakes set, on an ordinary night.",
            ),
        )
    }
}

fn no_supply_engine(plan: &mut FirstPlan) -> Result<(), String> {
    let Some(engine) = plan.supply_engine.take() else { return Ok(()) };
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
