//! All that was answered, in plain sentences, before it is written; and the way to mend one of them.

use std::io::{BufRead, Write};

use scenario_file::Alarm;

use super::figure::{Figure, Mend, figures, mend_of};
use super::tankers::Whose;
use super::terminal::until_right::Told;
use super::{Asking, Depth, Halt};
use crate::careful::careful;
use crate::first_plan::{FirstPlan, alike};
use crate::scenario_text::checked;
use crate::sentences::{self, Say, Topic, topics};

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
enum Wanted {
    Mend(Mend),
    Add(More),
}

const HELP: &str = "Nothing is written yet. A number, or a name, asks everything about that one again, with what it has \
                    in brackets: also how often it comes, how long it dumps, the alarm it is on, gravel, how much a pond \
                    holds. With a word behind it that one thing is asked, and with a value none: `4 minutes 23`, \
                    `Tanker 5 2,500 gal`, `4 often 3 in 4`, `flow 350`. `none` for its name takes it out.";

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    /// Shows the plan until it is right.
    pub(super) fn summary(&mut self) -> Result<(), Halt> {
        self.until_right(told, HELP, wanted_of, |asking, wanted| match wanted {
            Wanted::Mend(Mend { topic, figure: None, .. }) => asking.mend(topic),
            Wanted::Mend(Mend { topic, figure: Some(figure), value }) => {
                let says_minute = value.as_ref().is_some_and(|value| has_digit_behind(value));
                value.into_iter().for_each(|value| asking.prompt.comes_next(value));
                asking.figure(topic, figure, Depth::All)?;
                asking.what_hangs_on(topic, figure, says_minute)
            }
            Wanted::Add(more) => asking.add(more),
        })
    }

    /// Asks what most plans need of something that has its name.
    pub(super) fn usual_of(&mut self, topic: Topic) -> Result<(), Halt> {
        self.all_figures(topic, Depth::Usual)?;
        self.besides(topic)?;
        self.say_back(topic)
    }

    /// Asks what nobody said and what was mended needs: the minute of an alarm that nobody was on, and from when a source
    /// has its new pump.
    fn what_hangs_on(
        &mut self,
        topic: Topic,
        figure: Figure,
        says_minute: bool,
    ) -> Result<(), Halt> {
        let is_asked = |plan: &FirstPlan, wanted: Figure| {
            figures(plan, topic).iter().any(|(figure, _)| *figure == wanted)
        };
        match (topic, figure) {
            (Topic::Aid(place), Figure::Alarm)
                if !says_minute
                    && self.plan.aid[place].alarm.is_some_and(|alarm| alarm != Alarm::First)
                    && is_asked(&self.plan, Figure::CalledAt) =>
            {
                self.called_at(place)
            }
            (Topic::Source(place), Figure::Pump) => self.ready(place),
            _ => Ok(()),
        }
    }

    /// Asks everything once more; its name may take it out.
    fn mend(&mut self, topic: Topic) -> Result<(), Halt> {
        let stays = self.figure(topic, Figure::Name, Depth::All)?;
        if stays { self.all_figures(topic, Depth::All) } else { Ok(()) }
    }

    fn all_figures(&mut self, topic: Topic, depth: Depth) -> Result<(), Halt> {
        // What is to be asked may hang on what was answered before it.
        let mut asked = 0;
        while let Some((figure, is_usual)) = figures(&self.plan, topic).get(asked).copied() {
            if is_usual || depth == Depth::All {
                self.figure(topic, figure, depth)?;
            }
            asked += 1;
        }
        Ok(())
    }

    /// Asks one thing.
    ///
    /// - Returns: whether what it is of is still there.
    fn figure(&mut self, topic: Topic, figure: Figure, depth: Depth) -> Result<bool, Halt> {
        let asked = match (topic, figure) {
            (Topic::Own(place), Figure::Name) => return self.name_of(Whose::Own(place)),
            (Topic::Aid(place), Figure::Name) => return self.name_of(Whose::Aid(place)),
            (Topic::Source(place), Figure::Name) => return self.name_of_source(place),
            (Topic::DropTank(place), Figure::Name) => return self.bringer(place),
            (Topic::SupplyEngine, Figure::Name) => return self.name_of_supply_engine(),
            (Topic::Fire, Figure::Name) => self.title(depth),
            (Topic::Fire, Figure::Start) => self.start(),
            (Topic::Fire, Figure::Duration) => self.duration(),
            (Topic::Fire, _) => self.flow(),
            (Topic::AttackEngine, Figure::Name) => self.name_of_attack_engine(depth),
            (Topic::AttackEngine, Figure::Water) => self.engine_water(depth),
            (Topic::AttackEngine, Figure::Minutes) => self.engine_minutes(),
            (Topic::AttackEngine, _) => self.reserve(),
            (Topic::SupplyEngine, _) => self.supply_engine_minutes(),
            (Topic::Own(place), figure) => self.figure_of_tanker(Whose::Own(place), figure),
            (Topic::Aid(place), Figure::Alarm) => self.alarm(place),
            (Topic::Aid(place), Figure::CalledAt) => self.called_at(place),
            (Topic::Aid(place), figure) => self.figure_of_tanker(Whose::Aid(place), figure),
            (Topic::Source(place), figure) => self.figure_of_source(place, figure),
            (Topic::DropTank(place), _) => self.tank_holds(place),
        };
        asked.map(|()| true)
    }

    fn figure_of_tanker(&mut self, whose: Whose, figure: Figure) -> Result<(), Halt> {
        match figure {
            Figure::Water => self.water(whose),
            Figure::Often => self.often(whose),
            Figure::Empties => self.empties(whose),
            Figure::Department => self.department(whose),
            Figure::ComesWhole => self.comes_whole(whose),
            _ => self.minutes(whose),
        }
    }

    fn figure_of_source(&mut self, place: usize, figure: Figure) -> Result<(), Halt> {
        match figure {
            Figure::Positions => self.positions(place),
            Figure::Pump => self.pump(place),
            Figure::Ready => self.ready(place),
            Figure::PumpOften => self.pump_often(place),
            Figure::Road => self.road(place),
            Figure::Speed => self.speed(place),
            Figure::Gravel => self.gravel(place),
            Figure::Holds => self.source_holds(place),
            _ => self.source_flow(place),
        }
    }

    /// Says in a sentence what was answered on one line, whose questions were not shown.
    fn say_back(&mut self, topic: Topic) -> Result<(), Halt> {
        if !self.prompt.ran_ahead() {
            return Ok(());
        }
        let told = Say(self.plan.units).topic(&self.plan, topic);
        self.prompt.say(&format!("  {told}"))
    }

    fn add(&mut self, more: More) -> Result<(), Halt> {
        match more {
            More::Own => self.next_own_tanker().map(|_| ()),
            More::Aid => self.next_aid().map(|_| ()),
            More::Source => self.next_source().map(|_| ()),
            More::DropTank => self.next_drop_tank().map(|_| ()),
            More::SupplyEngine => self.mend(Topic::SupplyEngine),
        }
    }
}

/// Whether a number stands behind the first word: "second 15", not "2".
fn has_digit_behind(value: &str) -> bool {
    value.split_whitespace().skip(1).any(|word| word.contains(|c: char| c.is_ascii_digit()))
}

/// What was meant by a number or a name.
fn wanted_of(plan: &FirstPlan, typed: &str) -> Result<Wanted, String> {
    let more = MORE.iter().find(|(words, _)| alike(words, typed)).map(|(_, more)| *more);
    if let Some(more) = more {
        return Ok(Wanted::Add(more));
    }
    mend_of(plan, typed).map(Wanted::Mend).map_err(|why| {
        why.unwrap_or_else(|| {
            format!(
                "write a number from 1 to {}, or a name as it stands there; Enter alone writes the plan",
                topics(plan).len()
            )
        })
    })
}

/// What a topic may be called by.
pub(super) fn names_of(plan: &FirstPlan, topic: Topic) -> Vec<String> {
    match topic {
        Topic::Fire => ["fire", "the fire", &plan.title].map(str::to_owned).to_vec(),
        Topic::AttackEngine => vec![plan.attack_engine.name.clone(), "attack engine".to_owned()],
        Topic::SupplyEngine => (plan.supply_engine.iter().map(|one| one.name.clone()))
            .chain(["supply engine".to_owned()])
            .collect(),
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
    let warnings = checked(plan).map(|(_, warnings)| warnings).unwrap_or_default();
    let odd = careful(plan, &warnings);
    Told {
        head: "The plan, as you said it:",
        lines: topics(plan).into_iter().map(|topic| say.topic(plan, topic)).collect(),
        besides: sentences::besides(plan),
        slips: odd.iter().filter(|one| one.is_slip).count(),
        odd: odd.into_iter().map(|one| one.told).collect(),
        asked: "Is it right? A number or a name mends that one or says more of it, as `4 minutes 23` or `flow 350`; \
                `own tanker`, `aid tanker`, `source`, `drop tank` or `supply engine` adds one",
    }
}
